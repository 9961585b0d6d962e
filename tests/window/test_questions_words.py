"""What is shown of a fact can be typed again; rows sort and sum up as they should; offsets count as Qt does."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.question import CorrectedFact, Question
from studio.questions.answering import fact_names
from studio.questions.reading import read
from studio.reference.tables import load_tables
from studio.window.questions_comment import offsets
from studio.window.questions_open import with_correction
from studio.window.questions_rows import Told, Wish, about_words, arranged, key_of, same_rows, summary
from studio.window.questions_words import FACTS, aside, can_be_typed, checked, field_of, shown, words_of

DATA = Path(__file__).parent.parent / "questions" / "data" / "comments.csv"
COMMENTS = [row["text"] for row in csv.DictReader(DATA.read_text(encoding="utf-8").splitlines(keepends=True))]


def test_every_fact_that_is_shown_can_be_typed_again() -> None:
    count = 0
    for comment in COMMENTS:
        for name, fact in fact_names(read(comment)):
            field = field_of(name)
            assert words_of(name)
            if not can_be_typed(field) or (field == "tread" and "_" in shown(fact)):
                continue
            count += 1
            assert checked(field, shown(fact), "us", load_tables()), (comment, name)
            aside(field, shown(fact), "metric")
    assert count > 500


@pytest.mark.parametrize("field", FACTS)
def test_every_example_is_taken_and_nonsense_is_refused_with_it(field: str) -> None:
    assert checked(field, FACTS[field].example, "metric", load_tables())
    if FACTS[field].kind or FACTS[field].choices or field in ("size", "date_code", "region"):
        with pytest.raises(ValueError, match="expected"):
            checked(field, "nonsense ???", "us", load_tables())


@pytest.mark.parametrize(("typed", "kept"), [("5", "5/32 in"), ("5/32", "5/32"), ("4 mm", "4 mm")])
def test_a_number_without_a_unit_gets_the_episodes(typed: str, kept: str) -> None:
    assert checked("depth", typed, "us", load_tables()) == kept


def test_names_of_facts_are_said_in_words() -> None:
    assert (words_of("depth"), words_of("depth_2"), field_of("depth_new_3")) == ("depth", "depth, no. 2", "depth_new")


@given(st.text(max_size=60), st.integers(0, 60))
def test_offsets_are_those_of_the_documents_own_characters(text: str, place: int) -> None:
    """Qt counts UTF-16 units: Unicode 15, section 3.9, D91."""
    place = min(place, len(text))
    assert offsets(text, [place]) == [len(text[:place].encode("utf-16-le", "surrogatepass")) // 2]


def row(id_: str, **more: object) -> Question:
    return Question(id=id_, text=f"words of {id_}", **more)  # type: ignore[arg-type]


def test_order_filter_and_sum() -> None:
    rows = (row("a", asked=3), row("b"), row("c", state="answered"), row("d", asked=9), row("e"))
    known = {
        key_of(rows[0]): Told("age", (), "answerable"), key_of(rows[1]): Told("condition", (), "urgent"),
        key_of(rows[2]): Told("age", (), "answerable"), key_of(rows[3]): Told("tread_left", ("age",), "needs_fact"),
    }  # fmt: skip
    assert arranged(rows, known, Wish()) == [1, 0, 3, 4]
    assert arranged(rows, known, Wish(order="asked")) == [3, 0, 1, 4]
    assert arranged(rows, known, Wish(show="answered")) == [2]
    assert arranged(rows, known, Wish(show="all", kind="age")) == [0, 3, 2]
    assert summary(rows, known) == "4 open, 1 urgent" and summary(rows[2:3], known) == "all answered"
    assert about_words(rows[3], known[key_of(rows[3])]) == "needs a fact · tread left, age · asked 9 times"
    assert about_words(rows[4], None) == "not read yet"


def test_a_reply_alone_does_not_order_the_list_anew() -> None:
    before = (row("a"), row("b"))
    assert same_rows(before, (before[0], row("b", reply="words")))
    assert not same_rows(before, (before[0], row("b", asked=2))) and not same_rows(before, before[:1])


def test_a_correction_is_put_in_changed_and_taken_back() -> None:
    one = with_correction(row("a"), "depth", "4 mm")
    two = with_correction(one, "depth", "")
    assert two.corrected == (CorrectedFact(field="depth", value=""),)
    assert with_correction(two, "depth", None).corrected == ()
