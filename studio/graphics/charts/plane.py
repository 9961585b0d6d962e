"""A plane of values over a part of a figure: lines and dots of matplotlib's, without its axes.

Axes bring ticks, labels and spines that charts for the screen never show; making them took most of a chart's time.
"""

from collections.abc import Sequence
from typing import Any

from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon
from matplotlib.transforms import Bbox, BboxTransform

from studio.graphics.frame import Box


class Plane:
    """An area of ``figure`` with limits of its own; what is drawn comes in the order of drawing, cut at its edges."""

    def __init__(
        self, figure: Figure, whole: Box, area: Box, x: tuple[float, float], y: tuple[float, float]
    ) -> None:  # fmt: skip
        left, low = area.left - whole.left, whole.bottom - area.bottom
        self._figure, self._x, self._y = figure, x, y
        self._place = Bbox.from_bounds(left, low, area.width, area.height)
        self.transData = BboxTransform(Bbox.from_extents(x[0], y[0], x[1], y[1]), self._place)
        """From values to px of the figure; named as matplotlib's axes name it."""

    def get_xlim(self) -> tuple[float, float]:
        """From where to where it goes across."""
        return self._x

    def get_ylim(self) -> tuple[float, float]:
        """The lowest and the highest value."""
        return self._y

    def plot(self, xs: Sequence[float], ys: Sequence[float], *, clip_on: bool = True, **drawn: Any) -> None:
        """A line through these values, with the properties that matplotlib's lines have."""
        line = Line2D(list(xs), list(ys), transform=self.transData, **drawn)
        if clip_on:
            line.set_clip_box(self._place)
        self._figure.add_artist(line)

    def fill(self, corners: Sequence[tuple[float, float]], **drawn: Any) -> None:
        """A surface between corners; all surfaces lie below all lines."""
        patch = Polygon(list(corners), closed=True, transform=self.transData, **drawn)
        patch.set_clip_box(self._place)
        self._figure.add_artist(patch)

    def axhline(self, y: float, **drawn: Any) -> None:
        """A level line from side to side."""
        self.plot(self._x, (y, y), **drawn)

    def axline(self, one: tuple[float, float], other: tuple[float, float], **drawn: Any) -> None:
        """The straight line through two values of different x, as far as the plane shows it."""
        slope = (other[1] - one[1]) / (other[0] - one[0])
        ends = list(self._x)
        if slope:
            levels = sorted(one[0] + (y - one[1]) / slope for y in self._y)
            ends = [max(ends[0], levels[0]), min(ends[1], levels[1])]
        self.plot(ends, [one[1] + slope * (x - one[0]) for x in ends], **drawn)
