"""Slips of spelling: set right for the reading, each fact still found where it was written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.questions.plain_text import plainly, without_hedges
from studio.questions.reading import read
from studio.questions.spelling import set_right


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("my tred is at 4/32", "my tread is at 4/32"),
        ("sidwall buldge on the frnt", "sidewall bulge on the front"),
        ("mine r at 5mm", "mine are at 5mm"),
        ("thread depth 5mm", "tread depth 5mm"),
        ("threads showing", "threads showing"),
        ("top tier brand", "top tier brand"),
        ("205/55 R16", "205/55 R16"),
        ("wat psi shud i run", "what psi should i run"),
    ],
)
def test_slips_are_set_right_and_nothing_else(written: str, meant: str) -> None:
    assert set_right(written)[0] == meant


def test_facts_keep_their_place_in_what_was_written() -> None:
    text = "wat about a buldge, tred at 5/32 on the frnt left"
    facts = {fact.field: fact for fact in read(text).facts if fact.end}
    assert facts["damage"].text == "buldge" and facts["depth"].text == "5/32"
    assert all(text[fact.start : fact.end] == fact.text for fact in facts.values())


@given(st.lists(st.sampled_from(["tred", "wat", "5/32", "u", "r", "tire", "buldge", "  ", "n", "35 psi", "(", "."])))
def test_every_place_leads_back_into_the_text(words: list[str]) -> None:
    text = " ".join(words)
    right, places = set_right(text)
    for start in range(len(right)):
        assert 0 <= places.start(start) <= places.end(start + 1) <= len(text)


def test_hedges_say_nothing_of_the_number() -> None:
    assert without_hedges("was at like maybe ") == "was at "
    assert plainly("loses like 3 psi, honestly about 2") == "loses 3 psi, 2"
