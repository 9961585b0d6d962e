"""The photos of a tire: paths from the episode's folder, so that the folder can be moved as a whole."""

import os
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from studio.window.dialogs import Dialogs
from studio.window.flow import flow
from studio.window.labels import name_field, plain_label, push_button
from studio.window.subject import Subject

FILTER = "Photos (*.jpg *.jpeg *.png *.webp)"
MOST_CHARACTERS = 200


def relative_photo(photo: Path, episode: Path) -> str | None:
    """The photo's path from the episode's folder; None where it lies elsewhere."""
    try:
        return Path(os.path.realpath(photo)).relative_to(Path(os.path.realpath(episode)).parent).as_posix()
    except ValueError:
        return None


class PhotosForm(QWidget):
    """The list of photos, each with a button to take it off the list; the files themselves are never touched."""

    rebuilt = Signal()
    """There are more photos or fewer now."""

    def __init__(self, subject: Subject, dialogs: Dialogs) -> None:
        super().__init__()
        self._subject, self._dialogs = subject, dialogs
        self._rows: list[QWidget] = []
        self._shown: tuple[str, ...] = ()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)
        self.add = push_button("Add p&hotos…", self.add_photos)
        self._layout.addWidget(flow(self.add))
        subject.document.changed.connect(self.refresh)

    def refresh(self) -> None:
        """Show the list as it is now."""
        value = self._subject.value()
        photos = value.photos if value is not None else ()
        if photos == self._shown:
            return
        self._shown = photos
        for row in self._rows:
            self._layout.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows = [self._row(index, photo) for index, photo in enumerate(photos)]
        for index, row in enumerate(self._rows):
            self._layout.insertWidget(index, row)
        self.rebuilt.emit()

    @property
    def labels(self) -> list[QLabel]:
        """The labels of the rows."""
        return [label for row in self._rows for label in row.findChildren(QLabel)]

    def _row(self, index: int, photo: str) -> QWidget:
        remove = push_button("Remove", self._remove)
        name_field(remove, f"Take photo {index + 1}, {photo}, off the list")
        remove.setProperty("row", index)
        label = plain_label(photo)
        episode = self._subject.document.path
        if episode and not (episode.parent / photo).is_file():
            label.setText(f"{photo} (not there)")
        return flow(label, remove)

    def add_photos(self) -> None:
        """Ask for photos and put those on the list that lie with the episode."""
        episode = self._subject.document.path
        if episode is None:
            self._dialogs.tell(
                "Photos", "Save the episode first: photos are kept by their path from the episode's folder."
            )
            return
        found = self._dialogs.open_files("Photos of this tire", episode.parent, FILTER)
        self.take(found)

    def take(self, photos: tuple[Path, ...]) -> None:
        """Put ``photos`` on the list, as one step; say which of them lie elsewhere."""
        value, episode = self._subject.value(), self._subject.document.path
        if value is None or episode is None:
            return
        named = [(photo, relative_photo(photo, episode)) for photo in photos]
        taken = [name for _, name in named if name and len(name) <= MOST_CHARACTERS and name not in value.photos]
        if taken:
            self._subject.write("photos", replace(value, photos=(*value.photos, *taken)))
        elsewhere = [photo.name for photo, name in named if not name]
        if elsewhere:
            self._dialogs.tell(
                "Photos",
                f"{', '.join(elsewhere)} lies elsewhere; expected photos in the episode's folder "
                f"{episode.parent.name} or below it. Copy them there first, then add them.",
            )

    def _remove(self) -> None:
        value, button = self._subject.value(), self.sender()
        if value is None or not isinstance(button, QPushButton):
            return
        index = button.property("row")
        photos = tuple(photo for number, photo in enumerate(value.photos) if number != index)
        self._subject.write("photo removed", replace(value, photos=photos))
        self.add.setFocus()
