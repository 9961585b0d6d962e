"""The spare against the tires that it would stand among: how unequally its wheel would turn, and what it holds."""

import msgspec

from studio.decide.audience import Audience
from studio.decide.carried import Carried, Refusal, carried
from studio.decide.filled import Filled
from studio.decide.matching_tires import Worn
from studio.decide.road_speed import RoadSpeed, road_speed
from studio.decide.ruled_out import RuledOut
from studio.decide.sizes import Size, same_size, size_of
from studio.model.car import Certified, Drivetrain, Placard, Tolerance
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.rows import Rule
from studio.reference.tables import Tables
from studio.tires.driveline import against_case_rpm, shaft_rpm
from studio.tires.geometry import change_percent, rolling_circumference_mm, turns_per_km, turns_per_mile
from studio.tires.speed import wheel_rpm

PLACARD = "car.placard.spare"
_PAIR, _DUAL = 2, 4


class Mate(msgspec.Struct, frozen=True, kw_only=True):
    """A tire that the spare would roll with: a corner's, or the placard's own where none stands there.

    ``worn`` is None for the placard's; ``path`` leads to the marking.
    """

    words: str
    axle: str
    marking: str
    path: str
    worn: Worn | None


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the spare's finding depends on; ``spare`` is None where the placard alone tells of one."""

    audience: Audience
    spare: Worn | None
    filled: Filled | None
    out: RuledOut | None
    mates: tuple[Mate, ...]
    placard: Placard
    ratings: tuple[Quantity | None, Quantity | None]
    certified: Certified | None
    dual: bool
    drivetrain: Drivetrain | None
    tolerance: Tolerance | None
    final_drive: float | None
    speed: Quantity | None

    @property
    def shares_kg(self) -> dict[str, float | None]:
        """One tire's share of each axle rating."""
        counts = {"front": _PAIR, "rear": _DUAL if self.dual else _PAIR}
        named = zip(counts, self.ratings, strict=True)
        return {axle: rating.to("kg").value / counts[axle] if rating else None for axle, rating in named}

    @property
    def marking(self) -> str:
        """The marking on the spare's sidewall, else the placard's."""
        return self.spare.marking if self.spare and self.spare.marking.strip() else self.placard.spare.marking

    @property
    def marking_path(self) -> str:
        """The path to that marking."""
        on_tire = self.spare is not None and self.spare.marking.strip()
        return f"{self.spare.subject.path}.marking" if self.spare and on_tire else f"{PLACARD}.marking"


class Beside(msgspec.Struct, frozen=True, kw_only=True):
    """The spare beside one mate: both diameters as worn as is known, and the mate's rolling circumference."""

    mate: Mate
    size: Size
    mate_mm: float
    spare_mm: float
    rolling_mm: float

    @property
    def change_percent(self) -> float:
        """How much larger the spare is than the mate."""
        return change_percent(self.mate_mm, self.spare_mm)

    @property
    def turning_percent(self) -> float:
        """How much more the spare's wheel turns than the mate."""
        return change_percent(self.spare_mm, self.mate_mm)

    @property
    def spare_rolling_mm(self) -> float:
        """What the spare covers in one turn, both tires taken to flatten alike."""
        return self.rolling_mm * self.spare_mm / self.mate_mm

    def turns(self, audience: Audience) -> tuple[Quantity, Quantity]:
        """Turns of mate and spare, in a mile or a kilometer."""
        rolled = (self.rolling_mm, self.spare_rolling_mm)
        if audience.units == "us":
            mate, spare = (Quantity(turns_per_mile(mm), "rev/mi") for mm in rolled)
        else:
            mate, spare = (Quantity(turns_per_km(mm), "rev/km") for mm in rolled)
        return mate, spare

    def rpm(self, kmh: float) -> tuple[float, float]:
        """Turns a minute of mate and spare at a speed."""
        return wheel_rpm(kmh, self.rolling_mm), wheel_rpm(kmh, self.spare_rolling_mm)


