"""Yearly periods: days of the calendar against the calendar library, Easter against published dates and dateutil."""

import datetime as dt

import pytest
from dateutil.easter import easter
from hypothesis import given
from hypothesis import strategies as st

from studio.tires.yearly import easter_sunday, within


@given(st.integers(1900, 2299))
def test_easter_is_that_of_a_library(year):
    assert easter_sunday(year) == easter(year)


@pytest.mark.parametrize(("year", "month", "day"), [(1961, 4, 2), (1818, 3, 22), (2038, 4, 25)])
def test_easter_of_worked_examples(year, month, day):
    """J. Meeus, Astronomical Algorithms, chapter 8 (1961, earliest and latest days)."""
    assert easter_sunday(year) == dt.date(year, month, day)


@pytest.mark.parametrize(
    ("on", "inside"),
    [("2025-10-31", False), ("2025-11-01", True), ("2026-01-01", True), ("2026-04-15", True), ("2026-04-16", False)],
)
def test_a_period_over_the_turn_of_the_year(on, inside):
    """Austria, 1 November to 15 April."""
    assert within(dt.date.fromisoformat(on), "11-01", "04-15") is inside


def test_a_period_that_ends_by_easter():
    """Norway: to the first Sunday after Easter Monday; Easter Sunday of 2026 was 5 April."""
    assert within(dt.date(2026, 4, 12), "11-01", "easter+7") and not within(dt.date(2026, 4, 13), "11-01", "easter+7")


def test_a_period_within_one_year_and_none_at_all():
    assert within(dt.date(2026, 5, 1), "05-01", "05-31") and not within(dt.date(2026, 6, 1), "05-01", "05-31")
    assert not within(dt.date(2026, 1, 1), "", "")


@pytest.mark.parametrize("text", ["winter", "13-01", "11/01", "easter"])
def test_what_is_no_day_of_the_year_is_refused(text):
    with pytest.raises(ValueError, match=r"not enough values|must be in|invalid literal|month|day"):
        within(dt.date(2026, 1, 1), text, "12-31")
