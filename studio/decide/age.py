"""How old is it? The date code read, and what is advised at that age: advice, never law."""

from collections.abc import Iterator

from studio.decide import age_words
from studio.decide.age_read import Aged, Part
from studio.decide.age_words import clause
from studio.decide.audience import Audience, unique_sources
from studio.decide.subjects import Tire, tires
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.rows import AgeAdvice
from studio.reference.tables import ANY, Tables
from studio.tires.datecode import DateCodeError, age_years, parse_date_code

TOPIC = "age"
__all__ = ["TOPIC", "Aged", "Part", "clause", "conclude", "part_of", "parts", "read_part"]


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part for each tire."""
    for tire in tires(episode):
        yield part_of(tire, episode)


def part_of(tire: Tire, episode: Episode) -> Part:
    """The part of one tire."""
    return Part(subject=tire.subject, code=tire.specimen.date_code, on=episode.on, region=Audience.of(episode).region)


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    its = read_part(part, tables)
    return _finding(its, tables) if its else _unknown(part, tables)


def read_part(part: Part, tables: Tables) -> Aged | None:
    """The part read; None without a date code that can be read."""
    try:
        code = parse_date_code(part.code, part.on) if part.code.strip() else None
    except DateCodeError:
        return None
    if code is None:
        return None
    days = tables.physics["days_per_year"].value
    years = age_years(code.first_day, part.on, days)
    rows = _rows(part.region, tables)
    advice = [row for row in rows if row.level != "note" and row.from_years is not None]
    return Aged(
        part=part, code=code, years=years, days_per_year=days, notes=tuple(row for row in rows if row.level == "note"),
        advice=tuple(sorted(advice, key=lambda row: row.from_years or 0.0)),
    )  # fmt: skip


def _rows(region: str, tables: Tables) -> tuple[AgeAdvice, ...]:
    """What is said of age in the region and everywhere."""
    names = (*(tables.region_chain(region) if region in tables.regions else ()), ANY)
    return tuple(row for row in tables.age_advice.values() if row.region in names)


def _unknown(part: Part, tables: Tables) -> Finding:
    rule = tables.date_code["either_side"]
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict="unknown",
        sentence=age_words.unread(part), missing=("the date code on the sidewall",),
        inputs=(f"{part.subject.path}.date_code",), steps=as_steps((rule.wording[:1].upper() + rule.wording[1:],)),
        sources=(rule.source,), warning=tables.cautions["over_age"],
        would_change=("A date code such as 3618, week 36 of 2018, gives the age.",),
    )  # fmt: skip


def _finding(its: Aged, tables: Tables) -> Finding:
    part, limit = its.part, its.limit
    at = limit.from_years if limit else None
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, sentence=age_words.sentence(its),
        verdict=its.verdict, value=its.years, unit="years", limit=at,
        limit_label=f"advice, {limit.source.title} ({limit.source.standing})" if limit else "",
        margin=None if at is None else at - its.years, uncertainty=its.doubt_years,
        steps=as_steps(age_words.working(its, tables)), inputs=(f"{part.subject.path}.date_code", "on", "region"),
        sources=_sources(its, tables), would_change=age_words.would_change(its), figures=_figures(its),
        warning=tables.cautions["estimate" if its.verdict == "keep" else "over_age"],
        detail=age_words.detail(its),
    )  # fmt: skip


def _sources(its: Aged, tables: Tables) -> tuple[Source, ...]:
    rule, week = tables.date_code[its.rule], tables.date_code.get(its.week_rule)
    said = (row.source for row in (*its.advice, *its.notes))
    return unique_sources(
        rule.source, *((week.source,) if week else ()), *said, tables.physics["days_per_year"].source
    )


def _figures(its: Aged) -> tuple[Figure, ...]:
    found = [
        Figure(name="age", label="age from the week of manufacture", quantity=Quantity(its.years, "years")),
        Figure(name="made_year", label="year of manufacture", quantity=Quantity(float(its.code.year), "")),
        Figure(name="made_week", label="week of manufacture", quantity=Quantity(float(its.code.week), "")),
    ]
    for row in its.advice:
        years = Quantity(row.from_years or 0.0, "years")
        found.append(Figure(name=f"advice_{row.level}", label=f"advice, {row.source.standing}", quantity=years,
                            brief=row.source.standing))
    return tuple(found)
