"""Outlines of simple figures: dimensions in, commands out."""

import math
from collections.abc import Iterable

from studio.graphics.scene import Command, Outline, Point

_ROUND = 0.5522847498  # where a cubic's handles lie for a quarter of a circle


def polyline(points: Iterable[Point], closed: bool = False) -> Outline:
    """Straight lines through ``points``."""
    commands: list[Command] = [("L" if order else "M", x, y) for order, (x, y) in enumerate(points)]
    return (*commands, ("Z",)) if closed else tuple(commands)


def rectangle(left: float, top: float, width: float, height: float, radius: float = 0.0) -> Outline:
    """A rectangle, its corners rounded by ``radius``."""
    right, bottom = left + width, top + height
    r = min(radius, width / 2, height / 2)
    if r <= 0:
        return polyline(((left, top), (right, top), (right, bottom), (left, bottom)), closed=True)
    k = r * (1 - _ROUND)
    return (
        ("M", left + r, top), ("L", right - r, top), ("C", right - k, top, right, top + k, right, top + r),
        ("L", right, bottom - r), ("C", right, bottom - k, right - k, bottom, right - r, bottom),
        ("L", left + r, bottom), ("C", left + k, bottom, left, bottom - k, left, bottom - r),
        ("L", left, top + r), ("C", left, top + k, left + k, top, left + r, top), ("Z",),
    )  # fmt: skip


def circle(center: Point, radius: float, clockwise: bool = True) -> Outline:
    """A full circle; two of opposite sense make a ring with the even-odd or the winding rule."""
    return ellipse(center, radius, radius, clockwise)


def ellipse(center: Point, rx: float, ry: float, clockwise: bool = True) -> Outline:
    """A full ellipse."""
    (x, y), kx, ky = center, rx * _ROUND, ry * _ROUND
    s = 1 if clockwise else -1
    return (
        ("M", x, y - ry), ("C", x + s * kx, y - ry, x + s * rx, y - ky, x + s * rx, y),
        ("C", x + s * rx, y + ky, x + s * kx, y + ry, x, y + ry),
        ("C", x - s * kx, y + ry, x - s * rx, y + ky, x - s * rx, y),
        ("C", x - s * rx, y - ky, x - s * kx, y - ry, x, y - ry), ("Z",),
    )  # fmt: skip


def ring(center: Point, outer: float, inner: float) -> Outline:
    """A ring, to be filled."""
    return circle(center, outer) + circle(center, inner, clockwise=False)


def polar(center: Point, radius: float, angle: float) -> Point:
    """The point at ``angle`` degrees clockwise from the top."""
    turn = math.radians(angle)
    return (center[0] + radius * math.sin(turn), center[1] - radius * math.cos(turn))


def arc(center: Point, radius: float, start: float, end: float, move: bool = True) -> Outline:
    """An open arc from ``start`` to ``end`` degrees clockwise from the top, either way round."""
    pieces = max(1, math.ceil(abs(end - start) / 45))
    step = math.radians((end - start) / pieces)
    handle = 4 / 3 * math.tan(step / 4) * radius
    commands: list[Command] = []
    for piece in range(pieces):
        a = math.radians(start) + piece * step
        b = a + step
        ax, ay = center[0] + radius * math.sin(a), center[1] - radius * math.cos(a)
        bx, by = center[0] + radius * math.sin(b), center[1] - radius * math.cos(b)
        if piece == 0:
            commands.append(("M" if move else "L", ax, ay))
        commands.append(
            ("C", ax + handle * math.cos(a), ay + handle * math.sin(a), bx - handle * math.cos(b),
             by - handle * math.sin(b), bx, by)
        )  # fmt: skip
    return tuple(commands)


def sector(center: Point, outer: float, inner: float, start: float, end: float) -> Outline:
    """A piece of a ring between two angles, closed."""
    return (*arc(center, outer, start, end), *arc(center, inner, end, start, move=False), ("Z",))


def moved(outline: Outline, dx: float, dy: float, scale: float = 1.0) -> Outline:
    """``outline`` scaled about the origin, then moved."""
    return transformed(outline, (scale, 0.0, 0.0, scale, dx, dy))


def transformed(outline: Outline, matrix: tuple[float, float, float, float, float, float]) -> Outline:
    """``outline`` through the affine map x' = a x + c y + e, y' = b x + d y + f."""
    a, b, c, d, e, f = matrix
    result: list[Command] = []
    for letter, *values in outline:
        points = []
        for x, y in zip(values[::2], values[1::2], strict=True):
            points += [a * x + c * y + e, b * x + d * y + f]
        result.append((letter, *points))  # type: ignore[arg-type]
    return tuple(result)


def bounds(outline: Outline) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of the outline's points and handles."""
    xs = [value for command in outline for value in command[1::2]]
    ys = [value for command in outline for value in command[2::2]]
    return min(xs), min(ys), max(xs), max(ys)
