"""Answers about tires that should match: left against right, one new among old ones, all-wheel drive."""

import re

import msgspec

from studio.model.caution import Caution
from studio.model.finding import Finding
from studio.model.places import AXLES, CORNERS, Place
from studio.model.quantity import Quantity, depth
from studio.questions.answer_values import Missing, Numbers, Part, Viewer
from studio.questions.facts import Fact
from studio.questions.small_episode import car_of, conclude, episode_of, marking_of, possible, tire

_NONE: dict[str, None] = dict.fromkeys(
    ("difference_32nds", "difference_mm", "circumference_difference_mm", "circumference_difference_percent")
)
_ALL = ("all", "part_time_four")
_ASK_BOTH = Missing(
    field="depth", ask="How deep is the tread of each tire (the old ones and the new one)? Their difference decides."
)
_ASK_DRIVE = Missing(
    field="drivetrain",
    ask="Is it front-, rear- or all-wheel drive? On all-wheel drive all four must match more closely.",
)
_ASK_SIZE = Missing(
    field="size", ask="What size is on the sidewall? It turns the difference into a percentage of the circumference."
)


def matching(viewer: Viewer) -> Part:
    """Whether tires match: their depths placed on a car, held against law, manual or usual limits."""
    at, wrong = _depths(viewer)
    caution = viewer.tables.cautions["mixing"]
    if len({place for place, _ in at}) < 2:
        return _too_little(viewer, wrong, caution)
    car = car_of(viewer)
    marking = marking_of(viewer) or (car.placard.front.marking if viewer.episode else "")
    specimens = tuple(tire(viewer, place=place, at=value, marking=marking, name="") for place, value in at)
    found = {it.subject: it for it in conclude(episode_of(viewer, specimens, car), "matching", viewer)}
    finding = _telling(found, {place for place, _ in at}, car.drivetrain)
    missing = (*(() if car.drivetrain else (_ASK_DRIVE,)), *(() if marking else (_ASK_SIZE,)))
    lead = finding.sentence if _names_a_place(viewer) else finding.word("unplaced") or finding.sentence
    return Part(
        lead=lead,
        finding=msgspec.structs.replace(finding, sentence=lead),
        verdict=finding.verdict,
        numbers=_numbers(finding),
        steps=finding.of_kind("compared", "tape", "rolling") or finding.steps[-2:],
        sources=finding.sources[:3],
        warning=caution,
        missing=missing,
        invalid=wrong,
        findings=(finding,),
        more=(*_in_circumference(viewer, finding), *_which_axle(viewer)),
    )


def _numbers(finding: Finding) -> Numbers:
    apart, tape = finding.figure("difference"), finding.figure("tape_difference")
    percent = finding.figure("circumference_percent")
    return {
        "difference_32nds": apart.to("32nds").value if apart else None,
        "difference_mm": apart.to("mm").value if apart else None,
        "circumference_difference_mm": tape.to("mm").value if tape else None,
        "circumference_difference_percent": percent.value if percent else None,
    }


def _in_circumference(viewer: Viewer, finding: Finding) -> tuple[str, ...]:
    tape = finding.figure("tape_difference")
    return (f"In circumference that is {viewer.both(tape)}.",) if tape and tape.value else ()


_WHICH_AXLE = re.compile(
    r"\b(?:fronts?|back|rears?) or (?:on |in |at |to )?(?:the )?(?:fronts?|back|rears?)\b|\bwhich axle\b"
    r"|\b(?:go|put|mount\w*|fit\w*) (?:them |it )?(?:on|in|at|to) (?:the )?(?:fronts?|back|rears?)\b",
    re.IGNORECASE,
)


def _which_axle(viewer: Viewer) -> tuple[str, ...]:
    """Where new tires go, for whoever asks it."""
    if not _WHICH_AXLE.search(viewer.reading.text):
        return ()
    row = viewer.tables.matching["deeper_to_rear"]
    return (f"{row.wording[:1].upper()}{row.wording[1:]} ({row.source.standing}).",)


def _telling(found: dict[str, Finding], places: set[Place], drivetrain: str | None) -> Finding:
    """The finding that speaks of the tires named: the set where four are, else their axle."""
    if len(places) == 4 and "set" in found and (drivetrain in _ALL or not _one_axle_differs(found)):
        return found["set"]
    if places <= set(AXLES["rear"]):
        return found["rear_axle"]
    if len(places) == 4:
        return max((found[name] for name in ("rear_axle", "front_axle")), key=lambda it: it.value or 0.0)
    return found["front_axle"]


