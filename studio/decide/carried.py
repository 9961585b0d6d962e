"""What a tire carries at the pressure that is set: its reference pressure, the law below it, the divisor of the car.

The pressure laws are those of ETRTO (0.8) and of P-metric tires (0.5). Where a tire's own law is not known, 0.8 is
taken: below the reference pressure it gives the lower load. Nothing is computed above the reference pressure or below
the lowest one of the table.
"""

import msgspec

from studio.decide.audience import Audience
from studio.decide.sizes import Size
from studio.decide.wording import on_paper
from studio.model.car import Certified
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.rows import LoadIndex, Value
from studio.reference.tables import Tables
from studio.tires.load import PressureLaw, divided_load_kg, load_at_pressure_kg, pressure_for_load_kpa
from studio.tires.marking import Marking

_DIVIDED: tuple[Certified, ...] = ("mpv", "light_truck")
_RANGES = {"C": "lt_range_c_kpa", "D": "lt_range_d_kpa", "E": "lt_range_e_kpa"}
CERTIFIED_WORDS: dict[Certified, str] = {
    "passenger_car": "a passenger car", "mpv": "a multipurpose passenger vehicle", "light_truck": "a light truck",
}  # fmt: skip


class Basis(msgspec.Struct, frozen=True, kw_only=True):
    """The reference pressure of a tire's rating, and how its load falls below it. ``assumed`` says what was taken."""

    words: str
    reference: Value
    exponent: Value
    lowest: Value
    assumed: str = ""

    @property
    def law(self) -> PressureLaw:
        """The law as the arithmetic takes it."""
        return PressureLaw(name=self.words, exponent=self.exponent.value, lowest_kpa=self.lowest.value)


class Refusal(msgspec.Struct, frozen=True, kw_only=True):
    """Why no load is computed, and what would have to be known. ``full_kg`` is the rating that counts, where known.

    ``too_low`` says that it is the pressure, which is known and for which no load is computed.
    """

    missing: str
    why: str
    full_kg: float | None = None
    too_low: bool = False


class Carried(msgspec.Struct, frozen=True, kw_only=True):
    """What one tire carries at a pressure: ``undivided_kg``. ``divisor`` is None where the rating counts in full."""

    size: Size
    row: LoadIndex
    basis: Basis
    pressure: Quantity
    undivided_kg: float
    divisor: Value | None

    @property
    def full_kg(self) -> float:
        """The rating at the reference pressure."""
        return self.row.load_kg

    @property
    def each_kg(self) -> float:
        """What counts of it on this car."""
        return self.divided(self.undivided_kg)

    @property
    def most_kg(self) -> float:
        """What counts of it on this car at its reference pressure."""
        return self.divided(self.full_kg)

    def divided(self, load_kg: float) -> float:
        """A rating as it counts on this car."""
        return divided_load_kg(load_kg, self.divisor.value) if self.divisor else load_kg

    def pressure_for(self, load_kg: float) -> Quantity | None:
        """The least pressure at which ``load_kg`` is carried on this car; None where no pressure is enough."""
        needed = load_kg * (self.divisor.value if self.divisor else 1.0)
        if needed > self.full_kg + 1e-9:
            return None
        needed = min(needed, self.full_kg)
        kpa = pressure_for_load_kpa(self.full_kg, self.basis.reference.value, needed, self.basis.law)
        return Quantity(kpa, "kPa")

    @property
    def sources(self) -> tuple[Source, ...]:
        """Where index, reference pressure, law and divisor come from."""
        rows = (self.row, self.basis.reference, self.basis.exponent, self.divisor)
        return tuple(row.source for row in rows if row)

    def working(self) -> tuple[str, ...]:
        """The steps from the index to the load that counts."""
        reference, full = Quantity(self.basis.reference.value, "kPa"), Quantity(self.full_kg, "kg")
        lines = [
            f"{self.size.marking}: index {self.row.load_index} is {on_paper(full)} at {on_paper(reference)}, "
            f"{self.basis.words} ({self.basis.reference.source.standing})",
            *([self.basis.assumed] if self.basis.assumed else []),
            self._at_pressure(full, reference),
        ]
        if self.divisor:
            before, after = on_paper(Quantity(self.undivided_kg, "kg")), on_paper(Quantity(self.each_kg, "kg"))
            source = f"{self.divisor.source.title} {self.divisor.source.locator}"
            lines.append(f"Passenger tire on such a vehicle ({source}): {before} / {self.divisor.value:g} = {after}")
        return tuple(lines)

    def _at_pressure(self, full: Quantity, reference: Quantity) -> str:
        pressure, kpa = self.pressure, self.pressure.to("kPa")
        set_to = pressure.text() if pressure.unit == "kPa" else f"{pressure.text()} = {on_paper(kpa)}"
        carries = on_paper(Quantity(self.undivided_kg, "kg"))
        if kpa.value >= reference.value:
            return f"At {set_to}, not under the reference pressure, it carries its rating, never more: {carries}"
        ratio = f"({on_paper(kpa)} / {on_paper(reference)})"
        exponent = f"{self.basis.exponent.value:g}"
        return f"At {set_to}: {on_paper(full)} × {ratio}^{exponent} = {carries} ({self.basis.exponent.source.title})"


