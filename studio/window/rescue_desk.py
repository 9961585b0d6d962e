"""What is asked when unsaved work of an earlier window is found, or a file that cannot be read."""

import contextlib
import datetime as dt
import logging
from collections.abc import Callable
from pathlib import Path

from studio.model.episode import Episode
from studio.model.problem import Problem
from studio.storage.autosave import (
    KEPT_DAYS,
    Kept,
    Rescue,
    let_wait,
    previous_version,
    put_older_aside,
    recoverable,
    recoverable_untitled,
    refuse_rescue,
    sweep_refused,
)
from studio.storage.errors import StorageError
from studio.storage.lock import EpisodeLock, HeldElsewhere
from studio.window.dialogs import Choice, Dialogs
from studio.window.differences import differences

_LOG = logging.getLogger(__name__)
_KINDS = {
    "waiting": "unsaved work on {name}, not decided yet",
    "put_aside": "unsaved work on {name}, put aside",
    "put_aside_unnamed": "work without a name, put aside",
    "previous": "{name} before its last save",
}


class RescueDesk:
    """Offers rescue copies; one that is refused is put aside and kept for some days, one left open is offered again."""

    def __init__(self, dialogs: Dialogs) -> None:
        self._dialogs = dialogs

    def ask(self, path: Path, saved: Episode) -> Rescue | None:
        """Unsaved work on ``path``, if there is some and the user wants it back; the caller holds the file."""
        _tidied(path)
        rescue = recoverable(path)
        if rescue is None:
            return None
        text = (
            f"There is unsaved work on {path.name} of {rescue.written:%Y-%m-%d %H:%M}. Restore it, or open the episode "
            f"as it was saved? What is put aside is kept for {KEPT_DAYS} days: File > Bring back."
        )
        choices = (
            Choice("restore", "Restore the work", by_enter=True),
            Choice("later", "Open as saved, decide later", by_escape=True),
            Choice("saved", "Open as saved, put the work aside"),
        )
        detail = "\n".join(differences(saved, rescue.episode))
        answer = self._dialogs.choose("Unsaved work was found", text, choices, detail)
        if answer == "restore":
            return rescue
        _done(refuse_rescue if answer == "saved" else let_wait, rescue)
        return None

    def ask_broken(self, path: Path, why: str, problems: Callable[[Episode], tuple[Problem, ...]]) -> Rescue | None:
        """The file at ``path`` cannot be read: unsaved work on it or the version before its last save, if wanted.

        None too where neither is there; the user has then been told ``why``.
        """
        found = [("unsaved", recoverable(path)), ("previous", previous_version(path))]
        whole = {key: rescue for key, rescue in found if rescue is not None and not problems(rescue.episode)}
        if not whole:
            self._dialogs.tell("This file cannot be opened", why)
            return None
        newest = max(whole, key=lambda key: whole[key].written)
        words = {"unsaved": "Open the unsaved work", "previous": "Open the version before"}
        choices = [Choice(key, f"{words[key]} ({whole[key].written:%b %d, %H:%M})", key == newest) for key in whole]
        text = f"{why}\n\nWhat was kept of it can be opened. The broken file stays beside it when you save."
        answer = self._dialogs.choose(
            "This file cannot be opened", text, (*choices, Choice("cancel", "Cancel", by_escape=True))
        )
        return whole.get(answer)

    def put_aside(self, path: Path) -> None:
        """Another episode is about to be saved as ``path``: unsaved work on what was there is put aside."""
        rescue = recoverable(path)
        if rescue is not None:
            _done(refuse_rescue, rescue)

    def ask_untitled(self) -> Rescue | None:
        """Unsaved work that never had a name, if there is some and the user wants it back now.

        Each is held while it is asked about, so that no other window that starts now asks about it too.
        """
        for rescue in recoverable_untitled():
            try:
                held = EpisodeLock.take(rescue.path)
            except HeldElsewhere:
                continue
            except StorageError:
                held = None
            with held or contextlib.nullcontext():
                answer = self._ask_one_untitled(rescue)
                if answer == "refuse":
                    _done(refuse_rescue, rescue)
            if answer != "refuse":
                return rescue if answer == "restore" else None
        return None

    def _ask_one_untitled(self, rescue: Rescue) -> str:
        choices = (
            Choice("restore", "Restore it", by_enter=True),
            Choice("later", "Not now", by_escape=True),
            Choice("refuse", "Put it aside"),
        )
        text = (
            f"“{rescue.episode.title}” of {rescue.written:%Y-%m-%d %H:%M} was never saved. Restore it? "
            f"What is put aside is kept for {KEPT_DAYS} days: File > Bring back."
        )
        return self._dialogs.choose("Unsaved work was found", text, choices)


def kept_words(kept: Kept, path: Path | None) -> str:
    """A kept copy as the menu names it: what it is, of which day."""
    name = path.name if path is not None else "the episode"
    return f"{_KINDS[kept.kind].format(name=name)} ({kept.written:%b %d, %H:%M})"


def _tidied(path: Path) -> None:
    """Nothing older than the file is offered as newer, and nothing refused stays longer than was said."""
    today = dt.date.today()
    sweep_refused(path.parent, today)
    try:
        put_older_aside(path, today)
    except StorageError as error:
        _LOG.warning("%s", error)


def _done(what: Callable[[Rescue, dt.date], Path], rescue: Rescue) -> None:
    try:
        what(rescue, dt.date.today())
    except StorageError as error:
        _LOG.warning("%s", error)
