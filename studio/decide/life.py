"""How far will it go? Wear over distance by least squares, and the distance left to each limit with its band.

First shape of the topic: the lowest reading over the car's odometer, one rate for the whole tire.
"""

import itertools
import math
from collections.abc import Iterator

from studio.decide import life_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.damage import condemning
from studio.decide.gauge import doubt
from studio.decide.life_read import Life, Part, Point, Reach
from studio.decide.markings import read
from studio.decide.measured import Measured, history
from studio.decide.subjects import tires
from studio.decide.tread_limits import marks_for
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding
from studio.model.places import CORNERS
from studio.model.quantity import Quantity, depth
from studio.reference.tables import Tables
from studio.tires.errors import RangeError
from studio.tires.tread import fit_wear

TOPIC = "life"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each tire."""
    for tire in tires(episode):
        yield Part(
            audience=Audience.of(episode), subject=tire.subject, season=tire.specimen.season,
            history=history(tire.specimen, tire.subject.path, episode.on), marking=tire.specimen.marking,
            damage=condemning(tire.specimen, tire.subject.path, episode.on, tables),
        )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    if part.damage:
        return _condemned(part, tables)
    its = read_part(part, tables)
    return _finding(its, tables) if isinstance(its, Life) else _unknown(part, its, tables)


def read_part(part: Part, tables: Tables) -> Life | str:
    """The part read and fitted, or in words what keeps it from being."""
    marking = read(part.marking)
    construction = "radial" if marking is None or marking.construction == "radial" else "diagonal"
    temporary = marking is not None and marking.service == "temporary"
    marks = marks_for(part.audience.region, part.season, construction, temporary, tables)
    if marks is None:
        return "a region whose rules are known"
    points = _points(part, tables)
    if len(points) < 2 or points[-1].rolled <= 0:
        return "two readings with odometer, some distance apart"
    if refused := _too_little(points, tables):
        return refused
    try:
        fit = fit_wear([point.rolled for point in points], [point.depth_mm for point in points])
    except RangeError:
        return "readings that fall with distance"
    now = part.history[-1]
    return Life(
        part=part, points=points, unit=points[-1].odometer.unit, fit=fit, marks=marks, now_mm=_lowest_mm(now),
        now_doubt_mm=doubt(now.reading.gauge, tables).half_width.to("mm").value,
    )  # fmt: skip


def _points(part: Part, tables: Tables) -> tuple[Point, ...]:
    """The readings with an odometer; distance counts only from where the tire stood at a corner of the car."""
    read_on_car = [(tread, tread.reading.odometer) for tread in part.history if tread.reading.odometer is not None]
    if not read_on_car:
        return ()
    unit = read_on_car[-1][1].unit
    points: list[Point] = []
    for tread, odometer in read_on_car:
        here = odometer.to(unit)
        rolled = points[-1].rolled if points else 0.0
        if points and points[-1].tread.reading.place in CORNERS:
            rolled += here.value - points[-1].odometer.value
        half_width = doubt(tread.reading.gauge, tables).half_width.to("mm").value
        points.append(
            Point(tread=tread, odometer=here, rolled=rolled, depth_mm=_lowest_mm(tread), doubt_mm=half_width)
        )
    return tuple(points)


def _lowest_mm(tread: Measured) -> float:
    return tread.depth(tread.lowest.value).to("mm").value


def _too_little(points: tuple[Point, ...], tables: Tables) -> str:
    """Refuse what would project the gauge, not the tire; and an odometer that runs backward."""
    if any(later.rolled < earlier.rolled for earlier, later in itertools.pairwise(points)):
        return "odometer readings that rise from one day to the next"
    worn = points[0].depth_mm - points[-1].depth_mm
    least = tables.measuring["projection_least_wear_mm"].value
    if worn < max(least, math.hypot(points[0].doubt_mm, points[-1].doubt_mm)):
        return "more wear between the readings than the gauge can blur"
    return ""


def _condemned(part: Part, tables: Tables) -> Finding:
    """A tire that must not be driven on has no distance left, whatever its tread."""
    first = part.damage[0]
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict="inspect",
        sentence=f"{part.subject.title} shows {first.words}: no distance is left to it until it was looked at.",
        working=tuple(seen.dated for seen in part.damage), inputs=tuple(seen.path for seen in part.damage),
        sources=unique_sources(*(seen.source for seen in part.damage)), caution=tables.cautions["damage"].text,
    )  # fmt: skip


def _unknown(part: Part, missing: str, tables: Tables) -> Finding:
    least = tables.measuring["projection_least_wear_mm"]
    odometers = tuple(f"{tread.path}.depths" for tread in part.history)
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict="unknown",
        sentence=f"{part.subject.title}: how far it will go is not known yet.", missing=(missing,),
        working=life_words.refused(part, missing, tables), inputs=odometers or (part.subject.path,),
        sources=(least.source,), caution=tables.cautions["estimate"].text,
    )  # fmt: skip


def _finding(its: Life, tables: Tables) -> Finding:
    part, legal = its.part, its.legal
    band = None if legal.high is None else max(legal.high - legal.left, legal.left - legal.low)
    paths = [path for point in its.points for path in (f"{point.tread.path}.depths", f"{point.tread.path}.odometer")]
    marks = (its.marks.legal, *its.marks.others)
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, sentence=life_words.sentence(its),
        verdict="replace" if its.done else None, value=legal.left, unit=its.unit, uncertainty=band,
        working=life_words.working(its), inputs=(*dict.fromkeys((*paths, f"{part.history[-1].path}.depths")), "region"),
        sources=unique_sources(*(mark.source for mark in marks), tables.measuring["projection_least_wear_mm"].source),
        caution=tables.cautions["worn_tire" if its.done else "estimate"].text, figures=_figures(its),
        would_change=life_words.would_change(its), detail=life_words.detail(its),
    )  # fmt: skip


def _figures(its: Life) -> tuple[Figure, ...]:
    """Points, line and limits, as a chart needs them."""
    found = [
        Figure(name="wear_per_1000", label=f"wear in 1000 {its.unit}", quantity=depth(its.fit.rate_per_1000, "mm")),
        Figure(name="wear_per_1000_doubt", label="half width of the wear", quantity=depth(its.rate_doubt, "mm")),
        Figure(name="fit_at_first", label="the line at the first reading", quantity=depth(its.fit.depth_at_zero, "mm")),
        Figure(name="fit_at_last", label="the line at the last reading", quantity=depth(its.fit_at_last, "mm")),
        Figure(name="depth", label="last lowest reading", quantity=depth(its.now_mm, "mm")),
        Figure(name="depth_doubt", label="doubt of the last reading", quantity=depth(its.now_doubt_mm, "mm")),
    ]
    for number, point in enumerate(its.points, start=1):
        found += [
            Figure(name=f"odometer_{number}", label=f"odometer at reading {number}", quantity=point.odometer),
            Figure(name=f"rolled_{number}", label=f"rolled by reading {number}",
                   quantity=Quantity(point.rolled, its.unit)),
            Figure(name=f"depth_{number}", label=f"lowest of reading {number}",
                   quantity=point.tread.depth(point.tread.lowest.value)),
        ]  # fmt: skip
    for reach in (its.legal, *its.others):
        found += _reach_figures(reach, its)
    return tuple(found)


def _reach_figures(reach: Reach, its: Life) -> list[Figure]:
    name, label, unit = reach.mark.name, reach.mark.label, its.unit
    found = [
        Figure(name=name, label=label, quantity=reach.mark.depth),
        Figure(name=f"left_{name}", label=f"left to {label}", quantity=Quantity(reach.left, unit)),
        Figure(name=f"left_{name}_low", label=f"left to {label}, at least", quantity=Quantity(reach.low, unit)),
    ]
    if reach.high is not None:
        most = Quantity(reach.high, unit)
        found.append(Figure(name=f"left_{name}_high", label=f"left to {label}, at most", quantity=most))
    return found
