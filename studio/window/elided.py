"""One quiet line that ends in an ellipsis where there is no room for all of it."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel


class ElidedLine(QLabel):
    """It asks for no width, so that no text from outside can push the window apart; the whole text is its name."""

    def __init__(self, role: str = "quiet") -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("role", role)
        self._whole = ""

    @property
    def whole(self) -> str:
        """The text, all of it."""
        return self._whole

    def show_text(self, text: str) -> None:
        """Show this; nothing at all where it is empty."""
        self._whole = text
        self.setAccessibleName(text)
        self.setVisible(bool(text))
        self._fit()

    def sizeHint(self) -> QSize:
        """As high as a line, and no wider than it is made."""
        return QSize(0, self.fontMetrics().height())

    def minimumSizeHint(self) -> QSize:
        """As the hint."""
        return self.sizeHint()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the text to the new width."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        self.setText(self.fontMetrics().elidedText(self._whole, Qt.TextElideMode.ElideRight, self.width()))
