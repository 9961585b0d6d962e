"""What the parts of the number check hand to each other: a verdict, and what stands around a number."""

import re
from collections.abc import Mapping
from typing import Literal

import msgspec

from studio.model.quantity import Quantity
from studio.script.aspects import DIMENSION_OF, Dimension
from studio.script.said import Said
from studio.script.subjects import Spoken

State = Literal["computed", "cited", "unbacked", "contradicted"]
GENERAL = re.compile(  # talk of other cars, of other times, of what might be
    r"\b(?:if|would(?! (?:be|come|cost|run|make|set|still|need))|could|suppose|imagine|most (?=people|\w+s\b)|many|"
    r"usual(?:ly)?|often|some (?=people|say|think|of the|[a-z]+s\b)|typical(?:ly)?|"
    r"average (?=driver|car|tire|tyre)|drivers?|any(?! other)|never|"
    r"in general|someone|somebody|people|elsewhere|(?<!its )neighbou?rs?|friends?|customers?|"
    r"colleagues?|viewers?|last week|(?:another|other) cars?|your (?:car|tires?|tyres?)|let'?s say|as a rule|"
    r"until|shops?|under which|once (?:it|they)|when (?:it|they) (?:reach|get))\b", re.IGNORECASE)  # fmt: skip
INDEFINITE = re.compile(r"^\s*(?:an?|any|every) (?:\w+ )?(?:tire|tyre)s?\b", re.IGNORECASE)
_DEFINITE = re.compile(
    r"\b(?:the|our|these|those) (?:\w+ )?(?:rims?|tires?|tyres?|wheels?|sidewalls?|pair|axle)\b(?! (?:shop|gauge|maker|"
    r"industry|dealer|store|nuts?|bolts?))", re.IGNORECASE)  # fmt: skip
_POINTS = re.compile(r"\b(?:it|its|we|our|i|my|they|their|them|this|that|these|those|both|here|each|the (?:two|pair|"
                     r"gap|limit)|there(?:'s|’s| is| are))\b",
                     re.IGNORECASE)  # fmt: skip


class Judged(msgspec.Struct, frozen=True, kw_only=True):
    """A verdict. ``expected`` is what is computed or cited instead, ``source`` the finding, path or table row."""

    state: State
    expected: str = ""
    source: str = ""
    why: str = ""


class Around(msgspec.Struct, frozen=True, kw_only=True):
    """What stands around a number: ``text`` is its sentence (or as much of it as counts), ``at`` where it is in it.

    ``spoken`` is who is meant, ``context`` are the findings that the talking point is about.
    """

    text: str
    at: tuple[int, int]
    spoken: Spoken | None
    carried: Spoken | None = None
    context: frozenset[str] = frozenset()
    cues: Mapping[str, tuple[tuple[int, int], ...]] = {}


def dimensions_of(said: Said) -> list[Dimension]:
    """What the number can measure."""
    if said.sort in ("week", "year", "index"):
        return [said.sort]
    return list(dict.fromkeys(DIMENSION_OF[Quantity(1.0, unit).measures] for unit in said.units))


def points(sentence: str) -> bool:
    """Whether a sentence speaks of something definite: it, ours, the tires."""
    return bool(_POINTS.search(sentence) or _DEFINITE.search(sentence))


def subjects_of(around: Around) -> tuple[frozenset[str], bool]:
    """The subjects meant, and whether they are sure enough to contradict the number."""
    if around.spoken is not None:
        told = around.spoken.ids & {id_.partition(".")[2] for id_ in around.context}
        return told or around.spoken.ids, around.spoken.sure
    pointing = bool(_POINTS.search(around.text))
    if around.carried is not None:
        return around.carried.ids, pointing
    return frozenset(), (bool(around.context) and pointing) or bool(_DEFINITE.search(around.text))
