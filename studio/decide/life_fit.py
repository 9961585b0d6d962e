"""The lines through a tire's readings, groove by groove, and the refusal of what would project the gauge."""

import math

from msgspec.structs import replace

from studio.decide.gauge import doubt
from studio.decide.life_read import Groove, Part, Point
from studio.decide.measured import Measured
from studio.model.quantity import Quantity
from studio.model.specimen import Gauge
from studio.reference.tables import Tables
from studio.tires.wear_rate import wear_line

FEW = "two readings with odometer, some distance apart"
BACKWARD = "odometer readings that rise from one day to the next"
RISING = "readings that fall with distance"
LITTLE = "more wear between the readings than the gauge can blur"
_SAME_MM = 1e-9


def grooves(part: Part, tables: Tables) -> tuple[Groove, ...] | str:
    """Each groove's wear, or in words what keeps the tire from having any.

    A groove that wore too little to have a rate takes that of the fastest, than which it cannot wear faster. Where such
    a groove is, or where the readings count the grooves differently, the lowest reading of the whole tire has a line
    too.
    """
    if part.way.backward:
        return BACKWARD
    if len(part.way.stages) < 2 or part.way.rolled[-1] <= 0:
        return FEW
    each = tuple(groove for number in _numbers(part) if (groove := _groove(part, number, tables)))
    fitted = tuple(groove for groove in each if groove.line)
    if each and len(fitted) == len(each):
        return each
    whole = _groove(part, None, tables)
    fitted = (*fitted, whole) if whole and whole.line else fitted
    if not fitted:
        return _why_not(_points(part, None, tables), tables) or RISING
    fastest = max(fitted, key=lambda groove: groove.rate)
    others = (replace(groove, rate=fastest.rate, half=fastest.half) for groove in each if not groove.line)
    return (*fitted, *others)


def _numbers(part: Part) -> range:
    """The grooves, where every reading counted them alike; none where they cannot be told apart."""
    counts = {len(part.history[stage.number].reading.depths) for stage in part.way.stages}
    counts.add(len(part.history[-1].reading.depths))
    return range(counts.pop()) if len(counts) == 1 else range(0)


def _groove(part: Part, number: int | None, tables: Tables) -> Groove | None:
    """One groove with its line, if it wore enough; of the whole tire for None. None where it was never read."""
    points, last = _points(part, number, tables), part.history[-1]
    now = _lowest_mm(last, number)
    if now is None and not points:
        return None
    name = "" if number is None else last.groove_name(number)
    bare = Groove(
        name=name, points=points, line=None, rate=0.0, half=0.0, now_mm=points[-1].depth_mm if now is None else now
    )
    if _why_not(points, tables):
        return bare
    line = wear_line(
        [point.rolled for point in points], [point.depth_mm for point in points], [point.half_mm for point in points]
    )
    half = line.half(tables.measuring["coverage_factor"].value)
    return replace(bare, line=line, rate=line.rate, half=half) if line.rate > 0 else bare


def _points(part: Part, number: int | None, tables: Tables) -> tuple[Point, ...]:
    found, halves = [], dict[Gauge, float]()
    for stage, rolled in zip(part.way.stages, part.way.rolled, strict=True):
        tread = part.history[stage.number]
        lowest, gauge = _lowest_mm(tread, number), tread.reading.gauge
        if lowest is None:
            continue
        half = halves.get(gauge) or doubt(gauge, tables).half_width.to("mm").value
        halves[gauge] = half
        at = Quantity(stage.odometer, part.way.unit)
        found.append(Point(tread=tread, odometer=at, rolled=rolled, depth_mm=lowest, half_mm=half))
    return tuple(found)


def _lowest_mm(tread: Measured, number: int | None) -> float | None:
    spots = [spot.value for spot in tread.spots if number in (None, spot.groove)]
    return tread.depth(min(spots)).to("mm").value if spots else None


def _why_not(points: tuple[Point, ...], tables: Tables) -> str:
    """Why these points give no rate; empty where they do."""
    if len(points) < 2 or points[-1].rolled <= points[0].rolled:
        return FEW
    worn = points[0].depth_mm - points[-1].depth_mm
    least = tables.measuring["projection_least_wear_mm"].value
    return LITTLE if worn < max(least, math.hypot(points[0].half_mm, points[-1].half_mm)) - _SAME_MM else ""
