"""Where a tire can be moved: a menu in which each entry says what it does."""

from typing import get_args

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from studio.model.episode import Episode
from studio.model.places import Place
from studio.window.labels import button_text
from studio.window.words import PLACES


class MoveMenu(QMenu):
    """One entry a place. ``wanted`` gives the place."""

    wanted = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Mo&ve this tire", parent)
        self.entries: dict[Place, QAction] = {}
        for place in get_args(Place):
            action = self.addAction("")
            action.setData(place)
            action.triggered.connect(self._chosen)
            self.entries[place] = action

    def name_entries(self, episode: Episode, index: int | None) -> None:
        """Say what each entry does with the tire ``index``; None where no tire is shown."""
        there = index is not None and index < len(episode.specimens)
        for number, (place, words) in enumerate(PLACES, start=1):
            holder = episode.standing_at(place) if place != "bench" else None
            mine = there and episode.specimens[index or 0].place == place
            swap = holder is not None and not mine
            verb = "Swap with" if swap else "Move to the" if place in ("bench", "spare") else "Move to"
            self.entries[place].setText(f"&{number} {verb} {button_text(words)}")
            self.entries[place].setEnabled(there and not mine)

    def _chosen(self) -> None:
        action = self.sender()
        assert isinstance(action, QAction)
        self.wanted.emit(action.data())
