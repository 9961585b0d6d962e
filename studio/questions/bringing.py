"""Comments brought into an episode: scrubbed, read, counted into those that ask the same, sorted."""

import datetime as dt
from collections.abc import Callable, Generator, Iterable, Iterator, Mapping, Sequence
from typing import Protocol, TypeVar

import msgspec

from studio.model.episode import Episode
from studio.model.question import MOST_QUESTIONS, Question, QuestionState
from studio.questions.kind_words import QuestionKind
from studio.questions.on_cores import one_by_one
from studio.questions.seen import Cleaned, Key, Seen, cleaned, seen
from studio.questions.sorting import State, order

_MOST_ASKED = 1_000_000
_EACH = 25
Comment = tuple[str, dt.date | None]
Found = TypeVar("Found")


class Looking(Protocol):
    """How many texts are looked at: one by one, or on several cores."""

    def __call__(self, look: Callable[[str], Found], texts: Sequence[str]) -> Iterator[list[Found]]:
        """What ``look`` finds in each text, lot by lot, in order."""


class TooManyQuestions(ValueError):
    """The episode would hold more questions than it may; the message says how many."""


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """A question of the episode with how it is sorted."""

    question: Question
    kind: QuestionKind
    also: tuple[QuestionKind, ...]
    state: State


class New(msgspec.Struct, frozen=True, kw_only=True):
    """A comment that nobody asked before: its words without names, its day, how often it stood in what was brought."""

    text: str
    on: dt.date | None
    state: QuestionState
    asked: int = 1


class Taken(msgspec.Struct, frozen=True, kw_only=True):
    """What came of comments: new questions, how often each known one (by id) was asked again, what was taken out.

    ``read`` counts those with words; ``seen`` holds how each text is seen, also of questions that were there before.
    """

    new: tuple[New, ...]
    again: Mapping[str, int]
    read: int
    removed: tuple[tuple[str, int], ...]
    seen: Mapping[str, Seen]

    @property
    def counted(self) -> int:
        """How many were counted into others."""
        return self.read - len(self.new)

    @property
    def set_aside(self) -> int:
        """How many new ones ask nothing that can be computed."""
        return sum(its.state == "set_aside" for its in self.new)


class Step(msgspec.Struct, frozen=True):
    """How far taking in is."""

    done: int
    total: int
    what: str


class Brought(msgspec.Struct, frozen=True, kw_only=True):
    """The episode with its new questions, the counts, and all its questions sorted."""

    episode: Episode
    read: int
    added: int
    counted: int
    set_aside: int
    removed: tuple[tuple[str, int], ...]
    rows: tuple[Row, ...]


def bring_in(episode: Episode, comments: Iterable[Comment], looking: Looking = one_by_one) -> Brought:
    """The episode with each comment as a question; what asks the same is counted into the first that does.

    What asks nothing that can be computed is kept too, set aside. Raises TooManyQuestions.
    """
    steps = take_in(list(comments), episode.questions, {}, looking)
    while True:
        try:
            next(steps)
        except StopIteration as end:
            taken: Taken = end.value
            break
    whole = with_taken(episode, taken)
    return Brought(
        episode=whole,
        read=taken.read,
        added=len(taken.new) - taken.set_aside,
        counted=taken.counted,
        set_aside=taken.set_aside,
        removed=taken.removed,
        rows=rows_of(whole, taken.seen),
    )


def take_in(
    comments: Sequence[Comment], questions: Sequence[Question], known: Mapping[str, Key], looking: Looking = one_by_one
) -> Generator[Step, None, Taken]:
    """What comes of ``comments`` besides ``questions``, step by step; ``known`` are keys of questions' texts.

    Two ask the same where their keys are equal: so the same table again, in whatever order, adds nothing.
    """
    clean: dict[str, Cleaned] = {}
    distinct = list(dict.fromkeys(text for text, _ in comments))
    for lot in looking(cleaned, distinct):
        for its in lot:
            clean[distinct[len(clean)]] = its
        if not lot or len(clean) % _EACH < len(lot):
            yield Step(len(clean), len(distinct), "comments looked at")
    looked = {its.text: its.seen for its in clean.values() if its.seen is not None}
    unknown = [
        text for text in dict.fromkeys(its.text for its in questions) if text not in known and text not in looked
    ]
    there: list[Seen] = []
    for found in looking(seen, unknown):
        there += found
        if not found or len(there) % _EACH < len(found):
            yield Step(len(there), len(unknown), "questions looked through")
    looked.update(zip(unknown, there, strict=True))
    first: dict[Key, str | int] = {}
    for question in questions:
        key = known[question.text] if question.text in known else looked[question.text].key
        first.setdefault(key, question.id)
    return _counted(comments, clean, first, looked)


def _counted(
    comments: Sequence[Comment], clean: Mapping[str, Cleaned], first: dict[Key, str | int], looked: dict[str, Seen]
) -> Taken:
    """The comments counted into the first that asks the same: an id of a question, or a place among the new ones."""
    removed: dict[str, int] = {}
    again: dict[str, int] = {}
    new: list[tuple[str, dt.date | None]] = []
    asked: list[int] = []
    read = 0
    for text, on in comments:
        its = clean[text]
        for kind, count in its.removed:
            removed[kind] = removed.get(kind, 0) + count
        if its.seen is None:
            continue
        read += 1
        at = first.setdefault(its.seen.key, len(new))
        if isinstance(at, str):
            again[at] = again.get(at, 0) + 1
        elif at == len(new):
            new.append((its.text, on))
            asked.append(1)
        else:
            asked[at] += 1
    return Taken(
        new=tuple(
            New(text=text, on=on, state="set_aside" if looked[text].state == "none" else "open", asked=times)
            for (text, on), times in zip(new, asked, strict=True)
        ),
        again=again,
        read=read,
        removed=tuple(removed.items()),
        seen=looked,
    )


def with_taken(episode: Episode, taken: Taken) -> Episode:
    """The old questions with their counts, then the new ones. Raises TooManyQuestions."""
    again = taken.again
    questions = [
        msgspec.structs.replace(its, asked=min(its.asked + again[its.id], _MOST_ASKED)) if its.id in again else its
        for its in episode.questions
    ]
    ids = _free_ids({its.id for its in questions})
    questions += [
        Question(id=next(ids), text=its.text, on=its.on, state=its.state, asked=min(its.asked, _MOST_ASKED))
        for its in taken.new
    ]
    if len(questions) > MOST_QUESTIONS:
        raise TooManyQuestions(
            f"{len(questions):,} questions would be too many for one episode; expected at most {MOST_QUESTIONS:,}, "
            "such as those of one month; nothing was changed"
        )
    return msgspec.structs.replace(episode, questions=tuple(questions))


def rows_of(episode: Episode, looked: Mapping[str, Seen] | None = None) -> tuple[Row, ...]:
    """All questions of the episode sorted: urgent for safety first; what asks nothing last."""
    rows = []
    for question in episode.questions:
        its = (looked or {}).get(question.text) or seen(question.text)
        rows.append(Row(question=question, kind=its.kind, also=its.also, state=its.state))
    return tuple(sorted(rows, key=lambda row: order(row.state, row.question.asked, row.kind)))


def _free_ids(taken: set[str]) -> Iterator[str]:
    number = 0
    while True:
        number += 1
        if (name := f"q{number}") not in taken:
            yield name
