"""Outlines through points: rounded corners, smooth curves."""

import math
from collections.abc import Sequence

from studio.graphics.scene import Command, Outline, Point


def rounded(corners: Sequence[tuple[Point, float]]) -> Outline:
    """A closed polygon, each corner rounded by its own radius in px, less where a side is too short for it."""
    commands: list[Command] = []
    for index, (corner, radius) in enumerate(corners):
        before, after = corners[index - 1][0], corners[(index + 1) % len(corners)][0]
        if radius <= 0:
            commands.append(("L" if commands else "M", *corner))
            continue
        entry, leaving = _towards(corner, before, radius), _towards(corner, after, radius)
        near, far = _towards(corner, before, radius * 0.45), _towards(corner, after, radius * 0.45)
        commands += [("L" if commands else "M", *entry), ("C", *near, *far, *leaving)]
    return (*commands, ("Z",))


def _towards(start: Point, end: Point, distance: float) -> Point:
    length = math.dist(start, end) or 1.0
    share = min(distance, length / 2) / length
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def cubic(start: Point, one: Point, two: Point, end: Point, pieces: int = 20) -> list[Point]:
    """Points along a cubic curve, both ends included."""
    points = []
    for step in range(pieces + 1):
        t = step / pieces
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        points.append((a * start[0] + b * one[0] + c * two[0] + d * end[0],
                       a * start[1] + b * one[1] + c * two[1] + d * end[1]))  # fmt: skip
    return points


def offset(points: Sequence[Point], by: float) -> list[Point]:
    """An open line moved sideways by ``by``, to the left of its direction where y points up."""
    moved = []
    for index, (x, y) in enumerate(points):
        (ax, ay), (bx, by_) = points[max(0, index - 1)], points[min(len(points) - 1, index + 1)]
        length = math.hypot(bx - ax, by_ - ay) or 1.0
        moved.append((x - (by_ - ay) / length * by, y + (bx - ax) / length * by))
    return moved
