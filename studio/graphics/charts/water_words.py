"""The words inside a water chart's panels, each where it is clear of curves, points and other words."""

from collections.abc import Sequence

from studio.graphics.charts.dress import first_clear, pixel
from studio.graphics.charts.plane import Plane
from studio.graphics.charts.water_values import Curve, Floating, Panel
from studio.graphics.color import mix
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import badge_radius
from studio.graphics.layout.text import box as box_of
from studio.graphics.layout.text import width
from studio.graphics.look import Look
from studio.graphics.scene import Point, Text

TINT = 0.42  # how much of the water's colour the place has where the tire floats


def words(
    its: Floating, drawn: Sequence[tuple[Panel, Plane, Box]], box: Box, frame: Frame, look: Look
) -> list[Text]:  # fmt: skip
    """What the areas are, and the year of each relation where there are two: each where it is clear of the lines."""
    lines = [[pixel(axes, box, *point) for point in curve.points] for p, axes, _ in drawn for curve in p.curves]
    level = pixel(drawn[0][1], box, 0, its.driven)[1]
    across = [[(area.left, level), (area.right, level)] for _, _, area in drawn]
    reach = frame.grid if frame.shape == "wide" else badge_radius(frame)
    taken = [_square(pixel(axes, box, panel.own, its.speed), reach) for panel, axes, _ in drawn]
    found: list[Text] = []
    wanted = (*_years(its, drawn, box, frame, look), *_areas_named(its, drawn, box, frame, look),
              _driven(its, drawn, level, frame, look))  # fmt: skip
    for places in wanted:
        if mark := first_clear(places, [*lines, *across], taken, frame.grid / 2):
            found.append(mark)
            taken.append(box_of(mark))
    return found


def _square(center: Point, radius: float) -> Box:
    return Box(center[0] - radius, center[1] - radius, 2 * radius, 2 * radius)


def _driven(
    its: Floating, drawn: Sequence[tuple[Panel, Plane, Box]], level: float, frame: Frame, look: Look
) -> list[Text]:  # fmt: skip
    """Places for the name of the line at the speed driven; a wide frame has a leader to it instead."""
    if frame.shape == "wide":
        return []
    cap, places = frame.cap_height("small"), list[Text]()
    for _, _, area in drawn:
        for y in (level - 0.8 * frame.grid, level + cap + 0.8 * frame.grid):
            for x in (area.left + 0.5 * frame.grid, area.right - width("driven", cap) - 2 * frame.grid):
                if area.top + cap < y < area.bottom:
                    places.append(_area_word("driven", (x, y), cap, look, its.steps["driven"]))
    return places


def _years(
    its: Floating, drawn: Sequence[tuple[Panel, Plane, Box]], box: Box, frame: Frame, look: Look
) -> list[list[Text]]:  # fmt: skip
    """Places for each year, in the panel with both relations that has most of them: at an end, above or below."""
    both = [(axes, area, p.curves) for p, axes, area in drawn if len(p.curves) > 1 and p.name != "tread"]
    found = []
    for axes, area, curves in both[:1]:
        for curve in sorted(curves, key=lambda curve: curve.year == its.year):
            step = its.steps["curve" if curve.year == its.year else "other"]
            found.append([_year(curve, at, area, frame, look, step) for at in _beside(curve, axes, area, box, frame)])
    return found


def _year(curve: Curve, at: tuple[Point, str], area: Box, frame: Frame, look: Look, step: int) -> Text:
    return text(f"year/{curve.year}", curve.year, at[0], frame.cap_height("small"), look, at[1], fill=look.ink,
                 ground=mix(look.ground, look.water, TINT), step=step)  # fmt: skip


def _beside(curve: Curve, axes: Plane, area: Box, box: Box, frame: Frame) -> list[tuple[Point, str]]:
    cap, gap = frame.cap_height("small"), 0.9 * frame.grid
    (ax, ay), (bx, by) = (pixel(axes, box, *point) for point in (curve.points[0], curve.points[-1]))
    places: list[tuple[Point, str]] = []
    for far in (0.0, 0.6, 1.2):
        above, below = -gap - far * cap, gap + cap + far * cap
        places += [((bx, by + above), "end"), ((bx, by + below), "end"),
                   ((ax + gap, ay + above), "start"), ((ax + gap, ay + below), "start")]  # fmt: skip
    wide = width(curve.year, cap)
    after = [((bx + gap, by + cap / 2), "start")] if bx + gap + wide < area.right else []
    return after + [(at, anchor) for at, anchor in places
                    if area.top + cap < at[1] < area.bottom - gap and (anchor == "start" or at[0] - wide > area.left)
                    and (anchor == "end" or at[0] + wide < area.right)]  # fmt: skip


def _areas_named(
    its: Floating, drawn: Sequence[tuple[Panel, Plane, Box]], box: Box, frame: Frame, look: Look
) -> tuple[list[Text], list[Text]]:  # fmt: skip
    """Places for ``floats`` above the curve and ``grip goes`` below it, panel by panel."""
    floats, grip = list[Text](), list[Text]()
    for cap in (frame.cap_height("callout"), frame.cap_height("small")):
        for panel, axes, area in drawn:
            for curve in (curve for curve in panel.curves if curve.year == its.year):
                points = [pixel(axes, box, *point) for point in curve.points]
                left, low = points[0][0] + frame.grid, max(y for _, y in points)
                if left + width("floats", cap, "semibold") < points[-1][0]:
                    at = (left, area.top + cap + frame.grid)
                    floats.append(_area_word("floats", at, cap, look, its.steps["curve"]))
                if left + (wide := width("grip goes", cap)) < min(points[-1][0], area.right):
                    step, gap = its.steps["water"], cap + 1.4 * frame.grid
                    below = [(left, low + gap)]
                    x, y = points[-1][0] - wide - frame.grid, points[-1][1] + gap
                    below += [(x, y + more * cap) for more in range(6)]
                    grip += [_area_word("grip goes", place, cap, look, step) for place in below
                             if place[1] < area.bottom - frame.grid]  # fmt: skip
    return floats, grip


def _area_word(words: str, at: Point, cap: float, look: Look, step: int) -> Text:
    weight = "semibold" if words == "floats" else "regular"
    return text(f"word/{words}", words, at, cap, look, weight=weight, fill=look.ink, step=step,
                 ground=mix(look.ground, look.water, TINT))  # fmt: skip


def text(
    name: str, words: str, at: Point, cap: float, look: Look, anchor: str = "start", weight: str = "regular",
    fill: str = "", ground: str = "", step: int = 0,
) -> Text:  # fmt: skip
    """One text of a chart."""
    return Text(name=name, step=step, text=words, at=at, cap_height=cap, weight=weight, anchor=anchor,  # type: ignore[arg-type]
                fill=fill or look.quiet, ground=ground or look.ground, role="small")  # fmt: skip
