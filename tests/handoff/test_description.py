"""The description keeps its length, its chapters keep the rules, and cautions and disclosures are never cut."""

import io
import re

import pytest
import webvtt
from msgspec.structs import replace

from studio.handoff.description import (
    LONGEST,
    chapter_lines,
    description,
    episode_chapters,
    webvtt_chapters,
)  # fmt: skip
from studio.model.rundown import PaidTie, Point, Rundown, Segment
from tests.handoff.materials import bare, demo, demo_material, hostile, material_of

TEN_SECONDS = " ".join(["word"] * 30)


def spoken(count: int, **more: object):
    segments = tuple(
        Segment(id=f"s{n}", title=f"Part {n} of <many> & more", points=(Point(text=TEN_SECONDS),)) for n in range(count)
    )
    return replace(demo(), rundown=Rundown(segments=segments, words_per_minute=150, **more))


def test_chapters_by_the_rules() -> None:
    lines = chapter_lines(episode_chapters(material_of(spoken(4), ()))).splitlines()
    assert lines == [f"0:{12 * n:02d} Part {n} of <many> & more" for n in range(4)]


def test_two_segments_make_no_chapters_and_say_why() -> None:
    made = episode_chapters(material_of(spoken(2), ()))
    assert made.all == () and "at least 3" in made.why_none


def test_webvtt_chapters_are_read_back() -> None:
    material = material_of(spoken(3), ())
    text = webvtt_chapters(episode_chapters(material).all, material)
    read = webvtt.from_buffer(io.StringIO(text))
    assert [each.start for each in read] == ["00:00:00.000", "00:00:12.000", "00:00:24.000"]
    assert read[-1].end == "00:00:36.000"
    assert "&lt;many&gt; &amp; more" in text


def test_sources_have_their_standing_and_cautions_stand_first() -> None:
    text = description(demo_material())
    assert len(text) <= LONGEST
    assert re.search(r"49 CFR 570\.9.*\(published\)", text)
    assert text.index("Safety") < text.index("Sources")
    assert "qualified tire professional" in text


def test_a_paid_tie_is_disclosed() -> None:
    tie = PaidTie(
        what="Two tires lent by a workshop", segment="s0", line="The workshop on Mill Lane lent us two tires."
    )
    text = description(material_of(spoken(3, paid_ties=(tie,)), ()))
    assert "Paid or lent: Two tires lent by a workshop. The workshop on Mill Lane lent us two tires." in text


def test_many_segments_and_hostile_titles_stay_within_the_length() -> None:
    for episode in (spoken(400), hostile(), bare()):
        text = description(material_of(episode, ()))
        assert 0 < len(text) <= LONGEST
        assert "\x07" not in text


@pytest.mark.parametrize("start", ["0:00 ", "(12:34) ", "1:02:03 "])
def test_a_title_or_story_that_begins_with_a_time_is_no_chapter(start) -> None:
    material = material_of(replace(spoken(4), title=f"{start}Tires", story=f"{start}a story"), ())
    times = [line for line in description(material).splitlines() if re.match(r"\W*\d+:\d\d", line)]
    assert times == chapter_lines(episode_chapters(material)).splitlines()
