"""Answers about tread: whether it is enough, how far it will go, and at what speed it floats."""

import datetime as dt
import itertools
import re

import msgspec

from studio.model.finding import SEVERITY, Finding, Step
from studio.model.quantity import Quantity
from studio.model.specimen import Specimen
from studio.questions.answer_values import Missing, Part, Viewer
from studio.questions.facts import Fact
from studio.questions.small_episode import (
    code_of,
    conclude,
    episode_of,
    marking_of,
    name_of,
    place_of,
    possible,
    reading_of,
    tire,
)
from studio.questions.wear_said import at_that_rate, from_rate, hundreds, wear_rate
from studio.tires.water import floating_speed

_NO_TREAD: dict[str, None] = dict.fromkeys(("depth_32nds", "depth_mm", "legal_minimum_mm", "above_legal_mm"))
_NO_LIFE: dict[str, None] = dict.fromkeys(
    ("distance_to_2_32nds_miles", "distance_to_4_32nds_miles", "distance_to_legal_km")
)
_ASK_DEPTH = Missing(
    field="depth", ask="How deep is the tread at its lowest groove (for example 5/32 in or 4 mm)? That decides it."
)
_ASK_UNIT = Missing(
    field="depth_unit", ask="Is that depth in 32nds of an inch or in millimeters? The two differ by a quarter."
)
_PLACES = ("front_left", "front_right", "rear_left", "rear_right", "spare")


def tread_left(viewer: Viewer) -> Part:
    """Is this depth enough: the lowest depth against the region's law and advice."""
    facts, wrong = possible(viewer, viewer.reading.of("depth"), "depth")
    legal = viewer.tables.legal_minimum(viewer.region)
    numbers = {**_NO_TREAD, "legal_minimum_mm": legal.depth.to("mm").value if legal else None}
    if not facts and (from_episode := _shown_tires(viewer)):
        return _tread_part(viewer, from_episode)
    if not facts:
        unit = viewer.reading.first("depth_without_unit") is not None
        share = viewer.reading.first("share")
        words = f"The legal minimum here is {viewer.both(legal.depth)}. " if legal else ""
        return Part(
            lead=f"{_percent_words(share)}{words}Without the depth of your own tread nobody can say more.",
            verdict="unknown",
            numbers=numbers,
            sources=(legal.source,) if legal else (),
            warning=viewer.tables.cautions["worn_tire"],
            missing=(_ASK_UNIT if unit else _ASK_DEPTH,),
            invalid=wrong,
        )
    part = _tread_part(viewer, tuple(_worn(viewer, fact, number) for number, fact in enumerate(facts)))
    return msgspec.structs.replace(part, invalid=wrong)


def _percent_words(share: Fact | None) -> str:
    """Why a percentage does not settle it."""
    if share is None:
        return ""
    return f"{share.said} left can be a share of the full depth or of what is usable above the limit, which differ. "


def _shown_tires(viewer: Viewer) -> tuple[Specimen, ...]:
    """The episode's own tires, where the comment asks about those: the ones it names, else all on the car."""
    if viewer.episode is None:
        return ()
    named = {place for fact in viewer.reading.of("place") for place in fact.where}
    on_car = [it for it in viewer.episode.specimens if it.place in _PLACES and it.latest is not None]
    return tuple(it for it in on_car if it.place in named) or tuple(on_car)


def _worn(viewer: Viewer, fact: Fact, number: int) -> Specimen:
    new = viewer.reading.of("depth_new")
    place = place_of(fact)
    specimen = tire(
        viewer,
        place=place or "bench",
        name=name_of(fact),
        at=fact.quantity,
        depth_new=new[0].quantity if len(new) == 1 else None,
        marking=marking_of(viewer),
        date_code=code_of(viewer),
    )
    return specimen if place else msgspec.structs.replace(specimen, id=f"tire_{number + 1}")


def _one_at_a_place(specimens: tuple[Specimen, ...]) -> tuple[Specimen, ...]:
    """Of several depths at one place the lowest: an episode has one tire at a place."""
    kept: dict[str, Specimen] = {}
    for it in specimens:
        key = it.place if it.place != "bench" else it.id
        if key not in kept or _lowest_mm(it) < _lowest_mm(kept[key]):
            kept[key] = it
    return tuple(kept.values())


def _lowest_mm(specimen: Specimen) -> float:
    reading = specimen.latest
    assert reading is not None
    return min(
        Quantity(d, reading.unit, "depth").to("mm").value for groove in reading.depths for d in groove if d is not None
    )


