"""A comment looked at for taking it in: scrubbed, read, sorted; and when two of them ask the same."""

import re

import msgspec

from studio.questions.kind_words import QuestionKind
from studio.questions.scrub import scrub
from studio.questions.similar import facts_of
from studio.questions.sorting import State, sort_out

Key = tuple[str, ...]
_SIGNS = re.compile(r"(?:(?<![\w.,])-)?[0-9]+(?:[.,/:x°%\"]*[0-9]+)*|[^\W\d_]+")
_UNSAID = frozenset(
    "a an and the my our your please pls plz thanks thank thx you hi hey hello so just ok okay lol lmao bro dude man "
    "guys sir mate im i'm is are it this that".split()
)
_VOWELS = re.compile(r"[aeiouy]+")
_TWICE = re.compile(r"(.)\1+")


class Seen(msgspec.Struct, frozen=True, array_like=True):
    """A comment's kind and state; comments with the same ``key`` ask the same."""

    kind: QuestionKind
    also: tuple[QuestionKind, ...]
    state: State
    key: Key


class Cleaned(msgspec.Struct, frozen=True, array_like=True):
    """A comment as it may be kept, what was taken out of it, and how it is seen; None where no words are left."""

    text: str
    removed: tuple[tuple[str, int], ...]
    seen: Seen | None


def cleaned(comment: str) -> Cleaned:
    """Scrub a comment and look at what is left of it."""
    clean = scrub(comment)
    return Cleaned(clean.text, clean.removed, seen(clean.text) if clean.text else None)


def seen(text: str) -> Seen:
    """How a text without names is seen."""
    its = sort_out(text)
    return Seen(its.asked.kind, its.asked.also, its.state, same_question(text, its.asked.kind, facts_of(its.reading)))


def same_question(text: str, kind: QuestionKind, facts: tuple[str, ...]) -> Key:
    """What two texts that ask the same have in common: kind, facts, numbers, and their words in any order.

    Slips of vowels, doubled letters and order within a word, and words of courtesy, make no other question; a number
    does. It rests on the text alone: whatever else is kept, and in whatever order it came, a text is found again.
    """
    words = {_bare(word) for word in _SIGNS.findall(text.lower()) if word not in _UNSAID}
    return (kind, *facts, "", *sorted(words))


def _bare(word: str) -> str:
    """A long word by its first letter and its consonants in their alphabet's order, no plural; a number as it is."""
    single = word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
    if not word[0].isalpha() or len(single) < 5:
        return single
    return single[0] + "".join(sorted(_VOWELS.sub("", _TWICE.sub(r"\1", single[1:]))))
