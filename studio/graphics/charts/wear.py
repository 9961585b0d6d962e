"""Wear over distance: readings with the gauge's doubt, the fitted line, the way to each limit with its band."""

from collections.abc import Sequence
from typing import Literal

import msgspec
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

from studio.graphics.charts.dress import pixel
from studio.graphics.charts.marks import new_figure, to_marks
from studio.graphics.charts.plane import Plane
from studio.graphics.color import faded
from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.scene import Point, Shape, Stroke, Text
from studio.model.quantity import format_number

_ROOM = 1.06  # the axis goes this much beyond the last thing drawn


class Dot(msgspec.Struct, frozen=True, kw_only=True):
    """One reading: distance rolled, depth, half width of its doubt."""

    rolled: float
    depth: float
    doubt: float


class Limit(msgspec.Struct, frozen=True, kw_only=True):
    """One limit: its depth, and the distance left to it; ``most`` is None where nothing bounds it.

    ``law`` is the one that the way leads to; ``rule`` is every one that is law, the others are advice.
    """

    name: str
    depth: float
    left: float
    least: float
    most: float | None
    law: bool
    rule: bool


class Wear(msgspec.Struct, frozen=True, kw_only=True):
    """What the chart draws, in the units that it shows. ``line`` is the fitted depth at the first and last reading."""

    dots: tuple[Dot, ...]
    line: tuple[float, float]
    limits: tuple[Limit, ...]
    depth_unit: str
    distance_unit: str
    steps: dict[str, int]


def wear_chart(wear: Wear, box: Box, frame: Frame, look: Look) -> tuple[tuple[Shape | Text, ...], dict[str, Point]]:
    """The chart as marks in ``box``, and where each limit is reached, by the limit's name."""
    figure, plane, back, foot = _plane(wear, box, frame, look)
    thick = frame.short / 270
    for limit in wear.limits:
        _limit(plane, limit, look, thick)
        _way(plane, wear, limit, look, thick)
    _readings(plane, wear, look, thick)
    marks = to_marks(figure, box, wear.steps)
    reached = {limit.name: _px(plane, box, _now(wear).rolled + limit.left, limit.depth) for limit in wear.limits}
    return (*back, *marks, foot), reached


def _now(wear: Wear) -> Dot:
    return wear.dots[-1]


def _furthest(wear: Wear) -> float:
    """How far the axis goes: to the law's mark and its band, but no further than what is read off well."""
    law = next((limit for limit in wear.limits if limit.law), wear.limits[-1])
    most = law.most if law.most is not None else law.left * 1.6
    beyond = max(law.left * 1.05, min(most, law.left * 1.6), _now(wear).rolled * 0.25)
    return (_now(wear).rolled + beyond) * _ROOM


def _plane(wear: Wear, box: Box, frame: Frame, look: Look) -> tuple[Figure, Plane, list[Shape | Text], Shape]:
    """Figure and plane, the lines and numbers behind what is drawn, the foot that lies over it."""
    cap = frame.cap_height("callout")
    highest = (*(dot.depth + dot.doubt for dot in wear.dots), *(limit.depth for limit in wear.limits))
    top = max(highest) * _ROOM
    depths = [float(value) for value in MaxNLocator(nbins=5, integer=True).tick_values(0, top) if 0 < value <= top]
    far = _furthest(wear)
    spans = _spans(far, box.width, cap)
    left = max(width(format_number(value, 0), cap) for value in depths) + 2 * frame.grid
    below = 1.5 * font_size(cap)
    last = width(format_number(spans[-1], 0), cap) / 2
    area = Box(box.left + left, box.top + cap, box.width - left - last, box.height - below - cap)
    figure = new_figure(box)
    plane = Plane(figure, box, area, (0, far), (0, top))
    foot = polyline(((area.left, area.bottom), (area.right, area.bottom)))
    line = Shape(name="axis/line", outline=foot, stroke=Stroke(look.quiet, frame.short / 360))
    return figure, plane, _ticks(plane, box, area, depths, spans, frame, look), line


