"""How far the car has gone since its tires last changed places."""

import datetime as dt
from collections.abc import Iterator

import msgspec

from studio.decide.measured import known
from studio.decide.rotation_read import Mileage
from studio.decide.subjects import Tire
from studio.decide.wording import day_words
from studio.model.car import Car
from studio.model.specimen import Reading


def odometer_now(corners: tuple[Tire, ...], car: Car, on: dt.date) -> Mileage | None:
    """The highest odometer up to ``on``, from the readings at the corners and the rotations."""
    found = [
        Mileage(odometer=reading.odometer, path=f"{path}.odometer")
        for tire in corners
        for path, reading in _at_its_place(tire, on)
        if reading.odometer is not None
    ]
    found += [mileage for _, mileage in _rotations(car, on)]
    return max(found, default=None, key=lambda it: it.odometer.to("km").value)


class Move(msgspec.Struct, frozen=True, kw_only=True):
    """When the tires came to where they stand: the odometer then, what happened (``event``) and on which day, in words.

    ``rotated`` says that it was a rotation; else it is the first reading at these places.
    """

    at: Mileage
    event: str
    day: str
    rotated: bool


def last_move(corners: tuple[Tire, ...], car: Car, on: dt.date) -> Move | None:
    """The last rotation; where none is entered, the first reading since which all tires stand where they stand now."""
    done = max(_rotations(car, on), default=None, key=lambda it: it[0])
    if done is not None:
        return Move(at=done[1], event="the last rotation", day=day_words(done[0]), rotated=True)
    first = [next(_at_its_place(tire, on), None) for tire in corners]
    dated = [(it[1].on, it[0], it[1].odometer) for it in first if it is not None and it[1].odometer is not None]
    if len(dated) < len(corners) or not dated:
        return None
    day, path, odometer = max(dated, key=lambda it: it[0])
    at = Mileage(odometer=odometer, path=f"{path}.odometer")
    return Move(at=at, event="the first readings here", day=day_words(day), rotated=False)


def _rotations(car: Car, on: dt.date) -> list[tuple[dt.date, Mileage]]:
    return [
        (done.on, Mileage(odometer=done.odometer, path=f"car.rotations[{i}].odometer"))
        for i, done in enumerate(car.rotations)
        if done.on <= on and done.odometer is not None
    ]


def _at_its_place(tire: Tire, on: dt.date) -> Iterator[tuple[str, Reading]]:
    """The readings since the tire stands where it stands now, oldest first."""
    since: list[tuple[str, Reading]] = []
    for i, reading in known(tire.specimen, on):
        if reading.place != tire.specimen.place:
            since = []
        else:
            since.append((f"{tire.subject.path}.readings[{i}]", reading))
    yield from since
