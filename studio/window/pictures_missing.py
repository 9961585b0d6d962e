"""In place of a picture that has nothing to show yet: what is missing, and the way there."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID


class MissingPage(QWidget):
    """``wanted`` says that the user wants to go where readings are entered."""

    wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._heading = plain_label("", "heading", wrap=True)
        self._reason = plain_label("", wrap=True)
        self.enter = push_button("&Go to Car and tires", self._clicked, primary=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(4 * GRID, 4 * GRID, 4 * GRID, 4 * GRID)
        column.setSpacing(2 * GRID)
        for widget in (self._heading, self._reason):
            column.addWidget(widget)
        column.addWidget(self.enter, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)

    @property
    def reason(self) -> str:
        """What is missing, as it is shown."""
        return self._reason.text()

    def show_reason(self, name: str, reason: str, failed: bool) -> None:
        """Say why the picture of this name cannot be shown."""
        self._heading.setText(f"{name} cannot be drawn" if failed else f"{name} has nothing to show yet")
        self._reason.setText(f"{reason[:1].upper()}{reason[1:]}{'' if reason.endswith('.') else '.'}")
        self.enter.setVisible(not failed)

    def _clicked(self) -> None:
        self.wanted.emit()