class Spare(msgspec.Struct, frozen=True, kw_only=True):
    """The spare, read. ``beside`` has the mate of each axle that differs most.

    ``asked`` is the pressure it should hold; ``load`` what it carries as filled, None where that is not known.
    """

    part: Part
    size: Size
    beside: tuple[Beside, ...]
    asked: Quantity | None
    asked_source: Source | None
    limit: Rule | None
    at: RoadSpeed
    load: Carried | Refusal | None

    @property
    def temporary(self) -> bool:
        """Whether it is a temporary spare."""
        return self.size.temporary

    @property
    def alike(self) -> tuple[Beside, ...]:
        """The mates of its own size."""
        return tuple(it for it in self.beside if same_size(self.size.marking, it.size.marking))

    @property
    def others(self) -> tuple[Beside, ...]:
        """The mates of another size, where it has the size of one axle: it does not go to theirs."""
        return tuple(it for it in self.beside if it not in self.alike) if self.alike else ()

    @property
    def worst(self) -> Beside | None:
        """The mate from which it differs most, on an axle to which it may go."""
        return max(self.alike or self.beside, default=None, key=lambda it: abs(it.change_percent))

    @property
    def share_kg(self) -> float | None:
        """One tire's share of the heaviest axle to which it may go; None where no such axle rating is known."""
        axles = {it.mate.axle for it in self.alike or self.beside} or set(self.part.shares_kg)
        known = [kg for axle, kg in self.part.shares_kg.items() if axle in axles and kg is not None]
        return max(known, default=None)

    @property
    def case_rpm(self) -> float | None:
        """What the axle with the spare would turn more than one with its own tires: half the wheel's difference."""
        return against_case_rpm(*self.worst.rpm(self.at.kmh)) if self.worst else None

    @property
    def shaft_rpm(self) -> float | None:
        """The same before the final drive; None where its ratio is not known."""
        if self.case_rpm is None or self.part.final_drive is None:
            return None
        return shaft_rpm(self.case_rpm, self.part.final_drive)


def read_part(part: Part, tables: Tables) -> Spare | None:
    """The spare; None where its marking cannot be read."""
    size = size_of(part.marking, tables)
    if size is None:
        return None
    asked, source = _asked(part, size, tables)
    limit = tables.spare["speed_usual"] if size.temporary else None
    speed = Quantity(limit.value, "km/h") if limit and limit.value else part.speed
    load = carried(size, part.filled.pressure, part.certified, part.audience, tables) if part.filled else None
    return Spare(
        part=part, size=size, beside=_beside(part, size, tables), asked=asked, asked_source=source, limit=limit,
        at=road_speed(speed, part.audience, tables), load=load,
    )  # fmt: skip


def _asked(part: Part, size: Size, tables: Tables) -> tuple[Quantity | None, Source | None]:
    """The placard's pressure for the spare; for a temporary one without, what such spares are filled to."""
    if part.placard.spare.pressure is not None:
        return part.placard.spare.pressure, None
    usual = tables.spare["pressure"]
    if size.temporary and usual.value is not None:
        return Quantity(usual.value, "kPa"), usual.source
    return None, None


def worn_mm(worn: Worn | None) -> float:
    """How much tread has gone, by mean depth and depth when new; 0 where one of them is not known."""
    if worn is None or worn.tread is None or worn.depth_new is None:
        return 0.0
    return max(0.0, worn.depth_new.to("mm").value - worn.tread.mean().to("mm").value)


def _beside(part: Part, size: Size, tables: Tables) -> tuple[Beside, ...]:
    spare_mm = size.overall_diameter.value - 2 * worn_mm(part.spare)
    worst: dict[str, Beside] = {}
    for mate in part.mates:
        its = size_of(mate.marking, tables)
        if its is None:
            continue
        gone, factor = 2 * worn_mm(mate.worn), its.dimensions.rolling_factor
        beside = Beside(
            mate=mate, size=its, mate_mm=its.overall_diameter.value - gone, spare_mm=spare_mm,
            rolling_mm=rolling_circumference_mm(its.dimensions.rolling_diameter_mm - gone, factor),
        )  # fmt: skip
        before = worst.get(mate.axle)
        if before is None or abs(beside.change_percent) > abs(before.change_percent) + 1e-9:
            worst[mate.axle] = beside
    return tuple(worst.values())