def _spans(far: float, across: float, cap: float) -> list[float]:
    """Round distances whose labels keep apart on ``across`` px."""
    for most in (3, 2, 1):
        spans = [v for v in MaxNLocator(nbins=most, steps=[1, 2, 2.5, 5, 10]).tick_values(0, far) if 0 <= v <= far]
        wide = max(width(format_number(value, 0), cap) for value in spans) + cap
        if wide * far <= 0.8 * across * (spans[-1] - spans[-2] if len(spans) > 1 else far):
            break
    return spans


def _ticks(
    plane: Plane, box: Box, area: Box, depths: Sequence[float], spans: Sequence[float], frame: Frame, look: Look
) -> list[Shape | Text]:  # fmt: skip
    """The distances below the foot, the depths at its left with their level lines."""
    cap, thin = frame.cap_height("callout"), Stroke(faded(look.quiet, 0.35), frame.short / 900)
    found: list[Shape | Text] = []
    for order, value in enumerate(spans):
        at = (pixel(plane, box, value, 0)[0], area.bottom + frame.grid + cap)
        found.append(_number(f"axis/x/{order}", value, at, cap, look, "middle"))
    for order, value in enumerate(depths):
        y = pixel(plane, box, 0, value)[1]
        level = polyline(((area.left, y), (area.right, y)))
        found.append(Shape(name=f"axis/y/level{order}", outline=level, stroke=thin))
        found.append(_number(f"axis/y/{order}", value, (area.left - frame.grid, y + cap / 2), cap, look, "end"))
    return found


def _number(name: str, value: float, at: Point, cap: float, look: Look, anchor: Literal["middle", "end"]) -> Text:
    return Text(name=name, text=format_number(value, 0), at=at, cap_height=cap, anchor=anchor, fill=look.quiet,
                ground=look.ground, role="callout")  # fmt: skip


def _limit(plane: Plane, limit: Limit, look: Look, thick: float) -> None:
    style = "solid" if limit.rule else (0, (3, 2))
    plane.axhline(limit.depth, color=look.measure, linewidth=thick, linestyle=style, gid=f"limit/{limit.name}")


def _way(plane: Plane, wear: Wear, limit: Limit, look: Look, thick: float) -> None:
    """The way from the last reading to the law's limit, and the band in which it lies."""
    if not limit.law or limit.left <= 0:
        return
    now, end = _now(wear), plane.get_xlim()[1]
    upper = (now.rolled + limit.most, limit.depth) if limit.most is not None else (end * 3, now.depth + now.doubt)
    corners = [(now.rolled, now.depth - now.doubt), (now.rolled, now.depth + now.doubt), upper,
               (now.rolled + limit.least, limit.depth)]  # fmt: skip
    plane.fill(corners, facecolor=look.measure, alpha=0.18, linewidth=0, gid="band")
    path = ([now.rolled, now.rolled + limit.left], [now.depth, limit.depth])
    plane.plot(*path, color=look.ink, linewidth=thick, linestyle=(0, (2, 1.5)), gid="projection")


def _readings(plane: Plane, wear: Wear, look: Look, thick: float) -> None:
    first, last = wear.dots[0].rolled, wear.dots[-1].rolled
    plane.plot([first, last], list(wear.line), color=look.ink, linewidth=thick, gid="fit", solid_capstyle="round")
    for dot in wear.dots:
        reach = [dot.depth - dot.doubt, dot.depth + dot.doubt]
        plane.plot([dot.rolled] * 2, reach, color=look.ink, linewidth=thick * 0.75, gid="readings")
    xs, ys = [dot.rolled for dot in wear.dots], [dot.depth for dot in wear.dots]
    plane.plot(xs, ys, linestyle="none", marker="o", markersize=thick * 4.5, markerfacecolor=look.ground,
              markeredgecolor=look.ink, markeredgewidth=thick, gid="readings", clip_on=False)  # fmt: skip


def _px(plane: Plane, box: Box, x: float, y: float) -> Point:
    across, down = pixel(plane, box, x, y)
    return (min(across, box.right), down)
