"""How far the car runs in a year: the presenter's own figure, else what its odometer says between two days."""

import datetime as dt

import msgspec

from studio.decide.car_log import CarLog
from studio.decide.wording import MONTHS, day_words
from studio.model.episode import Episode
from studio.model.quantity import Quantity
from studio.reference.tables import Tables

_PATH = "circumstances.yearly_distance"
_FURTHEST_YEARS = 60
"""Beyond a lifetime of any tire no date is named."""


class Pace(msgspec.Struct, frozen=True, kw_only=True):
    """The car's yearly distance and where it comes from; ``path`` is empty where it was computed."""

    yearly: Quantity
    words: str
    path: str = ""


def pace(episode: Episode, log: CarLog, tables: Tables) -> Pace | None:
    """The yearly distance as entered, else from the odometer readings if these lie far enough apart; else None."""
    entered = episode.circumstances.yearly_distance
    if entered is not None and entered.value > 0:
        return Pace(yearly=entered, words="as entered", path=_PATH)
    least = tables.measuring["yearly_distance_least_days"].value
    if not log.days or (max(log.days) - min(log.days)).days < least:
        return None
    first, last = min(log.days), max(log.days)
    driven = log.days[last] - log.days[first]
    if driven <= 0:
        return None
    yearly = driven / (last - first).days * tables.physics["days_per_year"].value
    words = f"from the odometer, {day_words(first)} to {day_words(last)}"
    return Pace(yearly=Quantity(yearly, log.unit), words=words)


def after(day: dt.date, distance: float, yearly: float, days_per_year: float) -> dt.date | None:
    """The day on which ``distance`` will be run; None beyond what can be named."""
    if yearly <= 0 or distance / yearly > _FURTHEST_YEARS:
        return None
    return day + dt.timedelta(days=round(distance / yearly * days_per_year))


def month_words(day: dt.date | None) -> str:
    """``Mar 2030``; empty for no day."""
    return f"{MONTHS[day.month - 1]} {day.year}" if day else ""
