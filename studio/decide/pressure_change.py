"""What would change the verdict on a pressure, found by reading the part again with another pressure in it."""

import msgspec

from studio.decide.air import step
from studio.decide.pressure_read import Read, Standing, judge_part
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Quantity
from studio.reference.tables import Tables
from studio.tires.gas import temperature_for_pressure
from studio.tires.units import CELSIUS_ZERO_K

_NUDGE = 1e-6
_ROUNDS = 2
"""How often a level is taken again with the doubt that holds there; the doubt hardly depends on the pressure."""
_OUTCOMES: dict[Standing, str] = {
    "right": "it would be right", "under": "it would be under the placard", "over": "it would be over the placard",
    "low": "it would have to be inspected",
}  # fmt: skip


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """Another reading that gives another verdict: how much more (less if negative) the gauge would show."""

    more: Quantity
    outcome: str
    verdict: Verdict


def texts(its: Read, tables: Tables) -> tuple[str, ...]:
    """The changes as sentences: of the reading, then of the weather."""
    if its.part.out:
        return ()
    return (*(_reading(its, change) for change in changes(its, tables)), *_weather(its, tables))


def changes(its: Read, tables: Tables) -> tuple[Change, ...]:
    """The nearest change to less and the nearest to more air, where there is one."""
    if its.asked is None or not its.last.read.cold:
        return ()
    levels = _levels(its, its.asked.value, tables)
    below = sorted((level for level in levels if level <= its.held.value), reverse=True)
    above = sorted(level for level in levels if level >= its.held.value)
    found = (_first(its, below, -_NUDGE, tables), _first(its, above, _NUDGE, tables))
    return tuple(change for change in found if change)


def _first(its: Read, levels: list[float], nudge: float, tables: Tables) -> Change | None:
    """The first of the levels beyond which the verdict is another one."""
    for level in levels:
        again = _again(its, level + nudge, tables) if level + nudge >= 0 else None
        if again is not None and again.verdict != its.verdict:
            more = Quantity(again.held.value - its.held.value, its.unit)
            return Change(more=more, outcome=_outcome(its, again), verdict=again.verdict)
    return None


def _outcome(its: Read, again: Read) -> str:
    if again.leaks and again.standing != "low":
        return "it would have a leak to be looked for"
    milder = SEVERITY.index(again.verdict) < SEVERITY.index(its.verdict)
    return "it would be one to watch" if milder and again.verdict == "watch" else _OUTCOMES[again.standing]


def _again(its: Read, held: float, tables: Tables) -> Read:
    read = msgspec.structs.replace(its.last.read, pressure=Quantity(held, its.unit))
    last = msgspec.structs.replace(its.last, read=read)
    return judge_part(msgspec.structs.replace(its.part, taken=(*its.part.taken[:-1], last)), tables)


def _levels(its: Read, asked: float, tables: Tables) -> list[float]:
    """What the gauge would have to show for the verdict to turn."""
    low = its.low_share * asked
    found = [low, _held_for(its, low)]
    for sign in (-1, 1):
        level = _held_for(its, asked + sign * its.doubt)
        for _ in range(_ROUNDS if its.street else 0):
            level = _held_for(its, asked + sign * _again(its, level, tables).doubt)
        found.append(level)
    if its.drop and its.drop.usual_most is not None:
        found.append(its.drop.expected.pressure.value - its.drop.usual_most - its.drop.doubt)
    return found


def _held_for(its: Read, value: float) -> float:
    """The reading that gives ``value`` where the car is driven."""
    if its.now is None or its.street is None:
        return max(0.0, value)
    outside, there = its.now.atmosphere_there.value, its.street.atmosphere_there.value
    return max(0.0, (value + there) * its.now.kelvin / its.street.kelvin - outside)


def _reading(its: Read, change: Change) -> str:
    by = its.part.audience.both(Quantity(abs(change.more.value), its.unit))
    return f"If the gauge read over {by} {'more' if change.more.value > 0 else 'less'}, {change.outcome}."


def _weather(its: Read, tables: Tables) -> tuple[str, ...]:
    """What a step of temperature does, and the temperature at which the same air shows the placard's pressure."""
    if its.now is None:
        return ()
    audience, (colder, kelvins) = its.part.audience, step(its.part.audience.units)
    here, weather = its.street or its.now, tables.bounds["temperature"]
    change = Quantity(here.change_for(kelvins), its.unit)
    lines = [f"Each {colder.text()} colder takes {audience.both(change)} off."]
    if its.asked is not None and its.standing in ("under", "over") and its.value.value > 0:
        at_k = temperature_for_pressure(here.pressure.value, here.kelvin, its.asked.value, here.atmosphere_there.value)
        celsius = at_k - CELSIUS_ZERO_K
        if weather.low <= celsius <= weather.high:
            lines.append(f"At {audience.both(Quantity(celsius, 'degC'))} the same air shows the placard's pressure.")
    return tuple(lines)
