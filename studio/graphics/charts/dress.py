"""What charts for the screen share: pixels of values, texts and hatching of our own.

Ticks and their labels are set as our own texts: matplotlib's would take more time than all the rest of a chart.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from matplotlib.ticker import MaxNLocator

from studio.graphics.charts.plane import Plane
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import box as box_of
from studio.graphics.look import Look
from studio.graphics.scene import Command, Point, Shape, Stroke, Text

_CLOSE = 5 / 6  # of the gap, so that a larger frame chooses the same place


def pixel(axes: Plane, whole: Box, x: float, y: float) -> Point:
    """Where a value lies in the frame."""
    across, up = axes.transData.transform((x, y))
    return (whole.left + float(across), whole.bottom - float(up))


def round_values(low: float, high: float, most: int) -> list[float]:
    """At most about ``most`` round values between two."""
    found = MaxNLocator(nbins=most, steps=[1, 2, 2.5, 5, 10]).tick_values(low, high)
    return [float(value) for value in found if low <= value <= high]


def hatched(name: str, area: Box, frame: Frame, look: Look, step: int = 0) -> Shape:
    """Thin slanted lines over ``area``: a place of which nothing is known."""
    gap, lines = 1.6 * frame.grid, list[Command]()
    x = area.left - area.height
    while x < area.right:
        start, end = max(x, area.left), min(x + area.height, area.right)
        lines += [("M", start, area.bottom - (start - x)), ("L", end, area.bottom - (end - x))]
        x += gap
    return Shape(name=name, step=step, outline=tuple(lines), stroke=Stroke(look.quiet + "80", frame.short / 720))


def free_of(wanted: Iterable[Text], gap: float) -> tuple[Text, ...]:
    """The texts in their order, each only where it keeps ``gap`` px from those before it."""
    kept: list[Text] = []
    for mark in wanted:
        if not any(box_of(mark).meets(box_of(other), gap) for other in kept):
            kept.append(mark)
    return tuple(kept)


def first_clear(
    wanted: Iterable[Text], lines: Iterable[Sequence[Point]], others: Sequence[Box], gap: float
) -> Text | None:  # fmt: skip
    """The first of several places for a text that no line runs through and nothing else comes near; None without."""
    points = [point for line in lines for point in _close_points(line, _CLOSE * gap)]
    for mark in wanted:
        its = box_of(mark)
        grown = its.inset(-gap)
        met = any(grown.left < x < grown.right and grown.top < y < grown.bottom for x, y in points)
        if not met and not any(its.meets(other, gap) for other in others):
            return mark
    return None


def _close_points(line: Sequence[Point], apart: float) -> list[Point]:
    """Points along a line, so close that none of our texts fits between two."""
    found = []
    for (ax, ay), (bx, by) in pairwise(line):
        pieces = max(1, int(max(abs(bx - ax), abs(by - ay)) / apart))
        found += [(ax + (bx - ax) * step / pieces, ay + (by - ay) * step / pieces) for step in range(pieces + 1)]
    return found
