"""How does it wear? The profile across the tread and round the tire: the usual pattern nearest to it, its causes."""

from collections.abc import Iterator

from studio.decide import wear_pattern_axles, wear_pattern_change, wear_pattern_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.measured import history
from studio.decide.subjects import Tire, tires
from studio.decide.wear_pattern_axles import AxlePart
from studio.decide.wear_pattern_read import Part, Pressure, Wear, judge
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import depth
from studio.reference.tables import Tables

TOPIC = "wear_pattern"


def parts(episode: Episode, tables: Tables) -> Iterator[Part | AxlePart]:
    """One part for each tire, then for each axle, and for front against rear, only where they wear apart."""
    for tire in tires(episode):
        yield Part(
            audience=Audience.of(episode), subject=tire.subject, depth_new=tire.specimen.depth_new,
            history=history(tire.specimen, tire.subject.path, episode.on), pressure=_pressure(tire, episode),
        )  # fmt: skip
    yield from wear_pattern_axles.parts(episode, tables)


def _pressure(tire: Tire, episode: Episode) -> Pressure | None:
    """The last cold pressure read at the tire's present place, with the placard's."""
    line = tire.specimen.place.split("_")[0]
    placard = getattr(episode.car.placard, line).pressure if line in ("front", "rear", "spare") else None
    if placard is None:
        return None
    dated = sorted(enumerate(tire.specimen.readings), key=lambda pair: pair[1].on, reverse=True)
    for number, reading in dated:
        read = reading.pressure
        if read and read.cold and reading.place == tire.specimen.place and reading.on <= episode.on:
            path = f"{tire.subject.path}.readings[{number}].pressure.pressure"
            return Pressure(read=read.pressure, placard=placard, paths=(path, f"car.placard.{line}.pressure"))
    return None


def conclude(part: Part | AxlePart, tables: Tables) -> Finding:
    """The finding on one tire, one axle or the set."""
    if isinstance(part, AxlePart):
        return wear_pattern_axles.conclude(part, tables)
    its = judge(part, tables)
    return _finding(its, tables) if its else _unread(part, tables)


def _unread(part: Part, tables: Tables) -> Finding:
    caution = tables.cautions["measuring"]
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict="unknown",
        sentence=wear_pattern_words.unread(part), missing=("a depth reading",), inputs=(part.subject.path,),
        sources=(caution.source,), warning=caution,
    )  # fmt: skip


def _finding(its: Wear, tables: Tables) -> Finding:
    part, uneven, limit = its.part, its.deciding, its.limits.report
    value = depth(uneven.amount_mm, "mm").to(limit.unit).value if uneven else None
    found, standing = its.verdict not in ("keep", "unknown"), tables.measuring["uneven_report_32nds"].source.standing
    rows = (tables.measuring[f"uneven_{name}_32nds"].source for name in ("report", "urgent"))
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name,
        sentence=wear_pattern_words.sentence(its), verdict=its.verdict, value=value,
        unit=limit.unit if uneven else None, limit=limit.value if uneven else None,
        limit_label=f"reported difference, {standing}" if uneven else "",
        margin=None if value is None else limit.value - value,
        uncertainty=depth(its.limits.doubt_mm, "mm").to(limit.unit).value if uneven else None,
        steps=as_steps(wear_pattern_words.working(its, tables)), inputs=_inputs(its),
        sources=unique_sources(*rows, *(it.row.source for it in its.uneven), its.doubt.source),
        warning=tables.cautions["uneven_wear" if found else "measuring"],
        would_change=wear_pattern_change.texts(its, tables), missing=wear_pattern_words.missing(its, tables),
        figures=_figures(its), detail=wear_pattern_words.detail(its),
    )  # fmt: skip


def _inputs(its: Wear) -> tuple[str, ...]:
    part, path = its.part, its.tread.path
    new = (f"{part.history[0].path}.depths", f"{part.subject.path}.depth_new") if its.new else ()
    pressure = part.pressure.paths if part.pressure and its.speaks_of_pressure else ()
    return (f"{path}.depths", f"{path}.gauge.resolution", *new, *pressure)


def _figures(its: Wear) -> tuple[Figure, ...]:
    """The profile as pictures draw it."""
    found = [
        Figure(name=f"level_{groove + 1}", label=f"{its.tread.groove_name(groove)} groove, level",
               brief=its.tread.groove_name(groove), quantity=depth(mm, "mm"))
        for groove, mm in enumerate(its.levels)
        if mm is not None
    ]  # fmt: skip
    if its.deciding:
        amount = depth(its.deciding.amount_mm, "mm").to(its.limits.report.unit)
        found.insert(0, Figure(name="difference", label="difference across or round", quantity=amount))
    if its.three:
        parts_ = {"outer": its.three.outer, "center": its.three.center, "inner": its.three.inner}
        found += [
            Figure(name=name, label=f"{name} part of the tread", quantity=depth(mm, "mm"))
            for name, mm in parts_.items()
            if mm is not None
        ]
    return (
        *found,
        Figure(name="reported_from", label="difference that is reported", quantity=its.limits.report),
        Figure(name="urgent_from", label="difference that is urgent", quantity=its.limits.urgent),
    )
