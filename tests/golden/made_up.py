"""Thirty made-up episodes, the same in every process: regions, units, drive, damage, sizes, what nobody measured.

Only ``random()`` of a seeded generator is called: it alone is promised to give the same in every version of Python.
"""

import datetime as dt
from collections.abc import Sequence
from random import Random
from typing import TypeVar, get_args

from studio.model.car import Car, Certified, Drivetrain, Placard, PlacardTire, RotationDone, Tolerance
from studio.model.circumstances import Circumstances, Prices
from studio.model.episode import Episode
from studio.model.places import CORNERS, Place
from studio.model.quantity import Quantity, System, depth, length
from studio.model.specimen import (
    Damage,
    DamageKind,
    Gauge,
    PressureReading,
    Reading,
    Season,
    Specimen,
    TreadPattern,
    Zone,
)
from studio.reference.tables import load_tables

COUNT = 30
SIZES = (
    ("205/55R16 91V", "T125/80D16 97M"), ("225/60R17 99H", "T145/80D17 107M"), ("155/65R14 75T", "T115/70D14 88M"),
    ("245/40R19 98Y XL", "T135/70D19 105M"), ("LT245/75R16 120/116R", "LT245/75R16 120/116R"),
    ("P215/65R16 96T", "T125/90D16 98M"), ("195/75R16C 107/105R", "195/75R16C 107/105R"), ("", ""),
)  # fmt: skip
WISHED = ("215/55R16 93V", "235/55R18 100H", "225/45R17 94W", "LT235/85R16 120/116R")
Choice = TypeVar("Choice")


class Dice:
    """A seeded generator that is asked for what an episode needs."""

    def __init__(self, seed: int) -> None:
        self._random = Random(seed)

    def chance(self, share: float) -> bool:
        return self._random.random() < share

    def between(self, low: float, high: float, step: float = 1.0) -> float:
        return round(low + step * int(self._random.random() * ((high - low) / step + 1)), 3)

    def one(self, options: Sequence[Choice]) -> Choice:
        return options[int(self._random.random() * len(options))]

    def maybe(self, share: float, value: Choice) -> Choice | None:
        return value if self.chance(share) else None


def episodes() -> dict[str, Episode]:
    """The episodes by name; every region has its turn, four of five in the units of its people."""
    regions = tuple(load_tables().regions.values())
    made = {}
    for seed in range(COUNT):
        dice, region = Dice(seed), regions[seed % len(regions)]
        own: System = "us" if region.units == "us" else "metric"
        other: System = "metric" if own == "us" else "us"
        units = own if dice.chance(0.8) else other
        made[f"{seed:02d} {region.id} {units}"] = _episode(dice, region.id, units)
    return made


def _episode(dice: Dice, region: str, units: System) -> Episode:
    on = dt.date(2026, 1, 5) + dt.timedelta(days=int(dice.between(0, 350)))
    size, spare = dice.one(SIZES)
    rear = size if dice.chance(0.8) else dice.one(SIZES)[0]
    places = [place for place in CORNERS if dice.chance(0.85)]
    tires = [_tire(dice, place, rear if place.startswith("rear") else size, units, on) for place in places]
    if dice.chance(0.4):
        tires.append(_tire(dice, "spare", spare, units, on))
    if dice.chance(0.15):
        tires.append(_tire(dice, "bench", size, units, on))
    return Episode(
        title="A made-up episode", on=on, region=region, units=units, car=_car(dice, size, rear, spare, units, on),
        specimens=tuple(tires), prices=_prices(dice, units), circumstances=_circumstances(dice, units),
    )  # fmt: skip


def _car(dice: Dice, front: str, rear: str, spare: str, units: System, on: dt.date) -> Car:
    us = units == "us"

    def line(marking: str, psi: float) -> PlacardTire:
        pressure = Quantity(psi, "psi") if us else Quantity(round(psi * 0.0689, 1), "bar")
        return PlacardTire(marking=marking, pressure=dice.maybe(0.85, pressure))

    rotations = [RotationDone(on=on - dt.timedelta(days=200), odometer=_odometer(dice, units, 200),
                              pattern="rearward_cross")]  # fmt: skip
    form, limit = dice.one((
        ("depth", depth(2, "32nds") if us else depth(2.0, "mm")),
        ("circumference", length(0.5, "in") if us else length(12.0, "mm")),
        ("percent", Quantity(1.5, "%")),
    ))  # fmt: skip
    return Car(
        name=dice.one(("The errand car", "Grandmother's wagon", "")),
        drivetrain=dice.maybe(0.9, dice.one(get_args(Drivetrain))),
        certified_as=dice.maybe(0.5, dice.one(get_args(Certified))),
        placard=Placard(front=line(front, dice.between(32, 38)), rear=line(rear, dice.between(32, 42)),
                        spare=line(spare, 60.0)),
        front_axle_rating=dice.maybe(0.5, Quantity(2300.0, "lb") if us else Quantity(1050.0, "kg")),
        rear_axle_rating=dice.maybe(0.5, Quantity(2200.0, "lb") if us else Quantity(1000.0, "kg")),
        wheelbase=dice.maybe(0.5, length(106, "in") if us else length(2700.0, "mm")),
        front_track=dice.maybe(0.5, length(61, "in") if us else length(1550.0, "mm")),
        wheel_nut_torque=dice.maybe(0.3, Quantity(80.0, "lbf ft") if us else Quantity(110.0, "N m")),
        tolerance=dice.maybe(0.4, Tolerance(form=form, limit=limit)),  # type: ignore[arg-type]
        rotation_interval=dice.maybe(0.6, Quantity(6000.0, "mi") if us else Quantity(10_000.0, "km")),
        rotations=tuple(rotations) if dice.chance(0.5) else (),
        front_rim_width=dice.maybe(0.3, length(6.5, "in")), rear_rim_width=dice.maybe(0.3, length(6.5, "in")),
        final_drive=dice.maybe(0.2, 4.1),
    )  # fmt: skip


