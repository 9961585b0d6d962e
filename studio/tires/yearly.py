"""Periods that come round every year, such as that of a winter rule."""

import datetime as dt

_EASTER = "easter+"


def within(on: dt.date, first: str, last: str) -> bool:
    """Whether ``on`` lies in the yearly period from ``first`` to ``last``, both days in it.

    A day is month and day (``11-01``) or so many days after Easter Sunday (``easter+7``). A period whose last day comes
    before its first one runs over the turn of the year. False where either is empty. Raises ValueError for other text.
    """
    if not (first and last):
        return False
    begins, ends = _day(first, on.year), _day(last, on.year)
    return begins <= on <= ends if begins <= ends else on >= begins or on <= ends


def _day(text: str, year: int) -> dt.date:
    if text.startswith(_EASTER):
        return easter_sunday(year) + dt.timedelta(days=int(text.removeprefix(_EASTER)))
    month, day = text.split("-")
    return dt.date(year, int(month), int(day))


def easter_sunday(year: int) -> dt.date:
    """Easter Sunday of the Gregorian calendar (J. Meeus, Astronomical Algorithms, chapter 8)."""
    a, (b, c) = year % 19, divmod(year, 100)
    d, e = divmod(b, 4)
    g = (b - (b + 8) // 25 + 1) // 3
    h = (19 * a + b - d - g + 15) % 30
    i, k = divmod(c, 4)
    correction = (32 + 2 * e + 2 * i - h - k) % 7
    m = (a + 11 * h + 22 * correction) // 451
    month, day = divmod(h + correction - 7 * m + 114, 31)
    return dt.date(year, month, day + 1)
