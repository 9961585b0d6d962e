"""Which tire of the episode a row of a gauge session is about."""

import datetime as dt
from typing import NamedTuple

from studio.model.episode import Episode
from studio.model.places import Place, place_words
from studio.model.specimen import Specimen
from studio.storage.csv_text import CsvError, Row, at
from studio.storage.errors import plain
from studio.storage.readings_cells import no_formula, refuse
from studio.storage.readings_columns import read_place


class Standing(NamedTuple):
    """A tire and where it stood."""

    specimen: Specimen
    place: Place

    @property
    def words(self) -> str:
        """The tire as a message names it."""
        return plain(self.specimen.name[:60] or self.specimen.id)


def standing_in(row: Row, day: dt.date, episode: Episode) -> Standing:
    """The tire that the row names, or the one that stands at its place now. Raises CsvError."""
    name, place = no_formula(row, "tire"), no_formula(row, "place")
    if name:
        specimen = _named(row, name, episode)
        return Standing(specimen, read_place(place, row.line) if place else specimen.place)
    if not place:
        refuse(row, "place", "", "where the tire stood, such as front left")
    return Standing(_at_place(row, read_place(place, row.line), day, episode), read_place(place, row.line))


def _named(row: Row, name: str, episode: Episode) -> Specimen:
    wanted = name.strip().lower()
    found = [each for each in episode.specimens if wanted in (each.id, each.name.lower())]
    if len(found) != 1:
        ids = ", ".join(each.id for each in episode.specimens[:12]) or "no tire at all"
        refuse(row, "tire", name, f"the id or the name of a tire in the episode, which has {ids}")
    return found[0]


def _at_place(row: Row, place: Place, day: dt.date, episode: Episode) -> Specimen:
    found = [each for each in episode.specimens if each.place == place]
    words = place_words(place)
    if not found:
        raise CsvError(f"{at(row.line, 'place')}: {words!r} was read, and no tire of the episode stands there")
    if len(found) > 1:
        ids = ", ".join(each.id for each in found)
        raise CsvError(
            f"{at(row.line, 'place')}: {len(found)} tires are at {words!r}; expected a column tire that says which,"
            f" one of {ids}"
        )
    later = [done.on for done in episode.car.rotations if done.on > day]
    if later and place != "bench":
        raise CsvError(
            f"{at(row.line, 'place')}: the tires were rotated on {max(later)}, after this reading of {day}, so another"
            f" tire may have stood at {words!r}; expected a column tire that says which, such as {found[0].id}"
        )
    return found[0]