def _tire(dice: Dice, place: Place, marking: str, units: System, on: dt.date) -> Specimen:
    us, deep = units == "us", dice.between(1, 10)
    visits = int(dice.between(0, 3)) if dice.chance(0.8) else 1
    made = on - dt.timedelta(days=int(dice.between(300, 4000)))
    code = f"{min(52, made.isocalendar()[1]):02d}{made.year % 100:02d}"
    new = depth(11.0 if deep <= 10 else 14.0, "32nds") if us else depth(8.0, "mm")
    before, wear = place, dice.between(0.5, 1.5, 0.25)
    if place in CORNERS and dice.chance(0.3):
        before = dice.one(CORNERS)
    readings = [
        _reading(dice, before if back == visits - 1 else place, us, on, back, deep + wear * back)
        for back in range(visits - 1, -1, -1)
    ]
    return Specimen(
        id=f"tire_{place}", place=place, marking=marking if dice.chance(0.9) else "",
        name=dice.one(("", "", "Old Faithful")), date_code=code if dice.chance(0.85) else "",
        tread=dice.one((*get_args(TreadPattern), "plain", "plain")), season=dice.one(get_args(Season)),
        depth_new=dice.maybe(0.8, new), readings=tuple(readings),
    )  # fmt: skip


def _reading(dice: Dice, place: Place, us: bool, on: dt.date, back: int, deep: float) -> Reading:
    days = 1 + 150 * back
    step = 1.0 if us else 0.1

    def one(worn: float) -> float | None:
        value = (deep + worn) * (1.0 if us else 0.79375)
        return None if dice.chance(0.04) else max(0.0, round(round(value / step) * step, 1))

    slope, middle = dice.one((0.0, 0.0, 0.5, 1.5)), dice.one((0.0, 0.0, 1.0))
    grooves, stations = int(dice.between(2, 4)), int(dice.between(1, 4))
    rows = [tuple(one(slope * groove + middle * (0 < groove < grooves - 1) + dice.between(0, 1, 0.5) * 0.5)
                  for _ in range(stations)) for groove in range(grooves)]  # fmt: skip
    return Reading(
        on=on - dt.timedelta(days=days), place=place, unit="32nds" if us else "mm", depths=tuple(rows),
        gauge=Gauge(name="dial gauge", resolution=depth(1, "32nds") if us else depth(0.1, "mm")),
        odometer=dice.maybe(0.75, _odometer(dice, "us" if us else "metric", days)),
        pressure=_pressure(dice, us), damage=_damage(dice, us),
    )  # fmt: skip


def _odometer(dice: Dice, units: System, days_ago: int) -> Quantity:
    return Quantity(60_000.0 - 30 * days_ago, "mi") if units == "us" else Quantity(95_000.0 - 45.0 * days_ago, "km")


def _pressure(dice: Dice, us: bool) -> PressureReading | None:
    if not dice.chance(0.7):
        return None
    psi, cold = dice.between(22, 44), dice.chance(0.8)
    warm = Quantity(dice.between(20, 90), "degF") if us else Quantity(dice.between(-10, 30), "degC")
    pressure = Quantity(psi, "psi") if us else Quantity(round(psi * 6.9), "kPa")
    return PressureReading(pressure=pressure, temperature=dice.maybe(0.7, warm), cold=cold)


def _damage(dice: Dice, us: bool) -> tuple[Damage, ...]:
    if not dice.chance(0.15):
        return ()
    size = length(dice.between(0.1, 0.5, 0.1), "in") if us else length(dice.between(2, 12), "mm")
    return (Damage(kind=dice.one(get_args(DamageKind)), zone=dice.one(get_args(Zone)), size=dice.maybe(0.6, size)),)


def _prices(dice: Dice, units: System) -> Prices:
    if not dice.chance(0.4):
        return Prices()
    used = depth(7, "32nds") if units == "us" else depth(6.0, "mm")
    return Prices(
        currency="USD" if units == "us" else "EUR", new_tire=dice.between(90, 240, 5.0), mounting=25.0,
        used_tire=dice.maybe(0.5, 60.0), used_tire_depth=used, shaving=dice.maybe(0.4, 35.0),
    )  # fmt: skip


def _circumstances(dice: Dice, units: System) -> Circumstances:
    us = units == "us"
    return Circumstances(
        filling_temperature=dice.maybe(0.4, Quantity(68.0, "degF") if us else Quantity(20.0, "degC")),
        driving_temperature=dice.maybe(0.4, Quantity(14.0, "degF") if us else Quantity(-10.0, "degC")),
        driving_altitude=dice.maybe(0.2, Quantity(5000.0, "ft") if us else Quantity(1500.0, "m")),
        speed=dice.maybe(0.4, Quantity(65.0, "mph") if us else Quantity(110.0, "km/h")),
        water_depth=dice.maybe(0.3, length(0.2, "in") if us else length(5.0, "mm")),
        texture_depth=dice.maybe(0.3, length(1.0, "mm")),
        rain=dice.maybe(0.2, Quantity(1.0, "in/h") if us else Quantity(25.0, "mm/h")),
        yearly_distance=dice.maybe(0.4, Quantity(12_000.0, "mi") if us else Quantity(15_000.0, "km")),
        sizes_wished=(dice.one(WISHED),) if dice.chance(0.3) else (),
    )  # fmt: skip
