"""How a mark stands in one frame of a clip: how far it shows, where, in which shape."""

import math
from collections.abc import Sequence

from msgspec.structs import replace

from studio.graphics.draw import polyline, transformed
from studio.graphics.motion import AnyMovement, Draw, Fade, Morph, Travel, Uncover
from studio.graphics.moving.trace import along, between, trimmed
from studio.graphics.scene import AnyMark, ArcText, Linear, Outline, Paint, Point, Radial, Shape, Text

Matrix = tuple[float, float, float, float, float, float]
"""x' = a x + c y + e, y' = b x + d y + f."""


def opacity(movements: Sequence[AnyMovement], frame: int) -> float:
    """How far marks with these movements show, 0 to 1; nothing before the first of them starts."""
    if frame < min(movement.start for movement in movements):
        return 0.0
    found = 1.0
    for movement in movements:
        if isinstance(movement, Fade):
            share = movement.share(frame)
            found *= 1 - share if movement.away else share
        elif isinstance(movement, Draw) and frame < movement.start:
            return 0.0
    return found


def front(movement: Uncover, frame: int, reach: float) -> Outline:
    """What an Uncover shows in ``frame``: the half plane up to its front, ``reach`` px far."""
    (x0, y0), (x1, y1) = movement.origin, movement.target
    length = math.hypot(x1 - x0, y1 - y0) or 1.0
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    share = movement.share(frame)
    x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
    ax, ay = x - uy * reach, y + ux * reach
    bx, by = x + uy * reach, y - ux * reach
    back = 2 * reach
    return polyline(((ax, ay), (bx, by), (bx - ux * back, by - uy * back), (ax - ux * back, ay - uy * back)), True)


def place(movement: Travel, frame: int) -> tuple[Point, float]:
    """Where a traveling body's center is in ``frame``, and its turn in degrees."""
    share = movement.share(frame)
    turn, _ = along(tuple((turn, 0.0) for turn in movement.turns), share)
    return along(movement.way, share), turn


def matrix(movement: Travel, frame: int) -> Matrix:
    """The map that puts the body where it is in ``frame``."""
    (x, y), degrees = place(movement, frame)
    (cx, cy), angle = movement.center, math.radians(degrees)
    c, s = math.cos(angle), math.sin(angle)
    return (c, s, -s, c, x - c * cx + s * cy, y - s * cx - c * cy)


def posed(mark: AnyMark, index: int, movements: Sequence[AnyMovement], frame: int) -> AnyMark:
    """The mark in the shape and place that its movements give it in ``frame``; how far it shows is ``opacity``."""
    for movement in movements:
        share = movement.share(frame)
        if isinstance(movement, Draw) and isinstance(mark, Shape):
            ends = (1 - share, 1.0) if movement.backwards else (0.0, share)
            mark = replace(mark, outline=trimmed(mark.outline, *ends)) if share < 1 else mark
        elif isinstance(movement, Morph) and isinstance(mark, Shape):
            begin = movement.begins[movement.marks.index(index)]
            mark = replace(mark, outline=between(begin, mark.outline, share))
        elif isinstance(movement, Travel) and share < 1:
            mark = moved_mark(mark, matrix(movement, frame), movement)
    return mark


def moved_mark(mark: AnyMark, by: Matrix, movement: Travel) -> AnyMark:
    """A mark of a body that has been moved; text only goes along, it does not turn. Images stay."""
    if isinstance(mark, Shape):
        shade = carried(movement.center, by) if movement.lit else by
        clip = None if mark.clip is None else transformed(mark.clip, by)
        return replace(mark, outline=transformed(mark.outline, by), clip=clip, fill=_moved_fill(mark.fill, shade))
    if isinstance(mark, ArcText):
        return replace(mark, center=_at(by, mark.center), angle=mark.angle + math.degrees(math.atan2(by[1], by[0])))
    return replace(mark, at=_at(by, mark.at)) if isinstance(mark, Text) else mark


def carried(center: Point, by: Matrix) -> Matrix:
    """The map without its turn: the body's ``center`` goes where it goes, and all else along with it."""
    x, y = _at(by, center)
    return (1.0, 0.0, 0.0, 1.0, x - center[0], y - center[1])


def _at(by: Matrix, point: Point) -> Point:
    a, b, c, d, e, f = by
    return (a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f)


def _moved_fill(fill: Paint | None, by: Matrix) -> Paint | None:
    if isinstance(fill, Linear):
        return replace(fill, start=_at(by, fill.start), end=_at(by, fill.end))
    return replace(fill, center=_at(by, fill.center)) if isinstance(fill, Radial) else fill
