"""What a single entry can be: checks that the window asks while a person types, and ``admission`` of a whole episode.

Each check raises ValueError with one sentence: what was read, what was expected, an example.
"""

import datetime as dt
from functools import lru_cache

from studio.model.car import Tolerance
from studio.model.quantity import Quantity, depth
from studio.model.specimen import DepthUnit
from studio.reference.rows import Bound
from studio.reference.tables import Tables
from studio.tires.datecode import parse_date_code
from studio.tires.designation import parse_marking

_LENGTHS = ("depth", "length")
_TOLERANCES = {"depth": "tolerance_depth", "circumference": "tolerance_circumference", "percent": "tolerance_percent"}


def check(name: str, quantity: Quantity, tables: Tables) -> None:
    """Check ``quantity`` as an entry of the table of bounds: its kind, and whether it can be so small or so large."""
    bound = tables.bounds[name]
    if quantity.measures != bound.kind and not (quantity.measures in _LENGTHS and bound.kind in _LENGTHS):
        raise ValueError(f"{quantity.text()} was read, which is a {quantity.measures}; expected {bound.expected}")
    low, high = within(bound, quantity)
    if not low <= quantity.value <= high:
        raise ValueError(outside(quantity, bound))


def within(bound: Bound, quantity: Quantity) -> tuple[float, float]:
    """The bounds in the unit of ``quantity``."""
    low, high = (Quantity(value, bound.unit, bound.kind).to(quantity.unit).value for value in (bound.low, bound.high))
    return low, high


def outside(quantity: Quantity, bound: Bound) -> str:
    """The sentence on a quantity outside its bounds."""
    low, high = (Quantity(value, quantity.unit, bound.kind).text() for value in within(bound, quantity))
    read = Quantity(quantity.value, quantity.unit, bound.kind).text()
    return f"{read} was read; expected {bound.expected}, from {low} to {high}"


def check_depth(quantity: Quantity, tables: Tables) -> None:
    """A tread depth that was read."""
    check("depth", quantity, tables)


def check_depth_new(quantity: Quantity, tables: Tables) -> None:
    """A tire's depth when new."""
    check("depth_new", quantity, tables)


def check_resolution(quantity: Quantity, tables: Tables) -> None:
    """The step of a gauge."""
    check("resolution", quantity, tables)


def check_pressure(quantity: Quantity, tables: Tables) -> None:
    """A pressure that was read; 0 is a flat tire."""
    check("pressure_read", quantity, tables)


def check_placard_pressure(quantity: Quantity, tables: Tables) -> None:
    """A placard pressure."""
    check("pressure_placard", quantity, tables)


def check_temperature(quantity: Quantity, tables: Tables) -> None:
    """An air temperature."""
    check("temperature", quantity, tables)


def check_odometer(quantity: Quantity, tables: Tables) -> None:
    """An odometer reading."""
    check("odometer", quantity, tables)


def check_tolerance(tolerance: Tolerance, tables: Tables) -> None:
    """The maker's tolerance: its unit must be that of its form."""
    check(_TOLERANCES[tolerance.form], tolerance.limit, tables)


def check_marking(text: str) -> None:
    """A sidewall or placard marking; empty is not yet entered."""
    if text.strip():
        parse_marking(text)


def check_date_code(text: str, on: dt.date) -> None:
    """A date code on the episode's date; empty is not yet entered."""
    if text.strip():
        parse_date_code(text, on)


@lru_cache(maxsize=8)
def depth_bounds(unit: DepthUnit, bound: Bound) -> tuple[float, float]:
    """The bounds of a depth that was read, in the reading's unit."""
    return within(bound, depth(0.0, unit))
