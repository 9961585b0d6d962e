"""Do they match? The tires of an axle, and of the set, against the maker's limit, the law, or common practice."""

from collections.abc import Iterator

import msgspec

from studio.decide import matching_change, matching_figures, matching_words
from studio.decide.alike import unlike
from studio.decide.audience import Audience, unique_sources
from studio.decide.gauge import doubt
from studio.decide.markings import read
from studio.decide.matching_limits import ALL_WHEELS, gravest, hold, limits_for
from studio.decide.matching_read import Match, Part
from studio.decide.matching_tires import Compared, Reading, Worn, compared
from studio.decide.measured import latest
from studio.decide.sizes import same_size, size_of
from studio.decide.subjects import Tire, tires
from studio.decide.topic import remembered
from studio.model.episode import Episode
from studio.model.finding import Finding, as_steps
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import Quantity, depth
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "matching"
_GROUPS = {"front_axle": AXLES["front"], "rear_axle": AXLES["rear"], "set": CORNERS}


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part for each axle and one for the set; none while no tire stands on the car.

    Where the placard asks for two sizes, front and rear are not meant to be alike: each axle is matched by itself.
    """
    standing = {tire.subject.name: _worn(tire, episode) for tire in tires(episode) if tire.specimen.place in CORNERS}
    groups = {name: places for name, places in _GROUPS.items() if name != "set" or not _two_sizes(episode)}
    for name, places in groups.items() if standing else ():
        yield Part(
            audience=Audience.of(episode), name=name, scope="set" if name == "set" else "axle", places=places,
            tires=tuple(standing[place] for place in places if place in standing),
            drivetrain=episode.car.drivetrain, tolerance=episode.car.tolerance,
        )  # fmt: skip


def _two_sizes(episode: Episode) -> bool:
    front, rear = (read(line.marking) for line in (episode.car.placard.front, episode.car.placard.rear))
    return front is not None and rear is not None and not same_size(front, rear)


def _worn(tire: Tire, episode: Episode) -> Worn:
    specimen = tire.specimen
    return Worn(
        subject=tire.subject, marking=specimen.marking, season=specimen.season, pattern=specimen.tread,
        depth_new=specimen.depth_new, tread=latest(specimen, tire.subject.path, episode.on),
    )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one axle or the set."""
    match = read_part(part, tables)
    return _finding(match, tables) if match else _unknown(part, tables)


def read_part(part: Part, tables: Tables) -> Match | None:
    """The part compared and judged, equal ones from memory; None while a tire or its reading is missing."""
    return _remembered(part, tables)


def _read_part(part: Part, tables: Tables) -> Match | None:
    readings = tuple(
        Reading(
            worn=worn, tread=worn.tread, size=size_of(worn.marking, tables),
            doubt_mm=doubt(worn.tread.reading.gauge, tables).half_width.to("mm").value,
        )
        for worn in part.tires
        if worn.tread is not None
    )  # fmt: skip
    if len(readings) < len(part.places):
        return None
    found = compared(readings)
    limits = limits_for(part.audience, part.scope, part.drivetrain, part.tolerance, tables)
    held = tuple(it for limit in limits if (it := hold(found, limit)))
    rotate = tables.rotation_interval["front_rear_difference"]
    two_driven = part.scope == "set" and part.drivetrain not in (*ALL_WHEELS, None)
    return Match(
        part=part, compared=found, unlike=unlike(part.tires, part.audience.region, tables), held=held,
        binding=gravest(held), rotate_from=depth(rotate.low, rotate.unit) if two_driven else None,
        axles_apart=_axles_apart(found) if part.scope == "set" else None,
    )  # fmt: skip


_remembered = remembered(_read_part, most=64)


def _axles_apart(found: Compared) -> Quantity:
    """How far the mean of the front tires is from the mean of the rear tires."""
    mean = {tire.worn.subject.name: tire.mean_mm for tire in found.tires}
    front, rear = (sum(mean[place] for place in AXLES[axle]) / 2 for axle in ("front", "rear"))
    return depth(abs(front - rear), "mm")


def _unknown(part: Part, tables: Tables) -> Finding:
    caution = tables.cautions["mixing"]
    differs = unlike(part.tires, part.audience.region, tables)
    return Finding(
        id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name, sentence=matching_words.unread(part, differs),
        verdict="inspect" if differs.verdict == "inspect" else "unknown", missing=matching_words.missing(part),
        inputs=(*(worn.subject.path for worn in part.tires), "region"), warning=caution,
        sources=unique_sources(*(rule.source for rule in differs.rules), caution.source),
        steps=as_steps(matching_words.unlike_lines(differs)),
    )  # fmt: skip


def _finding(match: Match, tables: Tables) -> Finding:
    part, weighed = match.part, _weighed(match, tables)
    return Finding(
        id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name, sentence=matching_words.sentence(match),
        verdict=match.verdict or "unknown", value=weighed.value.value, unit=weighed.value.unit, limit=weighed.limit,
        limit_label=weighed.label, margin=weighed.margin, uncertainty=weighed.doubt,
        steps=as_steps(matching_words.working(match)), inputs=_inputs(match), sources=_sources(match, tables),
        warning=tables.cautions["mixing"], would_change=matching_change.texts(match),
        missing=matching_words.missing(part), figures=matching_figures.figures(match, tables),
        detail=matching_words.detail(match),
    )  # fmt: skip


class _Weighed(msgspec.Struct, frozen=True, kw_only=True):
    """The number that the sentence speaks of, and what it is held against, all in the unit of ``value``."""

    value: Quantity
    doubt: float
    limit: float | None = None
    label: str = ""
    margin: float | None = None


def _weighed(match: Match, tables: Tables) -> _Weighed:
    """Front against rear where only that calls for a rotation, else what is held against the limit that binds."""
    blur_mm = depth(match.compared.doubt_mm, "mm")
    if match.wants_rotation and match.axles_apart is not None:
        value = match.axles_apart.to(matching_figures.difference(match, tables).unit)
        return _Weighed(value=value, doubt=blur_mm.to(value.unit).value)
    if binding := match.binding:
        limits = binding.limit
        return _Weighed(value=binding.actual_quantity, doubt=binding.doubt, limit=limits.limit.value,
                        label=limits.label, margin=binding.margin)  # fmt: skip
    value = matching_figures.difference(match, tables)
    return _Weighed(value=value, doubt=blur_mm.to(value.unit).value)


def _inputs(match: Match) -> tuple[str, ...]:
    paths = [f"{tire.tread.path}.depths" for tire in match.compared.tires]
    for tire in match.compared.tires:
        its = tire.worn
        new = [f"{its.subject.path}.depth_new"] if its.depth_new else []
        paths += [f"{tire.tread.path}.gauge.resolution", *new, f"{its.subject.path}.marking"]
    paths += ["car.tolerance.limit"] if match.part.tolerance else []
    paths += ["car.drivetrain"] if match.part.drivetrain else []
    return (*paths, "region")


def _sources(match: Match, tables: Tables) -> tuple[Source, ...]:
    binding = (match.binding.limit.source,) if match.binding else ()
    rotate = (tables.rotation_interval["front_rear_difference"].source,) if match.rotate_from else ()
    rolled = (tables.rolling["radial_factor"].source,) if match.compared.circumferences_mm else ()
    others = (it.limit.source for it in match.held)
    rules = (rule.source for rule in match.unlike.rules)
    by_hand = tables.measuring["repeatability_mm"].source
    return unique_sources(*binding, *rules, *others, *rotate, *rolled, by_hand)
