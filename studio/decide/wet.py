"""When does it float on water? Only where the episode gives rain or a depth of water: the film, then the worst tire."""

import math
from collections.abc import Iterator

import msgspec

from studio.decide import wet_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.filled import latest_cold
from studio.decide.measured import Measured, latest
from studio.decide.sizes import size_of
from studio.decide.subjects import Tire, tires
from studio.decide.topic import from_parts, saying
from studio.decide.wet_curves import curves
from studio.decide.wet_film import Film, Road, as_length, film_of
from studio.decide.wet_film import working as film_working
from studio.decide.wet_read import Part, Wet, read_part
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.places import CORNERS
from studio.model.quantity import Quantity, depth, length
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "wet"


class Rain(msgspec.Struct, frozen=True, kw_only=True):
    """All that the finding on a rain depends on."""

    audience: Audience
    road: Road
    film: Film


def decide(episode: Episode, tables: Tables) -> tuple[Finding, ...]:
    """The film of the rain, if it rains, then the tire with the least tread on the car."""
    return (*_film(episode, tables), *_worst(episode, tables))


def rain(episode: Episode, tables: Tables) -> Iterator[Rain]:
    """One part where the episode gives a rain."""
    road = Road.of(episode.circumstances)
    film = film_of(road, tables)
    if film is not None:
        yield Rain(audience=Audience.of(episode), road=road, film=film)


def worst(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for the tire with the least tread on the car, where there is water for it to meet."""
    road, water = Road.of(episode.circumstances), as_length(episode.circumstances.water_depth)
    film = film_of(road, tables) if water is None else None
    if water is None and (film is None or film.above.value <= 0):
        return
    found = _least(episode)
    if found is not None:
        yield _part(*found, episode, road, water, tables)


def _least(episode: Episode) -> tuple[Tire, Measured] | None:
    """The tire whose lowest reading is the least; of equal ones the first in walking order."""
    read = [(tire, latest(tire.specimen, tire.subject.path, episode.on)) for tire in tires(episode)
            if tire.specimen.place in CORNERS]  # fmt: skip
    known = [(tire, tread) for tire, tread in read if tread is not None]
    return min(known, key=lambda pair: pair[1].depth(pair[1].lowest.value).to("mm").value, default=None)


def _part(tire: Tire, tread: Measured, episode: Episode, road: Road, water: Quantity | None, tables: Tables) -> Part:
    specimen, axle = tire.specimen, tire.specimen.place.split("_")[0]
    size = size_of(specimen.marking, tables)
    placard = getattr(episode.car.placard, axle).pressure
    return Part(
        audience=Audience.of(episode), subject=tire.subject, tread=tread, season=specimen.season,
        filled=latest_cold(specimen, tire.subject.path, episode.on), placard=placard,
        placard_path=f"car.placard.{axle}.pressure" if placard else "",
        section_width=size.dimensions.section_width_mm if size else None, depth_new=specimen.depth_new,
        water=water, road=road, speed=episode.circumstances.speed,
    )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on the worst tire."""
    its = read_part(part, tables)
    return _finding(its, tables) if its else _unknown(part, tables)


def _unknown(part: Part, tables: Tables) -> Finding:
    caution = tables.cautions["hydroplaning"]
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict="unknown",
        sentence=wet_words.unread(part), missing=(wet_words.NO_PRESSURE,), warning=caution,
        sources=(tables.hydroplaning["nasa_mph"].source,), inputs=(part.tread.path,),
    )  # fmt: skip


def _finding(its: Wet, tables: Tables) -> Finding:
    part = its.part
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, sentence=wet_words.sentence(its),
        verdict=its.verdict, value=its.mph, unit=None if its.mph is None else "mph",
        uncertainty=its.doubt_mph, steps=as_steps(wet_words.working(its, tables)),
        inputs=_inputs(its), sources=_sources(its, tables), warning=tables.cautions["hydroplaning"],
        would_change=wet_words.would_change(its, _as_new(its, tables), _twice(its, tables)),
        missing=wet_words.missing(its), figures=_figures(its, tables), detail=wet_words.detail(its),
    )  # fmt: skip


def _as_new(its: Wet, tables: Tables) -> tuple[Quantity, float] | None:
    """The same tire with its tread when new, asked again."""
    new = its.part.depth_new
    if its.of_1979 is None or new is None or new.to("mm").value <= its.depth.to("mm").value:
        return None
    tread = its.part.tread
    value = depth(new.value, new.unit).to(tread.reading.unit).value
    spot = msgspec.structs.replace(tread.lowest, value=value)
    again = read_part(msgspec.structs.replace(its.part, tread=msgspec.structs.replace(tread, spots=(spot,))), tables)
    return (depth(new.value, new.unit), again.of_1979) if again and again.of_1979 is not None else None


def _twice(its: Wet, tables: Tables) -> tuple[Quantity, float] | None:
    """The same tire in twice the water, asked again."""
    water = Quantity(2 * its.water.value, its.water.unit, "length")
    again = read_part(msgspec.structs.replace(its.part, water=water), tables) if its.of_1979 is not None else None
    return (water, again.of_1979) if again and again.of_1979 is not None else None


