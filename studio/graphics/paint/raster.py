"""The hand that makes pixels: QPainter on whatever device it is given, or on an image of its own.

Only paths are drawn, text included, so no font system and no application object is needed and the same scene gives
the same pixels each time.
"""

from collections.abc import Callable
from functools import lru_cache
from itertools import groupby
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QGradient,
    QImage,
    QLinearGradient,
    QPainter,
    QPainterPath,
    QPainterPathStroker,
    QPen,
    QRadialGradient,
    QTransform,
)

from studio.graphics.color import rgba
from studio.graphics.layout.text import arc_glyphs, placed_glyphs
from studio.graphics.paint import png as png_file
from studio.graphics.paint.glyphs import HALO_STROKES, letter
from studio.graphics.scene import ArcText, Image, Linear, Outline, Paint, Radial, Scene, Shape, Stroke, Text

_CAPS = {"round": Qt.PenCapStyle.RoundCap, "flat": Qt.PenCapStyle.FlatCap}
_JOINS = {"round": Qt.PenJoinStyle.RoundJoin, "flat": Qt.PenJoinStyle.SvgMiterJoin}
_MITER_LIMIT = 4.0
_FINE = 100.0  # font size at which halos are outlined: their curves are approximated to a part of a unit
_WINDING = Qt.FillRule.WindingFill
_CLEAR = "#00000000"
_STRAIGHT = QImage.Format.Format_RGBA8888


