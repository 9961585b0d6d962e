"""Which of many patterns can match a text at all, told by the letters that each of them must find in it.

Most comments hold nothing that most patterns look for. What a pattern must find is read from its own parsed form; where
that cannot be read, the pattern is always tried: a sieve saves time and never changes what is found.
"""

import importlib
import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import Any, Generic, TypeVar

Entry = TypeVar("Entry")
_MOST_STRINGS = 48
_COMMON = " etaonrishldcumpfgywbvkxjqz"
"""Letters of English from the commonest to the rarest; what is none of them counts as rare."""
_SAME = str.maketrans({"ſ": "s", "ı": "i", "İ": "i", "\u212a": "k"})  # what re.IGNORECASE takes for these letters


class Sieve(Generic[Entry]):
    """Entries with a pattern each; ``of`` gives those whose pattern may match, in their order."""

    def __init__(self, entries: Iterable[tuple[re.Pattern[str], Entry]]) -> None:
        self._entries = [entry for _, entry in entries]
        self._always = 0
        self._by_piece: dict[str, int] = {}
        for number, (pattern, _) in enumerate(entries):
            needed = must_hold(pattern)
            if needed is None:
                self._always |= 1 << number
            for piece in needed or ():
                self._by_piece[piece] = self._by_piece.get(piece, 0) | 1 << number

    def of(self, text: str) -> Iterator[Entry]:
        """The entries that are worth a search in ``text``."""
        able = self._always
        for piece in self._by_piece.keys() & _pieces(_folded(text)):
            able |= self._by_piece[piece]
        while able:
            lowest = able & -able
            yield self._entries[lowest.bit_length() - 1]
            able ^= lowest


def must_hold(pattern: re.Pattern[str]) -> frozenset[str] | None:
    """Pieces of 2 or 3 small letters of which each text that ``pattern`` matches holds one; None where unknown."""
    try:
        parser = importlib.import_module("re._parser")
        strings = _needed(list(parser.parse(pattern.pattern, pattern.flags & ~re.UNICODE)))
    except (ImportError, AttributeError, TypeError, ValueError):
        return None
    return None if strings is None else frozenset(_rarest(string) for string in strings)


@lru_cache(maxsize=8)  # several sieves look at one comment
def _pieces(small: str) -> frozenset[str]:
    three = {small[at : at + 3] for at in range(len(small) - 2)}
    return frozenset(three | {small[at : at + 2] for at in range(len(small) - 1)})


def _folded(text: str) -> str:
    return text.translate(_SAME).lower()


def _rarest(string: str) -> str:
    """The three letters of a string that are the least common together."""
    pieces = [string[at : at + 3] for at in range(max(1, len(string) - 2))]
    return max(pieces, key=lambda piece: sum(_COMMON.find(letter) % len(_COMMON) for letter in piece))


def _needed(items: Sequence[Any]) -> set[str] | None:
    """Strings of which one stands in whatever this sequence matches; the longest that can be had."""
    best: set[str] | None = None
    run = {""}
    for item in [*items, None]:
        exact = _exact(item) if item is not None else None
        if exact is not None and len(run) * len(exact) <= _MOST_STRINGS:
            run = {one + other for one in run for other in exact}
            continue
        best = _better(best, run)
        run = {""} if exact is None else exact
        if item is not None and exact is None:
            best = _better(best, _within(item))
    return best


def _better(one: set[str] | None, other: set[str] | None) -> set[str] | None:
    """Of two sets the one whose shortest string is longer, as far as that tells more; then the smaller one."""

    def worth(strings: set[str] | None) -> tuple[int, int]:
        shortest = min(map(len, strings), default=0) if strings else 0
        return (min(shortest, 3), -len(strings or ())) if shortest >= 2 else (0, 0)

    return max(one, other, key=worth) if max(worth(one), worth(other)) > (0, 0) else None


def _within(item: Any) -> set[str] | None:
    """What stands in whatever one item matches that is not one of a few strings."""
    name, value = str(item[0]), item[1]
    if name == "SUBPATTERN":
        return _needed(list(value[3]))
    if name == "BRANCH":
        every: set[str] = set()
        for branch in value[1]:
            needed = _needed(list(branch))
            if needed is None:
                return None
            every |= needed
        return every
    if name in ("MAX_REPEAT", "MIN_REPEAT") and value[0] >= 1:
        return _needed(list(value[2]))
    return None


def _exact(item: Any) -> set[str] | None:
    """All strings that one item can match, where they are few; what looks only around matches the empty one."""
    name, value = str(item[0]), item[1]
    if name == "LITERAL":
        return {_folded(chr(value))}
    if name in ("AT", "ASSERT", "ASSERT_NOT"):
        return {""}
    if name == "IN":
        letters = {_folded(chr(its)) for kind, its in value if str(kind) == "LITERAL"}
        return letters if len(letters) <= 6 and all(str(kind) == "LITERAL" for kind, _ in value) else None
    if name == "SUBPATTERN":
        return _sequence(list(value[3]))
    if name == "BRANCH":
        parts = [_sequence(list(branch)) for branch in value[1]]
        return None if any(part is None for part in parts) else _few(set().union(*(part or () for part in parts)))
    if name in ("MAX_REPEAT", "MIN_REPEAT") and tuple(value[:2]) in ((0, 1), (1, 1)):
        part = _sequence(list(value[2]))
        return None if part is None else part | ({""} if value[0] == 0 else set())
    return None


def _sequence(items: Sequence[Any]) -> set[str] | None:
    run = {""}
    for item in items:
        exact = _exact(item)
        if exact is None or len(run) * len(exact) > _MOST_STRINGS:
            return None
        run = {one + other for one in run for other in exact}
    return run


def _few(strings: set[str]) -> set[str] | None:
    return strings if len(strings) <= _MOST_STRINGS else None
