"""Reading and answering comments off the window's thread: all of them for the list, one of them whole."""

import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import msgspec

from studio.model.episode import Episode
from studio.model.question import CorrectedFact, Question
from studio.questions.answer_values import Answer, Length, Tone, Viewer
from studio.questions.answering import answer_reading, fact_names, viewer_of, with_corrections
from studio.questions.facts import Fact, Reading
from studio.questions.reading import read
from studio.questions.similar import Kept, Near, facts_of, nearest
from studio.window.questions_rows import Key, Told, key_of
from studio.window.tasks import Job, Progress

BATCH = 25
_REST_S = 0.0005  # lets the window's thread in: a comment is a millisecond of bare Python
LENGTHS: tuple[Length, ...] = ("full", "short")
TONES: tuple[Tone, ...] = ("plain", "warm")
_MOST_NEAR = 3
_MOST_FILES = 500


@dataclass(frozen=True)
class Earlier:
    """A question that was answered before, in this episode or in another of the folder's."""

    kept: Kept
    reply: str


@dataclass(frozen=True)
class Opened:
    """One question whole: facts as read, by name, before corrections; its answer; similar ones answered before.

    ``wordings`` holds the computed reply of each length and tone.
    """

    question: Question
    facts: tuple[tuple[str, Fact], ...]
    answer: Answer
    wordings: Mapping[tuple[Length, Tone], str]
    told: Told
    near: tuple[tuple[Near, str], ...] = ()
    problem: str = ""


def viewer(question: Question, episode: Episode, tables: Any) -> tuple[Reading, Viewer, str]:
    """The comment as read, the viewer with what was set right, and why a correction was not taken."""
    reading = read(question.text)
    try:
        right, problem = with_corrections(reading, question.corrected), ""
    except ValueError as error:
        right, problem = reading, f"What was set right could not be read: {error}"
    return reading, viewer_of(right, tables=tables, on=episode.on, episode=episode), problem


def answered(its: Viewer, length: Length = "short", tone: Tone = "plain") -> Answer:
    """The answer to a comment already read; raises ValueError for a fact set right to what no decision can take."""
    return answer_reading(its, length, tone)


def told_of(its: Answer, by: Viewer) -> Told:
    """What the list needs to know."""
    also = tuple(other.kind for other in its.also)
    return Told(its.kind, also, its.state, its.verdict, facts_of(by.reading), by.episode is not None)


def read_job(questions: Sequence[Question], episode: Episode, tables: Any) -> Job:
    """Read and answer these; yields lists of (key, Told), and how far it is."""
    batch: list[tuple[Key, Told]] = []
    for number, question in enumerate(questions, start=1):
        batch.append((key_of(question), _told(question, episode, tables)))
        time.sleep(_REST_S)
        if len(batch) >= BATCH or number == len(questions):
            yield Read(number, len(questions), "comments read", tuple(batch))
            batch = []


@dataclass(frozen=True)
class Read(Progress):
    """How far the reading is, with what was read since the last time."""

    found: tuple[tuple[Key, Told], ...] = ()


def _told(question: Question, episode: Episode, tables: Any) -> Told:
    _, by, _ = viewer(question, episode, tables)
    try:
        return told_of(answered(by), by)
    except (ValueError, msgspec.ValidationError):  # a fact set right to what cannot be
        return Told("none", (), "needs_fact")


@dataclass(frozen=True)
class Opening:
    """What one question is opened with."""

    question: Question
    episode: Episode
    tables: Any
    earlier: tuple[Earlier, ...] = ()

    def job(self) -> Job:
        """Read, answer and look for similar ones; returns Opened."""
        reading, by, problem = viewer(self.question, self.episode, self.tables)
        yield None
        try:
            its = answered(by, "full")
        except (ValueError, msgspec.ValidationError) as error:
            _, by, _ = viewer(msgspec.structs.replace(self.question, corrected=()), self.episode, self.tables)
            its, problem = answered(by, "full"), f"What was set right cannot be: {error}"
        yield None
        told = told_of(its, by)
        wordings = {(length, tone): answered(by, length, tone).reply for length in LENGTHS for tone in TONES}
        yield None
        near = self._near(told, self.earlier)
        return Opened(self.question, fact_names(reading), its, wordings, told, near, problem)

    def _near(self, told: Told, earlier: Iterable[Earlier]) -> tuple[tuple[Near, str], ...]:
        if told.kind == "none":
            return ()
        replies = {(its.kept.where, its.kept.id): its for its in earlier}
        kept = [its.kept for its in replies.values() if its.kept.id != self.question.id or its.kept.where]
        found = nearest(self.question.text, told.kind, told.facts, kept, _MOST_NEAR)
        return tuple((near, replies[near.kept.where, near.kept.id].reply) for near in found)


def earlier_of(questions: Iterable[Question], known: Any, where: str = "") -> tuple[Earlier, ...]:
    """The questions with a reply, as they are looked for; those not read yet are passed over."""
    found = []
    for question in questions:
        told = known.get(key_of(question))
        if told is not None and question.reply and question.state != "set_aside":
            kept = Kept(
                id=question.id, text=question.text, kind=told.kind, facts=told.facts, asked=question.asked,
                answered=question.state == "answered", where=where,
            )  # fmt: skip
            found.append(Earlier(kept, question.reply))
    return tuple(found)


def folder_job(folder: Path, but: Path | None, tables: Any) -> Job:
    """The answered questions of the episodes in a folder; returns (tuple of Earlier, names of files not read)."""
    from studio.storage.episode_file import decode, read_bytes
    from studio.storage.errors import StorageError

    files = sorted(path for path in folder.glob("*.json") if path.is_file() and path != but)[:_MOST_FILES]
    found, unread = list[Earlier](), list[str]()
    for number, path in enumerate(files):
        yield Progress(number, len(files), "episodes looked through")
        try:
            episode = decode(read_bytes(path))
        except StorageError:
            unread.append(path.name)
            continue
        replied = [question for question in episode.questions if question.reply]
        known: dict[Key, Told] = {}
        for question in replied:
            known[key_of(question)] = _told(question, episode, tables)
            yield Progress(number, len(files), "episodes looked through")
        found += earlier_of(replied, known, path.name)
    return tuple(found), tuple(unread)


def corrected_value(question: Question, name: str) -> str | None:
    """The value set right for a fact, empty where it was dropped; None where it stands as read."""
    return next((its.value for its in question.corrected if its.field == name), None)


def with_correction(question: Question, name: str, value: str | None) -> Question:
    """The question with a fact set right; None takes the correction back."""
    others = tuple(its for its in question.corrected if its.field != name)
    fresh = () if value is None else (CorrectedFact(field=name, value=value),)
    return msgspec.structs.replace(question, corrected=(*others, *fresh))
