"""What does the spare do? Its diameter against the main tires, its pressure and load, its limits and whose they are."""

import math
from collections.abc import Iterator

from studio.decide import spare_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.carried import Carried
from studio.decide.filled import latest_cold, pressure_doubt
from studio.decide.gauge import doubt
from studio.decide.matching_limits import Held
from studio.decide.matching_tires import Worn
from studio.decide.measured import latest
from studio.decide.ruled_out import ruled_out
from studio.decide.spare_read import PLACARD, Mate, Part, Spare, read_part
from studio.decide.spare_told import held_tread, judged
from studio.decide.subjects import Tire, tires
from studio.decide.told import Told
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, Verdict, as_steps
from studio.model.places import AXLES
from studio.model.quantity import Quantity, UnitName, length
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "spare"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part where a tire is the spare, or the placard tells of one; none otherwise."""
    standing = {tire.subject.name: tire for tire in tires(episode)}
    spare, car = standing.get("spare"), episode.car
    if spare is None and not car.placard.spare.marking.strip():
        return
    yield Part(
        audience=Audience.of(episode), spare=_worn(spare, episode) if spare else None,
        filled=latest_cold(spare.specimen, spare.subject.path, episode.on) if spare else None,
        out=ruled_out(spare, episode, tables) if spare else None, mates=tuple(_mates(standing, episode)),
        placard=car.placard, ratings=(car.front_axle_rating, car.rear_axle_rating), certified=car.certified_as,
        dual=car.dual_rear_wheels,
        drivetrain=car.drivetrain, tolerance=car.tolerance, final_drive=car.final_drive,
        speed=episode.circumstances.speed,
    )  # fmt: skip


def _worn(tire: Tire, episode: Episode) -> Worn:
    specimen = tire.specimen
    return Worn(
        subject=tire.subject, marking=specimen.marking, season=specimen.season, pattern=specimen.tread,
        depth_new=specimen.depth_new, tread=latest(specimen, tire.subject.path, episode.on),
    )  # fmt: skip


def _mates(standing: dict[str, Tire], episode: Episode) -> Iterator[Mate]:
    """The tires of each axle; the placard's own, as new, where none with a marking stands there."""
    for axle, places in AXLES.items():
        here = [standing[p] for p in places if p in standing and standing[p].specimen.marking.strip()]
        for tire in here:
            yield Mate(words=tire.subject.words, axle=axle, marking=tire.specimen.marking, worn=_worn(tire, episode),
                       path=f"{tire.subject.path}.marking")  # fmt: skip
        marking = getattr(episode.car.placard, axle).marking
        if not here and marking.strip():
            path = f"car.placard.{axle}.marking"
            yield Mate(words=f"the placard's {axle} tire", axle=axle, marking=marking, worn=None, path=path)


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on the spare."""
    its = read_part(part, tables)
    if its is None:
        return _unknown(part, tables)
    held = held_tread(its, tables)
    return _finding(its, judged(its, held, tables), held, tables)


def _unknown(part: Part, tables: Tables) -> Finding:
    caution, out = tables.cautions["estimate"], part.out
    told = f"Spare {out.words}." if out else spare_words.unread(part)
    where = part.spare.subject.path if part.spare else f"{PLACARD}.marking"
    return Finding(
        id=f"{TOPIC}.spare", topic=TOPIC, subject="spare", sentence=told, verdict=out.verdict if out else "unknown",
        missing=("the marking on the spare's sidewall",), warning=caution, steps=as_steps((told,)),
        sources=unique_sources(*((out.source,) if out else ()), caution.source),
        inputs=(where, *((out.path,) if out else ())),
        would_change=("A marking such as T145/80D17 107M gives its diameter, load and speed.",),
    )  # fmt: skip


def verdict_of(its: Spare, told: tuple[Told, ...]) -> Verdict:
    """The gravest judgement; unknown while all that was judged is well but its pressure or its mates are not known."""
    found = told[0].verdict if told else "keep"
    open_ = its.part.filled is None or its.asked is None or not its.beside
    return "unknown" if found == "keep" and open_ else found


def _finding(its: Spare, told: tuple[Told, ...], held: Held | None, tables: Tables) -> Finding:
    worst = its.worst
    return Finding(
        id=f"{TOPIC}.spare", topic=TOPIC, subject="spare", sentence=spare_words.sentence(its, told),
        verdict=verdict_of(its, told), value=abs(worst.change_percent) if worst else None, unit="%" if worst else None,
        uncertainty=_doubt_percent(its, tables),
        steps=as_steps(spare_words.working(its, told, tables)), inputs=_inputs(its),
        sources=_sources(its, held, tables), warning=tables.cautions[_caution(its)],
        would_change=spare_words.would_change(its, told), missing=spare_words.missing(its),
        figures=_figures(its), detail=spare_words.detail(its),
    )  # fmt: skip


def _caution(its: Spare) -> str:
    if its.part.out and its.part.out.verdict == "inspect":
        return "damage"
    return "temporary_spare" if its.temporary else "mixing"


def _doubt_percent(its: Spare, tables: Tables) -> float | None:
    """What the depth gauge leaves open of the difference; None where the diameters are those of new tires."""
    worst, spare = its.worst, its.part.spare
    treads = [worn.tread for worn in (worst.mate.worn if worst else None, spare) if worn and worn.tread]
    if worst is None or not treads:
        return None
    halves = [doubt(tread.reading.gauge, tables).half_width.to("mm").value for tread in treads]
    return 100 * 2 * math.hypot(*halves) / worst.mate_mm


def _inputs(its: Spare) -> tuple[str, ...]:
    part = its.part
    paths = [part.marking_path, *((part.filled.path,) if part.filled else ()), *((part.out.path,) if part.out else ())]
    for worn, marking in ((part.spare, ""), *((it.mate.worn, it.mate.path) for it in its.beside)):
        paths += [marking] if marking else []
        paths += [f"{worn.tread.path}.depths"] if worn and worn.tread else []
        paths += [f"{worn.subject.path}.depth_new"] if worn and worn.depth_new else []
    paths += [f"{PLACARD}.pressure"] if part.placard.spare.pressure else []
    named = zip(("front_axle_rating", "rear_axle_rating"), part.ratings, strict=True)
    paths += [f"car.{name}" for name, rating in named if rating]
    paths += ["car.dual_rear_wheels"] if part.dual else []
    paths += ["car.drivetrain"] if part.drivetrain else []
    paths += ["car.final_drive"] if part.final_drive else []
    paths += ["car.tolerance.limit"] if part.tolerance and not its.temporary else []
    return (*dict.fromkeys(paths), *(its.at.inputs if not its.limit else ()), "region")


def _sources(its: Spare, held: Held | None, tables: Tables) -> tuple[Source, ...]:
    out = (its.part.out.source,) if its.part.out else ()
    limit = (held.limit.source,) if held else ()
    asked = (its.asked_source,) if its.asked_source else ()
    load = its.load.sources if isinstance(its.load, Carried) else ()
    rules = (rule.source for rule in spare_words.rules(its, tables))
    lamp = (tables.pressure["tpms_us_share"].source,) if its.part.filled else ()
    rolling, gauge = tables.rolling["radial_factor"].source, pressure_doubt(tables).source
    assumed = () if its.limit else its.at.sources
    return unique_sources(*out, *limit, *asked, *rules, *lamp, *load, rolling, gauge, *assumed)


def _figures(its: Spare) -> tuple[Figure, ...]:
    """Every number of the spare that a picture or a script shows."""
    found: dict[str, tuple[str, Quantity]] = {}
    part, worst = its.part, its.worst
    if worst is not None:
        turns, spare_turns = worst.turns(part.audience)
        rpm, spare_rpm = worst.rpm(its.at.kmh)
        found |= {
            "diameter_apart": ("how far its diameter is off", Quantity(abs(worst.change_percent), "%")),
            "diameter_change": ("diameter against the main tire", Quantity(worst.change_percent, "%")),
            "turning_more": ("more turning of its wheel", Quantity(worst.turning_percent, "%")),
            "diameter_spare": ("diameter of the spare", length(worst.spare_mm)),
            "diameter_main": (f"diameter, {worst.mate.words}", length(worst.mate_mm)),
            "diameter_difference": ("difference of the diameters", length(abs(worst.spare_mm - worst.mate_mm))),
            "rim_spare": ("rim diameter of the spare", length(its.size.dimensions.rim_in, "in")),
            "rim_main": (f"rim diameter, {worst.mate.words}", length(worst.size.dimensions.rim_in, "in")),
            "rolling_spare": ("rolling circumference of the spare", length(worst.spare_rolling_mm)),
            "rolling_main": (f"rolling circumference, {worst.mate.words}", length(worst.rolling_mm)),
            "rolling_difference": ("difference of the rolling circumferences",
                                   length(abs(worst.spare_rolling_mm - worst.rolling_mm))),
            "turns_main": (f"turns, {worst.mate.words}", turns), "turns_spare": ("turns of the spare", spare_turns),
            "wheel_main": (f"turns a minute, {worst.mate.words}", Quantity(rpm, "rpm")),
            "wheel_spare": ("turns a minute of the spare", Quantity(spare_rpm, "rpm")),
            "wheel_difference": ("turns a minute between them", Quantity(spare_rpm - rpm, "rpm")),
            "speed": ("speed of these turns", its.at.speed),
        }  # fmt: skip
    _add(found, "axle_difference", "what its axle turns more", _in(its.case_rpm, "rpm"))
    _add(found, "shaft_difference", "the same at the shaft", _in(its.shaft_rpm, "rpm"))
    _add(found, "speed_limit", "speed, most handbooks", its.at.speed if its.limit else None)
    _add(found, "pressure", "cold pressure of the spare", part.filled.pressure if part.filled else None)
    _add(found, "pressure_asked", "pressure that it should hold", its.asked)
    _add(found, "load", "what it carries as filled",
         Quantity(its.load.each_kg, "kg") if isinstance(its.load, Carried) else None)  # fmt: skip
    _add(found, "axle_share", "its share of the heavier axle's rating", _in(its.share_kg, "kg"))
    return tuple(Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in found.items())


def _in(value: float | None, unit: UnitName) -> Quantity | None:
    return None if value is None else Quantity(value, unit)


def _add(found: dict[str, tuple[str, Quantity]], name: str, label: str, quantity: Quantity | None) -> None:
    if quantity is not None:
        found[name] = (label, quantity)
