"""What another size does: diameter, true speed, load and speed rating, against the size that it would replace.

The verdict is in the findings' words: keep (it stays within the bounds), inspect (it must be confirmed), replace
(choose another size).
"""

import msgspec

from studio.decide.sizes import Size, same_size
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import MINUS, format_number
from studio.reference.tables import Tables
from studio.tires.geometry import change_percent
from studio.tires.speed import true_speed_after_change

_INDICATED = 60.0


class Reason(msgspec.Struct, frozen=True, kw_only=True):
    """One reason with the verdict that it alone would give."""

    text: str
    verdict: Verdict


class Swap(msgspec.Struct, frozen=True, kw_only=True):
    """One size in place of another; percentages and speeds from the geometric diameters."""

    before: Size
    after: Size
    reasons: tuple[Reason, ...]

    @property
    def diameter_change_percent(self) -> float:
        """How much taller the second is than the first."""
        return change_percent(self.before.overall_diameter.value, self.after.overall_diameter.value)

    @property
    def true_speed_at_60(self) -> float:
        """True speed while the speedometer, exact with the first size, shows 60 (any unit of speed)."""
        before, after = self.before.overall_diameter.value, self.after.overall_diameter.value
        return true_speed_after_change(_INDICATED, before, after)

    @property
    def load_index_change(self) -> int | None:
        """Steps of load index from the first to the second; None where one of them is not marked."""
        before, after = self.before.marking.load_index, self.after.marking.load_index
        return None if before is None or after is None else after - before

    @property
    def verdict(self) -> Verdict:
        """The gravest of the reasons."""
        return max((reason.verdict for reason in self.reasons), key=SEVERITY.index)


def swap(before: Size, after: Size, tables: Tables) -> Swap:
    """Hold ``after`` against ``before``, the size that the car has or its placard asks for."""
    found = (
        _diameter(before, after, tables), *_load(before, after), *_speed(before, after), *_service(before, after),
        *_fit(before, after), *_casing(before, after),
    )  # fmt: skip
    return Swap(before=before, after=after, reasons=found)


def _diameter(before: Size, after: Size, tables: Tables) -> Reason:
    bound = tables.design["substitute_diameter_percent"]
    change = change_percent(before.overall_diameter.value, after.overall_diameter.value)
    within = abs(change) <= bound.value
    sign = "+" if change > 0 else MINUS if change < 0 else ""
    text = (
        f"overall diameter changes by {sign}{format_number(abs(change), 2)} %, {'within' if within else 'beyond'} the "
        f"usual {bound.value:g} % ({bound.source.standing})"
    )
    return Reason(text=text, verdict="keep" if within else "replace")


def _load(before: Size, after: Size) -> list[Reason]:
    old, new = before.load, after.load
    if old is None or new is None:
        return [Reason(text="load index is not known on both: compare it on the sidewalls", verdict="inspect")]
    if new.load_kg < old.load_kg:
        return [Reason(text=f"load index {new.load_index} carries less than {old.load_index}", verdict="replace")]
    found = [Reason(text=f"load index {new.load_index} is not below {old.load_index}", verdict="keep")]
    if after.marking.extra_load and not before.marking.extra_load:
        found.append(Reason(text="extra load carries its index only at a higher pressure", verdict="inspect"))
    return found


def _speed(before: Size, after: Size) -> list[Reason]:
    old, new = before.speed, after.speed
    if old is None or new is None:
        return [Reason(text="speed symbol is not known on both: compare it on the sidewalls", verdict="inspect")]
    if new.speed_kmh < old.speed_kmh:
        text = f"speed symbol {new.symbol} is below {old.symbol}: some countries allow that on winter tires only"
        return [Reason(text=text, verdict="inspect")]
    return [Reason(text=f"speed symbol {new.symbol} is not below {old.symbol}", verdict="keep")]


def _service(before: Size, after: Size) -> list[Reason]:
    old, new = before.marking.service, after.marking.service
    if new == old and before.marking.prefix == after.marking.prefix:
        return []
    if new == "temporary" and old != new:
        return [Reason(text="the second is a temporary spare: for a short trip only", verdict="replace")]
    if new == old:
        text = "the two are rated by different load rules (another letter before the size)"
        return [Reason(text=text, verdict="inspect")]
    return [Reason(text=f"{new} tire in place of a {old} tire: other load and pressure rules", verdict="inspect")]


def _fit(before: Size, after: Size) -> list[Reason]:
    found = []
    if before.marking.rim_diameter_in != after.marking.rim_diameter_in:
        old, new = before.marking.rim_diameter_in, after.marking.rim_diameter_in
        found.append(Reason(text=f"needs other wheels: rim {new:g} in place of {old:g} in", verdict="inspect"))
    elif before.dimensions.section_width_mm != after.dimensions.section_width_mm:
        found.append(Reason(text="another width: the wheel's width must be approved for it", verdict="inspect"))
    if not same_size(before.marking, after.marking):
        found.append(Reason(text="clearance must be checked on the car", verdict="inspect"))
    return found


def _casing(before: Size, after: Size) -> list[Reason]:
    found = []
    if before.marking.construction != after.marking.construction:
        new, old = after.marking.construction, before.marking.construction
        found.append(Reason(text=f"{new} in place of {old}: never mixed on one car", verdict="inspect"))
    if before.marking.run_flat != after.marking.run_flat:
        text = "run-flat and standard tires are mixed only where the vehicle's manual allows it"
        found.append(Reason(text=text, verdict="inspect"))
    return found
