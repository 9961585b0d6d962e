"""What becomes of a set of tires under a plan of rotation: every plan tried, none guessed.

Depths in one unit, distances in another; a rate is depth for one unit of distance. Wheels go by the place at which they
stand today. A spare does not roll. What is kept together is what stands on the road.
"""

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from studio.tires.errors import RangeError, require_at_least_zero, require_positive
from studio.tires.rotation import SPARE, Pattern

_MOST_ROTATIONS = 2000
_SAME = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Wheel:
    """A tire today: its mean depth, its lowest reading, and the depth at which it has to go."""

    mean: float
    lowest: float
    limit: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """What each place takes off the mean depth, and off the lowest spot."""

    mean: Mapping[str, float]
    lowest: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Plan:
    """One pattern repeated: for the first time after ``first``, then every ``interval``. None: nothing is moved."""

    pattern: Pattern | None
    first: float = math.inf
    interval: float = math.inf


STAY = Plan(None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """What a plan comes to.

    ``lasts`` is the distance until the first tire has to go, ``first_out`` where that one stands today. How far the
    tires on the road are apart in mean depth: at most and on the average until ``over``, and then. ``ends`` are the
    mean depths then, ``rotations`` how often was rotated until then.
    """

    plan: Plan
    lasts: float
    first_out: str
    over: float
    most_apart: float
    mean_apart: float
    end_apart: float
    ends: Mapping[str, float]
    rotations: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """Not rotating, the plan that keeps the tires closest, and the one whose first tire to go lasts longest.

    Either may be not rotating. ``tried`` are all courses, not rotating first.
    """

    stay: Course
    closest: Course
    longest: Course
    tried: tuple[Course, ...]


def plans(patterns: Iterable[Pattern], times: Iterable[tuple[float, float]]) -> tuple[Plan, ...]:
    """Every pattern at every one of ``times``: (first, interval)."""
    return tuple(Plan(pattern, *time) for pattern, time in itertools.product(patterns, times))


def search(
    wheels: Mapping[str, Wheel], rates: Rates, tried: Sequence[Plan], *, same_way: float = 0.0, same_depth: float = 0.0
) -> Search:
    """Run not rotating and every plan until the first tire would have to go if nothing were moved; pick the best.

    Plans count as equally good where they are no further apart than ``same_way`` and ``same_depth``. Of equally good
    ones not rotating wins, then those that are better in the other respect, then what was tried first. Raises
    RangeError where nothing wears, so that no tire would ever have to go.
    """
    over = run(wheels, rates, STAY, 0.0).lasts
    courses = tuple(run(wheels, rates, plan, over) for plan in (STAY, *tried))
    near, far = _nearest(courses, same_depth), _furthest(courses, same_way)
    return Search(
        stay=courses[0], tried=courses, closest=near[0] if near[0] is courses[0] else _furthest(near, same_way)[0],
        longest=far[0] if far[0] is courses[0] else _nearest(far, same_depth)[0],
    )  # fmt: skip


def _furthest(courses: Sequence[Course], same: float) -> Sequence[Course]:
    most = max(course.lasts for course in courses)
    return [course for course in courses if course.lasts >= most * (1 - _SAME) - same]


def _nearest(courses: Sequence[Course], same: float) -> Sequence[Course]:
    least = min(course.mean_apart for course in courses)
    return [course for course in courses if course.mean_apart <= least * (1 + _SAME) + same]


def run(wheels: Mapping[str, Wheel], rates: Rates, plan: Plan, over: float) -> Course:
    """Follow one plan exactly: wear is steady between two rotations. ``over`` is how far the spread is watched."""
    require_at_least_zero(first=plan.first, over=over)
    require_positive(interval=plan.interval)
    lasts, first_out = first_to_go(wheels, rates, plan)
    watch, at = _Watch({name: wheel.mean for name, wheel in wheels.items()}), {place: place for place in wheels}
    for length, at in _legs(wheels, plan, over):
        watch.roll(length, at, rates.mean)
    end = _spread(watch.mean[name] for name in _road(at))
    return Course(
        plan=plan, lasts=lasts, first_out=first_out, over=over, most_apart=max(watch.most, end), end_apart=end,
        mean_apart=watch.area / over if over > 0 else end, ends=watch.mean, rotations=rotations_until(plan, over),
    )  # fmt: skip


def rotations_until(plan: Plan, over: float) -> int:
    """How often is rotated before ``over``."""
    return 0 if plan.pattern is None or over <= plan.first else math.ceil((over - plan.first) / plan.interval - _SAME)


def first_to_go(wheels: Mapping[str, Wheel], rates: Rates, plan: Plan) -> tuple[float, str]:
    """How far it is until the first tire's lowest spot is at its limit, and where that tire stands today."""
    if not any(rates.lowest.get(place, 0.0) > 0 for place in wheels if place != SPARE):
        raise RangeError("no wear at any corner, expected a rate above 0 at one of them at least")
    lowest, gone = {name: wheel.lowest for name, wheel in wheels.items()}, 0.0
    for length, at in _legs(wheels, plan, math.inf):
        left = {
            name: max(0.0, lowest[name] - wheels[name].limit) / rate
            for name in _road(at)
            if (rate := rates.lowest.get(at[name], 0.0)) > 0
        }
        first = min(left, key=lambda name: left[name], default="")
        if first and left[first] <= length:
            return gone + left[first], first
        gone += length
        for name in _road(at):
            lowest[name] -= rates.lowest.get(at[name], 0.0) * length
    raise RangeError(f"no tire has to go within {_MOST_ROTATIONS} rotations, expected one to")


def trace(wheels: Mapping[str, Wheel], rates: Rates, plan: Plan, name: str) -> tuple[tuple[str, float, float], ...]:
    """The way of one wheel until it is the first to go, or another is: (place, distance there, lowest spot then)."""
    lasts, _ = first_to_go(wheels, rates, plan)
    lowest, found = wheels[name].lowest, []
    for length, at in _legs(wheels, plan, lasts):
        place = at[name]
        lowest -= (0.0 if place == SPARE else rates.lowest.get(place, 0.0)) * length
        found.append((place, length, lowest))
    return tuple(found)


def _legs(wheels: Iterable[str], plan: Plan, until: float) -> Iterator[tuple[float, dict[str, str]]]:
    """The way from rotation to rotation: each leg's length, and where every wheel stands on it."""
    at, gone = {place: place for place in wheels}, 0.0
    for count in range(_MOST_ROTATIONS):
        length = min(plan.first if count == 0 else plan.interval, until - gone)
        if length > 0:
            yield length, at
        gone += length
        if gone >= until - _SAME or plan.pattern is None:
            return
        at = {name: plan.pattern.moves.get(place, place) for name, place in at.items()}


def _road(at: Mapping[str, str]) -> list[str]:
    return [name for name, place in at.items() if place != SPARE]


class _Watch:
    """How far the tires on the road are apart along the way: at most, and the area under it."""

    def __init__(self, mean: dict[str, float]) -> None:
        self.mean = mean
        self.most = self.area = 0.0

    def roll(self, length: float, at: Mapping[str, str], rates: Mapping[str, float]) -> None:
        """Roll one leg: the spread is straight between the points where two tires change their order."""
        road = {name: self.mean[name] for name in _road(at)}
        rate = {name: rates.get(at[name], 0.0) for name in road}
        points = [0.0, *_crossings(road, rate, length), length]
        spans = [_spread(depth - rate[name] * x for name, depth in road.items()) for x in points]
        pairs = zip(itertools.pairwise(points), itertools.pairwise(spans), strict=True)
        self.area += sum((b - a) * (one + other) / 2 for (a, b), (one, other) in pairs)
        self.most = max(self.most, *spans)
        self.mean = self.mean | {name: depth - rate[name] * length for name, depth in road.items()}


def _spread(depths: Iterable[float]) -> float:
    every = list(depths)
    return max(every) - min(every)


def _crossings(start: Mapping[str, float], rate: Mapping[str, float], distance: float) -> list[float]:
    """Where two of the straight lines cross within the distance."""
    found = []
    for one, other in itertools.combinations(start, 2):
        faster = rate[one] - rate[other]
        at = (start[one] - start[other]) / faster if faster else -1.0
        if 0 < at < distance:
            found.append(at)
    return sorted(found)
