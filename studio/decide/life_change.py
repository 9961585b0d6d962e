"""What would change the distance left, found by fitting again without a reading, or with another distance."""

from collections.abc import Sequence

from studio.decide.life_read import Life, Point
from studio.decide.life_working import is_new
from studio.decide.rounded import about, about_both
from studio.decide.wording import day_words
from studio.model.quantity import depth
from studio.tires.tread import distance_to_limit
from studio.tires.wear_rate import wear_line


def texts(its: Life) -> tuple[str, ...]:
    """The changes as sentences."""
    if its.done:
        return ()
    found = [_tenth(its), _without_the_first(its), _without_one(its), _all_the_way(its)]
    return tuple(text for text in found if text)


def left_with(points: Sequence[Point], its: Life) -> float | None:
    """The distance to the legal minimum with these points alone; None where they show no wear."""
    if len({point.rolled for point in points}) < 2:
        return None
    line = wear_line([p.rolled for p in points], [p.depth_mm for p in points], [p.half_mm for p in points])
    if line.rate <= 0:
        return None
    return distance_to_limit(its.shown.now_mm, its.marks.legal.mm, line.rate * 1000)


def _tenth(its: Life) -> str:
    """What a tenth of a millimeter of the last reading does to the distance."""
    tenth = depth(0.1, "mm")
    more = about(tenth.value / its.legal.groove.rate, its.unit, its.part.audience.units)
    return f"Each {its.part.audience.both(tenth)} that the last reading is off moves it by {more.text()}."


def _without_the_first(its: Life) -> str:
    """What a reading of the new tire, with its faster first wear, makes of it."""
    points = its.shown.points
    left = left_with(points[1:], its) if len(points) > 2 and is_new(points[0], its) else None
    if left is None:
        return ""
    return f"Without the first reading, of the new tire, it would be {_far(left, its)}."


def _without_one(its: Life) -> str:
    """The reading that moves the distance most, of those between the first and the last."""
    points = its.shown.points
    between = [(left_with([q for q in points if q is not p], its), p) for p in points[1:-1]]
    moves = [(abs(left - its.legal.left), left, p) for left, p in between if left is not None]
    if not moves:
        return ""
    _, left, point = max(moves, key=lambda it: it[0])
    if about(left, its.unit, "metric") == about(its.legal.left, its.unit, "metric"):
        return ""
    return f"Without the reading of {day_words(point.tread.reading.on)} it would be {_far(left, its)}."


def _all_the_way(its: Life) -> str:
    """The distance if the tire had stood on the car all the time, where that was not taken for granted."""
    way = its.part.way
    if not way.assumed or not 0 < way.rolled[-1] < way.driven:
        return ""
    left = its.legal.left * way.driven / way.rolled[-1]
    return f"Had it stood on the car all the way between its readings, it would be {_far(left, its)}."


def _far(left: float, its: Life) -> str:
    return f"about {about_both(left, its.unit, its.part.audience.units)}"
