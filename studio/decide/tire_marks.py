"""The depths that a tire on the car is held against, by what its sidewall says."""

import datetime as dt

from studio.decide.markings import read
from studio.decide.topic import remembered
from studio.decide.tread_limits import Marks, marks_for
from studio.model.specimen import Season
from studio.reference.tables import Tables


def marks_of(
    marking: str, season: Season, region: str, tables: Tables, on: dt.date | None = None
) -> Marks | None:
    """Law (on a day: as it holds then) and advice for a tire; None where no legal minimum is known."""
    return _remembered((marking, season, region, on), tables)


def _marks_of(its: tuple[str, Season, str, dt.date | None], tables: Tables) -> Marks | None:
    marking, season, region, on = its
    found = read(marking)
    construction = "radial" if found is None or found.construction == "radial" else "diagonal"
    return marks_for(region, season, construction, False, tables, on)


_remembered = remembered(_marks_of, most=64)
