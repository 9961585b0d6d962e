"""Parts of a picture as pixels of their own: which px some marks cover, and those px alone."""

from collections.abc import Iterable, Iterator, Sequence
from math import ceil, floor

from msgspec.structs import replace
from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QImage, QPainter

from studio.graphics.draw import bounds
from studio.graphics.layout.text import box, font_size
from studio.graphics.paint.glyphs import HALO_SHARE, arc_box
from studio.graphics.paint.raster import paint
from studio.graphics.scene import AnyMark, Image, Scene, Shape, Text

EDGE = 2
"""px round what is drawn, for its soft edges."""
_PREMULTIPLIED = QImage.Format.Format_ARGB32_Premultiplied
_MITER = 4.0  # how far a sharp corner of a stroke may reach, in half its widths


def patch(scene: Scene, marks: Sequence[AnyMark], rect: QRect) -> QImage:
    """The marks alone, as they lie in ``rect``. Raises MemoryError if there is no room for the pixels."""
    image = QImage(max(1, rect.width()), max(1, rect.height()), _PREMULTIPLIED)
    if image.isNull():
        raise MemoryError(f"no room for a layer of {rect.width()} x {rect.height()} px")
    image.fill(0)
    painter = QPainter(image)
    try:
        painter.translate(-rect.topLeft())
        paint(painter, replace(scene, marks=tuple(marks)))
    finally:
        painter.end()
    return image


def rect_of(marks: Iterable[AnyMark]) -> QRect:
    """The px that the marks cover."""
    found = QRect()
    for mark in marks:
        for left, top, right, bottom in _sides(mark):
            found |= outward(left, top, right, bottom)
    return found


def _sides(mark: AnyMark) -> Iterator[tuple[float, float, float, float]]:
    """Left, top, right, bottom of what a mark paints; nothing for an empty one."""
    if isinstance(mark, Shape):
        if mark.outline and not (mark.fill is None and mark.stroke is None):
            left, top, right, bottom = bounds(mark.outline)
            out = _MITER * mark.stroke.width / 2 if mark.stroke else 0.0
            yield left - out, top - out, right + out, bottom + out
        return
    if isinstance(mark, Image):
        yield mark.box.left, mark.box.top, mark.box.right, mark.box.bottom
        return
    around = box(mark) if isinstance(mark, Text) else arc_box(mark)
    out = font_size(mark.cap_height) * (HALO_SHARE + 0.3)  # accents stand above capitals
    yield around.left - out, around.top - out, around.right + out, around.bottom + out


def outward(left: float, top: float, right: float, bottom: float) -> QRect:
    """The whole px that hold these sides, and a soft edge."""
    return QRect(QPoint(floor(left) - EDGE, floor(top) - EDGE), QPoint(ceil(right) + EDGE, ceil(bottom) + EDGE))
