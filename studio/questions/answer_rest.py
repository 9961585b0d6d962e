"""Answers about age, rotation, punctures and other damage."""

import msgspec

from studio.decide.rotation_read import WORDS
from studio.model.caution import Caution
from studio.model.finding import SEVERITY
from studio.model.places import CORNERS
from studio.model.quantity import length
from studio.model.specimen import Damage, DamageKind, Specimen, Zone
from studio.questions.answer_values import Missing, Part, Viewer
from studio.questions.facts import Fact
from studio.questions.small_episode import (
    car_of,
    code_of,
    conclude,
    drivetrain_of,
    episode_of,
    marking_of,
    possible,
    tire,
)
from studio.tires.datecode import DateCodeError, parse_date_code

_ASK_CODE = Missing(
    field="date_code",
    ask="What are the last four digits behind DOT on the sidewall? They are week "
    "and year; if none show, look at the inner side.",
)
_NO_AGE: dict[str, None] = dict.fromkeys(("made_year", "made_week", "age_years"))
_STAGGERED = {"front": "225/45R18", "rear": "255/40R18"}  # any two that differ: only that they do is used
_PATTERNS = ("front_to_back", "forward_cross", "rearward_cross", "x", "side_to_side")


def age(viewer: Viewer) -> Part:
    """How old the tires are, by their date code; of several the oldest."""
    caution = viewer.tables.cautions["over_age"]
    good, wrong = [], []
    for word in viewer.reading.words("date_code"):
        try:
            parse_date_code(word, viewer.on)
            good.append(word)
        except DateCodeError as error:
            wrong.append(str(error))
    if not good:
        return _no_code(viewer, tuple(wrong), caution)
    specimens = tuple(_dated(viewer, word, number) for number, word in enumerate(good[:8]))
    findings = conclude(episode_of(viewer, specimens), "age", viewer)
    oldest = max(findings, key=lambda it: it.value or 0.0)
    year, week, years = oldest.figure("made_year"), oldest.figure("made_week"), oldest.figure("age")
    numbers = {
        "made_year": round(year.value) if year else None,
        "made_week": round(week.value) if week else None,
        "age_years": years.value if years else None,
    }
    return Part(
        lead=oldest.sentence,
        finding=oldest,
        verdict=oldest.verdict,
        numbers=numbers,
        steps=oldest.of_kind("code", "age"),
        sources=oldest.sources[:4],
        warning=caution,
        invalid=tuple(wrong),
        more=tuple(it.sentence for it in findings if it is not oldest)[:3],
        findings=findings,
    )


def _dated(viewer: Viewer, word: str, number: int) -> Specimen:
    return msgspec.structs.replace(tire(viewer, date_code=word), id=f"tire_{number + 1}")


def _no_code(viewer: Viewer, wrong: tuple[str, ...], caution: Caution) -> Part:
    advice = [
        row
        for row in viewer.tables.age_advice.values()
        if row.region == "any" and row.from_years and row.level != "note"
    ]
    said = viewer.reading.first("made_year", "age_years")
    words = "; ".join(f"{row.wording} ({row.source.standing})" for row in advice[:3])
    lead = f"Age counts from the week of manufacture: {words}."
    if said is not None:
        lead = f"You say {said.said}; the week comes from the date code. {lead}"
    return Part(
        lead=lead,
        verdict="unknown",
        numbers=_NO_AGE,
        sources=tuple(row.source for row in advice[:3]),
        warning=caution,
        missing=(_ASK_CODE,),
        invalid=wrong,
    )


def rotation(viewer: Viewer) -> Part:
    """Which patterns car and tires permit, best first."""
    drive = drivetrain_of(viewer) or car_of(viewer).drivetrain
    marking = marking_of(viewer)
    several = len({word for word in viewer.reading.words("size") if not word.startswith("T")}) > 1
    markings = _STAGGERED if several or viewer.reading.first("staggered") else {}
    specimens = tuple(
        tire(viewer, place=place, name="", marking=markings.get(place.split("_")[0], marking)) for place in CORNERS
    )
    finding = conclude(episode_of(viewer, specimens), "rotation", viewer)[0]
    permitted = tuple(name for name in finding.word("permitted").split(",") if name in _PATTERNS)
    missing = (
        ()
        if drive
        else (
            Missing(
                field="drivetrain", ask="Is it front-, rear- or all-wheel drive? The usual pattern follows from that."
            ),
        )
    )
    if not viewer.reading.first("tread"):
        ask = "Do the tires have an arrow for the rolling direction? Then they stay on their side."
        missing = (*missing, Missing(field="tread", ask=ask))
    names = ", then ".join(WORDS[name] for name in permitted[:3]) or "none"
    settled = drive is not None or len(permitted) == 1
    lead = f"{'Patterns that fit, best first' if settled else 'Permitted, before the drive is known'}: {names}."
    interval = finding.figure("interval")
    more = (
        (f"The usual interval is {viewer.both(interval)} (common practice); the manual's own comes first.",)
        if interval
        else ()
    )
    return Part(
        lead=lead,
        verdict="rotate" if drive and permitted else "unknown",
        numbers={"patterns": permitted},
        steps=finding.steps[:2],
        sources=finding.sources[:2],
        warning=finding.warning,
        missing=missing,
        more=more,
        findings=(finding,),
    )


