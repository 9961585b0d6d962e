"""Tire specimens and their readings."""

import datetime as dt
from typing import Annotated, Literal

import msgspec

from studio.model.car import LongText, Name, ShortText
from studio.model.places import Place
from studio.model.quantity import Quantity

Identifier = Annotated[str, msgspec.Meta(pattern=r"^[a-z0-9][a-z0-9_]{0,39}$(?!\n)")]
TreadPattern = Literal["plain", "directional", "asymmetric", "asymmetric_directional"]
Season = Literal["summer", "all_season", "winter", "studded"]
DepthUnit = Literal["32nds", "mm"]
DamageKind = Literal["cut", "bulge", "cord", "cracks", "puncture", "flat_spot", "separation", "chunking", "other"]
Zone = Literal["crown", "shoulder", "sidewall", "bead", "unknown"]
Groove = Annotated[tuple[float | None, ...], msgspec.Meta(max_length=24)]
Grid = Annotated[tuple[Groove, ...], msgspec.Meta(max_length=8)]


class Gauge(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """The gauge used, and the smallest step that it shows."""

    name: ShortText = ""
    resolution: Quantity


class PressureReading(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """A pressure with the air temperature at which it was read; ``cold`` as the placard means it."""

    pressure: Quantity
    temperature: Quantity | None = None
    cold: bool = True


class Damage(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """Damage seen on a tire."""

    kind: DamageKind
    zone: Zone = "unknown"
    size: Quantity | None = None
    note: LongText = ""


class Reading(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """One visit with the gauge.

    ``depths[groove][station]`` in ``unit``: grooves from the outer side of the car to the inner one, stations round
    the tire; None where nothing was read. ``place`` is where the tire stood that day.
    """

    on: dt.date
    place: Place
    gauge: Gauge
    unit: DepthUnit
    depths: Grid = ()
    odometer: Quantity | None = None
    pressure: PressureReading | None = None
    damage: tuple[Damage, ...] = ()
    note: LongText = ""


class Specimen(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """One tire on hand. ``marking``, ``date_code`` and ``max_pressure`` are as written on its sidewall."""

    id: Identifier
    place: Place
    name: Name = ""
    marking: ShortText = ""
    date_code: ShortText = ""
    tread: TreadPattern = "plain"
    season: Season = "all_season"
    depth_new: Quantity | None = None
    max_pressure: Quantity | None = None
    readings: tuple[Reading, ...] = ()
    photos: tuple[Name, ...] = ()
    note: LongText = ""

    @property
    def latest(self) -> Reading | None:
        """The last reading that holds any depth, of two on one day the one entered last; None when there is none."""
        held = [reading for reading in self.readings if any(d is not None for g in reading.depths for d in g)]
        return max(reversed(held), key=lambda reading: reading.on, default=None)
