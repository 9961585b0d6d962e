"""The field in which a reply is worded: plain text, its steps of undo the document's, marked numbers underlined."""

import itertools
from collections.abc import Sequence

from PySide6.QtCore import QMimeData, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import QTextEdit

from studio.script.check_text import Mark
from studio.window.palette import Appearance
from studio.window.questions_comment import offsets
from studio.window.rundown_edit import clean_text
from studio.window.undo_keys import PlainText

LONGEST = 10_000
_THOUGHT_MS = 1500
_VISITS = itertools.count(1)


class ReplyEdit(PlainText):
    """``reworded`` gives the text and the thought it belongs to: a pause, a new line or a new visit begins another."""

    reworded = Signal(str, int)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._marks: tuple[Mark, ...] = ()
        self._showing = False
        self._thought = next(_VISITS)
        self.setTabChangesFocus(True)
        self.setAccessibleName("Reply")
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_THOUGHT_MS)
        self._pause.timeout.connect(self._next_thought)
        self.textChanged.connect(self._changed)
        appearance.changed.connect(self._show_marks)

    def show_text(self, text: str) -> None:
        """Show this text; the cursor stays where it is as far as that goes."""
        if text == self.toPlainText():
            return
        place = self.textCursor().position()
        self._showing = True
        self.setPlainText(text)
        self._showing = False
        cursor = self.textCursor()
        cursor.setPosition(min(place, len(self.toPlainText())) if self.hasFocus() else 0)
        self.setTextCursor(cursor)

    def show_marks(self, marks: Sequence[Mark]) -> None:
        """Underline these numbers."""
        self._marks = tuple(marks)
        self._show_marks()

    def go_to(self, mark: Mark) -> None:
        """Select a marked number."""
        self.setTextCursor(self._cursor(mark))
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def insertFromMimeData(self, source: QMimeData) -> None:
        """What is pasted is text and no more."""
        self.insertPlainText(clean_text(source.text()[:LONGEST]))

    def focusInEvent(self, event: QFocusEvent) -> None:
        self._next_thought()
        super().focusInEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter ends a thought; Esc is the place's."""
        if event.key() == Qt.Key.Key_Escape:
            event.ignore()
            return
        super().keyPressEvent(event)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._next_thought()

    def _changed(self) -> None:
        if self._showing:
            return
        text = self.toPlainText()
        if len(text) > LONGEST:
            self.show_text(text[:LONGEST])
        self._pause.start()
        self.reworded.emit(text[:LONGEST], self._thought)

    def _next_thought(self) -> None:
        self._thought = next(_VISITS)

    def _cursor(self, mark: Mark) -> QTextCursor:
        start, end = offsets(self.toPlainText(), (mark.start, mark.end))
        most = max(0, self.document().characterCount() - 1)
        cursor = QTextCursor(self.document())
        cursor.setPosition(min(start, most))
        cursor.setPosition(min(end, most), QTextCursor.MoveMode.KeepAnchor)
        return cursor

    def _show_marks(self) -> None:
        selections = []
        for mark in self._marks:
            made = QTextCharFormat()
            made.setUnderlineStyle(QTextCharFormat.UnderlineStyle.WaveUnderline)
            made.setUnderlineColor(self._appearance.color("ink"))
            selection = QTextEdit.ExtraSelection()
            selection.cursor = self._cursor(mark)
            selection.format = made
            selections.append(selection)
        self.setExtraSelections(selections)
