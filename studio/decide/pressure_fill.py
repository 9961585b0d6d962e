"""What to set where a tire is filled, so that it stands at the placard's pressure where it is driven."""

from collections.abc import Iterator

import msgspec

from studio.decide.air import Around, State, atmosphere, step
from studio.decide.audience import Audience, unique_sources
from studio.decide.wording import joined, on_paper
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import MINUS, Quantity
from studio.reference.tables import Tables
from studio.tires.units import CELSIUS_ZERO_K

TOPIC, SUBJECT = "pressure", "car"


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """The placard's pressures of front and rear, and where the car is filled and driven."""

    audience: Audience
    front: Quantity | None
    rear: Quantity | None
    around: Around


class Set(msgspec.Struct, frozen=True, kw_only=True):
    """What to set for one axle or both: ``there`` is the placard's pressure where it is driven, ``here`` is set."""

    axles: tuple[str, ...]
    there: State
    here: State

    @property
    def more(self) -> float:
        """How much more than the placard's figure is set."""
        return self.here.pressure.value - self.there.pressure.value


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part where the episode names two temperatures or two altitudes."""
    around, placard = Around.of(episode), episode.car.placard
    warm_to_cold = around.filling_temperature is not None and around.driving_temperature is not None
    if warm_to_cold or around.climbs:
        yield Part(
            audience=Audience.of(episode), front=placard.front.pressure, rear=placard.rear.pressure, around=around
        )


def conclude(part: Part, tables: Tables) -> Finding:
    """What to set, front and rear."""
    found = sets(part, tables)
    return _finding(part, found, tables) if found else _unknown(part, tables)


def sets(part: Part, tables: Tables) -> tuple[Set, ...]:
    """One set where front and rear are alike, else two; none without a placard pressure."""
    asked = {axle: pressure for axle in ("front", "rear") if (pressure := getattr(part, axle)) is not None}
    groups: dict[Quantity, list[str]] = {}
    for axle, pressure in asked.items():
        groups.setdefault(pressure, []).append(axle)
    return tuple(_set(part, tuple(axles), pressure, tables) for pressure, axles in groups.items())


def _set(part: Part, axles: tuple[str, ...], asked: Quantity, tables: Tables) -> Set:
    around = part.around
    warm = around.filling_temperature or around.driving_temperature or _MILD
    cold = around.driving_temperature or around.filling_temperature or _MILD
    there = State(pressure=asked, temperature=cold, atmosphere=atmosphere(around.driven_at, tables))
    return Set(axles=axles, there=there, here=there.elsewhere(warm, atmosphere(around.filled_at, tables)))


_MILD = Quantity(20.0, "degC")
"""Between two altitudes at one temperature any temperature gives the same answer: its ratio is 1."""


def _unknown(part: Part, tables: Tables) -> Finding:
    caution = tables.cautions["inflating"]
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, verdict="unknown", inputs=part.around.given,
        sentence="What to set is not known: the placard's cold pressure is not entered yet.",
        missing=("the placard's cold pressure",), warning=caution, sources=(caution.source,),
    )  # fmt: skip


def _finding(part: Part, found: tuple[Set, ...], tables: Tables) -> Finding:
    first = found[0]
    rows = [tables.physics["atmosphere_kpa"], tables.assumed["tire_temperature_c"]]
    rows += [tables.physics["air_molar_mass_kg_per_kmol"]] if part.around.filled_at else []
    placards = tuple(f"car.placard.{axle}.pressure" for its in found for axle in its.axles)
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, sentence=_sentence(part, found), verdict=None,
        value=first.here.pressure.value, unit=first.here.pressure.unit,
        uncertainty=_doubt(first, tables), steps=as_steps(_working(part, found, tables)),
        inputs=(*placards, *part.around.given), sources=unique_sources(*(row.source for row in rows)),
        warning=tables.cautions["inflating"], would_change=_would_change(part, first), figures=_figures(found),
    )  # fmt: skip


def _doubt(its: Set, tables: Tables) -> float:
    """The temperature's doubt; how exactly the set pressure is met is the gauge's."""
    return its.here.change_for(tables.assumed["tire_temperature_c"].value)


def _sentence(part: Part, found: tuple[Set, ...]) -> str:
    audience = part.audience
    if len(found) == 1:
        here, there = found[0].here.pressure, found[0].there.pressure
        if audience.own(here) == audience.own(there):
            return f"{_places(part)}: set the placard's {audience.both(here)}."
        return f"{_places(part)}: set {audience.both(here)}, not the placard's {audience.own(there)}."
    front, rear = (audience.both(its.here.pressure) for its in found)
    return f"{_places(part)}: set {front} front, {rear} rear."


def _places(part: Part) -> str:
    around, own = part.around, part.audience.own
    if around.filling_temperature and around.driving_temperature:
        return f"Filled at {own(around.filling_temperature)} for {own(around.driving_temperature)}"
    here, there = around.filled_at, around.driven_at
    return f"Filled at {own(here)} for {own(there)}" if here and there else "Filled elsewhere"


def _working(part: Part, found: tuple[Set, ...], tables: Tables) -> tuple[str, ...]:
    audience, doubt = part.audience, tables.assumed["tire_temperature_c"]
    lines = [
        f"{joined(its.axles).capitalize()}, {on_paper(its.there.pressure)} where it is driven: "
        f"{its.there.steps_to(its.here)}"
        for its in found
    ]
    first = found[0]
    more = Quantity(first.more, first.here.pressure.unit)
    lines += [
        f"So set {on_paper(more)} {'more' if first.more >= 0 else 'less'} than the placard's figure here: "
        f"{on_paper(first.here.pressure)} {MINUS} {on_paper(first.there.pressure)} = {on_paper(more)}",
        f"Air in the tire within {doubt.value:g} °C of the air around ({doubt.source.standing}): "
        f"±{audience.both(Quantity(_doubt(first, tables), first.here.pressure.unit))}",
        part.around.assumed(),
        "Assumed: the tire stood in the warm or the cold until it was as warm or as cold itself",
        "Never more than the highest pressure marked on the sidewall",
    ]
    return tuple(lines)


def _would_change(part: Part, first: Set) -> tuple[str, ...]:
    by, kelvins = step(part.audience.units)
    colder = State(
        pressure=first.there.pressure, atmosphere=first.there.atmosphere,
        temperature=Quantity(first.there.kelvin - kelvins - CELSIUS_ZERO_K, "degC"),
    ).elsewhere(first.here.temperature, first.here.atmosphere)  # fmt: skip
    unit = first.here.pressure.unit
    more = Quantity(colder.pressure.value - first.here.pressure.value, unit)
    lines = [f"Each {by.text()} colder where it is driven asks for {part.audience.both(more)} more."]
    thawed = first.here.elsewhere(first.here.temperature, first.there.atmosphere).pressure.value
    over = thawed - first.there.pressure.value
    if over > 0 and first.here.kelvin > first.there.kelvin:
        back = part.audience.both(Quantity(over, unit))
        lines.append(f"Once it is as warm there as here, they stand {back} over the placard: let that out, cold.")
    return tuple(lines)


def _figures(found: tuple[Set, ...]) -> tuple[Figure, ...]:
    figures = []
    for its in found:
        for axle in its.axles:
            figures += [
                Figure(name=f"set_{axle}", label=f"to set, {axle}", quantity=its.here.pressure),
                Figure(name=f"placard_{axle}", label=f"cold placard pressure, {axle}", quantity=its.there.pressure),
                Figure(name=f"cooled_{axle}", label=f"the same air as cold, where it is filled, {axle}",
                       quantity=its.here.elsewhere(its.there.temperature, its.here.atmosphere).pressure),
            ]  # fmt: skip
    first = found[0]
    return (
        *figures, Figure(name="filling_temperature", label="where it is filled", quantity=first.here.temperature),
        Figure(name="driving_temperature", label="where it is driven", quantity=first.there.temperature),
        Figure(name="more", label="more than the placard's figure",
               quantity=Quantity(first.more, first.here.pressure.unit)),
        Figure(name="atmosphere", label="air outside, where it is filled", quantity=first.here.atmosphere_there),
    )  # fmt: skip
