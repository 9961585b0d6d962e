"""The depths that a tire on the car is held against, by what its sidewall says."""

from studio.decide.markings import read
from studio.decide.tread_limits import Marks, marks_for
from studio.model.specimen import Season
from studio.reference.tables import Tables


def marks_of(marking: str, season: Season, region: str, tables: Tables) -> Marks | None:
    """Law and advice for a tire that is driven on in all weathers; None where no legal minimum is known."""
    found = read(marking)
    construction = "radial" if found is None or found.construction == "radial" else "diagonal"
    return marks_for(region, season, construction, False, tables)
