"""Comments brought in off the window's thread: scrubbed, read, counted into those that ask the same."""

import datetime as dt
import time
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from msgspec.structs import replace

from studio.model.episode import Episode
from studio.model.question import MOST_QUESTIONS, Question, QuestionState
from studio.questions.scrub import scrub
from studio.questions.similar import duplicates, facts_of
from studio.questions.sorting import sort_out
from studio.window.questions_rows import Key, Told, key_of
from studio.window.tasks import Job, Progress

_EACH = 25
_REST_S = 0.0005
_MOST_ASKED = 1_000_000
_WHAT = "comments taken in"
Comment = tuple[str, dt.date | None]
Facts = tuple[str, ...]


@dataclass(frozen=True)
class New:
    """A comment that nobody asked before: its words without names, its day, how often it stood in what was brought."""

    text: str
    on: dt.date | None
    state: QuestionState
    asked: int = 1


@dataclass(frozen=True)
class Brought:
    """What came of comments: new questions, how often each known one (by id) was asked again, what was taken out."""

    new: tuple[New, ...]
    again: Mapping[str, int]
    read: int
    removed: tuple[tuple[str, int], ...] = ()
    remarks: tuple[str, ...] = ()
    single: bool = False

    def told(self) -> str:
        """One line: what was brought in, what was taken out of it."""
        counted = sum(self.again.values()) + sum(its.asked - 1 for its in self.new)
        aside = sum(its.state == "set_aside" for its in self.new)
        if self.single:
            parts = ["Asked before: counted there" if self.again else "Comment taken in" if self.new else "No words"]
        else:
            parts = [f"{self.read:,} comments read: {len(self.new) - aside:,} new questions"]
            parts += [f"{counted:,} counted into others"] if counted else []
            parts += [f"{aside:,} set aside as no question"] if aside else []
        parts += [f"left out: {', '.join(f'{count:,} {_noun(kind, count)}' for kind, count in self.removed)}"] * bool(
            self.removed
        )
        return "; ".join([*parts, *self.remarks]) + "."


def _noun(kind: str, count: int) -> str:
    return kind if count == 1 or kind.endswith("0") or kind[:1].isupper() else f"{kind}s"


def file_job(path: Path, episode: Episode, known: Mapping[Key, Told]) -> Job:
    """Bring in a table of comments; returns Brought. Raises CsvError or StorageError for a file that is none, and for
    more than the episode's file can hold, before the work on them begins.
    """
    from studio.storage.comments_csv import MOST_BYTES, read_comments
    from studio.storage.episode_file import read_bytes
    from studio.storage.room import check_room, shortened, shortened_remark

    yield Progress(0, 0, "reading the table")
    table = read_comments(read_bytes(path, MOST_BYTES))
    texts = [its.text for its in table.comments]
    check_room(episode, texts)
    comments = [(shortened(its.text), its.on) for its in table.comments]
    cut = shortened_remark(texts)
    remarks = (*table.remarks, *([cut] if cut else []))
    if table.dropped:
        remarks += (f"columns with authors were not read: {', '.join(table.dropped[:4])}",)
    yield Progress(0, len(comments), _WHAT)
    brought = yield from _bring(comments, episode.questions, known)
    return replace_remarks(brought, remarks)


def replace_remarks(brought: Brought, remarks: tuple[str, ...]) -> Brought:
    """The same with what was said of the table."""
    return Brought(brought.new, brought.again, brought.read, brought.removed, remarks)


def paste_job(text: str, questions: Sequence[Question], known: Mapping[Key, Told]) -> Job:
    """Bring in one comment; returns Brought. It stays open even where it asks nothing."""
    brought = yield from _bring([(text, None)], questions, known)
    new = tuple(New(its.text, its.on, "open") for its in brought.new)
    return Brought(new, brought.again, brought.read, brought.removed, single=True)


