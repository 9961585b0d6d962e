"""A run through the script: it keeps to the pace, follows the clicker, times each segment."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.rundown import PaidTie, Rundown
from studio.reference.tables import load_tables
from studio.script.takes import wrong_with
from studio.script.timing import time_script
from studio.window.prompt_run import PromptRun
from studio.window.prompt_script import PromptPart, next_picture, prompt_parts
from tests.window.rundown_samples import demo, rundown_of, segment, three

DAY = dt.date(2026, 5, 1)


def part(segment_id, *, first=True, last=True, speaking=4.0, pause=0.0, pictures=()):
    return PromptPart(segment_id, segment_id, first, last, segment_id, speaking, pause, pictures)


TWO = (part("a", last=False), part("a", first=False, pause=2.0), part("b"))


def parts_of(episode):
    found = decide(episode, load_tables())
    return prompt_parts(episode, found, time_script(episode.rundown, found, episode.units))


def test_the_parts_hold_text_time_and_both_units_of_each_number():
    parts = parts_of(three())
    assert [p.segment for p in parts] == ["opening"] + ["wrong"] * 4 + ["closing"]
    assert parts[0].text.replace("\u00a0", " ").endswith("The front right has 4/32 in (3.2 mm) left.")
    assert [(n.mine, n.other, n.said) for n in parts[0].numbers] == [
        ("4/32 in", "3.2 mm", "four thirty-seconds of an inch")
    ]
    assert [live for _, live in parts[0].stretches] == [False, True, False]
    assert parts[4].text == "It has ▯▯▯.", "a hole is seen and its reason is not read out"
    assert parts[5].pictures == ("depth_by_wheel",) and next_picture(parts, 2) == ("depth_by_wheel", 3)
    assert next_picture(parts[:2], 0) is None


def test_the_times_of_the_parts_are_those_of_the_script():
    episode = demo()
    found = decide(episode, load_tables())
    timing = time_script(episode.rundown, found, episode.units)
    parts = prompt_parts(episode, found, timing)
    assert sum(p.total_s for p in parts) == pytest.approx(float(timing.total_s))


def test_a_paid_line_is_prompted_at_the_end_of_its_segment():
    tie = PaidTie(what="gauge", segment="a", line="This gauge was lent.", card="Lent")
    parts = parts_of(rundown_of(segment("a", "Hello."), segment("b", "There."), paid_ties=(tie,)))
    assert [p.text for p in parts] == ["Hello.", "This gauge was lent.", "There."]
    assert [p.last for p in parts] == [False, True, True]


def test_an_empty_rundown_has_nothing_to_prompt():
    assert parts_of(rundown_of()) == () and Rundown().segments == ()
    run = PromptRun(())
    run.turn()
    run.tick(1.0)
    run.step(1)
    assert run.part is None and run.take(DAY) is None


def test_it_scrolls_at_the_speaking_pace_and_waits_in_pauses():
    run = PromptRun(TWO)
    run.tick(1.0)
    assert run.share == 0 and run.clock_s == 0, "it is held until it is told to run"
    run.turn()
    run.tick(1.0)
    assert (run.at, run.share) == (0, 0.25)
    run.tick(7.5)
    assert (run.at, run.share) == (1, 1.0), "half a second into a pause of two"
    run.tick(1.0)
    assert run.at == 1
    run.tick(1.0)
    assert run.at == 2


def test_speed_changes_how_fast_it_scrolls_and_not_the_clock():
    run = PromptRun(TWO)
    run.turn()
    run.faster(10)
    run.tick(1.0)
    assert (run.share, run.clock_s, run.speed) == (0.5, 1.0, 2.0)
    run.faster(-100)
    assert run.speed == 0.3
    run.faster(100)
    assert run.speed == 2.5


def test_a_rehearsal_times_each_segment():
    run = PromptRun(TWO)
    run.turn()
    for _ in range(30):
        run.tick(0.5)
    assert run.ended and not run.running
    take = run.take(DAY)
    assert [(t.segment, t.start_s, t.end_s) for t in take.times] == [("a", 0.0, 10.0), ("b", 10.0, 14.0)]


def test_by_hand_the_clicker_alone_goes_on_while_the_clock_runs():
    run = PromptRun(TWO)
    run.turn_by_hand()
    run.turn()
    run.tick(3.0)
    assert (run.at, run.share, run.clock_s) == (0, 0.0, 3.0)
    run.step(1)
    run.step(1)
    run.tick(2.0)
    assert [(t.segment, t.end_s) for t in run.take(DAY).times] == [("a", 3.0), ("b", 5.0)]


def test_a_segment_that_was_broken_off_or_passed_over_is_not_in_the_take():
    run = PromptRun(TWO)
    run.turn()
    run.tick(11.0)
    assert [t.segment for t in run.take(DAY).times] == ["a"], "b has just begun"
    run = PromptRun(TWO)
    run.step(2)
    assert run.take(DAY) is None


def test_who_goes_back_says_it_anew():
    run = PromptRun(TWO)
    run.turn()
    run.tick(11.0)
    run.step(-1)
    assert run.at == 1
    run.tick(20.0)
    take = run.take(DAY)
    assert [t.segment for t in take.times] == ["a", "b"]
    assert take.times[0].start_s == 11.0 and wrong_with(take, {"a": 1, "b": 1}) == ""


def test_the_end_is_left_by_a_step_back():
    run = PromptRun(TWO)
    run.step(1)
    run.step(1)
    run.step(1)
    assert run.ended and run.at == 2
    run.step(-1)
    assert not run.ended and run.at == 1


moves = st.lists(st.one_of(st.floats(0, 30), st.sampled_from([-1, 1, 2, -5]), st.sampled_from(["turn", "hand"])),
                 max_size=40)  # fmt: skip


@given(moves, st.lists(st.tuples(st.sampled_from("abc"), st.floats(0, 9), st.floats(0, 3)), max_size=8))
def test_whatever_is_done_the_times_of_a_take_are_in_order(moves, rows):
    rows.sort()
    parts = [part(id_, speaking=s, pause=p) for id_, s, p in rows]
    run = PromptRun(parts)
    for move in moves:
        if move == "turn":
            run.turn()
        elif move == "hand":
            run.turn_by_hand()
        elif isinstance(move, int):
            run.step(move)
        else:
            run.tick(move)
    assert not parts or 0 <= run.at < len(parts)
    assert 0 <= run.share <= 1
    take = run.take(DAY)
    assert take is None or wrong_with(take, dict.fromkeys("abc", 1)) == ""
