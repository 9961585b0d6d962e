"""What stands on a depth scale: limit lines, the gauge's doubt about a reading, and the key that explains both."""

import math
from collections.abc import Sequence
from typing import Literal

from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import Note
from studio.graphics.look import Look
from studio.graphics.scene import Outline, Point, Shape, Stroke, Text

Line = Literal["law", "advice", "doubt"]


def line_width(frame: Frame) -> float:
    """The width of a line that carries meaning."""
    return frame.short / 270


def limit_line(
    name: str, kind: Line, start: Point, end: Point, frame: Frame, look: Look, step: int = 0
) -> tuple[Shape, ...]:
    """A limit across a chart: the law is a full line, advice a dashed one; both cased so that they show on any fill."""
    width = line_width(frame)
    dash = () if kind == "law" else (2.6 * width, 2.2 * width)
    line = polyline((start, end))
    return (
        Shape(name=f"{name}/casing", step=step, outline=line, stroke=Stroke(look.ground, 2.2 * width, cap="flat")),
        Shape(name=name, step=step, outline=line, stroke=Stroke(look.measure, width, dash, cap="flat")),
    )


def doubt_mark(
    name: str, at: Point, half: float, frame: Frame, look: Look, step: int = 0, floor: float = math.inf
) -> tuple[Shape, ...]:
    """How far a reading may be off: a line from ``half`` px above it to ``half`` px below, but not below ``floor``."""
    x, y = at
    width = line_width(frame)
    foot, low = 2.2 * width, min(y + half, floor)
    outline: Outline = (
        *polyline(((x, y - half), (x, low))),
        *polyline(((x - foot, y - half), (x + foot, y - half))),
        *polyline(((x - foot, low), (x + foot, low))),
    )
    return (
        Shape(name=f"{name}/casing", step=step, outline=outline, stroke=Stroke(look.ground, 2.4 * width)),
        Shape(name=name, step=step, outline=outline, stroke=Stroke(look.ink, 0.9 * width)),
    )


Entry = tuple[Note, Line]


def key_height(entries: Sequence[Entry], frame: Frame, wide: float) -> float:
    """How high the key is when set in ``wide`` px."""
    heights = [notes_.height(note, frame, wide - _indent(frame)) for note, _ in entries]
    return sum(heights) + 1.2 * frame.grid * max(0, len(heights) - 1)


def key(entries: Sequence[Entry], box: Box, frame: Frame, look: Look) -> tuple[Shape | Text, ...]:
    """The entries from the top of ``box``: a sample of each line, then what it says."""
    marks: list[Shape | Text] = []
    y, indent = box.top, _indent(frame)
    for note, line in entries:
        inner = Box(box.left + indent, y, box.width - indent, notes_.height(note, frame, box.width - indent))
        marks += _sample(note, line, (box.left, y + frame.cap_height("callout") * 0.96), frame, look)
        marks += notes_.set_note(note, inner, frame, look)
        y += inner.height + 1.2 * frame.grid
    return tuple(marks)


def _indent(frame: Frame) -> float:
    return 5.6 * frame.grid


def _sample(note: Note, line: Line, at: Point, frame: Frame, look: Look) -> tuple[Shape, ...]:
    (x, y), long = at, 4.2 * frame.grid
    name = f"{note.name}/sample"
    if line == "doubt":
        return doubt_mark(name, (x + long / 2, y), 1.4 * frame.grid, frame, look, note.step)
    return limit_line(name, line, (x, y), (x + long, y), frame, look, note.step)
