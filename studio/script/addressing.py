"""Which aspects the words around a number name, clause by clause."""

import re
from collections.abc import Iterable, Sequence

from studio.script.aspects import BY_ID, CUES, DEFAULT, OF_DIMENSION, Dimension
from studio.script.verdict import Around

_OTHER_CLAUSE, _WEIGHT = 40, 30  # characters: what another clause costs, what a weighty word is worth
_NEAR = 90  # characters: words farther from a number than this do not tell what it is about
_CLAUSE = re.compile(r"[,;:()–—]\s|\b(?:and|but|while|whereas|though|when|because|although)\b", re.IGNORECASE)
_NUMBERS = re.compile(
    r"\d|\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|\w+ty|hundred|thousand|half|quarter|"
    r"eighth|thirty-seconds?|twice|double|triple)\b", re.IGNORECASE)  # fmt: skip
_OTHER_NUMBER = re.compile(r"(?<![\w/])\d+(?:[./]\d+)? ?(?:mm|in\b|psi|kPa|bar|inch|milli)|thirty-seconds?\b", re.I)
_GIVES = re.compile(r"(?:(?<=limit)(?: of| is)?|(?<=limit of)) (?:\d|half\b|an?\b|two\b|three\b)", re.IGNORECASE)
_WITHOUT_ANYBODY = frozenset({"len", "pressure", "age", "money", "week", "year", "index", "torque", "turns", "rpm"})
_BY_NEARNESS = frozenset({"rating", "placard", "hole", "water", "advice"})
_RULES_OUT = {  # what the key says makes these meanings impossible in its clause
    "new": ("past", "depth", "mean"), "legal": ("depth",), "over_legal": ("depth", "legal"), "apart": ("depth",),
    "tolerance": ("apart", "around", "depth"), "rating": ("carry",), "placard": ("read", "set", "before"),
    "lamp": ("read", "placard"), "hole": ("depth",), "advice": ("depth",), "water": ("depth",),
    "zone": ("tolerance",),
}  # fmt: skip


def cues_in(sentence: str, dimensions: Iterable[Dimension]) -> dict[str, tuple[tuple[int, int], ...]]:
    """Where the words of each aspect that has one of these dimensions stand in a sentence."""
    wanted = dict.fromkeys(id_ for dimension in dimensions for id_ in OF_DIMENSION.get(dimension, ()))
    found = {id_: tuple(match.span() for match in CUES[id_].finditer(sentence)) for id_ in wanted}
    return {id_: spans for id_, spans in found.items() if spans}


def addressed(around: Around, dimensions: Sequence[Dimension], of_somebody: bool) -> tuple[list[str], set[str]]:
    """The aspects that the words around the number name, the nearest and weightiest first, then the usual one; and
    those named in its own clause.

    Where the clause itself names what it is about, broader aspects do not count; without anybody spoken of
    (``of_somebody``), what differs from tire to tire does not count beside what is the same for all.
    """
    start, end = around.at
    scored: list[tuple[int, str]] = []
    raw: dict[str, int] = {}
    clause = set()
    for aspect, spans in around.cues.items():
        outside = [span for span in spans if not _is_of_another(around.text, span, (start, end))]
        if not outside:
            continue
        every = (_apart(around.text, span, (start, end)) for span in outside)
        far, parted = min(every, key=lambda its: its[0] + _OTHER_CLAUSE * its[1])
        if far <= _NEAR:
            raw[aspect] = far
            scored.append((far + _OTHER_CLAUSE * parted - _WEIGHT * BY_ID[aspect].weight, aspect))
            if not parted:
                clause.add(aspect)
    named = [aspect for _, aspect in sorted(scored)]
    ruled_out = {its for aspect in clause for its in _RULES_OUT.get(aspect, ())
                 if aspect not in _BY_NEARNESS or raw[aspect] <= raw.get(its, raw[aspect])}  # fmt: skip
    shared = {aspect for aspect in clause - ruled_out if not BY_ID[aspect].of_tire and BY_ID[aspect].weight}
    if shared and not of_somebody and "money" not in dimensions:
        nearest = min(raw[aspect] for aspect in shared)
        ruled_out |= {aspect for aspect in named if BY_ID[aspect].of_tire and raw[aspect] >= nearest}
    usual = [] if clause - ruled_out else [
        DEFAULT[d] for d in dimensions if d in DEFAULT and (of_somebody or d in _WITHOUT_ANYBODY)]
    return [aspect for aspect in dict.fromkeys([*named, *usual]) if aspect not in ruled_out], clause


def _is_of_another(sentence: str, span: tuple[int, int], number: tuple[int, int]) -> bool:
    """Whether a word is the number's own unit, or is said of the number behind it: ``a limit of half an inch``."""
    inside = number[0] <= span[0] and span[1] <= number[1] and "thirty" in sentence[slice(*span)].lower()
    return inside or (span[0] >= number[1] and bool(_GIVES.match(sentence, span[1])))


def _apart(sentence: str, span: tuple[int, int], number: tuple[int, int]) -> tuple[int, int]:
    """How far a word is from the number in characters, and whether it stands in a clause with numbers of its own."""
    between = sentence[span[1] : number[0]] if span[1] <= number[0] else sentence[number[1] : span[0]]
    if not _CLAUSE.search(between):
        return len(between), int(span[0] >= number[1] and bool(_OTHER_NUMBER.search(between)))
    before = [its.end() for its in _CLAUSE.finditer(sentence, 0, span[0])]
    after = _CLAUSE.search(sentence, span[1])
    clause = sentence[before[-1] if before else 0 : after.start() if after else len(sentence)]
    return len(between), int(bool(_NUMBERS.search(clause)))
