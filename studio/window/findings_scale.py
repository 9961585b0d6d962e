"""How far a finding's number is from its limit: a small scale with the gauge's uncertainty on it."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio.graphics.look import Look
from studio.window.palette import Appearance

HEIGHT = 16


@dataclass(frozen=True)
class Scale:
    """A number and its limit on a ruler from ``low`` to ``high``, all in one unit.

    ``uncertainty`` is a half width. ``better`` is 1 where more is better, -1 where less is, 0 where that is not known.
    """

    low: float
    high: float
    value: float
    limit: float
    uncertainty: float = 0.0
    better: int = 0

    def at(self, value: float) -> float:
        """Where ``value`` stands, from 0 at the left end to 1 at the right end."""
        span = self.high - self.low
        return min(1.0, max(0.0, (value - self.low) / span)) if span > 0 else 0.5

    @property
    def too_close(self) -> bool:
        """Whether the limit lies within the uncertainty of the number."""
        return abs(self.value - self.limit) <= self.uncertainty


def paint_scale(painter: QPainter, scale: Scale, field: QRectF, look: Look) -> None:
    """Paint the ruler across ``field``: solid on the good side of the limit, dotted on the other."""
    unit = field.height() / HEIGHT
    inner = field.adjusted(5 * unit, 0, -5 * unit, 0)
    middle = field.center().y()

    def x(value: float) -> float:
        return inner.left() + scale.at(value) * inner.width()

    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _track(painter, (inner.left(), x(scale.limit), inner.right()), middle, scale.better, look, unit)
    _doubt(painter, x(scale.value - scale.uncertainty), x(scale.value + scale.uncertainty), middle, look, unit)
    painter.setPen(_pen(look.ink, 2 * unit))
    painter.drawLine(QPointF(x(scale.limit), field.top()), QPointF(x(scale.limit), field.bottom()))
    painter.setPen(_pen(look.ground, unit))
    painter.setBrush(QColor(look.measure))
    painter.drawEllipse(QPointF(x(scale.value), middle), 3.6 * unit, 3.6 * unit)
    painter.restore()


def _track(
    painter: QPainter, ends: tuple[float, float, float], y: float, better: int, look: Look, unit: float
) -> None:
    left, limit, right = ends
    for start, end, side in ((left, limit, -1), (limit, right, 1)):
        bad = better != 0 and side != better
        pen = _pen(look.quiet if better else look.steel, (2 if bad else 1.5) * unit)
        if bad:
            pen.setDashPattern([1, 1.5])
        painter.setPen(pen)
        painter.drawLine(QPointF(start, y), QPointF(end, y))


def _doubt(painter: QPainter, left: float, right: float, y: float, look: Look, unit: float) -> None:
    if right - left < 1:
        return
    band = QColor(look.measure)
    band.setAlphaF(0.32)
    painter.fillRect(QRectF(left, y - 3.5 * unit, right - left, 7 * unit), band)
    painter.setPen(_pen(look.measure, 1.5 * unit))
    for end in (left, right):
        painter.drawLine(QPointF(end, y - 5 * unit), QPointF(end, y + 5 * unit))


def _pen(color: str, width: float) -> QPen:
    return QPen(QColor(color), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)


class ScaleView(QWidget):
    """One scale standing by itself; its words are the widget's description."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._scale: Scale | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        appearance.changed.connect(self._resized)

    def show_scale(self, scale: Scale | None, words: str) -> None:
        """Show this scale, said as ``words``; without one the view takes no room."""
        self._scale = scale
        self.setAccessibleName("Distance from the limit")
        self.setAccessibleDescription(words)
        self.setVisible(scale is not None)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._appearance.px(240), self._appearance.px(HEIGHT + 8))

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._scale is not None:
            painter = QPainter(self)
            paint_scale(painter, self._scale, QRectF(self.rect()), self._appearance.look)
            painter.end()

    def _resized(self) -> None:
        self.updateGeometry()
        self.update()
