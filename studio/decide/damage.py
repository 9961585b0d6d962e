"""Damage seen on a tire: it never heals, so any reading that saw it counts, and some of it rules the tire out."""

import datetime as dt

import msgspec

from studio.decide.measured import known
from studio.decide.wording import day_words, upper_first
from studio.model.quantity import UnitName, length
from studio.model.source import Source
from studio.model.specimen import Damage, Specimen
from studio.reference.rows import DamageKind, Rule
from studio.reference.tables import Tables

_PLACES = {"crown": "in the crown", "shoulder": "in the shoulder", "sidewall": "in the sidewall", "bead": "at the bead"}
HOLE_ZONES = ("shoulder", "sidewall", "bead")
"""Where a puncture is not repaired: outside the crown."""


class Sighting(msgspec.Struct, frozen=True, kw_only=True):
    """One damage as one reading recorded it, with the day and the path to it."""

    damage: Damage
    on: dt.date
    path: str

    @property
    def reading(self) -> str:
        """The path to the reading that recorded it."""
        return self.path.partition(".damage")[0]

    @property
    def place(self) -> str:
        """``in the shoulder``; empty where the zone is not known."""
        return _PLACES.get(self.damage.zone, "")

    def words(self, kind: DamageKind) -> str:
        """``a bulge in the sidewall``."""
        return f"{kind.brief} {self.place}".rstrip()


class Seen(msgspec.Struct, frozen=True, kw_only=True):
    """Damage that rules a tire out: what in words (``a bulge``), where (``in the sidewall``), when, who says so."""

    words: str
    place: str
    on: dt.date
    path: str
    source: Source

    @property
    def dated(self) -> str:
        """``A bulge in the sidewall, seen on 14 Feb 2026``."""
        return f"{upper_first(self.words)}{f' {self.place}' if self.place else ''}, seen on {day_words(self.on)}"


def sightings(specimen: Specimen, path: str, on: dt.date) -> tuple[Sighting, ...]:
    """All damage that was seen up to ``on``, latest first."""
    return tuple(
        Sighting(damage=damage, on=reading.on, path=f"{path}.readings[{r}].damage[{d}]")
        for r, reading in reversed(known(specimen, on))
        for d, damage in enumerate(reading.damage)
    )


def condemning(specimen: Specimen, path: str, on: dt.date, tables: Tables) -> tuple[Seen, ...]:
    """The damage seen up to ``on`` that rules the tire out whatever its tread, latest first."""
    found = ((it, ruled_out_by(it, tables)) for it in sightings(specimen, path, on))
    return tuple(
        Seen(words=_brief(it, tables), place=it.place, on=it.on, path=it.path, source=source)
        for it, source in found
        if source
    )


def _brief(sighting: Sighting, tables: Tables) -> str:
    kind = sighting.damage.kind
    return "a hole beyond repair" if kind == "puncture" else tables.damage[kind].brief


def ruled_out_by(sighting: Sighting, tables: Tables) -> Source | None:
    """Whose rule this damage alone breaks so that the tire is done; None where it must only be looked at."""
    damage = sighting.damage
    if damage.kind == "puncture":
        if damage.zone in HOLE_ZONES:
            return tables.repair["crown_only"].source
        return tables.repair["hole_most_inch"].source if too_wide(damage, tables) else None
    row = tables.condemning.get(damage.kind)
    return row.source if row else None


def too_wide(damage: Damage, tables: Tables) -> bool:
    """Whether a hole is wider than the limit of repair in both forms in which it is quoted."""
    return damage.size is not None and damage.size.to("mm").value > max(hole_limits_mm(tables)) + 1e-9


def hole_limits_mm(tables: Tables) -> tuple[float, float]:
    """The limit as quoted in mm and in inches, both in mm."""
    metric, inch = (_length_mm(tables.repair[name]) for name in ("hole_most", "hole_most_inch"))
    return metric, inch


def _length_mm(rule: Rule) -> float:
    assert rule.value is not None, "the limits of repair are lengths"
    return length(rule.value, msgspec.convert(rule.unit, UnitName)).to("mm").value


def also_seen(specimen: Specimen, path: str, on: dt.date, tables: Tables) -> tuple[str, ...]:
    """Damage that does not rule a tire out by itself, in words with zone and day, latest first."""
    return tuple(
        f"{tables.damage[it.damage.kind].brief} ({it.damage.zone}), {day_words(it.on)}"
        if it.damage.zone != "unknown"
        else f"{tables.damage[it.damage.kind].brief}, {day_words(it.on)}"
        for it in sightings(specimen, path, on)
        if ruled_out_by(it, tables) is None
    )
