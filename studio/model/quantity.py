"""Quantities: a number with its unit as it was read, its conversions, and the one place that puts it into words.

Conversion factors are the exact definitions of NIST SP 811, Appendix B (inch 25.4 mm, pound 0.45359237 kg,
standard gravity 9.80665 m/s2); the psi follows from them.
"""

import math
from functools import lru_cache
from typing import Literal

import msgspec

from studio.model.rounded import said_roughly
from studio.model.spoken import spell_number, spell_thirty_seconds

UnitName = Literal[
    "mm", "32nds", "in", "kPa", "psi", "bar", "km", "mi", "kg", "lb", "km/h", "mph",
    "degC", "degF", "N m", "lbf ft", "%", "years", "rev/km", "rev/mi", "rpm", "m", "ft", "mm/h", "in/h", "L/s",
    "money", "",
]  # fmt: skip
Kind = Literal[
    "depth", "length", "pressure", "distance", "load", "speed", "temperature", "torque", "share", "age", "turns",
    "turning", "altitude", "rain", "flow", "money", "count",
]  # fmt: skip
System = Literal["us", "metric"]


class Unit(msgspec.Struct, frozen=True):
    """One unit: its size in the base unit of its kind, and how it is written and said."""

    factor: float
    offset: float
    decimals: int
    symbol: str
    spoken_one: str
    spoken_many: str


_PSI_KPA = 0.45359237 * 9.80665 / 0.0254**2 / 1000.0
UNITS: dict[str, Unit] = {
    "mm": Unit(1.0, 0.0, 1, "mm", "millimeter", "millimeters"),
    "32nds": Unit(25.4 / 32, 0.0, 1, "/32 in", "thirty-second of an inch", "thirty-seconds of an inch"),
    "in": Unit(25.4, 0.0, 2, "in", "inch", "inches"),
    "kPa": Unit(1.0, 0.0, 0, "kPa", "kilopascal", "kilopascals"),
    "psi": Unit(_PSI_KPA, 0.0, 1, "psi", "pound per square inch", "psi"),
    "bar": Unit(100.0, 0.0, 2, "bar", "bar", "bar"),
    "km": Unit(1.0, 0.0, 0, "km", "kilometer", "kilometers"),
    "mi": Unit(1.609344, 0.0, 0, "mi", "mile", "miles"),
    "kg": Unit(1.0, 0.0, 0, "kg", "kilogram", "kilograms"),
    "lb": Unit(0.45359237, 0.0, 0, "lb", "pound", "pounds"),
    "km/h": Unit(1.0, 0.0, 0, "km/h", "kilometer per hour", "kilometers per hour"),
    "mph": Unit(1.609344, 0.0, 0, "mph", "mile per hour", "miles per hour"),
    "degC": Unit(1.0, 0.0, 0, "°C", "degree Celsius", "degrees Celsius"),
    "degF": Unit(5.0 / 9.0, -32.0, 0, "°F", "degree Fahrenheit", "degrees Fahrenheit"),
    "N m": Unit(1.0, 0.0, 0, "N·m", "newton meter", "newton meters"),
    "lbf ft": Unit(0.45359237 * 9.80665 * 0.3048, 0.0, 0, "lbf·ft", "pound foot", "pound feet"),
    "%": Unit(1.0, 0.0, 1, "%", "percent", "percent"),
    "years": Unit(1.0, 0.0, 1, "years", "year", "years"),
    "rev/km": Unit(1.0, 0.0, 0, "rev/km", "turn per kilometer", "turns per kilometer"),
    "rev/mi": Unit(1.0 / 1.609344, 0.0, 0, "rev/mi", "turn per mile", "turns per mile"),
    "rpm": Unit(1.0, 0.0, 1, "rpm", "turn a minute", "turns a minute"),
    "m": Unit(1.0, 0.0, 0, "m", "meter", "meters"),
    "ft": Unit(0.3048, 0.0, 0, "ft", "foot", "feet"),
    "mm/h": Unit(1.0, 0.0, 0, "mm/h", "millimeter an hour", "millimeters an hour"),
    "in/h": Unit(25.4, 0.0, 1, "in/h", "inch an hour", "inches an hour"),
    "L/s": Unit(1.0, 0.0, 1, "L/s", "liter a second", "liters a second"),
    "money": Unit(1.0, 0.0, 2, "", "", ""),
    "": Unit(1.0, 0.0, 0, "", "", ""),
}
_KIND_OF: dict[str, Kind] = {
    "mm": "depth", "32nds": "depth", "in": "length", "kPa": "pressure", "psi": "pressure", "bar": "pressure",
    "km": "distance", "mi": "distance", "kg": "load", "lb": "load", "km/h": "speed", "mph": "speed",
    "degC": "temperature", "degF": "temperature", "N m": "torque", "lbf ft": "torque", "%": "share",
    "years": "age", "rev/km": "turns", "rev/mi": "turns", "rpm": "turning", "m": "altitude",
    "ft": "altitude", "mm/h": "rain", "in/h": "rain", "L/s": "flow", "money": "money", "": "count",
}  # fmt: skip
_SHOWN_IN: dict[str, tuple[UnitName, UnitName]] = {  # kind: (US, metric)
    "depth": ("32nds", "mm"), "length": ("in", "mm"), "pressure": ("psi", "kPa"), "distance": ("mi", "km"),
    "load": ("lb", "kg"), "speed": ("mph", "km/h"), "temperature": ("degF", "degC"), "torque": ("lbf ft", "N m"),
    "turns": ("rev/mi", "rev/km"), "altitude": ("ft", "m"), "rain": ("in/h", "mm/h"),
}  # fmt: skip
MINUS = "−"
IN_FULL = 1e15
"""Below this a double holds every whole number and its tenth: from here on digits written in full would be made up."""
_MOST_DIGITS, _NO_DIFFERENCE = 6, 1e-9


