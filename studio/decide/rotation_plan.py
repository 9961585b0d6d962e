"""What would rotating gain? Every permitted plan followed over the coming distance, against leaving all as it is."""

from collections.abc import Iterator

from studio.decide import rotation, rotation_plan_change, rotation_plan_words
from studio.decide.audience import unique_sources
from studio.decide.car_log import car_log
from studio.decide.pace import pace
from studio.decide.place_wear import grounds
from studio.decide.rotation_plan_figures import figures
from studio.decide.rotation_plan_read import Part, Planned, read_part, wheels
from studio.decide.rotation_read import choices, due, traits
from studio.decide.ruled_out import ruled_out
from studio.decide.subjects import tires
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, as_steps
from studio.model.places import CORNERS
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "rotation_plan"
SUBJECT = "car"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for the car; none until a tire stands at each corner."""
    for its in rotation.parts(episode, tables):
        on_car = [tire for tire in tires(episode) if tire.specimen.place in CORNERS]
        every = ((tire.subject.title, ruled_out(tire, episode, tables)) for tire in on_car)
        yield Part(
            rotation=its, grounds=grounds(episode, tables), out=tuple((title, out) for title, out in every if out),
            pace=pace(episode, car_log(episode, tables), tables), dual=episode.car.dual_rear_wheels,
        )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on the car."""
    if part.out:
        return _ruled_out(part, tables)
    if worn := _worn_out(part, tables):
        return _replace_first(part, worn, tables)
    its = read_part(part, tables)
    return _unknown(part, its, tables) if isinstance(its, str) else _finding(its, tables)


def _ruled_out(part: Part, tables: Tables) -> Finding:
    """A tire that must not be driven on, or is too old, is dealt with before anything is planned."""
    title, out = max(part.out, key=lambda it: SEVERITY.index(it[1].verdict))
    call = "was replaced" if out.verdict == "replace" else "was looked at"
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, verdict=out.verdict,
        sentence=f"{title} {out.words}: no rotation is planned before it {call}.",
        steps=as_steps(tuple(f"{name} {it.words}" for name, it in part.out)),
        inputs=tuple(it.path for _, it in part.out),
        sources=unique_sources(*(it.source for _, it in part.out)),
        warning=tables.cautions["over_age" if out.verdict == "replace" else "damage"],
    )  # fmt: skip


def _worn_out(part: Part, tables: Tables) -> tuple[str, ...]:
    its = wheels(part.rotation, tables)
    if isinstance(its, str):
        return ()
    every = zip(CORNERS, part.rotation.corners, strict=True)
    return tuple(w.subject.words for p, w in every if its.by_place[p].lowest <= its.by_place[p].limit + 1e-9)


def _replace_first(part: Part, worn: tuple[str, ...], tables: Tables) -> Finding:
    row = tables.legal_minimum(part.rotation.audience.region)
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, verdict="replace",
        sentence=rotation_plan_words.replace_first(worn), inputs=(*_depths(part), "region"),
        steps=as_steps(rotation_plan_words.worn_lines(worn)), sources=(row.source,) if row else (),
        warning=tables.cautions["worn_tire"],
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
