"""A topic: one question that the car raises, and the pure function that answers it.

A topic reads a part of the episode only. ``from_parts`` makes that explicit: ``parts`` takes the episode apart into
small frozen values that hold all that one finding depends on, ``conclude`` turns one part into one finding. Equal parts
give the same finding from memory, so one edit recomputes only what depends on it.
"""

from collections.abc import Callable, Hashable, Iterable
from functools import lru_cache
from typing import TypeVar

import msgspec

from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.reference.tables import Tables

REMEMBERED = 512
Part = TypeVar("Part", bound=msgspec.Struct)
Key = TypeVar("Key", bound=Hashable)
Made = TypeVar("Made")
Decide = Callable[[Episode, Tables], tuple[Finding, ...]]


class Topic(msgspec.Struct, frozen=True, kw_only=True):
    """One topic: its id, the question in the presenter's words, what answers it, the picture that shows the answer."""

    id: str
    question: str
    decide: Decide
    picture: str = ""


class _Same:
    """Tables compared by identity: they never change, and comparing them by value would cost more than the finding."""

    __slots__ = ("tables",)

    def __init__(self, tables: Tables) -> None:
        self.tables = tables

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.tables is self.tables

    def __hash__(self) -> int:
        return id(self.tables)


def from_parts(
    parts: Callable[[Episode, Tables], Iterable[Part]], conclude: Callable[[Part, Tables], Finding]
) -> Decide:
    """Answer a topic part by part, each remembered (the last ``REMEMBERED`` of them)."""

    answer = remembered(conclude)

    def decide(episode: Episode, tables: Tables) -> tuple[Finding, ...]:
        return tuple(answer(part, tables) for part in parts(episode, tables))

    return decide


def saying(conclude: Callable[[Part, Tables], Finding]) -> Callable[[Part, Tables], Finding]:
    """``conclude`` for a topic whose sentences say numbers that no figure holds, rounded ones say: they go with it."""

    def answer(part: Part, tables: Tables) -> Finding:
        from studio.model.running_text import numbers_in

        finding = conclude(part, tables)
        said = tuple(its.quantity for its in numbers_in(finding.sentence) if its.quantity is not None)
        return msgspec.structs.replace(finding, said=said)

    return answer


def remembered(compute: Callable[[Key, Tables], Made], most: int = REMEMBERED) -> Callable[[Key, Tables], Made]:
    """``compute`` that answers equal parts from memory (the last ``most`` of them)."""

    @lru_cache(maxsize=most)
    def kept(key: Key, same: _Same) -> Made:
        return compute(key, same.tables)

    def answer(key: Key, tables: Tables) -> Made:
        return kept(key, _Same(tables))

    return answer