class UnitError(ValueError):
    """Two units do not measure the same thing."""


class Quantity(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A number with the unit in which it was read. ``kind`` tells a depth in mm from a length in mm."""

    value: float
    unit: UnitName
    kind: Kind | None = None

    def __post_init__(self) -> None:
        if not math.isfinite(self.value):
            raise ValueError(f"{self.value} {self.unit} is not a finite number")

    @property
    def measures(self) -> Kind:
        """What kind of quantity this is."""
        return self.kind or _KIND_OF[self.unit]

    def to(self, unit: UnitName) -> "Quantity":
        """The same quantity in another unit; raises UnitError if the two do not measure the same thing."""
        if unit == self.unit:
            return self
        if unit not in _alternatives(self.measures):
            raise UnitError(f"{self.unit or 'a count'} cannot be given in {unit or 'a count'}")
        return Quantity(convert(self.value, self.unit, unit), unit, self.kind)

    def in_system(self, system: System) -> "Quantity":
        """The same quantity in the unit that ``system`` shows for its kind; a bar stays a bar in metric."""
        if self.measures not in _SHOWN_IN or (self.unit == "bar" and system == "metric"):
            return self
        return self.to(_SHOWN_IN[self.measures][system == "metric"])

    def text(self) -> str:
        """As written on a screen: ``5/32 in``, ``4.0 mm``, ``35 psi``."""
        return format_quantity(self.value, self.unit, self.measures)

    def number(self) -> str:
        """The number alone, as ``text`` writes it."""
        return format_number(self.value, decimals_for(self.value, self.unit, self.measures))

    def digits(self) -> str:
        """The number with all the digits that it has; as ``number`` where they have no end, as after a conversion."""
        short = self.number().replace(",", "").replace(MINUS, "-")
        whole = f"{self.value:.{_MOST_DIGITS}f}".rstrip("0").rstrip(".")
        has_end = abs(self.value - float(whole)) < _NO_DIFFERENCE
        return (short if not has_end or float(short) == float(whole) else whole).replace("-", MINUS)

    def both(self, first: System) -> str:
        """In both unit systems, the audience's first: ``5/32 in (4.0 mm)``; once where there is no other."""
        mine = self.in_system(first)
        other = self.in_system("metric" if first == "us" else "us")
        return mine.text() if mine.unit == other.unit else f"{mine.text()} ({other.text()})"

    def spoken(self) -> str:
        """As a presenter says it: ``two thirty-seconds of an inch``."""
        return speak(self.value, self.unit, self.measures)

    def rounded(self, system: System) -> str:
        """Rounded as people say it, in the audience's unit: ``about an eighth of an inch``."""
        mine = self.in_system(system)
        if not abs(mine.value) < IN_FULL:
            return f"about {mine.spoken()}"
        return said_roughly(mine.value, mine.unit, UNITS[mine.unit].spoken_one, UNITS[mine.unit].spoken_many)


@lru_cache(maxsize=64)
def _alternatives(kind: str) -> tuple[str, ...]:
    if kind in ("depth", "length"):
        return ("mm", "32nds", "in")
    return tuple(name for name, its in _KIND_OF.items() if its == kind)


def convert(value: float, unit: str, to: str) -> float:
    """Convert ``value``; both units must measure the same thing (``Quantity.to`` checks that)."""
    if unit == to:
        return value
    here, there = UNITS[unit], UNITS[to]
    return (value + here.offset) * here.factor / there.factor - there.offset


def decimals_for(value: float, unit: str, kind: str) -> int:
    """How many decimals a screen shows of ``value``: no more than a gauge or a placard gives."""
    if not abs(value) < IN_FULL:
        return 0
    if unit in ("32nds", "psi") and abs(value - round(value)) < 0.05:
        return 0
    if unit in ("in", "%") and abs(value - round(value)) < 1e-9:  # a rim of 17 in, an aspect ratio of 60 %
        return 0
    if kind == "length" and unit == "mm":
        return 0 if abs(value - round(value)) < 0.05 else 1
    if unit == "%" and 0 < abs(value) < 1:
        return 2
    return UNITS[unit].decimals


@lru_cache(maxsize=4096)
def format_number(value: float, decimals: int) -> str:
    """Digits with a true minus, rounded half away from zero, thousands set apart from 10,000 on.

    A number too large to be any reading (``IN_FULL``) is written by its power of ten: ``1e308``.
    """
    if not abs(value) < IN_FULL:
        return f"{value:.3g}".replace("e+", "e").replace("-", MINUS)
    scale = 10**decimals
    rounded = math.floor(abs(value) * scale + 0.5 + 1e-9) / scale
    text = f"{rounded:,.{decimals}f}" if rounded >= 10_000 else f"{rounded:.{decimals}f}"
    return (MINUS if value < 0 and rounded != 0 else "") + text


@lru_cache(maxsize=4096)
def format_quantity(value: float, unit: str, kind: str) -> str:
    """``value`` with its unit, as a screen shows it."""
    number = format_number(value, decimals_for(value, unit, kind))
    if unit == "32nds":
        return f"{number}/32 in"
    if unit in ("%", "", "money"):
        return f"{number} %" if unit == "%" else number
    if unit == "years" and number == "1.0":
        return "1.0 year"
    return f"{number} {UNITS[unit].symbol}"


def speak(value: float, unit: str, kind: str) -> str:
    """``value`` with its unit in words, numbers as the trade says them."""
    number = format_number(value, decimals_for(value, unit, kind)).replace(",", "")
    if unit == "32nds":
        return spell_thirty_seconds(number)
    spoken = spell_number(number)
    name = UNITS[unit].spoken_one if spoken == "one" else UNITS[unit].spoken_many
    return f"{spoken} {name}".strip()


def depth(value: float, unit: UnitName) -> Quantity:
    """A tread depth."""
    return Quantity(value, unit, "depth")


def length(value: float, unit: UnitName = "mm") -> Quantity:
    """A length that is no tread depth: a diameter, a circumference, a wheelbase."""
    return Quantity(value, unit, "length")