def _tread_part(viewer: Viewer, specimens: tuple[Specimen, ...]) -> Part:
    findings = conclude(episode_of(viewer, _one_at_a_place(specimens)), "tread_left", viewer)
    worst = min(findings, key=_depth_mm)
    gravest = max(
        findings, key=lambda it: (SEVERITY.index(it.verdict) if it.verdict in SEVERITY else -1, -_depth_mm(it))
    )
    others = tuple(it.sentence for it in findings if it is not gravest)
    depth_, legal, above = worst.figure("depth"), worst.figure("legal_minimum"), worst.figure("above_legal")
    numbers = {
        "depth_32nds": depth_.to("32nds").value if depth_ else None,
        "depth_mm": depth_.to("mm").value if depth_ else None,
        "legal_minimum_mm": legal.to("mm").value if legal else None,
        "above_legal_mm": above.to("mm").value if above else None,
    }
    return Part(
        lead=gravest.sentence,
        finding=gravest,
        verdict=gravest.verdict,
        numbers=numbers,
        steps=tuple(step for step in gravest.steps if step.kind != "lowest")[:3],
        sources=gravest.sources[:3],
        warning=gravest.warning,
        more=others[:4],
        findings=findings,
    )


def _depth_mm(finding: Finding) -> float:
    figure = finding.figure("depth")
    return figure.to("mm").value if figure else float("inf")


def life(viewer: Viewer) -> Part:
    """How far the tread will go: two depths with the distance between them."""
    points = _points(viewer)
    if len(points) < 2:
        return Part(
            lead="How far they will go can be worked out from two depths and the distance between them.",
            verdict="unknown",
            numbers=_NO_LIFE,
            missing=_life_missing(viewer),
            warning=viewer.tables.cautions["estimate"],
        )
    finding = _life_finding(viewer, points)
    us = _life_finding(msgspec.structs.replace(viewer, region="us", units="us"), points)
    numbers = {
        "distance_to_2_32nds_miles": _left(us, "legal_minimum", "mi"),
        "distance_to_4_32nds_miles": _left(us, "wet_advice", "mi"),
        "distance_to_legal_km": _left(finding, "legal_minimum", "km"),
    }
    advice = us.figure("left_wet_advice")
    to_advice = (
        (f"To the wet-road advice of 4/32 in (3.2 mm): about {hundreds(advice, viewer)}.",)
        if advice and advice.value > 0
        else ()
    )
    lead, working = finding.sentence, finding.of_kind("wear", "wear_doubt")
    rate = wear_rate(viewer.reading) if (numbers["distance_to_legal_km"] or 0) > 0 else None
    if rate:
        lead, working = at_that_rate(viewer, rate, finding, points[-1][1])
    return Part(
        lead=lead,
        finding=None if rate else finding,
        verdict=finding.verdict,
        numbers=numbers,
        steps=working,
        sources=finding.sources[:2],
        warning=viewer.tables.cautions["worn_tire"] if _is_worn(us) else finding.warning,
        more=to_advice,
        missing=() if finding.figure("left_legal_minimum") else _life_missing(viewer),
        findings=(finding,),
    )


def _is_worn(finding: Finding) -> bool:
    left = finding.figure("left_wet_advice")
    return left is not None and left.value <= 0


def _left(finding: Finding, mark: str, unit: str) -> float | None:
    figure = finding.figure_at(f"left_{mark}")
    return max(0.0, figure.to("km" if unit == "km" else "mi").value) if figure else None


def _life_finding(viewer: Viewer, points: tuple[tuple[Quantity, Quantity], ...]) -> Finding:
    readings = [
        reading_of(viewer.on - dt.timedelta(days=len(points) - 1 - index), "front_left", at, odometer=odometer)
        for index, (odometer, at) in enumerate(points)
    ]
    specimen = msgspec.structs.replace(tire(viewer), readings=tuple(it for it in readings if it))
    return conclude(episode_of(viewer, (specimen,)), "life", viewer)[0]


def _points(viewer: Viewer) -> tuple[tuple[Quantity, Quantity], ...]:
    """(distance, depth) pairs, nearest first; the depth when new stands at no distance."""
    reading = viewer.reading
    if rate := wear_rate(reading):
        return from_rate(reading, *rate)
    now, earlier = reading.of("depth"), reading.of("depth_before", "depth_new")
    if not now:
        now, earlier = reading.of("depth_before"), reading.of("depth_new")
    far = reading.of("distance", "odometer")
    odometers = reading.of("odometer")
    if not far:
        return ()
    if len(far) >= 3 and len(far) == len(now) + len(earlier):
        return _in_pairs((*now, *earlier), far)
    if len(far) > 1 and reading.of("depth_new") and not odometers:
        driven = tuple(fact for fact in far if _DRIVEN.search(_beside(reading.text, fact)))
        if len({fact.quantity for fact in driven or far}) > 1:
            return ()  # which of them the tires rolled is not said
        far = driven or far
    if len(far) >= 2 and len(now) + len(earlier) >= 2 and (len(odometers) >= 2 or not reading.of("depth_new")):
        ordered = sorted((*now, *earlier), key=lambda fact: fact.start)[:2]
        pairs = tuple(
            zip(
                (fact.quantity for fact in sorted(far[:2], key=lambda f: f.quantity.to("km").value)),
                (fact.quantity for fact in sorted(ordered, key=lambda f: -f.quantity.to("mm").value)),
                strict=True,
            )
        )
        return pairs
    lowest = min(now, key=lambda fact: fact.quantity.to("mm").value, default=None)
    deepest = max(
        (*earlier, *(fact for fact in now if fact is not lowest)),
        key=lambda fact: fact.quantity.to("mm").value,
        default=None,
    )
    if lowest is None or deepest is None or deepest.quantity.to("mm").value <= lowest.quantity.to("mm").value:
        return ()
    rolled = far[0].quantity
    return (Quantity(0.0, rolled.unit), deepest.quantity), (rolled, lowest.quantity)


