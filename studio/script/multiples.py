"""Multiples: ``twice the tread of the front right``, ``three times the legal minimum``."""

import re
from collections.abc import Sequence

from studio.script.ground import Ground
from studio.script.known import Known
from studio.script.said import Said
from studio.script.subjects import Mention
from studio.script.verdict import Around, Judged

_LIMIT = re.compile(r"legal|\blaw\b|limit|minimum", re.IGNORECASE)
_TREAD = re.compile(r"tread|deep|depth|rubber|thirty", re.IGNORECASE)
_AGE = re.compile(r"\bold\b|\bage\b", re.IGNORECASE)
_PRESSURE = re.compile(r"pressure|\bair\b|psi|bar", re.IGNORECASE)
_CLOSE = 0.12
_ROUGH = 0.15
_MUCH_MORE = 1.6


def judge_multiple(said: Said, around: Around, mentions: Sequence[Mention], ground: Ground) -> Judged | None:
    """The verdict on a multiple between two tires, or between a tire and its limit; None where nothing is compared."""
    start, end = around.at
    before = [m for m in mentions if m.end <= start]
    after = [m for m in mentions if m.start >= end]
    topic = "age" if _AGE.search(around.sentence) else "pressure" if _PRESSURE.search(around.sentence) else "tread_left"
    if topic == "tread_left" and not (_TREAD.search(around.sentence) or _LIMIT.search(around.sentence)):
        return None
    first = _value(ground, topic, before[-1].ids) if before else None
    if first is None:
        return Judged(state="unbacked", why="whose multiple it is cannot be told")
    other = after[0] if after else before[-2] if len(before) > 1 else None
    second = _value(ground, topic, other.ids) if other else _limit(ground, topic, around, before[-1].ids)
    if second is None or not second.quantity.value:
        return Judged(state="unbacked", why="of what it is a multiple cannot be told")
    value = second.in_unit(first.quantity.unit)
    ratio = first.quantity.value / value if value else 0.0
    source = f"{first.source}, {second.source}"
    if _is(said, ratio):
        return Judged(state="computed", source=source, expected=f"{ratio:.1f} times")
    what = f"{ratio:.1f} times ({first.text(ground.units)} to {second.text(ground.units)})"
    return Judged(state="contradicted", source=source, expected=f"{ratio:.1f} times", why=f"computed: {what}")


def _value(ground: Ground, topic: str, ids: frozenset[str]) -> Known | None:
    aspect = {"tread_left": "depth", "age": "age", "pressure": "read"}[topic]
    measured = (its for its in ground.by_aspect.get(aspect, ()) if its.topic == topic)
    return next((its for its in measured if its.name in ("value", "read") and its.subjects & ids), None)


def _limit(ground: Ground, topic: str, around: Around, ids: frozenset[str]) -> Known | None:
    if not _LIMIT.search(around.sentence) or topic != "tread_left":
        return None
    return next((its for its in ground.by_aspect.get("legal", ()) if its.subjects & ids), None)


def _is(said: Said, ratio: float) -> bool:
    near = _ROUGH if said.rough else _CLOSE
    if abs(ratio - said.value) <= near * said.value:
        return True
    if said.bound == "least":
        return said.value <= ratio <= said.value * _MUCH_MORE
    return said.bound == "most" and said.value / _MUCH_MORE <= ratio <= said.value
