"""Writing in the text of a segment: keys, paste, mouse, the menu of a number."""

from collections.abc import Callable

from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QInputMethodEvent,
    QKeyEvent,
    QMouseEvent,
    QTextBlock,
    QTextCursor,
)

from studio.model.rundown import Point
from studio.window.palette import Appearance
from studio.window.rundown_blocks import LINE, Chip, block_format, chips_in, insert_source, point_of, source_of
from studio.window.rundown_chip import base_format
from studio.window.rundown_mime import read_mime, selection_mime
from studio.window.rundown_text import KEEP, VISITS, PointsText

_CLICK = 4
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class PointsEditor(PointsText):
    """``opened`` gives the id of a finding, ``brace_typed`` says that a number is asked for."""

    opened = Signal(str)
    brace_typed = Signal()
    menu_wanted = Signal(QPoint)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__(appearance)
        self.take_key: Callable[[QKeyEvent], bool] | None = None
        self._pressed = QPointF()
        self.viewport().setMouseTracking(True)

    # what the user does

    def put_in(self, source: str, *, since: int | None = None) -> None:
        """Put a live number at the cursor, in the place of what was typed ``since`` that position."""
        cursor = self.textCursor()
        if since is not None:
            cursor.setPosition(since, KEEP)
        cursor.beginEditBlock()
        cursor.removeSelectedText()
        insert_source(cursor, source, self.fill, base_format(self.appearance))
        cursor.endEditBlock()
        self.setTextCursor(cursor)

    def change_chip(self, chip: Chip, source: str) -> None:
        """Let another live number, or another form of it, stand in the place of a chip."""
        cursor = self.textCursor()
        cursor.setPosition(chip.position)
        cursor.setPosition(chip.position + 1, KEEP)
        self.setTextCursor(cursor)
        self.put_in(source)

    def replace_span(self, point: int, start: int, end: int, source: str) -> None:
        """Let a live number stand in the place of a stretch of the filled text of a point."""
        self.go_to(point, start, end)
        self.put_in(source)

    # Qt's own

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter begins the next point, Shift+Enter a line; Ctrl+Enter opens the finding of the number at the cursor."""
        if self.take_key is not None and self.take_key(event):
            return
        chip = self.chip_at_cursor()
        if event.key() in _ENTER and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            if chip is not None and chip.finding:
                self.opened.emit(chip.finding)
        elif event.key() in _ENTER and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.textCursor().insertText(LINE, base_format(self.appearance))
        elif event.key() in _ENTER:
            self._next_point()
        else:
            self.setCurrentCharFormat(base_format(self.appearance))  # text beside a chip is text
            super().keyPressEvent(event)
            self._after_typing(event.text())

    def _next_point(self) -> None:
        """Part the point at the cursor: its pause stays after the second part."""
        cursor = self.textCursor()
        cursor.beginEditBlock()
        cursor.removeSelectedText()
        kept, base = cursor.blockFormat(), base_format(self.appearance)
        cursor.insertBlock(kept, base)
        before = QTextCursor(cursor.block().previous())
        before.setBlockFormat(block_format(Point(text="")))
        cursor.endEditBlock()
        self.setTextCursor(cursor)
        self.ensureCursorVisible()

    def _after_typing(self, text: str) -> None:
        if text == "{":
            self.brace_typed.emit()
        elif text == "}":
            self._read_anew(self.textCursor().block())

    def _read_anew(self, block: QTextBlock) -> None:
        """What was typed within braces becomes a chip."""
        source = source_of(block)
        live = [piece for piece in self.fill(source) if piece.kind != "text"]
        if len(live) == len(chips_in(block)):
            return
        rest = block.length() - 1 - self.textCursor().positionInBlock()
        number = block.blockNumber()
        self._put(number, number + 1, [point_of(block)])
        block = self.document().findBlockByNumber(number)
        self._stand_at(number, block.length() - 1 - rest)
        self._take_in(number, number, 0, "")

    def inputMethodEvent(self, event: QInputMethodEvent) -> None:
        """Text that comes from an input method is text too."""
        super().inputMethodEvent(event)
        self._after_typing(event.commitString())

    def createMimeDataFromSelection(self) -> QMimeData:
        """Plain text, and beside it what keeps numbers live within the rundown."""
        return selection_mime(self.textCursor())

    def canInsertFromMimeData(self, source: QMimeData) -> bool:
        """Anything that is text."""
        return source.hasText() or source.hasHtml()

    def insertFromMimeData(self, source: QMimeData) -> None:
        """Paste plain text, each line a point."""
        lines, base = read_mime(source), base_format(self.appearance)
        cursor = self.textCursor()
        cursor.beginEditBlock()
        cursor.removeSelectedText()
        for number, line in enumerate(lines):
            if number:
                cursor.insertBlock(block_format(Point(text="")), base)
            insert_source(cursor, line, self.fill, base)
        cursor.endEditBlock()
        self.setTextCursor(cursor)
        self.ensureCursorVisible()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A new visit: what is typed now is a step of undo of its own."""
        self._visit = next(VISITS)
        super().focusInEvent(event)
        self.viewport().update()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """The menu of the number under the mouse, or at the cursor."""
        if event.reason() == QContextMenuEvent.Reason.Mouse:
            chip = self.chip_under(self.viewport().mapFromGlobal(event.globalPos()))
            cursor = self.cursorForPosition(self.viewport().mapFromGlobal(event.globalPos()))
            if chip is not None:
                cursor.setPosition(chip.position + 1)
            if chip is not None or not self.textCursor().hasSelection():
                self.setTextCursor(cursor)
        self.menu_wanted.emit(event.globalPos())

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        self._pressed = event.position()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click on a number opens its finding."""
        super().mouseReleaseEvent(event)
        still = (event.position() - self._pressed).manhattanLength() < _CLICK
        chip = self.chip_under(event.position().toPoint()) if still else None
        if chip is not None and chip.finding and event.button() == Qt.MouseButton.LeftButton:
            self.opened.emit(chip.finding)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        super().mouseMoveEvent(event)
        over = event.buttons() == Qt.MouseButton.NoButton and self.chip_under(event.position().toPoint()) is not None
        self.viewport().setCursor(Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.IBeamCursor)