def _bring(comments: Sequence[Comment], questions: Sequence[Question], known: Mapping[Key, Told]) -> Job:
    removed: dict[str, int] = {}
    fresh: list[Comment] = []
    facts: list[Facts] = []
    by_text: dict[str, Facts] = {}
    for number, (text, on) in enumerate(comments):
        clean = scrub(text)
        for kind, count in clean.removed:
            removed[kind] = removed.get(kind, 0) + count
        if clean.text:
            fresh.append((clean.text, on))
            facts.append(_facts(clean.text, by_text))
        if number % _EACH == _EACH - 1:
            yield Progress(number + 1, len(comments), _WHAT)
        time.sleep(_REST_S)
    before = yield from _known(questions, known, by_text)
    texts = [question.text for question in questions] + [text for text, _ in fresh]
    first = _firsts(duplicates(texts, [*before, *facts]))
    return _counted(fresh, facts, first, questions, tuple(removed.items()))


def _facts(text: str, by_text: dict[str, Facts]) -> Facts:
    """The kind, and the facts on which the answer depends."""
    if text not in by_text:
        its = sort_out(text)
        by_text[text] = (its.asked.kind, *facts_of(its.reading))
    return by_text[text]


def _known(questions: Sequence[Question], known: Mapping[Key, Told], by_text: dict[str, Facts]) -> Job:
    found: list[Facts] = []
    for number, question in enumerate(questions):
        told = known.get(key_of(question))
        if told is not None and not question.corrected:
            found.append((told.kind, *told.facts))
        else:
            found.append(_facts(question.text, by_text))
            if number % _EACH == 0:
                yield Progress(number, len(questions), "questions looked through")
    return found


def _firsts(same: Sequence[int]) -> list[int]:
    """For each text the first one that asks the same."""
    firsts: list[int] = []
    for index, other in enumerate(same):
        firsts.append(index if other == index else firsts[other])
    return firsts


def _counted(
    fresh: Sequence[Comment], facts: Sequence[Facts], first: Sequence[int], questions: Sequence[Question],
    removed: tuple[tuple[str, int], ...],
) -> Brought:  # fmt: skip
    again: dict[str, int] = {}
    new: dict[int, New] = {}
    before = len(questions)
    for number, (text, on) in enumerate(fresh):
        at = first[before + number]
        if at < before:
            again[questions[at].id] = again.get(questions[at].id, 0) + 1
        elif at in new:
            its = new[at]
            new[at] = New(its.text, its.on, its.state, its.asked + 1)
        else:
            new[at] = New(text, on, "set_aside" if facts[number][0] == "none" else "open")
    return Brought(tuple(new.values()), again, len(fresh), removed)


def with_brought(episode: Episode, brought: Brought) -> tuple[Episode, int]:
    """The episode with what was brought, and the place of the question to look at first.

    Raises ValueError where that were too many.
    """
    asked = dict(brought.again)
    questions = [
        replace(its, asked=min(_MOST_ASKED, its.asked + asked[its.id])) if its.id in asked else its
        for its in episode.questions
    ]
    at = next((place for place, its in enumerate(questions) if its.id in asked), -1) if not brought.new else -1
    ids = _free_ids({its.id for its in questions})
    first = len(questions)
    questions += [
        Question(id=next(ids), text=its.text, on=its.on, state=its.state, asked=min(_MOST_ASKED, its.asked))
        for its in brought.new
    ]
    if len(questions) > MOST_QUESTIONS:
        raise ValueError(
            f"{len(questions):,} questions would be too many for one episode; expected at most {MOST_QUESTIONS:,}, "
            "such as those of one month"
        )
    return replace(episode, questions=tuple(questions)), at if at >= 0 else first if brought.new else -1


def _free_ids(taken: Iterable[str]) -> Iterator[str]:
    known, number = set(taken), 0
    while True:
        number += 1
        if (name := f"q{number}") not in known:
            yield name