def carried(
    size: Size, pressure: Quantity, certified: Certified | None, audience: Audience, tables: Tables, *,
    dual: bool = False,
) -> Carried | Refusal:  # fmt: skip
    """What one tire of this size carries at a pressure, on a car so certified; ``dual`` takes its dual index."""
    row = size.load_dual if dual else size.load
    name = "the dual load index" if dual else "the load index"
    if row is None:
        return Refusal(missing=name, why=f"{name} of {size.marking} is not marked, or not in the table")
    divisor = divisor_for(size.marking, certified, tables)
    basis = basis_of(size.marking, tables)
    full_kg = row.load_kg / (divisor.value if divisor else 1.0)
    if basis is None:
        return _no_basis(size.marking, full_kg)
    if pressure.to("kPa").value < basis.lowest.value:
        lowest = Quantity(basis.lowest.value, "kPa")
        why = f"{audience.both(pressure)} was read; no load is computed below {audience.both(lowest)}"
        missing = f"a pressure of at least {audience.both(lowest)}"
        return Refusal(missing=missing, why=why, full_kg=full_kg, too_low=True)
    at_kg = load_at_pressure_kg(row.load_kg, basis.reference.value, pressure.to("kPa").value, basis.law)
    return Carried(size=size, row=row, basis=basis, pressure=pressure, undivided_kg=at_kg, divisor=divisor)


def _no_basis(marking: Marking, full_kg: float) -> Refusal:
    if marking.service == "light truck" and marking.kind == "metric" and marking.load_range is None:
        return Refusal(missing="the load range letter", full_kg=full_kg,
                       why=f"{marking} shows no load range, and the reference pressure goes by it")  # fmt: skip
    kind = "flotation" if marking.kind == "flotation" else f"{marking.construction} {marking.service}"
    why = f"the reference pressure of a {kind} tire such as {marking} is not in the tables"
    return Refusal(missing="the reference pressure", why=why, full_kg=full_kg)


def divisor_for(marking: Marking, certified: Certified | None, tables: Tables) -> Value | None:
    """The divisor for a passenger tire on a car certified as an MPV or light truck (49 CFR 571.110 S4.2.2.2)."""
    if certified in _DIVIDED and marking.service == "passenger":
        return tables.load_rules["mpv_divisor"]
    return None


def basis_of(marking: Marking, tables: Tables) -> Basis | None:
    """Reference pressure and law of a marking; None where the tables have none for its kind."""
    found = _kind(marking)
    if found is None:
        return None
    words, reference, exponent, assumed = found
    note = "Assumed: exponent 0.8, the law that gives the lower load, as this kind's own is not in the tables"
    return Basis(
        words=words, reference=tables.pressure[reference], exponent=tables.load_rules[exponent],
        lowest=tables.pressure["lowest_kpa"], assumed=note if assumed else "",
    )  # fmt: skip


def _kind(marking: Marking) -> tuple[str, str, str, bool] | None:
    """Words, row of the reference pressure, row of the exponent, and whether that exponent is taken for want of one."""
    if marking.service == "temporary":
        return "temporary spare", "temporary_spare_kpa", "exponent_etrto", True
    if marking.kind == "flotation" or marking.construction != "radial" or "LL" in marking.marks:
        return None
    extra = marking.extra_load or marking.prefix == "HL"
    load = "extra_load" if extra else "standard"
    if marking.service == "passenger" and marking.prefix == "P":
        return f"P-metric {load.replace('_', ' ')}", f"p_metric_{load}_kpa", "exponent_p_metric", False
    if marking.service == "passenger":
        return f"Euro-metric {load.replace('_', ' ')}", f"euro_{load}_kpa", "exponent_etrto", False
    if marking.prefix == "LT" and marking.load_range in _RANGES:
        return f"light truck, range {marking.load_range}", _RANGES[marking.load_range], "exponent_etrto", True
    return None

