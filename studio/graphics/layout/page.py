"""The page of a picture: sentence on top, drawing, notes, small print at the foot, composed for the frame's shape.

Wide: the drawing beside a column of notes joined to it by leaders. Tall and square: the drawing above, notes below in
two columns, joined by numbered discs. What does not fit is left out by priority, never squeezed.
"""

from collections.abc import Mapping, Sequence

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.edges import Marks, Words, edges
from studio.graphics.layout.notes import Note
from studio.graphics.layout.untangle import untangle
from studio.graphics.look import Look
from studio.graphics.scene import Image, Point, Shape, Text

__all__ = ["Page", "Words", "plan"]


class Page(msgspec.Struct, frozen=True, kw_only=True):
    """A planned page: what is fixed is set, ``drawing`` is free for the picture; ``discs`` joins notes by numbers."""

    frame: Frame
    look: Look
    drawing: Box
    column: Box
    placed: tuple[tuple[Note, Box], ...]
    fixed: Marks
    discs: bool

    def marks(self, anchors: Mapping[str, Point], *, in_order: bool = False) -> Marks:
        """Everything but the drawing; ``anchors`` says for each note's name where on the drawing it belongs.

        ``in_order`` keeps the notes as they were given, for a drawing whose leaders do not cross then.
        """
        joined = self._with_badges(anchors) if self.discs else self._with_leaders(anchors, in_order)
        return (*self.fixed, *joined)

    def _with_leaders(self, anchors: Mapping[str, Point], in_order: bool) -> Marks:
        """Notes that point at something exchange their places until no leader crosses another."""
        pointing = [note for note, _ in self.placed if note.name in anchors]
        gap = 1.5 * self.frame.grid
        slots = self.placed if in_order else self._stack(pointing, anchors)
        marks: list[Shape | Text | Image] = []
        for note, box in slots:
            marks += notes_.set_note(note, box, self.frame, self.look)
            if note.name in anchors:
                y = box.top + self.frame.cap_height("callout") * (1.2 if note.deciding else 0.9)
                start, bend = (box.left - gap, y), (box.left - 3 * gap, y)
                marks += notes_.leader(note, start, bend, anchors[note.name], self.frame, self.look)
        return tuple(marks)

    def _stack(self, pointing: Sequence[Note], anchors: Mapping[str, Point]) -> list[tuple[Note, Box]]:
        """The notes from top to bottom: those that point nowhere where they were, the others untangled."""
        boxes = [box for note, box in self.placed if note.name in anchors]
        starts = [(box.left, box.top) for box in boxes]
        order = untangle(starts, [anchors[note.name] for note in pointing])
        sequence = iter([pointing[index] for index in order])
        notes = [next(sequence) if note.name in anchors else note for note, _ in self.placed]
        return _pile(notes, self.column, self.frame)

    def _with_badges(self, anchors: Mapping[str, Point]) -> Marks:
        marks: list[Shape | Text | Image] = []
        number = 0
        radius = notes_.badge_radius(self.frame)
        for note, box in self.placed:
            if note.name not in anchors:
                marks += notes_.set_note(note, box, self.frame, self.look)
                continue
            number += 1
            indent = 2 * radius + self.frame.grid
            inner = Box(box.left + indent, box.top, box.width - indent, box.height)
            marks += notes_.set_note(note, inner, self.frame, self.look)
            at = (box.left + radius, box.top + notes_.first_middle(note, self.frame, inner.width))
            marks += notes_.badge(note, number, at, "key", self.frame, self.look)
            marks += notes_.badge(note, number, anchors[note.name], "badge", self.frame, self.look)
        return tuple(marks)


def plan(
    frame: Frame, look: Look, words: Words, notes: Sequence[Note], *, share: float = 0.62, discs: bool = False,
    beside: bool | None = None,
) -> Page:  # fmt: skip
    """Plan a page. ``share`` is the part of the width that goes to the drawing where the notes stand beside it.

    They do so in a wide frame, and in another one for a drawing that asks for it by ``beside``.
    ``discs`` joins notes by numbered discs in a wide frame too, for a drawing round which leaders would cross.
    """
    fixed, top, bottom = edges(frame, look, words)
    content, gap = frame.content, 2 * frame.grid
    body = Box(content.left, top + gap, content.width, bottom - gap - top - gap)
    beside = frame.shape == "wide" if beside is None else beside
    if beside:
        drawing, column, placed = _beside(frame, body, notes, share, discs)
    else:
        drawing, column, placed = _below(frame, body, notes)
    return Page(frame=frame, look=look, drawing=drawing, column=column, placed=tuple(placed),
                fixed=fixed, discs=discs or not beside)  # fmt: skip


