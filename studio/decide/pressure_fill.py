"""What to set where a tire is filled, so that it stands at the placard's pressure where it is driven.

Never less than the placard asks for, since no air is let out for a warm afternoon, and never more than the tire may
hold: where that is not enough, it is to be set where it is cold.
"""

from collections.abc import Iterator

import msgspec

from studio.decide.air import Around, State, atmosphere, step
from studio.decide.audience import Audience, unique_sources
from studio.decide.ceiling import Bounded, Ceiling, ceiling
from studio.decide.subjects import Tire, tires
from studio.decide.wording import joined, on_paper
from studio.model.car import PlacardTire
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import MINUS, Quantity
from studio.reference.tables import Tables
from studio.tires.units import CELSIUS_ZERO_K

TOPIC, SUBJECT = "pressure", "car"
_SAME = 1e-6
"""Pressures closer than this, in any unit, are one."""


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """The placard's pressures of front and rear, the tires that bound them, where the car is filled and driven."""

    audience: Audience
    front: Quantity | None
    rear: Quantity | None
    front_tires: tuple[Bounded, ...]
    rear_tires: tuple[Bounded, ...]
    bound_by: tuple[str, ...]
    around: Around


class Set(msgspec.Struct, frozen=True, kw_only=True):
    """What to set for one axle or both: ``there`` is the placard's pressure where it is driven, ``here`` the same air.

    ``most`` is the highest pressure that may be advised; None where none is known.
    """

    axles: tuple[str, ...]
    there: State
    here: State
    most: Ceiling | None

    @property
    def too_much(self) -> bool:
        """Whether the air for where it is driven would be more than the tire may hold here, or nobody can tell."""
        if self.more <= _SAME:
            return False
        if self.most is None:
            return True
        here = self.here.pressure
        return here.value > self.most.pressure.to(here.unit).value + _SAME

    @property
    def more(self) -> float:
        """How much more than the placard's figure is set."""
        return self.here.pressure.value - self.there.pressure.value


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part where the episode names two temperatures or two altitudes."""
    around, placard = Around.of(episode), episode.car.placard
    warm_to_cold = around.filling_temperature is not None and around.driving_temperature is not None
    if warm_to_cold or around.climbs:
        fitted = [tire for tire in tires(episode) if tire.specimen.place in CORNERS]
        yield Part(
            audience=Audience.of(episode), front=placard.front.pressure, rear=placard.rear.pressure, around=around,
            front_tires=_bounded(fitted, "front", placard.front), rear_tires=_bounded(fitted, "rear", placard.rear),
            bound_by=tuple(f"{tire.subject.path}.{_bound_by(tire)}" for tire in fitted),
        )  # fmt: skip


def _bounded(fitted: list[Tire], axle: str, asked: PlacardTire) -> tuple[Bounded, ...]:
    """The tires that stand on the axle; while none does, the size that the placard names."""
    on_it = [tire.specimen for tire in fitted if tire.specimen.place in AXLES[axle]]
    found = tuple(Bounded(marking=its.marking or asked.marking, max_pressure=its.max_pressure) for its in on_it)
    return found or (Bounded(marking=asked.marking),)


def _bound_by(tire: Tire) -> str:
    return "max_pressure" if tire.specimen.max_pressure else "marking"


def conclude(part: Part, tables: Tables) -> Finding:
    """What to set, front and rear."""
    found = sets(part, tables)
    if not found:
        return _unknown(part, tables)
    if any(its.too_much for its in found):
        return _set_in_the_cold(part, found, tables)
    if all(its.more <= _SAME for its in found):
        return _leave_as_it_is(part, found, tables)
    return _finding(part, found, tables)


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
    fitted = tuple(tire for axle in axles for tire in getattr(part, f"{axle}_tires"))
    return Set(axles=axles, there=there, here=there.elsewhere(warm, atmosphere(around.filled_at, tables)),
               most=ceiling(fitted, asked, tables))  # fmt: skip


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
    most = (its.most.source for its in found if its.most)
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, sentence=_sentence(part, found), verdict=None,
        value=first.here.pressure.value, unit=first.here.pressure.unit,
        uncertainty=_doubt(first, tables), steps=as_steps(_working(part, found, tables)),
        inputs=_inputs(part, found), advises=("inflate",), sources=unique_sources(*(row.source for row in rows), *most),
        warning=tables.cautions["inflating"], would_change=_would_change(part, first), figures=_figures(found),
    )  # fmt: skip


def _set_in_the_cold(part: Part, found: tuple[Set, ...], tables: Tables) -> Finding:
    """The placard's figure, to be set where it is cold: here it would take more than the tire may hold."""
    its = max(found, key=lambda it: it.too_much)
    caution, asked = tables.cautions["inflating"], its.there.pressure
    lines = [f"{joined(its.axles).capitalize()}, {on_paper(asked)} where it is driven: {its.there.steps_to(its.here)}"]
    if its.most:
        lines.append(f"That is over {its.most.whose} {on_paper(its.most.pressure)} ({its.most.source.title})")
    else:
        lines.append("How much the tire may hold is not known, so no number above the placard's is given")
    sources = [its.most.source] if its.most else []
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, verdict="inspect", value=asked.value, unit=asked.unit,
        sentence=f"Set the placard's {part.audience.both(asked)} where it is cold: here it would take too much.",
        steps=as_steps(tuple(lines)), inputs=_inputs(part, found),
        sources=unique_sources(*sources, tables.physics["atmosphere_kpa"].source), warning=caution,
        figures=_placards(found), missing=("the highest pressure marked on the sidewall",),
        detail=(("not_drawn", "the pressure is to be set where it is cold, not where it is warm"),),
        advises=("inflate",),
    )  # fmt: skip


def _leave_as_it_is(part: Part, found: tuple[Set, ...], tables: Tables) -> Finding:
    """Warmer or higher where it is driven: the placard's figure counts, for a tire as cold as the air around it."""
    asked = found[0].there.pressure
    both = part.audience.both
    lines = [
        f"{joined(its.axles).capitalize()}, {on_paper(its.there.pressure)} where it is driven is "
        f"{on_paper(its.here.pressure)} here: {its.there.steps_to(its.here)}"
        for its in found
    ]  # fmt: skip
    axles = [f"{both(its.there.pressure)} {its.axles[0]}" for its in found] if len(found) > 1 else [both(asked)]
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, verdict=None, value=asked.value, unit=asked.unit,
        sentence=f"Set the placard's {joined(axles)} here too, cold: no air is let out for where it is driven.",
        steps=as_steps((*lines, "Never less than the placard asks for: the tire would be low on the next cold day")),
        inputs=_inputs(part, found), sources=(tables.pressure["cold_parked_hours"].source,),
        warning=tables.cautions["inflating"], figures=_placards(found), advises=("inflate",),
        detail=(("not_drawn", "the placard's figure is set as it is: no air is let out for where the car is driven"),),
    )  # fmt: skip


def _placards(found: tuple[Set, ...]) -> tuple[Figure, ...]:
    return tuple(
        Figure(name=f"placard_{axle}", label=f"cold placard pressure, {axle}", quantity=its.there.pressure)
        for its in found
        for axle in its.axles
    )


def _inputs(part: Part, found: tuple[Set, ...]) -> tuple[str, ...]:
    lines = [f"car.placard.{axle}" for its in found for axle in its.axles]
    placards = (f"{line}.{field}" for line in lines for field in ("pressure", "marking"))
    return (*placards, *part.bound_by, *part.around.given)


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
        *(f"Not over {its.most.whose} {on_paper(its.most.pressure)} ({its.most.source.title})"
          for its in found if its.most),
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
