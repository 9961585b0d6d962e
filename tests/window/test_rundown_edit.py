"""Edits of the rundown as plain functions; texts from outside; ids."""

import re
from datetime import date

import msgspec
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from studio.model.rundown import Dismissal, Rundown, Segment, Take, TakeTime
from studio.model.specimen import Identifier
from studio.storage.episode_file import decode, encode
from studio.window.rundown_edit import (
    LONGEST_POINT,
    clean_line,
    clean_text,
    duplicate_segment,
    free_id,
    move_segment,
    new_segment,
    remove_segment,
    set_aside,
    split_long,
    take_up_again,
)
from tests.window.rundown_samples import HOSTILE, three

PATTERN = re.compile(r"[a-z0-9][a-z0-9_]{0,39}")


def ids(episode):
    return [segment.id for segment in episode.rundown.segments]


def test_a_segment_moves_either_way():
    episode = three()
    assert ids(move_segment(episode, 0, 2)) == ["wrong", "closing", "opening"]
    assert ids(move_segment(episode, 2, 0)) == ["closing", "opening", "wrong"]
    assert move_segment(episode, 1, 1) == episode


def test_a_twin_stands_after_its_segment_with_an_id_of_its_own():
    episode = duplicate_segment(duplicate_segment(three(), 1), 1)
    assert ids(episode) == ["opening", "wrong", "wrong_3", "wrong_2", "closing"]
    assert episode.rundown.segments[2].points == episode.rundown.segments[1].points


def test_a_segment_takes_its_times_and_dismissals_with_it():
    times = (TakeTime(segment="opening", start_s=0, end_s=5), TakeTime(segment="wrong", start_s=5, end_s=9))
    alone = Take(on=date(2026, 1, 1), times=(TakeTime(segment="wrong", start_s=0, end_s=5),))
    episode = three()
    takes = (Take(on=date(2026, 1, 1), times=times), alone)
    aside = tuple(Dismissal(segment=id_, text="4/32 inch", reason="so") for id_ in ("opening", "wrong"))
    episode = replace(episode, rundown=replace(episode.rundown, takes=takes, dismissed=aside))
    after = remove_segment(episode, 1).rundown
    assert [segment.id for segment in after.segments] == ["opening", "closing"]
    assert [[time.segment for time in take.times] for take in after.takes] == [["opening"]]
    assert [its.segment for its in after.dismissed] == ["opening"]


def test_a_mark_is_set_aside_once_and_taken_up_again():
    episode = set_aside(three(), "wrong", " 4/32 inch ", "a viewer's number")
    episode = set_aside(episode, "wrong", "4/32 inch", " another reason ")
    assert episode.rundown.dismissed == (Dismissal(segment="wrong", text="4/32 inch", reason="another reason"),)
    assert take_up_again(episode, "wrong", "4/32 inch").rundown.dismissed == ()


@given(st.lists(st.text(max_size=60), max_size=12))
def test_every_new_segment_has_an_id_that_the_file_takes_and_that_is_its_own(titles):
    rundown = Rundown()
    for title in titles:
        made = new_segment(rundown, title=title)
        assert PATTERN.fullmatch(made.id)
        assert msgspec.convert(made.id, Identifier) == made.id
        rundown = replace(rundown, segments=(*rundown.segments, made))
    assert len({segment.id for segment in rundown.segments}) == len(titles)


def test_ids_are_made_from_titles():
    assert free_id(Rundown(), "What the gauge says") == "what_the_gauge_says"
    assert free_id(Rundown(segments=(Segment(id="a", title=""),)), "Ä!") == "a_2"
    assert free_id(Rundown(), "\U0001f600") == "segment"


@given(st.text(alphabet=st.characters(exclude_categories=()), max_size=200))
def test_text_from_outside_can_be_kept_in_a_file(text):
    kept = clean_text(text)
    assert "\r" not in kept and "\x00" not in kept and "\u2029" not in kept
    kept.encode()
    assert clean_text(kept) == kept
    assert "\n" not in clean_line(text)


def test_hostile_titles_come_back_from_the_file_as_they_were():
    episode = three()
    segments = (replace(episode.rundown.segments[0], title=HOSTILE), *episode.rundown.segments[1:])
    episode = replace(episode, rundown=replace(episode.rundown, segments=segments))
    assert decode(encode(episode)).rundown.segments[0].title == HOSTILE


@given(st.integers(0, 4), st.sampled_from(["word ", "x", "two\nlines "]))
def test_a_long_text_is_parted_into_points_that_the_file_takes(times, unit):
    text = unit * (times * LONGEST_POINT // len(unit) + 1)
    parts = split_long(text)
    assert all(len(part) <= LONGEST_POINT for part in parts)
    assert "".join("".join(parts).split()) == "".join(text.split())
