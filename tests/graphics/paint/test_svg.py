"""The SVG, read back with lxml and drawn again by another painter."""

import re
import shutil
import subprocess
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from lxml import etree
from PIL import Image, ImageChops, ImageFont, ImageStat, features
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

from studio import shipped
from studio.graphics.draw import rectangle
from studio.graphics.layout.text import font_size, typeset, width
from studio.graphics.paint.raster import image, png
from studio.graphics.paint.svg import font_files, path_data, svg
from studio.graphics.scene import Linear, Scene, Shape, Stroke
from tests.graphics.paint.samples import INK, RED, decoded, everything, line, pixels, scene, square

NS = {"s": "http://www.w3.org/2000/svg"}
HOSTILE = "<b>&amp;\"'</b> ]]> <!-- \x00\x07\ud800\ufffe \u202e $x {y} %s"


def read(text: str) -> etree._Element:
    return etree.fromstring(text.encode("utf-8"), etree.XMLParser(resolve_entities=False))


def found(text: str, path: str) -> list[etree._Element]:
    return list(read(text).iterfind(path, NS))


def test_it_is_as_large_as_the_frame_and_says_what_it_shows() -> None:
    root = read(svg(everything()))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("480", "270", "0 0 480 270")
    assert [root.findtext(f"s:{name}", namespaces=NS) for name in ("title", "desc")] == [
        "Everything", "A tire with its code",
    ]  # fmt: skip


def test_text_stays_text_and_arc_text_does_not() -> None:
    texts = ["".join(element.itertext()) for element in found(svg(everything()), ".//s:text")]
    assert texts == ["Depth 5/32\u2009in", "4.0\u2009mm ⌀ & <1>", "plain words"]
    assert [element.get("aria-label") for element in found(svg(everything()), ".//*[@aria-label]")] == [
        "225/45R17", "2 PLIES",
    ]  # fmt: skip


def test_outlined_needs_no_font() -> None:
    made = svg(everything(), outlined=True)
    assert found(made, ".//s:text") == [] and "font" not in made
    labels = {element.get("aria-label") for element in found(made, ".//*[@aria-label]")}
    assert labels == {"225/45R17", "2 PLIES", "Depth 5/32 in", "4.0 mm ⌀ & <1>", "plain words"}


@example(HOSTILE)
@given(st.text(max_size=60))
def test_any_text_gives_well_formed_xml_that_holds_it(text: str) -> None:
    made = scene(line(text, name=text or "x"), square(1, 1, 9, name=text))
    told = Scene(picture="p", frame=made.frame, background=None, marks=made.marks, title=text, alternative=text,
                 steps=(text,))  # fmt: skip
    for outlined in (False, True):
        root = read(svg(told, outlined))
        ids = [element.get("id") for element in root.iter() if element.get("id")]
        assert len(ids) == len(set(ids))
        assert all(re.fullmatch(r"[A-Za-z_][A-Za-z0-9_.-]*", id_ or "") for id_ in ids)
    (element,) = found(svg(told), ".//s:text")
    assert "".join(element.itertext()) == typeset(text)


def test_nothing_in_a_text_reaches_the_documents_structure() -> None:
    plain = [element.tag for element in read(svg(scene(line("x")))).iter()]
    assert [element.tag for element in read(svg(scene(line(HOSTILE)))).iter()] == plain


def test_marks_keep_their_order_in_groups_of_step_and_name() -> None:
    root = read(svg(everything()))
    groups = [element.get("id") for element in root.iterfind("s:g/s:g", NS)]
    assert groups == [
        "step-0-tire", "step-0-water", "step-1-tire", "step-0-frame", "step-2-callouts", "step-0-small",
    ]  # fmt: skip
    marks = [mark.get("id") for mark in root.iterfind("s:g/s:g/*", NS)]
    assert marks == [
        "tire-shadow", "tire-ring", "water", "tire-marking", "tire-plies", "frame", "callouts-leader",
        "callouts-depth", "callouts-metric", "small",
    ]  # fmt: skip
    assert [element.get("data-step") for element in root.iterfind("s:g", NS)] == [
        "tire", "code", "tire", "depth", "tire",
    ]  # fmt: skip


def test_equal_names_get_ids_of_their_own() -> None:
    ids = [mark.get("id") for mark in found(svg(scene(square(1, 1, 5), square(9, 9, 5))), "s:g/s:g/*")]
    assert ids == ["square", "square-2"]


def test_numbers_have_at_most_two_decimals() -> None:
    shade = Linear((1 / 3, 2 / 3), (100 / 7, 1e-9), ((0, "#000000"), (1 / 3, "#FFFFFF33"), (1, "#FFFFFF")))
    mark = Shape(name="a", outline=rectangle(1 / 3, 1 / 7, 10 / 3, 22 / 7, 0.123), fill=shade,
                 stroke=Stroke("#0000007F", 1 / 3, dash=(1 / 3, 2 / 3)))  # fmt: skip
    made = svg(scene(mark, line("x", at=(1 / 3, 2 / 3))))
    assert "0.33" in made
    assert re.search(r"\d\.\d{3,}", made) is None
    assert re.search(r"\d[eE][-+]?\d", re.sub(r"#[0-9A-F]+", "", made)) is None


@given(st.lists(st.floats(-1e4, 1e4), min_size=2, max_size=2))
def test_a_compact_number_is_the_number(values: list[float]) -> None:
    shown = [float(text) for text in path_data((("M", *values),))[1:].split(" ")]  # type: ignore[arg-type]
    assert shown == pytest.approx(values, abs=0.005001)


