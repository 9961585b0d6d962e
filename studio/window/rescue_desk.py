"""What is asked when unsaved work of an earlier window is found."""

import datetime as dt
import logging
from pathlib import Path

from studio.model.episode import Episode
from studio.storage.autosave import KEPT_DAYS, Rescue, recoverable, recoverable_untitled, refuse_rescue
from studio.storage.errors import StorageError
from studio.window.dialogs import Choice, Dialogs
from studio.window.differences import differences

_LOG = logging.getLogger(__name__)


class RescueDesk:
    """Offers rescue copies; one that is refused is put aside and kept for some days."""

    def __init__(self, dialogs: Dialogs) -> None:
        self._dialogs = dialogs

    def ask(self, path: Path, saved: Episode) -> Episode | None:
        """Unsaved work on ``path``, if there is some and the user wants it back."""
        rescue = recoverable(path)
        if rescue is None:
            return None
        text = (
            f"There is unsaved work on {path.name} of {rescue.written:%Y-%m-%d %H:%M}. Restore it, or open the episode "
            f"as it was saved? What is put aside is kept for {KEPT_DAYS} days."
        )
        choices = (
            Choice("restore", "Restore the work", by_enter=True),
            Choice("saved", "Open as saved", by_escape=True),
        )
        detail = "\n".join(differences(saved, rescue.episode))
        if self._dialogs.choose("Unsaved work was found", text, choices, detail) == "restore":
            return rescue.episode
        _put_aside(rescue)
        return None

    def ask_untitled(self) -> Rescue | None:
        """Unsaved work that never had a name, if there is some and the user wants it back now."""
        for rescue in recoverable_untitled():
            choices = (
                Choice("restore", "Restore it", by_enter=True),
                Choice("later", "Not now", by_escape=True),
                Choice("refuse", "Put it aside"),
            )
            text = f"“{rescue.episode.title}” of {rescue.written:%Y-%m-%d %H:%M} was never saved. Restore it?"
            answer = self._dialogs.choose("Unsaved work was found", text, choices)
            if answer != "refuse":
                return rescue if answer == "restore" else None
            _put_aside(rescue)
        return None


def _put_aside(rescue: Rescue) -> None:
    try:
        refuse_rescue(rescue, dt.date.today())
    except StorageError as error:
        _LOG.warning("%s", error)
