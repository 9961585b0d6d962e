"""What does worn tread do to speed and distance? Worn diameter on speedometer, odometer, turns and gearing."""

from collections.abc import Iterator

from studio.decide import wear_effects_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.matching_tires import Worn
from studio.decide.measured import latest
from studio.decide.subjects import tires
from studio.decide.wear_effects_read import DRIVEN, Effects, Part, missing, read_part
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity, length
from studio.model.source import Source
from studio.reference.tables import Tables
from studio.tires.geometry import turns_per_km, turns_per_mile

TOPIC, SET = "wear_effects", "set"


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part for the driven wheels; none before a tire of theirs was read."""
    places = DRIVEN[episode.car.drivetrain]
    found = {tire.subject.name: tire for tire in tires(episode) if tire.specimen.place in places}
    worn = tuple(
        Worn(
            subject=tire.subject, marking=tire.specimen.marking, season=tire.specimen.season,
            pattern=tire.specimen.tread, depth_new=tire.specimen.depth_new,
            tread=latest(tire.specimen, tire.subject.path, episode.on),
        )
        for place in places
        if (tire := found.get(place))
    )  # fmt: skip
    if any(its.tread for its in worn):
        yield Part(
            audience=Audience.of(episode), places=places, tires=worn, drivetrain=episode.car.drivetrain,
            final_drive=episode.car.final_drive, speed=episode.circumstances.speed,
        )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on the set."""
    its = read_part(part, tables)
    return _finding(its, tables) if its else _unknown(part, tables)


def _unknown(part: Part, tables: Tables) -> Finding:
    lacks = missing(part) or ("a marking that can be read at each driven wheel",)
    return Finding(
        id=f"{TOPIC}.{SET}", topic=TOPIC, subject=SET, sentence=wear_effects_words.unread(part), verdict="unknown",
        missing=lacks, inputs=tuple(worn.subject.path for worn in part.tires),
        sources=(tables.rolling["radial_factor"].source,), warning=tables.cautions["estimate"],
    )  # fmt: skip


def _finding(its: Effects, tables: Tables) -> Finding:
    return Finding(
        id=f"{TOPIC}.{SET}", topic=TOPIC, subject=SET, sentence=wear_effects_words.sentence(its), value=its.percent,
        unit="%", uncertainty=its.doubt_percent,
        steps=as_steps(wear_effects_words.working(its, tables)), inputs=_inputs(its),
        sources=_sources(its, tables), warning=tables.cautions["estimate"],
        would_change=wear_effects_words.would_change(its), figures=_figures(its),
        missing=() if its.part.drivetrain else ("the drivetrain",), detail=wear_effects_words.detail(its),
    )  # fmt: skip


def _inputs(its: Effects) -> tuple[str, ...]:
    paths: list[str] = []
    for wheel in its.wheels:
        path = wheel.worn.subject.path
        paths += [f"{wheel.tread.path}.depths", f"{wheel.tread.path}.gauge.resolution"]
        paths += [f"{path}.depth_new", f"{path}.marking"]
    driven = ("car.drivetrain",) if its.part.drivetrain else ()
    final = ("car.final_drive",) if its.part.final_drive else ()
    return (*paths, *driven, *final, *its.at.inputs, "region")


def _sources(its: Effects, tables: Tables) -> tuple[Source, ...]:
    rolled = [source for wheel in its.wheels for source in wheel.size.sources if "circumference" in source.locator]
    rule = (its.rule.source,) if its.rule else ()
    radial, tolerance = tables.rolling["radial_factor"].source, tables.rolling["tolerance_over_percent"].source
    by_hand = tables.measuring["repeatability_mm"].source
    return unique_sources(radial, *rolled, *rule, by_hand, tolerance, *its.at.sources)


def _figures(its: Effects) -> tuple[Figure, ...]:
    """Every number that a picture or a script shows of it."""
    shown, trip = its.at.speed, wear_effects_words.trip(its)
    driven = Quantity(trip.value * its.now_mm / its.new_mm, trip.unit)
    found: dict[str, tuple[str, Quantity]] = {
        "change": ("rolling circumference against new", Quantity(its.percent, "%")),
        "change_at_bars": ("the same down to the wear bars", Quantity(its.bars_percent, "%")),
        "speed_shown": ("speed shown", shown),
        "true_speed": ("true speed at that", its.true_at(shown)),
        "true_speed_at_bars": ("true speed at that, down to the wear bars", its.true_at(shown, its.bars_mm)),
        "trip_shown": ("distance shown", trip),
        "trip_driven": ("distance driven", driven),
        "circumference_new": ("rolling circumference, new", length(its.new_mm)),
        "circumference_now": ("rolling circumference, as worn", length(its.now_mm)),
        "turns_per_mile_new": ("turns in a mile, new", Quantity(turns_per_mile(its.new_mm), "rev/mi")),
        "turns_per_mile": ("turns in a mile, as worn", Quantity(turns_per_mile(its.now_mm), "rev/mi")),
        "turns_per_km_new": ("turns in a kilometer, new", Quantity(turns_per_km(its.new_mm), "rev/km")),
        "turns_per_km": ("turns in a kilometer, as worn", Quantity(turns_per_km(its.now_mm), "rev/km")),
    }
    return tuple(Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in found.items())
