"""How a tread has worn, across and round the tire, from depths by groove and place. Depths in one unit throughout.

Grooves run from the outer side of the car to the inner one; None where nothing was read.
"""

import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from studio.tires.errors import RangeError

Groove = Sequence[float | None]
AcrossName = Literal["shoulder", "center", "inner_edge", "outer_edge"]
_SAME = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """The tread in three: outer edge, center (None with only two grooves), inner edge."""

    outer: float
    center: float | None
    inner: float

    @property
    def parts(self) -> tuple[float, ...]:
        """The parts that were read, from outside to inside."""
        return tuple(level for level in (self.outer, self.center, self.inner) if level is not None)

    @property
    def spread(self) -> float:
        """From the lowest of the three to the highest."""
        return max(self.parts) - min(self.parts)

    @property
    def name(self) -> AcrossName:
        """The usual pattern that is nearest: both shoulders or the center where that is more than one edge is lower."""
        edge = self.outer - self.inner
        crown = 0.0 if self.center is None else self.center - (self.outer + self.inner) / 2
        if abs(crown) > abs(edge) + _SAME:
            return "shoulder" if crown > 0 else "center"
        return "inner_edge" if edge > 0 else "outer_edge"


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """One groove round the tire: the highest reading less the lowest, the low places, in how many stretches."""

    drop: float
    lowest: int
    low: tuple[int, ...]
    stretches: int


def around(groove: Groove, low_from: float) -> Round | None:
    """One groove round the tire; a place is low where it is ``low_from`` under the highest. None with one reading."""
    read = [(place, depth) for place, depth in enumerate(groove) if depth is not None]
    if len(read) < 2:
        return None
    highest = max(depth for _, depth in read)
    lowest, least = min(read, key=lambda spot: spot[1])
    is_low = [highest - depth >= low_from - _SAME for _, depth in read]
    low = tuple(place for (place, _), bad in zip(read, is_low, strict=True) if bad)
    begins = sum(bad and not is_low[i - 1] for i, bad in enumerate(is_low))
    return Round(drop=highest - least, lowest=lowest, low=low, stretches=begins)


def level(groove: Groove, low_from: float) -> float:
    """How deep a groove is as a whole: the median round the tire, without a low stretch of at most half of it.

    So one worn place does not make an edge of itself.
    """
    found = around(groove, low_from)
    low = found.low if found else ()
    read = [depth for depth in groove if depth is not None]
    if not read:
        raise RangeError("no depth was read in this groove, expected at least one reading such as 5/32 in")
    kept = [depth for place, depth in enumerate(groove) if depth is not None and place not in low]
    return statistics.median(kept if 2 * len(low) <= len(read) else read)


def across(levels: Sequence[float]) -> Across:
    """The tread in three from the levels of its grooves; the center is the mean of what lies between the edges."""
    if len(levels) < 2:
        raise RangeError(f"{len(levels)} groove was read, expected at least the outer and the inner one")
    between = levels[1:-1]
    return Across(outer=levels[0], center=statistics.fmean(between) if between else None, inner=levels[-1])


def even_out(levels: Sequence[float], new: Sequence[float]) -> tuple[float, ...]:
    """Levels as they would be had all grooves been equally deep when new: what each has lost, off the deepest."""
    if len(levels) != len(new):
        raise RangeError(f"{len(new)} grooves when new and {len(levels)} now, expected the same number")
    return tuple(max(new) - (before - now) for before, now in zip(new, levels, strict=True))
