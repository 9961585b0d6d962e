"""Multiples: ``twice the tread of the front right``, ``three times the legal minimum``, ``double what is allowed``."""

import re
from collections.abc import Sequence

from studio.script.ground import Ground
from studio.script.known import Known
from studio.script.said import Said
from studio.script.subjects import Mention
from studio.script.verdict import Around, Judged, dimensions_of

_LIMIT = re.compile(r"legal|\blaw\b|limit|minimum", re.IGNORECASE)
_ALLOWED = re.compile(r"toleran|allow|permit|manual|maker|handbook|accept|shops?\b", re.IGNORECASE)
_TREAD = re.compile(r"tread|deep|depth|rubber|thirty|profile|\bmm\b|millim", re.IGNORECASE)
_AGE = re.compile(r"\bold\b|\bage\b", re.IGNORECASE)
_PRESSURE = re.compile(r"pressure|\bair\b|psi|bar", re.IGNORECASE)
_OF_NUMBER = re.compile(r" (?:the|our|that|of the) (?:\w+ ){0,3}$", re.IGNORECASE)
_OF_THAT = re.compile(r" (?:that|this|as much)\W", re.IGNORECASE)
_END = re.compile(r" (?:the|that of the|as much as the|our) (front|rear|back)\b", re.IGNORECASE)
_CLOSE = 0.12
_ROUGH = 0.15
_MUCH_MORE = 1.6


def judge_multiple(
    said: Said, around: Around, mentions: Sequence[Mention], ground: Ground, others: Sequence[Said]
) -> Judged | None:
    """The verdict on a multiple between two numbers said, two tires, or one and its limit; None where nothing is
    compared. ``others`` are the other quantities of its sentence."""
    return _of_numbers(said, around, others, ground) or _of_tires(said, around, mentions, ground)


def _of_numbers(said: Said, around: Around, others: Sequence[Said], ground: Ground) -> Judged | None:
    """A multiple of a number said behind it, of what is allowed, or between two numbers said before it."""
    before = [its for its in others if its.end <= said.start]
    after = next((its for its in others if its.start >= said.end), None)
    if not before:
        return None
    first = before[-1]
    shift = said.start - around.at[0]
    if after is not None and _OF_NUMBER.fullmatch(around.text[around.at[1] : after.start - shift] or "-"):
        return _held(said, first.value, _like(after, first), "what is said", "")
    if after is not None and first.units == after.units and _OF_THAT.match(around.text, around.at[1]):
        return _held(said, after.value, first.value, "what is said", "")
    if _ALLOWED.search(around.text, around.at[1]):
        members = [its for its in ground.by_aspect.get("tolerance", ()) if its.dimension in dimensions_of(first)]
        own = [its for its in members if its.source in around.context] or members
        limit = next((its for its in own if its.name == "limit"), None)
        if limit is None:
            return None
        return _held(said, first.value, limit.in_unit(first.units[0]), limit.label, limit.source)
    if len(before) > 1 and before[-1].units == before[-2].units and not _LIMIT.search(around.text, around.at[1]):
        small, large = sorted((before[-2].value, first.value))
        return _held(said, large, small, "what is said", "")
    return None


def _like(number: Said, other: Said) -> float | None:
    return number.value if number.units == other.units else None


def _held(said: Said, first: float, second: float | None, what: str, source: str) -> Judged | None:
    if not second:
        return None
    ratio = first / second
    expected = f"{ratio:.1f} times"
    if _is(said, ratio):
        return Judged(state="computed", source=source, expected=expected)
    return Judged(state="contradicted", source=source, expected=expected, why=f"computed: {expected} {what}")


def _of_tires(said: Said, around: Around, mentions: Sequence[Mention], ground: Ground) -> Judged | None:
    start, end = around.at
    before = [m for m in mentions if m.end <= start]
    after = [m for m in mentions if m.start >= end]
    topic = "age" if _AGE.search(around.text) else "pressure" if _PRESSURE.search(around.text) else "tread_left"
    if topic == "tread_left" and not (_TREAD.search(around.text) or _LIMIT.search(around.text)):
        return None
    first = _value(ground, topic, before[-1].ids) if before else None
    if first is None:
        return Judged(state="unbacked", why="whose multiple it is cannot be told")
    second = _other(ground, topic, around, before, after)
    if second is None or not second.quantity.value:
        return Judged(state="unbacked", why="of what it is a multiple cannot be told")
    value = second.in_unit(first.quantity.unit)
    ratio = first.quantity.value / value if value else 0.0
    if second.source in around.context and not after and len(before) == 1 and 0 < ratio < 1:
        first, second, ratio = second, first, 1 / ratio  # the one spoken of before is the smaller
    source = f"{first.source}, {second.source}"
    if _is(said, ratio):
        return Judged(state="computed", source=source, expected=f"{ratio:.1f} times")
    what = f"{ratio:.1f} times ({first.text(ground.units)} to {second.text(ground.units)})"
    return Judged(state="contradicted", source=source, expected=f"{ratio:.1f} times", why=f"computed: {what}")


def _other(
    ground: Ground, topic: str, around: Around, before: Sequence[Mention], after: Sequence[Mention]
) -> Known | None:
    """What it is a multiple of: the tire behind, an end of the car, the one before, a limit, the point's other tire."""
    if after:
        return _value(ground, topic, after[0].ids)
    if end := _END.match(around.text, around.at[1]):
        place = "front" if end[1].lower() == "front" else "rear"
        return _value(ground, topic, frozenset({f"{place}_left", f"{place}_right"}))
    if len(before) > 1:
        return _value(ground, topic, before[-2].ids)
    if limit := _limit(ground, topic, around, before[-1].ids):
        return limit
    mine = before[-1].ids
    others = [its for id_ in around.context if (its := _value_of(ground, topic, id_)) and not its.subjects & mine]
    return others[0] if len(others) == 1 else None


def _value(ground: Ground, topic: str, ids: frozenset[str]) -> Known | None:
    return next((its for its in _measured(ground, topic) if its.subjects & ids), None)


def _value_of(ground: Ground, topic: str, finding: str) -> Known | None:
    return next((its for its in _measured(ground, topic) if its.source == finding), None)


def _measured(ground: Ground, topic: str) -> list[Known]:
    aspect = {"tread_left": "depth", "age": "age", "pressure": "read"}[topic]
    return [its for its in ground.by_aspect.get(aspect, ()) if its.topic == topic and its.name in ("value", "read")]


def _limit(ground: Ground, topic: str, around: Around, ids: frozenset[str]) -> Known | None:
    if not _LIMIT.search(around.text) or topic != "tread_left":
        return None
    return next((its for its in ground.by_aspect.get("legal", ()) if its.subjects & ids), None)


def _is(said: Said, ratio: float) -> bool:
    near = _ROUGH if said.rough else _CLOSE
    if abs(ratio - said.value) <= near * said.value:
        return True
    if said.bound == "least":
        return said.value <= ratio <= said.value * _MUCH_MORE
    return said.bound == "most" and said.value / _MUCH_MORE <= ratio <= said.value
