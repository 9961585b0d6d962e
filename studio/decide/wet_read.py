"""Water on the road against the tire with the least tread: what the finding and its words are made from.

No number from here is a safe speed: the relations say when a tire is off the road, and grip goes long before.
"""

import math

import msgspec

from studio.decide.audience import Audience
from studio.decide.filled import Filled, pressure_doubt
from studio.decide.gauge import doubt
from studio.decide.measured import Measured
from studio.decide.road_speed import RoadSpeed, road_speed
from studio.decide.subjects import Subject
from studio.decide.tread_limits import Mark, marks_for
from studio.decide.wet_film import Film, Road, film_of
from studio.model.finding import Verdict
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Season
from studio.reference import numbers
from studio.reference.tables import Tables
from studio.tires.water import Gallaway, floating_speed, groove_throughput_l_per_s, water_met_l_per_s

SERIES_32NDS = (10, 8, 6, 4, 2, 0)
"""Tread depths of the formula's own tests at which a picture shows it, in 32nds of an inch."""


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the tire with the least tread in water depends on."""

    audience: Audience
    subject: Subject
    tread: Measured
    season: Season
    filled: Filled | None
    placard: Quantity | None
    placard_path: str
    section_width: float | None
    depth_new: Quantity | None
    water: Quantity | None
    road: Road
    speed: Quantity | None


class Given(msgspec.Struct, frozen=True, kw_only=True):
    """What the relations take, in the units in which they are stated."""

    pressure_psi: float
    depth_32nds: float
    water_in: float
    texture_in: float

    @property
    def depth_in(self) -> float:
        """The tread depth in inches."""
        return depth(self.depth_32nds, "32nds").to("in").value


class Beyond(msgspec.Struct, frozen=True, kw_only=True):
    """What lies outside the range stated for a relation, and that range."""

    name: str
    value: Quantity
    low: Quantity
    high: Quantity


class Flow(msgspec.Struct, frozen=True, kw_only=True):
    """A picture of the matter in liters a second: the water in the tire's way, what its grooves hold in passing."""

    tread_width_mm: float
    met: float
    held_least: float
    held_most: float


class Wet(msgspec.Struct, frozen=True, kw_only=True):
    """The part read. A speed is None where its relation does not reach; ``beyond`` says why that of 1979 does not.

    ``branches`` are the two candidates for the surface term A of the relation of 1979, of which the larger counts.
    """

    part: Part
    given: Given
    film: Film | None
    pressure: Quantity
    depth: Quantity
    water: Quantity
    texture: Quantity
    speed: RoadSpeed
    branches: tuple[float, float]
    of_1979: float | None
    of_1963: float | None
    beyond: tuple[Beyond, ...]
    doubt_mph: float | None
    series: tuple[tuple[int, float], ...]
    gradual_mph: float
    advice: Mark | None
    flow: Flow | None

    @property
    def mph(self) -> float | None:
        """The floating speed: of 1979, which knows tread and water, else of 1963."""
        return self.of_1963 if self.of_1979 is None else self.of_1979

    @property
    def worn(self) -> bool:
        """Whether the tread is under the advice for wet roads."""
        return self.advice is not None and self.advice.stands_above(self.depth.to("mm").value)

    @property
    def near(self) -> bool:
        """Whether the speed driven is where control begins to go, or above."""
        return self.mph is not None and self.speed.speed.to("mph").value >= self.mph - self.gradual_mph

    @property
    def verdict(self) -> Verdict | None:
        """Never better than no verdict: nothing here says that a speed is safe."""
        if self.worn or self.near:
            return "watch"
        return "unknown" if self.mph is None else None


