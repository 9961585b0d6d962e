"""How long the script runs when it is spoken, at whose pace, and what must be cut. Times are exact ratios of a second.

Each spoken word takes 60 / pace seconds and each planned pause its own time. The pace is the one set, else the one
learnt from takes, else 150 words a minute.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Literal

import msgspec

from studio.model.finding import Finding, Findings
from studio.model.quantity import System
from studio.model.rundown import Rundown, Segment
from studio.script.live import filled, spoken_text
from studio.script.numbers import by_id
from studio.script.takes import TakeProblem, learnt_pace
from studio.script.words import count_words

DEFAULT_PACE = 150
Whence = Literal["set", "learnt", "default"]


class PointTime(msgspec.Struct, frozen=True, kw_only=True):
    """One talking point: its words, the time they take, the pause after it, and when it begins."""

    words: int
    speaking_s: Fraction
    pause_s: Fraction
    starts_s: Fraction

    @property
    def total_s(self) -> Fraction:
        """Speaking and pause together."""
        return self.speaking_s + self.pause_s


class SegmentTime(msgspec.Struct, frozen=True, kw_only=True):
    """One segment: when it begins and what it takes; ``tie_s`` is the time of spoken lines of paid ties."""

    segment: str
    title: str
    starts_s: Fraction
    points: tuple[PointTime, ...] = ()
    tie_words: int = 0
    tie_s: Fraction = Fraction(0)

    @property
    def words(self) -> int:
        """All spoken words."""
        return sum(point.words for point in self.points) + self.tie_words

    @property
    def total_s(self) -> Fraction:
        """All its time."""
        return sum((point.total_s for point in self.points), self.tie_s)


class Cut(msgspec.Struct, frozen=True, kw_only=True):
    """A talking point that could go: its place and the time won."""

    segment: str
    point: int
    wins_s: Fraction


class Timing(msgspec.Struct, frozen=True, kw_only=True):
    """The time of the whole script. ``over_s`` is what must be cut for the target; negative is room left."""

    words_per_minute: Fraction
    pace_from: Whence
    segments: tuple[SegmentTime, ...]
    total_s: Fraction
    target_s: Fraction | None = None
    over_s: Fraction | None = None
    cuts: tuple[Cut, ...] = ()
    problems: tuple[TakeProblem, ...] = ()

    @property
    def words(self) -> int:
        """All spoken words."""
        return sum(segment.words for segment in self.segments)


def time_script(rundown: Rundown, findings: Findings, units: System) -> Timing:
    """The timing of ``rundown``, its live numbers spoken in the audience's ``units``."""
    index = by_id(findings)
    words = [segment_words(rundown, segment, index, units) for segment in rundown.segments]
    learnt, problems = learnt_pace(rundown, *_told(rundown.segments, words))
    pace, whence = _pace(rundown, learnt)
    segments = tuple(_segments(rundown.segments, words, Fraction(60) / pace))
    total = sum((segment.total_s for segment in segments), Fraction(0))
    target = None if rundown.target_s is None else Fraction(rundown.target_s)
    over = None if target is None else total - target
    return Timing(
        words_per_minute=pace, pace_from=whence, segments=segments, total_s=total, target_s=target, over_s=over,
        cuts=suggest_cuts(segments, over) if over else (), problems=problems,
    )  # fmt: skip


def segment_words(rundown: Rundown, segment: Segment, index: Mapping[str, Finding], units: System) -> tuple[int, ...]:
    """The spoken words of each point, and last those of the segment's paid lines."""
    points = [count_words(spoken_text(filled(point.text, index, units))) for point in segment.points]
    return (*points, sum(count_words(line) for line in paid_lines(rundown, segment)))


def paid_lines(rundown: Rundown, segment: Segment) -> tuple[str, ...]:
    """The lines of paid ties that are spoken in ``segment`` besides its points."""
    mine = (tie.line for tie in rundown.paid_ties if tie.segment == segment.id and tie.line.strip())
    return tuple(line for line in mine if not any(line.strip() in point.text for point in segment.points))


def suggest_cuts(segments: Sequence[SegmentTime], over_s: Fraction) -> tuple[Cut, ...]:
    """Points that together win ``over_s``: the longest first, the last one no longer than it needs to be."""
    if over_s <= 0:
        return ()
    every = [Cut(segment=segment.segment, point=i, wins_s=point.total_s) for segment in segments
             for i, point in enumerate(segment.points) if point.total_s]  # fmt: skip
    every.sort(key=lambda cut: -cut.wins_s)
    chosen: list[Cut] = []
    rest = over_s
    for place, cut in enumerate(every):
        if cut.wins_s >= rest:
            enough = [its for its in every[place:] if its.wins_s >= rest]
            return (*chosen, enough[-1])
        chosen.append(cut)
        rest -= cut.wins_s
    return tuple(chosen)


def _pace(rundown: Rundown, learnt: Fraction | None) -> tuple[Fraction, Whence]:
    if rundown.words_per_minute is not None:
        return Fraction(rundown.words_per_minute), "set"
    return (learnt, "learnt") if learnt is not None else (Fraction(DEFAULT_PACE), "default")


def _told(
    segments: Sequence[Segment], words: Sequence[tuple[int, ...]]
) -> tuple[dict[str, int], dict[str, Fraction]]:
    """The words and the planned pauses of each segment by its id; of two with one id the first is meant."""
    said: dict[str, int] = {}
    paused: dict[str, Fraction] = {}
    for segment, its in zip(segments, words, strict=True):
        said.setdefault(segment.id, sum(its))
        paused.setdefault(segment.id, sum((Fraction(point.pause_s) for point in segment.points), Fraction(0)))
    return said, paused


def _segments(
    segments: Sequence[Segment], words: Sequence[tuple[int, ...]], each: Fraction
) -> Iterator[SegmentTime]:
    """The segments one after the other, at ``each`` seconds a word."""
    at = Fraction(0)
    for segment, (*said, paid) in zip(segments, words, strict=True):
        begins, points = at, []
        for point, count in zip(segment.points, said, strict=True):
            time = PointTime(words=count, speaking_s=count * each, pause_s=Fraction(point.pause_s), starts_s=at)
            points.append(time)
            at += time.total_s
        at += paid * each
        yield SegmentTime(
            segment=segment.id, title=segment.title, starts_s=begins, points=tuple(points), tie_words=paid,
            tie_s=paid * each,
        )  # fmt: skip
