"""A body that turns under a light that does not: its outlines turn, its shades only go along."""

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPen, QTransform

from studio.graphics.paint.raster import brush_of, outline_path, pen_of
from studio.graphics.scene import AnyMark, Shape

_Part = tuple[QPainterPath, QBrush | None, QPen | None, QPainterPath | None]


class Body:
    """The shapes of a body, ready to be painted in any place and turn."""

    def __init__(self, marks: Iterable[AnyMark]) -> None:
        self._parts: list[_Part] = [_part(mark) for mark in marks if isinstance(mark, Shape)]

    def paint(self, painter: QPainter, place: QTransform, shade: QTransform) -> None:
        """Paint it moved by ``place``, its gradients by ``shade``."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for path, brush, pen, clip in self._parts:
            moved = place.map(path)
            if clip is not None:
                painter.save()
                painter.setClipPath(place.map(clip), Qt.ClipOperation.IntersectClip)
            if brush is not None:
                brush.setTransform(shade)
                painter.fillPath(moved, brush)
            if pen is not None:
                painter.strokePath(moved, pen)
            if clip is not None:
                painter.restore()


def _part(mark: Shape) -> _Part:
    rule = Qt.FillRule.OddEvenFill if mark.even_odd else Qt.FillRule.WindingFill
    brush = brush_of(mark.fill) if mark.fill is not None else None
    pen = pen_of(mark.stroke) if mark.stroke is not None and mark.stroke.width > 0 else None
    clip = outline_path(mark.clip) if mark.clip is not None else None
    return outline_path(mark.outline, rule), brush, pen, clip
