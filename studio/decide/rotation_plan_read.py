"""What a plan of rotation depends on, read: wear by place, every permitted plan tried, and how sure the gain is."""

from collections.abc import Mapping

import msgspec

from studio.decide import rotation_read
from studio.decide.gauge import doubt
from studio.decide.matching_tires import Worn
from studio.decide.pace import Pace
from studio.decide.place_wear import LITTLE, Grounds, PlaceWear
from studio.decide.rotation_read import choices, due, permitted, traits
from studio.decide.rounded import STEP
from studio.decide.tire_marks import marks_of
from studio.model.places import CORNERS, place_words
from studio.model.quantity import Quantity, UnitName, convert
from studio.reference.tables import Tables
from studio.tires.errors import RangeError
from studio.tires.rotation import PATTERNS
from studio.tires.rotation_plan import Plan, Search, Wheel, first_to_go, plans, search

SAME_MM = 0.05
"""Plans that keep the tires as close as this to each other count as equally good: no gauge tells them apart."""
NO_DRIVE = "the drivetrain"
DUAL = "all six tires of a car with twin rear wheels, which a plan for four cannot tell"


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the plan depends on. ``rotation`` is what the next rotation depends on."""

    rotation: rotation_read.Part
    grounds: Grounds
    pace: Pace | None


class Wheels(msgspec.Struct, frozen=True, kw_only=True):
    """The tires as a plan takes them, by the place at which they stand; half widths of their readings in mm."""

    by_place: Mapping[str, Wheel]
    halves: Mapping[str, float]
    five: bool


class Planned(msgspec.Struct, frozen=True, kw_only=True):
    """Every permitted plan tried. Distances are in ``unit``, depths in mm.

    ``gain`` is what the plan that lasts longest puts off the first new tire, between ``gain_low`` and ``gain_high`` as
    the wear of front and rear moves within its half widths; ``lasts_low`` and ``lasts_high`` are the ends of how long
    it lasts, the upper one None where the readings set none.
    """

    part: Part
    unit: UnitName
    wear: PlaceWear
    factor: float
    wheels: Wheels
    patterns: tuple[str, ...]
    intervals: tuple[float, ...]
    tried: tuple[Plan, ...]
    found: Search
    gain_low: float
    gain_high: float
    lasts_low: float
    lasts_high: float | None

    @property
    def gain(self) -> float:
        """How much further the first tire goes than without rotating."""
        return self.found.longest.lasts - self.found.stay.lasts

    @property
    def gains(self) -> bool:
        """Whether any plan puts off the first new tire at all."""
        return self.found.longest.plan.pattern is not None and self.gain > STEP

    @property
    def sure(self) -> bool:
        """Whether it does so wherever the wear lies within its half widths."""
        return self.gain_low > 0

    @property
    def closer(self) -> bool:
        """Whether any plan keeps the tires closer together."""
        return self.found.closest.plan.pattern is not None


def wheels(part: rotation_read.Part, tables: Tables) -> Wheels | str:
    """The tires as a plan takes them; or in words what is missing."""
    spare = part.spare if not {"temporary_spare", "other_spare"} & set(traits(part, tables)) else None
    found: dict[str, Wheel] = {}
    halves: dict[str, float] = {}
    for name, worn in zip((*CORNERS, "spare"), (*part.corners, spare), strict=True):
        if worn is None or worn.tread is None:
            if name != "spare":
                return f"a depth reading, {place_words(name)}"
            continue
        limit = limit_mm(worn, part.audience.region, tables)
        if limit is None:
            return "a region whose rules are known"
        lowest = worn.tread.depth(worn.tread.lowest.value).to("mm").value
        found[name] = Wheel(mean=worn.tread.mean().to("mm").value, lowest=lowest, limit=limit)
        halves[name] = doubt(worn.tread.reading.gauge, tables).half_width.to("mm").value
    return Wheels(by_place=found, halves=halves, five="spare" in found)


def limit_mm(worn: Worn, region: str, tables: Tables) -> float | None:
    """The legal minimum that holds for a tire; None where none is known."""
    marks = marks_of(worn.marking, worn.season, region, tables)
    return marks.legal.mm if marks else None


def read_part(part: Part, tables: Tables) -> Planned | str:
    """Every permitted plan followed; or in words what keeps it from being."""
    its = wheels(part.rotation, tables)
    if isinstance(its, str):
        return its
    if part.rotation.drivetrain is None:
        return NO_DRIVE
    wear = part.grounds.wear
    if isinstance(wear, str):
        return wear
    try:
        return _planned(part, its, wear, tables)
    except RangeError:  # so little wear that no tire would go within two thousand rotations
        return LITTLE


def _planned(part: Part, its: Wheels, wear: PlaceWear, tables: Tables) -> Planned:
    limit = due(part.rotation, tables)
    unit = limit.interval.unit
    factor = convert(1.0, unit, wear.unit)
    every = permitted(choices(part.rotation, traits(part.rotation, tables), tables))
    patterns = tuple(id_ for id_ in every if its.five or not PATTERNS[id_].takes_spare)
    intervals = _intervals(part.rotation, limit.interval, tables)
    since = limit.since.value if limit.since else None
    times = [
        (first, interval)
        for interval in reversed(intervals)
        for first in sorted({0.0, 0.0 if since is None else max(0.0, interval - since)})
    ]
    tried = plans([PATTERNS[id_] for id_ in patterns], times)
    found = search(its.by_place, wear.rates(factor), tried, same_way=STEP, same_depth=SAME_MM)
    gains = [_gain(its, wear, found, front, rear, factor) for front, rear in ((0.0, 0.0), (1.0, -1.0), (-1.0, 1.0))]
    low, high = _ends(its, wear, found.longest.plan, factor)
    return Planned(
        part=part, unit=unit, wear=wear, factor=factor, wheels=its, patterns=patterns, intervals=intervals, tried=tried,
        found=found, gain_low=min(gains), gain_high=max(gains), lasts_low=low, lasts_high=high,
    )  # fmt: skip


def _intervals(part: rotation_read.Part, limit: Quantity, tables: Tables) -> tuple[float, ...]:
    """The trade's range in steps; with an interval of the maker's, that one and what is shorter."""
    unit = limit.unit
    rule = tables.rotation_interval["trade_miles" if unit == "mi" else "trade_km"]
    step = tables.assumed["plan_step_mi" if unit == "mi" else "plan_step_km"].value
    count = round((rule.high - rule.low) / step)
    every = [rule.low + step * number for number in range(count + 1)]
    if part.interval is None:
        return tuple(every)
    return (*(one for one in every if one < limit.value), limit.value)


def _gain(its: Wheels, wear: PlaceWear, found: Search, front: float, rear: float, factor: float) -> float:
    """The gain of the longest plan over staying, with the wear of front and rear moved by so many half widths."""
    rates = wear.shifted(front, rear, factor)
    if not any(rates.lowest.values()):
        return 0.0
    (longest, _), (stay, _) = (first_to_go(its.by_place, rates, c.plan) for c in (found.longest, found.stay))
    return longest - stay


def _ends(its: Wheels, wear: PlaceWear, plan: Plan, factor: float) -> tuple[float, float | None]:
    """How long a plan lasts with all wear at the upper end and all depths at the lower one, and the other way round."""
    ends: list[float | None] = []
    for sign in (1.0, -1.0):
        moved = {
            name: Wheel(mean=w.mean, lowest=w.lowest - sign * its.halves[name], limit=w.limit)
            for name, w in its.by_place.items()
        }
        rates = wear.shifted(sign, sign, factor)
        ends.append(first_to_go(moved, rates, plan)[0] if all(rates.lowest.values()) else None)
    return ends[0] or 0.0, ends[1]
