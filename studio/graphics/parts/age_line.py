"""A tire's years as a line: from the week it was made to the day of the episode, and on to the ages of which advice
speaks. Advice is drawn dashed, as everywhere.
"""

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.parts.scale_bar import limit_line, line_width
from studio.graphics.scene import Outline, Shape, Stroke, Text

_THICK = 1.8  # in grid units
_STEPS = (1, 2, 5, 10, 20)


class AgeLine(msgspec.Struct, frozen=True, kw_only=True):
    """Years from ``left`` to ``right`` px, the bar's foot at ``base``; ``open``: it may be older by decades."""

    left: float
    right: float
    base: float
    years: float
    last: float
    open: bool = False

    def x(self, years: float) -> float:
        """Where an age lies."""
        return self.left + (self.right - self.left) * years / self.last


def age_line(its: AgeLine, fill: str, frame: Frame, look: Look, name: str, step: int = 0) -> tuple[Shape | Text, ...]:
    """The bar up to today with the years below it; dashed beyond where the decade is open."""
    grid, cap = frame.grid, frame.cap_height("small")
    top, end = its.base - _THICK * grid, its.x(its.years)
    rest = rectangle(its.left, top, its.right - its.left, _THICK * grid)
    marks: list[Shape | Text] = [
        Shape(name=f"{name}/years", step=step, outline=rest, fill=mix(look.ground, look.ink, 0.09)),
        Shape(name=f"{name}/age", step=step, outline=rectangle(its.left, top, end - its.left, _THICK * grid),
              fill=fill, stroke=Stroke(look.ink, line_width(frame) / 2)),
    ]  # fmt: skip
    if its.open:
        dash = Stroke(look.ink, line_width(frame) / 2, (0.9 * grid, 0.7 * grid), cap="flat")
        beyond = polyline(((end, top), (its.right, top), (its.right, its.base), (end, its.base)))
        marks.append(Shape(name=f"{name}/or older", step=step, outline=beyond, stroke=dash))
    each = _each(its, cap)
    ticks: Outline = ()
    for year in range(int(its.last) + 1):
        long = 0.9 if year % each == 0 else 0.45
        ticks += polyline(((its.x(year), its.base), (its.x(year), its.base + long * grid)))
        if year % each == 0:
            at = (its.x(year), its.base + 1.4 * grid + cap)
            marks.append(Text(name=f"axis/{year}", step=step, text=f"{year}", at=at, anchor="middle", cap_height=cap,
                              fill=look.quiet, ground=look.ground, role="small"))  # fmt: skip
    marks.append(Shape(name="axis/years", step=step, outline=ticks, stroke=Stroke(look.quiet, frame.short / 400)))
    return tuple(marks)


def _each(its: AgeLine, cap: float) -> int:
    one = (its.right - its.left) / its.last
    return next((each for each in _STEPS if each * one >= 2.6 * cap), 50)


def advice_mark(
    its: AgeLine, years: float, high: float, frame: Frame, look: Look, name: str, step: int = 0
) -> tuple[Shape, ...]:
    """A dashed line across the bar at an age, up to ``high`` px above it."""
    x = its.x(years)
    return limit_line(name, "advice", (x, its.base), (x, its.base - _THICK * frame.grid - high), frame, look, step)


def bar_height(frame: Frame) -> float:
    """The bar's height in px."""
    return _THICK * frame.grid
