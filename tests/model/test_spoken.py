"""Numbers in words, against the words as any English grammar gives them and a reader of our own."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.spoken import spell_integer, spell_number, spell_thirty_seconds

UNITS = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
        " seventeen eighteen nineteen".split()
    )
}
TENS = {word: 10 * n for n, word in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), start=2)}
SCALES = {"thousand": 1_000, "million": 1_000_000, "billion": 1_000_000_000}


def read(words: str) -> int:
    """Number words read by the usual rule: below a hundred added, "hundred" multiplies, a scale closes a group."""
    total = group = 0
    for word in words.replace("-", " ").split():
        if word in SCALES:
            total, group = total + group * SCALES[word], 0
        elif word == "hundred":
            group *= 100
        else:
            group += UNITS[word] if word in UNITS else TENS[word]
    return total + group


@given(st.integers(0, 10**12 - 1))
def test_the_words_read_back_as_the_number(value: int) -> None:
    assert read(spell_integer(value)) == value


@pytest.mark.parametrize(
    ("value", "words"),
    [(0, "zero"), (13, "thirteen"), (20, "twenty"), (21, "twenty-one"), (55, "fifty-five"), (99, "ninety-nine"),
     (100, "one hundred"), (215, "two hundred fifteen"), (1000, "one thousand"), (2026, "two thousand twenty-six"),
     (70_100, "seventy thousand one hundred")],
)  # fmt: skip
def test_whole_numbers(value: int, words: str) -> None:
    assert spell_integer(value) == words


@pytest.mark.parametrize(
    ("digits", "words"),
    [("4.0", "four"), ("-1.25", "minus one point two five"), ("−4", "minus four"), ("0.05", "zero point zero five"),
     ("10.50", "ten point five"), ("0", "zero")],
)  # fmt: skip
def test_decimals_digit_by_digit(digits: str, words: str) -> None:
    assert spell_number(digits) == words


def test_thirty_seconds() -> None:
    assert spell_thirty_seconds("1") == "one thirty-second of an inch"
    assert spell_thirty_seconds("11") == "eleven thirty-seconds of an inch"
