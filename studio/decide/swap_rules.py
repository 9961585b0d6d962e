"""The rule book on another size: diameter, load and speed rating, kind and casing, against the size it would replace.

Every verdict on a size goes by these rules, whoever asks. The verdict is in the findings' words: keep (it stays within
the bounds), watch (allowed with a condition), inspect (it must be confirmed), replace (choose another size).
"""

from collections.abc import Iterable

import msgspec

from studio.decide.audience import Audience
from studio.decide.carried import Carried
from studio.decide.sizes import Size, same_size
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import MINUS, Quantity, format_number
from studio.model.specimen import Season
from studio.reference.rows import SpeedException
from studio.reference.tables import Tables
from studio.tires.geometry import change_percent
from studio.tires.marking import Marking
from studio.tires.speed import true_speed_after_change

_INDICATED = 60.0
_SAME_KG = 1e-6
_ALPINE = "3PMSF"
_WINTER: tuple[Season, ...] = ("winter", "studded")


class Reason(msgspec.Struct, frozen=True, kw_only=True):
    """One reason with the verdict that it alone would give; ``confirm`` is what must be confirmed, in a word or two."""

    text: str
    verdict: Verdict
    confirm: str = ""


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
        return gravest(self.reasons)


class AtPressure(msgspec.Struct, frozen=True, kw_only=True):
    """What the two sizes carry at one pressure, and the pressure that the second needs to carry as much (None: none).

    ``words`` name the pressure in the audience's units.
    """

    words: str
    before_kg: float
    after_kg: float
    needs: str

    @property
    def enough(self) -> bool:
        """Whether the second carries what the first does."""
        return self.after_kg >= self.before_kg - _SAME_KG


def at_pressure(before: Carried, after: Carried, audience: Audience) -> AtPressure:
    """Two tires at the pressure for which their loads were computed, as they count on the car."""
    needs = after.pressure_for(before.each_kg)
    return AtPressure(
        words=audience.own(before.pressure), before_kg=before.each_kg, after_kg=after.each_kg,
        needs=audience.both(needs) if needs else "",
    )  # fmt: skip


def gravest(reasons: Iterable[Reason]) -> Verdict:
    """The gravest verdict; keep where there is no reason."""
    return max((reason.verdict for reason in reasons), key=SEVERITY.index, default="keep")


def swap(before: Size, after: Size, tables: Tables) -> Swap:
    """Hold ``after`` against ``before``, the size that the car has or its placard asks for."""
    found = (
        diameter_reason(before, after, tables), *load_reasons(before, after), *speed_reasons(before, after),
        *service_reasons(before, after), *fit_reasons(before, after), *casing_reasons(before, after),
    )  # fmt: skip
    return Swap(before=before, after=after, reasons=found)


def diameter_reason(before: Size, after: Size, tables: Tables) -> Reason:
    """The overall diameter against the usual bound."""
    bound = tables.design["substitute_diameter_percent"]
    change = change_percent(before.overall_diameter.value, after.overall_diameter.value)
    within = abs(change) <= bound.value
    sign = "+" if change > 0 else MINUS if change < 0 else ""
    text = (
        f"overall diameter changes by {sign}{format_number(abs(change), 2)} %, {'within' if within else 'beyond'} the "
        f"usual {bound.value:g} % ({bound.source.standing})"
    )
    return Reason(text=text, verdict="keep" if within else "replace", confirm="" if within else "diameter")


def load_reasons(before: Size, after: Size, at: AtPressure | None = None) -> list[Reason]:
    """The load index, and where the pressure is known, what both carry at it."""
    old, new = before.load, after.load
    if old is None or new is None:
        text = "load index is not known on both: compare it on the sidewalls"
        return [Reason(text=text, verdict="inspect", confirm="load index")]
    if new.load_kg < old.load_kg:
        text = f"load index {new.load_index} carries less than {old.load_index}"
        return [Reason(text=text, verdict="replace", confirm="load index")]
    found = [Reason(text=f"load index {new.load_index} is not below {old.load_index}", verdict="keep")]
    if at is not None:
        return [*found, _pressure_reason(at)]
    if after.marking.extra_load and not before.marking.extra_load:
        text = "extra load carries its index only at a higher pressure"
        found.append(Reason(text=text, verdict="inspect", confirm="pressure"))
    return found


