"""The answer to a comment: read, what is asked, a small episode, the same decisions, a reply."""

import datetime as dt
import re
from collections.abc import Callable, Iterable

import msgspec

from studio.model.entry import EntryError, read_quantity
from studio.model.episode import Episode
from studio.model.quantity import Quantity
from studio.model.question import CorrectedFact
from studio.questions import answer_air, answer_matching, answer_rest, answer_size, answer_tread
from studio.questions.answer_values import Answer, Length, Part, Tone, Viewer
from studio.questions.facts import Fact, Reading
from studio.questions.kind_words import QuestionKind
from studio.questions.kinds import Asked, kinds_of
from studio.questions.reading import read
from studio.questions.reply import compose, region_said, said
from studio.reference.tables import Tables

_ANSWERS: dict[QuestionKind, Callable[[Viewer], Part]] = {
    "tread_left": answer_tread.tread_left,
    "life": answer_tread.life,
    "hydroplaning": answer_tread.hydroplaning,
    "matching": answer_matching.matching,
    "size_swap": answer_size.size_swap,
    "spare": answer_size.spare,
    "code": answer_size.code,
    "pressure": answer_air.pressure,
    "convert": answer_air.convert,
    "age": answer_rest.age,
    "rotation": answer_rest.rotation,
    "repair": answer_rest.repair,
    "condition": answer_rest.condition,
}
_ABOUT_THE_CAR = re.compile(
    r"\b(?:your (?:car|van|minivan|truck|suv|tires?|tyres?|set|spare|front|rear|left|right|video|one)|this (?:car"
    r"|van|minivan|truck|video)|that (?:car|van|minivan|truck)|in (?:the|this|your) (?:video|clip|episode)"
    r"|you (?:showed|show|have|measured|said)|the one you|same (?:car|van|minivan|truck|model))\b",
    re.IGNORECASE,
)
_WHERE_FROM = {
    "a place named": "as you name the place",
    "the language": "going by the language you write in",
    "spelling and units": "going by your spelling and units",
    "metric units": "going by your metric units",
    "the money": "going by the money you name",
    "US units": "going by your units",
    "a US coin or custom": "going by the custom you name",
}


def answer(
    text: str,
    *,
    tables: Tables,
    on: dt.date,
    region: str | None = None,
    episode: Episode | None = None,
    length: Length = "full",
    tone: Tone = "plain",
    corrected: Iterable[CorrectedFact] = (),
) -> Answer:
    """Answer a comment as of ``on``. ``region`` wins over the text's own hints; without both the US is taken, and said.

    ``episode`` fills what a comment about its car leaves open. ``corrected`` are facts set right by the presenter.
    """
    as_written = read(text)
    reading = with_corrections(as_written, corrected)
    viewer = viewer_of(reading, tables=tables, on=on, region=region, episode=episode)
    asked = kinds_of(reading)
    if asked.kind == "none" and reading is not as_written:
        asked = kinds_of(as_written)  # a fact taken away changes what is known, not what was asked
    return answer_reading(viewer, length, tone, asked)


def viewer_of(
    reading: Reading, *, tables: Tables, on: dt.date, region: str | None = None, episode: Episode | None = None
) -> Viewer:
    """The comment with region, units and, where it is about the episode's car, the episode."""
    where, how = _region(reading, region, episode, tables)
    about = episode if episode is not None and _ABOUT_THE_CAR.search(reading.text) else None
    said = reading.first("units")
    units = tables.regions[where].units if said is None else said.word
    return Viewer(
        reading=reading,
        on=on,
        region=where,
        region_how=how,
        units="metric" if units == "metric" else "us",
        tables=tables,
        episode=about,
    )


def _region(reading: Reading, asked: str | None, episode: Episode | None, tables: Tables) -> tuple[str, str]:
    if asked is not None:
        return asked, "as chosen"
    hint = reading.first("region")
    if hint is not None and hint.word in tables.regions:
        return hint.word, _WHERE_FROM.get(hint.how, f"going by {hint.how}")
    if episode is not None:
        return episode.region, "those of the episode"
    return "us", "taken as nothing you wrote says where you drive"


def answer_reading(viewer: Viewer, length: Length = "full", tone: Tone = "plain", asked: Asked | None = None) -> Answer:
    """Answer a comment already read."""
    asked = asked or kinds_of(viewer.reading)
    also = tuple(_one(kind, viewer, length, tone, further=True) for kind in asked.also)
    main = _one(asked.kind, viewer, length, tone)
    reply = main.reply
    if also:
        reply = "\n\n".join([main.reply, *(f"You also ask about {_SPOKEN[it.kind]}. {it.reply}" for it in also)])
    return msgspec.structs.replace(main, also=also, why=asked.why, reply=reply)


