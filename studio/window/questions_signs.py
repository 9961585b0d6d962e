"""The signs of how a question stands: a shape for each, which its words always stand beside."""

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from studio.graphics.look import Look
from studio.window.questions_rows import Standing

_Draw = Callable[[QPainter, QRectF, QPen, Look], None]
_WIDE = 1.7


def paint_standing(painter: QPainter, standing: Standing, field: QRectF, look: Look) -> None:
    """Paint the sign into a square."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(QColor(look.ink), _WIDE, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _SHAPES[standing](painter, field.adjusted(1, 1, -1, -1), pen, look)
    painter.restore()


def _urgent(painter: QPainter, field: QRectF, pen: QPen, look: Look) -> None:
    """A warning triangle with its stroke and dot."""
    painter.setBrush(QColor(look.verdicts.watch))
    top, left, right = QPointF(field.center().x(), field.top()), field.bottomLeft(), field.bottomRight()
    painter.drawPolygon(QPolygonF([top, right, left]))
    ink = QPen(QColor("#1A1D21"), 2.0)  # on amber in either look
    painter.setPen(ink)
    x = field.center().x()
    painter.drawLine(QPointF(x, field.top() + 0.42 * field.height()), QPointF(x, field.top() + 0.66 * field.height()))
    painter.drawPoint(QPointF(x, field.top() + 0.84 * field.height()))


def _answerable(painter: QPainter, field: QRectF, pen: QPen, look: Look) -> None:
    """A gauge's rod standing in a groove."""
    low, rim = field.bottom() - 0.12 * field.height(), field.top() + 0.45 * field.height()
    one, other = field.left() + 0.28 * field.width(), field.right() - 0.28 * field.width()
    outline = ((field.left(), rim), (one, rim), (one, low), (other, low), (other, rim), (field.right(), rim))
    painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in outline]))
    painter.setPen(QPen(QColor(look.measure), 2.6))
    painter.drawLine(QPointF(field.center().x(), field.top()), QPointF(field.center().x(), low - 2))


def _needs_fact(painter: QPainter, field: QRectF, pen: QPen, look: Look) -> None:
    """A field that is still empty."""
    dashed = QPen(pen)
    dashed.setDashPattern([2.2, 2.0])
    painter.setPen(dashed)
    painter.drawRoundedRect(field.adjusted(0, 2, 0, -2), 2, 2)


def _waiting(painter: QPainter, field: QRectF, pen: QPen, look: Look) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(look.quiet))
    for part in (0.2, 0.5, 0.8):
        painter.drawEllipse(QPointF(field.left() + part * field.width(), field.center().y()), 1.5, 1.5)


def _answered(painter: QPainter, field: QRectF, pen: QPen, look: Look) -> None:
    """A hand's tick."""
    painter.setPen(QPen(QColor(look.ink), 2.2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
    painter.drawPolyline(
        QPolygonF([QPointF(field.left(), field.center().y()),
                   QPointF(field.left() + 0.38 * field.width(), field.bottom() - 1),
                   QPointF(field.right(), field.top() + 1)])
    )  # fmt: skip


def _none(painter: QPainter, field: QRectF, pen: QPen, look: Look) -> None:
    """A bubble with nothing in it."""
    painter.setPen(QPen(QColor(look.quiet), 1.4))
    painter.drawEllipse(field.adjusted(1, 2, -1, -3))
    painter.drawLine(field.bottomLeft() + QPointF(3, 0), field.bottomLeft() + QPointF(5, -4))


def _set_aside(painter: QPainter, field: QRectF, pen: QPen, look: Look) -> None:
    painter.setPen(QPen(QColor(look.quiet), 2.0))
    middle = field.center().y()
    painter.drawLine(QPointF(field.left() + 2, middle), QPointF(field.right() - 2, middle))


_SHAPES: dict[Standing, _Draw] = {
    "urgent": _urgent, "answerable": _answerable, "needs_fact": _needs_fact, "waiting": _waiting,
    "answered": _answered, "none": _none, "set_aside": _set_aside,
}  # fmt: skip
