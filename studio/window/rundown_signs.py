"""The signs of the number check: a shape for each state, which its word always stands beside."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from studio.graphics.look import Look
from studio.window.rundown_remarks import Kind


def paint_remark_sign(painter: QPainter, kind: Kind, field: QRectF, look: Look, *, aside: bool = False) -> None:
    """Paint the sign of ``kind`` into a square; one that was set aside is only an outline."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ink = QColor(look.quiet if aside else look.ink)
    painter.setPen(QPen(ink, 1.6))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _SHAPES[kind](painter, field.adjusted(1, 1, -1, -1), ink, look, aside)
    painter.restore()


def _computed(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """A dimension line between its ticks."""
    middle = field.center().y()
    painter.drawLine(QPointF(field.left(), middle), QPointF(field.right(), middle))
    for x in (field.left(), field.right()):
        painter.drawLine(QPointF(x, middle - 4), QPointF(x, middle + 4))


def _cited(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """A page with lines."""
    page = field.adjusted(2, 0, -2, 0)
    painter.drawRect(page)
    for part in (0.35, 0.65):
        y = page.top() + part * page.height()
        painter.drawLine(QPointF(page.left() + 2.5, y), QPointF(page.right() - 2.5, y))


def _unbacked(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """A ring with a gap, standing on nothing."""
    if not aside:
        painter.setBrush(QColor(look.verdicts.watch))
    pen = QPen(ink, 1.6)
    pen.setDashPattern([2, 1.6])
    painter.setPen(pen)
    painter.drawEllipse(field)


def _contradicted(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """A crossed-out square."""
    if not aside:
        painter.setBrush(QColor(look.verdicts.replace))
    painter.drawRect(field)
    inside = field.adjusted(3, 3, -3, -3)
    painter.setPen(QPen(ink if aside else QColor("#FFFFFF"), 1.8))
    painter.drawLine(inside.topLeft(), inside.bottomRight())
    painter.drawLine(inside.topRight(), inside.bottomLeft())


def _conversion(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """Two bars of unequal length, struck through."""
    if not aside:
        painter.setBrush(QColor(look.verdicts.replace))
    high = field.height() / 4
    painter.drawRect(QRectF(field.left(), field.top() + 1, field.width(), high))
    painter.drawRect(QRectF(field.left(), field.bottom() - 1 - high, field.width() * 0.55, high))


def _statement(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """A bubble with a stroke in it."""
    if not aside:
        painter.setBrush(QColor(look.verdicts.watch))
    left, top, right, low = field.left(), field.top(), field.right(), field.bottom() - 4
    painter.drawPolygon(
        QPolygonF([QPointF(left, top), QPointF(right, top), QPointF(right, low), QPointF(left + 7, low),
                   QPointF(left + 3, field.bottom()), QPointF(left + 3, low), QPointF(left, low)])
    )  # fmt: skip
    painter.drawLine(QPointF(left + 3, (top + low) / 2), QPointF(right - 3, (top + low) / 2))


def _hole(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """An empty dashed plate, as in the text."""
    pen = QPen(ink, 1.4)
    pen.setDashPattern([2.5, 2])
    painter.setPen(pen)
    painter.drawRect(field.adjusted(0, 2.5, 0, -2.5))


def _unfinished(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """A plate that is not closed, with the dots of what is still to come."""
    plate = field.adjusted(0, 2.5, 0, -2.5)
    middle = plate.center().x()
    painter.drawPolyline(
        QPolygonF([QPointF(middle, plate.top()), plate.topLeft(), plate.bottomLeft(), QPointF(middle, plate.bottom())])
    )
    painter.setBrush(ink)
    for part in (0.45, 0.72, 0.99):
        painter.drawEllipse(QPointF(plate.left() + part * plate.width(), plate.center().y()), 0.9, 0.9)


def _duty(painter: QPainter, field: QRectF, ink: QColor, look: Look, aside: bool) -> None:
    """A hand-written tick box that is still empty."""
    painter.drawRect(field.adjusted(1.5, 1.5, -1.5, -1.5))
    painter.setBrush(ink)
    painter.drawEllipse(field.center(), 1.6, 1.6)


_SHAPES = {
    "computed": _computed, "cited": _cited, "unbacked": _unbacked, "contradicted": _contradicted,
    "conversion": _conversion, "statement": _statement, "hole": _hole, "unfinished": _unfinished, "duty": _duty,
}  # fmt: skip
