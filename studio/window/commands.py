"""What the window's own commands do. The table of commands names these methods."""

from pathlib import Path
from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QWidget

from studio import shipped
from studio.model.quantity import System
from studio.window.dialogs import Dialogs
from studio.window.document import Document
from studio.window.palette import TEXT_PERCENTS, Appearance, Choice
from studio.window.preferences import Preferences

_SYSTEM_WORDS: dict[System, str] = {"us": "US units", "metric": "metric units"}


class Commands(QObject):
    """Carries the commands out; ``owner`` is the window."""

    def __init__(
        self, owner: Any, document: Document, dialogs: Dialogs, appearance: Appearance, preferences: Preferences,
    ) -> None:  # fmt: skip
        super().__init__(owner)
        self._owner, self._document = owner, document
        self._dialogs, self._appearance, self._preferences = dialogs, appearance, preferences

    def commit(self) -> None:
        """Take in what is typed and not yet entered."""
        self._owner.commit()

    # File

    def new(self) -> None:
        """An empty episode."""
        self.commit()
        self._owner.keeper.new()

    def open(self) -> None:
        """Ask for an episode and open it."""
        self.commit()
        self._owner.keeper.ask_open()

    def open_recent(self) -> None:
        """Open the episode that the menu entry names."""
        self.commit()
        from studio.storage import recent

        path = _data(self.sender())
        if path.is_file():
            self._owner.keeper.open(path)
        else:
            recent.forget(path)
            self._owner.keeper.said.emit(f"{path.name} is no longer there; it is off the list now")

    def forget_recent(self) -> None:
        """Empty the list of recent episodes."""
        from studio.storage import recent

        recent.forget_all()

    @property
    def keeps_recent(self) -> bool:
        """Whether the episodes that were open are listed."""
        return self._preferences.settings.keep_recent

    def keep_recent(self, keep: bool) -> None:
        """List the episodes that were open, or none from now on."""
        self._preferences.change(keep_recent=keep)
        if not keep:
            self.forget_recent()

    def bring_back(self) -> None:
        """Make the kept copy that the menu entry names the episode."""
        self.commit()
        self._owner.keeper.bring_back(_data(self.sender()))

    def open_demo(self) -> None:
        """Open a copy of the demo that the menu entry names, or of the first one."""
        self.commit()
        path = _data(self.sender())
        self._owner.keeper.open_demo(path if isinstance(path, Path) else demo_files()[0])

    def save(self) -> None:
        """Save the episode."""
        self.commit()
        self._owner.keeper.save()

    def save_as(self) -> None:
        """Save the episode under another name."""
        self.commit()
        self._owner.keeper.save_as()

    def quit(self) -> None:
        """Close the window."""
        self._owner.close()

    # Edit

    def undo(self) -> None:
        """Undo the last step."""
        self.commit()
        self._document.undo_stack.undo()

    def redo(self) -> None:
        """Redo the step undone last."""
        self.commit()
        self._document.undo_stack.redo()

    def find(self) -> None:
        """Ask for a text to find."""
        self._owner.find_bar.begin()

    # View

    def us_units(self) -> None:
        """US units first, metric beside."""
        self._set_units("us")

    def metric_units(self) -> None:
        """Metric first, US units beside."""
        self._set_units("metric")

    def _set_units(self, system: System) -> None:
        self.commit()
        self._preferences.change(units=system)
        episode = self._document.episode
        self._document.edit(f"Show {_SYSTEM_WORDS[system]} first", replace(episode, units=system))

    def set_region(self) -> None:
        """The region that the menu entry names: its limits apply."""
        self.commit()
        region = _data(self.sender())
        self._preferences.change(region=region)
        name = self._document.tables.regions[region].name
        self._document.edit(f"Apply the limits of {name}", replace(self._document.episode, region=region))

    def follow_system(self) -> None:
        """Light or dark as the system says."""
        self._set_scheme("system")

    def light(self) -> None:
        """The light look."""
        self._set_scheme("light")

    def dark(self) -> None:
        """The dark look."""
        self._set_scheme("dark")

    def _set_scheme(self, scheme: Choice) -> None:
        self._preferences.change(scheme=scheme)
        self._appearance.choose(scheme)

    def larger(self) -> None:
        """Larger text."""
        self._set_percent(next((p for p in TEXT_PERCENTS if p > self._appearance.percent), TEXT_PERCENTS[-1]))

    def smaller(self) -> None:
        """Smaller text."""
        below = [p for p in TEXT_PERCENTS if p < self._appearance.percent]
        self._set_percent(below[-1] if below else TEXT_PERCENTS[0])

    def _set_percent(self, percent: int) -> None:
        self._preferences.change(text_percent=percent)
        self._appearance.set_percent(percent)

    # Help

    def keys(self) -> None:
        """List all keys."""
        self._owner.show_keys()

    def about(self) -> None:
        """Say what the program is and under which licences."""
        from studio.window.about import about_detail, about_text  # it reads every part's version: not at start

        self._dialogs.tell("About", about_text(), about_detail())


def demo_files() -> tuple[Path, ...]:
    """The shipped demo episodes."""
    return tuple(sorted(shipped.demos().glob("*.json")))


def commit_focused() -> None:
    """Take in what is typed in the field that has the focus."""
    focused: QWidget | None = QApplication.focusWidget()
    commit = getattr(focused, "commit", None)
    if callable(commit):
        commit()


def _data(sender: QObject | None) -> Any:
    return sender.data() if isinstance(sender, QAction) else None


