"""The hand that draws on a reportlab canvas: a picture in the printed brief, or a PDF of its own.

Everything stays vector. Text stays text, in our embedded fonts and at its measured width, so that it can be searched;
where that cannot be had glyph for glyph, its outlines are drawn with the text invisible over them.
"""

from collections.abc import Callable, Iterable, Sequence
from io import BytesIO
from itertools import groupby
from typing import Any

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from studio.graphics.color import rgba
from studio.graphics.draw import rectangle
from studio.graphics.layout.text import font_size, visible
from studio.graphics.paint.glyphs import HALO_STROKES, arc_outline, text_outline
from studio.graphics.paint.pdf_shade import shade
from studio.graphics.paint.pdf_text import first_font, register_fonts, write_line
from studio.graphics.scene import AnyMark, Image, Outline, Paint, Scene, Shape, Stroke, Text

__all__ = ["draw_on", "pdf", "register_fonts"]

CREATOR = "Tire Episode Studio"
_EVEN_ODD, _WINDING = 0, 1  # reportlab's fill modes
_ROUND, _FLAT, _MITER = 1, 0, 0
_MITER_LIMIT = 4.0


def draw_on(canvas: Canvas, scene: Scene, x: float, y: float, width: float) -> None:
    """Draw ``scene`` with its lower left corner at (x, y), ``width`` points wide; the canvas' state stays as it was."""
    register_fonts()
    scale = width / scene.frame.width
    canvas.saveState()
    canvas.translate(x, y + scene.frame.height * scale)
    canvas.scale(scale, -scale)
    whole = rectangle(0, 0, scene.frame.width, scene.frame.height)
    _clip(canvas, whole, False)
    if scene.background is not None:
        _fill(canvas, whole, scene.background, False)
    for kind, marks in groupby(scene.marks, key=type):
        run = tuple(marks)
        if kind is Text:  # all halos first: none cuts a neighbour's letters
            for mark in run:
                _fenced(canvas, mark, _halo)
        for mark in run:
            _fenced(canvas, mark, _mark)
    canvas.restoreState()


def _fenced(canvas: Canvas, mark: AnyMark, draw: Callable[[Canvas, AnyMark], None]) -> None:
    canvas.saveState()
    draw(canvas, mark)
    canvas.restoreState()


def _mark(canvas: Canvas, mark: AnyMark) -> None:
    if isinstance(mark, Shape):
        _shape(canvas, mark)
    elif isinstance(mark, Text):
        _text(canvas, mark)
    elif isinstance(mark, Image):
        _image(canvas, mark)
    else:
        _fill(canvas, arc_outline(mark), mark.fill, False)


def _halo(canvas: Canvas, mark: AnyMark) -> None:
    if isinstance(mark, Text) and mark.halo is not None:
        widths = [share * font_size(mark.cap_height) for share in HALO_STROKES]
        _stroke(canvas, text_outline(mark), *(Stroke(mark.halo, width) for width in widths))


def pdf(scenes: Iterable[Scene], title: str = "", author: str = "", language: str = "en") -> bytes:
    """A PDF of one page a scene, each as many points as the scene's frame has px; equal scenes give equal bytes.

    ``title`` is the first scene's if not given. Raises ValueError if there is no scene.
    """
    pages: Sequence[Scene] = tuple(scenes)
    if not pages:
        raise ValueError("a PDF needs at least one picture")
    register_fonts()
    buffer = BytesIO()
    make: Any = Canvas  # its stubs take a font's name for a number
    canvas = make(buffer, invariant=1, pageCompression=1, lang=language, initialFontName=first_font())
    canvas.setTitle(visible(title or pages[0].title or pages[0].picture))
    canvas.setAuthor(visible(author))
    canvas.setSubject(visible(pages[0].alternative))
    canvas.setCreator(CREATOR)
    for scene in pages:
        canvas.setPageSize((scene.frame.width, scene.frame.height))
        draw_on(canvas, scene, 0, 0, scene.frame.width)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _shape(canvas: Canvas, mark: Shape) -> None:
    if mark.clip is not None:
        _clip(canvas, mark.clip, False)
    if mark.fill is not None:
        _fill(canvas, mark.outline, mark.fill, mark.even_odd)
    if mark.stroke is not None and mark.stroke.width > 0:
        _stroke(canvas, mark.outline, mark.stroke)


def _text(canvas: Canvas, mark: Text) -> None:
    red, green, blue, alpha = rgba(mark.fill)
    canvas.setFillColorRGB(red / 255, green / 255, blue / 255, alpha / 255)
    if not write_line(canvas, mark):
        _fill(canvas, text_outline(mark), mark.fill, False)


def _image(canvas: Any, mark: Image) -> None:
    box = mark.box
    canvas.translate(box.left, box.bottom)
    canvas.scale(1, -1)  # the page's y runs down here, an image's up
    canvas.drawImage(ImageReader(BytesIO(mark.png)), 0, 0, box.width, box.height, mask="auto")


def _fill(canvas: Canvas, outline: Outline, fill: Paint, even_odd: bool) -> None:
    if not outline:
        return
    if isinstance(fill, str):
        red, green, blue, alpha = rgba(fill)
        canvas.setFillColorRGB(red / 255, green / 255, blue / 255, alpha / 255)
        canvas.drawPath(_path(canvas, outline), stroke=0, fill=1, fillMode=_rule(even_odd))
        return
    canvas.saveState()
    _clip(canvas, outline, even_odd)
    shade(canvas, fill, outline)
    canvas.restoreState()


def _stroke(canvas: Canvas, outline: Outline, *strokes: Stroke) -> None:
    if not outline:
        return
    path = _path(canvas, outline)
    for stroke in strokes:
        red, green, blue, alpha = rgba(stroke.color)
        round_ = stroke.cap == "round"
        canvas.setStrokeColorRGB(red / 255, green / 255, blue / 255, alpha / 255)
        canvas.setLineWidth(stroke.width)
        canvas.setLineCap(_ROUND if round_ else _FLAT)
        canvas.setLineJoin(_ROUND if round_ else _MITER)
        canvas.setMiterLimit(_MITER_LIMIT)
        canvas.setDash(list(stroke.dash) if sum(stroke.dash) > 0 else [])
        canvas.drawPath(path, stroke=1, fill=0)


def _clip(canvas: Any, outline: Outline, even_odd: bool) -> None:
    canvas.clipPath(_path(canvas, outline), stroke=0, fill=0, fillMode=_rule(even_odd))


def _rule(even_odd: bool) -> int:
    return _EVEN_ODD if even_odd else _WINDING


def _path(canvas: Any, outline: Outline) -> Any:
    path = canvas.beginPath()
    draw = {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo, "Z": path.close}
    for command, *values in outline:
        draw[command](*values)
    return path
