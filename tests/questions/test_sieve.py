"""A sieve never holds back a pattern that would have matched, and holds back most of those that would not."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.questions import hints, places_said, vocabulary
from studio.questions.kind_words import CLUES
from studio.questions.sieve import Sieve, must_hold
from tests.questions.comment_set import cases

PATTERNS = [
    *(clue.pattern for clue in CLUES),
    *(word[2] for words in (vocabulary._PLAIN, vocabulary._ZONES, vocabulary._DAMAGE) for word in words),
    *(pattern for words in (hints._PLACES, hints._TONGUES) for _, pattern in words),
    *(places_said._CORNER, places_said._SHORT, places_said._AXLE, places_said._SIDE),
    *(pattern for _, pattern in places_said._GROUPS),
]
SIEVE = Sieve([(pattern, pattern) for pattern in PATTERNS])


def missed(text: str) -> list[str]:
    able = set(SIEVE.of(text))
    return [pattern.pattern for pattern in PATTERNS if pattern not in able and pattern.search(text)]


def test_no_pattern_that_matches_a_comment_is_held_back() -> None:
    assert [(case.id, lost) for case in cases() for text in (case.text, case.text.lower(), case.text.upper())
            if (lost := missed(text))] == []  # fmt: skip


@given(st.sampled_from(PATTERNS).flatmap(lambda pattern: st.from_regex(pattern)))
def test_no_pattern_is_held_back_from_what_it_describes(text: str) -> None:
    assert missed(text) == []


@given(st.text(st.sampled_from("tireſpunKkıİ 5/32psimnow's-é"), max_size=40))
def test_letters_that_ignore_case_in_odd_ways_hold_nothing_back(text: str) -> None:
    assert missed(text) == []


def test_most_patterns_are_passed_over() -> None:
    if must_hold(re.compile("penny")) is None:
        pytest.skip("this Python keeps parsed patterns in another form: each pattern is tried, as it should be then")
    known = [pattern for pattern in PATTERNS if must_hold(pattern) is not None]
    assert len(known) > 0.7 * len(PATTERNS)
    assert len(list(SIEVE.of("hello there"))) < 0.5 * len(PATTERNS)


@pytest.mark.parametrize(
    ("pattern", "pieces"),
    [
        (r"\bpenny\b", {"nny"}),
        (r"t[iy]res?", {"tir", "tyr"}),
        (r"(?:cat|dog) ?house", {"dog", "hou"}),
        (r"[a-z]+\d", None),
        (r"(?:cat|x*)", None),
        (r"(?i)CaT", {"cat"}),
    ],
)
def test_what_a_pattern_must_find(pattern: str, pieces: set[str] | None) -> None:
    if must_hold(re.compile("penny")) is None:
        pytest.skip("this Python keeps parsed patterns in another form")
    found = must_hold(re.compile(pattern))
    assert (None if found is None else set(found)) == pieces
