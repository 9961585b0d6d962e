"""A logo from a PNG file: its size is looked at before a pixel is decoded, and it is encoded anew."""

import struct
import warnings
from functools import lru_cache
from io import BytesIO

from PIL import Image as Pillow

from studio.graphics.logo.art import Art, LogoError

MOST_BYTES = 30_000_000
MOST_MEGAPIXELS = 60
LONGER_SIDE = 1600
"""What a logo needs at most: a fifth of the height of a 4K picture, three times as wide."""
_SIGNATURE = b"\x89PNG\r\n\x1a\n"


@lru_cache(maxsize=4)
def art_of_png(content: bytes) -> Art:
    """The logo that a PNG file holds, no larger than is ever shown. Raises LogoError."""
    width, height = _size(content)
    if width * height > MOST_MEGAPIXELS * 1_000_000:
        raise LogoError(
            f"the logo has {width} x {height} pixels, {width * height / 1e6:.0f} megapixels; expected at most "
            f"{MOST_MEGAPIXELS}, such as 1600 x 800"
        )
    try:
        picture = _decoded(content)
    except Exception as error:  # whatever a broken file makes the decoder raise
        raise LogoError(f"the logo is not a PNG that can be read ({type(error).__name__})") from error
    if picture.getchannel("A").getbbox() is None:
        raise LogoError("the logo shows nothing: all of it is transparent")
    buffer = BytesIO()
    picture.save(buffer, "PNG")
    return Art(width=float(picture.width), height=float(picture.height), png=buffer.getvalue())


def _size(content: bytes) -> tuple[int, int]:
    """Width and height as the file's first chunk gives them (W3C PNG, 11.2.2)."""
    if len(content) > MOST_BYTES:
        raise LogoError(f"the logo's file holds {len(content)} bytes; expected at most {MOST_BYTES}")
    if content[:8] != _SIGNATURE or content[12:16] != b"IHDR" or len(content) < 33:
        raise LogoError("the logo is not a PNG file: expected a PNG or an SVG")
    width, height = struct.unpack(">2I", content[16:24])
    if not width or not height:
        raise LogoError("the logo has no pixels")
    return int(width), int(height)


def _decoded(content: bytes) -> Pillow.Image:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        with Pillow.open(BytesIO(content), formats=["PNG"]) as opened:
            opened.load()
            picture = opened.convert("RGBA")
    # A plain copy: what the file says beside its pixels (texts, times, places) stays behind.
    plain = Pillow.frombytes("RGBA", picture.size, picture.tobytes())
    plain.thumbnail((LONGER_SIDE, LONGER_SIDE), Pillow.Resampling.LANCZOS)
    return plain
