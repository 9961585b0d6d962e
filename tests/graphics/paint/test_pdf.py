"""The PDF, read back with pypdf and drawn again by poppler (ISO 32000-1)."""

import shutil
import subprocess
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops
from pypdf import PdfReader
from pypdf.generic import ContentStream
from reportlab.pdfgen.canvas import Canvas

from studio.graphics.frame import Frame
from studio.graphics.layout.text import box, missing_glyphs, typeset, width
from studio.graphics.paint.pdf import draw_on, pdf
from studio.graphics.paint.raster import png
from studio.graphics.scene import Radial, Scene, Stroke
from tests.graphics.paint.samples import INK, PAPER, along, decoded, everything, line, scene, square

PHRASE = "Rear left 5/32 in, AVATAR To 11"


def read(*scenes: Scene) -> PdfReader:
    return PdfReader(BytesIO(pdf(scenes)))


def fonts(reader: PdfReader) -> list[Any]:
    return [
        font.get_object()
        for page in reader.pages
        for font in page["/Resources"].get("/Font", {}).values()  # type: ignore[index]
    ]


def operators_of(page: Any) -> list[bytes]:
    return [operator for _, operator in ContentStream(page.get_contents(), page.pdf).operations]


def test_each_scene_is_a_page_as_large_as_its_frame() -> None:
    reader = read(everything(), scene(square(1, 1, 9), frame=Frame(1080, 1920)))
    assert [tuple(map(float, page.mediabox)) for page in reader.pages] == [(0, 0, 480, 270), (0, 0, 1080, 1920)]


def test_it_has_title_author_and_language() -> None:
    reader = PdfReader(BytesIO(pdf([everything()], author="Hedge Lane Garage", language="en-US")))
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Everything", "Hedge Lane Garage")
    assert reader.metadata.subject == "A tire with its code"
    assert reader.root_object["/Lang"] == "en-US"


def test_text_can_be_found_with_plain_spaces() -> None:
    text = read(everything()).pages[0].extract_text()
    assert "Depth 5/32 in" in text
    assert "4.0 mm ⌀ & <1>" in text
    assert "plain words" in text


def test_every_font_is_embedded_and_ours() -> None:
    used = fonts(read(everything()))
    assert {font["/BaseFont"].split("+")[1] for font in used} == {"Inter-Regular", "Inter-Bold", "DejaVuSans"}
    for font in used:
        assert font["/Subtype"] == "/TrueType"
        assert len(font["/FontDescriptor"]["/FontFile2"].get_data()) > 500
        assert "/ToUnicode" in font


def test_a_picture_without_text_asks_for_no_font_of_the_readers_own() -> None:
    for font in fonts(read(scene(square(1, 1, 9)))):
        assert "/FontFile2" in font["/FontDescriptor"]


@pytest.mark.parametrize("weight", ["regular", "semibold", "bold"])
@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
def test_a_line_stands_where_it_was_measured_and_is_as_wide(weight: str, anchor: str) -> None:
    """Width by the file's own /Widths and the numbers between them (9.4.3, TJ): within a hundredth."""
    mark = line(PHRASE, weight=weight, anchor=anchor, at=(470.0, 150.0))
    page = read(scene(mark, frame=Frame(960, 540))).pages[0]
    matrices, advance = _shown(page)
    assert matrices == [pytest.approx((1, 0, 0, -1, box(mark).left, 150), abs=0.01)]
    assert advance == pytest.approx(width(PHRASE, 30.0, weight), rel=0.01)  # type: ignore[arg-type]


def _shown(page: Any) -> tuple[list[Any], float]:
    """The text matrices set on a page, and the advance of all text shown, less that after the last sign."""
    matrices, advance, font, size = [], 0.0, {}, 0.0
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        if operator == b"Tm":
            matrices.append(tuple(map(float, operands)))
        elif operator == b"Tf":
            font, size = page["/Resources"]["/Font"][operands[0]], float(operands[1])
        elif operator == b"TJ":
            for part in operands[0]:
                if isinstance(part, int | float):
                    advance -= float(part) / 1000 * size
                else:
                    codes = part if isinstance(part, bytes) else part.original_bytes
                    advance += sum(float(font["/Widths"][code]) for code in codes) / 1000 * size
    return matrices, advance


def test_text_that_is_no_row_of_single_signs_is_drawn_and_still_found() -> None:
    """Arabic letters take the form of their place in a word; the Chinese sign is missing."""
    reader = read(scene(line("\u0645\u0631\u062d\u0628\u0627 ring"), line("\u6f22 box", at=(40.0, 220.0))))
    assert operators_of(reader.pages[0]).count(b"Tr") == 2
    text = reader.pages[0].extract_text()
    assert "ring" in text and "box" in text


