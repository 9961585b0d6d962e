"""The review of a script, its remarks as rows, its segments as rows with their times."""

from datetime import date
from fractions import Fraction

import pytest
from msgspec.structs import replace

from studio.decide import decide
from studio.model.rundown import Dismissal, PaidTie, Point, Take, TakeTime
from studio.reference.tables import load_tables
from studio.script.check import check_script
from studio.window import rundown_review
from studio.window.rundown_fields import PaceField, PauseField, StepsField, WithPointField, read_length
from studio.window.rundown_remarks import counts_words, remark_rows
from studio.window.rundown_review import Kept, review_job
from studio.window.rundown_rows import clock, segment_rows, total_words
from tests.window.rundown_samples import demo, long_script, rundown_of, segment, three


def reviewed(episode, kept=None):
    job = review_job(episode, decide(episode, load_tables()), load_tables(), kept or Kept())
    try:
        while True:
            next(job)
    except StopIteration as end:
        return end.value


def rows_of(episode):
    review = reviewed(episode)
    return remark_rows(review.remarks, episode.rundown)


def test_every_kind_of_remark_has_its_word_and_says_what_is_expected():
    rows = rows_of(three())
    kinds = [row.kind for row in rows]
    for kind in ("computed", "contradicted", "unbacked", "statement", "hole", "duty"):
        assert kind in kinds
    wrong = next(row for row in rows if row.kind == "contradicted")
    assert "4/32 inch" in wrong.said and "9/32 in" in wrong.right and wrong.where == "segment 2, point 1"
    assert wrong.finding == "tread_left.front_left"
    assert "the finding no.such is gone" in next(row for row in rows if row.kind == "hole").right
    assert "1 contradicted" in counts_words(rows) and "1 hole" in counts_words(rows)


def test_values_said_to_be_equal_that_are_not_have_a_word_of_their_own():
    rows = rows_of(rundown_of(segment("a", "The front left has 9/32 inch (8.5 mm) left.")))
    assert [row.word for row in rows if row.calls] == ["not equal"]


@pytest.mark.parametrize("name", ["minivan_one_new_tire", "estate_before_winter", "feed_truck_three_hurt_tires"])
def test_a_review_by_segments_finds_what_one_check_of_the_whole_finds(name):
    episode, tables = demo(name), load_tables()
    check = check_script(episode, decide(episode, tables), tables)
    review = reviewed(episode)
    assert sorted(review.marks, key=repr) == sorted(check.marks, key=repr)
    assert sorted((r for r in review.remarks if r not in review.marks), key=repr) == sorted(
        (*check.statements, *check.holes, *check.duties), key=repr
    )


def test_only_a_segment_that_changed_is_checked_again(monkeypatch):
    seen = []

    def spy(episode, findings, tables):
        seen.append([its.id for its in episode.rundown.segments])
        return check_script(episode, findings, tables)

    monkeypatch.setattr(rundown_review, "check_script", spy)
    episode, kept = three(), Kept()
    reviewed(episode, kept)
    changed = replace(episode.rundown.segments[2], points=(Point(text="It is 4 mm."),))
    episode = replace(episode, rundown=replace(episode.rundown, segments=(*episode.rundown.segments[:2], changed)))
    reviewed(episode, kept)
    reviewed(episode, kept)
    assert seen == [["opening", "wrong", "closing"], ["closing"]]
    reviewed(replace(episode, units="metric"), kept)
    assert seen[-1] == ["opening", "wrong", "closing"], "another audience is another ground"


def test_a_long_script_is_checked_in_parts_that_can_be_stopped():
    episode = long_script(4_000, 8)
    job = review_job(episode, decide(episode, load_tables()), load_tables(), Kept())
    assert len([next(job) for _ in range(3)]) == 3
    job.close()


def test_a_mark_that_was_set_aside_no_longer_asks_for_work():
    episode = three()
    aside = Dismissal(segment="wrong", text="4/32 inch", reason="the viewer's own number")
    episode = replace(episode, rundown=replace(episode.rundown, dismissed=(aside,)))
    row = next(row for row in rows_of(episode) if row.kind == "contradicted")
    assert (row.calls, row.dismissed, row.word) == (False, "the viewer's own number", "contradicted, set aside")
    assert reviewed(episode).count("contradicted") == 0


def test_what_is_owed_and_holes_cannot_be_set_aside():
    for row in rows_of(three()):
        assert row.can_be_set_aside == (row.kind in ("contradicted", "unbacked", "statement"))


def test_a_paid_tie_that_owes_its_card_is_told():
    episode = rundown_of(segment("a", "Hello."), paid_ties=(PaidTie(what="a gauge", segment="a", line="Lent."),))
    rows = rows_of(episode)
    assert [row.kind for row in rows] == ["duty"] and "card" in rows[0].said


def test_rows_run_up_to_the_total_and_say_what_is_over_the_target():
    words = " ".join(["word"] * 75)
    episode = rundown_of(segment("a", words), segment("b", words), target_s=45.0, words_per_minute=150.0)
    review = reviewed(episode)
    first, second = segment_rows(episode.rundown, review.timing, ())
    assert (first.planned_s, first.ends_s, second.ends_s) == (Fraction(30), Fraction(30), Fraction(60))
    assert (first.over, second.over, second.calls) == (False, True, "0:15 over the target")
    assert total_words(review.timing) == "1:00 of 0:45, 0:15 over"
    assert "ends at 1:00" in second.spoken and "over the target" in second.spoken


def test_the_last_take_in_order_says_how_long_each_segment_was():
    good = Take(on=date(2026, 1, 1), times=(TakeTime(segment="opening", start_s=0, end_s=12),))
    upside_down = Take(on=date(2026, 1, 2), times=(TakeTime(segment="opening", start_s=9, end_s=3),))
    episode = three()
    episode = replace(episode, rundown=replace(episode.rundown, takes=(good, upside_down)))
    assert [row.said_s for row in segment_rows(episode.rundown, None, ())] == [Fraction(12), None, None]


def test_a_clock_reads_as_people_read_it():
    assert [clock(s) for s in (None, 0, 59.6, Fraction(3661))] == ["–", "0:00", "1:00", "1:01:01"]


@pytest.mark.parametrize(
    ("text", "seconds"), [("8:30", 510), ("510 s", 510), ("8.5 min", 510), ("1:02:00", 3720), ("90", 90)]
)
def test_lengths_are_read_as_they_are_said(text, seconds):
    assert read_length(text) == seconds


@pytest.mark.parametrize("text", ["", "0", "8:61", "soon", "-3", "25:00:00", "1e9"])
def test_what_is_no_length_is_refused_with_an_example(text):
    with pytest.raises(ValueError, match="such as 8:30"):
        read_length(text)


def test_fields_refuse_with_an_example():
    for field, text in ((PauseField, "900"), (PaceField, "90"), (WithPointField, "0"), (StepsField, "x" * 101)):
        with pytest.raises(ValueError, match="expected"):
            field.read(field, text)
    assert StepsField.read(StepsField, " drawing, label  one ,drawing") == ("drawing", "label one")
    assert PauseField.read(PauseField, "1,5 s") == 1.5
