"""The PNG file itself, after the W3C's Portable Network Graphics Specification (third edition)."""

import struct
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.paint.png import encode
from tests.graphics.paint.samples import decoded


def chunks(png: bytes) -> list[tuple[bytes, bytes, int]]:
    assert png[:8] == bytes((137, 80, 78, 71, 13, 10, 26, 10))  # 5.2, PNG signature
    found, here = [], 8
    while here < len(png):
        (length,) = struct.unpack_from(">I", png, here)
        kind, content = png[here + 4 : here + 8], png[here + 8 : here + 8 + length]
        (check,) = struct.unpack_from(">I", png, here + 8 + length)
        found.append((kind, content, check))
        here += 12 + length
    return found


def test_chunks_stand_in_order_with_right_checksums() -> None:
    found = chunks(encode(memoryview(bytes(4 * 6)), 3, 2, 12))
    assert [kind for kind, _, _ in found] == [b"IHDR", b"iCCP", b"IDAT", b"IEND"]
    assert all(zlib.crc32(kind + content) == check for kind, content, check in found)
    assert found[0][1] == struct.pack(">2I5B", 3, 2, 8, 6, 0, 0, 0)  # 11.2.1: 8 bit, truecolour with alpha


def test_rows_carry_filter_0_and_their_own_bytes() -> None:
    buffer = bytes(range(2 * 16))  # two rows of three pixels, padded to 16 bytes
    (data,) = (content for kind, content, _ in chunks(encode(memoryview(buffer), 3, 2, 16)) if kind == b"IDAT")
    assert zlib.decompress(data) == b"\0" + buffer[:12] + b"\0" + buffer[16:28]


@given(st.integers(1, 9), st.integers(1, 9), st.integers(0, 2), st.randoms(use_true_random=False))
def test_an_independent_reader_sees_the_pixels(width: int, height: int, padding: int, random: object) -> None:
    stride = 4 * (width + padding)
    buffer = random.randbytes(stride * height)  # type: ignore[attr-defined]
    read = decoded(encode(memoryview(buffer), width, height, stride))
    assert read.mode == "RGBA"
    assert read.tobytes() == b"".join(buffer[row * stride : row * stride + 4 * width] for row in range(height))


def test_a_buffer_that_is_too_short_gives_no_readable_picture() -> None:
    with pytest.raises(OSError, match=r"truncated|unrecognized|broken"):
        decoded(encode(memoryview(bytes(8)), 100, 100, 400))
