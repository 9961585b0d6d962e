"""The hands that paint a sheet of pictures: as one PNG, or as one page of a PDF that stays vector."""

from io import BytesIO
from typing import Any

from PySide6.QtGui import QImage, QPainter
from reportlab.pdfgen.canvas import Canvas

from studio.graphics.layout.text import visible
from studio.graphics.paint import png as png_file
from studio.graphics.paint.pdf import CREATOR, draw_on, register_fonts
from studio.graphics.paint.pdf_text import first_font
from studio.graphics.paint.raster import image, paint
from studio.graphics.sheet import Sheet

PAGE_WIDTH_PT = 841.89
"""The longer side of A4 (ISO 216) in points of 1/72 in."""


def sheet_png(sheet: Sheet) -> bytes:
    """The sheet as a PNG file, a px of its page to the pixel; equal sheets give equal bytes."""
    canvas = image(sheet.page)
    painter = QPainter(canvas)
    try:
        for cell in sheet.cells:
            painter.save()
            painter.translate(cell.box.left, cell.box.top)
            paint(painter, cell.scene, cell.box.width / cell.scene.frame.width)
            painter.restore()
    finally:
        painter.end()
    canvas.convertTo(QImage.Format.Format_RGBA8888)
    frame = sheet.page.frame
    return png_file.encode(memoryview(canvas.constBits()), frame.width, frame.height, canvas.bytesPerLine())


def sheet_pdf(sheet: Sheet, author: str = "") -> bytes:
    """The sheet as a PDF of one page, as wide as A4 is long; equal sheets give equal bytes."""
    register_fonts()
    frame, buffer = sheet.page.frame, BytesIO()
    scale = PAGE_WIDTH_PT / frame.width
    make: Any = Canvas  # its stubs take a font's name for a number
    canvas = make(buffer, invariant=1, pageCompression=1, lang="en", initialFontName=first_font())
    canvas.setTitle(visible(sheet.page.title))
    canvas.setAuthor(visible(author))
    canvas.setSubject(visible(sheet.page.alternative))
    canvas.setCreator(CREATOR)
    canvas.setPageSize((frame.width * scale, frame.height * scale))
    draw_on(canvas, sheet.page, 0, 0, PAGE_WIDTH_PT)
    for cell in sheet.cells:
        draw_on(canvas, cell.scene, cell.box.left * scale, (frame.height - cell.box.bottom) * scale,
                cell.box.width * scale)  # fmt: skip
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()
