"""Pixels to a PNG file: 8-bit RGBA, straight alpha, an sRGB profile, the same bytes each time.

The format is that of the W3C's Portable Network Graphics Specification. No row filter and a fast deflate: our
pictures are flat areas and edges, where filters cost time and win nothing.
"""

import struct
import zlib
from functools import lru_cache

from isal import isal_zlib
from PySide6.QtGui import QColorSpace

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_LEVEL = 1
_PROFILE_DATE = struct.pack(">6H", 2024, 1, 1, 0, 0, 0)  # Qt leaves year 0, which readers refuse
_DATE_AT = slice(24, 36)


@lru_cache(maxsize=1)
def srgb_profile() -> bytes:
    """An ICC profile of sRGB (IEC 61966-2-1), with a fixed date."""
    profile = bytearray(QColorSpace(QColorSpace.NamedColorSpace.SRgb).iccProfile().data())
    profile[_DATE_AT] = _PROFILE_DATE
    return bytes(profile)


def encode(pixels: memoryview, width: int, height: int, stride: int) -> bytes:
    """Rows of straight 8-bit RGBA, ``stride`` bytes apart, as a PNG file."""
    header = struct.pack(">2I5B", width, height, 8, 6, 0, 0, 0)
    profile = b"sRGB\0\0" + zlib.compress(srgb_profile(), 9)
    data = isal_zlib.compress(_unfiltered(pixels, width, height, stride), _LEVEL)
    chunks = ((b"IHDR", header), (b"iCCP", profile), (b"IDAT", data), (b"IEND", b""))
    return _SIGNATURE + b"".join(_chunk(kind, content) for kind, content in chunks)


def _unfiltered(pixels: memoryview, width: int, height: int, stride: int) -> bytes:
    parts: list[bytes | memoryview] = [b"\0"] * (2 * height)  # filter type 0 stands before each row
    for row in range(height):
        parts[2 * row + 1] = pixels[row * stride : row * stride + 4 * width]
    return b"".join(parts)


def _chunk(kind: bytes, content: bytes) -> bytes:
    checked = kind + content
    return struct.pack(">I", len(content)) + checked + struct.pack(">I", zlib.crc32(checked))
