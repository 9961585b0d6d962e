"""Fields bound to a part of the episode. They keep no copy: they show the document, and edit on what the user types.

Texts are taken in as they are typed, one visit to the field being one step of undo. Values are taken in by Enter,
Tab or leaving the field; what cannot be read or cannot be is refused with the reason, and the typed text stays.
"""

import itertools
from typing import Any

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QLineEdit, QStyle, QStyleOptionFrame

from studio.window.subject import Get, Set, Subject, attribute
from studio.window.undo_keys import UndoKeys

_VISITS = itertools.count(1)


class Field(UndoKeys, QLineEdit):
    """A line of text about ``part`` of a subject. ``aside`` is shown lightly at its right end, if there is room."""

    problem_changed = Signal(str)
    """What speaks against the typed text; empty where nothing does."""

    def __init__(self, subject: Subject, part: str, what: str, *, chars: int = 12, most: int = 100) -> None:
        super().__init__()
        self.subject, self.part, self.what = subject, part, what
        self._get, self._set = attribute(part)
        self._chars, self._visit = chars, 0
        self._shown, self._aside, self.problem = "", "", ""
        self._taken_back, self._clicked_in = "", False
        self.setMaxLength(most)
        self.textEdited.connect(self._forget_taken_back)
        self.textEdited.connect(self._typed)
        self.editingFinished.connect(self.commit)
        subject.document.changed.connect(self.refresh)
        self.refresh()

    def through(self, get: Get, set_: Set) -> "Field":
        """Read and write by these in place of the attribute ``part``."""
        self._get, self._set = get, set_
        self.refresh()
        return self

    @property
    def path(self) -> str:
        """The path into the episode of what is shown here."""
        return f"{self.subject.path}.{self.part}".removeprefix(".")

    @property
    def is_pending(self) -> bool:
        """Whether there is typed text that has not been taken in."""
        return self.text() != self._shown

    def model_value(self) -> Any:
        """What the episode holds; None where there is nothing, or no longer anything."""
        value = self.subject.value()
        return None if value is None else self._get(value)

    def refresh(self) -> None:
        """Show what the episode holds, unless there is typed text and the episode holds the same as before."""
        self._taken_back = ""
        shown = self.words_of(self.model_value())
        if (self.problem or self.is_pending) and shown == self._shown:
            return
        self._show_model(shown)

    def reset(self) -> None:
        """Give up the typed text."""
        self._show_model(self.words_of(self.model_value()))

    def _show_model(self, shown: str) -> None:
        self._shown = shown
        if self.text() != shown:
            self.setText(shown)
            self.setCursorPosition(0)
        self.set_problem("")
        self.set_aside(self.aside_of(self.model_value()))

    def commit(self) -> bool:
        """Take in the typed text; whether nothing speaks against it."""
        return not self.problem

    def words_of(self, value: Any) -> str:
        """A value as it stands in the field."""
        return "" if value is None else str(value)

    def aside_of(self, _value: Any) -> str:
        """What is shown lightly beside a value."""
        return ""

    def set_problem(self, problem: str) -> None:
        """Say what speaks against the typed text."""
        if problem != self.problem:
            self.problem = problem
            self.setProperty("problem", bool(problem))
            self.style().unpolish(self)
            self.style().polish(self)
            self.setAccessibleDescription(problem)
            self.problem_changed.emit(problem)

    def set_aside(self, aside: str) -> None:
        """Show ``aside`` lightly at the right end."""
        self._aside = aside
        if not self.problem:
            self.setAccessibleDescription(aside)
        self.update()

    def write(self, value: Any, merge: str = "") -> None:
        """Write ``value`` into the episode; what speaks against it becomes the field's problem."""
        part = self.subject.value()
        if part is None:
            return
        try:
            problem = self.subject.write(self.what, self._set(part, value), merge)
        except ValueError as error:  # the part can take no such value as it stands
            problem = str(error)
        if problem:
            self.set_problem(problem)
        else:
            self.reset()

    def _typed(self, text: str) -> None:
        raise NotImplementedError

    # the undo keys

    def can_take_back(self) -> bool:
        """Whether there is typing that has not been taken in, or was refused."""
        return self.is_pending or bool(self.problem)

    def take_back(self) -> None:
        """Take the typing back as a whole, as Esc does; redo types it again."""
        typed = self.text()
        self.reset()
        self.selectAll()
        self._taken_back = typed if typed != self.text() else ""

    def can_put_back(self) -> bool:
        """Whether typing was taken back and nothing has happened since."""
        return bool(self._taken_back)

    def put_back(self) -> None:
        """Type again what was taken back."""
        self.setText(self._taken_back)
        self._taken_back = ""

    def _forget_taken_back(self) -> None:
        self._taken_back = ""

    # Qt's own

    def sizeHint(self) -> QSize:
        """Wide enough for the characters it was made for, in any text size."""
        hint = super().sizeHint()
        return QSize(self.fontMetrics().horizontalAdvance("0") * self._chars + hint.height(), hint.height())

    def minimumSizeHint(self) -> QSize:
        """No narrower than the characters it was made for."""
        return self.sizeHint()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A new visit: what is typed now is a step of undo of its own."""
        self._visit = next(_VISITS)
        super().focusInEvent(event)
        self._clicked_in = event.reason() == Qt.FocusReason.MouseFocusReason
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.selectAll()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """What stands here is replaced by what is typed after the click that came here; the next click sets the
        cursor. A stretch that was dragged over stays chosen."""
        super().mouseReleaseEvent(event)
        if self._clicked_in and not self.hasSelectedText():
            self.selectAll()
        self._clicked_in = False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc gives up what is typed."""
        if event.key() == Qt.Key.Key_Escape and (self.is_pending or self.problem):
            self.reset()
            self.selectAll()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The field, and what stands lightly beside its text."""
        super().paintEvent(event)
        if not self._aside or self.is_pending:
            return
        option = QStyleOptionFrame()
        self.initStyleOption(option)
        inside = self.style().subElementRect(QStyle.SubElement.SE_LineEditContents, option, self).adjusted(2, 0, -2, 0)
        if self.fontMetrics().horizontalAdvance(self.text() + "  " + self._aside) <= inside.width():
            painter = QPainter(self)
            painter.setPen(QColor(self.palette().color(QPalette.ColorRole.PlaceholderText)))
            painter.drawText(inside, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._aside)


class TextField(Field):
    """Text as it is written on a sidewall or in a manual: taken in while it is typed. It is never refused."""

    def _typed(self, text: str) -> None:
        self.write(text, merge=f"{self.path} {self._visit}")

    def _show_model(self, shown: str) -> None:
        self._shown = shown
        if self.text() != shown:
            self.setText(shown)
        self.set_aside(self.aside_of(shown))


class ValueField(Field):
    """A value read from text: taken in when the field is left, or refused with the reason."""

    optional = True

    def read(self, text: str) -> Any:
        """The value that ``text`` states; raises ValueError with the reason."""
        raise NotImplementedError

    def commit(self) -> bool:
        """Take in the typed text; whether nothing speaks against it."""
        if not self.is_pending:
            return not self.problem
        text = self.text().strip()
        if not text and self.optional:
            self.write(None)
            return not self.problem
        try:
            value = self.read(text)
        except ValueError as error:
            self.set_problem(str(error))
            return False
        self.write(value)
        return not self.problem

    def _typed(self, _text: str) -> None:
        self.set_problem("")
        if not self.is_pending:
            self.set_aside(self.aside_of(self.model_value()))

