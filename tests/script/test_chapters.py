"""Chapters by the rules of video platforms: first 0:00, at least 3, each at least 10 s (conventions, section 4)."""

import re
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.script.chapters import Spoken, chapters, clock


def spoken(*lengths: float, first: float = 0.0) -> tuple[Spoken, ...]:
    at, made = Fraction(first), []
    for number, length in enumerate(lengths):
        made.append(Spoken(segment=f"s{number}", title=f"Part {number}", starts_s=at, ends_s=at + Fraction(length)))
        at += Fraction(length)
    return tuple(made)


def lines(*lengths: float) -> list[str]:
    return [chapter.line for chapter in chapters(spoken(*lengths)).all]


@pytest.mark.parametrize(
    ("lengths", "expected"),
    [
        ((20, 30, 40), ["0:00 Part 0", "0:20 Part 1", "0:50 Part 2"]),
        ((20, 5, 30, 40), ["0:00 Part 0", "0:25 Part 2", "0:55 Part 3"]),  # 1 joins the one before it
        ((5, 30, 20, 40), ["0:00 Part 0", "0:35 Part 2", "0:55 Part 3"]),  # nothing before 0: 1 joins it
        ((3, 3, 3, 3, 30, 20, 40), ["0:00 Part 0", "0:12 Part 4", "0:42 Part 5", "1:02 Part 6"]),
        ((3600, 61.5, 30), ["0:00 Part 0", "1:00:00 Part 1", "1:01:01 Part 2"]),
        ((20, 30, 40, 9.5), ["0:00 Part 0", "0:20 Part 1", "0:50 Part 2"]),
        ((30, 30), []),
        ((30, 5, 30), []),
        ((), []),
    ],
)
def test_chapters(lengths: tuple[float, ...], expected: list[str]) -> None:
    assert lines(*lengths) == expected
    assert bool(chapters(spoken(*lengths)).why_none) == (not expected)


def test_a_take_that_begins_late_still_has_its_first_chapter_at_nothing() -> None:
    assert [c.mark for c in chapters(spoken(20, 20, 20, first=12.5)).all] == ["0:00", "0:32", "0:52"]


def test_titles_from_outside_stay_on_one_line() -> None:
    wild = [Spoken(segment=str(i), title=title, starts_s=Fraction(20 * i), ends_s=Fraction(20 * i + 20))
            for i, title in enumerate(["a\n--> b\u202e <b> \U0001f600", "", "x" * 500])]  # fmt: skip
    first, second, third = [c.line for c in chapters(wild).all]
    assert first == "0:00 a --> b <b> \U0001f600" and second == "0:20 Part 2" and len(third) == len("0:40 ") + 100


@given(st.lists(st.floats(0, 4000), max_size=20))
def test_whatever_the_times_the_rules_hold(lengths: list[float]) -> None:
    found = chapters(spoken(*lengths))
    marks = [chapter.mark for chapter in found.all]
    assert (len(marks) >= 3 and marks[0] == "0:00") or (not marks and found.why_none)
    assert all(re.fullmatch(r"(\d+:[0-5]\d:[0-5]\d|[0-5]?\d:[0-5]\d)", mark) for mark in marks)
    seconds = [sum(int(x) * 60**i for i, x in enumerate(reversed(mark.split(":")))) for mark in marks]
    assert all(b - a >= 10 for a, b in pairwise(seconds))
    if seconds:
        assert sum(Fraction(x) for x in lengths) - seconds[-1] >= 10


def test_the_clock() -> None:
    assert [clock(Fraction(s)) for s in (0, 59, 60, "3599.99", 3600)] == ["0:00", "0:59", "1:00", "59:59", "1:00:00"]
