"""What the tires together, their wheels and the car forbid."""

from collections.abc import Iterator
from statistics import fmean

import msgspec

from studio.decide import matching
from studio.decide.barriers.barrier import Barrier, barrier
from studio.decide.matching_read import Match
from studio.decide.measured import Measured, latest
from studio.decide.sizes import same_size, size_of
from studio.decide.subjects import Tire, tires
from studio.decide.tire_marks import marks_of
from studio.decide.tread_limits import WINTERLY
from studio.decide.wording import lower_first
from studio.model.episode import Episode
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import UnitName, depth
from studio.model.source import Source
from studio.reference.rows import MatchingRule
from studio.reference.tables import Tables

_SAME_MM = 1e-9
_LEVELS = {"law": "over_law", "maker": "over_manual"}


def of_axles(episode: Episode, tables: Tables) -> Iterator[Barrier]:
    """The barriers of axles, set and car."""
    yield from _unequal(episode, tables)
    if episode.car.dual_rear_wheels:
        yield barrier("dual_wheels", ("car",), ("car.dual_rear_wheels",), tables)
    corners = {tire.subject.name: tire for tire in tires(episode) if tire.specimen.place in CORNERS}
    if len(corners) == len(CORNERS):
        yield from _mixed_season(corners, tables)
        yield from _sizes(corners, tables)
        yield from _worn_pair_in_front(corners, episode, tables)
    yield from _wheels(episode, tables)


def _unequal(episode: Episode, tables: Tables) -> Iterator[Barrier]:
    """Tires further apart than the law or the manual allows: moving them around cures nothing."""
    for part in matching.parts(episode, tables):
        match = matching.read_part(part, tables)
        for held in match.held if match else ():
            if (kind := _LEVELS.get(held.limit.level)) and held.over:
                yield barrier(kind, (part.name, *part.places), _depth_paths(match), tables,
                              who=lower_first(part.title), source=held.limit.source)  # fmt: skip


def _depth_paths(match: Match | None) -> tuple[str, ...]:
    return tuple(f"{tire.tread.path}.depths" for tire in match.compared.tires) if match else ()


def _wheels(episode: Episode, tables: Tables) -> Iterator[Barrier]:
    front, rear = episode.car.front_rim_width, episode.car.rear_rim_width
    if front is not None and rear is not None and abs(front.to("mm").value - rear.to("mm").value) > _SAME_MM:
        yield barrier("different_wheels", ("car",), ("car.front_rim_width", "car.rear_rim_width"), tables,
                      source=_rule_source("different_wheels", tables))  # fmt: skip


def _mixed_season(corners: dict[str, Tire], tables: Tables) -> Iterator[Barrier]:
    seasons = {tire.specimen.season for tire in corners.values()}
    if len(seasons) > 1 and seasons & set(WINTERLY):
        paths = tuple(f"{tire.subject.path}.season" for tire in corners.values())
        yield barrier("mixed_season", ("set", *corners), paths, tables, source=tables.matching["winter_four"].source)


def _sizes(corners: dict[str, Tire], tables: Tables) -> Iterator[Barrier]:
    read = {name: size.marking for name, tire in corners.items() if (size := size_of(tire.specimen.marking, tables))}
    sides = ((read.get(f"front_{side}"), read.get(f"rear_{side}")) for side in ("left", "right"))
    if any(front is not None and rear is not None and not same_size(front, rear) for front, rear in sides):
        paths = tuple(f"{tire.subject.path}.marking" for tire in corners.values())
        yield barrier("different_sizes", ("car",), paths, tables, source=_rule_source("staggered", tables))


def _worn_pair_in_front(corners: dict[str, Tire], episode: Episode, tables: Tables) -> Iterator[Barrier]:
    """The front pair under the advice for wet roads and well under the rear pair, which is not.

    Changing axles would put the worn pair behind; "well under" is the difference at which shops act on one axle.
    """
    read: dict[str, Measured] = {}
    for name, tire in corners.items():
        if (tread := latest(tire.specimen, tire.subject.path, episode.on)) is not None:
            read[name] = tread
    specimen = corners["front_left"].specimen
    marks = marks_of(specimen.marking, specimen.season, episode.region, tables)
    advice = marks.named("wet_advice") if marks else None
    if advice is None or len(read) < len(CORNERS):
        return
    lowest = {name: tread.depth(tread.lowest.value).to("mm").value for name, tread in read.items()}
    means = {axle: fmean(read[place].mean().to("mm").value for place in AXLES[axle]) for axle in AXLES}
    worn = min(lowest[place] for place in AXLES["front"]) < advice.mm - _SAME_MM
    apart = _depth_mm(tables.matching["axle_act_from"])
    if not worn or means["rear"] - means["front"] < apart - _SAME_MM:
        return
    if min(lowest[place] for place in AXLES["rear"]) >= advice.mm:
        paths = tuple(f"{tread.path}.depths" for tread in read.values())
        yield barrier("deeper_to_rear", ("car",), paths, tables, source=tables.matching["deeper_to_rear"].source)


def _depth_mm(rule: MatchingRule) -> float:
    return depth(rule.value or 0.0, msgspec.convert(rule.unit, UnitName)).to("mm").value


def _rule_source(trait: str, tables: Tables) -> Source:
    return next(row.source for row in tables.rotation_rule if row.trait == trait)