def _one_axle_differs(found: dict[str, Finding]) -> bool:
    """Whether the difference lies within an axle, as with one new tire."""
    within = [found[name].figure("difference") for name in ("front_axle", "rear_axle")]
    whole = found["set"].figure("difference")
    return whole is not None and any(
        it is not None and abs(it.to("mm").value - whole.to("mm").value) < 1e-6 and it.value > 0 for it in within
    )


def _names_a_place(viewer: Viewer) -> bool:
    """Whether the comment says where the tires stand; else no axle is named that it did not name."""
    return any(place in CORNERS for fact in viewer.reading.facts for place in fact.where)


def _depths(viewer: Viewer) -> tuple[tuple[tuple[Place, Quantity], ...], tuple[str, ...]]:
    """Each corner with its depth, as far as the comment tells."""
    facts = viewer.reading.of("depth", "depth_new") if _new_is_a_tire(viewer) else viewer.reading.of("depth")
    facts, wrong = possible(viewer, facts, "depth")
    placed: dict[Place, Quantity] = {}
    for fact in facts:
        for place in fact.where:
            if place in CORNERS:
                _lower(placed, msgspec.convert(place, Place), fact.quantity)
    alike = len(set(placed.values())) == 1 and len({fact.quantity for fact in facts}) > 1
    if len(placed) >= 2 and not alike:
        return _in_order(placed), wrong
    apart = viewer.reading.first("difference")
    if len(facts) < 2 and apart is not None:
        return _made_up(apart.quantity), wrong
    return _in_order(_unplaced(viewer, facts, placed)), wrong


def _new_is_a_tire(viewer: Viewer) -> bool:
    """Whether a depth when new stands for a new tire beside the old: there is but one depth now, or it is named so."""
    new = viewer.reading.of("depth_new")
    named = any("new_one" in fact.where for fact in new)
    return named or len({fact.quantity for fact in viewer.reading.of("depth")}) < 2


def _lower(placed: dict[Place, Quantity], place: Place, value: Quantity) -> None:
    if place not in placed or value.to("mm").value < placed[place].to("mm").value:
        placed[place] = value


def _unplaced(viewer: Viewer, facts: tuple[Fact, ...], placed: dict[Place, Quantity]) -> dict[Place, Quantity]:
    """Depths without corners: the lowest and the deepest as neighbours; all four where the comment means a set."""
    values = sorted((fact.quantity for fact in facts), key=lambda value: value.to("mm").value)
    if len(values) < 2:
        return placed
    low, high = values[0], values[-1]
    drive = viewer.reading.words("drivetrain")
    if any("others" in fact.where or "new_one" in fact.where for fact in facts) or (drive and drive[0] in _ALL):
        return {"front_left": low, "front_right": low, "rear_left": low, "rear_right": high}
    return {"front_left": low, "front_right": high}


def _made_up(apart: Quantity) -> tuple[tuple[Place, Quantity], ...]:
    """Two tires that differ by what was said; their own depths do not count in any number that is shown."""
    low = depth(6.0, "32nds")
    high = depth(low.value + apart.to("32nds").value, "32nds")
    return _in_order({"front_left": low, "front_right": low, "rear_left": low, "rear_right": high})


def _in_order(placed: dict[Place, Quantity]) -> tuple[tuple[Place, Quantity], ...]:
    return tuple((place, placed[place]) for place in CORNERS if place in placed)


def _too_little(viewer: Viewer, wrong: tuple[str, ...], caution: Caution) -> Part:
    rows = viewer.tables.matching
    drive = viewer.reading.words("drivetrain")
    usual = rows["awd_depth"]
    limit = Quantity(usual.value or 0.0, "32nds" if usual.unit == "32nds" else "mm", "depth")
    words = (
        f"On all-wheel drive the usual limit is {viewer.both(limit)} of difference in tread "
        f"({usual.source.standing}); the manual's own comes first."
    )
    other = "Whether old and new can run together depends on how far apart their treads are."
    lead = words if drive and drive[0] in _ALL else other
    return Part(
        lead=lead,
        verdict="unknown",
        numbers=_NONE,
        sources=(usual.source,),
        warning=caution,
        invalid=wrong,
        missing=(_ASK_BOTH, *(() if drive else (_ASK_DRIVE,))),
        more=_which_axle(viewer),
    )
