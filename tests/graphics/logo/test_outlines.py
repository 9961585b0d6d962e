"""Logos from SVG files: geometry against the W3C's rules and against another program, everything hostile refused."""

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

from studio.graphics.color import luminance
from studio.graphics.draw import bounds
from studio.graphics.frame import Box, Frame
from studio.graphics.logo.art import LogoError, placed
from studio.graphics.logo.outlines import HEIGHT, art_of_svg, read_transform
from studio.graphics.logo.reading import art_of, clean_file
from studio.graphics.logo.tree import MOST_BYTES
from studio.graphics.paint.raster import image
from studio.graphics.scene import Scene

OPEN = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 100 50"'
RECT = '<rect width="10" height="10"/>'


def svg(inside: str, more: str = "") -> bytes:
    return f"{OPEN}{more}>{inside}</svg>".encode()


@pytest.mark.parametrize(
    ("inside", "named"),
    [
        ("<script>alert(1)</script>", "a script"),
        ("<g><script href='https://example.org/x.js'/></g>", "a script"),
        ('<rect width="9" height="9" onload="alert(1)"/>', "the event handler onload"),
        ('<rect width="9" height="9" onClick="x()"/>', "the event handler onClick"),
        ("<foreignObject><body xmlns='http://www.w3.org/1999/xhtml'/></foreignObject>", "a foreign object"),
        ('<image xlink:href="file:///etc/passwd" width="9" height="9"/>', "an image by reference"),
        ('<image href="data:image/png;base64,AAAA"/>', "an image by reference"),
        ('<use xlink:href="https://example.org/a.svg#b"/>', "a part used by reference"),
        ('<use href="#a"/>', "a part used by reference"),
        ('<a href="javascript:alert(1)"><rect width="9" height="9"/></a>', "a link"),
        ('<rect width="9" height="9" fill="url(https://example.org/x)"/>', "a reference by url()"),
        ('<rect width="9" height="9" style="fill: U R L (#a)"/>', "a reference by url()"),
        ('<rect width="9" height="9" href="#a"/>', "a reference to something elsewhere"),
        ('<rect width="9" height="9"><animate attributeName="x"/></rect>', "an animation"),
        ('<rect width="9" height="9"><set attributeName="onload" to="x"/></rect>', "an animation"),
        ('<linearGradient id="a"/>', "a gradient"),
        ("<text>Bay</text>", "text that is not outlined"),
        ('<filter id="a"/>', "a filter"),
        ("<?xml-stylesheet href='https://example.org/x.css'?><rect width='9' height='9'/>",
         "the processing instruction xml-stylesheet"),
        ('<x:script xmlns:x="http://www.w3.org/1999/xhtml">1</x:script>', "a script"),
    ],
)  # fmt: skip
def test_what_can_run_load_or_refer_is_refused_by_name(inside: str, named: str) -> None:
    with pytest.raises(LogoError, match=rf"the logo holds {re.escape(named)} \(line 1\)") as raised:
        art_of_svg(svg(inside + RECT))
    assert "\n" not in str(raised.value)


@pytest.mark.parametrize(
    ("document", "said"),
    [
        ('<!DOCTYPE svg [<!ENTITY a "b">]>' + OPEN + ">&a;</svg>", "a document type with declarations"),
        ('<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>' + OPEN + ">&a;</svg>", "a document type"),
        (OPEN + ">&unknown;</svg>", "undefined entity"),
        (OPEN + "><g></svg>", "mismatched tag"),
        ("<html/>", "its first element is not svg"),
        ("", "no element found"),
        (OPEN + "></svg>", "shows nothing"),
        (OPEN + '><rect width="9" height="9" fill="none"/></svg>', "shows nothing"),
        (OPEN + '><rect width="9" height="9" fill="rgb(1"/></svg>', "is not a colour"),
        (OPEN + '><path d="M0 0A1"/></svg>', "outlines cannot be read"),
        (OPEN + '><rect width="9" height="9" transform="sheer(3)"/></svg>', "is not a transform"),
        (OPEN + '><rect width="9" height="9" transform="scale(1e9)"/></svg>', "beyond all measure"),
        (OPEN + "><style>@import 'x';</style>" + RECT + "</svg>", "more than colours by class"),
        (OPEN + "><style>rect{fill:red}</style>" + RECT + "</svg>", "expected classes only"),
        (OPEN + "><blink/></svg>", "'blink' (line 1)"),
        (OPEN + ">" + "<g>" * 70 + RECT + "</g>" * 70 + "</svg>", "too many parts"),
        (OPEN + ">" + RECT * 6000 + "</svg>", "too many parts"),
        (OPEN + '><path d="M0 0' + "h1" * 30_000 + '"/></svg>', "pieces of outline"),
        ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 1">' + RECT + "</svg>", "20 times"),
        (" " * (MOST_BYTES + 1), "at most"),
    ],
)  # fmt: skip
def test_what_is_no_logo_is_refused_in_one_line(document: str, said: str) -> None:
    with pytest.raises(LogoError, match=re.escape(said)) as raised:
        art_of_svg(document.encode())
    assert "\n" not in str(raised.value) and len(str(raised.value)) < 300


def test_a_harmless_document_type_and_an_editors_remarks_are_left_out() -> None:
    doctype = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
    remarks = '<e:view xmlns:e="http://example.org/editor"><e:image e:href="file:///home"/></e:view>'
    art = art_of_svg(doctype.encode() + svg(remarks + RECT))
    assert art.notes == ("its document type was left out",) and len(art.shapes) == 1
    cleaned = clean_file(art).decode()
    assert "example.org" not in cleaned and "DOCTYPE" not in cleaned and "<path" in cleaned


