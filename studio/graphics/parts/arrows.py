"""Curved arrows that pass over one another neatly: a gap in the ground's colour parts one from those it crosses."""

import math
from collections.abc import Sequence
from itertools import pairwise

from studio.graphics.draw import circle, polyline
from studio.graphics.scene import Outline, Point, Shape, Stroke

Curve = tuple[Point, Point, Point, Point]
"""A cubic: start, two handles, end."""

_HEAD_LONG, _HEAD_WIDE = 3.7, 3.3  # in widths of the shaft
_SAMPLES = 24


def point_at(curve: Curve, t: float) -> Point:
    """The curve's point at ``t`` (0..1)."""
    s = 1 - t
    a, b, c, d = s**3, 3 * s * s * t, 3 * s * t * t, t**3
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = curve
    return (a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3)


def part(curve: Curve, start: float, end: float) -> Curve:
    """The piece of the curve between two values of t (de Casteljau)."""
    _, after = _split(curve, start)
    before, _ = _split(after, (end - start) / (1 - start) if start < 1 else 0.0)
    return before


def _split(curve: Curve, t: float) -> tuple[Curve, Curve]:
    def between(p: Point, q: Point) -> Point:
        return (p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t)

    p, q, r, s = curve
    pq, qr, rs = between(p, q), between(q, r), between(r, s)
    left, right = between(pq, qr), between(qr, rs)
    middle = between(left, right)
    return (p, pq, left, middle), (middle, right, rs, s)


def sampled(curve: Curve, count: int = _SAMPLES) -> tuple[Point, ...]:
    """Points along the curve, evenly in t."""
    return tuple(point_at(curve, order / count) for order in range(count + 1))


def crossings(curve: Curve, other: Curve) -> tuple[float, ...]:
    """The values of t at which ``curve`` crosses ``other``."""
    mine, its = sampled(curve), tuple(pairwise(sampled(other)))
    found = []
    for order, (a, b) in enumerate(pairwise(mine)):
        for c, d in its:
            share = _meeting(a, b, c, d)
            if share is not None:
                found.append((order + share) / _SAMPLES)
    return tuple(found)


def _meeting(a: Point, b: Point, c: Point, d: Point) -> float | None:
    """Where on a-b the segment c-d crosses it, as a share of a-b."""
    (ux, uy), (vx, vy) = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-12:
        return None
    t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross
    s = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / cross
    return t if 0 <= t < 1 and 0 <= s < 1 else None


def arrow(
    name: str, curve: Curve, color: str, width: float, *, over: Sequence[Curve] = (), ground: str = "",
    dashed: bool = False, step: int = 0,
) -> tuple[Shape, ...]:  # fmt: skip
    """The arrow along ``curve``; where it crosses one of ``over``, ``ground`` shows on both sides of it."""
    tail = 1 - _HEAD_LONG * 0.8 * width / max(_length(curve), 1e-6)
    shaft = part(curve, 0.0, max(0.05, tail))
    shapes = [
        Shape(name=f"{name}/gap", step=step, outline=_outline(_about(curve, t, 3.0 * width)),
              stroke=Stroke(ground, 2.6 * width, cap="flat"))
        for other in over for t in crossings(curve, other)
    ]  # fmt: skip
    dash = (2.4 * width, 1.9 * width) if dashed else ()
    shapes.append(Shape(name=f"{name}/start", step=step, outline=circle(curve[0], 0.95 * width), fill=color))
    shapes.append(
        Shape(name=f"{name}/path", step=step, outline=_outline(shaft), stroke=Stroke(color, width, dash, cap="flat"))
    )
    shapes.append(Shape(name=f"{name}/head", step=step, outline=_head(curve, shaft[3], width), fill=color))
    return tuple(shapes)


def _about(curve: Curve, t: float, reach: float) -> Curve:
    share = reach / max(_length(curve), 1e-6)
    return part(curve, max(0.0, t - share), min(1.0, t + share))


def _length(curve: Curve) -> float:
    points = sampled(curve)
    return sum(math.dist(a, b) for a, b in pairwise(points))


def _outline(curve: Curve) -> Outline:
    return (("M", *curve[0]), ("C", *curve[1], *curve[2], *curve[3]))


def _head(curve: Curve, base: Point, width: float) -> Outline:
    """The arrow's head, in the direction in which the path comes in."""
    tip = curve[3]
    reach = math.dist(base, tip) or 1.0
    ux, uy = (tip[0] - base[0]) / reach, (tip[1] - base[1]) / reach
    foot = (tip[0] - ux * _HEAD_LONG * width, tip[1] - uy * _HEAD_LONG * width)
    half = _HEAD_WIDE * width / 2
    notch = (tip[0] - ux * _HEAD_LONG * 0.78 * width, tip[1] - uy * _HEAD_LONG * 0.78 * width)
    left, right = (foot[0] - uy * half, foot[1] + ux * half), (foot[0] + uy * half, foot[1] - ux * half)
    return polyline((tip, left, notch, right), closed=True)
