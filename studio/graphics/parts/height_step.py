"""How much higher one thing stands than another: the lower height carried across, arrows at the two levels."""

import math

from studio.graphics.draw import polyline
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.scene import Outline, Point, Shape, Stroke

_HEAD_LONG, _HEAD_WIDE = 1.7, 0.95  # in grid units
_ROOM = 2.4  # heads: a step that high takes them inside, a lower one has them outside, pointing at each other


def carried_level(start: Point, end_x: float, frame: Frame, look: Look, name: str, step: int = 0) -> Shape:
    """A level carried across as a dashed line; what stands in front of it is drawn after it."""
    width = frame.short / 270
    stroke = Stroke(look.measure, width, (2.6 * width, 2.2 * width), cap="flat")
    return Shape(name=f"{name}/level", step=step, outline=polyline((start, (end_x, start[1]))), stroke=stroke)


def height_step(
    x: float, levels: tuple[float, float], frame: Frame, look: Look, name: str, step: int = 0
) -> tuple[Shape, ...]:
    """Arrows at ``x`` that touch two levels (px), from inside where there is room for them, else from outside."""
    top, low = sorted(levels)
    long, width = _HEAD_LONG * frame.grid, frame.short / 270
    inside = low - top >= _ROOM * long
    away = 1 if inside else -1
    heads = (*_head((x, top), away * long, frame), *_head((x, low), -away * long, frame))
    tail = 1.5 * long
    shaft: Outline = polyline(((x, top + long), (x, low - long)))
    if not inside:
        above = polyline(((x, top - long), (x, top - long - tail)))
        shaft = above + polyline(((x, low + long), (x, low + long + tail)))
    return (
        Shape(name=f"{name}/shaft", step=step, outline=shaft, stroke=Stroke(look.measure, width, cap="flat")),
        Shape(name=f"{name}/heads", step=step, outline=heads, fill=look.measure),
    )


def step_reach(levels: tuple[float, float], frame: Frame) -> float:
    """How far above the higher level the arrows reach, in px."""
    long = _HEAD_LONG * frame.grid
    return 0.0 if math.dist((0, levels[0]), (0, levels[1])) >= _ROOM * long else 2.5 * long


def _head(tip: Point, along: float, frame: Frame) -> Outline:
    """A slim arrowhead with its foot ``along`` px below the tip."""
    half = _HEAD_WIDE * frame.grid / 2
    return polyline((tip, (tip[0] - half, tip[1] + along), (tip[0] + half, tip[1] + along)), closed=True)
