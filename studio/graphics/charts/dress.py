"""What charts for the screen share: round values for an axis, hatching, places for texts that keep clear."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import box as box_of
from studio.graphics.look import Look
from studio.graphics.scene import Command, Point, Shape, Stroke, Text

_ROUND_STEPS, _WHOLE_STEPS = (1, 2, 2.5, 5), (1, 2, 3, 4, 5, 6, 8)
_FINE_STEPS = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
_NEAR = 1e-9
_CLOSE = 5 / 6  # of the gap, so that a larger frame chooses the same place


def round_values(low: float, high: float, most: int, steps: Sequence[float] = _ROUND_STEPS) -> list[float]:
    """Multiples of a round step between two values: the smallest step that leaves at most about ``most`` gaps.

    Where that leaves fewer than two of them, the next smaller step that does not is taken. ``steps`` are those from 1
    to under 10; steps ten times larger and smaller follow from them.
    """
    least = (high - low) / most
    power = 10.0 ** math.floor(math.log10(least))
    sizes = [step * power * scale for scale in (0.1, 1, 10) for step in steps]
    found: list[float] = []
    for size in sorted((size for size in sizes if size <= _next_up(least, sizes)), reverse=True):
        first, last = math.ceil(low / size - _NEAR), math.floor(high / size + _NEAR)
        found = [order * size for order in range(first, last + 1)]
        if len(found) >= 2:
            break
    return found


def whole_values(high: float, most: int) -> list[float]:
    """Round values above zero up to ``high``, about ``most`` at the most; whole ones wherever there is one."""
    if high / most < 1 <= high:
        return [float(value) for value in range(1, int(high) + 1)]
    steps = _WHOLE_STEPS if 1 <= high / most < 10 else _FINE_STEPS  # ten times the fine ones are whole too
    return [value for value in round_values(0, high, most, steps) if value > 0]


def _next_up(least: float, sizes: Sequence[float]) -> float:
    return min(size for size in sizes if size >= least * (1 - _NEAR))


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
