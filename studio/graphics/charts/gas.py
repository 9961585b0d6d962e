"""Gauge pressure over temperature: a straight line that meets no zero where the gauge does, as air counts absolute.

Each line goes through the cold point, where the placard is met, and the warm one, where that is set; beyond both it is
dashed. The step from placard to set is drawn where the tire is filled.
"""

import math
from collections.abc import Mapping

import msgspec

from studio.graphics.charts.dress import first_clear, free_of, pixel, round_values
from studio.graphics.charts.marks import new_figure, to_marks
from studio.graphics.charts.plane import Plane
from studio.graphics.charts.water_words import text
from studio.graphics.color import faded
from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import badge_radius
from studio.graphics.layout.text import box as box_of
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.scene import Point, Shape, Stroke, Text
from studio.model.quantity import format_number


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """One axle's air: set ``warm``, the placard's ``cold`` where it is driven; ``cooled`` differs up or down a hill."""

    name: str
    label: str
    warm: float
    cold: float
    cooled: float


class Warmth(msgspec.Struct, frozen=True, kw_only=True):
    """What the chart draws, in the units shown: temperatures of filling and driving, lines, the warning lamp's level.

    ``doubt`` is the half width of what is set, ``more_text`` how much more the first line has set than the placard
    asks; texts are as the findings write them.
    """

    filled: float
    driven: float
    filled_text: str
    driven_text: str
    lines: tuple[Line, ...]
    doubt: float
    more_text: str
    lamp: float | None
    degree: str
    unit: str
    steps: dict[str, int]


def gas_chart(its: Warmth, box: Box, frame: Frame, look: Look) -> tuple[tuple[Shape | Text, ...], dict[str, Point]]:
    """The chart as marks in ``box``, and where set pressures, placard and lamp lie, by name."""
    y, x = _pressures(its), _temperatures(its)
    area = _area(y, box, frame)
    figure = new_figure(box)
    axes = Plane(figure, box, area, x, y)
    thick = frame.short / 270
    if its.lamp is not None:
        axes.axhline(its.lamp, color=look.measure, linewidth=thick, linestyle=(0, (1, 1.5)), gid="lamp")
    for order, line in enumerate(its.lines):
        _line(axes, its, line, order, thick, look)
    around = _around(its, axes, area, y, box, frame, look)
    marks = to_marks(figure, box, its.steps)
    anchors = _anchors(its, axes, area, box, frame)
    return (*around, *marks, *_words(its, axes, area, box, frame, look, anchors)), anchors


def _anchors(its: Warmth, axes: Plane, area: Box, box: Box, frame: Frame) -> dict[str, Point]:
    first = its.lines[0]
    found = {f"set/{line.name}": pixel(axes, box, its.filled, line.warm) for line in its.lines}
    # a leader comes from the right and ends at the step's foot; a disc would hide the step there
    found["placard"] = pixel(axes, box, its.filled if frame.shape != "tall" else its.driven, first.cold)
    if its.lamp is not None:
        found["lamp"] = (area.right - 3 * frame.grid, pixel(axes, box, its.filled, its.lamp)[1])
    return found if frame.shape != "tall" else _apart(found, 2.2 * badge_radius(frame))


def _apart(anchors: Mapping[str, Point], gap: float) -> dict[str, Point]:
    """The anchors whose discs do not hide one before them: a line is named in the chart too."""
    kept: dict[str, Point] = {}
    for name, at in anchors.items():
        if all(math.dist(at, other) > gap for other in kept.values()):
            kept[name] = at
    return kept


def _temperatures(its: Warmth) -> tuple[float, float]:
    low, high = sorted((its.driven, its.filled))
    more = 0.32 * (high - low)
    return low - more, high + more


def _pressures(its: Warmth) -> tuple[float, float]:
    known = [value for line in its.lines for value in (line.warm, line.cold, line.cooled)]
    low, high = min(known), max(known)
    low = low if its.lamp is None else min(low, its.lamp)
    more = 0.14 * (high - low)
    return max(0.0, low - more), high + 1.6 * more


def _area(limits: tuple[float, float], box: Box, frame: Frame) -> Box:
    cap, small = frame.cap_height("callout"), frame.cap_height("small")
    left = max(width(format_number(value, 0), cap) for value in (*_levels(limits, box, frame), 0.0)) + frame.grid
    top, bottom = 1.5 * font_size(cap), 1.5 * font_size(cap) + 1.3 * font_size(small)
    return Box(box.left + left, box.top + top, box.width - left, box.height - top - bottom)


