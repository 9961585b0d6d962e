"""The whole car for a picture: its plan from the episode and the findings, shared by all pictures that show it."""

from collections.abc import Iterable

from studio.graphics.frame import Frame
from studio.graphics.layout.text import wrap
from studio.graphics.parts.car_plan import CarPlan, TirePlan
from studio.graphics.parts.tread_above import TreadView
from studio.graphics.parts.tread_blocks import family_of
from studio.model.car import Car
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.places import CORNERS, Place
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.model.specimen import Specimen
from studio.tires.designation import parse_marking
from studio.tires.marking import MarkingError

# a neutral car and tire for what the episode does not say; nothing drawn from them is given as a number
_WHEELBASE_MM, _TRACK_MM = 2700.0, 1550.0
_WIDTH_MM, _DIAMETER_MM = 205.0, 640.0
_LEAST_TRACK_SHARE, _MOST_TRACK_SHARE = 0.35, 0.85  # of the wheelbase: beyond, the entry is taken as a slip


def car_plan(episode: Episode, findings: Findings) -> CarPlan:
    """Wheelbase, track and tires; four wheels always, the spare where there is one."""
    car = episode.car
    base = _mm(car.wheelbase, _WHEELBASE_MM)
    tires = [_tire(place, episode, findings) for place in CORNERS]
    if episode.standing_at("spare") is not None:
        tires.append(_tire("spare", episode, findings))
    return CarPlan(
        wheelbase_mm=base, front_track_mm=_track(car, "front_track", base),
        rear_track_mm=_track(car, "rear_track", base), tires=tuple(tires),
    )  # fmt: skip


def _track(car: Car, which: str, base: float) -> float:
    """A track; the other axle's where only that one is known."""
    mine: Quantity | None = getattr(car, which)
    known = _mm(mine or car.front_track or car.rear_track, min(_TRACK_MM, 0.6 * base))
    return min(max(known, _LEAST_TRACK_SHARE * base), _MOST_TRACK_SHARE * base)


def _mm(quantity: Quantity | None, neutral: float) -> float:
    value = quantity.to("mm").value if quantity else 0.0
    return value if 1000.0 <= value <= 6000.0 else neutral


def _tire(place: Place, episode: Episode, findings: Findings) -> TirePlan:
    size = next(iter(findings.of("size", place)), None)
    return TirePlan(
        place=place, width_mm=_figure(size, "section_width", _WIDTH_MM),
        diameter_mm=_figure(size, "overall_diameter", _DIAMETER_MM), view=_view(place, episode, findings),
    )  # fmt: skip


def _figure(finding: Finding | None, name: FigureName, neutral: float) -> float:
    quantity = finding.figure(name) if finding else None
    return quantity.to("mm").value if quantity else neutral


def _view(place: Place, episode: Episode, findings: Findings) -> TreadView:
    specimen = episode.standing_at(place)
    outer_left = not place.endswith("right")
    if specimen is None:
        return TreadView(outer_left=outer_left)
    return tread_view(specimen, findings.get(f"tread_left.{place}"), outer_left)


def tread_view(specimen: Specimen, tread: Finding | None, outer_left: bool = True) -> TreadView:
    """A specimen's tread from above: its kind, and how worn it is as its finding on the tread says."""
    left = tread.figure("usable_left") if tread else None
    return TreadView(
        family=family_of(specimen.tread, specimen.season, _service(specimen.marking)),
        siped=specimen.season in ("winter", "studded"), studded=specimen.season == "studded",
        worn=min(1.0, max(0.0, 1 - left.value / 100)) if left else 0.0, outer_left=outer_left,
    )  # fmt: skip


def _service(marking: str) -> str:
    try:
        return parse_marking(marking).service
    except MarkingError:
        return "passenger"


def source_line(sources: Iterable[Source], frame: Frame, most: int = 2) -> str:
    """``Source: ...`` for a picture's foot: titles with locators, as much of them as its lines hold whole."""
    found = list(dict.fromkeys(sources))[:most]
    full = [f"{source.title}, {source.locator}" if source.locator != "none" else source.title for source in found]
    lines, cap = 2 if frame.shape == "tall" else 1, frame.cap_height("small")
    line = ""
    short = [source.title for source in found[:1]]
    clauses = [[", ".join(title.split(", ")[:-1])] for title in short if ", " in title]  # the name without its date
    for named in (full, full[:1], short, *clauses):
        line = f"Source: {'; '.join(named)}" if named else ""
        wrapped = wrap(line, cap, "regular", frame.content.width, lines)
        if not wrapped or not wrapped[-1].endswith("…"):
            return line
    return line
