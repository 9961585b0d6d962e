"""What printed documents share: type, colours, texts made harmless, pictures as vectors, page numbers, an outline.

Text from outside is never markup: every text goes through ``words``, which escapes it, drops control characters and
gives signs that our first font lacks to the second, so that none vanishes.
"""

import unicodedata
from collections.abc import Callable, Sequence
from functools import lru_cache
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph, Table, TableStyle

from studio.graphics.frame import Box
from studio.graphics.frame import Frame as PictureFrame
from studio.graphics.layout.text import visible
from studio.graphics.look import Look, shipped_looks
from studio.graphics.paint.pdf import CREATOR, draw_on
from studio.graphics.paint.pdf_text import first_font, register_fonts
from studio.graphics.parts.signs import sign
from studio.graphics.scene import Scene
from studio.model.finding import Verdict

REGULAR, SEMIBOLD, BOLD, FALLBACK = "Inter-Regular", "Inter-SemiBold", "Inter-Bold", "DejaVuSans"
MARGIN = 18 * mm
BOX_SIGN = "□"
_US_PAPER = ("us", "ca")
_FOOT = 10 * mm


def paper(region: str) -> tuple[float, float]:
    """The sheet that is usual in a region, in points: letter in North America, A4 elsewhere."""
    return letter if region.partition("-")[0] in _US_PAPER else A4


@lru_cache(maxsize=1)
def print_look() -> Look:
    """The look whose colours are printed: the light shipped one, whatever the episode's."""
    return shipped_looks()["chalk"]


def color(name: str) -> Color:
    """A colour of the printed look by its name there."""
    return HexColor(getattr(print_look(), name))


@lru_cache(maxsize=32)
def style(size: float, font: str = REGULAR, tint: str = "ink", before: float = 0, left: float = 0) -> ParagraphStyle:
    """A text style: ``size`` in points, line step 1.35 of it."""
    register_fonts()
    return ParagraphStyle(
        f"{font}{size}{tint}{before}{left}", fontName=font, fontSize=size, leading=size * 1.35, textColor=color(tint),
        spaceBefore=before, leftIndent=left, splitLongWords=1,
    )  # fmt: skip


def words(text: str, longest: int = 4000) -> str:
    """``text`` as the content of a paragraph: escaped, without control characters, no sign lost."""
    kept = text if len(text) <= longest else text[: longest - 1] + "…"
    parts, run, run_font = list[str](), "", ""
    for char in kept:
        if char in "\n\t":
            char = " "
        if unicodedata.category(char) in ("Cc", "Cs", "Cf"):
            continue
        font, char = _font_for(char)
        if font != run_font and run:
            parts.append(_run(run, run_font))
            run = ""
        run, run_font = run + char, font
    return "".join([*parts, _run(run, run_font)] if run else parts)


def paragraph(text: str, its: ParagraphStyle) -> Paragraph:
    """A paragraph of plain text."""
    return Paragraph(words(text), its)


def lines_of(texts: Sequence[str], its: ParagraphStyle) -> Paragraph:
    """Several lines of plain text as one paragraph."""
    return Paragraph("<br/>".join(map(words, texts)), its)


def linked(text: str, target: str, its: ParagraphStyle) -> Paragraph:
    """A paragraph that leads to the place named ``target`` in the document."""
    tint = print_look().measure
    return Paragraph(f'<a href="#{_anchor(target)}" color="{tint}">{words(text)}</a>', its)


class Heading(Flowable):  # type: ignore[misc, unused-ignore]
    """A heading that stands in the document's outline and can be led to."""

    def __init__(self, text: str, level: int, anchor: str, its: ParagraphStyle) -> None:
        super().__init__()
        self._text, self._level, self._anchor = text, level, _anchor(anchor)
        self._inner = paragraph(text, its)
        self.keepWithNext = 1

    def getSpaceBefore(self) -> float:
        return float(self._inner.getSpaceBefore())

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.height = self._inner.wrap(width, height)
        return self.width, self.height

    def draw(self) -> None:
        canvas: Any = self.canv
        canvas.bookmarkHorizontal(self._anchor, 0, self.height)
        canvas.addOutlineEntry(plain_line(self._text), self._anchor, self._level, closed=self._level > 0)
        self._inner.drawOn(canvas, 0, 0)


