"""Is the pressure right? Each tire's last reading against the placard: leak or weather, cold or warm, here or there."""

from collections.abc import Iterator

from studio.decide import pressure_change, pressure_words
from studio.decide.air import Around
from studio.decide.audience import Audience, unique_sources
from studio.decide.markings import read
from studio.decide.measured import known
from studio.decide.pressure_fill import conclude as conclude_filling
from studio.decide.pressure_fill import parts as filling_parts
from studio.decide.pressure_read import Asked, Part, Read, Taken, read_part
from studio.decide.ruled_out import ruled_out
from studio.decide.subjects import Tire, tires
from studio.decide.topic import from_parts, saying
from studio.model.caution import Caution
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "pressure"


def decide(episode: Episode, tables: Tables) -> tuple[Finding, ...]:
    """One finding for each tire on the car whose pressure was read, then one on filling in another place."""
    return (*_tires(episode, tables), *_filling(episode, tables))


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each tire on the car with a pressure reading."""
    for tire in tires(episode):
        taken = _taken(tire, episode)
        if tire.specimen.place != "bench" and taken:
            yield Part(
                audience=Audience.of(episode), subject=tire.subject, spare=tire.specimen.place == "spare",
                marking=tire.specimen.marking, asked=_asked(tire, episode, tables), taken=taken,
                around=Around.of(episode), dual=episode.car.dual_rear_wheels, out=ruled_out(tire, episode, tables),
            )  # fmt: skip


def _taken(tire: Tire, episode: Episode) -> tuple[Taken, ...]:
    return tuple(
        Taken(read=reading.pressure, on=reading.on, path=f"{tire.subject.path}.readings[{number}].pressure")
        for number, reading in known(tire.specimen, episode.on)
        if reading.pressure is not None
    )


def _asked(tire: Tire, episode: Episode, tables: Tables) -> Asked | None:
    """The placard's pressure for the place; a temporary spare keeps its own wherever it stands."""
    marking = read(tire.specimen.marking)
    temporary = marking is not None and marking.service == "temporary"
    line = "spare" if temporary else tire.specimen.place.split("_")[0]
    asked = getattr(episode.car.placard, line).pressure
    if asked is not None:
        return Asked(pressure=asked, label=f"cold placard pressure, {line}", path=f"car.placard.{line}.pressure")
    if not temporary:
        return None
    row = tables.spare["pressure"]
    full = Quantity(row.value or 0.0, "kPa")
    return Asked(pressure=full, label="pressure of a temporary spare, 49 CFR 571.139", source=row.source)


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    its = read_part(part, tables)
    asked = its.asked
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name,
        sentence=pressure_words.sentence(its), verdict=its.verdict, value=its.value.value, unit=its.unit,
        limit=asked.value if asked else None, limit_label=part.asked.label if part.asked else "",
        margin=_margin(its), uncertainty=its.doubt,
        steps=as_steps(pressure_words.working(its, tables)), inputs=_inputs(its),
        sources=_sources(its, tables), warning=_caution(its, tables), would_change=pressure_change.texts(its, tables),
        missing=pressure_words.missing(its), figures=_figures(its), detail=pressure_words.detail(its),
    )  # fmt: skip


def _margin(its: Read) -> float | None:
    """More than asked is on the good side until it is so much that air is to be let out."""
    if its.asked is None:
        return None
    above = its.value.value - its.asked.value
    return -above if its.standing == "over" else above


def _caution(its: Read, tables: Tables) -> Caution:
    out = its.part.out
    if out is not None:
        return tables.cautions["damage" if out.verdict == "inspect" else "over_age"]
    filling = its.standing in ("under", "over", "warm_under") and not its.leaks
    return tables.cautions["inflating" if filling or its.part.spare else "pressure"]


def _inputs(its: Read) -> tuple[str, ...]:
    part, path = its.part, its.last.path
    found = [f"{path}.pressure", f"{path}.cold"]
    found += [f"{path}.temperature"] if its.last.read.temperature else []
    found += [part.asked.path] if part.asked and part.asked.path else []
    if its.drop and its.drop.since:
        base = next(taken for taken in part.taken if taken.on == its.drop.since)
        found += [f"{base.path}.pressure", f"{base.path}.temperature"]
    found += [part.out.path] if part.out else []
    found += ["car.dual_rear_wheels"] if part.dual else []
    return (*found, *part.around.given, f"{part.subject.path}.marking", "region")


def _sources(its: Read, tables: Tables) -> tuple[Source, ...]:
    asked = [its.part.asked.source] if its.part.asked and its.part.asked.source else []
    out = [its.part.out.source] if its.part.out else []
    rows = [tables.pressure["cold_parked_hours"], tables.assumed["pressure_gauge_psi"]]
    rows += [tables.physics["atmosphere_kpa"], tables.assumed["tire_temperature_c"]] if its.drop or its.street else []
    rows += [tables.pressure["monthly_loss_most_psi"]] if its.drop and its.drop.since else []
    rows += [tables.physics["air_molar_mass_kg_per_kmol"]] if its.part.around.filled_at else []
    rows += [tables.pressure["hot_rise_most_psi"]] if not its.last.read.cold else []
    rows += [tables.pressure["run_low_share"]] if its.standing == "low" else []
    lamp = its.lamp.sources if its.lamp else ()
    return unique_sources(*out, *asked, *(row.source for row in rows), *lamp)


def _figures(its: Read) -> tuple[Figure, ...]:
    """Every number that pictures and scripts show of a tire's pressure."""
    unit = its.unit
    found = {"read": ("pressure as read", its.held), "doubt": ("doubt", Quantity(its.doubt, unit))}
    if its.last.read.temperature:
        found["read_temperature"] = ("air temperature at the reading", its.last.read.temperature)
    if its.asked and its.part.asked and its.above is not None:
        found["placard"] = (its.part.asked.label, its.asked)
        found["above"] = ("above the placard", Quantity(its.value.value - its.asked.value, unit))
    if its.street:
        found["street"] = ("cold pressure where it is driven", its.street.pressure)
        found["street_temperature"] = ("temperature where it is driven", its.street.temperature)
    if its.lamp and its.lamp.level:
        found["lamp"] = ("the warning lamp must light", its.lamp.level)
    found |= _drop_figures(its)
    return tuple(Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in found.items())


def _drop_figures(its: Read) -> dict[str, tuple[str, Quantity]]:
    drop, unit = its.drop, its.unit
    if drop is None:
        return {}
    found = {
        "before": ("pressure before", drop.base.pressure),
        "before_temperature": ("air temperature then", drop.base.temperature),
        "expected": ("by weather alone", drop.expected.pressure),
        "weather": ("drop by weather", Quantity(drop.weather, unit)),
        "lost": ("drop by lost air", Quantity(drop.lost, unit)),
        "drop_doubt": ("doubt of each", Quantity(drop.doubt, unit)),
    }
    if drop.weather_share is not None:
        found["weather_share"] = ("weather's share of the drop", Quantity(100 * drop.weather_share, "%"))
        found["lost_share"] = ("lost air's share of the drop", Quantity(100 * (1 - drop.weather_share), "%"))
    return found


_tires = from_parts(parts, saying(conclude))
_filling = from_parts(filling_parts, saying(conclude_filling))
