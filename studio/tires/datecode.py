"""The date code at the end of a tire identification number (49 CFR 574.5).

Week 01 is the first full calendar week of the year, Sunday to Saturday; the last week may reach into the next year.
The ISO 8601 week of the same number, which people expect, begins up to six days earlier or one day later.
"""

import datetime as dt
import re
from dataclasses import dataclass

LONGEST_TEXT = 60
_DAYS_PER_WEEK = 7
_LAST_WEEK = 53
_FIRST_YEAR = 2000
_LAST_THREE_DIGIT_WEEK = 27  # four digits are required from July 2000 on


class DateCodeError(ValueError):
    """A text is no date code. One line: what was read, what was expected, an example."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DateCode:
    """A date code as read. ``first_day`` and ``last_day`` are the week of manufacture by the rule named in ``rule``.

    ``iso_monday`` is the Monday of the ISO week with the same number, None where that year has none. A three-digit code
    does not say its decade: then ``decade_known`` is False and the youngest year possible is given.
    """

    digits: str
    week: int
    year: int
    first_day: dt.date
    last_day: dt.date
    iso_monday: dt.date | None
    rule: str
    decade_known: bool
    remark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TinLayout:
    """How many symbols each part of a tire identification number has."""

    plant: int
    maker: int
    date: int

    @property
    def symbols(self) -> int:
        """The length of the whole number."""
        return self.plant + self.maker + self.date


NEW_TIRE = TinLayout(plant=3, maker=6, date=4)  # 49 CFR 574.5(b), rule of 2015
RETREAD = TinLayout(plant=3, maker=0, date=4)


def first_sunday(year: int) -> dt.date:
    """The first Sunday of a year: the first day of its week 01."""
    new_year = dt.date(year, 1, 1)
    return new_year + dt.timedelta(days=(_DAYS_PER_WEEK - new_year.isoweekday()) % _DAYS_PER_WEEK)


def weeks_in(year: int) -> int:
    """How many weeks a year has by the regulation: as many as it has Sundays."""
    return (dt.date(year, 12, 31) - first_sunday(year)).days // _DAYS_PER_WEEK + 1


def week_start(year: int, week: int) -> dt.date:
    """The Sunday on which a week of the regulation begins."""
    return first_sunday(year) + dt.timedelta(weeks=week - 1)


def iso_week_start(year: int, week: int) -> dt.date | None:
    """The Monday of an ISO 8601 week; None where the year has no such week."""
    try:
        return dt.date.fromisocalendar(year, week, 1)
    except ValueError:
        return None


def age_years(made: dt.date, on: dt.date, days_per_year: float) -> float:
    """Age in years from the week of manufacture, not from purchase."""
    return (on - made).days / days_per_year


def parse_date_code(text: str, on: dt.date) -> DateCode:
    """Read a date code, alone (``3618``) or at the end of an identification number (``DOT XXXX XXXX 3618``).

    ``on`` is the day it is read: a code of a later week is refused. Raises DateCodeError.
    """
    digits = _digits(text)
    week = int(digits[:2])
    if not 1 <= week <= _LAST_WEEK:
        raise DateCodeError(
            f"read week {digits[:2]} in {_clip(text)}, expected 01 to 53, such as 3618 for week 36 of 2018"
        )
    code = _four_digits(digits, week, text) if len(digits) == 4 else _three_digits(digits, week, text)
    if code.first_day > on:
        raise DateCodeError(
            f"read week {code.week:02d} of {code.year} in {_clip(text)}, which lies after {on.isoformat()}; "
            "expected a past week, such as 3618 for week 36 of 2018"
        )
    return code


def _clip(text: str) -> str:
    return repr(text if len(text) <= 40 else text[:37] + "...")


def _digits(text: str) -> str:
    """The three or four digits of the date in what was typed."""
    if len(text) > LONGEST_TEXT:
        raise DateCodeError(f"read {len(text)} characters, expected a date code such as 3618")
    words = text.upper().split()
    last = words[-1] if words else ""
    if words and words[0] == "DOT":
        words = words[1:]
    elif words and words[0].startswith("DOT"):
        words[0] = words[0][3:]
    whole = len(words) == 1 and re.fullmatch(r"[0-9A-Z]{4,9}([0-9]{4})|[0-9A-Z]{4,8}[A-Z]([0-9]{3})", words[0])
    if whole and len(words[0]) > 4:
        return whole[1] or whole[2]
    if not re.fullmatch(r"[0-9]{3,4}", last):
        raise DateCodeError(
            f"read {_clip(text)}, expected four digits, week and year, such as 3618 for week 36 of 2018 "
            "(three before July 2000)"
        )
    return last


def _four_digits(digits: str, week: int, text: str) -> DateCode:
    return _code(digits, week, _FIRST_YEAR + int(digits[2:]), text, decade_known=True, remark="")


def _three_digits(digits: str, week: int, text: str) -> DateCode:
    """Week and last digit of the year, used before July 2000; the youngest year that it can mean."""
    last = int(digits[2])
    year = _FIRST_YEAR if last == 0 and week <= _LAST_THREE_DIGIT_WEEK else 1990 + last
    remark = f"three digits were used before July 2000: {year}, or ten or more years earlier"
    return _code(digits, week, year, text, decade_known=False, remark=remark)


def _code(digits: str, week: int, year: int, text: str, *, decade_known: bool, remark: str) -> DateCode:
    monday = iso_week_start(year, week)
    first_day, rule = week_start(year, week), "49 CFR 574.5: weeks from Sunday to Saturday"
    if week > weeks_in(year):
        if monday is None:
            raise DateCodeError(
                f"read week {week} of {year} in {_clip(text)}, which has 52 weeks; expected one such as 3618"
            )
        first_day, rule = monday, "ISO 8601: weeks from Monday to Sunday"
        remark = f"{year} has week {week} by ISO 8601 only, not by 49 CFR 574.5; the difference is below a week"
    return DateCode(
        digits=digits, week=week, year=year, first_day=first_day, iso_monday=monday, rule=rule, remark=remark,
        last_day=first_day + dt.timedelta(days=_DAYS_PER_WEEK - 1), decade_known=decade_known,
    )  # fmt: skip
