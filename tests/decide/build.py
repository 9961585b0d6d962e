"""Small episodes for the tests, in the shape a presenter would enter them."""

import datetime as dt

import msgspec

from studio.model.car import Car
from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Damage, Gauge, Reading, Specimen
from studio.reference import load_tables

TABLES = load_tables()
ON = dt.date(2026, 3, 1)
THIRTY_SECONDS = Gauge(name="dial", resolution=depth(1, "32nds"))
TENTHS = Gauge(name="digital", resolution=depth(0.1, "mm"))


def reading(grid=((6, 6, 6),) * 3, unit="32nds", gauge=THIRTY_SECONDS, on=dt.date(2026, 2, 14), **more):
    more.setdefault("place", "front_left")
    return Reading(on=on, gauge=gauge, unit=unit, depths=tuple(tuple(groove) for groove in grid), **more)


def tire(place="front_left", *readings, **more):
    more.setdefault("id", place)
    more.setdefault("marking", "225/60R17 99H")
    more.setdefault("date_code", "3621")
    more.setdefault("depth_new", depth(10, "32nds"))
    return Specimen(place=place, readings=tuple(msgspec.structs.replace(r, place=place) for r in readings), **more)


def flat(value, **more):
    """A reading that shows the same depth everywhere."""
    return reading(((value,) * 3,) * 3, **more)


def episode(*specimens, **more):
    more.setdefault("on", ON)
    more.setdefault("car", Car())
    return Episode(title="Test", specimens=specimens, **more)


def four(depths, unit="32nds", gauge=THIRTY_SECONDS, **more):
    """Tires at the four corners, each worn evenly to one of ``depths``, from front left to rear right."""
    places = ("front_left", "front_right", "rear_left", "rear_right")
    return tuple(tire(p, flat(d, unit=unit, gauge=gauge), **more) for p, d in zip(places, depths, strict=True))


def damage(kind, zone="sidewall"):
    return Damage(kind=kind, zone=zone)


def number(finding: Finding, name: str) -> float:
    quantity = finding.figure(name)
    assert isinstance(quantity, Quantity), f"{finding.id} has no figure {name}"
    return quantity.value
