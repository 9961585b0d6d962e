"""The timeline reopened by OpenTimelineIO, and the edit list, with exact frames at all rates."""

import threading
from fractions import Fraction
from typing import Any

import opentimelineio as otio
import pytest
from msgspec.structs import replace

from studio.handoff.edit_list import edit_list
from studio.handoff.schedule import Schedule, TimedSegment
from studio.handoff.timeline import KEY, timeline
from studio.model.rate import RATES
from tests.handoff.schedules import SMALL

# seconds 0, 20, 40, 60.5 in frames, worked by hand: seconds x rate, to the nearest
FRAMES = {
    "24000/1001": (0, 480, 959, 1451), "25": (0, 500, 1000, 1513), "30000/1001": (0, 599, 1199, 1813),
    "60": (0, 1200, 2400, 3630),
}  # fmt: skip
# the step at 12 s, counted from the picture's first frame at 9.5 s: 288-228, 300-238, 360-285, 720-570
LEGAL = {"24000/1001": 60, "25": 62, "30000/1001": 75, "60": 150}


def read(rate: Any) -> otio.schema.Timeline:
    return otio.adapters.read_from_string(timeline(SMALL, rate), "otio_json")


@pytest.mark.parametrize("rate", RATES)
def test_each_segment_is_a_clip_at_its_exact_frames(rate: Any) -> None:
    talk, _ = read(rate).tracks
    starts = [clip.source_range.start_time.value for clip in talk]
    ends = [clip.source_range.end_time_exclusive().value for clip in talk]
    assert (*starts, ends[-1]) == FRAMES[rate]
    assert starts[1:] == ends[:-1]
    assert all(clip.source_range.start_time.rate == float(RATES[rate]) for clip in talk)
    assert [clip.name for clip in talk] == [segment.title for segment in SMALL.segments]
    assert [clip.metadata[KEY]["segment"] for clip in talk] == ["opening", "second", "third"]


@pytest.mark.parametrize("rate", RATES)
def test_pictures_lie_where_they_are_spoken_with_their_steps_as_markers(rate: Any) -> None:
    _, shown = read(rate).tracks
    gap, clip = shown
    assert isinstance(gap, otio.schema.Gap)
    start = round(Fraction(19, 2) * RATES[rate] + Fraction(1, 10**6))
    assert gap.duration().value == start
    assert start + clip.duration().value == FRAMES[rate][1]
    assert clip.media_reference.target_url == "pictures/01_depth_compare.png"
    assert [marker.name for marker in clip.markers] == ["drawing", "legal"]
    assert [marker.marked_range.start_time.value for marker in clip.markers] == [0, LEGAL[rate]]


def test_cautions_are_markers_on_the_talk() -> None:
    talk, _ = read("25").tracks
    assert [marker.comment for marker in talk[0].markers] == ["A rolling car can crush a hand."]


def test_it_reopens_equal_and_is_the_same_bytes_each_time() -> None:
    text = timeline(SMALL, "30000/1001")
    assert text == timeline(SMALL, "30000/1001")
    again = otio.adapters.read_from_string(text, "otio_json")
    assert otio.adapters.write_to_string(again, "otio_json", indent=2) + "\n" == text


def test_an_episode_without_segments_gives_a_valid_empty_timeline() -> None:
    made = otio.adapters.read_from_string(timeline(Schedule(title="", segments=()), "25"), "otio_json")
    assert [len(track) for track in made.tracks] == [0, 0]


def test_the_edit_list_in_drop_frame_worked_by_hand() -> None:
    lines = edit_list(SMALL, "30000/1001").splitlines()
    assert lines[:2] == ['TITLE: One tire & "four" <new>', "FCM: DROP FRAME"]
    # 599 frames are 19 s and 29 frames; 1813 lie past one minute, whose first two labels are dropped: 01:00;15
    assert lines[3] == "001  AX       V     C        00:00:00;00 00:00:19;29 01:00:00;00 01:00:19;29"
    events = [line for line in lines if line[:3].isdigit()]
    assert events[-1].split()[-1] == "01:01:00;15"
    assert "* FROM CLIP NAME: Is 2/32 in --> enough? <b>" in lines
    assert any(line.startswith("* LOC: 01:00:09;15 BLUE pictures/01_depth_compare.png") for line in lines)


def test_the_edit_list_counts_every_frame_at_25() -> None:
    events = [line.split()[-1] for line in edit_list(SMALL, "25").splitlines() if line[:3].isdigit()]
    assert events == ["01:00:20:00", "01:00:40:00", "01:01:00:13"]


def test_a_thousand_segments_are_too_many_for_an_edit_list() -> None:
    one = TimedSegment(id="a", title="A", start=Fraction(0), end=Fraction(1))
    with pytest.raises(ValueError, match="1000 segments; an edit list holds at most 999"):
        edit_list(replace(SMALL, segments=(one,) * 1000), "25")


def test_two_threads_that_write_at_once_do_not_stop_each_other() -> None:
    written: list[str] = []

    def write() -> None:
        written.extend(timeline(SMALL, "25") for _ in range(20))

    threads = [threading.Thread(target=write, daemon=True) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=60)
    assert len(written) == 60 and len(set(written)) == 1
