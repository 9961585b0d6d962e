"""The line to find a text with: Enter goes to the next place that holds it, Esc back to where one was."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from studio.window.labels import field_label, plain_label, push_button
from studio.window.undo_keys import LineEdit


class FindBar(QWidget):
    """Asks for a text; ``wanted`` gives it, ``left`` says that the user is done."""

    wanted = Signal(str)
    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.field = LineEdit()
        self.field.setMaxLength(200)
        self.field.returnPressed.connect(self._ask)
        self.result = plain_label("", "quiet")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(16, 4, 16, 4)
        layout.setSpacing(8)
        layout.addWidget(field_label("&Find in this episode", self.field))
        layout.addWidget(self.field, 1)
        layout.addWidget(push_button("Find &next", self._ask))
        layout.addWidget(push_button("&Done", self.leave))
        layout.addWidget(self.result)
        self.setVisible(False)

    def begin(self) -> None:
        """Show the line and be ready to type."""
        self.setVisible(True)
        self.field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.field.selectAll()

    def say(self, result: str) -> None:
        """Say what was found."""
        self.result.setText(result)

    def leave(self) -> None:
        """Hide the line."""
        self.setVisible(False)
        self.result.setText("")
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc leaves."""
        if event.key() == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)

    def _ask(self) -> None:
        if self.field.text().strip():
            self.wanted.emit(self.field.text())
