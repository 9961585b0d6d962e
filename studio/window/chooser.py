"""A list to choose from, drawn as the fields are: a plate, a fine edge, a small arrow."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen, QPolygonF, QWheelEvent
from PySide6.QtWidgets import QComboBox

_INSET, _ARROW = 8.0, 4.0


class Chooser(QComboBox):
    """It turns by key and click, and never by a wheel that was meant for the page."""

    def __init__(self, chars: int = 12) -> None:
        super().__init__()
        self._chars = chars
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)

    def sizeHint(self) -> QSize:
        """Wide enough for the characters it was made for, as high as a field."""
        metrics = self.fontMetrics()
        return QSize(metrics.horizontalAdvance("0") * self._chars + 32, metrics.height() + 10)

    def minimumSizeHint(self) -> QSize:
        """No narrower than the characters it was made for."""
        return self.sizeHint()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page."""
        event.ignore()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The plate, what is chosen, the arrow; a thick edge where the focus is."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette = self.palette()
        width = 2.0 if self.hasFocus() else 1.0
        edge = QPalette.ColorRole.Highlight if self.hasFocus() else QPalette.ColorRole.Mid
        painter.setPen(QPen(palette.color(edge), width))
        painter.setBrush(palette.color(QPalette.ColorRole.Base))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(width / 2, width / 2, -width / 2, -width / 2), 3, 3)
        painter.setPen(palette.color(QPalette.ColorRole.Text))
        inside = QRectF(self.rect()).adjusted(_INSET, 0, -3 * _INSET, 0)
        words = self.currentText() or self.placeholderText()
        text = self.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(inside.width()))
        painter.drawText(inside, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, text)
        self._paint_arrow(painter)
        painter.end()

    def _paint_arrow(self, painter: QPainter) -> None:
        middle = QPointF(self.width() - 1.75 * _INSET, self.height() / 2)
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Text), 1.5))
        painter.drawPolyline(
            QPolygonF([middle + QPointF(-_ARROW, -_ARROW / 2), middle + QPointF(0, _ARROW / 2),
                       middle + QPointF(_ARROW, -_ARROW / 2)])
        )  # fmt: skip
