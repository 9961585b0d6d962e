"""Wear from readings: the line through a tire's depths, and what each place on the car takes off a tire.

Depths and their half widths in one unit, distances in one unit; a rate is depth for one unit of distance.
"""

import math
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from studio.tires.errors import RangeError, require_positive

_SINGULAR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class WearLine:
    """A straight line through readings by least squares, each weighed by one over the square of its half width.

    ``rate`` is positive where the depth falls. ``unit_half`` is the half width of the rate that the gauges alone give;
    ``scatter`` is the standard deviation of the readings about the line as a multiple of their half widths (0 with two
    readings, which any line fits).
    """

    rate: float
    depth_at_zero: float
    unit_half: float
    scatter: float
    readings: int

    def at(self, distance: float) -> float:
        """The depth on the line."""
        return self.depth_at_zero - self.rate * distance

    def half(self, coverage: float) -> float:
        """The half width of the rate: by the gauges, or by ``coverage`` times the scatter where that is more."""
        return self.unit_half * max(1.0, coverage * self.scatter)


def wear_line(distances: Sequence[float], depths: Sequence[float], halves: Sequence[float]) -> WearLine:
    """Fit a steady wear. Raises RangeError with fewer than two readings or no two at different distances.

    Source of weights and half width: least squares with known doubts, as in any textbook of statistics.
    """
    if not len(distances) == len(depths) == len(halves) or len(depths) < 2 or len(set(distances)) < 2:
        raise RangeError(f"{len(depths)} readings at {len(set(distances))} distances, expected at least two of each")
    require_positive(half_width=min(halves))
    weights = [1.0 / half**2 for half in halves]
    x_mean, y_mean = _mean(weights, distances), _mean(weights, depths)
    spread = sum(w * (x - x_mean) ** 2 for w, x in zip(weights, distances, strict=True))
    rows = list(zip(weights, distances, depths, strict=True))
    slope = sum(w * (x - x_mean) * (y - y_mean) for w, x, y in rows) / spread
    start = y_mean - slope * x_mean
    off, free = sum(w * (y - start - slope * x) ** 2 for w, x, y in rows), len(depths) - 2
    return WearLine(
        rate=-slope, depth_at_zero=start, unit_half=1 / math.sqrt(spread), readings=len(depths),
        scatter=math.sqrt(off / free) if free else 0.0,
    )  # fmt: skip


def _mean(weights: Sequence[float], values: Sequence[float]) -> float:
    return sum(w * value for w, value in zip(weights, values, strict=True)) / sum(weights)


def median_rate(distances: Sequence[float], depths: Sequence[float]) -> float:
    """The median of the rates between every two readings, which one bad reading hardly moves.

    Source: H. Theil 1950 and P. K. Sen 1968. Raises RangeError where no two readings lie at different distances.
    """
    points = list(zip(distances, depths, strict=True))
    rates = [(a[1] - b[1]) / (b[0] - a[0]) for i, a in enumerate(points) for b in points[i + 1 :] if a[0] != b[0]]
    if not rates:
        raise RangeError(f"{len(points)} readings at one distance, expected at least two distances")
    return statistics.median(rates)


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One reading of one tire: its depth, the half width, and how far it had rolled at each place since its first."""

    depth: float
    half: float
    rolled: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceRates:
    """Rates by place, their half widths by the gauges alone, and the scatter as in ``WearLine``."""

    rate: Mapping[str, float]
    unit_half: Mapping[str, float]
    scatter: float

    def half(self, place: str, coverage: float) -> float:
        """The half width of the rate at ``place``."""
        return self.unit_half[place] * max(1.0, coverage * self.scatter)


def rates_by_place(tires: Sequence[Sequence[Visit]], places: Sequence[str]) -> PlaceRates | None:
    """The wear at each of ``places`` that explains all readings of all tires best, by least squares.

    Every tire has a depth of its own to begin with; what it loses is the sum over the places of rate times distance
    rolled there. A place that comes out below 0 is held at 0, as no tire grows. None where the readings cannot tell the
    places apart, or where none of the tires rolled at one of them.
    """
    rows = [row for tire in tires for row in _centered(tire, places)]
    solved = _solve(rows, range(len(places)))
    if solved is None:
        return None
    rates, halves = solved
    rate = dict(zip(places, _none_below_zero(rows, rates), strict=True))
    off = sum(w * (y + sum(rate[p] * x for p, x in zip(places, xs, strict=True))) ** 2 for xs, y, w in rows)
    free = len(rows) - sum(1 for tire in tires if len(tire) > 1) - len(places)
    return PlaceRates(
        rate=rate, unit_half=dict(zip(places, halves, strict=True)), scatter=math.sqrt(off / free) if free > 0 else 0.0
    )


Row = tuple[tuple[float, ...], float, float]


def _none_below_zero(rows: Sequence[Row], rates: list[float]) -> list[float]:
    """The rates, the lowest of those below 0 held at 0 and the others fitted anew until none is."""
    active, found = list(range(len(rates))), list(rates)
    while active and min(found[i] for i in active) < 0:
        active.remove(min(active, key=lambda i: found[i]))
        again = _solve(rows, active)
        held = dict(zip(active, again[0], strict=True)) if again else {}
        found = [held.get(i, 0.0) for i in range(len(rates))]
    return found


def _centered(tire: Sequence[Visit], places: Sequence[str]) -> list[Row]:
    """A tire's visits as (distances by place, depth, weight), each from the tire's own weighted mean."""
    if len(tire) < 2:
        return []
    weights = [1.0 / visit.half**2 for visit in tire]
    columns = [[visit.rolled.get(place, 0.0) for visit in tire] for place in places]
    means = [_mean(weights, column) for column in columns]
    depth = _mean(weights, [visit.depth for visit in tire])
    return [
        (tuple(column[i] - mean for column, mean in zip(columns, means, strict=True)), visit.depth - depth, weights[i])
        for i, visit in enumerate(tire)
    ]


def _solve(rows: Sequence[Row], which: Sequence[int]) -> tuple[list[float], list[float]] | None:
    """Rates and half widths from the normal equations; None where they are singular."""
    matrix = [[sum(w * xs[i] * xs[j] for xs, _, w in rows) for j in which] for i in which]
    scale = [math.sqrt(matrix[i][i]) for i in range(len(which))]
    if not scale or not all(scale):
        return None
    right = [-sum(w * xs[i] * y for xs, y, w in rows) / s for i, s in zip(which, scale, strict=True)]
    inverse = _inverse([[a / scale[i] / scale[j] for j, a in enumerate(row)] for i, row in enumerate(matrix)])
    if inverse is None:
        return None
    rates = [sum(a * b for a, b in zip(row, right, strict=True)) / s for row, s in zip(inverse, scale, strict=True)]
    return rates, [math.sqrt(row[i]) / scale[i] for i, row in enumerate(inverse)]


def _inverse(matrix: list[list[float]]) -> list[list[float]] | None:
    """The inverse by elimination with pivots; None for a matrix that has none."""
    size = len(matrix)
    work = [[*row, *(1.0 if i == j else 0.0 for j in range(size))] for i, row in enumerate(matrix)]
    for column in range(size):
        pivot = max(range(column, size), key=lambda i: abs(work[i][column]))
        if abs(work[pivot][column]) < _SINGULAR:
            return None
        work[column], work[pivot] = work[pivot], work[column]
        head = work[column][column]
        work[column] = [value / head for value in work[column]]
        for i in range(size):
            if i != column and (factor := work[i][column]):
                work[i] = [a - factor * b for a, b in zip(work[i], work[column], strict=True)]
    return [row[size:] for row in work]