@pytest.mark.parametrize(
    ("inside", "box"),
    [
        ('<rect x="10" y="5" width="20" height="30"/>', (10, 5, 30, 35)),
        ('<circle cx="50" cy="25" r="10"/>', (40, 15, 60, 35)),
        ('<ellipse cx="50" cy="25" rx="20" ry="10"/>', (30, 15, 70, 35)),
        ('<polygon points="0,0 10,0 10 20"/>', (0, 0, 10, 20)),
        ('<g transform="translate(10 20) scale(2)"><rect width="5" height="4"/></g>', (10, 20, 20, 28)),
        ('<rect width="10" height="20" transform="rotate(90 0 0)"/>', (-20, 0, 0, 10)),
        ('<rect width="10" height="20" transform="rotate(180, 5, 10)"/>', (0, 0, 10, 20)),
        ('<rect width="10" height="10" transform="matrix(1 0 0 1 3 4)"/>', (3, 4, 13, 14)),
        ('<path d="M10 10h20v5H10z"/>', (10, 10, 30, 15)),
        ('<path d="m1,2 3,4"  stroke="red"/>', (1, 2, 4, 6)),
    ],
)
def test_figures_stand_where_the_standard_puts_them(inside: str, box: tuple[float, ...]) -> None:
    """Worked by hand after SVG 1.1, chapters 7 to 9; a logo is kept 1000 units high, here 20 to one."""
    art = art_of_svg(svg(inside))
    assert (art.width, art.height) == (2 * HEIGHT, HEIGHT)
    assert bounds(art.shapes[0].outline) == pytest.approx([20 * value for value in box], abs=1e-6)


DRAWN = [
    '<path fill="#9C2A0B" d="M20 5A20 20 0 1 0 40 25q0-10-10-10t-10 5S25 5 20 5z"/>',
    '<g fill="teal" transform="skewX(10)"><circle cx="40" cy="25" r="18"/><rect x="60" y="5" width="20" height="40" '
    'rx="6"/></g>',
    '<style>.a{fill:#1F4E5F}.b,.c{fill:none;stroke:#000;stroke-width:4}</style><rect class="a" width="50" height="50"/>'
    '<path class="b" d="M60 10l30 30" stroke-linecap="round"/><path class="c" d="M60 40l30-30"/>',
    '<g opacity=".5"><path fill-rule="evenodd" d="M0 0h50v50h-50zM10 10h30v30h-30z"/></g>',
    '<g transform="rotate(20 50 25) scale(.8)"><path d="M10 10c20-20 40 40 60 0S90 60 10 40z" fill="navy"/></g>',
]


@pytest.mark.parametrize("inside", DRAWN)
def test_a_logo_looks_as_another_program_shows_it(inside: str) -> None:
    """Qt's SVG renderer as oracle, on the file as it came and on the one that is written anew."""
    art = art_of_svg(svg(inside))
    ours = image(Scene(picture="logo", frame=Frame(400, 200), background="#FFFFFF",
                       marks=placed(art, Box(0, 0, 400, 200), "Ours")))  # fmt: skip
    for content in (svg(inside), clean_file(art)):
        theirs = QImage(400, 200, QImage.Format.Format_RGB32)
        theirs.fill(0xFFFFFFFF)
        painter = QPainter(theirs)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        QSvgRenderer(QByteArray(content)).render(painter)
        painter.end()
        spots = [(x, y) for x in range(4, 400, 9) for y in range(4, 200, 9)]
        unlike = [at for at in spots if abs(_light(ours, at) - _light(theirs, at)) > 0.1]
        assert len(unlike) <= 0.01 * len(spots)
        assert any(_light(ours, at) < 0.9 for at in spots)


def test_what_is_written_anew_is_read_as_the_same_logo() -> None:
    art = art_of_svg(svg(DRAWN[2]))
    again = art_of(clean_file(art), "logo.SVG")
    assert again.ratio == art.ratio and clean_file(art_of(clean_file(again), "logo.svg")) == clean_file(again)
    for one, other in zip(art.shapes, again.shapes, strict=True):
        assert (one.fill, one.stroke) == (other.fill, other.stroke)
        assert bounds(one.outline) == pytest.approx(bounds(other.outline), abs=0.01)


def test_a_transform_list_is_applied_from_the_right() -> None:
    assert read_transform("translate(10,20) scale(2)") == (2, 0, 0, 2, 10, 20)
    assert read_transform("scale(2) translate(10,20)") == (2, 0, 0, 2, 20, 40)
    assert read_transform("") == (1, 0, 0, 1, 0, 0)


@given(st.binary(max_size=300))
def test_noise_is_refused_in_one_line(content: bytes) -> None:
    with pytest.raises(LogoError) as raised:
        art_of_svg(content)
    assert "\n" not in str(raised.value)


@pytest.mark.parametrize("sign", ["\u2066", "\u202e", "\n", "\u200b", "\x85"])
def test_what_is_repeated_of_a_logos_file_can_be_seen(sign: str) -> None:
    with pytest.raises(LogoError, match=r"outlines cannot be read .*a5") as raised:
        art_of_svg(svg(f'<path d="Ma5 {sign}0"/>'))
    assert str(raised.value).isprintable()


@given(st.text(alphabet="MLHVCSQTAZmlhvcsqtaz0123456789.,- e", max_size=80))
def test_any_path_data_is_read_or_refused(data: str) -> None:
    try:
        art = art_of_svg(svg(f'<path d="{data}" stroke="red"/>'))
    except LogoError as error:
        assert "\n" not in str(error)
    else:
        assert all(abs(value) < 1e9 for shape in art.shapes for value in bounds(shape.outline))


def _light(picture: Any, at: tuple[int, int]) -> float:
    return luminance(picture.pixelColor(*at).name().upper())
