"""Wear over distance: readings with the gauge's doubt, the fitted line, the way to each limit with its band."""

from collections.abc import Sequence
from typing import Literal

import msgspec

from studio.graphics.charts.dress import round_values, whole_values
from studio.graphics.charts.plane import Plane, marks_of
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
    plane, back, foot = _plane(wear, box, frame, look)
    thick = frame.short / 270
    for limit in wear.limits:
        _limit(plane, limit, look, thick)
        _way(plane, wear, limit, look, thick)
    _readings(plane, wear, look, thick)
    marks = marks_of([plane], wear.steps)
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


def _plane(wear: Wear, box: Box, frame: Frame, look: Look) -> tuple[Plane, list[Shape | Text], Shape]:
    """The plane, the lines and numbers behind what is drawn, the foot that lies over it."""
    cap = frame.cap_height("callout")
    highest = (*(dot.depth + dot.doubt for dot in wear.dots), *(limit.depth for limit in wear.limits))
    top = max(highest) * _ROOM
    depths = whole_values(top, 5)
    far = _furthest(wear)
    spans = _spans(far, box.width, cap)
    left = max(width(format_number(value, 0), cap) for value in depths) + 2 * frame.grid
    below = 1.5 * font_size(cap)
    last = width(format_number(spans[-1], 0), cap) / 2
    area = Box(box.left + left, box.top + cap, box.width - left - last, box.height - below - cap)
    plane = Plane(area, (0, far), (0, top))
    foot = polyline(((area.left, area.bottom), (area.right, area.bottom)))
    line = Shape(name="axis/line", outline=foot, stroke=Stroke(look.quiet, frame.short / 360))
    return plane, _ticks(plane, area, depths, spans, frame, look), line


def _spans(far: float, across: float, cap: float) -> list[float]:
    """Round distances whose labels keep apart on ``across`` px."""
    for most in (3, 2, 1):
        spans = round_values(0, far, most)
        wide = max(width(format_number(value, 0), cap) for value in spans) + cap
        if wide * far <= 0.8 * across * (spans[-1] - spans[-2] if len(spans) > 1 else far):
            break
    return spans


def _ticks(
    plane: Plane, area: Box, depths: Sequence[float], spans: Sequence[float], frame: Frame, look: Look
) -> list[Shape | Text]:  # fmt: skip
    """The distances below the foot, the depths at its left with their level lines."""
    cap, thin = frame.cap_height("callout"), Stroke(faded(look.quiet, 0.35), frame.short / 900)
    found: list[Shape | Text] = []
    for order, value in enumerate(spans):
        at = (plane.pixel(value, 0)[0], area.bottom + frame.grid + cap)
        found.append(_number(f"axis/x/{order}", value, at, cap, look, "middle"))
    for order, value in enumerate(depths):
        y = plane.pixel(0, value)[1]
        level = polyline(((area.left, y), (area.right, y)))
        found.append(Shape(name=f"axis/y/level{order}", outline=level, stroke=thin))
        found.append(_number(f"axis/y/{order}", value, (area.left - frame.grid, y + cap / 2), cap, look, "end"))
    return found


def _number(name: str, value: float, at: Point, cap: float, look: Look, anchor: Literal["middle", "end"]) -> Text:
    return Text(name=name, text=format_number(value, 0), at=at, cap_height=cap, anchor=anchor, fill=look.quiet,
                ground=look.ground, role="callout")  # fmt: skip


def _limit(plane: Plane, limit: Limit, look: Look, thick: float) -> None:
    plane.level(f"limit/{limit.name}", limit.depth, look.measure, thick, () if limit.rule else (3, 2))


def _way(plane: Plane, wear: Wear, limit: Limit, look: Look, thick: float) -> None:
    """The way from the last reading to the law's limit, and the band in which it lies."""
    if not limit.law or limit.left <= 0:
        return
    now, end = _now(wear), plane.x[1]
    upper = (now.rolled + limit.most, limit.depth) if limit.most is not None else (end * 3, now.depth + now.doubt)
    corners = [(now.rolled, now.depth - now.doubt), (now.rolled, now.depth + now.doubt), upper,
               (now.rolled + limit.least, limit.depth)]  # fmt: skip
    plane.surface("band", corners, look.measure, 0.18)
    path = [(now.rolled, now.depth), (now.rolled + limit.left, limit.depth)]
    plane.line("projection", path, look.ink, thick, (2, 1.5))


def _readings(plane: Plane, wear: Wear, look: Look, thick: float) -> None:
    first, last = wear.dots[0].rolled, wear.dots[-1].rolled
    plane.line("fit", list(zip((first, last), wear.line, strict=True)), look.ink, thick, ends="round")
    for dot in wear.dots:
        reach = [(dot.rolled, dot.depth - dot.doubt), (dot.rolled, dot.depth + dot.doubt)]
        plane.line("readings", reach, look.ink, thick * 0.75)
    dots = [(dot.rolled, dot.depth) for dot in wear.dots]
    plane.dots("readings", dots, thick * 4.5, look.ground, look.ink, thick)


def _px(plane: Plane, box: Box, x: float, y: float) -> Point:
    across, down = plane.pixel(x, y)
    return (min(across, box.right), down)
