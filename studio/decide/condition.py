"""What was seen on it? Damage: what it means, what must not be done, who must look, and whether a hole is repaired.

A tire on which no damage was recorded has no finding: that nobody entered any says nothing about the tire.
"""

from collections.abc import Iterator

from studio.decide import age, condition_change, condition_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.condition_read import Condition, Part, judge
from studio.decide.damage import sightings
from studio.decide.measured import latest
from studio.decide.repair import crown_shares, least_depth, section_width_mm
from studio.decide.subjects import Tire, tires
from studio.model.caution import Caution
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity, depth, length
from studio.model.source import Source
from studio.reference.tables import Tables
from studio.tires.repair import crown_width_mm

TOPIC = "condition"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each tire on which damage was recorded."""
    for tire in tires(episode):
        if part := part_of(tire, episode, tables):
            yield part


def part_of(tire: Tire, episode: Episode, _: Tables) -> Part | None:
    """The part of one tire; None where no damage was recorded on it."""
    path = tire.subject.path
    seen = sightings(tire.specimen, path, episode.on)
    if not seen:
        return None
    return Part(
        audience=Audience.of(episode), subject=tire.subject, seen=seen, marking=tire.specimen.marking,
        tread=latest(tire.specimen, path, episode.on), age=age.part_of(tire, episode),
    )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    its = judge(part, tables)
    size, limit, label = condition_words.size_of(its.deciding), *_limit(its, tables)
    held = size is not None and limit is not None
    most = limit.to(size.unit) if size is not None and limit is not None else None
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name,
        sentence=condition_words.sentence(its), verdict=its.verdict, value=size.value if size else None,
        unit=size.unit if size else None, limit=most.value if most else None, limit_label=label if held else "",
        margin=most.value - size.value if size and most else None, steps=as_steps(condition_words.working(its, tables)),
        inputs=_inputs(its), sources=_sources(its), warning=_caution(its, tables),
        would_change=condition_change.texts(its, tables), missing=condition_words.missing(its),
        figures=_figures(its, tables), detail=condition_words.detail(its),
    )  # fmt: skip


def _limit(its: Condition, tables: Tables) -> tuple[Quantity | None, str]:
    """What the size of the deciding damage is held against, and whose limit it is; nothing where its size is beside
    the point."""
    if its.deciding.kind.kind == "puncture":
        if its.deciding.broken and its.deciding.broken[0].id != "hole_most":
            return None, ""
        rule = tables.repair["hole_most"]
        return length(rule.value or 0.0), f"largest hole repaired, {rule.source.title}"
    if its.deciding.kind.kind == "cut" and its.longest_cut is not None:
        return its.longest_cut, "longest cut that may reach the cord, the region's law"
    return None, ""


def _inputs(its: Condition) -> tuple[str, ...]:
    part, path = its.part, its.part.subject.path
    hole = its.deciding.kind.kind == "puncture"
    spot = (part.tread.spot_path(part.tread.lowest),) if part.tread and hole else ()
    aged = (f"{path}.date_code", "on") if hole else ()
    return (*(item.seen.path for item in its.items), *spot, f"{path}.marking", *aged, "region")


def _sources(its: Condition) -> tuple[Source, ...]:
    item = its.deciding
    broken = (check.source for check in item.broken)
    rules = (row.source for row in item.rules)
    others = (row.source for other in its.items for row in other.rules)
    checks = (check.source for it in its.items for check in it.checks)
    return unique_sources(*broken, *rules, *others, *checks, item.kind.source)


def _caution(its: Condition, tables: Tables) -> Caution:
    only_holes = all(item.kind.kind == "puncture" for item in its.items)
    return tables.cautions["repair" if only_holes else "damage"]


def _figures(its: Condition, tables: Tables) -> tuple[Figure, ...]:
    item, found = its.deciding, []
    if size := condition_words.size_of(item):
        found.append(Figure(name="size", label=f"size of {item.kind.brief}", quantity=size))
    if its.longest_cut is not None and item.kind.kind == "cut":
        found.append(Figure(name="longest_cut", label="longest cut the law allows", quantity=its.longest_cut))
    return (*found, *(_hole_figures(its, tables) if item.kind.kind == "puncture" else ()))


def _hole_figures(its: Condition, tables: Tables) -> tuple[Figure, ...]:
    """What a picture of the zones of repair is drawn from."""
    hole, width, tread = length(tables.repair["hole_most"].value or 0.0), section_width_mm(its.marking), its.part.tread
    found = [Figure(name="hole_most", label="largest hole that is repaired", quantity=hole)]
    if width is not None and its.crown_half is not None:
        crown = crown_width_mm(width, crown_shares(tables))
        found += [
            Figure(name="section_width", label="nominal section width", quantity=length(width)),
            Figure(name="crown_width", label="crown, where repairs are made", quantity=length(crown)),
            Figure(name="crown_half_width", label="crown to either side of the center line", quantity=its.crown_half),
        ]
    least = least_depth(its.part.audience.region, tables)
    found.append(Figure(name="depth_least", label="least tread for a repair",
                        quantity=depth(least.value or 0.0, "mm" if least.unit == "mm" else "32nds")))  # fmt: skip
    if tread is not None:
        lowest = depth(tread.lowest.value, tread.reading.unit)
        found.append(Figure(name="depth", label="lowest reading", quantity=lowest))
    return tuple(found)
