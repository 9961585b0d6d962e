"""The page of a picture: sentence on top, drawing, notes, small print at the foot, composed for the frame's shape.

Wide: the drawing beside a column of notes joined to it by leaders. Tall and square: the drawing above, notes below in
two columns, joined by numbered discs. What does not fit is left out by priority, never squeezed.
"""

from collections.abc import Mapping, Sequence

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import LINE_STEP, Note
from studio.graphics.layout.text import balanced, font_size, wrap, wrap_whole
from studio.graphics.layout.untangle import untangle
from studio.graphics.look import Look
from studio.graphics.parts.signs import sign
from studio.graphics.scene import Point, Shape, Text
from studio.model.finding import Verdict

_Marks = tuple[Shape | Text, ...]


class Words(msgspec.Struct, frozen=True, kw_only=True):
    """The words of a page: the sentence on top with its verdict, caution and sources for the foot."""

    sentence: str
    verdict: Verdict | None = None
    caution: str = ""
    sources: str = ""


class Page(msgspec.Struct, frozen=True, kw_only=True):
    """A planned page: what is fixed is set, ``drawing`` is free for the picture; ``discs`` joins notes by numbers."""

    frame: Frame
    look: Look
    drawing: Box
    column: Box
    placed: tuple[tuple[Note, Box], ...]
    fixed: _Marks
    discs: bool

    def marks(self, anchors: Mapping[str, Point], *, in_order: bool = False) -> _Marks:
        """Everything but the drawing; ``anchors`` says for each note's name where on the drawing it belongs.

        ``in_order`` keeps the notes as they were given, for a drawing whose leaders do not cross then.
        """
        joined = self._with_badges(anchors) if self.discs else self._with_leaders(anchors, in_order)
        return (*self.fixed, *joined)

    def _with_leaders(self, anchors: Mapping[str, Point], in_order: bool) -> _Marks:
        """Notes that point at something exchange their places until no leader crosses another."""
        pointing = [note for note, _ in self.placed if note.name in anchors]
        gap = 1.5 * self.frame.grid
        slots = self.placed if in_order else self._stack(pointing, anchors)
        marks: list[Shape | Text] = []
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

    def _with_badges(self, anchors: Mapping[str, Point]) -> _Marks:
        marks: list[Shape | Text] = []
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
    heading, top = _heading(frame, look, words)
    foot, bottom = _foot(frame, look, words)
    content, gap = frame.content, 2 * frame.grid
    body = Box(content.left, top + gap, content.width, bottom - gap - top - gap)
    beside = frame.shape == "wide" if beside is None else beside
    if beside:
        drawing, column, placed = _beside(frame, body, notes, share, discs)
    else:
        drawing, column, placed = _below(frame, body, notes)
    return Page(frame=frame, look=look, drawing=drawing, column=column, placed=tuple(placed), fixed=(*heading, *foot),
                discs=discs or not beside)  # fmt: skip


def _heading(frame: Frame, look: Look, words: Words) -> tuple[_Marks, float]:
    content, cap = frame.content, frame.cap_height("heading")
    step = LINE_STEP * font_size(cap)
    has_sign = words.verdict is not None
    side = cap * 2.2 if has_sign else 0.0
    left = content.left + (side + 2 * frame.grid if has_sign else 0.0)
    widest = content.right - left
    lines = wrap_whole(words.sentence, cap, "bold", widest, 2 if frame.shape == "wide" else 3)
    lines = balanced(lines, cap, "bold", widest)
    marks: list[Shape | Text] = []
    if words.verdict is not None:
        box = Box(content.left, content.top, side, side)
        marks += sign(words.verdict, box, look, "verdict")
    for order, line in enumerate(lines):
        offset = (side - cap) / 2 if has_sign and len(lines) == 1 else 0.0
        at = (left, content.top + cap * 1.05 + order * step + offset)
        marks.append(Text(name=f"sentence/line{order}", text=line, at=at, cap_height=cap, weight="bold", fill=look.ink,
                          ground=look.ground, role="heading"))  # fmt: skip
    return tuple(marks), content.top + max(side, cap * 1.05 + (len(lines) - 1) * step + cap * 0.3)


def _foot(frame: Frame, look: Look, words: Words) -> tuple[_Marks, float]:
    content, cap = frame.content, frame.cap_height("small")
    step = LINE_STEP * font_size(cap)
    tall = frame.shape == "tall"
    caution = wrap(words.caution, cap, "semibold", content.width, 4 if tall else 3)
    sources = wrap(words.sources, cap, "regular", content.width, 2 if tall else 1)
    lines = [(line, "caution", "semibold", look.ink) for line in caution]
    lines += [(line, "sources", "regular", look.quiet) for line in sources]
    lowest = content.bottom - 0.3 * cap
    marks = []
    for order, (line, name, weight, fill) in enumerate(lines):
        at = (content.left, lowest - (len(lines) - 1 - order) * step)
        marks.append(Text(name=f"{name}/line{order}", text=line, at=at, cap_height=cap, fill=fill, role="small",
                          ground=look.ground, weight=weight))  # type: ignore[arg-type]  # fmt: skip
    top = lowest - (len(lines) - 1) * step - cap if lines else content.bottom
    return tuple(marks), top


def _beside(
    frame: Frame, body: Box, notes: Sequence[Note], share: float, discs: bool
) -> tuple[Box, Box, list[tuple[Note, Box]]]:
    """Wide: the drawing at the left, the notes in a column at the right."""
    if not notes:
        return body, body, []
    across = body.width * share
    left = body.left + across + 5 * frame.grid
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
    kept = list(notes) if _rows_height(notes, frame, wide) <= most else [note.shortened() for note in notes]
    while _rows_height(kept, frame, wide) > most and (spare := [note for note in kept if not note.deciding]):
        kept.remove(max(reversed(spare), key=lambda note: note.priority))
    used = _rows_height(kept, frame, wide)
    drawing = Box(body.left, body.top, body.width, body.height - (used + gap if kept else 0))
    column = Box(body.left, drawing.bottom + gap, wide, used)
    return drawing, column, _two_columns(kept, column, gap, frame)


def _indented(frame: Frame, wide: float) -> float:
    return wide - 2 * notes_.badge_radius(frame) - frame.grid


def _rows_height(notes: Sequence[Note], frame: Frame, wide: float) -> float:
    pairs = [notes[start : start + 2] for start in range(0, len(notes), 2)]
    heights = [max(notes_.height(note, frame, _indented(frame, wide)) for note in pair) for pair in pairs]
    return sum(heights) + 1.2 * frame.grid * max(0, len(heights) - 1)


def _two_columns(notes: Sequence[Note], first: Box, gap: float, frame: Frame) -> list[tuple[Note, Box]]:
    placed: list[tuple[Note, Box]] = []
    y = first.top
    for start in range(0, len(notes), 2):
        pair = notes[start : start + 2]
        high = max(notes_.height(note, frame, _indented(frame, first.width)) for note in pair)
        for column, note in enumerate(pair):
            placed.append((note, Box(first.left + column * (first.width + gap), y, first.width, high)))
        y += high + 1.2 * frame.grid
    return placed
