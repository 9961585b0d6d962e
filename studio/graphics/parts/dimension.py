"""Dimension lines as in a workshop drawing: arrows at the ends, extension lines, the value beside the line.

A diameter of which only half is drawn has its arrow at one end; the line runs on past the axis, dashed (ISO 129-1, from
memory).
"""

import math

from msgspec.structs import replace

from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import Note
from studio.graphics.layout.text import box as box_of
from studio.graphics.layout.text import width
from studio.graphics.look import Look
from studio.graphics.scene import Outline, Point, Shape, Stroke, Text

_HEAD_LONG, _HEAD_WIDE = 2.0, 0.85  # in grid units


def dimension_line(
    start: Point, end: Point, frame: Frame, look: Look, name: str, step: int = 0
) -> tuple[Shape, ...]:  # fmt: skip
    """A line with an arrow at each end, both touching what is measured."""
    shaft = _shortened(start, end, 0.8 * _HEAD_LONG * frame.grid)
    heads = (*_head(start, end, frame), *_head(end, start, frame))
    stroke = Stroke(look.measure, frame.short / 270, cap="flat")
    return (
        Shape(name=f"{name}/line", step=step, outline=polyline(shaft), stroke=stroke),
        Shape(name=f"{name}/arrows", step=step, outline=heads, fill=look.measure),
    )  # fmt: skip


def inward_arrows(
    left: Point, right: Point, frame: Frame, look: Look, name: str, step: int = 0
) -> tuple[Shape, ...]:  # fmt: skip
    """Arrows from outside that touch what is measured between them, for where the line inside has no room for heads."""
    tail = 1.8 * _HEAD_LONG * frame.grid
    lines = ((left[0] - tail, left[1]), (left[0] - 0.8 * _HEAD_LONG * frame.grid, left[1]))
    others = ((right[0] + 0.8 * _HEAD_LONG * frame.grid, right[1]), (right[0] + tail, right[1]))
    away = 10 * tail
    heads = (*_head(left, (left[0] - away, left[1]), frame), *_head(right, (right[0] + away, right[1]), frame))
    stroke = Stroke(look.measure, frame.short / 270, cap="flat")
    return (
        Shape(name=f"{name}/tails", step=step, outline=polyline(lines) + polyline(others), stroke=stroke),
        Shape(name=f"{name}/arrows", step=step, outline=heads, fill=look.measure),
    )


def half_dimension_line(
    end: Point, axis: Point, frame: Frame, look: Look, name: str, step: int = 0
) -> tuple[Shape, ...]:  # fmt: skip
    """Half of a diameter: an arrow at ``end``, the line through ``axis`` and dashed a little beyond it."""
    stroke = Stroke(look.measure, frame.short / 270, cap="flat")
    dash = Stroke(look.measure, frame.short / 270, (0.7 * frame.grid, 0.6 * frame.grid), cap="flat")
    length = math.dist(end, axis) or 1.0
    beyond = 2.6 * frame.grid / length
    past = (axis[0] + (axis[0] - end[0]) * beyond, axis[1] + (axis[1] - end[1]) * beyond)
    shaft = (_shortened(end, axis, 0.8 * _HEAD_LONG * frame.grid)[0], axis)
    return (
        Shape(name=f"{name}/line", step=step, outline=polyline(shaft), stroke=stroke),
        Shape(name=f"{name}/beyond the axis", step=step, outline=polyline((axis, past)), stroke=dash),
        Shape(name=f"{name}/arrows", step=step, outline=_head(end, axis, frame), fill=look.measure),
    )


def extension_lines(
    pairs: tuple[tuple[Point, Point], ...], frame: Frame, look: Look, name: str, step: int = 0
) -> Shape:  # fmt: skip
    """Fine lines from what is measured to just past its dimension line; each pair runs from one to the other."""
    outline: Outline = ()
    for start, end in pairs:
        length = math.dist(start, end) or 1.0
        gap, past = 0.6 * frame.grid / length, 1 + 0.7 * frame.grid / length
        outline += polyline((_along(start, end, gap), _along(start, end, past)))
    stroke = Stroke(look.measure, frame.short / 540)
    return Shape(name=f"{name}/extensions", step=step, outline=outline, stroke=stroke)


def label_size(note: Note, frame: Frame, widest: float) -> tuple[float, float]:
    """Width and height in px of a label no wider than ``widest``."""
    rows = notes_.rows(note, frame, widest)
    wide = max(sum(width(text, cap, weight) for text, cap, weight, _, _ in row.parts) for row in rows)  # type: ignore
    return wide, sum(row.height for row in rows)


def label(note: Note, box: Box, frame: Frame, look: Look, at_right: bool = False) -> tuple[Text, ...]:
    """The value and its label in ``box``, each row from its left edge or up to its right one."""
    texts = notes_.set_note(note, box, frame, look)
    if not at_right:
        return texts
    ends = [max(box_of(text).right for text in texts if text.at[1] == mark.at[1]) for mark in texts]
    return tuple(replace(mark, at=(mark.at[0] + box.right - end, mark.at[1]))
                 for mark, end in zip(texts, ends, strict=True))  # fmt: skip


def _shortened(start: Point, end: Point, by: float) -> tuple[Point, Point]:
    share = min(0.45, by / (math.dist(start, end) or 1.0))
    return _along(start, end, share), _along(end, start, share)


def _along(start: Point, end: Point, share: float) -> Point:
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def _head(tip: Point, tail: Point, frame: Frame) -> Outline:
    """A slim arrowhead at ``tip`` that comes from ``tail``; never longer than a third of the line."""
    length = math.dist(tip, tail) or 1.0
    long = min(_HEAD_LONG * frame.grid, length / 3)
    wide = long * _HEAD_WIDE / _HEAD_LONG / 2
    ux, uy = (tail[0] - tip[0]) / length, (tail[1] - tip[1]) / length
    foot = (tip[0] + ux * long, tip[1] + uy * long)
    left, right = (foot[0] - uy * wide, foot[1] + ux * wide), (foot[0] + uy * wide, foot[1] - ux * wide)
    return polyline((tip, left, right), closed=True)
