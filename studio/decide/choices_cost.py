"""What a choice costs, what tread it buys, and when the next purchase comes."""

import datetime as dt

import msgspec

from studio.decide.choices_after import After, Placed
from studio.decide.choices_read import Part
from studio.decide.pace import after as day_after
from studio.decide.place_wear import PlaceWear
from studio.model.circumstances import Prices
from studio.model.quantity import UnitName, convert
from studio.reference.tables import Tables
from studio.tires.rotation_plan import STAY, Wheel, first_to_go

NO_DRIVE = "the drivetrain, for the limit on the set"
_PRICE_WORDS = {
    "new_tire": "the price of a new tire", "used_tire": "the price of a used tire",
    "mounting": "the price of mounting and balancing", "shaving": "the price of shaving",
}  # fmt: skip


class Bill(msgspec.Struct, frozen=True, kw_only=True):
    """``count`` tires at the sum of ``parts`` (name of the price, its value, None where not entered)."""

    count: int
    parts: tuple[tuple[str, float | None], ...]

    @property
    def missing(self) -> tuple[str, ...]:
        """The prices that are not entered, in words."""
        return tuple(_PRICE_WORDS[name] for name, value in self.parts if value is None)

    @property
    def each(self) -> float:
        """The price of one tire as it stands on the car."""
        return sum(value or 0.0 for _, value in self.parts)

    @property
    def total(self) -> float | None:
        """The outlay; None while a price is missing."""
        return None if self.missing else self.count * self.each


class Next(msgspec.Struct, frozen=True, kw_only=True):
    """The next purchase, without rotating: how far, which tire, when; ``low`` by the band's lower end."""

    distance: float
    low: float
    place: str
    day: dt.date | None
    yearly: float | None


class Cost(msgspec.Struct, frozen=True, kw_only=True):
    """All that is counted. Depths in mm, distances in ``unit``, the audience's; ``rate`` is mm for one unit of it.

    ``per_1000`` is what 1000 of it cost on each tire bought, ``until_next`` what they cost the car until the next
    purchase. None where prices or wear are not known, or where nothing is bought.
    """

    bill: Bill
    unit: UnitName
    bought_mm: float
    given_up_mm: float
    wear: PlaceWear | None
    rate: float | None
    next: Next | None
    per_1000: float | None
    until_next: float | None
    missing: tuple[str, ...]


def bill_of(after: After, prices: Prices) -> Bill:
    """What has to be paid for."""
    change = after.change
    if change.shaved is not None:
        return Bill(count=1, parts=(("shaving", prices.shaving), ("mounting", prices.mounting)))
    if not change.off:
        return Bill(count=0, parts=())
    tire = ("used_tire", prices.used_tire) if change.bought == "used" else ("new_tire", prices.new_tire)
    shaving = (("shaving", prices.shaving),) if change.bought == "shaved" else ()
    return Bill(count=len(change.off), parts=(tire, *shaving, ("mounting", prices.mounting)))


def cost(part: Part, after: After, tables: Tables) -> Cost:
    """Count everything."""
    bill, wear = bill_of(after, part.prices), part.grounds.wear
    unit: UnitName = "mi" if part.audience.units == "us" else "km"
    bought = sum(max(0.0, tire.lowest_mm - tire.limit_mm) for tire in after.placed if not tire.origin)
    known = wear if isinstance(wear, PlaceWear) else None
    factor = convert(1.0, unit, known.unit) if known else 1.0
    rate = known.whole * factor if known else None
    coming = _next(part, after.placed, known, factor, tables) if known else None
    total = bill.total
    return Cost(
        bill=bill, unit=unit, bought_mm=bought, given_up_mm=_given_up(after), wear=known, rate=rate, next=coming,
        per_1000=total / (bought / rate) * 1000 if total is not None and rate and bought > 0 else None,
        until_next=total / coming.distance * 1000 if total and coming and coming.distance > 0 else None,
        missing=(*bill.missing, *((wear,) if isinstance(wear, str) else ()), *(() if part.drivetrain else (NO_DRIVE,))),
    )  # fmt: skip


def _given_up(after: After) -> float:
    """The usable tread that is taken off, shaved off included."""
    shaved = after.change.shaved
    ground = 0.0 if shaved is None else max(0.0, shaved.lowest_mm - max(after.change.shaved_mm, shaved.limit_mm))
    return sum(stand.usable_mm for stand in after.change.off) + ground


def _next(part: Part, placed: tuple[Placed, ...], wear: PlaceWear, factor: float, tables: Tables) -> Next:
    halves: dict[str, float] = {tire.place: tire.half_mm for tire in placed}
    wheels: dict[str, Wheel] = {
        tire.place: Wheel(mean=tire.mean_mm, lowest=tire.lowest_mm, limit=tire.limit_mm) for tire in placed
    }
    distance, place = first_to_go(wheels, wear.rates(factor), STAY)
    less = {p: Wheel(mean=w.mean, lowest=w.lowest - halves[p], limit=w.limit) for p, w in wheels.items()}
    low, _ = first_to_go(less, wear.shifted(1, 1, factor), STAY)
    yearly = None
    if part.pace is not None:
        yearly = part.pace.yearly.to(wear.unit).value * part.grounds.share / factor
    last = max((worn.tread.reading.on for worn in part.corners if worn.tread), default=None)
    days = tables.physics["days_per_year"].value
    day = day_after(last, distance, yearly, days) if last and yearly else None
    return Next(distance=distance, low=low, place=place, day=day, yearly=yearly)
