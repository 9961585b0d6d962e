"""The tires that the speedometer counts, as new and as they are worn: what follows for speed, distance and gearing."""

from statistics import fmean, harmonic_mean

import msgspec

from studio.decide.audience import Audience
from studio.decide.gauge import doubt
from studio.decide.matching_tires import Worn
from studio.decide.measured import Measured
from studio.decide.road_speed import RoadSpeed, road_speed
from studio.decide.sizes import Size, size_of
from studio.model.car import Drivetrain
from studio.model.places import AXLES, CORNERS, Place
from studio.model.quantity import Quantity, depth
from studio.reference.rows import Rule
from studio.reference.tables import Tables
from studio.tires.errors import RangeError
from studio.tires.geometry import change_percent, rolling_circumference_mm, worn_diameter_mm
from studio.tires.speed import true_speed_after_change

DRIVEN: dict[Drivetrain | None, tuple[Place, ...]] = {
    "front": AXLES["front"], "rear": AXLES["rear"], "all": CORNERS, "part_time_four": CORNERS, None: CORNERS,
}  # fmt: skip


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the effects of wear depend on: the tires at the driven wheels, and what turns with them."""

    audience: Audience
    places: tuple[Place, ...]
    tires: tuple[Worn, ...]
    drivetrain: Drivetrain | None
    final_drive: float | None
    speed: Quantity | None


class Wheel(msgspec.Struct, frozen=True, kw_only=True):
    """One driven tire: what it covers in a turn new, as it is, and worn down to its wear bars. mm."""

    worn: Worn
    tread: Measured
    size: Size
    new_depth_mm: float
    mean_mm: float
    doubt_mm: float
    new_mm: float
    now_mm: float
    bars_mm: float
    worn_diameter_mm: float


class Effects(msgspec.Struct, frozen=True, kw_only=True):
    """The driven tires together: the mean of their turns is what the speedometer counts."""

    part: Part
    wheels: tuple[Wheel, ...]
    at: RoadSpeed
    rule: Rule | None
    """The region's rule on speedometers."""

    @property
    def new_mm(self) -> float:
        """What a turn covered when all were new."""
        return harmonic_mean([wheel.new_mm for wheel in self.wheels])

    @property
    def now_mm(self) -> float:
        """What a turn covers now."""
        return harmonic_mean([wheel.now_mm for wheel in self.wheels])

    @property
    def bars_mm(self) -> float:
        """What a turn will cover when all are worn down to the bars."""
        return harmonic_mean([wheel.bars_mm for wheel in self.wheels])

    @property
    def percent(self) -> float:
        """How much less a turn covers; negative."""
        return change_percent(self.new_mm, self.now_mm)

    @property
    def bars_percent(self) -> float:
        """The same down to the bars."""
        return change_percent(self.new_mm, self.bars_mm)

    @property
    def doubt_percent(self) -> float:
        """Half width of ``percent``: what the doubt of the depths makes of the diameters."""
        return fmean(200 * wheel.doubt_mm / wheel.size.dimensions.rolling_diameter_mm for wheel in self.wheels)

    def true_at(self, shown: Quantity, worn_mm: float | None = None) -> Quantity:
        """The true speed while a speedometer that was exact on new tires shows ``shown``."""
        after = self.now_mm if worn_mm is None else worn_mm
        return Quantity(true_speed_after_change(shown.value, self.new_mm, after), shown.unit)


def missing(part: Part) -> tuple[str, ...]:
    """What keeps the effects from being computed."""
    found = {worn.subject.name: worn for worn in part.tires}
    lacks = [f"a depth reading, {place.replace('_', ' ')}" for place in part.places
             if place not in found or found[place].tread is None]  # fmt: skip
    for worn in part.tires:
        lacks += [] if worn.depth_new else [f"the depth when new, {worn.subject.words}"]
        lacks += [] if worn.marking.strip() else [f"the marking, {worn.subject.words}"]
    return tuple(lacks)


def read_part(part: Part, tables: Tables) -> Effects | None:
    """The part computed; None where something is missing or a marking cannot be read."""
    wheels = tuple(wheel for worn in part.tires if (wheel := _wheel(worn, tables)))
    if len(wheels) < len(part.places):
        return None
    region = part.audience.region
    rules = tables.rules_in(tables.speedometer_rule, region) if region in tables.regions else ()
    return Effects(
        part=part, wheels=wheels, at=road_speed(part.speed, part.audience, tables), rule=next(iter(rules), None)
    )


def _wheel(worn: Worn, tables: Tables) -> Wheel | None:
    size = size_of(worn.marking, tables)
    if size is None or worn.tread is None or worn.depth_new is None:
        return None
    new, mean = worn.depth_new.to("mm").value, worn.tread.mean().to("mm").value
    bars = min(tables.measuring["indicator_height_mm"].value, mean)
    diameter, factor = size.dimensions.rolling_diameter_mm, size.dimensions.rolling_factor
    try:
        now, least = (worn_diameter_mm(diameter, new, mm) for mm in (mean, bars))
    except RangeError:
        return None
    return Wheel(
        worn=worn, tread=worn.tread, size=size, new_depth_mm=new, mean_mm=mean,
        doubt_mm=doubt(worn.tread.reading.gauge, tables).half_width.to("mm").value,
        new_mm=rolling_circumference_mm(diameter, factor), now_mm=rolling_circumference_mm(now, factor),
        bars_mm=rolling_circumference_mm(least, factor), worn_diameter_mm=now,
    )  # fmt: skip


def lost(wheel: Wheel) -> Quantity:
    """How much tread a tire has lost."""
    return depth(wheel.new_depth_mm - wheel.mean_mm, "mm")
