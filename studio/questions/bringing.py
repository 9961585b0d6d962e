"""Comments brought into an episode: scrubbed, read, counted into those that ask the same, sorted."""

import datetime as dt
from collections.abc import Iterable, Iterator

import msgspec

from studio.model.episode import Episode
from studio.model.question import MOST_QUESTIONS, Question, QuestionState
from studio.questions.kind_words import QuestionKind
from studio.questions.scrub import scrub
from studio.questions.similar import duplicates, facts_of
from studio.questions.sorting import Sorted, State, order, sort_out


class TooManyQuestions(ValueError):
    """The episode would hold more questions than it may; the message says how many."""


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """A question of the episode with how it is sorted."""

    question: Question
    kind: QuestionKind
    also: tuple[QuestionKind, ...]
    state: State


class Brought(msgspec.Struct, frozen=True, kw_only=True):
    """The episode with its new questions, the counts, and all its questions sorted."""

    episode: Episode
    read: int
    added: int
    counted: int
    set_aside: int
    removed: tuple[tuple[str, int], ...]
    rows: tuple[Row, ...]


def bring_in(episode: Episode, comments: Iterable[tuple[str, dt.date | None]]) -> Brought:
    """The episode with each comment as a question; what asks the same is counted into the first that does.

    What asks nothing that can be computed is kept too, set aside. Raises TooManyQuestions.
    """
    removed: dict[str, int] = {}
    fresh: list[tuple[str, dt.date | None]] = []
    for text, on in comments:
        clean = scrub(text)
        for kind, count in clean.removed:
            removed[kind] = removed.get(kind, 0) + count
        if clean.text:
            fresh.append((clean.text, on))
    texts = [question.text for question in episode.questions] + [text for text, _ in fresh]
    known: dict[str, Sorted] = {}
    for text in texts:
        if text not in known:
            known[text] = sort_out(text)
    same = duplicates(texts, [(known[text].asked.kind, *facts_of(known[text].reading)) for text in texts])
    questions = _merged(episode, fresh, same, known)
    new = questions[len(episode.questions) :]
    whole = msgspec.structs.replace(episode, questions=tuple(questions))
    return Brought(
        episode=whole,
        read=len(fresh),
        added=sum(it.state == "open" for it in new),
        counted=len(fresh) - len(new),
        set_aside=sum(it.state == "set_aside" for it in new),
        removed=tuple(removed.items()),
        rows=rows_of(whole, known),
    )


def rows_of(episode: Episode, known: dict[str, Sorted] | None = None) -> tuple[Row, ...]:
    """All questions of the episode sorted: urgent for safety first; what asks nothing last."""
    rows = []
    for question in episode.questions:
        its = (known or {}).get(question.text) or sort_out(question.text)
        rows.append(Row(question=question, kind=its.asked.kind, also=its.asked.also, state=its.state))
    return tuple(sorted(rows, key=lambda row: order(row.state, row.question.asked, row.kind)))


def _merged(
    episode: Episode, fresh: list[tuple[str, dt.date | None]], same: tuple[int, ...], known: dict[str, Sorted]
) -> list[Question]:
    """The old questions with their counts, then the new ones."""
    before = len(episode.questions)
    asked = [question.asked for question in episode.questions] + [0] * len(fresh)
    for index in range(before, before + len(fresh)):
        first = _first(same, index)
        asked[first] = min(asked[first] + 1, 1_000_000)
    questions = [
        msgspec.structs.replace(question, asked=asked[i]) if asked[i] != question.asked else question
        for i, question in enumerate(episode.questions)
    ]
    ids = _free_ids({question.id for question in episode.questions})
    for number, (text, on) in enumerate(fresh):
        index = before + number
        if _first(same, index) == index:
            state: QuestionState = "set_aside" if known[text].state == "none" else "open"
            questions.append(Question(id=next(ids), text=text, on=on, state=state, asked=asked[index]))
    if len(questions) > MOST_QUESTIONS:
        raise TooManyQuestions(
            f"{len(questions):,} questions would be too many; expected at most {MOST_QUESTIONS:,}; nothing was changed"
        )
    return questions


def _first(same: tuple[int, ...], index: int) -> int:
    while same[index] != index:
        index = same[index]
    return index


def _free_ids(taken: set[str]) -> Iterator[str]:
    number = 0
    while True:
        number += 1
        if (name := f"q{number}") not in taken:
            yield name
