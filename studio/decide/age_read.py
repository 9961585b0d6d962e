"""One tire's date code, read: what the finding on its age and its words are made from."""

import datetime as dt
import math

import msgspec

from studio.decide.subjects import Subject
from studio.model.finding import Verdict
from studio.reference.rows import AgeAdvice
from studio.tires.datecode import DateCode

_VERDICTS: dict[str, Verdict] = {"plan": "inspect", "replace": "replace"}
"""The yearly look that the trade advises from five years on is said in the working and gives no verdict by itself."""


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one tire's age depends on."""

    subject: Subject
    code: str
    on: dt.date
    region: str


class Aged(msgspec.Struct, frozen=True, kw_only=True):
    """The code with the age it gives. ``advice`` is what holds in the region, by the age it begins at.

    Where the code leaves the decade open, ``years`` is the least that it can be.
    """

    part: Part
    code: DateCode
    years: float
    days_per_year: float
    advice: tuple[AgeAdvice, ...]
    notes: tuple[AgeAdvice, ...]
    """What is said of age without advising anything."""

    @property
    def week_rule(self) -> str:
        """The row of the table ``date_code`` on the code's week in the two calendars; empty for three digits."""
        if not self.code.decade_known:
            return "triangle"
        if self.rule == "iso_week":
            return ""
        return "two_calendars" if self.code.iso_monday else "us_week_only"

    @property
    def rule(self) -> str:
        """The row of the table ``date_code`` by which the code was read."""
        if not self.code.decade_known:
            return "three_digits"
        return "iso_week" if self.code.rule.startswith("ISO") else "four_digits"

    @property
    def deciding(self) -> tuple[AgeAdvice, ...]:
        """The advice that gives a verdict."""
        return tuple(row for row in self.advice if row.level in _VERDICTS)

    @property
    def reached(self) -> AgeAdvice | None:
        """The gravest advice that gives a verdict and whose age the tire has reached."""
        return next((row for row in reversed(self.deciding) if self.years >= (row.from_years or 0.0)), None)

    @property
    def coming(self) -> AgeAdvice | None:
        """The next advice whose age it has not reached."""
        return next((row for row in self.deciding if self.years < (row.from_years or 0.0)), None)

    @property
    def limit(self) -> AgeAdvice | None:
        """The advice that the age is held against: the next to come, or the last when none is left."""
        return self.coming or self.reached

    @property
    def verdict(self) -> Verdict:
        """What the gravest advice reached comes to; a code that leaves the decade open is of before July 2000."""
        return _VERDICTS[self.reached.level] if self.reached else "keep"

    @property
    def doubt_years(self) -> float | None:
        """The code names a week, no day; None where it does not even name the decade."""
        return 7 / self.days_per_year if self.code.decade_known else None

    def day_of(self, years: float) -> dt.date:
        """The first day on which the tire is ``years`` old."""
        return self.code.first_day + dt.timedelta(days=math.ceil(years * self.days_per_year))
