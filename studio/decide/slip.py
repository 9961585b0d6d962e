"""How unequally do they turn? What unequal circumference does on an axle and between the axles, at a speed."""

from collections.abc import Iterator

from studio.decide import matching, slip_words
from studio.decide.audience import unique_sources
from studio.decide.markings import read
from studio.decide.matching_limits import ALL_WHEELS
from studio.decide.slip_read import CAR, Part, Slip, read_part
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity, length
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "slip"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each axle of which all tires were read, and one for the car where all its wheels are driven.

    Where a reading or a size is missing there is nothing to say: ``matching`` asks for it.
    """
    car = episode.car
    for match in matching.parts(episode, tables):
        axle = match.name.removesuffix("_axle")
        if match.scope == "set" and car.drivetrain not in ALL_WHEELS:
            continue  # nothing ties the two axles of a two-wheel drive together
        part = Part(
            name=CAR if match.scope == "set" else match.name, match=match, speed=episode.circumstances.speed,
            track=None if match.scope == "set" else getattr(car, f"{axle}_track"),
            final_drive=car.final_drive if match.scope == "set" else None,
        )  # fmt: skip
        readable = [worn for worn in match.tires if worn.tread and read(worn.marking)]
        if len(readable) == len(match.places):
            yield part


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one axle or the car."""
    its = read_part(part, tables)
    assert its is not None, "only what can be read becomes a part"
    return Finding(
        id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name, sentence=slip_words.sentence(its),
        value=its.apart_rpm, unit="rpm", uncertainty=its.doubt_rpm, steps=as_steps(slip_words.working(its, tables)),
        inputs=_inputs(its), sources=_sources(its, tables), warning=tables.cautions["mixing"],
        would_change=slip_words.would_change(its), missing=slip_words.missing(its), figures=_figures(its),
        detail=slip_words.detail(its),
    )  # fmt: skip


def _inputs(its: Slip) -> tuple[str, ...]:
    part, paths = its.part, []
    for tire in its.compared.tires:
        its_path, new = tire.worn.subject.path, tire.worn.depth_new
        paths += [f"{tire.tread.path}.depths", f"{tire.tread.path}.gauge.resolution"]
        paths += [*([f"{its_path}.depth_new"] if new else []), f"{its_path}.marking"]
    paths += [*its.at.inputs]
    paths += [f"car.{part.name.removesuffix('_axle')}_track"] if part.track else []
    paths += ["car.final_drive"] if part.final_drive else []
    paths += ["car.drivetrain"] if part.drivetrain else []
    return (*paths, "region")


def _sources(its: Slip, tables: Tables) -> tuple[Source, ...]:
    rolling, by_hand = tables.rolling["radial_factor"].source, tables.measuring["repeatability_mm"].source
    rules = (rule.source for rule in slip_words.rules(its, tables))
    makes = tables.rolling["tolerance_over_percent"].source
    return unique_sources(rolling, *rules, by_hand, makes, *its.at.sources)


def _figures(its: Slip) -> tuple[Figure, ...]:
    """Every turning that a picture or a script shows."""
    found = {
        "turning_difference": ("how much more the faster one turns", Quantity(its.apart_rpm, "rpm")),
        "speed": ("speed", its.at.speed),
        "turns_difference": ("more turns over a distance", its.turns),
        "circumference_percent": ("larger over smaller rolling circumference", Quantity(its.percent, "%")),
    }
    for wheel in its.wheels:
        found[f"wheel_{wheel.name}"] = (f"turns a minute, {wheel.words}", Quantity(wheel.rpm, "rpm"))
        circumference = length(wheel.circumference_mm)
        found[f"rolling_circumference_{wheel.name}"] = (f"rolling circumference, {wheel.words}", circumference)
    if its.whole_car:
        for axle in its.turners:
            found[axle.name] = (f"turns a minute, {axle.words}", Quantity(axle.rpm, "rpm"))
        if its.shaft_rpm is not None and its.part.final_drive is not None:
            found["shaft_difference"] = ("difference at the shaft", Quantity(its.shaft_rpm, "rpm"))
            found["final_drive"] = ("final drive ratio", Quantity(its.part.final_drive, ""))
    elif not its.undriven:
        found["against_case"] = ("each wheel against its differential's case", Quantity(its.against_case_rpm, "rpm"))
    if its.bend_m is not None:
        found["bend_radius"] = ("bend in which equal wheels would differ as much", Quantity(its.bend_m, "m"))
    return tuple(Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in found.items())
