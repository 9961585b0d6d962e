"""How far will it go? Wear over the distance each tire rolled, and distance and date of each limit with their band."""

from collections.abc import Iterator

from studio.decide import age, life_change, life_figures, life_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.car_log import car_log
from studio.decide.gauge import doubt
from studio.decide.life_fit import grooves
from studio.decide.life_read import Life, Part
from studio.decide.markings import read
from studio.decide.pace import pace
from studio.decide.ruled_out import ruled_out
from studio.decide.tire_marks import marks_of
from studio.decide.whereabouts import traced
from studio.model.episode import Episode
from studio.model.finding import Finding, as_steps
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "life"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each tire; a temporary spare is not driven on, so nobody asks."""
    runs = pace(episode, car_log(episode, tables), tables)
    for its in traced(episode, tables):
        tire, specimen = its.tire, its.tire.specimen
        marking = read(specimen.marking)
        if marking is not None and marking.service == "temporary":
            continue
        yield Part(
            audience=Audience.of(episode), subject=tire.subject, history=its.history, way=its.way,
            season=specimen.season, marking=specimen.marking, depth_new=specimen.depth_new,
            date_code=specimen.date_code, on=episode.on, pace=runs, out=ruled_out(tire, episode, tables),
        )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    if part.out:
        return _ruled_out(part, tables)
    its = read_part(part, tables)
    return _finding(its, tables) if isinstance(its, Life) else _unknown(part, its, tables)


def read_part(part: Part, tables: Tables) -> Life | str:
    """The part read and fitted, or in words what keeps it from being."""
    marks = marks_of(part.marking, part.season, part.audience.region, tables)
    if marks is None:
        return "a region whose rules are known"
    found = grooves(part, tables)
    if isinstance(found, str):
        return found
    aged = age.Part(subject=part.subject, code=part.date_code, on=part.on, region=part.audience.region)
    return Life(
        part=part, grooves=found, marks=marks, coverage=tables.measuring["coverage_factor"].value,
        now_half_mm=doubt(part.history[-1].reading.gauge, tables).half_width.to("mm").value,
        wide=tables.measuring["wide_band_factor"].value, days_per_year=tables.physics["days_per_year"].value,
        aged=age.read_part(aged, tables),
    )  # fmt: skip


def _ruled_out(part: Part, tables: Tables) -> Finding:
    """A tire that must not be driven on, or is too old, has no distance left, whatever its tread."""
    out = part.out
    assert out is not None, "called for tires that are ruled out"
    over_age = out.verdict == "replace"
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict=out.verdict,
        sentence=life_words.ruled_out(part, out),
        steps=as_steps((f"It {out.words}, which its tread does not outweigh",)),
        inputs=(out.path,), sources=(out.source,), warning=tables.cautions["over_age" if over_age else "damage"],
    )  # fmt: skip


def _unknown(part: Part, missing: str, tables: Tables) -> Finding:
    least = tables.measuring["projection_least_wear_mm"]
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict="unknown",
        sentence=f"{part.subject.title}: how far it will go is not known yet.", missing=(missing,),
        steps=as_steps(life_words.refused(part, missing, tables)), sources=(least.source,),
        inputs=tuple(f"{tread.path}.depths" for tread in part.history) or (part.subject.path,),
        warning=tables.cautions["estimate"],
    )  # fmt: skip


def _finding(its: Life, tables: Tables) -> Finding:
    part, legal = its.part, its.legal
    band = None if legal.high is None else max(legal.high - legal.left, legal.left - legal.low)
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, sentence=life_words.sentence(its),
        verdict="replace" if its.done else None, value=legal.left, unit=its.unit, uncertainty=band,
        steps=as_steps(life_words.working(its, tables)), inputs=_inputs(its), sources=_sources(its, tables),
        warning=tables.cautions["worn_tire" if its.done else "estimate"], figures=life_figures.figures(its),
        would_change=life_change.texts(its), detail=life_words.detail(its),
        missing=() if its.yearly else (life_words.NO_PACE,),
    )  # fmt: skip


def _inputs(its: Life) -> tuple[str, ...]:
    part, paths = its.part, []
    for stage in part.way.stages:
        tread = part.history[stage.number]
        paths += [f"{tread.path}.depths", f"{tread.path}.gauge.resolution"]
        paths += [f"{tread.path}.odometer"] if tread.reading.odometer else []
    paths += [f"{part.history[-1].path}.depths", f"{part.subject.path}.season"]
    paths += [f"{part.subject.path}.date_code"] if its.age_ends_it else []
    paths += [part.pace.path] if part.pace and part.pace.path else []
    return (*dict.fromkeys(paths), "region")


def _sources(its: Life, tables: Tables) -> tuple[Source, ...]:
    marks = (mark.source for mark in (its.marks.legal, *its.marks.others))
    row = tables.measuring
    age_row = its.aged.deciding[-1:] if its.aged and its.age_ends_it else ()
    return unique_sources(
        *marks, *(row.source for row in age_row), row["projection_least_wear_mm"].source,
        row["repeatability_mm"].source, *((row["coverage_factor"].source,) if its.line.readings > 2 else ()),
    )  # fmt: skip
