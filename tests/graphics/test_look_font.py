"""Fonts of the channel's own: taken where they can be read and embedded, refused by name where not."""

import sys
from io import BytesIO
from pathlib import Path
from subprocess import run
from typing import Any

import pytest
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.graphics.face import set_in
from studio.graphics.layout import text as text_
from studio.graphics.look import LookError
from studio.graphics.look_font import _about, read_face, signs_from_elsewhere
from studio.graphics.look_parts import Fonts
from studio.graphics.scene import Text
from tests.graphics.own_look import FONTS

SERIF = FONTS / "DejaVuSerif.ttf"


def changed(folder: Path, change: Any) -> Fonts:
    with TTFont(SERIF) as font:
        change(font)
        font.save(folder / "ours.ttf")
    return Fonts(family="Ours", regular="ours.ttf")


def subset(font: TTFont, chars: str) -> None:
    subsetter = Subsetter(Options(glyph_names=False))
    subsetter.populate(text=chars)
    subsetter.subset(font)


def test_no_choice_is_the_shipped_face_and_a_family_is_another(tmp_path: Path) -> None:
    assert read_face(Fonts(), tmp_path) is None
    face = read_face(Fonts(family="DejaVu Sans"), tmp_path)
    assert face is not None and face.bold == "DejaVuSans-Bold.ttf" and signs_from_elsewhere(face) == ""


def test_capitals_of_any_font_have_the_height_that_is_asked_for(tmp_path: Path) -> None:
    """fontTools as oracle: the outline of H, scaled, is as high as the cap height of the role."""
    face = read_face(changed(tmp_path, lambda font: None), tmp_path)
    assert face is not None
    with set_in(face):
        mark = Text(name="t", text="H", at=(0, 100), cap_height=36, fill="#000000", ground="#FFFFFF", role="callout")
    ((file, glyph, _, y, size),) = text_.placed_glyphs(mark)
    with TTFont(SERIF) as font:
        top, em = font["glyf"]["H"].yMax, font["head"].unitsPerEm
        advance = font["hmtx"]["H"][0]
    heights = [command[2] for command in text_.glyph_outline(file, glyph) if len(command) == 3]
    assert y + min(heights) * size == pytest.approx(100 - 36, abs=1e-6)
    assert text_.text_width(mark) == pytest.approx(36 * advance / top, rel=1e-6) and em == 2048


def test_what_its_reader_remarks_of_a_broken_font_does_not_reach_the_terminal(tmp_path: Path) -> None:
    """In a process of its own: a test runner catches what a library says on the side."""
    content = bytearray(SERIF.read_bytes())
    with TTFont(SERIF) as font:
        table = font.reader.tables["cmap"].offset
    first = table + int.from_bytes(content[table + 8 : table + 12], "big")
    content[first + 2 : first + 4] = b"\0\0"  # the first part of the map of signs says that it has no length
    (tmp_path / "ours.ttf").write_bytes(content)
    code = (
        "from pathlib import Path; from studio.graphics.look_font import _about; "
        f"print(_about(Path({str(tmp_path / 'ours.ttf')!r}).read_bytes())[0])"
    )
    told = run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stderr == ""


def test_a_sign_that_is_missing_comes_from_the_shipped_fonts(tmp_path: Path) -> None:
    fonts = changed(tmp_path, lambda font: subset(font, "".join(chr(c) for c in range(32, 127)) + "°"))
    face = read_face(fonts, tmp_path)
    assert face is not None and "×" in signs_from_elsewhere(face) and "°" not in signs_from_elsewhere(face)
    used = [glyph.font for glyph in text_.shape("5×", "regular", face)]
    assert used == [face.regular, "Inter-Regular.ttf"]
    assert text_.missing_glyphs("5×漢", face) == "漢"


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda font: subset(font, "ABC"), "lacks 'DEFGHIJKLMNO'"),
        (lambda font: setattr(font["OS/2"], "fsType", 2), r"may not be embedded by its licence \(fsType 2\)"),
        (lambda font: setattr(font["OS/2"], "fsType", 0x0100), "may not be embedded as we need it"),
        (lambda font: setattr(font, "flavor", "woff"), "is packed for the web"),
    ],
)
def test_a_font_that_will_not_do_is_refused(tmp_path: Path, change: Any, said: str) -> None:
    with pytest.raises(LookError, match=f"fonts.regular 'ours.ttf' {said}"):
        read_face(changed(tmp_path, change), tmp_path)


@settings(max_examples=40)
@given(st.binary(max_size=200), st.integers(0, 3000))
def test_a_broken_font_is_refused_and_nothing_else_happens(noise: bytes, at: int) -> None:
    """Noise in the middle of a font's tables, or nothing but noise: a sentence, or a font that can still be read."""
    with SERIF.open("rb") as stream:
        head = stream.read(4000)
    for content in (noise, head, head[:at] + noise + head[at:]):
        fault, _ = _about(content)
        assert fault


def test_a_changed_file_is_another_font(tmp_path: Path) -> None:
    first = read_face(changed(tmp_path, lambda font: None), tmp_path)
    second = read_face(changed(tmp_path, lambda font: subset(font, "".join(map(chr, range(32, 127))))), tmp_path)
    assert first is not None and second is not None and first.regular != second.regular
    assert BytesIO(text_.font_path(second.regular).read_bytes()).read(4) == b"\x00\x01\x00\x00"
