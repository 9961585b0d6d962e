"""One tire's wear over the distance it rolled: a line for each groove, and how far it is to each limit."""

import datetime as dt
from functools import cached_property

import msgspec

from studio.decide.age_read import Aged
from studio.decide.audience import Audience
from studio.decide.measured import Measured
from studio.decide.pace import Pace
from studio.decide.pace import after as day_after
from studio.decide.ruled_out import RuledOut
from studio.decide.subjects import Subject
from studio.decide.tread_limits import Mark, Marks
from studio.decide.whereabouts import Way
from studio.model.quantity import Quantity, UnitName
from studio.model.specimen import Season
from studio.tires.tread import distance_to_limit
from studio.tires.wear_rate import WearLine


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one tire's life depends on."""

    audience: Audience
    subject: Subject
    history: tuple[Measured, ...]
    way: Way
    season: Season
    marking: str
    depth_new: Quantity | None
    date_code: str
    on: dt.date
    pace: Pace | None
    out: RuledOut | None


class Point(msgspec.Struct, frozen=True, kw_only=True):
    """The lowest reading of one groove on one day: the distance rolled by then, its depth and half width, in mm."""

    tread: Measured
    odometer: Quantity
    rolled: float
    depth_mm: float
    half_mm: float


class Groove(msgspec.Struct, frozen=True, kw_only=True):
    """One groove's wear. ``name`` is empty for the tire as a whole, where grooves cannot be told apart.

    ``rate`` and ``half`` are mm for one unit of distance; where ``line`` is None the groove has worn too little to have
    a rate of its own, and takes that of the fastest one.
    """

    name: str
    points: tuple[Point, ...]
    line: WearLine | None
    rate: float
    half: float
    now_mm: float


class Reach(msgspec.Struct, frozen=True, kw_only=True):
    """The distance left until one mark, with its band; ``high`` is None where the readings set no upper end."""

    mark: Mark
    groove: Groove
    left: float
    low: float
    high: float | None


def _distance(depth_mm: float, mark: Mark, rate: float) -> float:
    """The handbook's (depth - limit) / rate for a rate in mm for one unit of distance."""
    return distance_to_limit(depth_mm, mark.mm, rate * 1000)


class Life(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """The fitted wear of one tire. Distances are in ``unit``, depths in mm."""

    part: Part
    grooves: tuple[Groove, ...]
    marks: Marks
    now_half_mm: float
    coverage: float
    wide: float
    days_per_year: float
    aged: Aged | None

    @property
    def unit(self) -> UnitName:
        """The unit of all distances."""
        return self.part.way.unit

    @cached_property
    def shown(self) -> Groove:
        """The groove with a line of its own that reaches the legal minimum first: what a chart draws."""
        return min((g for g in self.grooves if g.line), key=lambda g: self._left(g, self.marks.legal))

    @cached_property
    def line(self) -> WearLine:
        """The line of the groove that is shown."""
        assert self.shown.line is not None
        return self.shown.line

    @cached_property
    def now_mm(self) -> float:
        """The lowest depth at the last reading, which had an odometer or not."""
        last = self.part.history[-1]
        return last.depth(last.lowest.value).to("mm").value

    def _left(self, groove: Groove, mark: Mark) -> float:
        return _distance(groove.now_mm, mark, groove.rate)

    def reach(self, mark: Mark) -> Reach:
        """How far it is until the first groove is at a mark: from the last reading at the groove's own rate."""
        groove = min(self.grooves, key=lambda g: self._left(g, mark))
        highs = [high for g in self.grooves if (high := self._high(g, mark)) is not None]
        return Reach(
            mark=mark, groove=groove, left=self._left(groove, mark), low=min(self._low(g, mark) for g in self.grooves),
            high=min(highs, default=None),
        )  # fmt: skip

    def _low(self, groove: Groove, mark: Mark) -> float:
        return _distance(groove.now_mm - self.now_half_mm, mark, groove.rate + groove.half)

    def _high(self, groove: Groove, mark: Mark) -> float | None:
        slow = groove.rate - groove.half
        return _distance(groove.now_mm + self.now_half_mm, mark, slow) if slow > 0 else None

    @cached_property
    def legal(self) -> Reach:
        """How far it is to the legal minimum."""
        return self.reach(self.marks.legal)

    @cached_property
    def others(self) -> tuple[Reach, ...]:
        """How far it is to each other mark."""
        return tuple(self.reach(mark) for mark in self.marks.others)

    @property
    def done(self) -> bool:
        """Whether the last reading is at or under the legal minimum."""
        return self.now_mm <= self.marks.legal.mm + 1e-9

    @cached_property
    def far_from_sure(self) -> bool:
        """Whether the band is so wide that only its lower end should be said."""
        return self.legal.high is None or self.legal.high > self.wide * self.legal.left

    @cached_property
    def yearly(self) -> float | None:
        """How far this tire itself rolls in a year: its share of what the car runs; None where not known."""
        pace, way = self.part.pace, self.part.way
        if pace is None or way.driven <= 0:
            return None
        return pace.yearly.to(self.unit).value * way.rolled[-1] / way.driven

    def day(self, distance: float | None) -> dt.date | None:
        """The day on which that distance from the last reading on will be rolled; None where not known."""
        if distance is None or self.yearly is None:
            return None
        return day_after(self.part.history[-1].reading.on, distance, self.yearly, self.days_per_year)

    @cached_property
    def age_ends_it(self) -> dt.date | None:
        """The day from which it should be replaced for its age, if that comes before the legal minimum."""
        if self.aged is None or self.yearly is None or not self.aged.code.decade_known:
            return None
        years = next((row.from_years for row in self.aged.deciding if row.level == "replace"), None)
        if years is None:
            return None
        ends, worn = self.aged.day_of(years), self.day(self.legal.left)
        return ends if worn is None or ends < worn else None