def _pressure_reason(at: AtPressure) -> Reason:
    carries = " against ".join(_load(load_kg) for load_kg in (at.after_kg, at.before_kg))
    if at.enough:
        return Reason(text=f"at {at.words} it carries {carries}, not less", verdict="keep")
    needs = f"needs {at.needs} for as much" if at.needs else "carries as much at no pressure"
    return Reason(text=f"at {at.words} it carries {carries}: it {needs}", verdict="inspect", confirm="pressure")


def _load(load_kg: float) -> str:
    return Quantity(load_kg, "kg").text()


def winter_rule(region: str, tables: Tables) -> SpeedException | None:
    """The region's rule on winter tires of a lower speed symbol."""
    rules = tables.rules_in(tables.speed_exception, region) if region in tables.regions else ()
    return next(iter(rules), None)


def slower_allowed(rule: SpeedException | None, after: Size, season: Season | None) -> bool:
    """Whether a region's rule lets this tire have a lower speed symbol: winter tires, not below its speed.

    A rule that asks for the alpine symbol wants it on the sidewall. Without a season the marking alone can say winter.
    """
    if rule is None or after.speed is None or not _for_winter(after.marking, season):
        return False
    fast_enough = rule.value is None or after.speed.speed_kmh >= rule.value
    return fast_enough and (not rule.mark or rule.mark in after.marking.marks)


def _for_winter(marking: Marking, season: Season | None) -> bool:
    return _ALPINE in marking.marks if season is None else season in _WINTER


def speed_reasons(
    before: Size, after: Size, rule: SpeedException | None = None, season: Season | None = None
) -> list[Reason]:
    """The speed symbol; ``rule`` is the region's exception for winter tires."""
    old, new = before.speed, after.speed
    if old is None or new is None:
        text = "speed symbol is not known on both: compare it on the sidewalls"
        return [Reason(text=text, verdict="inspect", confirm="speed symbol")]
    if new.speed_kmh >= old.speed_kmh:
        return [Reason(text=f"speed symbol {new.symbol} is not below {old.symbol}", verdict="keep")]
    below = f"speed symbol {new.symbol} is below {old.symbol}"
    if rule is not None and slower_allowed(rule, after, season):
        return [Reason(text=f"{below}: {rule.wording} ({rule.source.title}, {rule.source.locator})", verdict="watch")]
    text = f"{below}: some countries allow that on winter tires only"
    return [Reason(text=text, verdict="inspect", confirm="speed symbol")]


def service_reasons(before: Size, after: Size) -> list[Reason]:
    """What the tires are made for, and by which rules they are rated."""
    old, new = before.marking.service, after.marking.service
    if new == old and before.marking.prefix == after.marking.prefix:
        return []
    if new == "temporary" and old != new:
        text = "the second is a temporary spare: for a short trip only"
        return [Reason(text=text, verdict="replace", confirm="that it is a temporary spare")]
    if new == old:
        text = "the two are rated by different load rules (another letter before the size)"
        return [Reason(text=text, verdict="inspect", confirm="load rules")]
    text = f"{new} tire in place of a {old} tire: other load and pressure rules"
    return [Reason(text=text, verdict="inspect", confirm="load and pressure")]


def fit_reasons(before: Size, after: Size) -> list[Reason]:
    """Whether it fits wheel and car."""
    found = []
    if before.marking.rim_diameter_in != after.marking.rim_diameter_in:
        old, new = before.marking.rim_diameter_in, after.marking.rim_diameter_in
        text = f"needs other wheels: rim {new:g} in place of {old:g} in"
        found.append(Reason(text=text, verdict="inspect", confirm="wheels"))
    elif before.dimensions.section_width_mm != after.dimensions.section_width_mm:
        text = "another width: the wheel's width must be approved for it"
        found.append(Reason(text=text, verdict="inspect", confirm="rim width"))
    if not same_size(before.marking, after.marking):
        text = "clearance must be checked on the car"
        found.append(Reason(text=text, verdict="inspect", confirm="clearance"))
    return found


def casing_reasons(before: Size, after: Size) -> list[Reason]:
    """Construction, and running flat."""
    found = []
    if before.marking.construction != after.marking.construction:
        new, old = after.marking.construction, before.marking.construction
        text = f"{new} in place of {old}: never mixed on one car"
        found.append(Reason(text=text, verdict="inspect", confirm="construction"))
    if before.marking.run_flat != after.marking.run_flat:
        text = "run-flat and standard tires are mixed only where the vehicle's manual allows it"
        found.append(Reason(text=text, verdict="inspect", confirm="run-flat"))
    return found
