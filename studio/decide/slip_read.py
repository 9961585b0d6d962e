"""Wheels that turn unequally, read: each wheel's turns a minute at a speed, of one axle or of the two axles."""

import msgspec

from studio.decide import matching, matching_read
from studio.decide.audience import Audience
from studio.decide.matching_tires import Compared, Rolling
from studio.decide.road_speed import RoadSpeed, road_speed
from studio.model.car import Drivetrain
from studio.model.places import AXLES
from studio.model.quantity import Quantity, UnitName
from studio.reference.tables import Tables
from studio.tires.driveline import against_case_rpm, axle_rpm, bend_radius_m, shaft_rpm
from studio.tires.geometry import turns_per_km, turns_per_mile
from studio.tires.speed import wheel_rpm

CAR = "car"
_DRIVEN_OTHER: dict[str, Drivetrain] = {"front_axle": "rear", "rear_axle": "front"}


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the unequal turning of one axle or of the car depends on; ``match`` holds the tires."""

    name: str
    match: matching_read.Part
    speed: Quantity | None
    track: Quantity | None
    final_drive: float | None

    @property
    def audience(self) -> Audience:
        """For whom it speaks."""
        return self.match.audience

    @property
    def drivetrain(self) -> Drivetrain | None:
        """Which wheels are driven."""
        return self.match.drivetrain


class Turner(msgspec.Struct, frozen=True, kw_only=True):
    """What turns: a wheel or an axle, in words (``front right``, ``the rear axle``), its turns a minute, in a mile."""

    name: str
    words: str
    rpm: float
    circumference_mm: float


class Slip(msgspec.Struct, frozen=True, kw_only=True):
    """Two wheels of an axle, or the two axles, at one speed. ``doubt_rpm`` is the half width of their difference."""

    part: Part
    at: RoadSpeed
    compared: Compared
    wheels: tuple[Turner, ...]
    turners: tuple[Turner, Turner]
    doubt_rpm: float
    factor: float

    @property
    def faster(self) -> Turner:
        """The one that turns more."""
        return max(self.turners, key=lambda it: it.rpm)

    @property
    def slower(self) -> Turner:
        """The one that turns less."""
        return min(reversed(self.turners), key=lambda it: it.rpm)

    @property
    def apart_rpm(self) -> float:
        """How many turns a minute the faster one makes more."""
        return self.faster.rpm - self.slower.rpm

    @property
    def alike(self) -> bool:
        """Whether the gauge cannot tell them apart."""
        return self.apart_rpm <= self.doubt_rpm

    @property
    def whole_car(self) -> bool:
        """Whether it is the two axles."""
        return self.part.name == CAR

    @property
    def undriven(self) -> bool:
        """Whether the axle is known not to be driven."""
        other = _DRIVEN_OTHER.get(self.part.name)
        return other is not None and self.part.drivetrain == other

    @property
    def turns(self) -> Quantity:
        """How many turns more in a mile or kilometer, as the audience counts."""
        unit: UnitName = "rev/mi" if self.part.audience.units == "us" else "rev/km"
        count = turns_per_mile if unit == "rev/mi" else turns_per_km
        return Quantity(count(self.faster.circumference_mm) - count(self.slower.circumference_mm), unit)

    @property
    def percent(self) -> float:
        """How much more the faster one turns."""
        return 100 * (self.slower.circumference_mm / self.faster.circumference_mm - 1)

    @property
    def against_case_rpm(self) -> float:
        """What each wheel turns against the case of an open differential."""
        return against_case_rpm(self.faster.rpm, self.slower.rpm)

    @property
    def shaft_rpm(self) -> float | None:
        """The difference of the axles before the final drive; None where its ratio is not known."""
        return shaft_rpm(self.apart_rpm, self.part.final_drive) if self.part.final_drive else None

    @property
    def bend_m(self) -> float | None:
        """The bend in which equal wheels would differ as much; None without a track or a difference."""
        if self.part.track is None or self.whole_car:
            return None
        slow, fast = self.slower.circumference_mm, self.faster.circumference_mm
        return bend_radius_m(self.part.track.to("mm").value, slow, fast)

    @property
    def depth_mm(self) -> float:
        """How much less tread on the slower one would make the two turn alike."""
        return (self.slower.circumference_mm - self.faster.circumference_mm) / self.factor / 2


def read_part(part: Part, tables: Tables) -> Slip | None:
    """The wheels turning; None while a size or a reading is missing."""
    match = matching.read_part(part.match, tables)
    if match is None or match.compared.circumferences_mm is None:
        return None
    at = road_speed(part.speed, part.audience, tables)
    wheels = tuple(wheel for tire in match.compared.tires if (wheel := _wheel(tire, at.kmh)))
    turners = _axles(wheels) if part.name == CAR else (wheels[0], wheels[1])
    factor = min(tire.size.dimensions.rolling_factor for tire in match.compared.tires if tire.size)
    return Slip(
        part=part, at=at, compared=match.compared, wheels=wheels, turners=turners, factor=factor,
        doubt_rpm=_doubt_rpm(match.compared, wheels),
    )  # fmt: skip


def _wheel(tire: Rolling, kmh: float) -> Turner | None:
    if tire.circumference_mm is None:
        return None
    its = tire.worn.subject
    return Turner(name=its.name, words=its.words, circumference_mm=tire.circumference_mm,
                  rpm=wheel_rpm(kmh, tire.circumference_mm))  # fmt: skip


def _axles(wheels: tuple[Turner, ...]) -> tuple[Turner, Turner]:
    front, rear = (_axle(axle, wheels) for axle in ("front", "rear"))
    return front, rear


def _axle(axle: str, wheels: tuple[Turner, ...]) -> Turner:
    """An axle turns as its differential's case: the mean of its wheels."""
    left, right = (wheel for wheel in wheels if wheel.name in AXLES[axle])
    rpm = axle_rpm(left.rpm, right.rpm)
    rolled = 2 / (1 / left.circumference_mm + 1 / right.circumference_mm)
    return Turner(name=f"{axle}_axle", words=f"the {axle} axle", rpm=rpm, circumference_mm=rolled)


def _doubt_rpm(compared: Compared, wheels: tuple[Turner, ...]) -> float:
    """What the doubt of a difference of depth makes of a difference of turning."""
    factor = max(tire.size.dimensions.rolling_factor for tire in compared.tires if tire.size)
    fastest = max(wheels, key=lambda wheel: wheel.rpm)
    return fastest.rpm * factor * 2 * compared.doubt_mm / fastest.circumference_mm
