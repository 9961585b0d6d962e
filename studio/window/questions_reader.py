"""Keeps what was read of the questions, and gets read what is new: all work goes off the window's thread."""

from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from studio.model.episode import Episode
from studio.model.question import Question
from studio.script.check_text import Mark
from studio.window.document import Document
from studio.window.questions_check import check_job
from studio.window.questions_open import Earlier, Opened, Opening, Read, earlier_of, folder_job, read_job
from studio.window.questions_rows import Key, Told, key_of
from studio.window.tasks import JobRunner, Progress

MANY = 200
"""Questions: from here on reading them is told of at the window's foot, with its Stop button."""
_SHOW_MS, _CHECK_MS = 400, 350


class QuestionsReader(QObject):
    """``read_more`` says that more is known, ``opened`` gives the question asked for, ``checked`` a reply's marks."""

    read_more = Signal()
    opened = Signal(object)
    checked = Signal(str, object)
    looked = Signal(str)

    def __init__(self, document: Document, jobs: JobRunner, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document, self._jobs = document, jobs
        self.known: dict[Key, Told] = {}
        self.elsewhere: tuple[Earlier, ...] = ()
        self._context: tuple[Any, ...] = ()
        self._reading: int | None = None
        self._opening: int | None = None
        self._wanted: Question | None = None
        self._stopped = False
        self._checking: int | None = None
        self._to_check: tuple[str, Opened] | None = None
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(_SHOW_MS)
        self._later.timeout.connect(self.read_more)
        self._check_later = QTimer(self)
        self._check_later.setSingleShot(True)
        self._check_later.setInterval(_CHECK_MS)
        self._check_later.timeout.connect(self._check)

    @property
    def is_reading(self) -> bool:
        """Whether comments are being read."""
        return self._reading is not None

    @property
    def is_at_rest(self) -> bool:
        """Whether nothing is being read, opened or checked, and nothing waits to be."""
        timers = self._later.isActive() or self._check_later.isActive()
        return not timers and self._reading is None and self._opening is None and self._checking is None

    def forget_what_changed(self) -> bool:
        """Forget answers that rest on what is another one now; whether there were any."""
        episode = self._document.episode
        now = (episode.on, episode.car, episode.specimens, episode.circumstances, episode.region, episode.units)
        before, self._context = self._context, now
        if not before or all(a is b or a == b for a, b in zip(before, now, strict=True)):
            return False
        if before[0] != now[0]:
            self.known.clear()
        else:
            self.known = {key: told for key, told in self.known.items() if not told.about}
        return True

    def read_all(self) -> None:
        """Get read what is not known yet."""
        if self._reading is not None or self._stopped:
            return
        episode = self._document.episode
        missing = [its for its in episode.questions if key_of(its) not in self.known]
        if missing:
            self._reading = self._jobs.run(
                "Reading comments", partial(read_job, missing, episode, self._document.tables), self._take,
                self._read_done, self._read_failed, self._read_stopped, quiet=len(missing) < MANY,
            )  # fmt: skip

    def resume(self) -> None:
        """Go on reading after a stop."""
        self._stopped = False
        self.read_all()

    def open(self, question: Question | None) -> None:
        """Read and answer this one whole; a later wish takes the place of an earlier one."""
        self._wanted = question
        if question is not None and self._opening is None:
            self._open()

    def check(self, reply: str, opened: Opened) -> None:
        """Check a reply soon; typing goes on."""
        self._to_check = (reply, opened)
        self._check_later.start()

    def look_through(self, folder: Path) -> None:
        """Look for answered questions in the episodes of a folder."""
        self._jobs.run(
            "Looking through episodes", partial(folder_job, folder, self._document.path, self._document.tables), None,
            self._looked, self._look_failed,
        )  # fmt: skip

    def _open(self) -> None:
        assert self._wanted is not None
        episode: Episode = self._document.episode
        earlier = (*earlier_of(episode.questions, self.known), *self.elsewhere)
        opening = Opening(self._wanted, episode, self._document.tables, earlier)
        self._wanted = None
        self._opening = self._jobs.run(
            "Answering", opening.job, None, self._opened, self._open_failed, quiet=True
        )

    def _opened(self, opened: Opened) -> None:
        self._opening = None
        if self._wanted is not None:
            self._open()
            return
        self.known[key_of(opened.question)] = opened.told
        self.opened.emit(opened)

    def _open_failed(self, error: BaseException) -> None:
        self._opening = None
        self.looked.emit(f"The comment could not be answered ({type(error).__name__}: {error}).")

    def _take(self, progress: Progress) -> None:
        if isinstance(progress, Read):
            self.known.update(progress.found)
            if not self._later.isActive():
                self._later.start()

    def _read_done(self, _result: object) -> None:
        self._reading = None
        self._later.stop()
        self.read_more.emit()
        self.read_all()  # what came while this was being read

    def _read_failed(self, error: BaseException) -> None:
        self._reading, self._stopped = None, True
        self.looked.emit(f"The comments could not be read ({type(error).__name__}: {error}).")

    def _read_stopped(self) -> None:
        self._reading, self._stopped = None, True
        self._later.stop()
        self.read_more.emit()
        self.looked.emit("Stopped; the comments not read yet are listed so, and are read when they are opened.")

    def _check(self) -> None:
        if self._to_check is None or self._checking is not None:
            return
        (reply, opened), self._to_check = self._to_check, None
        computed, tables = tuple(opened.wordings.values()), self._document.tables
        units = self._document.episode.units
        self._checking = self._jobs.run(
            "Checking the reply",
            partial(check_job, reply, computed, opened.question, opened.answer, tables, units),
            None, self._checked, self._check_failed, quiet=True,
        )  # fmt: skip

    def _checked(self, result: tuple[str, tuple[Mark, ...]]) -> None:
        self._checking = None
        self.checked.emit(*result)
        if self._to_check is not None:
            self._check()

    def _check_failed(self, error: BaseException) -> None:
        self._checking = None
        self.looked.emit(f"The reply's numbers could not be checked ({type(error).__name__}: {error}).")

    def _looked(self, result: tuple[tuple[Earlier, ...], tuple[str, ...]]) -> None:
        self.elsewhere, unread = result
        count = len(self.elsewhere)
        told = f"{count} answered question{'s' if count != 1 else ''} found"
        more = f"; not read: {', '.join(unread[:3])}{' and more' if len(unread) > 3 else ''}" if unread else ""
        self.looked.emit(f"{told}{more}.")

    def _look_failed(self, error: BaseException) -> None:
        self.looked.emit(f"The folder could not be looked through ({type(error).__name__}: {error}).")
