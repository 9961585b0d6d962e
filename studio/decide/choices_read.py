"""What each way to go on with four tires depends on, and the tires as they stand today."""

from typing import Literal

import msgspec

from studio.decide.audience import Audience
from studio.decide.gauge import doubt
from studio.decide.matching_tires import Worn
from studio.decide.pace import Pace
from studio.decide.place_wear import Grounds
from studio.decide.ruled_out import RuledOut
from studio.decide.tire_marks import marks_of
from studio.decide.topic import remembered
from studio.decide.tread_limits import Judgement, judge
from studio.model.car import Drivetrain, Tolerance
from studio.model.circumstances import Prices
from studio.model.places import CORNERS
from studio.reference.tables import Tables

Kind = Literal["keep", "one", "pair", "four", "shaved", "used_pair"]
KINDS: tuple[Kind, ...] = ("keep", "one", "pair", "four", "shaved", "used_pair")
SIDE_BOUND = ("directional", "asymmetric_directional", "studded")
AXLE_BOUND = ("staggered", "different_wheels")


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one choice depends on. ``missing`` is what keeps every choice from being computed."""

    kind: Kind
    audience: Audience
    corners: tuple[Worn, ...]
    out: tuple[RuledOut | None, ...]
    traits: tuple[str, ...]
    drivetrain: Drivetrain | None
    tolerance: Tolerance | None
    prices: Prices
    grounds: Grounds
    pace: Pace | None
    missing: str = ""

    @property
    def side_bound(self) -> bool:
        """Whether a tire on the car must stay on its side."""
        return bool(set(self.traits) & set(SIDE_BOUND))

    @property
    def axle_bound(self) -> bool:
        """Whether no tire may change its axle."""
        return bool(set(self.traits) & set(AXLE_BOUND))


class Stand(msgspec.Struct, frozen=True, kw_only=True):
    """A tire on the car today, in mm: its tread ``judged`` against law and advice, ``out`` what else rules it out."""

    worn: Worn
    mean_mm: float
    lowest_mm: float
    limit_mm: float
    half_mm: float
    new_mm: float | None
    judged: Judgement
    out: RuledOut | None

    @property
    def name(self) -> str:
        """Its place today."""
        return self.worn.subject.name

    @property
    def must_go(self) -> bool:
        """Whether it may not stay on: by its damage, its age or the law."""
        return self.out is not None or self.judged.verdict == "replace"

    @property
    def usable_mm(self) -> float:
        """The tread above the legal minimum."""
        return max(0.0, self.lowest_mm - self.limit_mm)

    @property
    def urgency(self) -> tuple[int, float, float]:
        """What should go first has the highest: ruled out, worn out, else the one with the least tread."""
        return (2 if self.out else 1 if self.must_go else 0, -self.lowest_mm, -self.mean_mm)


class Corners(msgspec.Struct, frozen=True, kw_only=True):
    """What the tires depend on as they stand: the same for every choice."""

    corners: tuple[Worn, ...]
    out: tuple[RuledOut | None, ...]
    region: str


def stands(part: Part, tables: Tables) -> tuple[Stand, ...] | None:
    """The four tires as they stand; None where a depth reading or the law is missing."""
    return _remembered(Corners(corners=part.corners, out=part.out, region=part.audience.region), tables)


def _stands(part: Corners, tables: Tables) -> tuple[Stand, ...] | None:
    found = []
    for worn, out in zip(part.corners, part.out, strict=True):
        marks = marks_of(worn.marking, worn.season, part.region, tables)
        if worn.tread is None or marks is None:
            return None
        lowest = worn.tread.depth(worn.tread.lowest.value).to("mm").value
        half = doubt(worn.tread.reading.gauge, tables).half_width.to("mm").value
        found.append(
            Stand(
                worn=worn, mean_mm=worn.tread.mean().to("mm").value, lowest_mm=lowest, limit_mm=marks.legal.mm,
                half_mm=half, new_mm=worn.depth_new.to("mm").value if worn.depth_new else None,
                judged=judge(lowest, half, marks), out=out,
            )
        )  # fmt: skip
    return tuple(found) if len(found) == len(CORNERS) else None


_remembered = remembered(_stands, most=8)
