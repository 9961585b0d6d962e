"""The undo keys in an editor: typing that is not taken in yet is taken back first, then they are the document's.

Every editor of the window is made of one of these classes, so that the way back by keys never ends in a field.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QEvent
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QTextEdit, QWidget

if TYPE_CHECKING:
    _Base = QWidget
else:
    _Base = object

_UNDO, _REDO = QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo
_KEYS = (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress)


class UndoKeys(_Base):
    """An editor whose every change is the document's at once: it keeps no steps of its own."""

    def can_take_back(self) -> bool:
        """Whether there is typing here that the document does not know of."""
        return False

    def can_put_back(self) -> bool:
        """Whether such typing has just been taken back."""
        return False

    def take_back(self) -> None:
        """Take that typing back."""

    def put_back(self) -> None:
        """Type it again."""

    def event(self, event: QEvent) -> bool:
        """Take the undo keys only for what was typed here and is not taken in; else let the window have them."""
        if event.type() in _KEYS:
            key = cast(QKeyEvent, event)
            for wanted, can, do in (
                (_UNDO, self.can_take_back, self.take_back), (_REDO, self.can_put_back, self.put_back),
            ):  # fmt: skip
                if key.matches(wanted):
                    return self._key(key, can(), do)
        return super().event(event)

    def _key(self, key: QKeyEvent, mine: bool, do: Callable[[], None]) -> bool:
        key.setAccepted(mine)
        if mine and key.type() == QEvent.Type.KeyPress:
            do()
        return mine


class LineEdit(UndoKeys, QLineEdit):
    """A line whose text is no part of the episode: what was typed in it goes back step by step."""

    def can_take_back(self) -> bool:
        """Whether anything was typed."""
        return self.isUndoAvailable()

    def can_put_back(self) -> bool:
        """Whether anything was taken back."""
        return self.isRedoAvailable()

    def take_back(self) -> None:
        """One step back."""
        self.undo()

    def put_back(self) -> None:
        """One step on."""
        self.redo()


class PlainText(UndoKeys, QPlainTextEdit):
    """Lines of plain text that the document follows while they are typed."""

    def __init__(self) -> None:
        super().__init__()
        self.setUndoRedoEnabled(False)


class RichText(UndoKeys, QTextEdit):
    """Text with objects or marks in it that the document follows while it is typed."""

    def __init__(self) -> None:
        super().__init__()
        self.setUndoRedoEnabled(False)
