"""Where captions part: the way through a stretch of talk that costs least, by what disturbs a reader.

A number never parts from its unit. A cue is long enough to be read where the talk allows it, ends where a thought ends
rather than after "the" or "of", and no word stands alone in a cue that could stand with others.
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import lru_cache

import msgspec

from studio.model.quantity import UNITS

LINES = 2
LONGEST, SHORTEST = Fraction(7), Fraction(1)
LEAST_PER_WORD = Fraction(3, 10)
_LONGEST_S, _SHORTEST_S, _LEAST_S = float(LONGEST), float(SHORTEST), float(LEAST_PER_WORD)
_ENDS, _BREATHS, _AROUND = ".!?…", ",;:–—", "'\"()[]{}.,;:!?…"
_LEAN = frozenset(
    "a an and are as at but by for from has have if in is it its most of on only or our that the their they this to "
    "up was were when with you your".split()
)
"""Words that lean on the next one."""
_SHORT_AT_ALL, _TOO_SHORT, _ALONE, _TOO_LONG = 12.0, 60.0, 25.0, 3.0  # what a cue costs, in thoughts cut in two
_CUT, _AT_BREATH, _JOINED, _LEANING, _EACH, _UNEVEN = 4.0, 1.5, 2.0, 3.0, 1.0, 1.0


class Atom(msgspec.Struct, frozen=True):
    """What no line and no cue parts: a word, or a number with its unit; when it is spoken.

    ``ends`` says that a sentence, or a talking point, ends with it; ``from_s`` and ``to_s`` are its times for weighing.
    """

    text: str
    start: Fraction
    end: Fraction
    ends: bool
    words: int
    from_s: float
    to_s: float


def atoms_of(text: str, start: Fraction, end: Fraction, characters: int) -> list[Atom]:
    """The atoms of a text that is spoken from ``start`` to ``end``; each takes its share by its signs."""
    texts = list(_glued([word for whole in text.split() for word in _cut(whole, characters)], characters))
    total, before, made = sum(map(len, texts)), 0, []
    for number, its in enumerate(texts, start=1):
        begin = start + (end - start) * Fraction(before, total)
        before += len(its)
        last = number == len(texts) or its.rstrip("'\")]")[-1:] in _ENDS
        done = start + (end - start) * Fraction(before, total)
        made.append(Atom(its, begin, done, last, len(its.split()), float(begin), float(done)))
    return made


def parted(atoms: Sequence[Atom], characters: int) -> list[tuple[Atom, ...]]:
    """The atoms in cues, by the cheapest way from the first to the last."""
    best: list[tuple[float, int]] = [(0.0, 0)]
    for end in range(1, len(atoms) + 1):
        ways = [(best[begin][0] + cost, begin) for begin, cost in _cues_to(atoms, end, characters)]
        best.append(min(ways))
    cues, end = [], len(atoms)
    while end:
        begin = best[end][1]
        cues.append(tuple(atoms[begin:end]))
        end = begin
    return cues[::-1]


def lines_of(atoms: Sequence[Atom], characters: int) -> tuple[str, ...]:
    """The lines of a cue: one, or two that are about as long and part where it disturbs least."""
    texts = [atom.text for atom in atoms]
    whole = " ".join(texts)
    if len(whole) <= characters:
        return (whole,)
    ways = _line_ways(texts, characters)
    return min(ways)[1] if ways else ()


def least_s(atoms: Iterable[Atom]) -> Fraction:
    """How long a cue should stand so that it can be read, in seconds."""
    return max(SHORTEST, LEAST_PER_WORD * sum(atom.words for atom in atoms))


def _cues_to(atoms: Sequence[Atom], end: int, characters: int) -> Iterator[tuple[int, float]]:
    """The cues that can end before ``end``: where each begins, and what it costs."""
    long = -1
    for begin in range(end - 1, -1, -1):
        long += len(atoms[begin].text) + 1
        if long > LINES * characters + 1:
            return
        cue = atoms[begin:end]
        lines = lines_of(cue, characters)
        if lines:
            yield begin, _cost(cue, whole=end - begin == len(atoms)) + _line_cost(lines)


def _cost(cue: Sequence[Atom], *, whole: bool) -> float:
    stands, words = cue[-1].to_s - cue[0].from_s, sum(atom.words for atom in cue)
    least = max(_SHORTEST_S, _LEAST_S * words)
    cost = _EACH + _JOINED * sum(atom.ends for atom in cue[:-1])
    if stands < least:
        cost += _SHORT_AT_ALL + _TOO_SHORT * (least - stands) / least
    if len(cue) == 1 and not whole:
        cost += _ALONE
    if stands > _LONGEST_S:
        cost += _TOO_LONG * (stands - _LONGEST_S)
    return cost if cue[-1].ends else cost + _cut_cost(cue[-1].text)


def _cut_cost(text: str) -> float:
    """What it costs to part a sentence after this word."""
    if text[-1:] in _BREATHS:
        return _AT_BREATH
    return _CUT + (_LEANING if text.lower() in _LEAN else 0.0)


def _line_cost(lines: tuple[str, ...]) -> float:
    if len(lines) == 1:
        return 0.0
    last = lines[0].rsplit(" ", 1)[-1]
    at_end = last.rstrip("'\")]")[-1:] in _ENDS
    uneven = abs(len(lines[0]) - len(lines[1])) / max(map(len, lines))
    return _UNEVEN * uneven + (0.0 if at_end else _cut_cost(last) / _CUT)


def _line_ways(texts: Sequence[str], characters: int) -> list[tuple[float, tuple[str, ...]]]:
    ways = ((" ".join(texts[:at]), " ".join(texts[at:])) for at in range(1, len(texts)))
    return [(_line_cost(way), way) for way in ways if max(map(len, way)) <= characters]


def _cut(word: str, characters: int) -> Iterator[str]:
    for start in range(0, len(word), characters):
        yield word[start : start + characters]


def _glued(words: Sequence[str], characters: int) -> Iterator[str]:
    """The words, a number and the unit after it as one."""
    waiting = ""
    for word in words:
        number = any(sign.isdigit() for sign in waiting) and " " not in waiting and waiting[-1:] not in ".,;:!?"
        if number and _is_unit(word) and len(waiting) + 1 + len(word) <= characters:
            waiting = f"{waiting} {word}"
            continue
        if waiting:
            yield waiting
        waiting = word
    if waiting:
        yield waiting


def _is_unit(word: str) -> bool:
    bare = word.strip(_AROUND)
    return bare in _units() or (len(bare) == 3 and bare.isascii() and bare.isalpha() and bare.isupper())


@lru_cache(maxsize=1)
def _units() -> frozenset[str]:
    """Every unit's sign, and the first word of its name; currencies are told by their three capitals."""
    names = (part for unit in UNITS.values() for part in (unit.symbol, unit.spoken_one, unit.spoken_many))
    return frozenset(word for name in names if name for word in (name.split()[0], name.split()[-1], name)) | {"°"}
