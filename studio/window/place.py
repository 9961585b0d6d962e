"""What every place of the window is, and what it is given."""

from dataclasses import dataclass
from typing import ClassVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from studio.window.dialogs import Dialogs
from studio.window.document import Document
from studio.window.palette import Appearance
from studio.window.tasks import JobRunner


@dataclass(frozen=True)
class Workshop:
    """What every place works with: the open episode, how things look, the job runner, the questions it may ask."""

    document: Document
    appearance: Appearance
    jobs: JobRunner
    dialogs: Dialogs


class Place(QWidget):
    """One place of the window.

    It keeps no copy of the episode: it redraws on ``document.changed`` and edits on what only the user triggers.
    ``actions()`` is Qt's own list: what a place adds with ``addAction`` stands in the menu ``menu_title`` and in the
    list of keys, and is triggered by its shortcut from anywhere in the window, so shortcuts are unlike in all places.
    """

    key: ClassVar[str]
    title: ClassVar[str]
    menu_title: ClassVar[str]

    state_changed = Signal()
    """The line under the place's name is another one."""
    go = Signal(str, str)
    """Show the place of this key and, in it, this target: an episode path, a finding's id or a picture's id."""
    command = Signal(str)
    """Carry out the window's own command of this name, such as ``open_demo``."""

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.workshop = workshop
        self.document = workshop.document
        self.appearance = workshop.appearance

    def state_line(self) -> str:
        """One short line on how things stand here, shown under the place's name."""
        raise NotImplementedError

    def show_target(self, target: str) -> None:
        """Bring ``target`` into view and select it; a target that is no longer there is passed over."""
        raise NotImplementedError

    def find_text(self, text: str) -> bool:
        """Bring the next thing that holds ``text`` into view; False where nothing does."""
        raise NotImplementedError

    def take_focus(self) -> None:
        """The user has come here by key: focus what they would work on first."""
        self.setFocus()

    def commit(self) -> None:
        """Take in what is typed and not yet entered, before a save, an undo or a change of place."""