def read_part(part: Part, tables: Tables) -> Wet | None:
    """The part read; None where there is no pressure or no water to compute with."""
    pressure = part.filled.pressure if part.filled else part.placard
    film = film_of(part.road, tables) if part.water is None and part.road.rain else None
    water = part.water or (film.above if film else None)
    if pressure is None or pressure.value <= 0 or water is None or water.to("in").value <= 0:
        return None
    lowest = part.tread.depth(part.tread.lowest.value)
    texture = part.road.texture_or_assumed(tables)
    given = Given(
        pressure_psi=pressure.to("psi").value, depth_32nds=lowest.to("32nds").value, water_in=water.to("in").value,
        texture_in=texture.to("in").value,
    )  # fmt: skip
    coefficients = Gallaway.from_numbers(numbers(tables.hydroplaning))
    beyond = _beyond(given, coefficients)
    speed = None if beyond else speed_of_1979(given, coefficients, tables)
    driven = road_speed(part.speed, part.audience, tables)
    return Wet(
        part=part, given=given, film=film, pressure=pressure, depth=lowest, water=water, texture=texture, speed=driven,
        branches=coefficients.branches(given.water_in, given.texture_in), of_1979=speed,
        of_1963=speed_of_1963(given, tables), beyond=beyond,
        doubt_mph=None if speed is None else _doubt(part, given, coefficients, tables),
        series=() if beyond else _series(given, coefficients, tables),
        gradual_mph=tables.hydroplaning["gradual_loss_mph"].value, advice=_advice(part, tables),
        flow=_flow(part, lowest, water, driven, tables),
    )  # fmt: skip


def _beyond(given: Given, coefficients: Gallaway) -> tuple[Beyond, ...]:
    values = (
        Quantity(given.pressure_psi, "psi"), depth(given.depth_32nds, "32nds"), length(given.water_in, "in"),
        length(given.texture_in, "in"),
    )  # fmt: skip
    return tuple(
        Beyond(name=name, value=value, low=Quantity(low, value.unit, value.kind),
               high=Quantity(high, value.unit, value.kind))
        for value, (name, low, high, _) in zip(values, coefficients.stated(), strict=True)
        if not low <= value.value <= high
    )  # fmt: skip


def speed_of_1979(given: Given, coefficients: Gallaway, tables: Tables) -> float:
    return coefficients.speed_mph(
        spin_down_percent=tables.hydroplaning["onset_spin_down_percent"].value, pressure_psi=given.pressure_psi,
        depth_32nds=given.depth_32nds, water_in=given.water_in, texture_in=given.texture_in,
    )  # fmt: skip


def speed_of_1963(given: Given, tables: Tables) -> float | None:
    """Only where the water is deeper than the tread, of which it knows nothing, and as deep as water of any test."""
    least = tables.hydroplaning["stated_water_least_in"].value
    if given.water_in <= given.depth_in or given.water_in < least:
        return None
    return floating_speed(given.pressure_psi, tables.hydroplaning["nasa_mph"].value)


def _doubt(part: Part, given: Given, coefficients: Gallaway, tables: Tables) -> float:
    """What the gauges' doubts come to, by squares; the formula's own error is not stated anywhere."""
    by_depth = doubt(part.tread.reading.gauge, tables).half_width.to("32nds").value
    by_gauge = pressure_doubt(tables).half_width.to("psi").value
    here = speed_of_1979(given, coefficients, tables)
    others = (
        msgspec.structs.replace(given, depth_32nds=given.depth_32nds + by_depth),
        msgspec.structs.replace(given, pressure_psi=given.pressure_psi + by_gauge),
    )
    return math.hypot(*(speed_of_1979(other, coefficients, tables) - here for other in others))


def _series(given: Given, coefficients: Gallaway, tables: Tables) -> tuple[tuple[int, float], ...]:
    """The same water with other treads."""
    return tuple(
        (n, speed_of_1979(msgspec.structs.replace(given, depth_32nds=float(n)), coefficients, tables))
        for n in SERIES_32NDS
    )


def _advice(part: Part, tables: Tables) -> Mark | None:
    marks = marks_for(part.audience.region, part.season, "radial", False, tables)
    return marks.named("wet_advice") if marks else None


def _flow(part: Part, lowest: Quantity, water: Quantity, speed: RoadSpeed, tables: Tables) -> Flow | None:
    """Tread width by its usual share of the section width, void by its usual range: a picture, no predictor."""
    if part.section_width is None:
        return None
    least, most = (tables.assumed[f"tread_width_share_{end}"].value for end in ("least", "most"))
    width = part.section_width * (least + most) / 2
    held = [
        groove_throughput_l_per_s(
            width, lowest.to("mm").value, tables.hydroplaning[f"void_ratio_{end}"].value, speed.kmh
        )
        for end in ("least", "most")
    ]
    met = water_met_l_per_s(width, water.to("mm").value, speed.kmh)
    return Flow(tread_width_mm=width, met=met, held_least=held[0], held_most=held[1])