def test_equal_paints_are_defined_once_and_each_reference_leads_somewhere() -> None:
    shade = Linear((0, 0), (9, 9), ((0, RED), (1, "#00000000")))
    made = svg(scene(square(1, 1, 9, fill=shade), square(2, 2, 9, fill=shade), square(3, 3, 9, fill=RED)))
    assert len(found(made, ".//s:linearGradient")) == 1
    ids = {element.get("id") for element in read(made).iter()}
    assert set(re.findall(r"url\(#([^)]+)\)", svg(everything()))) <= {
        element.get("id") for element in read(svg(everything())).iter()
    }
    assert set(re.findall(r"url\(#([^)]+)\)", made)) <= ids


def test_opacity_is_said_apart_from_colour() -> None:
    (element,) = found(svg(scene(square(1, 1, 9, fill="#11223380", stroke=Stroke("#44556640", 2)))), "s:g/s:g/s:path")
    attributes = {key: element.get(key) for key in ("fill", "fill-opacity", "stroke", "stroke-opacity")}
    assert attributes == {"fill": "#112233", "fill-opacity": "0.5", "stroke": "#445566", "stroke-opacity": "0.25"}


@pytest.mark.parametrize("weight", ["regular", "semibold", "bold"])
@pytest.mark.parametrize("text", ["Section width 225 mm", "1147/1111", "AVATAR Tyre, 5/32 in", "P225/45ZR17 (91W) XL"])
def test_the_font_named_gives_the_measured_width(text: str, weight: str) -> None:
    """Pillow with the family, weight, size and features of the file; a hundredth is allowed."""
    if not features.check("raqm"):
        pytest.skip("Pillow has no text shaping here")
    made = svg(scene(line(text, weight=weight)))
    (element,) = found(made, ".//s:text")
    face = {"400": "Regular", "600": "SemiBold", "700": "Bold"}[element.get("font-weight", "400")]
    assert f'font-weight:{element.get("font-weight", "400")};src:url("fonts/Inter-{face}.ttf")' in made
    assert 'font-feature-settings:"kern","calt" 0,"liga" 0;' in made
    font = ImageFont.truetype(
        str(shipped.resources() / "fonts" / f"Inter-{face}.ttf"), 1000, layout_engine=ImageFont.Layout.RAQM
    )
    shown = font.getlength("".join(element.itertext()), features=["kern", "-calt", "-liga"])
    at_size = shown * float(element.get("font-size", "0")) / 1000
    assert at_size == pytest.approx(width(text, 30.0, weight), rel=0.01)  # type: ignore[arg-type]


def test_the_fonts_to_lie_beside_are_those_that_are_used() -> None:
    assert font_files(everything()) == ("Inter-Regular.ttf", "Inter-Bold.ttf", "DejaVuSans.ttf")
    assert font_files(scene(square(1, 1, 9))) == ()
    for file in font_files(everything()):
        assert f'url("fonts/{file}")' in svg(everything())
        assert (shipped.resources() / "fonts" / file).is_file()


def test_a_halo_is_drawn_first() -> None:
    (element,) = found(svg(scene(line("x", halo="#FFFFFF"))), ".//s:text")
    assert element.get("paint-order") == "stroke"
    assert float(element.get("stroke-width", "0")) >= 2 * 0.12 * font_size(30.0)
    (*behind, letters) = found(svg(scene(line("x", halo="#FFFFFF")), outlined=True), ".//s:path")
    assert {(path.get("fill"), path.get("stroke")) for path in behind} == {("none", "#FFFFFF")}
    assert (letters.get("fill"), letters.get("stroke")) == (INK, None)


def test_equal_scenes_give_equal_text() -> None:
    assert svg(everything()) == svg(everything())


def test_qt_draws_the_outlined_file_as_we_paint_it() -> None:
    marks = tuple(mark for mark in everything().marks if not (isinstance(mark, Shape) and mark.clip))
    made = scene(*marks)
    drawn = QImage(480, 270, QImage.Format.Format_ARGB32)
    drawn.fill(QColor("#00000000"))
    painter = QPainter(drawn)
    QSvgRenderer(QByteArray(svg(made, outlined=True).encode())).render(painter)
    painter.end()
    assert difference(pixels(drawn), pixels(image(made))) < 0.25


@pytest.mark.skipif(not shutil.which("rsvg-convert"), reason="there is no second SVG painter here")
@pytest.mark.parametrize("background", ["#F5F2EB", None])
def test_librsvg_draws_the_outlined_file_as_we_paint_it(background: str | None, tmp_path: Path) -> None:
    file = tmp_path / "a.svg"
    file.write_text(svg(everything(background), outlined=True), encoding="utf-8")
    drawn = subprocess.run(["rsvg-convert", str(file)], capture_output=True, check=True).stdout
    assert difference(Image.open(BytesIO(drawn)), decoded(png(everything(background)))) < 0.25


def difference(one: Image.Image, other: Image.Image) -> float:
    """The mean difference of a channel over black, 0 to 255."""
    black = Image.new("RGBA", one.size, "#000000")
    over = [Image.alpha_composite(black, each.convert("RGBA")).convert("RGB") for each in (one, other)]
    return max(ImageStat.Stat(ImageChops.difference(*over)).mean)


def test_a_title_holds_no_sign_that_turns_the_direction_of_reading() -> None:
    made = everything()
    told = Scene(
        picture="p", frame=made.frame, background=None, marks=(), title="a\u2066b\u202ec\x00", alternative="d\u2069"
    )
    root = etree.fromstring(svg(told).encode())
    assert [root.findtext(f"s:{name}", namespaces=NS) for name in ("title", "desc")] == ["abc", "d"]
