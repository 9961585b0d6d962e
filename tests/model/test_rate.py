"""Frame counts and their labels, held to SMPTE ST 12-1 (by its published cases) and to OpenTimelineIO."""

from fractions import Fraction

import opentimelineio as otio
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.rate import RATES, frames_in, read_rate, seconds_of, timecode


@pytest.mark.parametrize(
    ("frames", "label"),
    [(0, "00:00:00;00"), (1799, "00:00:59;29"), (1800, "00:01:00;02"), (17982, "00:10:00;00"), (107892, "01:00:00;00")],
)
def test_smpte_st_12_1_drop_frame_labels(frames: int, label: str) -> None:
    assert timecode(frames, "30000/1001") == label


@pytest.mark.parametrize("rate", ["24000/1001", "25", "30000/1001", "60"])
@given(frames=st.integers(0, 400_000))
def test_labels_agree_with_opentimelineio(rate: str, frames: int) -> None:
    exact = RATES[rate]
    time = otio.opentime.RationalTime(frames, float(exact))
    assert timecode(frames, rate) == otio.opentime.to_timecode(time, float(exact), rate == "30000/1001")


@pytest.mark.parametrize("rate", RATES)
@given(frames=st.integers(0, 1_000_000))
def test_a_frame_s_time_leads_back_to_it(rate: str, frames: int) -> None:
    assert frames_in(seconds_of(frames, rate), rate) == frames


def test_a_time_between_frames_goes_to_the_nearest() -> None:
    assert frames_in(Fraction(1, 2), "25") == 13  # 12.5, halves up
    assert frames_in(Fraction(10), "30000/1001") == 300  # 299.70
    assert frames_in(Fraction(10), "24000/1001") == 240  # 239.76


def test_another_rate_is_refused_with_those_that_exist() -> None:
    assert read_rate("25") == "25"
    with pytest.raises(ValueError, match=r"'29\.97' is not a frame rate; expected one of 24000/1001, 25"):
        read_rate("29.97")