@settings(max_examples=15)
@example("<img src='/etc/hostname'/> <b> \\ ) ( %%EOF endstream \ud800\x00")
@given(st.text(max_size=40))
def test_any_text_gives_a_readable_file(text: str) -> None:
    made = Scene(picture="p", frame=Frame(480, 270), background=None, marks=(line(text), along(text)), title=text)
    found = "".join(PdfReader(BytesIO(pdf([made]))).pages[0].extract_text().split())
    if text.isascii():
        assert found == "".join(typeset(text).split())
    if missing_glyphs(text):
        assert not set(missing_glyphs(text)) & set(found)


def test_equal_scenes_give_equal_bytes() -> None:
    assert pdf([everything()]) == pdf([everything()])


def test_a_gradient_that_fades_has_a_soft_mask_and_an_opaque_one_has_not() -> None:
    def masks(made: Scene) -> int:
        states = read(made).pages[0]["/Resources"].get("/ExtGState", {})  # type: ignore[index]
        return sum("/SMask" in state.get_object() for state in states.values())

    stops = ((0.0, "#000000FF"), (1.0, "#00000000"))
    assert masks(scene(square(1, 1, 99, fill=Radial((50, 50), 50, stops)))) == 1
    assert masks(scene(square(1, 1, 99, fill=Radial((50, 50), 50, ((0.0, "#000000"), (1.0, "#FFFFFF")))))) == 0


def test_a_pdf_of_no_picture_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one"):
        pdf([])


def test_drawing_leaves_the_canvas_as_it_was() -> None:
    buffer = BytesIO()
    canvas = Canvas(buffer, pagesize=(600, 400), invariant=1)
    canvas.setFillColorRGB(0.1, 0.2, 0.3)
    canvas.setLineWidth(7)
    names = ("_fillColorObj", "_strokeColorObj", "_lineWidth", "_currentMatrix", "_fontname", "_textRenderMode")
    before = [getattr(canvas, name) for name in names]
    draw_on(canvas, everything(), 50, 60, 240)
    assert [getattr(canvas, name) for name in names] == before
    canvas.save()
    operators = operators_of(PdfReader(buffer).pages[0])
    assert operators.count(b"q") == operators.count(b"Q") > 0
    assert operators.count(b"BT") == operators.count(b"ET")


needs_poppler = pytest.mark.skipif(not shutil.which("pdftoppm"), reason="there is no PDF painter here")


def drawn(content: bytes, folder: Path) -> Image.Image:
    (folder / "a.pdf").write_bytes(content)
    command = ["pdftoppm", "-r", "72", "-png", "-singlefile", "a.pdf", "a"]
    subprocess.run(command, cwd=folder, check=True, capture_output=True)
    return Image.open(folder / "a.png").convert("RGB")


@needs_poppler
@pytest.mark.parametrize("background", [PAPER, "#15191E"])
def test_poppler_draws_what_we_paint(background: str, tmp_path: Path) -> None:
    theirs, ours = drawn(pdf([everything(background)]), tmp_path), decoded(png(everything(background))).convert("RGB")
    assert theirs.size == ours.size
    cells = ImageChops.difference(theirs, ours).reduce(10)  # poppler snaps lines to pixels: 21; a lost label: 60 to 210
    assert max(high for _, high in cells.getextrema()) < 30  # type: ignore[misc]


@needs_poppler
def test_a_picture_lies_where_it_was_put_and_stays_inside_its_frame(tmp_path: Path) -> None:
    buffer = BytesIO()
    canvas = Canvas(buffer, pagesize=(600, 400), invariant=1)
    spilling = square(-500, -500, 5000, fill=INK, stroke=Stroke(INK, 50))
    draw_on(canvas, scene(spilling, background=None), 60, 50, 240)
    canvas.save()
    inked = ImageChops.difference(drawn(buffer.getvalue(), tmp_path), Image.new("RGB", (600, 400), "#FFFFFF"))
    assert inked.getbbox() == pytest.approx((60, 400 - 50 - 135, 300, 350), abs=1)


def test_a_title_holds_no_sign_that_turns_the_direction_of_reading() -> None:
    made = Scene(
        picture="p", frame=Frame(480, 270), background=None, marks=(), title="a\u2066b\u202ec", alternative="d\u2069"
    )
    read = PdfReader(BytesIO(pdf((made,), author="e\u200f"))).metadata
    assert read is not None and (read.title, read.subject, read.author) == ("abc", "d", "e")
