"""Where could a puncture of it be repaired? The zone on a tire's own size, and what would rule a repair out today.

A tire whose puncture was recorded is left to the condition topic, which judges that very hole.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from studio.decide import age
from studio.decide.audience import Audience, unique_sources
from studio.decide.condition_read import Condition, Part, judge
from studio.decide.damage import Sighting, sightings
from studio.decide.measured import latest
from studio.decide.repair import Check, crown_shares, least_depth, section_width_mm
from studio.decide.subjects import tires
from studio.decide.wording import on_paper, upper_first
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import depth, length
from studio.model.source import Source
from studio.model.specimen import Damage
from studio.reference.rows import Rule
from studio.reference.tables import Tables
from studio.tires.repair import crown_width_mm

TOPIC = "repair_zone"
_HOLE = Damage(kind="puncture", zone="crown")
_LOOK = "a qualified tire professional, tire off the wheel"
_ABOUT_THE_TIRE = ("depth_least", "not_damaged", "not_aged", "run_flat_type")


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part for each tire without a recorded puncture; the first thing seen is the hole that it has not got."""
    for tire in tires(episode):
        path = tire.subject.path
        seen = sightings(tire.specimen, path, episode.on)
        if any(sighting.damage.kind == "puncture" for sighting in seen):
            continue
        supposed = Sighting(damage=_HOLE, on=episode.on, path="")
        yield Part(
            audience=Audience.of(episode), subject=tire.subject, seen=(supposed, *seen), marking=tire.specimen.marking,
            tread=latest(tire.specimen, path, episode.on), age=age.part_of(tire, episode),
        )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    its = judge(part, tables)
    checks, half = its.items[0].checks, its.crown_half
    broken = [check for check in checks if check.state == "broken"]
    known = half is not None
    hurt = bool(broken) and broken[0].id == "not_damaged"
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name,
        sentence=_sentence(its, broken), verdict=None if known or broken else "unknown",
        value=half.value if half else None, unit=half.unit if half else None,
        steps=as_steps(_working(its, checks, tables)),
        inputs=_inputs(part), sources=_sources(part, broken, tables),
        warning=tables.cautions["damage" if hurt else "repair"], would_change=_would_change(part, broken, tables),
        missing=() if known else ("the marking on the sidewall",), figures=_figures(its, tables),
        detail=_detail(part, broken),
    )  # fmt: skip


def _sentence(its: Condition, broken: list[Check]) -> str:
    title, half = its.part.subject.title, its.crown_half
    if broken:
        return f"{title} is past repair: {_why(broken)}."
    if half is None:
        return f"Where {its.part.subject.words} could be repaired needs its marking."
    return f"{title} can be repaired, if at all, only within {its.part.audience.both(half)} of its center line."


def _working(its: Condition, checks: tuple[Check, ...], tables: Tables) -> tuple[str, ...]:
    lines = []
    width, half = section_width_mm(its.marking), its.crown_half
    if width is not None and half is not None:
        share = crown_shares(tables).share(width)
        lines.append(f"Crown: {share:g} × {on_paper(length(width))} / 2 = {on_paper(half)} to either side of the "
                     "tread's center line")  # fmt: skip
    names = ("crown_only", "hole_most", "straight_through", "no_overlap", "not_run_flat", "off_rim", "plug_temporary")
    rules = [_rule(name, tables) for name in names]
    rules.append(_least(its.part, tables))
    lines += [f"{upper_first(rule.wording)} ({rule.source.title}; {rule.source.standing})" for rule in rules]
    about = [check for check in checks if check.id.startswith(_ABOUT_THE_TIRE) and check.state in ("broken", "unsure")]
    return (*lines, *(f"Against a repair today: {_why([check])} ({check.source.title})" for check in about))


def _would_change(part: Part, broken: list[Check], tables: Tables) -> tuple[str, ...]:
    if not broken:
        return ()
    sound = judge(replace(part, seen=part.seen[:1]), tables)
    if broken[0].id == "not_damaged" and not sound.items[0].broken:
        return ("Without that damage a hole in the crown could perhaps be repaired.",)
    return ()


def _sources(part: Part, broken: list[Check], tables: Tables) -> tuple[Source, ...]:
    rules = (_rule("crown_only", tables), _least(part, tables))
    return unique_sources(*(check.source for check in broken), *(rule.source for rule in rules))


def _inputs(part: Part) -> tuple[str, ...]:
    path = part.subject.path
    spot = (part.tread.spot_path(part.tread.lowest),) if part.tread else ()
    seen = (sighting.path for sighting in part.seen[1:])
    return (f"{path}.marking", *spot, *seen, f"{path}.date_code", "on", "region")


def _figures(its: Condition, tables: Tables) -> tuple[Figure, ...]:
    least, widest = _least(its.part, tables), _rule("hole_most", tables).value or 0.0
    found = [
        Figure(name="hole_most", label="largest hole that is repaired", quantity=length(widest)),
        Figure(name="depth_least", label="least tread for a repair",
               quantity=depth(least.value or 0.0, "mm" if least.unit == "mm" else "32nds")),
    ]  # fmt: skip
    width = section_width_mm(its.marking)
    if width is not None and its.crown_half is not None:
        crown = crown_width_mm(width, crown_shares(tables))
        found += [
            Figure(name="section_width", label="nominal section width", quantity=length(width)),
            Figure(name="crown_width", label="crown, where repairs are made", quantity=length(crown)),
            Figure(name="crown_half_width", label="crown to either side of the center line", quantity=its.crown_half),
        ]
    if its.part.tread is not None:
        lowest = depth(its.part.tread.lowest.value, its.part.tread.reading.unit)
        found.append(Figure(name="depth", label="lowest reading", quantity=lowest))
    return tuple(found)


def _detail(part: Part, broken: list[Check]) -> tuple[tuple[str, str], ...]:
    pairs = {"repairable": "no" if broken else "", "why": _why(broken), "look": _LOOK}
    return tuple((name, text) for name, text in pairs.items() if text)


def _why(broken: list[Check]) -> str:
    """Why nothing is repaired on it; there is no hole beside which the damage would *also* show."""
    return broken[0].why.replace("it also shows", "it shows") if broken else ""


def _rule(name: str, tables: Tables) -> Rule:
    return tables.repair[name]


def _least(part: Part, tables: Tables) -> Rule:
    return least_depth(part.audience.region, tables)
