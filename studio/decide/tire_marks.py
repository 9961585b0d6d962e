"""The depths that a tire on the car is held against, by what its sidewall says."""

from studio.decide.markings import read
from studio.decide.topic import remembered
from studio.decide.tread_limits import Marks, marks_for
from studio.model.specimen import Season
from studio.reference.tables import Tables


def marks_of(marking: str, season: Season, region: str, tables: Tables) -> Marks | None:
    """Law and advice for a tire that is driven on in all weathers; None where no legal minimum is known."""
    return _remembered((marking, season, region), tables)


def _marks_of(its: tuple[str, Season, str], tables: Tables) -> Marks | None:
    marking, season, region = its
    found = read(marking)
    construction = "radial" if found is None or found.construction == "radial" else "diagonal"
    return marks_for(region, season, construction, False, tables)


_remembered = remembered(_marks_of, most=64)
