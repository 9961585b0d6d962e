"""Damage that condemns a tire whatever its tread: it never heals, so any reading that saw it counts."""

import datetime as dt

import msgspec

from studio.decide.measured import known
from studio.decide.wording import day_words
from studio.model.source import Source
from studio.model.specimen import Specimen
from studio.reference.tables import Tables


class Seen(msgspec.Struct, frozen=True, kw_only=True):
    """Condemning damage seen on a tire: what in words (``a bulge or knot``), when, the path to it, and who says so."""

    words: str
    on: dt.date
    path: str
    source: Source

    @property
    def dated(self) -> str:
        """``A bulge or knot, seen on 14 Feb 2026``."""
        return f"{self.words[:1].upper()}{self.words[1:]}, seen on {day_words(self.on)}"


def condemning(specimen: Specimen, path: str, on: dt.date, tables: Tables) -> tuple[Seen, ...]:
    """The condemning damage that was seen up to ``on``, latest first."""
    return tuple(
        Seen(words=row.wording, on=reading.on, path=f"{path}.readings[{r}].damage[{d}]", source=row.source)
        for r, reading in reversed(known(specimen, on))
        for d, damage in enumerate(reading.damage)
        if (row := tables.condemning.get(damage.kind))
    )


def also_seen(specimen: Specimen, on: dt.date, tables: Tables) -> tuple[str, ...]:
    """Damage that does not condemn a tire by itself, in words with zone and day, latest first."""
    return tuple(
        f"{damage.kind.replace('_', ' ')}{'' if damage.zone == 'unknown' else f' ({damage.zone})'}, "
        f"{day_words(reading.on)}"
        for _, reading in reversed(known(specimen, on))
        for damage in reading.damage
        if damage.kind not in tables.condemning
    )
