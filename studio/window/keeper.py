"""The life of the episode's file: new, open, save, save as; lock, rescue copies, changes from outside.

Every question goes through the dialogs' port. A file that somebody else holds is opened for reading: it can be looked
at and changed in the window, and saved under another name.
"""

import datetime as dt
import os
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from studio import shipped
from studio.model.episode import Episode
from studio.model.problem import Problem
from studio.storage import episode_file, recent
from studio.storage.autosave import Kept, Rescue, hold_far
from studio.storage.errors import StorageError
from studio.storage.lock import EpisodeLock, HeldElsewhere
from studio.storage.outside import Fingerprint, changed_outside, fingerprint
from studio.window.autosave import Autosave
from studio.window.dialogs import Choice, Dialogs
from studio.window.differences import differences
from studio.window.document import Document
from studio.window.preferences import Preferences
from studio.window.rescue_desk import RescueDesk

FILTER = "Episodes (*.json)"
CANCEL = Choice("cancel", "Cancel", by_escape=True)


class Keeper(QObject):
    """Opens and saves the document's episode. ``said`` carries one line for the window's foot."""

    said = Signal(str)

    def __init__(
        self, document: Document, dialogs: Dialogs, autosave: Autosave, preferences: Preferences,
        parent: QObject | None = None,
    ) -> None:  # fmt: skip
        super().__init__(parent)
        self._document, self._dialogs = document, dialogs
        self._autosave, self._preferences = autosave, preferences
        self._rescues = RescueDesk(dialogs)
        self._lock: EpisodeLock | None = None
        self._known: Fingerprint | None = None
        self._asking = False

    # opening

    def new(self, today: dt.date | None = None) -> None:
        """An empty episode, with the region and units that were chosen in the settings."""
        if self.may_leave():
            self._start(self.empty(today or dt.date.today()), None)

    def empty(self, today: dt.date) -> Episode:
        """An empty episode for that day."""
        settings = self._preferences.settings
        return Episode(title="Untitled", on=today, region=settings.region, units=settings.units)

    def ask_open(self) -> None:
        """Ask for a file and open it."""
        path = self._dialogs.open_file("Open an episode", self._folder(), FILTER)
        if path is not None:
            self.open(path)

    def open(self, path: Path) -> bool:
        """Open the episode at ``path``, a shipped demo as a copy; whether it is open now."""
        if os.path.realpath(path.parent) == os.path.realpath(shipped.demos()):
            return self.open_demo(path)
        if not self.may_leave():
            return False
        known = fingerprint(path)
        try:
            episode = episode_file.load(path, self._problems)
        except StorageError as error:
            return self._open_what_was_kept(path, str(error))
        taken = self._take_lock(path)
        if taken is None:
            return False
        lock, held_by = taken
        rescued = None if held_by else self._rescues.ask(path, episode)
        clean = rescued is None
        self._start(rescued.episode if rescued else episode, path, lock=lock, held_by=held_by, clean=clean)
        self._known = known
        if rescued is not None:
            self._take_over(rescued)
        if self._preferences.settings.keep_recent:
            recent.remember(path)
        return True

    def _open_what_was_kept(self, path: Path, why: str) -> bool:
        """The file does not read: open unsaved work on it or the version before, unsaved, if the user wants that."""
        known = fingerprint(path)
        rescued = self._rescues.ask_broken(path, why, self._problems) if known is not None else None
        if rescued is None:
            if known is None:
                self._dialogs.tell("This file cannot be opened", why)
            return False
        taken = self._take_lock(path)
        if taken is None:
            return False
        lock, held_by = taken
        self._start(rescued.episode, path, lock=lock, held_by=held_by, clean=False)
        self._known = known
        return True

    def _take_over(self, rescued: Rescue) -> None:
        """What was restored is this window's unsaved work from now on; a copy of another name has done its duty."""
        try:
            kept = self._autosave.keep_now()
        except StorageError as error:
            self.said.emit(f"No rescue copy could be kept: {error}")
            return
        if kept is not None and kept != rescued.path:
            rescued.path.unlink(missing_ok=True)

    def bring_back(self, kept: Kept) -> None:
        """Make a kept copy the episode: of the open file as a step that can be undone, else as work without a name."""
        try:
            episode = episode_file.load(kept.path, self._problems)
        except StorageError as error:
            self._dialogs.tell("This copy cannot be brought back", str(error))
            return
        if kept.kind != "put_aside_unnamed":
            self._document.edit("Bring back a kept copy", episode)
            self.said.emit(f"The copy of {kept.written:%b %d, %H:%M} is back; undo takes you to what was here before")
        elif self.may_leave():
            self._start(episode, None, clean=False)
            self.said.emit("The copy is back; save it under a name of yours")

    def open_demo(self, path: Path) -> bool:
        """Open a copy of a demo: it has no file yet, so the shipped one is never written."""
        if not self.may_leave():
            return False
        try:
            episode = episode_file.load(path, self._problems)
        except StorageError as error:
            self._dialogs.tell("The demo cannot be opened", str(error))
            return False
        self._start(episode, None)
        self.said.emit("This is a copy of the demo; save it under a name of yours to keep what you change")
        return True

    def recover_untitled(self) -> None:
        """Offer the work of a window that was killed before its episode had a name."""
        rescue = self._rescues.ask_untitled()
        if rescue is not None:
            self._start(rescue.episode, None, clean=False)
            self._take_over(rescue)

    def _take_lock(self, path: Path) -> tuple[EpisodeLock | None, str] | None:
        """The lock, or who holds it; None where the user would rather not read only."""
        if self._lock is not None and self._is_here(path):
            return self._lock, ""
        try:
            return self._locked(path), ""
        except HeldElsewhere as error:
            held_by = error.holder.words() if error.holder else "another process"
            text = f"{path.name} is open in {held_by}. Read it here, and save what you change under another name."
            choices = (Choice("read", "Open for reading", by_enter=True), CANCEL)
            answer = self._dialogs.choose("This episode is open already", text, choices)
            return (None, held_by) if answer == "read" else None
        except StorageError as error:
            self.said.emit(str(error))
            return None, ""

    def _is_here(self, path: Path) -> bool:
        """Whether ``path`` is the open file, by whatever name."""
        here = self._document.path
        return here is not None and os.path.realpath(here) == os.path.realpath(path)

    def _locked(self, path: Path) -> EpisodeLock:
        """The lock beside the file, or where none can lie there, one for the windows on this machine."""
        try:
            return EpisodeLock.take(path)
        except HeldElsewhere:
            raise
        except StorageError:
            return hold_far(path)

    def _start(
        self, episode: Episode, path: Path | None, *, lock: EpisodeLock | None = None, held_by: str = "",
        clean: bool = True,
    ) -> None:  # fmt: skip
        self._autosave.leave()
        if self._lock is not None and self._lock is not lock:
            self._lock.release()
        self._lock, self._known = lock, None
        self._document.start(episode, path, held_by=held_by, clean=clean)

    # saving

    def save(self) -> bool:
        """Save under the episode's name, or ask for one; whether it is saved now."""
        path = self._document.path
        if path is None or self._document.read_only:
            return self.save_as()
        if changed_outside(path, self._known) in ("changed", "appeared"):
            return self.ask_outside()
        return self._write(path)

    def save_as(self) -> bool:
        """Ask for a name and save under it."""
        suggested = self._document.path or self._folder() / f"{_file_name(self._document.episode.title)}.json"
        path = self._dialogs.save_file("Save the episode", suggested, FILTER)
        if path is None:
            return False
        path = path if path.suffix else path.with_suffix(".json")
        if self._is_here(path) and not self._document.read_only:
            return self._write(path)
        try:
            lock = self._locked(path)
        except StorageError as error:
            self._dialogs.tell("This name cannot be used", str(error))
            return False
        self._rescues.put_aside(path)
        if not self._write(path):
            lock.release()
            return False
        if self._lock is not None:
            self._lock.release()
        self._lock = lock
        return True

    def _write(self, path: Path) -> bool:
        before = self._autosave.place
        try:
            episode_file.save(path, self._document.episode)
        except StorageError as error:
            self._dialogs.tell("The episode was not saved", str(error))
            return False
        self._known = fingerprint(path)
        self._document.saved_as(path)
        for each in {before, path}:
            self._autosave.drop(each)
        if self._preferences.settings.keep_recent:
            recent.remember(path)
        self.said.emit(f"Saved {path.name}")
        return True

    # changes from outside

    def look_outside(self) -> None:
        """The window has come to the front: see whether the file is still what was read or written."""
        path = self._document.path
        if path is None or self._asking or self._document.read_only:
            return
        change = changed_outside(path, self._known)
        if change in ("changed", "appeared"):
            self.ask_outside()
        elif change == "gone" and self._document.is_clean:
            self._document.undo_stack.resetClean()
            self.said.emit(f"{path.name} is no longer there; save to write it again")

    def ask_outside(self) -> bool:
        """Somebody else changed the file: reload it, overwrite it, or save it under another name."""
        path = self._document.path
        assert path is not None
        choices = (
            Choice("reload", "Reload the file"),
            Choice("overwrite", "Overwrite with mine"),
            Choice("save_as", "Save mine as…"),
            Choice("later", "Decide later", by_enter=True, by_escape=True),
        )
        self._asking = True
        try:
            answer = self._dialogs.choose(
                "The file was changed outside", f"{path.name} was changed by another program since it was read here. "
                "Overwriting puts what you have here in its place; what the other program wrote can then be had by "
                "File > Bring back until you save again.", choices, self._outside_detail(path),
            )  # fmt: skip
        finally:
            self._asking = False
        if answer == "reload":
            return self._reload(path)
        if answer == "overwrite":
            return self._write(path)
        return self.save_as() if answer == "save_as" else False

    def _outside_detail(self, path: Path) -> str:
        try:
            theirs = episode_file.load(path, self._problems)
        except StorageError as error:
            return str(error)
        return "\n".join(differences(self._document.episode, theirs))

    def _reload(self, path: Path) -> bool:
        known = fingerprint(path)
        try:
            episode = episode_file.load(path, self._problems)
        except StorageError as error:
            self._dialogs.tell("This file cannot be opened", str(error))
            return False
        self._start(episode, path, lock=self._lock)
        self._known = known
        self._autosave.drop(path)
        return True

    # leaving

    def may_leave(self) -> bool:
        """Whether the episode may be left: it is saved, or the user gives the changes up."""
        if self._document.is_clean:
            self._autosave.drop(self._autosave.place)  # work that was kept and then undone
            return True
        title = self._document.episode.title
        answer = self._dialogs.choose(
            "Unsaved changes", f"“{title}” has changes that are not saved.",
            (Choice("save", "Save", by_enter=True), Choice("discard", "Do not save"), CANCEL),
        )  # fmt: skip
        if answer == "save":
            return self.save()
        if answer == "discard":
            self._autosave.drop(self._autosave.place)
            return True
        return False

    def close(self) -> None:
        """The window closes: let go of the file."""
        self._autosave.drop(self._autosave.place)
        self._autosave.stop()
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def _problems(self, episode: Episode) -> tuple[Problem, ...]:
        return self._document.problems(episode)

    def _folder(self) -> Path:
        here = self._document.path
        if here is not None:
            return here.parent
        last = next((each.path.parent for each in recent.recent_files() if each.there), None)
        return last or Path.home()


def _file_name(title: str) -> str:
    """A title as the name of a file: what file systems refuse is left out."""
    kept = "".join(c if c.isalnum() or c in " -_" else "" for c in title)
    return "_".join(kept.lower().split())[:60] or "episode"