def _beside(
    frame: Frame, body: Box, notes: Sequence[Note], share: float, discs: bool
) -> tuple[Box, Box, list[tuple[Note, Box]]]:
    """Wide: the drawing at the left, the notes in a column at the right."""
    if not notes:
        return body, body, []
    gap = 5 * frame.grid
    number = max((notes_.least_number_width(note, frame) for note in notes if note.deciding), default=0.0)
    number += badge_indent(frame) if discs else 0.0
    across = min(body.width * share, body.width - gap - number - 1)
    left = body.left + across + gap
    column = Box(left, body.top, body.right - left, body.height)
    kept = _fitting(notes, frame, _indented(frame, column.width) if discs else column.width, body.height)
    return Box(body.left, body.top, across, body.height), column, _pile(kept, column, frame, discs)


def _fitting(notes: Sequence[Note], frame: Frame, widest: float, room: float) -> list[Note]:
    """As many notes as fit into ``room`` px of height; those of the highest priority number go first."""
    gap = 1.5 * frame.grid

    def high(these: Sequence[Note]) -> float:
        return sum(notes_.height(note, frame, widest) for note in these) + gap * (len(these) - 1)

    kept = list(notes) if high(notes) <= room else [note.shortened() for note in notes]
    while kept and high(kept) > room:
        kept.remove(max(reversed(kept), key=lambda note: note.priority))
    return kept


def _pile(notes: Sequence[Note], column: Box, frame: Frame, discs: bool = False) -> list[tuple[Note, Box]]:
    """The notes one below the other from the column's top, as far apart as its height allows, within reason."""
    widest = _indented(frame, column.width) if discs else column.width
    heights = [notes_.height(note, frame, widest) for note in notes]
    spare = (column.height - sum(heights)) / max(1, len(notes) - 1)
    gap = min(4 * frame.grid, max(1.5 * frame.grid, spare))
    placed, y = [], column.top
    for note, high in zip(notes, heights, strict=True):
        placed.append((note, Box(column.left, y, column.width, high)))
        y += high + gap
    return placed


def _below(frame: Frame, body: Box, notes: Sequence[Note]) -> tuple[Box, Box, list[tuple[Note, Box]]]:
    """Tall and square: the drawing above, the notes in two columns below it."""
    gap = 2 * frame.grid
    wide = (body.width - gap) / 2
    most = body.height * (0.45 if frame.shape == "tall" else 0.42)
    kept = list(notes) if _stacked(notes, frame, wide)[1] <= most else [note.shortened() for note in notes]
    while _stacked(kept, frame, wide)[1] > most and (spare := [note for note in kept if not note.deciding]):
        kept.remove(max(reversed(spare), key=lambda note: note.priority))
    used = _stacked(kept, frame, wide)[1]
    drawing = Box(body.left, body.top, body.width, body.height - (used + gap if kept else 0))
    column = Box(body.left, drawing.bottom + gap, wide, used)
    return drawing, column, _two_columns(kept, column, gap, frame)


def _indented(frame: Frame, wide: float) -> float:
    return wide - badge_indent(frame)


def badge_indent(frame: Frame) -> float:
    """How far a numbered disc moves a note to the right, in px."""
    return 2 * notes_.badge_radius(frame) + frame.grid


def _stacked(notes: Sequence[Note], frame: Frame, wide: float) -> tuple[list[tuple[int, float]], float]:
    """Column and top of each note in two columns, and how high both are together.

    Row by row; where that leaves a hole beside a high note the next one stands in the column that ends first.
    """
    highs = [notes_.height(note, frame, _indented(frame, wide)) for note in notes]
    rows, filled = _row_by_row(highs, 1.2 * frame.grid), _filled(highs, 1.2 * frame.grid)
    return filled if filled[1] < rows[1] - 3 * frame.grid else rows


def _row_by_row(highs: Sequence[float], gap: float) -> tuple[list[tuple[int, float]], float]:
    places: list[tuple[int, float]] = []
    y = 0.0
    for start in range(0, len(highs), 2):
        pair = highs[start : start + 2]
        places += [(column, y) for column in range(len(pair))]
        y += max(pair) + gap
    return places, max(0.0, y - gap)


def _filled(highs: Sequence[float], gap: float) -> tuple[list[tuple[int, float]], float]:
    ends, places = [0.0, 0.0], list[tuple[int, float]]()
    for high in highs:
        column = 0 if ends[0] <= ends[1] + 0.5 else 1
        places.append((column, ends[column]))
        ends[column] += high + gap
    return places, max(0.0, max(ends) - gap)


def _two_columns(notes: Sequence[Note], first: Box, gap: float, frame: Frame) -> list[tuple[Note, Box]]:
    across = first.width + gap
    highs = [notes_.height(note, frame, _indented(frame, first.width)) for note in notes]
    return [
        (note, Box(first.left + column * across, first.top + y, first.width, high))
        for note, high, (column, y) in zip(notes, highs, _stacked(notes, frame, first.width)[0], strict=True)
    ]
