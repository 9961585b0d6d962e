"""Above the list: a line to paste a comment into, the table's button, which questions are shown in which order."""

from PySide6.QtCore import QMimeData, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from studio.questions.kind_words import KINDS
from studio.window.chooser import Chooser
from studio.window.flow import flow
from studio.window.labels import name_field, push_button
from studio.window.palette import GRID
from studio.window.questions_rows import KIND_WORDS, ORDERS, SHOWS, Wish
from studio.window.undo_keys import PlainText

MOST_TYPED = 1_000_000
"""Characters: more than that is not even looked at, and said."""


class CommentEntry(PlainText):
    """A comment is typed or pasted here; Enter takes it in, Shift with Enter begins a line. ``entered`` gives it."""

    entered = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setUndoRedoEnabled(True)
        self.setPlaceholderText("Paste a comment here, Enter takes it in")
        self.setTabChangesFocus(True)
        self.setAccessibleName("A viewer's comment")
        self._high()

    def can_take_back(self) -> bool:
        """Whether anything was typed that is not taken in."""
        return self.document().isUndoAvailable()

    def can_put_back(self) -> bool:
        """Whether any of it was taken back."""
        return self.document().isRedoAvailable()

    def take_back(self) -> None:
        """One step back."""
        self.undo()

    def put_back(self) -> None:
        """One step on."""
        self.redo()

    def insertFromMimeData(self, source: QMimeData) -> None:
        """What is pasted is text and no more; a whole comment pasted into the empty field is taken in at once."""
        text = source.text()[:MOST_TYPED]
        if self.toPlainText().strip():
            self.insertPlainText(text[:10_000])
        else:
            self._enter(text)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes in, Esc empties, which can be taken back."""
        plain = not event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and plain:
            self._enter(self.toPlainText())
        elif event.key() == Qt.Key.Key_Escape and self.toPlainText():
            self.selectAll()
            self.textCursor().removeSelectedText()
        else:
            super().keyPressEvent(event)

    def changeEvent(self, event: object) -> None:
        super().changeEvent(event)  # type: ignore[arg-type]
        self._high()

    def _enter(self, text: str) -> None:
        if text.strip():
            self.clear()
            self.entered.emit(text)

    def _high(self) -> None:
        self.setFixedHeight(2 * self.fontMetrics().lineSpacing() + 16)


class QuestionsBar(QWidget):
    """``wished`` says that other questions or another order are wanted; ``import_wanted`` asks for a table."""

    wished = Signal()
    import_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.entry = CommentEntry()
        self.bring = push_button("&Import a table…", self._ask)
        self.order, self.which, self.kind = Chooser(9), Chooser(11), Chooser(11)
        kinds = [("", "all kinds"), *((kind, KIND_WORDS[kind]) for kind in KINDS)]
        rows = ((self.which, "Which", SHOWS), (self.kind, "Kind", kinds), (self.order, "Order", ORDERS))
        for chooser, name, entries in rows:
            name_field(chooser, name)
            for key, words in entries:
                chooser.addItem(words, key)
            chooser.currentIndexChanged.connect(self._another)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID // 2)
        across = QHBoxLayout()
        column.addLayout(across)
        across.setSpacing(GRID)
        across.addWidget(self.entry, 1)
        across.addWidget(self.bring, 0, Qt.AlignmentFlag.AlignTop)
        column.addWidget(flow(self.which, self.kind, self.order, across=GRID // 2, down=GRID // 2))

    def wish(self) -> Wish:
        """What is wanted now."""
        return Wish(self.order.currentData(), self.which.currentData(), self.kind.currentData())

    def show_all(self) -> None:
        """Let nothing be hidden, so that any question can be shown."""
        self.which.setCurrentIndex(self.which.findData("all"))
        self.kind.setCurrentIndex(0)

    def _another(self, _row: int) -> None:
        self.wished.emit()

    def _ask(self) -> None:
        self.import_wanted.emit()
