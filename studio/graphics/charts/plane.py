"""A plane of values over a part of the frame: what is drawn in it becomes marks of the scene at once.

So charts share look, steps and checks with all that is drawn, and take no time for scales, ticks and texts of another
library.
"""

from collections.abc import Mapping, Sequence
from typing import Literal

from msgspec.structs import replace

from studio.graphics.color import faded
from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import Box
from studio.graphics.scene import Outline, Point, Shape, Stroke

Dash = tuple[float, ...]
"""Lengths drawn and left out, in widths of the line; empty for a whole line."""


class Plane:
    """The values ``x[0]`` to ``x[1]`` across ``area`` and ``y[0]`` to ``y[1]`` up it; lines are cut at its edges."""

    def __init__(self, area: Box, x: tuple[float, float], y: tuple[float, float]) -> None:
        self.area, self.x, self.y = area, x, y
        self.surfaces: list[tuple[str, Shape]] = []
        self.lines: list[tuple[str, Shape]] = []

    def pixel(self, x: float, y: float) -> Point:
        """Where a value lies in the frame."""
        across = (x - self.x[0]) / (self.x[1] - self.x[0])
        up = (y - self.y[0]) / (self.y[1] - self.y[0])
        return (float(self.area.left + across * self.area.width), float(self.area.bottom - up * self.area.height))

    def line(
        self, name: str, points: Sequence[Point], color: str, thick: float, dash: Dash = (),
        ends: Literal["round", "flat"] = "flat",
    ) -> None:  # fmt: skip
        """A line through these values, ``thick`` px wide."""
        stroke = Stroke(color, thick, tuple(thick * length for length in dash), ends)
        outline = polyline(self.pixel(*point) for point in points)
        self.lines.append((name, Shape(name=name, outline=outline, stroke=stroke, clip=self._edges())))

    def level(self, name: str, y: float, color: str, thick: float, dash: Dash = ()) -> None:
        """A level line from side to side."""
        self.line(name, [(self.x[0], y), (self.x[1], y)], color, thick, dash)

    def through(self, name: str, one: Point, other: Point, color: str, thick: float, dash: Dash = ()) -> None:
        """The straight line through two values of different x, as far as the plane shows it."""
        slope = (other[1] - one[1]) / (other[0] - one[0])
        ends = list(self.x)
        if slope:
            levels = sorted(one[0] + (y - one[1]) / slope for y in self.y)
            ends = [max(ends[0], levels[0]), min(ends[1], levels[1])]
        self.line(name, [(x, one[1] + slope * (x - one[0])) for x in ends], color, thick, dash)

    def dots(self, name: str, points: Sequence[Point], across: float, face: str, edge: str, thick: float) -> None:
        """Dots ``across`` px wide to the middle of their edge; at the plane's edges they stay whole."""
        for point in points:
            outline = circle(self.pixel(*point), across / 2)
            self.lines.append((name, Shape(name=name, outline=outline, fill=face, stroke=Stroke(edge, thick))))

    def surface(self, name: str, corners: Sequence[Point], color: str, alpha: float) -> None:
        """A surface between corners; all surfaces lie below all lines."""
        outline = polyline((self.pixel(*corner) for corner in corners), closed=True)
        self.surfaces.append((name, Shape(name=name, outline=outline, fill=faded(color, alpha), clip=self._edges())))

    def _edges(self) -> Outline:
        return rectangle(self.area.left, self.area.top, self.area.width, self.area.height)


def marks_of(planes: Sequence[Plane], steps: Mapping[str, int]) -> tuple[Shape, ...]:
    """What was drawn in ``planes``, in its order, each mark with a name of its own. ``steps`` says when one appears."""
    drawn = [each for plane in planes for each in plane.surfaces] + [each for plane in planes for each in plane.lines]
    return tuple(
        replace(mark, name=f"{name}/{order}", step=steps.get(name, 0)) for order, (name, mark) in enumerate(drawn)
    )
