"""Can they carry it? Load index, speed symbol and pressure of an axle's tires against its placard and axle rating."""

from collections.abc import Iterator

from studio.decide import ratings_change, ratings_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.carried import Carried, Refusal
from studio.decide.filled import latest_cold, pressure_doubt
from studio.decide.ratings_held import judged
from studio.decide.ratings_marks import mark_figures, mark_words
from studio.decide.ratings_read import LABEL, Axle, Fitted, Part, Wheel, read_part
from studio.decide.ruled_out import ruled_out
from studio.decide.subjects import Tire, tires
from studio.decide.swap_rules import winter_rule
from studio.decide.told import Told
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Figure, Finding, Verdict, as_steps
from studio.model.places import AXLES
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "ratings"
_US = "us"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each axle on which a tire stands."""
    standing = {tire.subject.name: tire for tire in tires(episode)}
    car = episode.car
    for axle, places in AXLES.items():
        here = tuple(_fitted(standing[place], episode, tables) for place in places if place in standing)
        if here:
            yield Part(
                audience=Audience.of(episode), name=f"{axle}_axle", axle=axle, places=places, tires=here,
                placard=getattr(car.placard, axle), rating=getattr(car, f"{axle}_axle_rating"),
                certified=car.certified_as, dual=axle == "rear" and car.dual_rear_wheels,
            )  # fmt: skip


def _fitted(tire: Tire, episode: Episode, tables: Tables) -> Fitted:
    filled = latest_cold(tire.specimen, tire.subject.path, episode.on)
    return Fitted(
        subject=tire.subject, marking=tire.specimen.marking, season=tire.specimen.season, filled=filled,
        out=ruled_out(tire, episode, tables),
    )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one axle."""
    axle = read_part(part, tables)
    return _finding(axle, judged(axle, tables), tables) if axle else _unknown(part, tables)


def us_rules(part: Part, tables: Tables) -> bool:
    """Whether the rules of 49 CFR hold: they do in the United States."""
    region = part.audience.region
    return region in tables.regions and _US in tables.region_chain(region)


def _unknown(part: Part, tables: Tables) -> Finding:
    caution = tables.cautions["overload"]
    return Finding(
        id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name, verdict="unknown",
        sentence=ratings_words.unread(part), missing=ratings_words.unmarked(part), sources=(caution.source,),
        inputs=tuple(fitted.subject.path for fitted in part.tires), warning=caution,
        would_change=("A marking such as 225/60R17 99H on each tire of the axle gives its ratings.",),
    )  # fmt: skip


def verdict_of(axle: Axle, held: tuple[Told, ...]) -> Verdict:
    """The gravest judgement; unknown where nothing grave is known and the load could not be computed or compared."""
    if not held:
        return "unknown"
    found = held[0].verdict
    unsure = any(not refusal.too_low for _, refusal in axle.refused)
    if axle.rating_kg is not None and unsure and SEVERITY.index(found) < SEVERITY.index("inspect"):
        return "unknown"
    return found


def _finding(axle: Axle, held: tuple[Told, ...], tables: Tables) -> Finding:
    part, in_us = axle.part, us_rules(axle.part, tables)
    capacity = None if axle.capacity_kg is None else axle.load(axle.capacity_kg)
    rating = None if axle.rating_kg is None or capacity is None else axle.load(axle.rating_kg)
    verdict = verdict_of(axle, held)
    return Finding(
        id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name, sentence=_sentence(axle, held, verdict),
        verdict=verdict, value=capacity.value if capacity else None, unit=axle.unit if capacity else None,
        limit=rating.value if rating else None, limit_label=f"{part.axle} axle rating" if rating else "",
        margin=capacity.value - rating.value if capacity and rating else None,
        uncertainty=None if axle.doubt_kg is None or capacity is None else axle.load(axle.doubt_kg).value,
        steps=as_steps(ratings_words.working(axle, held, in_us, tables)), inputs=_inputs(axle),
        sources=_sources(axle, held, tables), would_change=ratings_change.texts(axle, held, in_us, tables),
        warning=tables.cautions["damage" if _damaged(axle) else "overload"],
        missing=ratings_words.missing(axle, in_us), figures=_figures(axle, in_us, tables), detail=_detail(axle, held),
    )  # fmt: skip


def _sentence(axle: Axle, held: tuple[Told, ...], verdict: Verdict) -> str:
    return ratings_words.sentence(axle, () if verdict == "unknown" else held)


def _damaged(axle: Axle) -> bool:
    return any(wheel.fitted.out and wheel.fitted.out.verdict == "inspect" for wheel in axle.wheels)