def _levels(limits: tuple[float, float], box: Box, frame: Frame) -> list[float]:
    room = int(box.height / (5 * frame.cap_height("callout")))
    return round_values(*limits, max(1, min(4, room)))


def _line(axes: Plane, its: Warmth, line: Line, order: int, thick: float, look: Look) -> None:
    """The air's line: whole where it is used, dashed beyond; its two points; the step that is set on top."""
    color = look.ink if order == 0 else look.quiet
    cold, warm = (its.driven, line.cooled), (its.filled, line.warm)
    axes.axline(cold, warm, color=color, linewidth=thick * 0.75, linestyle=(0, (4, 3)), gid="beyond")
    axes.plot(*zip(cold, warm, strict=True), color=color, linewidth=1.6 * thick, gid="line", solid_capstyle="butt")
    axes.plot([its.driven, its.filled], [line.cold] * 2, color=look.measure, linewidth=thick, gid="placard",
              linestyle=(0, (3, 2)))  # fmt: skip
    axes.plot([its.filled] * 2, [line.cold, line.warm], color=look.measure, linewidth=2 * thick, gid="step",
              solid_capstyle="butt")  # fmt: skip
    if line.cooled != line.cold:
        axes.plot([its.driven] * 2, [line.cooled, line.cold], color=color, linewidth=thick, linestyle=(0, (1, 1)),
                  gid="climb")  # fmt: skip
    axes.plot([its.filled] * 2, [line.warm - its.doubt, line.warm + its.doubt], color=color, linewidth=thick * 0.75,
              gid="doubt")  # fmt: skip
    for at, face, gid in (((its.driven, line.cold), look.measure, "placard"), (warm, look.ground, "set")):
        axes.plot([at[0]], [at[1]], linestyle="none", marker="o", markersize=thick * 6, markerfacecolor=face,
                  markeredgecolor=color if gid == "set" else look.ground, markeredgewidth=thick, gid=gid,
                  clip_on=False)  # fmt: skip


def _around(
    its: Warmth, axes: Plane, area: Box, limits: tuple[float, float], box: Box, frame: Frame, look: Look
) -> list[Shape | Text]:  # fmt: skip
    """Level lines with their numbers, the foot, the two temperatures with what happens there."""
    cap, small = frame.cap_height("callout"), frame.cap_height("small")
    unit = text("axis/unit", its.unit, (box.left, area.top - 0.9 * frame.grid), small, look)
    ticks, marks = [unit], list[Shape | Text]()
    for value in _levels(limits, box, frame):
        y = pixel(axes, box, its.filled, value)[1]
        ticks.append(text(f"axis/level{value:g}", format_number(value, 0), (area.left - 0.8 * frame.grid, y + cap / 2),
                          cap, look, "end"))  # fmt: skip
        marks.append(Shape(name="axis/level", outline=polyline(((area.left, y), (area.right, y))),
                           stroke=Stroke(faded(look.quiet, 0.35), frame.short / 900)))  # fmt: skip
    foot = polyline(((area.left, area.bottom), (area.right, area.bottom)))
    marks.append(Shape(name="axis/foot", outline=foot, stroke=Stroke(look.quiet, frame.short / 360)))
    base = area.bottom + 0.45 * font_size(cap) + cap
    for name, value, words in (("driven", its.driven, its.driven_text), ("filled", its.filled, its.filled_text)):
        x = pixel(axes, box, value, 0)[0]
        stem = polyline(((x, area.bottom), (x, area.bottom + 0.9 * frame.grid)))
        marks.append(Shape(name=f"axis/{name}/stem", outline=stem, stroke=Stroke(look.quiet, frame.short / 360)))
        marks.append(text(f"axis/{name}", words, (x, base), cap, look, "middle", "semibold", look.ink))
        marks.append(text(f"axis/{name}/what", name, (x, base + 1.2 * font_size(small)), small, look, "middle"))
    return [*marks, *free_of(ticks, 0.5 * frame.grid)]


