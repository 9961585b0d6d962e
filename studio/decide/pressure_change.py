"""What would change the verdict on a pressure, found by asking the verdict again at other pressures."""

import msgspec

from studio.decide.air import step
from studio.decide.pressure_read import Read, Standing, standing, verdict_of
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Quantity
from studio.reference.tables import Tables
from studio.tires.gas import temperature_for_pressure
from studio.tires.units import CELSIUS_ZERO_K

_NUDGE = 1e-6
_OUTCOMES: dict[Standing, str] = {
    "right": "it would be right", "under": "it would be under the placard", "over": "it would be over the placard",
    "low": "it would have to be inspected",
}  # fmt: skip


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """Another reading that gives another verdict: how much more (less if negative) the gauge would show."""

    more: Quantity
    standing: Standing
    verdict: Verdict


def texts(its: Read, tables: Tables) -> tuple[str, ...]:
    """The changes as sentences: of the reading, then of the weather."""
    if its.part.out:
        return ()
    found = [_reading(its, change) for change in changes(its)]
    return (*found, *_weather(its, tables))


def changes(its: Read) -> tuple[Change, ...]:
    """The nearest change to less and the nearest to more air, where there is one."""
    if its.asked is None or not its.last.read.cold or its.leaks:
        return ()
    levels = sorted(_levels(its, its.asked.value))
    mine = verdict_of(its.standing, its.part.spare)
    less = next((found for level in reversed(levels) if (found := _at(its, level - _NUDGE, mine)).more.value < 0
                 and found.verdict != mine), None)  # fmt: skip
    more = next((found for level in levels if (found := _at(its, level + _NUDGE, mine)).more.value > 0
                 and found.verdict != mine), None)  # fmt: skip
    return tuple(change for change in (less, more) if change)


def _levels(its: Read, asked: float) -> list[float]:
    """What the gauge would have to show for the verdict to turn."""
    edges = [_held_for(its, value) for value in (asked - its.doubt, asked + its.doubt)]
    return [its.low_share * asked, *edges]


def _held_for(its: Read, value: float) -> float:
    """The reading that gives ``value`` where the car is driven."""
    if its.now is None or its.street is None:
        return value
    outside, there = its.now.atmosphere_there.value, its.street.atmosphere_there.value
    return (value + there) * its.now.kelvin / its.street.kelvin - outside


def _value_for(its: Read, held: float) -> float:
    if its.now is None or its.street is None:
        return held
    outside, there = its.now.atmosphere_there.value, its.street.atmosphere_there.value
    return (held + outside) * its.street.kelvin / its.now.kelvin - there


def _at(its: Read, held: float, mine: Verdict) -> Change:
    at = standing(_value_for(its, held), held, its)
    return Change(more=Quantity(held - its.held.value, its.unit), standing=at, verdict=verdict_of(at, its.part.spare))


def _reading(its: Read, change: Change) -> str:
    by, way = its.part.audience.both(Quantity(abs(change.more.value), its.unit)), "less"
    if change.more.value > 0:
        way = "more"
    milder = SEVERITY.index(change.verdict) < SEVERITY.index(verdict_of(its.standing, its.part.spare))
    outcome = _OUTCOMES[change.standing] if not milder or change.standing == "right" else "it would be one to watch"
    return f"If the gauge read over {by} {way}, {outcome}."


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
