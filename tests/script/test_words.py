"""Text as it is spoken, counted by hand."""

import pytest

from studio.script.words import as_spoken, count_words


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2/32 in", 6),  # two thirty-seconds of an inch
        ("The tread is 2/32 of an inch deep.", 10),
        ("4.0 mm", 2),  # four millimeters
        ("55 %", 3),  # fifty-five percent
        ("36 psi", 3),
        ("60 mph", 4),  # sixty miles per hour
        ("11,300 mi", 5),  # eleven thousand three hundred miles
        ("in 2026", 4),  # in twenty twenty-six
        ("235/60R18", 6),  # two thirty-five sixty R eighteen
        ("3/4 of the way", 5),
        ("don't stop", 2),
        ("", 0),
        ("\U0001f600 — … -->", 0),
        ("<b>two</b> tires", 2),
        ("tread <2 mm and >1 mm", 6),
    ],
)
def test_words_that_are_spoken(text: str, words: int) -> None:
    assert count_words(text) == words, as_spoken(text)


@pytest.mark.parametrize(
    ("text", "spoken"),
    [
        ("at 2/32 in now", "at two thirty-seconds of an inch now"),
        ("made in 2024", "made in twenty twenty-four"),
        ("in 2008", "in two thousand eight"),
        ("1/8 in", "an eighth in"),
        ("-6 °C", "minus six degrees Celsius"),
        ("1 mm", "one millimeter"),
        ("4/32", "four thirty-seconds of an inch"),
    ],
)
def test_digits_in_words(text: str, spoken: str) -> None:
    assert " ".join(as_spoken(text).split()) == spoken


def test_long_digits_and_endless_tags_do_no_harm() -> None:
    assert count_words("9" * 5_000) > 0
    assert count_words("<a" * 20_000) > 0
