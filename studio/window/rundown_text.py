"""The text of a segment: one paragraph a talking point, live numbers as chips in it. It keeps to the episode."""

import itertools
from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPoint, QPointF, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent, QTextCursor
from PySide6.QtWidgets import QFrame

from studio.model.finding import Finding
from studio.model.quantity import System
from studio.model.rundown import Point
from studio.script.live import Piece, filled
from studio.window.palette import Appearance
from studio.window.rundown_blocks import (
    CHIP,
    OBJECT,
    SHOWN,
    Chip,
    chip_format,
    chip_of,
    chips_in,
    point_of,
    same_about,
    shown_text,
    source_of,
    span_in_block,
)
from studio.window.rundown_chip import ChipPainter, base_format
from studio.window.rundown_fill import replace_blocks
from studio.window.undo_keys import RichText

VISITS = itertools.count(1)
KEEP = QTextCursor.MoveMode.KeepAnchor
_LINES = 6


class PointsText(RichText):
    """``edited`` gives the points, and what an edit that follows may be merged with."""

    edited = Signal(object, str)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.appearance = appearance
        self.points: tuple[Point, ...] = ()
        self._known: Mapping[str, Finding] = {}
        self._units: System = "us"
        self._loading, self._visit = False, 0
        self.setAcceptRichText(False)
        self.setTabChangesFocus(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.document().setDocumentMargin(4)
        self.chip_painter = ChipPainter(appearance, self.document())
        self.document().documentLayout().registerHandler(CHIP, self.chip_painter)
        self.document().contentsChange.connect(self._contents_changed)
        self.cursorPositionChanged.connect(self._cursor_moved)
        appearance.changed.connect(self._restyle)
        self.load(())

    # showing the model

    def know(self, known: Mapping[str, Finding], units: System) -> None:
        """Fill live numbers from these findings from now on."""
        if units != self._units or known != self._known:
            self._known, self._units = known, units
            self._refill()

    def load(self, points: Sequence[Point]) -> None:
        """Show another segment's points."""
        self.points = tuple(points)
        self._put(0, self.document().blockCount(), self.points or (Point(text=""),))
        self.moveCursor(QTextCursor.MoveOperation.Start)

    def show_points(self, points: Sequence[Point]) -> None:
        """Show the same segment's points as they are now, changing only what differs."""
        new, old = tuple(points), self.points
        if new == old:
            return
        if not new or not old:
            self.load(new)
            return
        shared = min(len(old), len(new))
        first = next((n for n in range(shared) if old[n] != new[n]), shared)
        last = next((n for n in range(shared - first) if old[-1 - n] != new[-1 - n]), shared - first)
        at, offset = self.current_point(), self.textCursor().positionInBlock()
        self.points = new
        self._put(first, len(old) - last, new[first : len(new) - last])
        self._stand_at(min(at, len(new) - 1), offset)

    def fill(self, source: str) -> tuple[Piece, ...]:
        """A point's text with its numbers as they are now."""
        return filled(source, self._known, self._units)

    # where the cursor is

    def current_point(self) -> int:
        """The number of the point with the cursor in it, from 0."""
        return self.textCursor().blockNumber()

    def go_to(self, point: int, start: int = 0, end: int = 0) -> None:
        """Select a stretch of the filled text of a point; put the cursor there where it is empty."""
        block = self.document().findBlockByNumber(min(point, self.document().blockCount() - 1))
        places = span_in_block(self.fill(source_of(block)), start, end)
        cursor, most = self.textCursor(), block.length() - 1
        cursor.setPosition(block.position() + min(places[0], most))
        cursor.setPosition(block.position() + min(places[1], most), KEEP)
        self.setTextCursor(cursor)
        self.ensureCursorVisible()

    def chip_at_cursor(self) -> Chip | None:
        """The chip that is selected, or beside the cursor: the one before it first."""
        cursor = self.textCursor()
        place = cursor.selectionStart()
        if cursor.hasSelection():
            return self._chip_at(place) if cursor.selectionEnd() - place == 1 else None
        return self._chip_at(place - 1) or self._chip_at(place)

    def _chip_at(self, position: int) -> Chip | None:
        if position < 0 or self.document().characterAt(position) != OBJECT:
            return None
        probe = QTextCursor(self.document())
        probe.setPosition(position + 1)
        return chip_of(probe.charFormat(), position)

    def chip_under(self, place: QPoint) -> Chip | None:
        """The chip at a place of the viewport."""
        position = self.document().documentLayout().hitTest(
            QPointF(place) + QPointF(0, self.verticalScrollBar().value()), Qt.HitTestAccuracy.ExactHit
        )
        for candidate in (position, position - 1):
            chip = self._chip_at(candidate)
            if chip is not None and self._left_of(candidate) <= place.x() <= self._left_of(candidate + 1):
                return chip
        return None

    def _left_of(self, position: int) -> int:
        cursor = QTextCursor(self.document())
        cursor.setPosition(position)
        return self.cursorRect(cursor).left()

    # keeping the points

    def _contents_changed(self, position: int, _removed: int, added: int) -> None:
        if self._loading:
            return
        document = self.document()
        first = document.findBlock(position)
        last = document.findBlock(min(position + added, document.characterCount() - 1))
        grown = document.blockCount() - max(1, len(self.points))
        single = grown == 0 and first == last
        merge = f"{self._visit} {first.blockNumber()}" if single else ""
        self._take_in(first.blockNumber(), last.blockNumber(), grown, merge)

    def _take_in(self, first: int, last: int, grown: int, merge: str) -> None:
        """Read the paragraphs from ``first`` to ``last`` anew; there are ``grown`` more of them than points."""
        document, old = self.document(), self.points or (Point(text=""),)
        read = [point_of(document.findBlockByNumber(number)) for number in range(first, last + 1)]
        if grown == 0:
            read = [same_about(old[first + n], its) for n, its in enumerate(read)]
        points = (*old[:first], *read, *old[last + 1 - grown :])
        if points != self.points and not (not self.points and points == (Point(text=""),)):
            self.points = points
            self.edited.emit(points, merge)

    def _put(self, first: int, end: int, points: Sequence[Point]) -> None:
        self._loading = True
        replace_blocks(self.document(), first, end, points, self.fill, base_format(self.appearance))
        self._loading = False

    def _refill(self) -> None:
        """Show every number as it is now."""
        self._loading = True
        cursor = QTextCursor(self.document())
        cursor.beginEditBlock()
        block = self.document().firstBlock()
        while block.isValid():
            for chip in chips_in(block):
                self._refresh_chip(cursor, chip)
            block = block.next()
        cursor.endEditBlock()
        self._loading = False

    def _refresh_chip(self, cursor: QTextCursor, chip: Chip) -> None:
        cursor.setPosition(chip.position)
        cursor.setPosition(chip.position + 1, KEEP)
        piece = next(iter(self.fill(chip.source)))
        made = chip_format(piece, chip.source, base_format(self.appearance))
        if made.property(SHOWN) != chip.shown:
            cursor.setCharFormat(made)

    def _stand_at(self, point: int, offset: int) -> None:
        block = self.document().findBlockByNumber(max(0, point))
        cursor = self.textCursor()
        cursor.setPosition(block.position() + max(0, min(offset, block.length() - 1)))
        self.setTextCursor(cursor)

    def _cursor_moved(self) -> None:
        chip = self.chip_at_cursor()
        chosen = chip.position if chip is not None else -1
        if chosen != self.chip_painter.chosen:
            self.chip_painter.chosen = chosen
            self.viewport().update()

    def say_where(self) -> str:
        """The point with the cursor in it, in words, for assistive technology."""
        block = self.textCursor().block()
        return f"Point {block.blockNumber() + 1} of {self.document().blockCount()}: {shown_text(block)}"

    def _restyle(self) -> None:
        self.load(self.points)

    def sizeHint(self) -> QSize:
        return QSize(300, self.fontMetrics().lineSpacing() * _LINES + 24)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, self.fontMetrics().lineSpacing() * _LINES + 24)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.chip_painter.widest = max(80.0, self.viewport().width() - 20.0)
