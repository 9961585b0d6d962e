"""The caution of an opened finding: a quiet panel that cannot be closed."""

from PySide6.QtCore import QRect, QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio.window.labels import plain_label
from studio.window.palette import GRID, Appearance


class CautionPanel(QWidget):
    """The signal word, then what it warns of, on a plate with a bar at its side."""

    def __init__(self, signal: str, text: str, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self.setAccessibleName(f"{signal}: {text}")
        column = QVBoxLayout(self)
        column.setContentsMargins(2 * GRID + 4, GRID + 4, 2 * GRID, GRID + 4)
        column.setSpacing(4)
        column.addWidget(plain_label(signal, "strong"))
        column.addWidget(plain_label(text, wrap=True))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(QRectF(self.rect()), self._appearance.color("plate"))
        painter.fillRect(QRect(0, 0, 4, self.height()), self._appearance.color("ink"))
        painter.end()
