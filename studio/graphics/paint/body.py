"""A body that turns under a light that does not: its outlines turn, its shades only go along.

What is round about the body's center looks the same in every turn, so it is drawn once and only carried along.
"""

import math
from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QBrush, QImage, QPainter, QPainterPath, QPen, QTransform

from studio.graphics.paint.patches import patch, rect_of
from studio.graphics.paint.raster import brush_of, outline_path, pen_of
from studio.graphics.scene import AnyMark, Outline, Point, Scene, Shape

_ROUND_WITHIN = 0.01  # of its radius
_HANDLE = 1.2  # handles of a quarter of a circle lie 1.14 radii from its center


class _Turning(NamedTuple):
    path: QPainterPath
    brush: QBrush | None
    pen: QPen | None
    clip: QPainterPath | None


class _Round(NamedTuple):
    at: QPoint
    image: QImage


class Body:
    """The shapes of a body about its ``center``, ready to be painted in any place and turn."""

    def __init__(self, scene: Scene, marks: Sequence[AnyMark], center: Point) -> None:
        self._parts: list[_Turning | _Round] = []
        shapes = [mark for mark in marks if isinstance(mark, Shape)]
        for round_, run in groupby(shapes, key=lambda shape: shape.clip is None and is_round(shape.outline, center)):
            these = list(run)
            if round_:
                rect = rect_of(these)
                self._parts.append(_Round(rect.topLeft(), patch(scene, these, rect)))
            else:
                self._parts += map(_turning, these)

    def paint(self, painter: QPainter, place: QTransform, shade: QTransform) -> None:
        """Paint it moved by ``place``; what does not turn is moved by ``shade``."""
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform)
        for part in self._parts:
            painter.save()
            if isinstance(part, _Round):
                painter.setTransform(shade, combine=True)
                painter.drawImage(part.at, part.image)
            else:
                _paint(painter, part, place, shade)
            painter.restore()


def is_round(outline: Outline, center: Point) -> bool:
    """Whether an outline is made of circles about ``center``: it looks the same in every turn."""
    radius: float | None = None
    for command in outline:
        if command[0] == "M":
            radius = None
        if command[0] not in ("M", "C", "Z"):
            return False
        if command[0] == "Z":
            continue
        *handles, far = (math.dist(point, center) for point in zip(command[1::2], command[2::2], strict=True))
        radius = far if radius is None else radius
        if abs(far - radius) > _ROUND_WITHIN * radius or any(not 1 <= handle / radius < _HANDLE for handle in handles):
            return False
    return bool(outline) and radius is not None and radius > 0


def _paint(painter: QPainter, part: _Turning, place: QTransform, shade: QTransform) -> None:
    moved = place.map(part.path)
    if part.clip is not None:
        painter.setClipPath(place.map(part.clip), Qt.ClipOperation.IntersectClip)
    if part.brush is not None:
        part.brush.setTransform(shade)
        painter.fillPath(moved, part.brush)
    if part.pen is not None:
        painter.strokePath(moved, part.pen)


def _turning(mark: Shape) -> _Turning:
    rule = Qt.FillRule.OddEvenFill if mark.even_odd else Qt.FillRule.WindingFill
    brush = brush_of(mark.fill) if mark.fill is not None else None
    pen = pen_of(mark.stroke) if mark.stroke is not None and mark.stroke.width > 0 else None
    clip = outline_path(mark.clip) if mark.clip is not None else None
    return _Turning(outline_path(mark.outline, rule), brush, pen, clip)
