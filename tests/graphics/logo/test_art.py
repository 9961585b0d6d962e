"""A logo keeps its shape wherever it is placed, and every hand paints it."""

import re
from base64 import b64decode
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image as Pillow
from pypdf import PdfReader

from studio.graphics.draw import bounds
from studio.graphics.frame import Box, Frame
from studio.graphics.logo.art import Art, placed
from studio.graphics.logo.outlines import art_of_svg
from studio.graphics.look import read_look
from studio.graphics.paint.pdf import pdf
from studio.graphics.paint.raster import image, png
from studio.graphics.paint.svg import svg
from studio.graphics.scene import Image, Scene, Shape
from tests.graphics.own_look import LOGO, own_look


def scene(art: Art) -> Scene:
    box = Box(40, 20, 100, 60)
    return Scene(picture="logo", frame=Frame(400, 320), background="#FFFFFF", marks=placed(art, box, "Bay Seven"))


@pytest.fixture
def pixels(tmp_path: Path) -> Art:
    art = read_look(own_look(tmp_path, logo={"file": "logo.png"})).art
    assert art is not None
    return art


@given(st.floats(1, 900), st.floats(1, 900))
def test_a_logo_stands_inside_its_box_in_its_own_shape(width: float, height: float) -> None:
    art, box = art_of_svg(LOGO), Box(10, 20, width, height)
    marks = [mark for mark in placed(art, box, "") if isinstance(mark, Shape)]
    left, top, right, bottom = bounds(marks[0].outline)  # the disc: 96 of 100 high, round
    assert right - left == pytest.approx(bottom - top, rel=1e-6)
    assert bottom - top == pytest.approx(0.96 * min(height, width / 3), rel=1e-6)
    assert box.holds(Box(left, top, right - left, bottom - top))


def test_pixels_are_painted_where_they_stand(pixels: Art) -> None:
    """The logo is 2 to 1: 100 by 50 in the middle of the box of 100 by 60."""
    painted = image(scene(pixels))
    inside, outside = [(41, 26), (139, 74), (90, 50)], [(38, 50), (142, 50), (90, 23), (90, 77)]
    assert {painted.pixelColor(*at).name() for at in inside} == {"#7a2e12"}
    assert {painted.pixelColor(*at).name() for at in outside} == {"#ffffff"}
    assert png(scene(pixels)) == png(scene(pixels))


def test_an_svg_holds_the_pixels_itself(pixels: Art) -> None:
    document = svg(scene(pixels))
    (data,) = re.findall(r'xlink:href="([^"]*)"', document)
    assert data.startswith("data:image/png;base64,")
    with Pillow.open(BytesIO(b64decode(data.partition(",")[2]))) as again:
        assert again.size == (40, 20)
    assert 'x="40" y="25" width="100" height="50"' in document and 'aria-label="Bay Seven"' in document


def test_a_pdf_holds_the_pixels_the_right_way_up(tmp_path: Path) -> None:
    upper = Pillow.new("RGBA", (40, 20), (0, 0, 0, 0))
    upper.paste((200, 30, 20, 255), (0, 0, 40, 10))
    buffer = BytesIO()
    upper.save(buffer, "PNG")
    made = pdf((scene(Art(width=40, height=20, png=buffer.getvalue())),))
    assert made == pdf((scene(Art(width=40, height=20, png=buffer.getvalue())),))
    (found,) = PdfReader(BytesIO(made)).pages[0].images
    assert found.image is not None and found.image.size == (40, 20)
    content = PdfReader(BytesIO(made)).pages[0].get_contents()
    assert content is not None
    # The page is turned upside down, the image once more: from 25 to 75 px below the top.
    assert b"1 0 0 -1 40 75 cm\nq\n100 0 0 50 0 0 cm" in content.get_data()


def test_outlines_stay_outlines_in_svg_and_pdf() -> None:
    art = art_of_svg(LOGO)
    assert "<image" not in svg(scene(art)) and svg(scene(art)).count("<path") == 2
    assert len(PdfReader(BytesIO(pdf((scene(art),)))).pages[0].images) == 0


def test_an_image_says_whose_it_is(pixels: Art) -> None:
    (mark,) = scene(pixels).marks
    assert isinstance(mark, Image) and mark.text == "Bay Seven"
