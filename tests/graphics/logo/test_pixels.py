"""Logos from PNG files: measured before they are decoded, encoded anew, refused where they are none."""

import struct
import zlib
from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image as Pillow
from PIL import PngImagePlugin

from studio.graphics.logo.art import LogoError
from studio.graphics.logo.pixels import LONGER_SIDE, art_of_png
from studio.graphics.logo.reading import art_of, clean_file


def png(size: tuple[int, int] = (40, 20), color: tuple[int, ...] = (200, 30, 20, 255), **more: object) -> bytes:
    buffer = BytesIO()
    Pillow.new("RGBA", size, color).save(buffer, "PNG", **more)
    return buffer.getvalue()


def chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))


def test_a_logo_of_pixels_keeps_its_shape_and_alpha() -> None:
    art = art_of(png((300, 100), (200, 30, 20, 128)), "logo.PNG")
    assert art.ratio == 3 and art.shapes == ()
    with Pillow.open(BytesIO(art.png)) as again:
        assert again.mode == "RGBA" and again.getpixel((5, 5)) == (200, 30, 20, 128)


def test_300_megapixels_are_refused_before_a_pixel_is_decoded() -> None:
    """The header alone says 20000 x 15000; no pixel follows, so decoding would complain of something else."""
    header = struct.pack(">2I5B", 20_000, 15_000, 8, 6, 0, 0, 0)
    bomb = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")
    with pytest.raises(LogoError, match=r"20000 x 15000 pixels, 300 megapixels; expected at most 60, such as"):
        art_of_png(bomb)


def test_what_a_file_says_beside_its_pixels_stays_behind() -> None:
    words = PngImagePlugin.PngInfo()
    words.add_text("Comment", "somebody's place")
    art = art_of_png(png(pnginfo=words, icc_profile=b"not a profile"))
    assert b"somebody" in png(pnginfo=words) and b"somebody" not in art.png and b"iCCP" not in art.png
    assert clean_file(art) == art.png == art_of_png(art.png).png


def test_a_large_logo_is_made_as_large_as_is_ever_shown() -> None:
    art = art_of_png(png((4000, 1000)))
    assert (art.width, art.height) == (LONGER_SIDE, LONGER_SIDE / 4)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "not a PNG"),
        (b"GIF89a" + b"\0" * 60, "not a PNG file: expected a PNG or an SVG"),
        (png()[:60], "not a PNG that can be read"),
        (png(color=(0, 0, 0, 0)), "shows nothing"),
        (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">2I5B", 0, 5, 8, 6, 0, 0, 0)) + b" " * 20, "no pixels"),
    ],
)
def test_what_is_no_logo_is_refused(content: bytes, said: str) -> None:
    with pytest.raises(LogoError, match=said):
        art_of_png(content)


def test_other_kinds_of_file_are_refused_by_their_name() -> None:
    with pytest.raises(LogoError, match=r"'logo\.gif' is not a logo's file; expected a PNG or an SVG"):
        art_of(png(), "logo.gif")


@given(st.integers(0, 90), st.binary(min_size=1, max_size=20))
def test_a_damaged_file_is_read_or_refused_in_one_line(at: int, noise: bytes) -> None:
    whole = png()
    try:
        art = art_of_png(whole[:at] + noise + whole[at + len(noise) :])
    except LogoError as error:
        assert "\n" not in str(error)
    else:
        assert art.png.startswith(b"\x89PNG")
