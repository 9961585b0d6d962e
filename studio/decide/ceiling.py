"""The highest cold pressure that may be advised for a tire: what its sidewall allows, never a guess.

What is marked on the sidewall and entered counts. Where it is not entered, a range letter names a pressure; a
passenger tire's maximum is one of the few that may be printed (49 CFR 571.139 S5.2(c)) and not under what the placard
asks for, so the lowest of those is safe whichever it is.
"""

import msgspec

from studio.decide.carried import basis_of
from studio.decide.markings import read
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.tables import Tables
from studio.tires.marking import Marking

_PRINTED = "sidewall_"
_MARKED = Source(title="the tire's sidewall", locator="highest pressure, as entered", standing="published, restated")


class Bounded(msgspec.Struct, frozen=True, kw_only=True):
    """What bounds the pressure of one tire, or of a size that the placard names."""

    marking: str
    max_pressure: Quantity | None = None


class Ceiling(msgspec.Struct, frozen=True, kw_only=True):
    """A pressure not to be passed; ``whose`` names it before the number (``the sidewall's``)."""

    pressure: Quantity
    whose: str
    source: Source


def ceiling(tires: tuple[Bounded, ...], asked: Quantity, tables: Tables) -> Ceiling | None:
    """The lowest ceiling of tires that the placard wants at ``asked``; None where one has none that is known."""
    known = [_of(its, asked, tables) for its in tires]
    if None in known:
        return None
    return min((it for it in known if it), default=None, key=lambda it: it.pressure.to("kPa").value)


def _of(its: Bounded, asked: Quantity, tables: Tables) -> Ceiling | None:
    if its.max_pressure is not None:
        return Ceiling(pressure=its.max_pressure, whose="the sidewall's", source=_MARKED)
    marking = read(its.marking)
    if marking is None:
        return None
    return _printed(asked, tables) if marking.service == "passenger" else _by_range(marking, tables)


def _by_range(marking: Marking, tables: Tables) -> Ceiling | None:
    basis = basis_of(marking, tables)
    if basis is None:
        return None
    whose = f"load range {marking.load_range}'s" if marking.load_range else f"a {basis.words}'s"
    return Ceiling(pressure=Quantity(basis.reference.value, "kPa"), whose=whose, source=basis.reference.source)


def _printed(asked: Quantity, tables: Tables) -> Ceiling | None:
    rows = (row for key, row in tables.pressure.items() if key.startswith(_PRINTED))
    enough = (row for row in rows if row.value >= asked.to("kPa").value - 1e-9)
    least = min(enough, default=None, key=lambda row: row.value)
    if least is None:
        return None
    pressure = Quantity(least.value, "kPa")
    return Ceiling(pressure=pressure, whose="the lowest maximum that its sidewall can show,", source=least.source)
