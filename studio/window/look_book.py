"""The look in which the window draws: the episode's own, a shipped one where that cannot be used, or one being made."""

import os
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from studio.graphics.look import Look, LookError, is_own, look_for, shipped_looks
from studio.window.document import Document

Stamp = tuple[tuple[str, int, int], ...]


class LookBook(QObject):
    """``changed`` says that another look is drawn in now. Files are read again when they were changed outside."""

    changed = Signal()

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._tried: Look | None = None
        self._kept: tuple[object, Look, str] | None = None

    @property
    def shown(self) -> Look:
        """The look to draw in now: the one tried on, else the episode's."""
        return self._tried or self.chosen

    @property
    def chosen(self) -> Look:
        """The episode's look; the first shipped one where it cannot be used."""
        return self._read()[0]

    @property
    def fault(self) -> str:
        """Why the episode's look cannot be used; empty where it can. The episode keeps its choice."""
        return self._read()[1]

    @property
    def folder(self) -> Path | None:
        """The folder from which the episode names its look; None before it is saved."""
        return self._document.path.parent if self._document.path else None

    def try_on(self, look: Look | None) -> None:
        """Draw in this look for now; None goes back to the episode's."""
        if look != self._tried:
            self._tried = look
            self.changed.emit()

    def _read(self) -> tuple[Look, str]:
        name = self._document.episode.look
        key = (name, self.folder, stamp(name, self.folder, self._kept[1] if self._kept else None))
        if self._kept is None or self._kept[0] != key:
            look, fault = _found(lambda: look_for(name, self.folder))
            # The stamp is taken anew: which files belong to the look is known only now.
            self._kept = ((name, self.folder, stamp(name, self.folder, look)), look, fault)
        return self._kept[1], self._kept[2]


def stamp(name: str, folder: Path | None, look: Look | None) -> Stamp:
    """When the files of an own look were changed last, and how large they are."""
    if folder is None or not is_own(name):
        return ()
    at = (folder / name).parent
    fonts = (look.fonts.regular, look.fonts.semibold, look.fonts.bold) if look else ()
    paths = [folder / name, *(at / its for its in (*fonts, look.logo.file if look else "") if its)]
    found = []
    for path in paths:
        try:
            state = os.stat(path)  # noqa: PTH116
        except (OSError, ValueError):
            continue
        found.append((str(path), state.st_mtime_ns, state.st_size))
    return tuple(found)


def _found(read: Callable[[], Look]) -> tuple[Look, str]:
    try:
        return read(), ""
    except LookError as error:
        return next(iter(shipped_looks().values())), str(error)
