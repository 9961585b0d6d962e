"""Date codes against 49 CFR 574.5, the ISO calendar of the standard library, and bad input."""

import calendar
import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.tires import datecode
from studio.tires.datecode import DateCodeError, parse_date_code

TODAY = dt.date(2026, 11, 24)


def test_49_cfr_574_5_b_3_own_example():
    """0109 is Sunday 4 to Saturday 10 January 2009."""
    code = parse_date_code("0109", TODAY)
    assert (code.first_day, code.last_day) == (dt.date(2009, 1, 4), dt.date(2009, 1, 10))


@pytest.mark.parametrize(
    ("text", "first_day", "iso_monday"),
    [("317", "1997-08-03", "1997-07-28"), ("0109", "2009-01-04", "2008-12-29"), ("0123", "2023-01-01", "2023-01-02"),
     ("2324", "2024-06-09", "2024-06-03"), ("5220", "2020-12-27", "2020-12-21"), ("5323", "2023-12-31", None),
     ("3618", "2018-09-09", "2018-09-03")],
)  # fmt: skip
def test_worked_codes(text, first_day, iso_monday):
    code = parse_date_code(text, TODAY)
    assert code.first_day.isoformat() == first_day
    assert (code.iso_monday.isoformat() if code.iso_monday else None) == iso_monday


@pytest.mark.parametrize("year", range(2000, 2031))
def test_week_1_is_the_first_full_week_from_sunday_to_saturday(year):
    """By the calendar of the standard library: the first row that has all seven days."""
    weeks = calendar.Calendar(calendar.SUNDAY).monthdayscalendar(year, 1)
    first_full = next(week for week in weeks if all(week))
    assert datecode.week_start(year, 1) == dt.date(year, 1, first_full[0])


@pytest.mark.parametrize("year", range(2000, 2031))
def test_a_year_has_as_many_weeks_as_sundays(year):
    sundays = sum(dt.date.fromordinal(day).weekday() == 6
                  for day in range(dt.date(year, 1, 1).toordinal(), dt.date(year + 1, 1, 1).toordinal()))  # fmt: skip
    assert datecode.weeks_in(year) == sundays


def test_years_with_53_weeks():
    assert [year for year in range(2000, 2030) if datecode.weeks_in(year) == 53] == [2000, 2006, 2012, 2017, 2023, 2028]
    iso = [year for year in range(2000, 2030) if datecode.iso_week_start(year, 53)]
    assert iso == [2004, 2009, 2015, 2020, 2026]


@given(st.dates(dt.date(2000, 1, 2), dt.date(2026, 11, 21)))
def test_every_day_belongs_to_the_week_that_its_code_names(day):
    sunday = day - dt.timedelta(days=day.isoweekday() % 7)
    week = (sunday - datecode.first_sunday(sunday.year)).days // 7 + 1
    code = parse_date_code(f"{week:02d}{sunday.year % 100:02d}", TODAY)
    assert code.first_day <= day <= code.last_day
    assert code.first_day.isoweekday() == 7


@given(st.integers(1, 52), st.integers(2000, 2025))
def test_the_iso_week_begins_six_days_earlier_or_a_day_later(week, year):
    code = parse_date_code(f"{week:02d}{year % 100:02d}", TODAY)
    assert code.iso_monday == dt.date.fromisocalendar(year, week, 1)
    assert (code.first_day - code.iso_monday).days in (6, -1)


@pytest.mark.parametrize(
    "text",
    ["3618", " 3618 ", "DOT XXXX XXXX 3618", "dot xxxx xxxx 3618", "DOT 1AB 2CD3EF 3618", "DOT1AB2CD3EF3618",
     "1AB2CD3EF3618", "XXXX XXXX 3618"],
)  # fmt: skip
def test_the_code_is_found_at_the_end_of_the_number(text):
    code = parse_date_code(text, TODAY)
    assert (code.week, code.year, code.digits) == (36, 2018, "3618")


@pytest.mark.parametrize("text", ["317", "DOT XXXX XXX 317", "DOTXXXXXXX317"])
def test_three_digits_do_not_tell_the_decade(text):
    code = parse_date_code(text, TODAY)
    assert (code.week, code.year, code.decade_known) == (31, 1997, False)
    assert "before July 2000" in code.remark


@pytest.mark.parametrize(("text", "year"), [("100", 2000), ("270", 2000), ("280", 1990), ("019", 1999), ("528", 1998)])
def test_the_youngest_year_that_three_digits_can_mean(text, year):
    """Four digits are required from July 2000 on (64 FR 36807), so 0 is 2000 only in its first half."""
    assert parse_date_code(text, TODAY).year == year


def test_week_53_that_only_iso_knows_is_accepted_with_a_remark():
    code = parse_date_code("5320", TODAY)
    assert (code.first_day, code.last_day) == (dt.date(2020, 12, 28), dt.date(2021, 1, 3))
    assert code.rule.startswith("ISO 8601")
    assert "by ISO 8601 only" in code.remark


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("0018", "read week 00"),
        ("5418", "read week 54"),
        ("9918", "read week 99"),
        ("5321", "week 53 of 2021"),
        ("4826", "lies after 2026-11-24"),
        ("0199", "lies after 2026-11-24"),
        ("36", "expected four digits"),
        ("3", "expected four digits"),
        ("36182", "expected four digits"),
        ("", "expected four digits"),
        ("   ", "expected four digits"),
        ("week 36 2018x", "expected four digits"),
        ("36I8", "expected four digits"),
        ("3O18", "expected four digits"),
        ("-618", "expected four digits"),
        ("36/18", "expected four digits"),
        ("٣٦١٨", "expected four digits"),
        ("DOT", "expected four digits"),
        ("DOT XXXX", "expected four digits"),
        ("3618" + " " * 80, "read 84 characters"),
        ("\u202e3618x", "expected four digits"),
    ],
)
def test_what_is_no_date_code_is_refused(text, reason):
    with pytest.raises(DateCodeError) as error:
        parse_date_code(text, TODAY)
    assert reason in str(error.value)
    assert str(error.value).isprintable()
    assert len(str(error.value)) < 220


@given(st.text(max_size=70))
def test_any_text_is_read_or_refused(text):
    try:
        code = parse_date_code(text, TODAY)
    except DateCodeError as error:
        assert str(error).isprintable()
    else:
        assert code.first_day <= TODAY
        assert 1 <= code.week <= 53


def test_the_week_that_begins_today_has_been_made():
    sunday = dt.date(2026, 11, 22)
    assert parse_date_code("4726", sunday).first_day == sunday
    with pytest.raises(DateCodeError):
        parse_date_code("4726", sunday - dt.timedelta(days=1))


def test_age_counts_from_the_week_of_manufacture():
    made = parse_date_code("3618", TODAY).first_day
    assert datecode.age_years(made, dt.date(2026, 3, 1), 365.2425) == pytest.approx(7.47, abs=0.005)
    assert datecode.age_years(dt.date(2000, 1, 1), dt.date(2400, 1, 1), 365.2425) == pytest.approx(400)


def test_49_cfr_574_5_b_new_tires_and_retreads():
    assert (datecode.NEW_TIRE.symbols, datecode.RETREAD.symbols) == (13, 7)