def _inputs(axle: Axle) -> tuple[str, ...]:
    part, paths = axle.part, []
    for wheel in axle.wheels:
        path, filled = wheel.fitted.subject.path, wheel.fitted.filled
        out = [wheel.fitted.out.path] if wheel.fitted.out else []
        paths += [f"{path}.marking", *([filled.path] if filled else []), *out, f"{path}.season"]
    line = f"car.placard.{part.axle}"
    paths += [f"{line}.marking"] if axle.placard else []
    paths += [f"{line}.pressure"] if part.placard.pressure else []
    paths += [f"car.{part.axle}_axle_rating"] if part.rating else []
    paths += ["car.certified_as"] if part.certified else []
    paths += ["car.dual_rear_wheels"] if part.dual else []
    return (*paths, "region")


def _sources(axle: Axle, held: tuple[Told, ...], tables: Tables) -> tuple[Source, ...]:
    rating = (LABEL,) if axle.part.rating else ()
    loads = [source for wheel in axle.wheels for source in _load_sources(wheel)]
    speeds = [wheel.size.speed.source for wheel in axle.wheels if wheel.size.speed]
    gauge = (pressure_doubt(tables).source,) if axle.doubt_kg is not None else ()
    out = [wheel.fitted.out.source for wheel in axle.wheels if wheel.fitted.out]
    rule = winter_rule(axle.part.audience.region, tables)
    winter = (rule.source,) if rule and any(its.about == "speed" and its.verdict != "keep" for its in held) else ()
    return unique_sources(*out, *rating, *loads, *speeds, *winter, *gauge, tables.cautions["overload"].source)


def _load_sources(wheel: Wheel) -> tuple[Source, ...]:
    if isinstance(wheel.load, Refusal):
        return (wheel.size.load.source,) if wheel.size.load else ()
    return wheel.load.sources


def _figures(axle: Axle, in_us: bool, tables: Tables) -> tuple[Figure, ...]:
    """Every load and pressure that a picture or a script shows."""
    found: dict[str, tuple[str, Quantity]] = {}
    _add(found, "capacity", "what the axle's tires carry as filled", axle.capacity_kg)
    _add(found, "axle_rating", f"{axle.part.axle} axle rating", axle.rating_kg)
    _add(found, "capacity_most", "what they carry at their reference pressures", axle.most_kg)
    _add(found, "capacity_at_placard", "what they carry at the placard pressure", axle.at_placard_kg)
    if axle.weakest:
        _add(found, "load_each", "what the weaker tire carries as filled", axle.weakest.each_kg)
        _add(found, "rating_each", "its rating at the reference pressure", axle.weakest.full_kg)
        found["reference_pressure"] = ("reference pressure", Quantity(axle.weakest.basis.reference.value, "kPa"))
        if axle.weakest.divisor:
            _add(found, "rating_each_divided", "its rating over the divisor", axle.weakest.most_kg)
    if in_us:
        _add(found, "normal_load_limit", "largest normal load on one tire", ratings_words.normal_load_kg(axle, tables))
    if (needed := ratings_change.least_pressure(axle)) is not None:
        found["pressure_for_rating"] = ("least pressure that carries the axle rating", needed)
    whole = (Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in found.items())
    return (*whole, *_wheel_figures(axle, tables), *mark_figures(axle))


def _add(found: dict[str, tuple[str, Quantity]], name: str, label: str, load_kg: float | None) -> None:
    if load_kg is not None:
        found[name] = (label, Quantity(load_kg, "kg"))


def _wheel_figures(axle: Axle, tables: Tables) -> Iterator[Figure]:
    for wheel in axle.wheels:
        name, words = wheel.fitted.subject.name, wheel.words
        if wheel.fitted.filled:
            yield Figure(name=f"pressure_{name}", label=f"cold pressure, {words}",
                         quantity=wheel.fitted.filled.pressure)  # fmt: skip
        if isinstance(wheel.load, Carried):
            load = Quantity(wheel.load.each_kg, "kg")
            yield Figure(name=f"load_{name}", label=f"carried as filled, {words}", quantity=load)
        if found := ratings_words.load_at_symbol(wheel, tables):
            yield Figure(name=f"load_at_symbol_{name}", label=f"carried at the symbol's speed, {words}",
                         quantity=found[1])  # fmt: skip


def _detail(axle: Axle, held: tuple[Told, ...]) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    weakest = axle.weakest
    pairs = {
        "kind": weakest.basis.words if weakest else "", "filled": "read" if axle.read else "placard",
        "short_of": " ".join(its.about for its in held if its.verdict != "keep"),
        "close": "too close to call with this gauge" if any(its.close for its in held) else "",
        "divided": f"divided by {weakest.divisor.value:g}" if weakest and weakest.divisor else "", **mark_words(axle),
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
