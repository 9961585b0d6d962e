"""How a live number looks in the text: it stands on a dimension line; a hole is a dashed frame with its reason."""

from PySide6.QtCore import QPointF, QRect, QRectF, QSizeF, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QPainter,
    QPen,
    QPyTextObject,
    QTextCharFormat,
    QTextDocument,
    QTextFormat,
)

from studio.window.palette import Appearance
from studio.window.rundown_blocks import HOLE, SHOWN

_SIDE, _MARGIN, _MOST = 5.0, 1.0, 460.0


class ChipPainter(QPyTextObject):
    """Measures and paints the chips of a document. ``widest`` is the room that a line has."""

    def __init__(self, appearance: Appearance, parent: QTextDocument) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.widest = _MOST
        self.chosen = -1
        self._fonts()
        appearance.changed.connect(self._fonts)

    def intrinsicSize(self, _document: QTextDocument, _position: int, its: QTextFormat) -> QSizeF:
        """As wide as its text with a little air, as high as a line."""
        words = _words(its)
        if words not in self._wide:
            self._wide[words] = self._metrics.horizontalAdvance(words)
        wide = self._wide[words] + 2 * _SIDE + 2 * _MARGIN
        return QSizeF(min(wide, self.widest), self._metrics.height() + 3)

    def drawObject(
        self, painter: QPainter, rect: QRectF | QRect, _document: QTextDocument, position: int, its: QTextFormat
    ) -> None:
        """The plate or the dashed frame, and the text in it."""
        look, hole = self._appearance.look, bool(its.property(HOLE))
        field = QRectF(rect).adjusted(_MARGIN, 0.5, -_MARGIN, -0.5)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(QColor(look.ground))
        if hole:
            painter.setPen(_dashed(QColor(look.ink)))
            painter.drawRect(field)
        else:
            painter.fillRect(field, QColor(look.ground))
            _dimension_line(painter, field, QColor(look.measure))
        if position == self.chosen:
            painter.setPen(QPen(QColor(look.measure), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(field)
        self._write(painter, field, its)
        painter.restore()

    def _write(self, painter: QPainter, field: QRectF, its: QTextFormat) -> None:
        metrics, hole = self._metrics, bool(its.property(HOLE))
        font = self._appearance.font("text")
        font.setItalic(hole)
        painter.setFont(font)
        painter.setPen(self._appearance.color("ink" if hole else "measure"))
        inside = field.adjusted(_SIDE - 1, 0, -_SIDE + 1, 0)
        text = metrics.elidedText(_words(its), Qt.TextElideMode.ElideRight, inside.width() + 1)
        painter.drawText(QPointF(inside.left(), field.top() + 0.5 + metrics.ascent()), text)

    def _fonts(self) -> None:
        """Measure anew: the text has another size."""
        self._metrics = QFontMetricsF(self._appearance.font("text"))
        self._wide: dict[str, float] = {}


def _words(its: QTextFormat) -> str:
    shown = " ".join(str(its.property(SHOWN) or "").split())
    return f"no number: {shown}" if its.property(HOLE) else shown


def _dashed(color: QColor) -> QPen:
    pen = QPen(color, 1.2)
    pen.setDashPattern([3, 2])
    return pen


def _dimension_line(painter: QPainter, field: QRectF, color: QColor) -> None:
    """The line under a measured number, with a tick at each end."""
    painter.setPen(QPen(color, 1.2))
    low, left, right = field.bottom() - 1, field.left() + 1, field.right() - 1
    painter.drawLine(QPointF(left, low), QPointF(right, low))
    for x in (left, right):
        painter.drawLine(QPointF(x, low - 4), QPointF(x, low))


def base_format(appearance: Appearance) -> QTextCharFormat:
    """Plain text of a point."""
    made = QTextCharFormat()
    made.setForeground(appearance.color("ink"))
    return made
