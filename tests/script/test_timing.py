"""Spoken time by plain arithmetic: words x 60 / pace + pauses (150 words a minute is the conventions' default)."""

import datetime as dt
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.finding import Findings
from studio.model.rundown import PaidTie, Point, Rundown, Segment, Take, TakeTime
from studio.script.timing import time_script
from tests.script.made_up import MADE_UP

TEN = "one two three four five six seven eight nine ten"
ON = dt.date(2026, 11, 14)


def segment(id_: str, *points: Point) -> Segment:
    return Segment(id=id_, title=id_, points=points)


def point(words: int, pause_s: float = 0.0) -> Point:
    return Point(text="word " * words, pause_s=pause_s)


def take(*times: tuple[str, float, float]) -> Take:
    return Take(on=ON, times=tuple(TakeTime(segment=s, start_s=a, end_s=b) for s, a, b in times))


def test_words_pauses_and_a_running_total() -> None:
    rundown = Rundown(segments=(segment("a", point(25, 1.5), point(50)), segment("b", point(5))))
    timing = time_script(rundown, MADE_UP, "us")
    assert (timing.words_per_minute, timing.pace_from) == (150, "default")
    a, b = timing.segments
    assert (a.words, a.total_s, b.starts_s, b.total_s) == (75, Fraction("31.5"), Fraction("31.5"), 2)
    assert a.points[1].starts_s == Fraction("11.5")
    assert (timing.words, timing.total_s, timing.over_s, timing.cuts) == (80, Fraction("33.5"), None, ())


def test_a_live_number_counts_as_its_spoken_words_and_a_hole_as_none() -> None:
    """Limit is two thirty-seconds of an inch: 6 words; "The limit is" are 3 more."""
    live = Point(text="The limit is {tread_left.front_left limit}.")
    rundown = Rundown(segments=(segment("a", live, Point(text="{gone.away}")),))
    assert [p.words for p in time_script(rundown, MADE_UP, "us").segments[0].points] == [9, 0]
    assert time_script(rundown, Findings(()), "us").words == 3


def test_the_pace_set_goes_before_the_pace_learnt() -> None:
    """100 words in 50 s without the 10 s of planned pause: 120 a minute."""
    rundown = Rundown(segments=(segment("a", point(100, 10.0)),), takes=(take(("a", 5, 65)),))
    timing = time_script(rundown, MADE_UP, "us")
    assert (timing.words_per_minute, timing.pace_from, timing.total_s) == (120, "learnt", 60)
    pinned = time_script(Rundown(segments=rundown.segments, takes=rundown.takes, words_per_minute=160.0), MADE_UP, "us")
    assert (pinned.words_per_minute, pinned.pace_from) == (160, "set")


def test_takes_weigh_by_their_length() -> None:
    """100 words in 40 s and 100 words in 60 s: 200 words in 100 s are 120 a minute."""
    rundown = Rundown(segments=(segment("a", point(100)),), takes=(take(("a", 0, 40)), take(("a", 0, 60))))
    assert time_script(rundown, MADE_UP, "us").words_per_minute == 120


@pytest.mark.parametrize(
    ("bad", "sentence"),
    [
        (take(("a", 0, 40), ("zz", 40, 50)), "names segment 'zz', which the rundown does not have"),
        (take(("a", 40, 40)), "end at 40 s, not after its start at 40 s"),
        (take(("a", 0, 40), ("b", 30, 50)), "start at 30 s, before the one spoken earlier ends at 40 s"),
        (take(), "has no times"),
        (take(("a", 0, 2)), "3000 words a minute, so it was not a reading of this text"),
    ],
)
def test_a_take_that_cannot_be_right_is_named_and_left_out(bad: Take, sentence: str) -> None:
    rundown = Rundown(segments=(segment("a", point(100)), segment("b", point(10))), takes=(bad, take(("a", 0, 50))))
    timing = time_script(rundown, MADE_UP, "us")
    assert timing.words_per_minute == 120
    assert [problem.take for problem in timing.problems] == [0]
    assert sentence in timing.problems[0].sentence and "2026-11-14" in timing.problems[0].sentence


def test_what_must_be_cut_the_longest_first_and_no_more_than_needed() -> None:
    """Points of 20, 12, 4 and 2 s; 38 s in all; for 12 s there must go 26: 20, and of the rest 12."""
    points = (point(50), point(30), point(10), point(5))
    def cuts(target_s: float) -> list[int]:
        rundown = Rundown(segments=(segment("a", *points),), target_s=target_s)
        return [cut.point for cut in time_script(rundown, MADE_UP, "us").cuts]
    assert cuts(38) == [] and cuts(100) == []
    assert cuts(36) == [3] and cuts(33) == [1] and cuts(12) == [0, 1] and cuts(15) == [0, 2]
    assert cuts(0.1) == [0, 1, 2, 3]


def test_a_paid_line_takes_time_once() -> None:
    tie = PaidTie(what="a gauge", segment="a", line="The gauge was lent to us.")
    rundown = Rundown(segments=(segment("a", point(4)),), paid_ties=(tie,))
    assert time_script(rundown, MADE_UP, "us").words == 10
    said = Rundown(segments=(segment("a", Point(text="Well. The gauge was lent to us.")),), paid_ties=(tie,))
    assert time_script(said, MADE_UP, "us").words == 7


def test_nothing_takes_no_time_and_two_segments_of_one_id_do_no_harm() -> None:
    assert time_script(Rundown(), Findings(()), "us").total_s == 0
    twice = Rundown(segments=(segment("a", point(5)), segment("a", point(5), point(5))))
    assert time_script(twice, MADE_UP, "us").total_s == 6


@given(st.lists(st.integers(0, 60), max_size=8), st.floats(1, 200))
def test_cuts_win_what_is_needed(words: list[int], target_s: float) -> None:
    rundown = Rundown(segments=(segment("a", *map(point, words)),), target_s=target_s)
    timing = time_script(rundown, MADE_UP, "us")
    assert timing.over_s is not None
    won = sum(cut.wins_s for cut in timing.cuts)
    assert won >= timing.over_s and (won == 0 or timing.over_s > 0)
    assert len({cut.point for cut in timing.cuts}) == len(timing.cuts)
