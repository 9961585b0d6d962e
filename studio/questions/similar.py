"""Questions that were asked before: the nearest earlier ones, and groups of those that ask nearly the same.

Nearness of wording is measured by rapidfuzz over words in any order; two comments are the same question only where
they are of one kind, and the same with the same answer only where their facts agree too.
"""

from collections.abc import Iterable, Sequence

import msgspec
from rapidfuzz import fuzz, process, utils

from studio.questions.facts import Fact, Reading
from studio.questions.kind_words import QuestionKind

NEAR = 72.0
ALIKE = 88.0
_WINDOW = 12
_TELLING = (
    "size",
    "depth",
    "depth_new",
    "depth_before",
    "date_code",
    "pressure",
    "pressure_before",
    "temperature",
    "distance",
    "odometer",
    "damage",
    "zone",
    "service",
    "drivetrain",
    "rim",
)


class Kept(msgspec.Struct, frozen=True, kw_only=True):
    """A question kept somewhere: ``where`` names its episode, empty for the one that is open."""

    id: str
    text: str
    kind: QuestionKind
    facts: tuple[str, ...] = ()
    asked: int = 1
    answered: bool = False
    where: str = ""


class Near(msgspec.Struct, frozen=True, kw_only=True):
    """An earlier question and how near it is, from 0 to 100; ``same_facts`` where its answer holds as it is."""

    kept: Kept
    score: float
    same_facts: bool


class Group(msgspec.Struct, frozen=True, kw_only=True):
    """Questions that ask the same; ``asked`` counts the viewers, ``first`` stands for all."""

    kind: QuestionKind
    first: Kept
    members: tuple[Kept, ...]

    @property
    def asked(self) -> int:
        """How many viewers asked."""
        return sum(kept.asked for kept in self.members)


def facts_of(reading: Reading) -> tuple[str, ...]:
    """The facts on which an answer depends, in words, for telling the same question from one of the same wording."""
    told = {f"{fact.field}={fact.said}{_of(fact)}" for fact in reading.facts if fact.field in _TELLING}
    return tuple(sorted(told))


def _of(fact: Fact) -> str:
    """Of which tires it is, where that was said."""
    return f" of {'+'.join(fact.where)}" if fact.where else ""


def plain_words(text: str) -> str:
    """A text as it is compared: small letters, words only, in alphabetical order."""
    return " ".join(sorted(utils.default_process(text).split()))


def nearest(
    text: str, kind: QuestionKind, facts: tuple[str, ...], earlier: Sequence[Kept], most: int = 5
) -> tuple[Near, ...]:
    """The earlier questions of this kind nearest to ``text``, answered ones with the same facts first."""
    alike = [kept for kept in earlier if kept.kind == kind]
    found = process.extract(
        text,
        [kept.text for kept in alike],
        scorer=fuzz.token_set_ratio,
        processor=utils.default_process,
        limit=4 * most,
        score_cutoff=NEAR,
    )
    near = [Near(kept=alike[index], score=score, same_facts=alike[index].facts == facts) for _, score, index in found]
    near.sort(key=lambda it: (-it.same_facts, -it.kept.answered, -it.score))
    return tuple(near[:most])


def groups(questions: Iterable[Kept], least: int = 2) -> tuple[Group, ...]:
    """Groups of the same question with at least ``least`` viewers, the most asked first.

    Compared are neighbours in the order of their sorted words, forwards and backwards: time grows with the number.
    """
    members = list(questions)
    parent = list(range(len(members)))
    for order in _orders(members):
        _join_neighbours(members, order, parent)
    sets: dict[int, list[Kept]] = {}
    for index, kept in enumerate(members):
        sets.setdefault(_root(parent, index), []).append(kept)
    found = [Group(kind=its[0].kind, first=_spokesman(its), members=tuple(its)) for its in sets.values()]
    return tuple(sorted((group for group in found if group.asked >= least), key=lambda group: -group.asked))


def _spokesman(members: list[Kept]) -> Kept:
    """The question that stands for a group: an answered one, else the one asked most, of a middle length."""
    return min(members, key=lambda kept: (not kept.answered, -kept.asked, abs(len(kept.text) - 120)))


def _orders(members: list[Kept]) -> tuple[list[int], list[int]]:
    words = [plain_words(kept.text) for kept in members]
    indices = range(len(members))
    forwards = sorted(indices, key=lambda i: (members[i].kind, words[i]))
    backwards = sorted(indices, key=lambda i: (members[i].kind, words[i][::-1]))
    return forwards, backwards


def _join_neighbours(members: list[Kept], order: list[int], parent: list[int]) -> None:
    for at, index in enumerate(order):
        for other in order[at + 1 : at + 1 + _WINDOW]:
            if members[index].kind != members[other].kind:
                break
            if _root(parent, index) != _root(parent, other) and _same(members[index], members[other]):
                parent[_root(parent, other)] = _root(parent, index)


def _same(one: Kept, other: Kept) -> bool:
    score = fuzz.token_sort_ratio(one.text, other.text, processor=utils.default_process, score_cutoff=NEAR)
    return score >= (NEAR if one.facts == other.facts and one.facts else ALIKE - 6)


def _root(parent: list[int], index: int) -> int:
    while parent[index] != index:
        parent[index] = parent[parent[index]]
        index = parent[index]
    return index