_SPOKEN: dict[str, str] = {
    "tread_left": "the tread",
    "matching": "tires that match",
    "size_swap": "the size",
    "spare": "the spare",
    "age": "the age",
    "pressure": "the pressure",
    "rotation": "the rotation",
    "life": "the distance left",
    "hydroplaning": "water on the road",
    "repair": "the hole",
    "condition": "the damage",
    "code": "the marking",
    "convert": "a conversion",
    "none": "something else",
}


def _one(kind: QuestionKind, viewer: Viewer, length: Length, tone: Tone, further: bool = False) -> Answer:
    part = _ANSWERS[kind](viewer) if kind != "none" else Part(lead="")
    invalid = tuple(
        dict.fromkeys((*(viewer.reading.impossible if not further and kind != "none" else ()), *part.invalid))
    )
    part = msgspec.structs.replace(part, invalid=invalid, more=(*part.more, *_from_episode(viewer)))
    return Answer(
        kind=kind,
        read=viewer.reading.facts,
        missing=tuple(it.field for it in part.missing),
        invalid=invalid,
        verdict=part.verdict,
        numbers=part.numbers,
        steps=part.steps,
        sources=part.sources,
        warning=part.warning,
        region=viewer.region,
        region_how=viewer.region_how,
        asks=tuple(it.ask for it in part.missing),
        left_out=viewer.reading.left_out,
        findings=part.findings,
        finding=part.finding,
        said=said(kind, part),
        region_said=region_said(viewer) if not further else "",
        reply=compose(kind, part, viewer, length, "plain" if further else tone, shown_region=not further),
    )


def _from_episode(viewer: Viewer) -> tuple[str, ...]:
    return (
        ("What you left open about the car in the video is taken from its own placard and readings.",)
        if viewer.episode
        else ()
    )


def fact_names(reading: Reading) -> tuple[tuple[str, Fact], ...]:
    """Each fact under the name by which it is corrected: its field, numbered from the second of a field on."""
    seen: dict[str, int] = {}
    named = []
    for fact in reading.facts:
        seen[fact.field] = seen.get(fact.field, 0) + 1
        number = seen[fact.field]
        named.append((fact.field if number == 1 else f"{fact.field}_{number}", fact))
    return tuple(named)


def with_corrections(reading: Reading, corrected: Iterable[CorrectedFact]) -> Reading:
    """The reading with facts set right: an empty value drops a fact, a new name adds one."""
    wanted = {it.field: it.value.strip() for it in corrected}
    if not wanted:
        return reading
    facts = [_corrected(fact, wanted[name]) if name in wanted else fact for name, fact in fact_names(reading)]
    known = {name for name, _ in fact_names(reading)}
    facts += [_added(name, value) for name, value in wanted.items() if name not in known and value]
    return msgspec.structs.replace(reading, facts=tuple(fact for fact in facts if fact is not None))


def _corrected(fact: Fact, value: str) -> Fact | None:
    if not value:
        return None
    return msgspec.structs.replace(
        fact, value=_typed(fact.field, value, fact), sure=1.0, how="set right by the presenter"
    )


def _added(field: str, value: str) -> Fact | None:
    return Fact(
        start=0,
        end=0,
        text="",
        field=field.rstrip("_0123456789"),
        value=_typed(field.rstrip("_0123456789"), value, None),
        sure=1.0,
        how="added by the presenter",
    )


_TYPED: dict[str, tuple[str, str]] = {
    "depth": ("depth", "32nds"),
    "depth_new": ("depth", "32nds"),
    "depth_before": ("depth", "32nds"),
    "limit": ("depth", "32nds"),
    "difference": ("depth", "32nds"),
    "pressure": ("pressure", "psi"),
    "pressure_before": ("pressure", "psi"),
    "placard_pressure": ("pressure", "psi"),
    "temperature": ("temperature", "degF"),
    "distance": ("distance", "mi"),
    "odometer": ("distance", "mi"),
    "load": ("load", "lb"),
    "speed": ("speed", "mph"),
    "rim": ("length", "in"),
    "damage_size": ("length", "in"),
}


def _typed(field: str, value: str, was: Fact | None) -> Quantity | str:
    """What was typed, as a value of the field; raises EntryError for what cannot be one."""
    if field not in _TYPED:
        return value
    kind, unit = _TYPED[field]
    default = was.quantity.unit if was is not None else unit
    return read_quantity(value, kind, default)  # type: ignore[arg-type]


__all__ = ["Answer", "EntryError", "answer", "answer_reading", "fact_names", "viewer_of", "with_corrections"]
