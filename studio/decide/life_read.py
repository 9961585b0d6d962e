"""One tire's wear over distance: the line through its readings, how sure it is, and how far it is to each limit."""

import math

import msgspec

from studio.decide.audience import Audience
from studio.decide.damage import Seen
from studio.decide.measured import Measured
from studio.decide.subjects import Subject
from studio.decide.tread_limits import Mark, Marks
from studio.model.quantity import Quantity, UnitName
from studio.model.specimen import Season
from studio.tires.tread import WearFit, distance_to_limit


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one tire's life depends on."""

    audience: Audience
    subject: Subject
    history: tuple[Measured, ...]
    season: Season
    marking: str
    damage: tuple[Seen, ...]


class Point(msgspec.Struct, frozen=True, kw_only=True):
    """One reading with an odometer: the distance rolled since the first, the lowest depth, its doubt, in mm."""

    tread: Measured
    odometer: Quantity
    rolled: float
    depth_mm: float
    doubt_mm: float


class Reach(msgspec.Struct, frozen=True, kw_only=True):
    """The distance left until one mark, with its band; ``high`` is None where the readings set no upper end."""

    mark: Mark
    left: float
    low: float
    high: float | None


class Life(msgspec.Struct, frozen=True, kw_only=True):
    """The fitted wear. Distances are in ``unit``, depths in mm; ``now`` is the last reading, with odometer or not."""

    part: Part
    points: tuple[Point, ...]
    unit: UnitName
    fit: WearFit
    now_mm: float
    now_doubt_mm: float
    marks: Marks

    @property
    def rate_doubt(self) -> float:
        """Half width of the wear over 1000 units of distance.

        Least squares: the doubt of one reading, or the scatter about the line where that is larger, over the root of
        the sum of squares of the distances from their mean.
        """
        mean = sum(point.rolled for point in self.points) / len(self.points)
        spread = math.sqrt(sum((point.rolled - mean) ** 2 for point in self.points))
        doubt_mm = max(max(point.doubt_mm for point in self.points), self.fit.scatter)
        return doubt_mm / spread * 1000

    @property
    def fit_at_last(self) -> float:
        """The fitted depth at the last reading, in mm."""
        return self.fit.depth_at_zero - self.fit.rate_per_1000 * self.points[-1].rolled / 1000

    def reach(self, mark: Mark) -> Reach:
        """How far it is to a mark: from the last reading at the fitted rate; the band from both doubts together."""
        rate, doubt = self.fit.rate_per_1000, self.rate_doubt
        low, high = self.now_mm - self.now_doubt_mm, self.now_mm + self.now_doubt_mm
        return Reach(
            mark=mark, left=distance_to_limit(self.now_mm, mark.mm, rate),
            low=distance_to_limit(low, mark.mm, rate + doubt),
            high=distance_to_limit(high, mark.mm, rate - doubt) if rate > doubt else None,
        )  # fmt: skip

    @property
    def legal(self) -> Reach:
        """How far it is to the legal minimum."""
        return self.reach(self.marks.legal)

    @property
    def others(self) -> tuple[Reach, ...]:
        """How far it is to each other mark."""
        return tuple(self.reach(mark) for mark in self.marks.others)

    @property
    def done(self) -> bool:
        """Whether the last reading is at or under the legal minimum."""
        return self.now_mm <= self.marks.legal.mm + 1e-9
