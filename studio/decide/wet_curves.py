"""The floating speed along tread, pressure and water, each within the range stated for its relation: for charts.

Names of the figures: ``1979.water.at.3`` is the third depth of water, ``1979.water.speed.3`` the speed there;
``1979.water.low`` and ``.high`` are the ends of the range stated for the relation.
"""

from collections.abc import Iterable

from msgspec.structs import replace

from studio.decide.wet_read import SERIES_32NDS, Given, Wet, speed_of_1963, speed_of_1979
from studio.model.finding import Figure
from studio.model.quantity import Quantity, depth, length
from studio.reference import numbers
from studio.reference.tables import Tables
from studio.tires.water import Gallaway

ALONG = ("tread", "pressure", "water")
_FIELDS = {"tread": "depth_32nds", "pressure": "pressure_psi", "water": "water_in"}
_STATED = {"tread": "tread depth", "pressure": "pressure", "water": "water"}
_STEPS = 7


def curves(its: Wet, tables: Tables) -> tuple[Figure, ...]:
    """Every curve that a relation has along one of the three, the other two as they are."""
    coefficients = Gallaway.from_numbers(numbers(tables.hydroplaning))
    stated = {name: (low, high) for name, low, high, _ in coefficients.stated()}
    beyond = {it.name for it in its.beyond}
    found: list[Figure] = [_control(tables)]
    for along in ALONG:
        low, high = stated[_STATED[along]]
        found += [_figure(f"1979.{along}.low", "tested from", along, low),
                  _figure(f"1979.{along}.high", "tested to", along, high)]  # fmt: skip
        if not beyond - {_STATED[along]}:
            given = [_with(its.given, along, at) for at in _samples(along, low, high)]
            found += _curve("1979", along, ((it, speed_of_1979(it, coefficients, tables)) for it in given))
        found += _of_1963(its, along, low, high, tables)
    return tuple(found)


def _control(tables: Tables) -> Figure:
    row = tables.hydroplaning["gradual_loss_mph"]
    return Figure(name="gradual", label=row.means, quantity=Quantity(row.value, "mph"))


def _samples(along: str, low: float, high: float) -> list[float]:
    """Values from ``low`` to ``high``; close together in thin water, where the relation bends."""
    if along == "tread":
        return [float(deep) for deep in sorted(SERIES_32NDS)]
    steps = [step / (_STEPS - 1) for step in range(_STEPS)]
    return [low + (high - low) * (step * step if along == "water" else step) for step in steps]


def _of_1963(its: Wet, along: str, low: float, high: float, tables: Tables) -> list[Figure]:
    """Its ends: it knows no tread and no depth of water, so it is level along them where it holds at all."""
    given, tread = its.given, length(its.given.water_in, "in").to("32nds").value
    least = tables.hydroplaning["stated_water_least_in"].value
    ends = {"tread": (low, min(tread, high)), "water": (max(given.depth_in, least), high),
            "pressure": (min(low, given.pressure_psi), max(high, given.pressure_psi))}[along]  # fmt: skip
    if ends[1] <= ends[0]:
        return []
    # at its border, water as deep as the tread, the relation does not hold yet: it is asked just inside
    inside = _with(given, along, sum(ends) / 2)
    if speed_of_1963(inside, tables) is None:
        return []
    values = _samples(along, *ends) if along == "pressure" else ends
    asked = [(_with(given, along, at), inside if along != "pressure" else _with(given, along, at)) for at in values]
    return _curve("1963", along, ((at, speed_of_1963(it, tables) or 0.0) for at, it in asked))


def _curve(year: str, along: str, points: Iterable[tuple[Given, float]]) -> list[Figure]:
    found = []
    for order, (at, mph) in enumerate(points, start=1):
        found += [_figure(f"{year}.{along}.at.{order}", "with", along, getattr(at, _FIELDS[along])),
                  Figure(name=f"{year}.{along}.speed.{order}", label=f"floats near, relation of {year}",
                         quantity=Quantity(mph, "mph"))]  # fmt: skip
    return found


def _with(given: Given, along: str, at: float) -> Given:
    return replace(given, **{_FIELDS[along]: at})


def _figure(name: str, label: str, along: str, value: float) -> Figure:
    quantity = {"tread": depth(value, "32nds"), "pressure": Quantity(value, "psi"), "water": length(value, "in")}[along]
    return Figure(name=name, label=f"{label}, {_STATED[along]}", quantity=quantity)
