"""Small episodes about pressure and weather for the tests."""

import datetime as dt

from studio.decide import decide
from studio.model.car import Car, Placard, PlacardTire
from studio.model.circumstances import Circumstances
from studio.model.places import CORNERS
from studio.model.quantity import Quantity
from studio.model.specimen import PressureReading
from tests.decide.build import TABLES, episode, reading, tire

HIGHEST_PRINTED = Quantity(350.0, "kPa")
"""51 psi: the highest that 49 CFR 571.139 S5.2(c) lets a passenger tire show."""
EARLIER, LATER = dt.date(2025, 12, 15), dt.date(2026, 2, 14)


def psi(value, fahrenheit=None, cold=True):
    """A pressure that was read, in psi, at a temperature."""
    return read(value, "psi", None if fahrenheit is None else Quantity(fahrenheit, "degF"), cold)


def kpa(value, celsius=None, cold=True):
    """A pressure that was read, in kPa, at a temperature."""
    return read(value, "kPa", None if celsius is None else Quantity(celsius, "degC"), cold)


def read(value, unit, temperature, cold=True):
    return PressureReading(pressure=Quantity(float(value), unit), temperature=temperature, cold=cold)


def around(**given):
    """The circumstances of an episode."""
    return Circumstances(**given)


def placard(value=36.0, unit="psi", rear=None):
    """A placard with the same pressure all round, or with another one at the rear."""
    front = PlacardTire(marking="225/60R17 99H", pressure=Quantity(value, unit))
    back = PlacardTire(marking="225/60R17 99H", pressure=Quantity(rear or value, unit))
    return Placard(front=front, rear=back, spare=PlacardTire(pressure=Quantity(60.0, "psi")))


def whole(*taken, place="front_left", car=None, circumstances=None, on=LATER, days=None, **more):
    """An episode with one tire whose pressure was read on as many days as there are readings."""
    days = days or [EARLIER, LATER][-len(taken) :]
    outside = {key: more.pop(key) for key in ("region", "units") if key in more}
    more.setdefault("max_pressure", HIGHEST_PRINTED)
    readings = [reading((), on=day, pressure=one) for day, one in zip(days, taken, strict=True)]
    return episode(
        tire(place, *readings, **more), car=car or Car(placard=placard()), on=on,
        circumstances=circumstances or Circumstances(), **outside,
    )  # fmt: skip


def found(*taken, place="front_left", **more):
    """The finding on the pressure of that tire."""
    return decide(whole(*taken, place=place, **more), TABLES).get(f"pressure.{place}")


def filling(circumstances, asked=None, max_pressure=HIGHEST_PRINTED, units="us", marking="225/60R17 99H"):
    """The finding on what to set, for a car whose four tires show this highest pressure."""
    fitted = (tire(place, marking=marking, max_pressure=max_pressure) for place in CORNERS)
    its = episode(*fitted, car=Car(placard=asked or placard()), circumstances=circumstances, units=units)
    return decide(its, TABLES).get("pressure.car")


def warm_or_cold(warm_c, cold_c, placard_kpa, max_pressure=HIGHEST_PRINTED):
    """The finding on what to set in a garage for the street."""
    circumstances = around(
        filling_temperature=Quantity(float(warm_c), "degC"), driving_temperature=Quantity(float(cold_c), "degC")
    )
    return filling(circumstances, placard(float(placard_kpa), "kPa"), max_pressure, units="metric")
