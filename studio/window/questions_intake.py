"""Comments on their way into the episode: pasted, typed, or from a table; off the window's thread, lot by lot."""

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from studio.storage.errors import StorageError
from studio.storage.room import check_size
from studio.window.place import Workshop
from studio.window.questions_bar import MOST_TYPED
from studio.window.questions_import import Brought, file_job, paste_job, with_brought
from studio.window.questions_rows import Key, Told
from studio.window.tasks import Factory, Progress

TABLES = "Tables (*.csv *.tsv *.txt);;All files (*)"


class Intake(QObject):
    """``said`` tells how it goes, ``arrived`` gives the path of the question that one comment became.

    ``doubted`` gives the rows of a table that were read in doubt, and in words how many of each sort there are.
    """

    said = Signal(str)
    arrived = Signal(str)
    doubted = Signal(object, object)

    def __init__(self, workshop: Workshop, known: Callable[[], Mapping[Key, Told]], parent: QObject) -> None:
        super().__init__(parent)
        self._workshop, self._known = workshop, known
        self._bringing: int | None = None

    @property
    def is_busy(self) -> bool:
        """Whether comments are being taken in."""
        return self._bringing is not None

    def paste(self) -> None:
        """Take in the comment on the clipboard, as plain text."""
        text = QGuiApplication.clipboard().text()
        if text.strip():
            self.take_comment(text)
        else:
            self.said.emit("There is no text on the clipboard; copy a comment first.")

    def take_comment(self, text: str) -> None:
        """Take in one comment: names and the like are dropped before it reaches the episode."""
        job = partial(paste_job, text[:MOST_TYPED], self._workshop.document.episode.questions, dict(self._known()))
        self._bring("Taking in a comment", job, quiet=True)

    def ask_import(self) -> None:
        """Ask for a table of comments and bring it in."""
        folder = self._workshop.document.path.parent if self._workshop.document.path else Path.home()
        path = self._workshop.dialogs.open_file("Import comments", folder, TABLES)
        if path is not None:
            self.take_comments(path)

    def take_comments(self, path: Path) -> None:
        """Bring in a table of comments."""
        job = partial(file_job, path, self._workshop.document.episode, dict(self._known()))
        self._bring(f"Importing {path.name}", job, quiet=False)

    def _bring(self, name: str, job: Factory, *, quiet: bool) -> None:
        if self._bringing is not None:
            self.said.emit("Comments are being taken in already; this one can follow then.")
            return
        self._bringing = self._workshop.jobs.run(
            name, job, self._bring_progress, self._brought, self._bring_failed, self._bring_stopped, quiet=quiet
        )

    def _bring_progress(self, progress: object) -> None:
        if isinstance(progress, Progress) and progress.total > 1:
            self.said.emit(f"{progress.done:,} of {progress.total:,} {progress.what}…")

    def _brought(self, brought: Brought) -> None:
        self._bringing = None
        try:
            after, at = with_brought(self._workshop.document.episode, brought)
            check_size(after)
        except (StorageError, ValueError) as error:
            self.said.emit(str(error))
            self._workshop.dialogs.tell("No comments were taken in", str(error))
            return
        count = f"{brought.taken.read:,} comments"
        self._workshop.document.edit("Take in a comment" if brought.single else f"Import {count}", after)
        self.said.emit(brought.told())
        if not brought.single:
            self.doubted.emit(brought.in_doubt, brought.doubts_told)
        if at >= 0 and brought.single:
            self.arrived.emit(f"questions[{at}]")

    def _bring_failed(self, error: BaseException) -> None:
        self._bringing = None
        known = isinstance(error, StorageError | ValueError)
        text = str(error) if known else f"The comments could not be taken in ({type(error).__name__}: {error})."
        self.said.emit(text)
        self._workshop.dialogs.tell("No comments were taken in", text)

    def _bring_stopped(self) -> None:
        self._bringing = None
        self.said.emit("Stopped; no comment was taken in.")
