"""Comments brought in off the window's thread: scrubbed, read, counted into those that ask the same."""

import time
from collections.abc import Callable, Generator, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from msgspec.structs import replace

from studio.model.episode import Episode
from studio.model.question import Question
from studio.questions.bringing import Comment, Found, Taken, take_in, with_taken
from studio.questions.on_cores import on_cores
from studio.questions.scrub import scrub
from studio.questions.seen import Key, same_question
from studio.storage.comments_csv import DOUBTS, InDoubt
from studio.window.questions_rows import Key as ToldKey
from studio.window.questions_rows import Told
from studio.window.tasks import Job, Progress

_REST_S = 0.0005
_MOST_IN_DOUBT = 1_000


@dataclass(frozen=True)
class Doubt:
    """A row read in doubt as it is shown: its line in the file, why, its words without names, whether it was taken."""

    line: int
    why: str
    text: str
    is_taken: bool


@dataclass(frozen=True)
class Brought:
    """What came of comments, and what is said of the table they stood in; of rows in doubt the first are listed."""

    taken: Taken
    remarks: tuple[str, ...] = ()
    in_doubt: tuple[Doubt, ...] = ()
    doubts_told: tuple[str, ...] = ()
    single: bool = False

    def told(self) -> str:
        """One line: what was brought in, what was taken out of it."""
        its = self.taken
        if self.single:
            parts = ["Asked before: counted there" if its.again else "Comment taken in" if its.new else "No words"]
        else:
            parts = [f"{its.read:,} comments read: {len(its.new) - its.set_aside:,} new questions"]
            parts += [f"{its.counted:,} counted into others"] if its.counted else []
            parts += [f"{its.set_aside:,} set aside as no question"] if its.set_aside else []
        out = ", ".join(f"{count:,} {_noun(kind, count)}" for kind, count in its.removed)
        parts += [f"left out: {out}"] if out else []
        return "; ".join([*parts, *self.remarks]) + "."


def _noun(kind: str, count: int) -> str:
    return kind if count == 1 or kind.endswith("0") or kind[:1].isupper() else f"{kind}s"


def file_job(path: Path, episode: Episode, known: Mapping[ToldKey, Told]) -> Job:
    """Bring in a table of comments; returns Brought. Raises CsvError or StorageError for a file that is none, and for
    more than the episode's file can hold, before the work on them begins.
    """
    from studio.storage.comments_csv import MOST_BYTES, read_comments
    from studio.storage.episode_file import read_bytes
    from studio.storage.room import check_room, shortened, shortened_remark

    yield Progress(0, 0, "reading the table")
    table = read_comments(read_bytes(path, MOST_BYTES))
    texts = [its.text for its in table.comments]
    check_room(episode, texts, lambda text: scrub(shortened(text)).text)
    comments = [(shortened(its.text), its.on) for its in table.comments]
    cut = shortened_remark(texts)
    remarks = (*table.remarks, *([cut] if cut else []))
    if table.dropped:
        remarks += (f"columns with authors were not read: {', '.join(table.dropped[:4])}",)
    yield Progress(0, len(comments), "comments looked at")
    taken = yield from _taken(comments, episode.questions, known)
    in_doubt = tuple(_shown(row) for row in table.in_doubt[:_MOST_IN_DOUBT])
    return Brought(taken, remarks, in_doubt, table.doubts_told)


def _shown(row: InDoubt) -> Doubt:
    return Doubt(row.line, DOUBTS[row.why][0], scrub(row.text[:2_000]).text, row.is_taken)


def paste_job(text: str, questions: Sequence[Question], known: Mapping[ToldKey, Told]) -> Job:
    """Bring in one comment; returns Brought. It stays open even where it asks nothing."""
    taken = yield from _taken([(text, None)], questions, known)
    new = tuple(replace(its, state="open") for its in taken.new)
    return Brought(replace(taken, new=new), single=True)


def _taken(
    comments: Sequence[Comment], questions: Sequence[Question], known: Mapping[ToldKey, Told]
) -> Generator[Progress, None, Taken]:
    steps = take_in(comments, questions, _keys(questions, known), _restfully)
    while True:
        try:
            step = next(steps)
        except StopIteration as end:
            return end.value  # type: ignore[no-any-return]
        try:
            yield Progress(step.done, step.total, step.what)
        except GeneratorExit:
            steps.close()
            raise


def _restfully(look: Callable[[str], Found], texts: Sequence[str]) -> Iterator[list[Found]]:
    """Between texts the window's thread has its turn."""
    for lot in on_cores(look, texts):
        yield lot
        time.sleep(_REST_S)


def _keys(questions: Sequence[Question], known: Mapping[ToldKey, Told]) -> dict[str, Key]:
    """The keys of questions that were read as they were written; a correction of facts makes no other text."""
    keys = {}
    for question in questions:
        told = known.get((question.text, ()))
        if told is not None:
            keys[question.text] = same_question(question.text, told.kind, told.facts)
    return keys


def with_brought(episode: Episode, brought: Brought) -> tuple[Episode, int]:
    """The episode with what was brought, and the place of the question to look at first.

    Raises ValueError where that were too many.
    """
    first = len(episode.questions)
    again = brought.taken.again
    at = next((place for place, its in enumerate(episode.questions) if its.id in again), -1)
    return with_taken(episode, brought.taken), first if brought.taken.new else at
