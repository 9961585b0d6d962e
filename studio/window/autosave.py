"""Rescue copies while the window is open: at most 30 s of work can be lost, and the user's file is never written.

A copy belongs to who holds the file. A window that only reads a file keeps what is changed in it as work without a
name, so that it never touches the copy of the window that holds it.
"""

import contextlib
import threading
from collections.abc import Callable, Generator
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from studio.model.episode import Episode
from studio.storage.errors import StorageError
from studio.storage.lock import EpisodeLock
from studio.window.document import Document
from studio.window.tasks import JobRunner

MOST_SECONDS = 30

Write = Callable[[Path | None, Episode], Path]
Discard = Callable[[Path | None], None]


def _write(path: Path | None, episode: Episode) -> Path:
    from studio.storage.autosave import write_rescue  # not at start

    return write_rescue(path, episode)


def _discard(path: Path | None) -> None:
    from studio.storage.autosave import discard_rescue

    discard_rescue(path)


class Autosave(QObject):
    """Writes a rescue copy off the window's thread when the episode has changed since the last one.

    Its jobs run in a pool of their own: however long the others take, a copy is written in time.
    """

    failed = Signal(str)
    """No copy could be written; the reason, told once until one can."""

    def __init__(
        self, document: Document, seconds: int, write: Write | None = None,
        discard: Discard | None = None, parent: QObject | None = None,
    ) -> None:  # fmt: skip
        super().__init__(parent)
        self._document, self._jobs = document, JobRunner(self)
        self._write, self._discard = write or _write, discard or _discard
        self._kept: Episode | None = None
        self._unnamed: EpisodeLock | None = None
        self._lock = threading.Lock()
        self._turn = 0
        self.problem = ""
        self._timer = QTimer(self)
        self._timer.setInterval(min(seconds, MOST_SECONDS) * 1000)
        self._timer.timeout.connect(self.keep)
        self._timer.start()

    @property
    def interval_ms(self) -> int:
        """How often it looks."""
        return self._timer.interval()

    @property
    def place(self) -> Path | None:
        """The file whose rescue copy is this window's own; None for work without a name, or on a file only read."""
        return None if self._document.read_only else self._document.path

    @property
    def is_writing(self) -> bool:
        """Whether a copy is on its way to the disk."""
        return len(self._jobs) > 0

    def keep(self) -> None:
        """Write a rescue copy if there is unsaved work that the last copy does not hold."""
        document = self._document
        if document.is_clean or document.episode is self._kept:
            return
        self._kept = document.episode
        self._jobs.run(
            "Rescue copy", self._job_for(self.place, document.episode, self._turn), on_error=self._failed,
            on_done=self._kept_well, quiet=True,
        )  # fmt: skip

    def keep_now(self) -> Path | None:
        """Write a rescue copy in this very moment, as after a fault; None where nothing is unsaved."""
        if self._document.is_clean:
            return None
        with self._lock:
            return self._write_held(self.place, self._document.episode)

    def drop(self, path: Path | None) -> None:
        """The work is saved or given up: remove the copy of ``path`` (`place`, or a file that this window holds now),
        and let none that is being written come back.
        """
        with self._lock:
            self._turn += 1
            self._kept = None
            self._discard(path)

    def leave(self) -> None:
        """Another episode comes in this one's place: let no copy of it that is still on its way be written."""
        with self._lock:
            self._turn += 1
            self._kept = None

    def stop(self) -> None:
        """Look no more; a copy that is being written is written to its end."""
        self._timer.stop()
        self._jobs.close()
        with self._lock:
            if self._unnamed is not None:
                self._unnamed.release()
                self._unnamed = None

    def _write_held(self, path: Path | None, episode: Episode) -> Path:
        """Write a copy; that of work without a name is locked first, so that no other window offers it."""
        if path is None and self._unnamed is None:
            from studio.storage.autosave import lock_untitled  # not at start

            with contextlib.suppress(StorageError):  # where nothing can be locked, a copy without a lock is better
                self._unnamed = lock_untitled()
        return self._write(path, episode)

    def _job_for(self, path: Path | None, episode: Episode, turn: int) -> Callable[[], Generator[float, None, None]]:
        def job() -> Generator[float, None, None]:
            yield 0.0
            with self._lock:
                if turn == self._turn:
                    self._write_held(path, episode)

        return job

    def _kept_well(self, _nothing: object) -> None:
        self.problem = ""

    def _failed(self, error: BaseException) -> None:
        self._kept = None
        if not self.problem:
            self.failed.emit(f"No rescue copy could be kept: {error}")
        self.problem = str(error)