def paint(painter: QPainter, scene: Scene, scale: float = 1.0) -> None:
    """Paint ``scene`` at the painter's origin, ``scale`` device units to a px of its frame."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(scale, scale)
    whole = QRectF(0, 0, scene.frame.width, scene.frame.height)
    painter.setClipRect(whole, Qt.ClipOperation.IntersectClip)
    if scene.background is not None:
        painter.fillRect(whole, _color(scene.background))
    for kind, marks in groupby(scene.marks, key=type):
        if kind is Text:
            _texts(painter, [mark for mark in marks if isinstance(mark, Text)])
            continue
        for mark in marks:
            if isinstance(mark, Shape):
                _shape(painter, mark)
            elif isinstance(mark, ArcText):
                _arc_text(painter, mark)
            elif isinstance(mark, Image):
                _image(painter, mark)
    painter.restore()


def image(scene: Scene, size: tuple[int, int] | None = None) -> QImage:
    """The scene as pixels: RGB32, or ARGB32 with straight alpha where it has no background.

    ``size`` is that of the image in px (the frame's if not given); another shape leaves a margin right or below.
    Raises MemoryError if there is no room for the pixels.
    """
    width, height = size or (scene.frame.width, scene.frame.height)
    canvas = _canvas(scene, width, height)
    return canvas if _opaque(scene) else canvas.convertToFormat(QImage.Format.Format_ARGB32)


def png(scene: Scene) -> bytes:
    """The scene as a PNG file of exactly the frame's size; equal scenes give equal bytes."""
    frame = scene.frame
    pixels = _canvas(scene, frame.width, frame.height)
    pixels.convertTo(_STRAIGHT)  # in place
    return png_file.encode(memoryview(pixels.constBits()), frame.width, frame.height, pixels.bytesPerLine())


def save_png(scene: Scene, path: Path | str) -> None:
    """Write the scene's PNG to ``path``: for looking at a picture while it is being drawn, not for hand-off."""
    Path(path).write_bytes(png(scene))


def _opaque(scene: Scene) -> bool:
    return scene.background is not None and rgba(scene.background)[3] == 255


def _canvas(scene: Scene, width: int, height: int) -> QImage:
    premultiplied = QImage.Format.Format_ARGB32_Premultiplied  # the format in which painting is fast and exact
    canvas = QImage(width, height, QImage.Format.Format_RGB32 if _opaque(scene) else premultiplied)
    if canvas.isNull():
        raise MemoryError(f"no room for a picture of {width} x {height} px")
    canvas.fill(_color(scene.background or _CLEAR))  # a margin, where the shape is another one, gets it too
    painter = QPainter(canvas)
    try:
        paint(painter, scene, min(width / scene.frame.width, height / scene.frame.height))
    finally:
        painter.end()
    return canvas


def _shape(painter: QPainter, mark: Shape) -> None:
    path = outline_path(mark.outline, Qt.FillRule.OddEvenFill if mark.even_odd else _WINDING)
    if mark.clip is not None:
        painter.save()
        painter.setClipPath(outline_path(mark.clip), Qt.ClipOperation.IntersectClip)
    if mark.fill is not None:
        painter.fillPath(path, brush_of(mark.fill))
    if mark.stroke is not None and mark.stroke.width > 0:
        painter.strokePath(path, pen_of(mark.stroke))
    if mark.clip is not None:
        painter.restore()


def _texts(painter: QPainter, marks: list[Text]) -> None:
    """Lines of text that follow one another: first all of their halos, so that none cuts a neighbour's letters.

    Glyph by glyph: a whole line as one path takes ten times as long. Halos touch, so theirs must be opaque.
    """
    for mark in marks:
        if mark.halo is not None:
            _glyphs(painter, mark, _halo_path, mark.halo)
    for mark in marks:
        _glyphs(painter, mark, _glyph_path, mark.fill)


def _glyphs(painter: QPainter, mark: Text, path_of: Callable[[str, int], QPainterPath], color: str) -> None:
    brush = QBrush(_color(color))
    for file, glyph, x, y, size in placed_glyphs(mark):
        painter.fillPath(QTransform(size, 0, 0, size, x, y).map(path_of(file, glyph)), brush)


def _arc_text(painter: QPainter, mark: ArcText) -> None:
    brush = QBrush(_color(mark.fill))
    for file, glyph, x, y, size, degrees in arc_glyphs(mark):
        place = QTransform().translate(x, y).rotate(degrees).scale(size, size)
        painter.fillPath(place.map(_glyph_path(file, glyph)), brush)


def _image(painter: QPainter, mark: Image) -> None:
    """Pixels, scaled first as they will be seen: scaling while painting looks at too few of them."""
    box, scale = mark.box, abs(painter.deviceTransform().m11())
    size = (max(1, round(box.width * scale)), max(1, round(box.height * scale)))
    painter.drawImage(QRectF(box.left, box.top, box.width, box.height), _scaled(mark.png, *size))


@lru_cache(maxsize=8)
def _scaled(png_bytes: bytes, width: int, height: int) -> QImage:
    whole = QImage.fromData(png_bytes)
    mode = Qt.TransformationMode.SmoothTransformation
    return whole if whole.isNull() else whole.scaled(width, height, Qt.AspectRatioMode.IgnoreAspectRatio, mode)


@lru_cache(maxsize=2048)
def _glyph_path(file: str, glyph: int) -> QPainterPath:
    return outline_path(letter(file, glyph))


@lru_cache(maxsize=2048)
def _halo_path(file: str, glyph: int) -> QPainterPath:
    """What a glyph's halo covers, as a plain outline: filling that takes a fifth of the time that stroking does."""
    letter_, covered = QTransform.fromScale(_FINE, _FINE).map(_glyph_path(file, glyph)), QPainterPath()
    covered.setFillRule(_WINDING)
    stroker = QPainterPathStroker()
    stroker.setJoinStyle(_JOINS["round"])
    for width in HALO_STROKES:
        stroker.setWidth(width * _FINE)
        covered.addPath(stroker.createStroke(letter_))
    outline = QTransform.fromScale(1 / _FINE, 1 / _FINE).map(covered.simplified())
    outline.setFillRule(_WINDING)
    return outline


def outline_path(outline: Outline, rule: Qt.FillRule = _WINDING) -> QPainterPath:
    """An outline as Qt's own path."""
    path = QPainterPath()
    path.setFillRule(rule)
    draw = {"M": path.moveTo, "L": path.lineTo, "C": path.cubicTo, "Z": path.closeSubpath}
    for command, *values in outline:
        draw[command](*values)  # type: ignore[operator]
    return path


def _color(text: str) -> QColor:
    return QColor(*rgba(text))


def brush_of(fill: Paint) -> QBrush:
    """What fills, a gradient in px of the frame."""
    if isinstance(fill, str):
        return QBrush(_color(fill))
    gradient = _gradient(fill)
    gradient.setInterpolationMode(QGradient.InterpolationMode.ComponentInterpolation)  # as SVG and PDF do
    for at, color in fill.stops:
        gradient.setColorAt(min(1.0, max(0.0, at)), _color(color))
    return QBrush(gradient)


def _gradient(fill: Linear | Radial) -> QGradient:
    if isinstance(fill, Linear):
        return QLinearGradient(QPointF(*fill.start), QPointF(*fill.end))
    return QRadialGradient(QPointF(*fill.center), fill.radius)


def pen_of(stroke: Stroke) -> QPen:
    """What draws lines."""
    pen = QPen(_color(stroke.color), stroke.width, Qt.PenStyle.SolidLine, _CAPS[stroke.cap], _JOINS[stroke.cap])
    pen.setMiterLimit(_MITER_LIMIT)
    if stroke.dash and sum(stroke.dash) > 0:
        dash = stroke.dash if len(stroke.dash) % 2 == 0 else stroke.dash * 2
        pen.setDashPattern([length / stroke.width for length in dash])  # Qt counts dashes in pen widths
    return pen
