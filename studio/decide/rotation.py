"""Where do they go next? The patterns that car and tires permit, why each other one is out, and when it is due."""

from collections.abc import Iterator
from statistics import fmean

from studio.decide import rotation_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.barriers import barriers, binding
from studio.decide.matching_tires import Worn
from studio.decide.measured import latest
from studio.decide.rotation_read import Part, Rotation, choices, due, traits
from studio.decide.rotation_since import last_move, odometer_now
from studio.decide.subjects import Tire, tires
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import Quantity, depth
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "rotation"
SUBJECT = "car"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for the car; none until a tire stands at each corner."""
    standing = {tire.subject.name: tire for tire in tires(episode)}
    corners = tuple(standing[place] for place in CORNERS if place in standing)
    if len(corners) < len(CORNERS):
        return
    moved = last_move(corners, episode.car, episode.on)
    found = barriers(episode, tables)
    yield Part(
        audience=Audience.of(episode), corners=tuple(_worn(tire, episode) for tire in corners),
        spare=_worn(standing["spare"], episode) if "spare" in standing else None,
        held=binding(found, "rotate", SUBJECT), kept=binding(found, "change_axle", SUBJECT),
        drivetrain=episode.car.drivetrain, interval=episode.car.rotation_interval, since=moved.at if moved else None,
        since_event=moved.event if moved else "", since_day=moved.day if moved else "",
        now=odometer_now(corners, episode.car, episode.on), rotated=moved is not None and moved.rotated,
    )  # fmt: skip


def _worn(tire: Tire, episode: Episode) -> Worn:
    specimen = tire.specimen
    return Worn(
        subject=tire.subject, marking=specimen.marking, season=specimen.season, pattern=specimen.tread,
        depth_new=specimen.depth_new, tread=latest(specimen, tire.subject.path, episode.on),
    )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on the car."""
    its = read_part(part, tables)
    interval, since = its.due.interval, its.due.since
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, sentence=rotation_words.sentence(its),
        verdict=its.verdict, value=since.value if since else None, unit=interval.unit, limit=interval.value,
        limit_label=its.due.label, margin=its.due.left.value if its.due.left else None,
        steps=as_steps(rotation_words.working(its)), inputs=_inputs(part), sources=_sources(its, tables),
        warning=tables.cautions[part.held[0].caution if part.held else "rotation"],
        advises=("rotate",) if its.verdict == "rotate" else (), held_by=tuple(it.id for it in (*part.held, *part.kept)),
        would_change=rotation_words.would_change(its, tables), missing=rotation_words.missing(its),
        figures=_figures(its), detail=rotation_words.detail(its),
    )  # fmt: skip


def read_part(part: Part, tables: Tables) -> Rotation:
    """The part read and judged."""
    binding = traits(part, tables)
    rule = tables.rotation_interval["front_rear_difference"]
    return Rotation(
        part=part, traits=binding, choices=choices(part, binding, tables), due=due(part, tables), apart=_apart(part),
        apart_from=depth(rule.low, rule.unit),
    )  # fmt: skip


def _apart(part: Part) -> Quantity | None:
    means = {tire.subject.name: tire.tread.mean().to("mm").value for tire in part.corners if tire.tread}
    if len(means) < len(CORNERS):
        return None
    front, rear = (fmean(means[place] for place in AXLES[axle]) for axle in ("front", "rear"))
    return depth(abs(front - rear), "mm")


def _inputs(part: Part) -> tuple[str, ...]:
    paths = ["car.drivetrain"] if part.drivetrain else []
    paths += ["car.rotation_interval"] if part.interval else []
    paths += [mileage.path for mileage in (part.since, part.now) if mileage]
    paths += [path for it in (*part.held, *part.kept) for path in it.paths]
    for tire in (*part.corners, *((part.spare,) if part.spare else ())):
        paths += [f"{tire.subject.path}.{field}" for field in ("tread", "season", "marking")]
        paths += [f"{tire.tread.path}.depths"] if tire.tread else []
    return tuple(dict.fromkeys(paths))


def _sources(its: Rotation, tables: Tables) -> tuple[Source, ...]:
    rules = (rule.source for choice in its.choices for rule in choice.against)
    order = tables.rotation_order.get(its.part.drivetrain or "")
    sooner = tables.rotation_interval["front_rear_difference"].source
    held = (it.source for it in its.part.held)
    return unique_sources(*held, its.due.source, *rules, *((order.source,) if order else ()), sooner)


def _figures(its: Rotation) -> tuple[Figure, ...]:
    found = [Figure(name="interval", label=f"rotation interval, {its.due.label}", quantity=its.due.interval)]
    if its.due.since is not None and its.due.left is not None:
        found.append(Figure(name="since", label=f"since {its.part.since_words}", quantity=its.due.since))
        found.append(Figure(name="left", label="left until the next rotation", quantity=its.due.left))
    if its.apart is not None:
        found.append(Figure(name="axles_apart", label="front mean against rear mean", quantity=its.apart))
        found.append(Figure(name="apart_from", label="rotate sooner from here on", quantity=its.apart_from))
    return tuple(found)
