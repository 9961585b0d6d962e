"""Can it stay on? The lowest reading of a tire against the law of the region, then against advice."""

from collections.abc import Iterator

from studio.decide import age, condition, tread_change, tread_words
from studio.decide.audience import UNKNOWN_REGION, Audience, unique_sources
from studio.decide.damage import also_seen, condemning
from studio.decide.gauge import doubt
from studio.decide.markings import read
from studio.decide.measured import latest
from studio.decide.objections import objections
from studio.decide.subjects import tires
from studio.decide.tread_limits import judge, marks_for
from studio.decide.tread_read import Part, Read
from studio.model.caution import Caution
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import depth
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "tread_left"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each tire."""
    for tire in tires(episode):
        yield Part(
            audience=Audience.of(episode), subject=tire.subject, season=tire.specimen.season,
            tread=latest(tire.specimen, tire.subject.path, episode.on), marking=tire.specimen.marking,
            damage=condemning(tire.specimen, tire.subject.path, episode.on, tables), depth_new=tire.specimen.depth_new,
            also_seen=also_seen(tire.specimen, tire.subject.path, episode.on, tables),
            age=age.part_of(tire, episode), condition=condition.part_of(tire, episode, tables),
        )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    its = read_part(part, tables)
    return _finding(its, tables) if its else _unknown(part, tables)


def read_part(part: Part, tables: Tables) -> Read | None:
    """The part read and judged; None without a reading or a known legal minimum."""
    marking = read(part.marking)
    temporary = marking is not None and marking.service == "temporary"
    construction = "radial" if marking is None or marking.construction == "radial" else "diagonal"
    marks = marks_for(part.audience.region, part.season, construction, temporary, tables, part.age.on)
    if part.tread is None or marks is None:
        return None
    bar = tables.measuring["indicator_height_mm"]
    lowest, unsure = part.tread.depth(part.tread.lowest.value), doubt(part.tread.reading.gauge, tables)
    return Read(
        part=part, tread=part.tread, marks=marks, doubt=unsure, temporary=temporary,
        depth=lowest.to(marks.legal.depth.unit),
        judged=judge(lowest.to("mm").value, unsure.half_width.to("mm").value, marks),
        bar=depth(bar.value, "mm"), bar_source=bar.source,
        objections=objections(part.age, part.condition, tables),
    )  # fmt: skip


def _unknown(part: Part, tables: Tables) -> Finding:
    known = part.audience.region in tables.regions
    sentence = f"{part.subject.title} has no depth reading yet."
    if part.tread is not None:
        sentence = f"No legal minimum is known for region {part.audience.region_name(tables)}."
    if part.damage:
        sentence = tread_words.damaged(part.subject.title, part.damage)
    caution = tables.cautions["damage" if part.damage else "measuring"]
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, sentence=sentence,
        verdict="replace" if part.damage else "unknown", warning=caution,
        missing=(*(() if part.tread else ("a depth reading",)), *(() if known else (UNKNOWN_REGION,))),
        inputs=(part.subject.path, "region", *(seen.path for seen in part.damage)),
        sources=unique_sources(*(seen.source for seen in part.damage), caution.source),
        steps=as_steps(tuple(seen.dated for seen in part.damage)),
    )  # fmt: skip


def _finding(its: Read, tables: Tables) -> Finding:
    part = its.part
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name,
        sentence=tread_words.sentence(its), verdict=its.verdict, value=its.depth.value, unit=its.legal.unit,
        limit=its.legal.value, limit_label=its.marks.legal.label,
        limit_region=part.audience.region, margin=its.above.value,
        uncertainty=its.doubt.half_width.to(its.legal.unit).value, steps=as_steps(tread_words.working(its)),
        inputs=_inputs(its), sources=_sources(its), warning=_caution(its, tables),
        would_change=tread_change.texts(its), figures=_figures(its), detail=tread_words.detail(its),
        missing=() if its.depth_new else (tread_words.NO_NEW_DEPTH,),
    )  # fmt: skip


def _inputs(its: Read) -> tuple[str, ...]:
    path = its.part.subject.path
    new = (f"{path}.depth_new",) if its.part.depth_new else ()
    return (
        its.tread.spot_path(its.tread.lowest), f"{its.tread.path}.depths", f"{its.tread.path}.gauge.resolution", *new,
        f"{path}.season", f"{path}.marking", "region", *(seen.path for seen in its.part.damage),
        *(it.path for it in its.objections), *(("on",) if its.objections or its.marks.of_the_day else ()),
    )  # fmt: skip


def _sources(its: Read) -> tuple[Source, ...]:
    others = (mark.source for mark in its.marks.others)
    damage, against = (seen.source for seen in its.part.damage), (it.source for it in its.objections)
    return unique_sources(its.marks.legal.source, *damage, *against, *others, its.doubt.source, its.bar_source)


def _caution(its: Read, tables: Tables) -> Caution:
    if its.part.damage or its.objection is None:
        key = "damage" if its.part.damage else "temporary_spare" if its.temporary else "worn_tire"
        return tables.cautions[key]
    return tables.cautions[its.objection.caution]


def _figures(its: Read) -> tuple[Figure, ...]:
    """Every number that pictures and scripts show of a tire's tread."""
    figures = [
        Figure(name="depth", label="lowest reading", quantity=its.depth),
        Figure(name="legal_minimum", label=its.marks.legal.label, quantity=its.legal),
        Figure(name="above_legal", label="above the legal minimum", quantity=its.above),
        Figure(name="wear_bar", label="height of the wear bars", quantity=its.bar),
        Figure(name="mean", label="mean of all grooves", quantity=its.tread.mean().to(its.legal.unit)),
    ]
    figures += [
        Figure(name=f"groove_{groove + 1}", label=f"{its.tread.groove_name(groove)} groove, mean",
               quantity=mean.to(its.legal.unit))
        for groove, mean in its.tread.groove_means()
    ]  # fmt: skip
    figures += [
        Figure(name=mark.name, label=mark.label, brief=mark.brief, quantity=mark.depth) for mark in its.marks.others
    ]
    return (*figures, *_shares(its))


def _shares(its: Read) -> tuple[Figure, ...]:
    if its.depth_new is None:
        return ()
    audience = its.part.audience
    between = f"from {audience.own(its.depth_new)} new to {audience.own(its.legal)}"
    return (
        Figure(name="depth_new", label="depth when new", quantity=its.depth_new),
        Figure(name="usable_left", label=f"usable tread left, {between}", quantity=its.usable_left),
        Figure(name="full_depth_share", label="share of the full depth", quantity=its.full_depth_share),
    )
