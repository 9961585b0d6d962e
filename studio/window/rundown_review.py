"""The review of a script: its number check and its timing, segment by segment, so that typing in one checks only it."""

from collections.abc import Generator, Sequence
from dataclasses import dataclass, field
from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import QObject, QTimer, Signal

from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import Dismissal, PaidTie, Rundown, Segment
from studio.reference.tables import Tables
from studio.script.check import Hole, ScriptMark, ScriptStatement, check_script
from studio.script.duties import Duty, duties_of
from studio.script.timing import Timing, time_script
from studio.window.place import Workshop

Remark = ScriptMark | ScriptStatement | Hole | Duty
_SOON_MS, _LATER_MS = 200, 1500
_CHUNK = 12_000  # characters that are checked before the job may be stopped


@dataclass(frozen=True)
class Review:
    """What came of a review of ``episode``: its remarks in the script's order, and its times."""

    episode: Episode
    remarks: tuple[Remark, ...]
    timing: Timing

    @property
    def marks(self) -> tuple[ScriptMark, ...]:
        """The numbers."""
        return tuple(its for its in self.remarks if isinstance(its, ScriptMark))

    def count(self, state: str) -> int:
        """The numbers in this state that are not set aside."""
        return sum(mark.state == state and not mark.dismissed for mark in self.marks)


@dataclass(frozen=True)
class _Part:
    """All that the check of one segment depends on besides the findings."""

    segment: Segment
    ties: tuple[PaidTie, ...]
    dismissed: tuple[Dismissal, ...]

    @property
    def rundown(self) -> Rundown:
        return Rundown(segments=(self.segment,), paid_ties=self.ties, dismissed=self.dismissed)

    @property
    def length(self) -> int:
        return sum(len(point.text) for point in self.segment.points) + len(self.segment.title)


@dataclass
class Kept:
    """What earlier reviews found, as long as everything but the script is the same. One job at a time uses it."""

    ground: Any = None
    parts: dict[_Part, tuple[Remark, ...]] = field(default_factory=dict)


def review_job(
    episode: Episode, findings: Findings, tables: Tables, kept: Kept
) -> Generator[float, None, Review]:
    """Check what is not known yet, then put all together. Returns a Review."""
    rundown = episode.rundown
    yield 0.0
    ground = (findings, replace(episode, rundown=Rundown()))
    if kept.ground != ground:
        kept.ground, kept.parts = ground, {}
    parts = [_part(rundown, segment) for segment in rundown.segments]
    todo = [part for part in dict.fromkeys(parts) if part not in kept.parts]
    found: dict[_Part, tuple[Remark, ...]] = {part: kept.parts[part] for part in parts if part in kept.parts}
    for number, chunk in enumerate(_chunks(todo)):
        found |= _checked(chunk, episode, findings, tables)
        yield number / (len(todo) + 1)
    kept.parts = found
    timing = time_script(rundown, findings, episode.units)
    yield 0.99
    remarks = [*(remark for part in parts for remark in found[part]), *_tie_duties(rundown, tables)]
    return Review(episode, tuple(remarks), timing)


def _part(rundown: Rundown, segment: Segment) -> _Part:
    ties = tuple(tie for tie in rundown.paid_ties if tie.segment == segment.id)
    return _Part(segment, ties, tuple(its for its in rundown.dismissed if its.segment == segment.id))


def _chunks(parts: Sequence[_Part]) -> Generator[list[_Part], None, None]:
    chunk: list[_Part] = []
    for part in parts:
        chunk.append(part)
        if sum(its.length for its in chunk) > _CHUNK:
            yield chunk
            chunk = []
    if chunk:
        yield chunk


def _checked(
    chunk: Sequence[_Part], episode: Episode, findings: Findings, tables: Tables
) -> dict[_Part, tuple[Remark, ...]]:
    """The remarks on some segments at once: what they are judged on is gathered once for all of them."""
    together = Rundown(
        segments=tuple(part.segment for part in chunk), paid_ties=tuple(tie for part in chunk for tie in part.ties),
        dismissed=tuple(its for part in chunk for its in part.dismissed),
    )  # fmt: skip
    check = check_script(replace(episode, rundown=together), findings, tables)
    return {part: _in_order(part, (*check.marks, *check.statements, *check.holes), tables) for part in chunk}


def _in_order(part: _Part, remarks: Sequence[Any], tables: Tables) -> tuple[Remark, ...]:
    mine = [its for its in remarks if its.segment == part.segment.id]
    mine.sort(key=lambda its: (its.point if its.point >= -1 else 1_000_000, getattr(its, "start", 0)))
    return (*mine, *duties_of(replace(part.rundown, paid_ties=()), tables))


def _tie_duties(rundown: Rundown, tables: Tables) -> tuple[Duty, ...]:
    """What paid ties owe; the segments' texts have no part in it."""
    bare = tuple(Segment(id=segment.id, title="") for segment in rundown.segments)
    return duties_of(Rundown(segments=bare, paid_ties=rundown.paid_ties), tables)


class Reviewer(QObject):
    """Reviews the open episode off the window's thread, some time after each change. ``done`` gives a Review."""

    done = Signal(object)
    failed = Signal(str)

    def __init__(self, workshop: Workshop, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._jobs = workshop.document, workshop.jobs
        self._kept, self._job, self._stale = Kept(), 0, True
        self.review: Review | None = None
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._start)
        self._document.changed.connect(self._changed)

    @property
    def is_current(self) -> bool:
        """Whether the review is that of the episode as it is now."""
        return self.review is not None and self.review.episode is self._document.episode

    def wanted_soon(self, soon: bool) -> None:
        """Whether anybody looks at it: it comes at once then, and is not hurried else."""
        self._soon.setInterval(_SOON_MS if soon else _LATER_MS)
        if soon and not self.is_current and not self._job:
            self._start()

    def _changed(self) -> None:
        self._stale = True
        if self._document.episode.rundown.segments or self.review is not None:
            self._soon.start()

    def _start(self) -> None:
        if self._job:
            return
        self._stale = False
        document = self._document
        episode, findings, tables, kept = document.episode, document.findings, document.tables, self._kept
        self._job = self._jobs.run(
            "Checking the script", lambda: review_job(episode, findings, tables, kept), on_done=self._done,
            on_error=self._failed, on_stopped=self._stopped, quiet=True,
        )  # fmt: skip

    def _done(self, review: Review) -> None:
        self._job, self.review = 0, review
        self.done.emit(review)
        if self._stale:
            self._soon.start()

    def _failed(self, error: BaseException) -> None:
        self._job = 0
        self.failed.emit(f"The script could not be checked ({type(error).__name__}: {error}).")

    def _stopped(self) -> None:
        self._job = 0
