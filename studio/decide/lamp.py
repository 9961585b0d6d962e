"""What the pressure warning lamp must do by the rule of the region, and no more than that."""

import msgspec

from studio.decide.audience import Audience
from studio.decide.markings import read
from studio.decide.wording import on_paper, upper_first
from studio.model.quantity import Quantity, UnitName
from studio.model.source import Source
from studio.reference.rows import Rule, Value
from studio.reference.tables import ANY, Tables
from studio.tires.gas import lamp_pressure

_US = ("us_25_percent", "us_floor")


class Lamp(msgspec.Struct, frozen=True, kw_only=True):
    """The lamp for one tire. ``level`` is None where no rule sets one from the placard."""

    level: Quantity | None
    lines: tuple[str, ...]
    sources: tuple[Source, ...]


def lamp_for(marking: str, placard: Quantity, dual: bool, audience: Audience, tables: Tables) -> Lamp:
    """What the lamp must do for a tire of this marking at this placard pressure."""
    rows = tables.rules_in(tables.lamp, audience.region) if audience.region in tables.regions else ()
    own = [row for row in rows if row.region != ANY]
    if not own:
        name = audience.region_name(tables)
        return Lamp(level=None, lines=(f"Warning lamp: no rule for {name} is in the tables",), sources=())
    if own[0].id == "us_25_percent":
        return _us(marking, placard, dual, audience, tables)
    return Lamp(level=None, lines=(*map(_line, own), _last(tables)), sources=tuple(row.source for row in own))


def _us(marking: str, placard: Quantity, dual: bool, audience: Audience, tables: Tables) -> Lamp:
    if dual:
        row = tables.lamp["us_no_duals"]
        return Lamp(level=None, lines=(_line(row),), sources=(row.source,))
    share, floor = tables.pressure["tpms_us_share"], floor_for(marking, placard.unit, tables)
    floor_there = Quantity(floor.value, "psi" if floor.unit == "psi" else "kPa").to(placard.unit) if floor else None
    level = Quantity(
        lamp_pressure(placard.value, share.value, floor_there.value if floor_there else 0.0), placard.unit
    )
    floored = f"; floor {on_paper(floor_there)} ({floor.source.standing})" if floor and floor_there else ""
    lines = (
        _line(tables.lamp["us_25_percent"]),
        f"Here: {share.value:g} × {on_paper(placard)} = "
        f"{on_paper(Quantity(share.value * placard.value, placard.unit))}{floored}; so at {audience.both(level)}",
        _last(tables),
    )
    sources = [tables.lamp[id_].source for id_ in _US] + ([floor.source] if floor else [])
    return Lamp(level=level, lines=lines, sources=tuple(sources))


def floor_for(marking: str, unit: UnitName, tables: Tables) -> Value | None:
    """The row of the US rule's table for a kind of tire, in kPa or psi as the rule prints it; None without a row."""
    kind = _kind(marking)
    return tables.pressure.get(f"tpms_us_floor_{kind}_{'psi' if unit == 'psi' else 'kpa'}") if kind else None


def _kind(marking: str) -> str:
    its = read(marking)
    if its is None or its.kind == "flotation":
        return ""
    if its.service == "passenger":
        return "p_extra_load" if its.extra_load or its.prefix == "HL" else "p_standard"
    return f"lt_range_{its.load_range.lower()}" if its.service == "light truck" and its.load_range else ""


def _line(row: Rule) -> str:
    return f"Warning lamp ({row.source.title}, {row.source.standing}): {row.wording}"


def _last(tables: Tables) -> str:
    return upper_first(tables.lamp["last_warning"].wording)