def repair(viewer: Viewer) -> Part:
    """Whether a puncture can be repaired: where, how wide, how deep the tread, how old."""
    return _damage_part(viewer, "puncture")


def condition(viewer: Viewer) -> Part:
    """What damage means."""
    return _damage_part(viewer, "")


def _damage_part(viewer: Viewer, only: str) -> Part:
    kinds = [only] if only else [kind for kind in viewer.reading.words("damage") if kind != "puncture"]
    damage = tuple(_damage(viewer, kind) for kind in kinds)
    depths, wrong = possible(viewer, viewer.reading.of("depth"), "depth")
    lowest = min(depths, key=lambda fact: fact.quantity.to("mm").value, default=None)
    date_code, wrong_code = _valid_code(viewer)
    specimen = tire(
        viewer,
        at=lowest.quantity if lowest else None,
        damage=damage or (Damage(kind="other"),),
        marking=marking_of(viewer),
        date_code=date_code,
    )
    finding = max(
        conclude(episode_of(viewer, (specimen,)), "condition", viewer),
        key=lambda it: SEVERITY.index(it.verdict) if it.verdict in SEVERITY else 0,
    )
    key = "repair" if only and len(viewer.reading.words("damage")) <= 1 else "damage"
    lead = finding.word("undated") or finding.sentence
    return Part(
        lead=lead,
        finding=msgspec.structs.replace(finding, sentence=lead),
        verdict=finding.verdict,
        steps=tuple(step for step in finding.steps if step.kind != "seen")[:2],
        sources=finding.sources[:3],
        warning=viewer.tables.cautions[key],
        missing=_damage_missing(viewer, only, damage),
        invalid=(*wrong, *wrong_code),
        more=_first_aid(finding.word("avoid")),
        findings=(finding,),
    )


def _first_aid(avoid: str) -> tuple[str, ...]:
    return (f"{avoid[:1].upper()}{avoid[1:]}.",) if avoid else ()


def _valid_code(viewer: Viewer) -> tuple[str, tuple[str, ...]]:
    word = code_of(viewer)
    try:
        if word:
            parse_date_code(word, viewer.on)
    except DateCodeError as error:
        return "", (str(error),)
    return word, ()


def _damage(viewer: Viewer, kind: str) -> Damage:
    size = viewer.reading.first("damage_size")
    return Damage(
        kind=msgspec.convert(kind, DamageKind),
        zone=_zone(viewer),
        size=length(size.quantity.value, size.quantity.unit) if size else None,
    )


def _zone(viewer: Viewer) -> Zone:
    """Where the damage sits; the one farther out where two are named."""
    words = viewer.reading.words("zone")
    for zone in ("sidewall", "shoulder", "bead", "crown"):
        if zone in words:
            if zone == "sidewall" and "shoulder" in words and _is_near_only(viewer.reading.of("zone")):
                continue
            its: Zone = msgspec.convert(zone, Zone)
            return its
    return "unknown"


def _is_near_only(facts: tuple[Fact, ...]) -> bool:
    """Whether the sidewall is named only to say that the hole is near it."""
    return all(
        "near" in fact.text.lower() or "close" in fact.text.lower() or fact.value != "sidewall" for fact in facts
    )


def _damage_missing(viewer: Viewer, only: str, damage: tuple[Damage, ...]) -> tuple[Missing, ...]:
    found = []
    if only and damage[0].zone == "unknown":
        found.append(
            Missing(
                field="zone",
                ask="Where is the hole: in the middle of the tread, near its edge, or in "
                "the sidewall? Only the middle is ever repaired.",
            )
        )
    if only and damage[0].size is None:
        found.append(
            Missing(
                field="damage_size",
                ask="How wide is the hole once the object is out? Over about 6 mm (1/4 in) it is not repaired.",
            )
        )
    if not only and any(it.kind in ("cut", "cracks") for it in damage):
        found.append(
            Missing(field="cord_visible", ask="Does any cord show when its edges are parted? Then the tire is done.")
        )
    return tuple(found)
