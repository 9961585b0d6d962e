"""A measured scale lying flat: a bar from zero with round ticks, what is there, what there could be, and limits."""

import math

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.parts.scale_bar import Line, limit_line
from studio.graphics.scene import Outline, Shape, Stroke, Text

_STEPS = (1.0, 2.0, 2.5, 5.0)
_MOST_TICKS = 6
_BEYOND = 0.9  # grid units that a limit stands out above and below the bar
_HEADROOM = 1.04  # of the largest value: the bar's bed runs a little further


class Limit(msgspec.Struct, frozen=True, kw_only=True):
    """A line across the bar at ``value``: full for what must hold, dashed for what is asked for."""

    name: str
    kind: Line
    value: float
    step: int = 0


class MeasureBar(msgspec.Struct, frozen=True, kw_only=True):
    """Values in the audience's ``unit``. ``full`` is what could be, drawn pale; ``now`` what is, filled."""

    name: str
    unit: str
    full: float
    now: float
    limits: tuple[Limit, ...] = ()
    step: int = 0

    @property
    def highest(self) -> float:
        """The largest value on it."""
        return max(self.full, self.now, *(limit.value for limit in self.limits), 1e-6)


def bar_height(frame: Frame, numbered: bool) -> float:
    """The height in px of the bar with its limits' ends and, if ``numbered``, the row of numbers under it."""
    row = LINE_STEP * font_size(frame.cap_height("small")) if numbered else 0.0
    return (_thick(frame) + 2 * _BEYOND * frame.grid) + row


def bar_scale(bar: MeasureBar, wide: float) -> float:
    """Px for one unit, for a bar ``wide`` px long."""
    return wide / (_HEADROOM * bar.highest)


def bar_marks(
    bar: MeasureBar, box: Box, frame: Frame, look: Look, fill: str, numbered: bool = True
) -> tuple[Shape | Text, ...]:
    """The bar across the top of ``box``; ``fill`` is the colour of what is there."""
    scale, thick = bar_scale(bar, box.width), _thick(frame)
    top, line = box.top + _BEYOND * frame.grid, frame.short / 270
    radius = 0.25 * frame.grid
    pale = mix(look.plate, fill, 0.26)
    bed = rectangle(box.left, top, box.width, thick, radius)
    marks: list[Shape | Text] = [
        Shape(name=f"{bar.name}/bed", step=bar.step, outline=bed, fill=mix(look.ground, look.quiet, 0.16)),
        Shape(name=f"{bar.name}/full", step=bar.step, outline=rectangle(box.left, top, bar.full * scale, thick, radius),
              fill=pale, stroke=Stroke(look.ink, 0.5 * line)),
        Shape(name=f"{bar.name}/now", step=bar.step, outline=rectangle(box.left, top, bar.now * scale, thick, radius),
              fill=fill, stroke=Stroke(look.ink, 0.6 * line)),
        *_ticks(bar, box, scale, frame, look, numbered),
    ]  # fmt: skip
    reach = _BEYOND * frame.grid
    for limit in bar.limits:
        x = box.left + limit.value * scale
        marks += limit_line(f"{bar.name}/{limit.name}", limit.kind, (x, top - reach), (x, top + thick + reach), frame,
                            look, limit.step)  # fmt: skip
    return tuple(marks)


def _thick(frame: Frame) -> float:
    return 3.2 * frame.grid


def tick_step(highest: float) -> float:
    """The round distance of the ticks: 1, 2, 2.5 or 5 times a power of ten, at most six of them."""
    power = 10.0 ** math.floor(math.log10(highest / _MOST_TICKS))
    return next((s * power for s in (*_STEPS, 10.0) if s * power * _MOST_TICKS >= highest), 10.0 * power)


def _ticks(
    bar: MeasureBar, box: Box, scale: float, frame: Frame, look: Look, numbered: bool
) -> tuple[Shape | Text, ...]:  # fmt: skip
    """Ticks on the bar's foot; numbers under them that keep clear of each other and of the box's end."""
    step, cap = tick_step(bar.highest), frame.cap_height("small")
    foot = box.top + _BEYOND * frame.grid + _thick(frame)
    outline: Outline = ()
    texts: list[Text] = []
    free = box.left
    for order in range(int(_HEADROOM * bar.highest / step) + 1):
        x = box.left + order * step * scale
        outline += polyline(((x, foot), (x, foot + 0.55 * frame.grid)))
        said = f"{order * step:g}" + (f" {bar.unit}" if order == 0 else "")
        long = width(said, cap)
        start = x if order == 0 else x - long / 2
        if numbered and start >= free and start + long <= box.right:
            free = start + long + 1.2 * frame.grid
            texts.append(
                Text(name=f"axis/{bar.name}/{order}", step=bar.step, text=said, at=(start, _baseline(foot, frame)),
                     cap_height=cap, fill=look.quiet, ground=look.ground, role="small")
            )  # fmt: skip
    stroke = Stroke(look.quiet, frame.short / 400, cap="flat")
    return (Shape(name=f"{bar.name}/ticks", step=bar.step, outline=outline, stroke=stroke), *texts)


def _baseline(foot: float, frame: Frame) -> float:
    cap = frame.cap_height("small")
    return foot + _BEYOND * frame.grid + cap + (LINE_STEP - 1) * font_size(cap)
