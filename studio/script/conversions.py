"""Two values said to be equal, such as ``4/32, that is 3.2 mm``: they must be, to the precision of the second."""

import re
from collections.abc import Sequence
from itertools import pairwise

import msgspec

from studio.model.quantity import Quantity, UnitError, UnitName
from studio.script.said import Said

_EQUAL = re.compile(
    r"\s*(?:(?:of (?:an inch|tread|depth|rubber|pressure|air|circumference|water)|in depth|deep|cold|left|in)\s*)?"
    r"[,;:(\[–—-]{0,2}\s*(?:and )?(?:"
    r"(?:or|which|that|this|it|so)?\s*(?:is|are|'s|’s|was|were|means|equals?|makes|comes (?:out )?(?:to|at)|works out "
    r"(?:to|at|as)|translates (?:to|into|as)|converts to|corresponds to|amounts to|gives(?: us)?|in other words)|"
    r"or(?: if you prefer)?|i\.e\.|aka|=|≈|~|namely|in (?:metric|millimet(?:er|re)s|inches|bar|kpa|kilomet(?:er|re)s|"
    r"miles|us units|imperial)|the same as|equal to|so|that is to say|meaning|call it|say|/)?"
    r"[,:]?\s*(?:exactly|precisely|just|only|the same as|equal to|about|roughly|around|some|approximately|nearly|"
    r"almost|"
    r"just (?:under|over)|a little (?:over|under|more than|less than)|plus|also|in metric|or|so|to|the|a|≈|~|-)*"
    r"[,:]?\s*",
    re.IGNORECASE)  # fmt: skip
_BARE = re.compile(r"\s*[,;]?\s*")
_MARK = (
    r"(?:and )?(?:(?:or|which|that|this|it|so)\s*(?:is|are|'s|’s|was|were|means|equals?|makes|comes (?:out )?(?:to|at)|"
    r"works out (?:to|at|as))|or|i\.e\.|=|≈|namely|that is to say|meaning|call it|"
    r"in (?:metric|bar|kpa|inches|psi|miles)|in other words)"
)
_ROUGHLY = (
    r"[,:]?\s*(?:(?:exactly|precisely|just|only|about|roughly|around|some|approximately|nearly|almost|plus|"
    r"just (?:under|over)|a little (?:over|under|more than|less than)|≈|~)\s*){0,3}"
)
_AFTER_WORDS = re.compile(rf"(?:\s+[^\W\d]+){{0,6}}\s*[,;:(–—]\s*{_MARK}{_ROUGHLY}", re.IGNORECASE)
_PLACE_IS = re.compile(
    r"\s+(?:at|in|on|up|for)\s+(?:the\s+)?\w+(?:\s\w+)?\s+(?:is|equals|makes|means|works out to|comes to)\s+"
    rf"{_ROUGHLY}", re.IGNORECASE)  # fmt: skip
_SIDE_BY_SIDE = re.compile(rf"(?:\s+[^\W\d]+){{0,3}}\s*[,;(/–—]\s*{_ROUGHLY}", re.IGNORECASE)
_ENDS = re.compile(r"\s*(?:[.,;:!?)–—]|$|and\b|at\b|of (?:water|air|tread|rubber|depth)\b)")
_COMPARES = re.compile(
    r"\s*(?:of (?:tread|depth|rubber|air|pressure) )?(?:more|less|above|over|under|below|deeper|shallower|higher|lower|"
    r"too|short|apart|away|off|difference|behind|than)\b", re.IGNORECASE)  # fmt: skip
_US = frozenset({"in", "32nds", "psi", "mi", "lb", "mph", "degF", "lbf ft", "in/h", "ft", "rev/mi"})
_ROUND = re.compile(r"\s*(?:of|in) (?:circumference|diameter)\b", re.IGNORECASE)
_FARTHEST = 60
_HALF = 0.5
_AND_A_BIT = 1.3  # custom of speech, no source
_SHARE = 0.1  # the farthest that rounding may go, as a share of the value (custom of speech, no source)


class Pair(msgspec.Struct, frozen=True, kw_only=True):
    """Two neighbors among the numbers said to be one value. ``should`` is the first in the second's unit."""

    first: int
    second: int
    should: Quantity
    right: bool


def pairs(text: str, said: Sequence[Said]) -> list[Pair]:
    """All pairs of neighbors in ``said`` that are said to be equal."""
    found = []
    for place, (one, two) in enumerate(pairwise(said)):
        if _may_pair(one, two) and two.start - one.end <= _FARTHEST and _said_equal(text, one, two)\
                and _of_one_thing(text, one, two):
            unit = next((u for u in two.units if (_in(one, u)) is not None), None)
            should = None if unit is None else _in(one, unit)
            if unit is not None and should is not None:
                right = abs(two.value - should.value) <= _slack(one, two, unit) or _is_least(two, should.value)
                found.append(Pair(first=place, second=place + 1, should=should, right=right))
    return found


def _is_least(two: Said, should: float) -> bool:
    """``an eighth of an inch and a bit``: not more than it is, and not much less."""
    return two.bound == "least" and two.value <= should <= two.value * _AND_A_BIT


def _may_pair(one: Said, two: Said) -> bool:
    measured = all(its.sort == "quantity" and its.units and not its.unit_inferred for its in (one, two))
    return measured and one.units[:1] != two.units[:1] and one.until is None and two.until is None


def _of_one_thing(text: str, one: Said, two: Said) -> bool:
    """Whether not one is said of the way round the tire and the other of its tread."""
    behind = (text[one.end : one.end + 24], text[two.end : two.end + 24])
    return len({bool(_ROUND.match(its)) for its in behind}) == 1


def _said_equal(text: str, one: Said, two: Said) -> bool:
    """Whether the words between say so, or put one unit system beside the other with nothing but a pause between."""
    between = text[one.end : two.start]
    if _EQUAL.fullmatch(between) and not _BARE.fullmatch(between):
        return True
    if (one.units[0] in _US) == (two.units[0] in _US) or _COMPARES.match(text, two.end):
        return False
    if _AFTER_WORDS.fullmatch(between) or _PLACE_IS.fullmatch(between):
        return True
    return bool(_SIDE_BY_SIDE.fullmatch(between) and _ENDS.match(text, two.end))


def _in(said: Said, unit: UnitName) -> Quantity | None:
    for mine in said.units:
        kind = "depth" if mine in ("mm", "in", "32nds") else None
        try:
            return (Quantity(said.value, mine, "depth") if kind else Quantity(said.value, mine)).to(unit)
        except UnitError:
            continue
    return None


def _slack(one: Said, two: Said, unit: UnitName) -> float:
    """Half of what the second is said to, or of what the first is known to where that is coarser."""
    mine = min(two.step * _HALF * (2 if two.rough else 1), _SHARE * abs(two.value))
    if one.exact and not one.rough:
        return mine * (1 + 1e-9) + 1e-9
    again = msgspec.structs.replace(one, value=one.value + one.step * _HALF * (2 if one.rough else 1))
    here, there = _in(one, unit), _in(again, unit)
    return max(mine, abs(there.value - here.value) if here and there else 0.0) * (1 + 1e-9) + 1e-9