def _inputs(its: Wet) -> tuple[str, ...]:
    part = its.part
    pressure = part.filled.path if part.filled else part.placard_path
    water = ("circumstances.water_depth",) if part.water else ()
    texture = ("circumstances.texture_depth",) if part.water and part.road.texture else ()
    return (
        part.tread.spot_path(part.tread.lowest), f"{part.tread.path}.depths", f"{part.tread.path}.gauge.resolution",
        pressure, *water, *texture, *(part.road.given if its.film else ()), *its.speed.inputs,
        f"{part.subject.path}.marking", f"{part.subject.path}.season", "region",
    )  # fmt: skip


def _sources(its: Wet, tables: Tables) -> tuple[Source, ...]:
    row = tables.hydroplaning
    of_1979 = [row["gallaway_a1_scale"], row["stated_pressure_most_psi"], row["stated_water_most_in"]]
    of_1963 = [row["nasa_mph"], row["gradual_loss_mph"]]
    # the relation that gives the speed goes first
    rows = [*of_1979, *of_1963] if its.of_1979 is not None else [*of_1963, *of_1979]
    rows += [row["wet_friction_share_below_4_32nds"]] if its.worn else []
    rows += [row["asphalt_texture_mm"]] if its.part.road.texture is None else []
    rows += [row["void_ratio_least"], tables.assumed["tread_width_share_least"]] if its.flow else []
    film = film_sources(its.film, tables) if its.film else ()
    advice = (its.advice.source,) if its.advice and its.worn else ()
    return unique_sources(*(row.source for row in rows), *film, *advice, *its.speed.sources)


def film_sources(film: Film, tables: Tables) -> tuple[Source, ...]:
    """Where the forms of the film and what is assumed for them come from."""
    forms = (tables.hydroplaning["film_scale_mm"].source, tables.hydroplaning["pavdrn_divisor"].source)
    return (*forms, *(row.source for row in film.assumed))


def _figures(its: Wet, tables: Tables) -> tuple[Figure, ...]:
    """Every number that pictures and scripts show of a tire in water."""
    found = {
        "water": ("water above the texture", its.water), "texture": ("texture depth of the road", its.texture),
        "pressure": ("cold pressure", its.pressure), "tread": ("lowest reading", its.depth),
        "speed": ("speed", its.speed.speed),
    }  # fmt: skip
    if its.of_1979 is not None:
        found["floating_1979"] = ("floats near, relation of 1979", Quantity(its.of_1979, "mph"))
    if its.of_1963 is not None:
        found["floating_1963"] = ("floats near, relation of 1963", Quantity(its.of_1963, "mph"))
    for tread, mph in its.series:
        found[f"floating_at_{tread}"] = (f"floats near, with {tread}/32 in of tread", Quantity(mph, "mph"))
    if its.flow:
        found["tread_width"] = ("tread width, taken", length(its.flow.tread_width_mm))
        found["water_met"] = ("water in its way", Quantity(its.flow.met, "L/s"))
        found["grooves_least"] = ("its grooves hold at least", Quantity(its.flow.held_least, "L/s"))
        found["grooves_most"] = ("its grooves hold at most", Quantity(its.flow.held_most, "L/s"))
    shown = tuple(Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in found.items())
    return (*shown, *(curves(its, tables) if its.mph is not None else ()))


def conclude_film(part: Rain, tables: Tables) -> Finding:
    """How deep the rain stands on the road."""
    film = part.film
    return Finding(
        id=f"{TOPIC}.car", topic=TOPIC, subject="car", sentence=_film_sentence(part), verdict=None,
        value=film.above.value, unit="mm", uncertainty=film.apart_mm,
        steps=as_steps(film_working(film, part.audience, tables)), inputs=part.road.given,
        sources=unique_sources(*film_sources(film, tables)), warning=tables.cautions["hydroplaning"],
        would_change=_film_change(part, tables),
        figures=(
            Figure(name="film", label="film, form of 1979", quantity=film.above),
            Figure(name="film_kinematic", label="film, kinematic wave", quantity=film.other),
            Figure(name="rain", label="rain", quantity=film.rain),
            Figure(name="drainage", label="run-off over", quantity=film.drainage),
            Figure(name="slope", label="slope", quantity=film.slope),
            Figure(name="texture", label="texture depth", quantity=film.texture),
        ),
    )  # fmt: skip


def _film_sentence(part: Rain) -> str:
    audience, film = part.audience, part.film
    rained = audience.both(film.rain)
    low, high = sorted((film.above, film.other), key=lambda it: it.value)
    if high.value <= 0:
        return f"Rain of {rained} stays within the texture of such a road; ruts hold more."
    if audience.own(low) == audience.own(high):
        return f"Rain of {rained} leaves about {audience.both(high)} of water on such a road."
    shown = f"{low.in_system(audience.units).number()} to {audience.both(high)}"
    return f"Rain of {rained} leaves {shown} of water on such a road."


def _film_change(part: Rain, tables: Tables) -> tuple[str, ...]:
    """Twice the rain, asked again."""
    film = part.film
    harder = Quantity(2 * film.rain.value, film.rain.unit)
    again = film_of(msgspec.structs.replace(part.road, rain=harder), tables)
    if again is None or math.isclose(again.above.value, film.above.value):
        return ()
    return (f"Twice the rain would leave {part.audience.both(again.above)} by the form of 1979.",)


_film = from_parts(rain, saying(conclude_film))
_worst = from_parts(worst, saying(conclude))
