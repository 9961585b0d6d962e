"""Leak or weather: what of a drop in pressure the change of temperature explains, and what is lost air."""

import datetime as dt
import math
from typing import Literal

import msgspec

from studio.decide.air import State, doubt_of
from studio.model.quantity import Quantity
from studio.reference.tables import Tables

Cause = Literal["filled", "weather", "usual", "leak", "lost"]
_MONTHS_IN_YEAR = 12


class Drop(msgspec.Struct, frozen=True, kw_only=True):
    """From ``base`` to what was read. ``since`` is None where the base is the placard's pressure, set on no known day.

    Numbers are in the unit of the reading. ``usual_most`` is the largest usual loss over the time between.
    """

    base: State
    since: dt.date | None
    expected: State
    read: Quantity
    doubt: float
    months: float | None
    usual_most: float | None

    @property
    def total(self) -> float:
        """How much less was read than at the base."""
        return self.base.pressure.value - self.read.value

    @property
    def weather(self) -> float:
        """How much of it the change of temperature explains; below 0 where it got warmer."""
        return self.base.pressure.value - self.expected.pressure.value

    @property
    def lost(self) -> float:
        """How much less was read than the temperature explains; below 0 where air was put in."""
        return self.expected.pressure.value - self.read.value

    @property
    def cause(self) -> Cause:
        """What explains the reading, as far as two readings can tell."""
        if abs(self.lost) <= self.doubt:
            return "weather"
        if self.lost < 0:
            return "filled"
        if self.usual_most is None:
            return "lost"
        return "usual" if self.lost - self.doubt <= self.usual_most else "leak"

    @property
    def weather_share(self) -> float | None:
        """The weather's share of the drop; None where there is no drop that the gauge can tell, or air was put in."""
        if self.total <= self.doubt or self.cause == "filled":
            return None
        return min(1.0, max(0.0, self.weather / self.total))


def drop_from(base: State, since: dt.date | None, now: State, on: dt.date, tables: Tables) -> Drop:
    """What became of the air in ``base`` until it was read as ``now``."""
    unit = now.pressure.unit
    base = State(pressure=base.pressure.to(unit), temperature=base.temperature, atmosphere=base.atmosphere)
    expected = base.elsewhere(now.temperature, now.atmosphere)
    months = _months(since, on, tables) if since else None
    usual = Quantity(tables.pressure["monthly_loss_most_psi"].value, "psi").to(unit).value
    return Drop(
        base=base, since=since, expected=expected, read=now.pressure, doubt=_doubt(base, expected, tables),
        months=months, usual_most=None if months is None else usual * months,
    )  # fmt: skip


def _months(since: dt.date, on: dt.date, tables: Tables) -> float:
    return (on - since).days / (tables.physics["days_per_year"].value / _MONTHS_IN_YEAR)


def _doubt(base: State, expected: State, tables: Tables) -> float:
    """Two readings of the gauge, each with its temperature, by squares."""
    gauge = Quantity(tables.assumed["pressure_gauge_psi"].value, "psi").to(base.pressure.unit).value
    kelvins = tables.assumed["tire_temperature_c"].value
    change = math.hypot(base.change_for(kelvins), expected.change_for(kelvins))
    return doubt_of(math.hypot(gauge * expected.kelvin / base.kelvin, gauge), change)