def _words(
    its: Warmth, axes: Plane, area: Box, box: Box, frame: Frame, look: Look, anchors: Mapping[str, Point]
) -> list[Text]:  # fmt: skip
    """What the lines are, each where it is clear of the others and of the discs that take the place of leaders."""
    reach = frame.grid if frame.shape != "tall" else badge_radius(frame)
    taken = [Box(x - reach, y - reach, 2 * reach, 2 * reach) for x, y in anchors.values()]
    lines = [_across(its, line, axes, area, box) for line in its.lines]
    lines += [[pixel(axes, box, its.filled, value) for value in (line.cold, line.warm)] for line in its.lines]
    levels = [line.cold for line in its.lines] + ([] if its.lamp is None else [its.lamp])
    lines += [[(area.left, y), (area.right, y)]
              for y in (pixel(axes, box, its.driven, level)[1] for level in levels)]  # fmt: skip
    found: list[Text] = []
    for places in _wanted(its, axes, area, box, frame, look):
        inside = [place for place in places if area.inset(frame.grid / 2).holds(box_of(place))]
        if mark := first_clear(inside, lines, taken, frame.grid / 2):
            found.append(mark)
            taken.append(box_of(mark))
    return found


def _across(its: Warmth, line: Line, axes: Plane, area: Box, box: Box) -> list[Point]:
    """A line from edge to edge of the chart, as it is drawn."""
    (ax, ay), (bx, by) = pixel(axes, box, its.driven, line.cooled), pixel(axes, box, its.filled, line.warm)
    slope = (by - ay) / (bx - ax)
    return [(x, ay + slope * (x - ax)) for x in (area.left, area.right)]


def _wanted(its: Warmth, axes: Plane, area: Box, box: Box, frame: Frame, look: Look) -> list[list[Text]]:
    """Places for the name of each axle where there are two, and of the lamp's line."""
    small, gap = frame.cap_height("small"), 0.9 * frame.grid
    wanted = []
    if its.lamp is not None:
        y = pixel(axes, box, its.driven, its.lamp)[1]
        wanted.append([text("word/lamp", "warning lamp", (area.left + gap, at), small, look, fill=look.ink,
                            step=its.steps["lamp"]) for at in (y - 1.8 * gap, y + 1.5 * gap + small)])  # fmt: skip
    wanted += [_more(its, axes, box, frame, look), _climb(its, axes, box, frame, look)]
    for line in its.lines if len(its.lines) > 1 else ():
        (x, y), (ax, ay) = pixel(axes, box, its.filled, line.warm), pixel(axes, box, its.driven, line.cooled)
        places: list[tuple[Point, str]] = []
        for share in (0.5, 0.3, 0.7, 1.15, -0.15):
            at, level = ax + share * (x - ax), ay + share * (y - ay)
            for far in (1.2, 1.8, 2.4):
                above, below = (at, level - far * small), (at, level + (far + 0.8) * small)
                places += [(above, "end"), (below, "start"), (above, "start"), (below, "end")]
        wanted.append([text(f"word/{line.name}", line.label, at, small, look, anchor, "semibold", look.ink)
                       for at, anchor in places])  # fmt: skip
    return wanted


def _more(its: Warmth, axes: Plane, box: Box, frame: Frame, look: Look) -> list[Text]:
    """How much more than the placard is set, beside the step."""
    first, gap = its.lines[0], 1.2 * frame.grid
    x, top = pixel(axes, box, its.filled, first.warm)
    foot = pixel(axes, box, its.filled, first.cold)[1]
    places = []
    for cap in (frame.cap_height("callout"), frame.cap_height("small")):
        y = (top + foot + cap) / 2
        places += [text("word/more", its.more_text, (x + side * gap, y), cap, look, anchor, "semibold", look.ink,
                        step=its.steps["step"]) for side, anchor in ((-1, "end"), (1, "start"))
                   if side < 0 or x + gap + width(its.more_text, cap, "semibold") < box.right]  # fmt: skip
    return places


def _climb(its: Warmth, axes: Plane, box: Box, frame: Frame, look: Look) -> list[Text]:
    """Why the placard's point lies off the line: the gauge shows more where less air presses from outside."""
    first, gap, cap = its.lines[0], 1.2 * frame.grid, frame.cap_height("small")
    (x, point), (_, line) = (pixel(axes, box, its.driven, value) for value in (first.cold, first.cooled))
    if abs(point - line) < frame.grid / 2:
        return []
    words = "higher up" if point < line else "lower down"
    away = -1.6 * gap if point < line else 1.6 * gap + cap
    return [text("word/climb", words, (x + side * gap, point + far * away), cap, look, anchor, fill=look.ink,
                 step=its.steps["climb"])
            for far in (1.0, 1.5, 2.2) for side, anchor in ((-1, "end"), (0, "middle"), (1, "start"))]  # fmt: skip
