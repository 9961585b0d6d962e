"""Wear over distance: readings with the gauge's doubt, the fitted line, the way to each limit with its band."""

from collections.abc import Sequence

import msgspec
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.patches import Polygon
from matplotlib.ticker import FixedFormatter, FixedLocator, MaxNLocator

from studio.graphics.charts.marks import new_figure, to_marks
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.scene import Point, Shape, Text
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
    figure, axes = _axes(wear, box, frame, look)
    thick = frame.short / 270
    for limit in wear.limits:
        _limit(axes, limit, look, thick)
        _way(axes, wear, limit, look, thick)
    _readings(axes, wear, look, thick)
    marks = to_marks(figure, box, look.ground, wear.steps)
    reached = {limit.name: _px(axes, box, _now(wear).rolled + limit.left, limit.depth) for limit in wear.limits}
    return marks, reached


def _now(wear: Wear) -> Dot:
    return wear.dots[-1]


def _furthest(wear: Wear) -> float:
    """How far the axis goes: to the law's mark and its band, but no further than what is read off well."""
    law = next((limit for limit in wear.limits if limit.law), wear.limits[-1])
    most = law.most if law.most is not None else law.left * 1.6
    beyond = max(law.left * 1.05, min(most, law.left * 1.6), _now(wear).rolled * 0.25)
    return (_now(wear).rolled + beyond) * _ROOM


def _axes(wear: Wear, box: Box, frame: Frame, look: Look) -> tuple[Figure, Axes]:
    cap = frame.cap_height("callout")
    highest = (*(dot.depth + dot.doubt for dot in wear.dots), *(limit.depth for limit in wear.limits))
    top = max(highest) * _ROOM
    depths = [float(value) for value in MaxNLocator(nbins=5, integer=True).tick_values(0, top) if 0 < value <= top]
    far = _furthest(wear)
    spans = _spans(far, box.width, cap)
    left = max(width(format_number(value, 0), cap) for value in depths) + 2 * frame.grid
    below = 1.5 * font_size(cap)
    last = width(format_number(spans[-1], 0), cap) / 2
    figure = new_figure(box)
    area = (left / box.width, below / box.height, 1 - (left + last) / box.width, 1 - (below + cap) / box.height)
    axes = figure.add_axes(area, facecolor="none")
    axes.set_xlim(0, far)
    axes.set_ylim(0, top)
    _ticks(axes, depths, spans, cap, look, frame)
    return figure, axes


def _spans(far: float, across: float, cap: float) -> list[float]:
    """Round distances whose labels keep apart on ``across`` px."""
    for most in (3, 2, 1):
        spans = [v for v in MaxNLocator(nbins=most, steps=[1, 2, 2.5, 5, 10]).tick_values(0, far) if 0 <= v <= far]
        wide = max(width(format_number(value, 0), cap) for value in spans) + cap
        if wide * far <= 0.8 * across * (spans[-1] - spans[-2] if len(spans) > 1 else far):
            break
    return spans


def _ticks(
    axes: Axes, depths: Sequence[float], spans: Sequence[float], cap: float, look: Look, frame: Frame
) -> None:
    font = FontProperties(size=font_size(cap))
    for axis, values in ((axes.xaxis, spans), (axes.yaxis, depths)):
        axis.set_major_locator(FixedLocator(list(values)))
        axis.set_major_formatter(FixedFormatter([format_number(value, 0) for value in values]))
        axis.set_gid(f"axis/{axis.axis_name}")
        for label in axis.get_ticklabels():
            label.set_fontproperties(font)
            label.set_color(look.quiet)
            label.set_parse_math(False)
    axes.tick_params(length=0, pad=frame.grid)
    axes.yaxis.grid(True, color=look.quiet, linewidth=frame.short / 900, alpha=0.35)
    for side, spine in axes.spines.items():
        spine.set_visible(side == "bottom")
        spine.set_color(look.quiet)
        spine.set_linewidth(frame.short / 360)
        spine.set_gid("axis/line")
    axes.set_axisbelow(True)


def _limit(axes: Axes, limit: Limit, look: Look, thick: float) -> None:
    style = "solid" if limit.rule else (0, (3, 2))
    axes.axhline(limit.depth, color=look.measure, linewidth=thick, linestyle=style, gid=f"limit/{limit.name}")


def _way(axes: Axes, wear: Wear, limit: Limit, look: Look, thick: float) -> None:
    """The way from the last reading to the law's limit, and the band in which it lies."""
    if not limit.law or limit.left <= 0:
        return
    now, end = _now(wear), axes.get_xlim()[1]
    upper = (now.rolled + limit.most, limit.depth) if limit.most is not None else (end * 3, now.depth + now.doubt)
    corners = [(now.rolled, now.depth - now.doubt), (now.rolled, now.depth + now.doubt), upper,
               (now.rolled + limit.least, limit.depth)]  # fmt: skip
    axes.add_patch(Polygon(corners, closed=True, facecolor=look.measure, alpha=0.18, linewidth=0, gid="band"))
    path = ([now.rolled, now.rolled + limit.left], [now.depth, limit.depth])
    axes.plot(*path, color=look.ink, linewidth=thick, linestyle=(0, (2, 1.5)), gid="projection")


def _readings(axes: Axes, wear: Wear, look: Look, thick: float) -> None:
    first, last = wear.dots[0].rolled, wear.dots[-1].rolled
    axes.plot([first, last], list(wear.line), color=look.ink, linewidth=thick, gid="fit", solid_capstyle="round")
    for dot in wear.dots:
        reach = [dot.depth - dot.doubt, dot.depth + dot.doubt]
        axes.plot([dot.rolled] * 2, reach, color=look.ink, linewidth=thick * 0.75, gid="readings")
    xs, ys = [dot.rolled for dot in wear.dots], [dot.depth for dot in wear.dots]
    axes.plot(xs, ys, linestyle="none", marker="o", markersize=thick * 4.5, markerfacecolor=look.ground,
              markeredgecolor=look.ink, markeredgewidth=thick, gid="readings", clip_on=False)  # fmt: skip


def _px(axes: Axes, box: Box, x: float, y: float) -> Point:
    across, up = axes.transData.transform((x, y))
    return (box.left + min(float(across), box.width), box.top + box.height - float(up))
