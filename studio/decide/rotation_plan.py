"""What would rotating gain? Every permitted plan followed over the coming distance, against leaving all as it is."""

from collections.abc import Iterator

from studio.decide import rotation, rotation_plan_change, rotation_plan_words
from studio.decide.audience import unique_sources
from studio.decide.car_log import car_log
from studio.decide.pace import pace
from studio.decide.place_wear import grounds
from studio.decide.rotation_plan_figures import figures
from studio.decide.rotation_plan_read import Part, Planned, read_part
from studio.decide.rotation_read import choices, due, traits
from studio.model.episode import Episode
from studio.model.finding import Finding, as_steps
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "rotation_plan"
SUBJECT = "car"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for the car; none until a tire stands at each corner."""
    for its in rotation.parts(episode, tables):
        yield Part(
            rotation=its, grounds=grounds(episode, tables), pace=pace(episode, car_log(episode, tables), tables)
        )


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on the car."""
    if part.rotation.held:
        return _held(part, tables)
    its = read_part(part, tables)
    return _unknown(part, its, tables) if isinstance(its, str) else _finding(its, tables)


def _held(part: Part, tables: Tables) -> Finding:
    """What bars a rotation bars every plan of rotations."""
    first, every = part.rotation.held[0], part.rotation.held
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, verdict=first.verdict,
        sentence=f"No rotation is planned: {first.reason}",
        steps=as_steps(f"Bars a rotation: {it.reason}" for it in every),
        inputs=tuple(dict.fromkeys(path for it in every for path in it.paths)),
        sources=unique_sources(*(it.source for it in every)), warning=tables.cautions[first.caution],
        held_by=tuple(it.id for it in every),
    )  # fmt: skip


def _unknown(part: Part, missing: str, tables: Tables) -> Finding:
    least = tables.measuring["projection_least_wear_mm"]
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, verdict="unknown", missing=(missing,),
        sentence="What rotating these tires would gain is not known yet.",
        steps=as_steps((f"Needed: {missing}", "Plans are computed from the wear that each place on the car has shown")),
        inputs=(*_depths(part), "region") if _depths(part) else ("region",),
        sources=(least.source,), warning=tables.cautions["rotation"],
    )  # fmt: skip


def _finding(its: Planned, tables: Tables) -> Finding:
    longest, low, high = its.found.longest.lasts, its.lasts_low, its.lasts_high
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, sentence=rotation_plan_words.sentence(its),
        value=longest, unit=its.unit, uncertainty=None if high is None else max(longest - low, high - longest, 0.0),
        steps=as_steps(rotation_plan_words.working(its, tables)), inputs=_inputs(its), sources=_sources(its, tables),
        warning=tables.cautions["rotation"], would_change=rotation_plan_change.texts(its),
        advises=("rotate",) if its.gains else (), held_by=tuple(it.id for it in its.part.rotation.kept),
        missing=rotation_plan_words.missing(its), figures=figures(its), detail=rotation_plan_words.detail(its),
    )  # fmt: skip


def _depths(part: Part) -> tuple[str, ...]:
    return tuple(f"{worn.tread.path}.depths" for worn in part.rotation.corners if worn.tread)


def _inputs(its: Planned) -> tuple[str, ...]:
    part = its.part
    paths = [*_depths(part), *part.grounds.paths, "car.drivetrain"]
    paths += ["car.rotation_interval"] if part.rotation.interval else []
    paths += [mileage.path for mileage in (part.rotation.since, part.rotation.now) if mileage]
    paths += [part.pace.path] if part.pace and part.pace.path else []
    return (*dict.fromkeys(paths), "region")


def _sources(its: Planned, tables: Tables) -> tuple[Source, ...]:
    rotation_part = its.part.rotation
    found = choices(rotation_part, traits(rotation_part, tables), tables)
    rules = (rule.source for choice in found for rule in choice.against)
    order = tables.rotation_order.get(rotation_part.drivetrain or "")
    law = tables.legal_minimum(rotation_part.audience.region)
    return unique_sources(
        *((law.source,) if law else ()), due(rotation_part, tables).source, *((order.source,) if order else ()),
        *rules, tables.measuring["coverage_factor"].source,
    )  # fmt: skip
