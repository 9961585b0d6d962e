"""Frames against EBU R 95 (action 3.5 %, titles 5 %) and the house's sizes of type."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.frame import FRAMES, Box, Frame, read_frame

sides = st.integers(320, 7680)


@pytest.mark.parametrize(
    ("size", "action", "titles"),
    [
        ((1920, 1080), (67, 38, 1853, 1042), (96, 54, 1824, 1026)),
        ((3840, 2160), (134, 76, 3706, 2084), (192, 108, 3648, 2052)),
        ((1080, 1920), (38, 67, 1042, 1853), (54, 96, 1026, 1824)),
        ((1080, 1080), (38, 38, 1042, 1042), (54, 54, 1026, 1026)),
    ],
)
def test_safe_areas_of_ebu_r_95(size: tuple[int, int], action: tuple[int, ...], titles: tuple[int, ...]) -> None:
    frame = Frame(*size)
    for box, expected in ((frame.action, action), (frame.titles, titles)):
        assert (box.left, box.top, box.right, box.bottom) == pytest.approx(expected, abs=0.5)


@pytest.mark.parametrize(
    ("role", "at_1080"), [("small", 30), ("callout", 36), ("heading", 45), ("deciding", 60), ("incidental", 18)]
)
@pytest.mark.parametrize("frame", [Frame(1920, 1080), Frame(1080, 1920), Frame(1080, 1080)], ids=str)
def test_cap_heights_by_role(role: str, at_1080: float, frame: Frame) -> None:
    assert frame.cap_height(role) == pytest.approx(at_1080)


def test_the_caption_band_is_left_free() -> None:
    assert Frame(1920, 1080, captions=True).content.bottom == pytest.approx(864)
    assert Frame(1080, 1920, captions=True).content.bottom == pytest.approx(1152)
    assert Frame(1920, 1080).content == Frame(1920, 1080).titles


@pytest.mark.parametrize(
    ("size", "shape"),
    [((1920, 1080), "wide"), ((1080, 1920), "tall"), ((1080, 1080), "square"), ((1290, 1080), "square"),
     ((1440, 1080), "square"), ((1080, 1350), "square"), ((1500, 1000), "square"), ((1680, 1050), "wide"),
     ((1050, 1680), "tall")],
)  # fmt: skip
def test_the_shape_chooses_the_composition(size: tuple[int, int], shape: str) -> None:
    assert Frame(*size).shape == shape


@pytest.mark.parametrize("name", FRAMES)
def test_a_frame_is_read_by_name(name: str) -> None:
    assert read_frame(name) is FRAMES[name]


@given(sides, sides)
def test_a_frame_is_read_by_size(width: int, height: int) -> None:
    assert read_frame(f"{width}x{height}") == read_frame(f" {width}X{height} ") == Frame(width, height)


@pytest.mark.parametrize(
    "text", ["", "huge", "1280", "1280x", "319x720", "1280x7681", "-1280x720", "1280.5x720", "1280x720x3", "9" * 500]
)
def test_what_is_no_frame_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(ValueError, match=r"expected wide, tall, square or WIDTHxHEIGHT .* such as 1280x720") as raised:
        read_frame(text)
    assert "\n" not in str(raised.value) and len(str(raised.value)) < 250


def test_boxes_meet_when_they_come_closer_than_the_gap() -> None:
    one, beside = Box(0, 0, 10, 10), Box(12, 0, 10, 10)
    assert not one.meets(beside) and not one.meets(beside, gap=2) and one.meets(beside, gap=2.1)
    assert one.meets(Box(9, 9, 1, 1)) and not one.meets(Box(10, 0, 5, 5))


def test_a_box_holds_what_lies_inside() -> None:
    box = Box(10, 20, 100, 50)
    assert box.holds(box) and box.holds(box.inset(1)) and not box.holds(box.inset(-1))
    assert (box.right, box.bottom, box.center) == (110, 70, (60, 45))
    assert box.inset(5) == Box(15, 25, 90, 40)