_DRIVEN = re.compile(
    r"\b(?:after|driven|drove|done|did|put|got|on (?:them|these|the tires|it)|since|so far|later|gefahren|nach"
    r"|parcour\w+"
    r"|après|worn|ran|in)\b",
    re.IGNORECASE,
)


def _beside(text: str, fact: Fact) -> str:
    return text[max(0, fact.start - 15) : fact.start] + " " + text[fact.end : fact.end + 15]


def _in_pairs(depths: tuple[Fact, ...], far: tuple[Fact, ...]) -> tuple[tuple[Quantity, Quantity], ...]:
    """As many distances as depths: each with its own in the order of the text; () where tread would grow."""
    by_place = sorted(depths, key=lambda fact: fact.start)
    pairs = sorted(
        ((rolled.quantity, each.quantity) for rolled, each in zip(far, by_place, strict=True)),
        key=lambda pair: pair[0].to("km").value,
    )
    falls = all(one[1].to("mm").value > other[1].to("mm").value for one, other in itertools.pairwise(pairs))
    return tuple(pairs) if falls else ()


def _life_missing(viewer: Viewer) -> tuple[Missing, ...]:
    reading, found = viewer.reading, []
    if not reading.first("depth"):
        found.append(Missing(field="depth", ask="How deep is the tread now, at its lowest groove?"))
    if found and wear_rate(reading):
        return tuple(found)
    if not reading.of("depth_new", "depth_before"):
        found.append(
            Missing(field="depth_new", ask="How deep was it when new, or at an earlier check? The two give the wear.")
        )
    if not reading.of("distance", "odometer"):
        found.append(
            Missing(field="distance", ask="How far did you drive between the two? That gives the wear for each mile.")
        )
    if not found:
        found.append(
            Missing(
                field="depth_before",
                ask="Are these the right two depths and the distance between "
                "them? The wear between them is too small to project.",
            )
        )
    return tuple(found)


def hydroplaning(viewer: Viewer) -> Part:
    """At what speed it floats: by pressure alone, or by tread and water where those are given too."""
    airs, wrong = possible(
        viewer, viewer.reading.of("pressure", "pressure_before", "placard_pressure"), "pressure_read"
    )
    caution = viewer.tables.cautions["hydroplaning"]
    rule = viewer.tables.hydroplaning["nasa_mph"]
    own = viewer.episode.car.placard.front.pressure if viewer.episode else None
    pressure = max(airs, key=lambda fact: fact.sure).quantity if airs else own
    if pressure is None or pressure.value <= 0:
        ask = Missing(
            field="pressure", ask="What cold pressure do your tires hold? The floating speed follows from it."
        )
        return Part(
            lead="The speed at which a tire floats depends above all on its pressure.",
            verdict="unknown",
            invalid=wrong,
            numbers={"hydroplaning_speed_mph": None, "hydroplaning_speed_kmh": None},
            missing=(ask,),
            warning=caution,
            sources=(rule.source,),
        )
    mph = floating_speed(pressure.to("psi").value, rule.value)
    speed = Quantity(mph, "mph")
    depths = viewer.reading.of("depth")
    words = (
        f"At {viewer.both(pressure)} a tire can float from about {viewer.both(speed)} on, where the water is deeper "
        f"than its grooves. That is no safe speed: steering goes well before."
    )
    line = (
        f"{rule.value:g} × √{pressure.to('psi').value:.4g} psi = {mph:.1f} mph; there is no tread, load or "
        f"water depth in it"
    )
    more = (
        tuple(_tread_in_water(viewer, min(depths, key=lambda f: f.quantity.to("mm").value).quantity)) if depths else ()
    )
    return Part(
        lead=words,
        verdict="watch" if more and "under" in more[0] else None,
        steps=(Step(line, "sum", line),),
        sources=(rule.source,),
        warning=caution,
        numbers={"hydroplaning_speed_mph": mph, "hydroplaning_speed_kmh": speed.to("km/h").value},
        invalid=wrong,
        more=more,
    )


def _tread_in_water(viewer: Viewer, depth_: Quantity) -> list[str]:
    advice = viewer.tables.advised_depth(viewer.region, "wet")
    if advice is None or depth_.to("mm").value >= advice.depth.to("mm").value - 1e-9:
        return []
    return [
        f"Your {viewer.both(depth_)} is under the wet-road advice of {viewer.both(advice.depth)} "
        f"({advice.source.standing})."
    ]