class Picture(Flowable):  # type: ignore[misc, unused-ignore]
    """A picture of the catalogue, drawn as vectors."""

    def __init__(self, scene: Scene, width: float) -> None:
        super().__init__()
        self._scene = scene
        self.width, self.height = width, width * scene.frame.height / scene.frame.width

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        if self.width > width:
            self.width, self.height = width, self.height * width / self.width
        return self.width, self.height

    def draw(self) -> None:
        draw_on(self.canv, self._scene, 0, 0, self.width)


class Sign(Picture):
    """A verdict's sign at the size of a line."""

    def __init__(self, verdict: Verdict | None, side: float = 12) -> None:
        frame = PictureFrame(48, 48)
        marks = sign(verdict, Box(2, 2, 46, 46), print_look(), "sign")
        super().__init__(Scene(picture="sign", frame=frame, background=None, marks=marks), side)


def table(rows: Sequence[Sequence[Any]], widths: Sequence[float | None], head: bool = False) -> Table:
    """A quiet table: no grid, a hairline under its head, first cells at the left edge."""
    made = Table([list(row) for row in rows], colWidths=list(widths), repeatRows=1 if head else 0, hAlign="LEFT")
    rules = [
        ("FONTNAME", (0, 0), (-1, -1), REGULAR), ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 8), ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
    ]  # fmt: skip
    if head:
        rules.append(("LINEBELOW", (0, 0), (-1, 0), 0.5, color("quiet")))  # type: ignore[arg-type]
    made.setStyle(TableStyle(rules))
    return made


def document(
    story: Sequence[Flowable], size: tuple[float, float], title: str, author: str, foot: str,
    on_page: Callable[[Canvas], None] | None = None,
) -> bytes:  # fmt: skip
    """The PDF of ``story``: page numbers at the foot, fonts embedded, the same bytes for the same story."""
    register_fonts()
    buffer = BytesIO()
    made = BaseDocTemplate(
        buffer, pagesize=size, title=plain_line(title), author=plain_line(author), creator=CREATOR, lang="en",
        invariant=1, initialFontName=first_font(), pageCompression=1,
    )  # fmt: skip
    body = Frame(MARGIN, MARGIN, size[0] - 2 * MARGIN, size[1] - 2 * MARGIN, 0, 0, 0, 0)

    def footed(canvas: Canvas, template: Any) -> None:
        canvas.saveState()
        if on_page:
            on_page(canvas)
        line = paragraph(f"{foot}    {template.page}", style(8, tint="quiet"))
        line.wrap(size[0] - 2 * MARGIN, MARGIN)
        line.drawOn(canvas, MARGIN, _FOOT)
        canvas.restoreState()

    made.addPageTemplates([PageTemplate(id="page", frames=[body], onPage=footed)])
    made.build(list(story), canvasmaker=_canvas)
    return buffer.getvalue()


def plain_line(text: str) -> str:
    """``text`` as a title or outline entry: one line without control characters."""
    return " ".join(visible(text).split())


def _canvas(*arguments: Any, **named: Any) -> Canvas:
    made: Any = Canvas
    canvas: Canvas = made(*arguments, **named)
    canvas.showOutline()  # type: ignore[no-untyped-call, unused-ignore]
    return canvas


def _font_for(char: str) -> tuple[str, str]:
    register_fonts()
    for font in (REGULAR, FALLBACK):
        face: Any = pdfmetrics.getFont(font)
        if ord(char) in face.face.charToGlyph:
            return ("" if font == REGULAR else font), char
    return FALLBACK, BOX_SIGN


def _run(text: str, font: str) -> str:
    return f'<font name="{font}">{escape(text)}</font>' if font else escape(text)


def _anchor(name: str) -> str:
    return "".join(char if char.isalnum() or char in "._" else "_" for char in name)
