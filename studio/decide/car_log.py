"""What all readings and rotations together say of the car: which tire stood where at which odometer."""

import datetime as dt
from bisect import bisect_left, bisect_right
from collections.abc import Iterator

import msgspec

from studio.decide.gauge import doubt
from studio.decide.measured import known, measured
from studio.decide.topic import remembered
from studio.model.car import Car
from studio.model.episode import Episode
from studio.model.places import ON_CAR
from studio.model.quantity import Quantity, UnitName
from studio.model.specimen import Reading, Specimen
from studio.reference.tables import Tables
from studio.tires.rotation import PATTERNS, Pattern

_SAME = 1e-6


class Sighting(msgspec.Struct, frozen=True, order=True):
    """A tire seen at a place: the odometer, the day, whether it was new that day, the specimen's number."""

    odometer: float
    on: dt.date
    new: bool
    tire: int


class Move(msgspec.Struct, frozen=True):
    """A rotation of the log; ``pattern`` is None where its name is none of the trade's."""

    odometer: float | None
    on: dt.date
    pattern: Pattern | None


class CarLog(msgspec.Struct, frozen=True, kw_only=True):
    """The car's history up to the episode's day. All odometers are in ``unit``, that of the highest one."""

    unit: UnitName
    sightings: dict[str, tuple[Sighting, ...]]
    moves: tuple[Move, ...]
    rotated_on: frozenset[dt.date]
    days: dict[dt.date, float]

    def odometer(self, reading: Reading) -> float | None:
        """The car's odometer at a reading: its own, else that of another tire read that day."""
        if reading.odometer is not None:
            return reading.odometer.to(self.unit).value
        return self.days.get(reading.on)

    def others_at(self, place: str, me: int, start: float, end: float) -> Iterator[Sighting]:
        """Other tires seen at ``place`` from one odometer to another, both included, in order.

        Left out is the day of a rotation: on that day two tires stand at one place, one before and one after it.
        """
        seen = self.sightings.get(place, ())
        low = bisect_left(seen, start - _SAME, key=_odometer)
        for sighting in seen[low : bisect_right(seen, end + _SAME, key=_odometer)]:
            if sighting.tire != me and sighting.on not in self.rotated_on:
                yield sighting


def _odometer(sighting: Sighting) -> float:
    return sighting.odometer


def bare(episode: Episode) -> Episode:
    """What a log and the ways of the tires depend on, and nothing else of the episode."""
    return Episode(
        title="", on=episode.on, specimens=episode.specimens, car=Car(rotations=episode.car.rotations)
    )


def car_log(episode: Episode, tables: Tables) -> CarLog:
    """The log of an episode; of the same readings and rotations from memory."""
    return _remembered(bare(episode), tables)


def _car_log(episode: Episode, tables: Tables) -> CarLog:
    taken = [
        (number, reading, _is_new(specimen, reading, tables))
        for number, specimen in enumerate(episode.specimens)
        for _, reading in known(specimen, episode.on)
        if reading.odometer is not None
    ]
    moves = [done for done in episode.car.rotations if done.on <= episode.on]
    every = [reading.odometer for _, reading, _ in taken if reading.odometer is not None]
    unit = _unit([*every, *(done.odometer for done in moves if done.odometer is not None)])
    sightings: dict[str, list[Sighting]] = {}
    days: dict[dt.date, float] = {}
    for number, reading, new in taken:
        if reading.place in ON_CAR and reading.odometer is not None:
            at = reading.odometer.to(unit).value
            sightings.setdefault(reading.place, []).append(Sighting(at, reading.on, new, number))
            days[reading.on] = max(at, days.get(reading.on, 0.0))
    return CarLog(
        unit=unit, sightings={place: tuple(sorted(seen)) for place, seen in sightings.items()}, days=days,
        rotated_on=frozenset(done.on for done in moves),
        moves=tuple(
            Move(done.odometer.to(unit).value if done.odometer else days.get(done.on), done.on, _pattern(done.pattern))
            for done in sorted(moves, key=lambda done: done.on)
        ),
    )  # fmt: skip


_remembered = remembered(_car_log, most=8)


def _unit(odometers: list[Quantity]) -> UnitName:
    return max(odometers, default=Quantity(0.0, "km"), key=lambda it: it.to("km").value).unit


def _is_new(specimen: Specimen, reading: Reading, tables: Tables) -> bool:
    """Whether the tire had its full depth when it was read, as far as the gauge can tell."""
    if specimen.depth_new is None or reading is not min(specimen.readings, key=lambda it: it.on):
        return False
    read = measured("", reading)
    if read is None:
        return False
    half = doubt(reading.gauge, tables).half_width.to("mm").value
    return read.mean().to("mm").value >= specimen.depth_new.to("mm").value - half


def _pattern(name: str) -> Pattern | None:
    """The trade's pattern of that name, written with blanks, dashes or underscores."""
    return PATTERNS.get("_".join(name.lower().replace("-", " ").replace("_", " ").split()))
