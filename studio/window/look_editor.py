"""The channel's look, made in the place *Pictures*: the form at the side, the large picture drawn in it at once."""

from pathlib import Path

from msgspec.structs import replace as with_fields
from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from studio.graphics.logo.art import Art
from studio.graphics.look import LookError, LookFile, is_own, read_look, shipped_looks
from studio.storage.errors import StorageError
from studio.window.chooser import Chooser
from studio.window.dialogs import Choice
from studio.window.flow import flow
from studio.window.form_parts import FieldBox
from studio.window.labels import plain_label, push_button
from studio.window.look_book import LookBook
from studio.window.look_draft import Draft, read_logo, relative_look
from studio.window.look_form import LookForm
from studio.window.palette import GRID
from studio.window.place import Workshop
from studio.window.tasks import Job

LOOKS, LOGOS, FONTS = "Looks (*.json)", "Logos (*.png *.svg)", "Fonts (*.ttf *.otf)"
_LOSE = (Choice("lose", "Begin again", by_enter=True), Choice("keep", "Keep what I made", by_escape=True))
_MOST_LISTED = 4


class LookEditor(QScrollArea):
    """``left`` says that the user goes back to the picture. What is made is tried on at once and saved by a button."""

    left = Signal()

    def __init__(self, workshop: Workshop, book: LookBook) -> None:
        super().__init__()
        self._workshop, self._book = workshop, book
        self._document = workshop.document
        self.draft = Draft()
        self._begun = False
        self.form = LookForm()
        self.back = push_button("&Back to the picture", self.leave)
        self.save = push_button("&Save the look…", self.save_look, primary=True)
        self.open = push_button("&Open a look…", self.open_look)
        self.start = Chooser(14)
        for id_, look in shipped_looks().items():
            self.start.addItem(look.name, id_)
        self.begin = push_button("Begin with a cop&y", self.begin_with_shipped)
        self.problems = plain_label("", "problem", wrap=True)
        self.remarks = plain_label("", "quiet", wrap=True)
        self._lay_out()
        self.form.changed.connect(self._changed)
        self.form.logo.wanted.connect(self._ask_for_logo)
        self.form.logo.dropped.connect(self.take_logo)
        self.form.letters.wanted.connect(self._ask_for_font)

    # Coming and going

    def enter(self) -> None:
        """The user comes here: go on with what was begun, else begin with the episode's look."""
        if not (self._begun and self.draft.is_changed):
            name, folder = self._document.episode.look, self._book.folder
            own = folder is not None and is_own(name) and not self._book.fault
            self._begin(self._book.chosen, (folder / name).parent if own and folder else None)
        self._show()
        self.form.name.setFocus()

    def leave(self) -> None:
        """Back to the pictures in the episode's own look; what is made so far stays for the next time."""
        self._book.try_on(None)
        self.left.emit()

    def begin_with_shipped(self) -> None:
        """Begin again with a copy of the shipped look that is chosen in the list."""
        if self._may_begin():
            self._begin(shipped_looks()[self.start.currentData()], None)
            self._show()

    def open_look(self) -> None:
        """Choose a look's file that lies with the episode: the episode's look from now on, as one step."""
        folder = self._folder_or_tell()
        if folder is None or not self._may_begin():
            return
        path = self._workshop.dialogs.open_file("Open a look", folder, LOOKS)
        if path is not None:
            self._open(path, folder)

    # Making

    def take_logo(self, path: Path) -> None:
        """Read a logo off the window's thread and take it in, or say what is wrong with it."""

        def job() -> Job:
            yield 0.0
            return read_logo(path)

        self._workshop.jobs.run("Reading the logo", job, None, self._logo_read, self._file_refused)

    def take_font(self, path: Path, role: str) -> None:
        """Take in a font for a weight, or say what is wrong with it."""
        try:
            self.draft.take_font(path, role)
        except LookError as error:
            self._file_refused(error)
        else:
            self._show()

    def save_look(self) -> None:
        """Save the look beside the episode and make it the episode's, as one step of undo."""
        if found := self.draft.faults():
            self._workshop.dialogs.tell("The look was not saved", f"{found[0]}.", "\n".join(found))
            return
        folder = self._folder_or_tell()
        path = self._workshop.dialogs.save_file("Save the look", self._suggested(folder), LOOKS) if folder else None
        if folder is None or path is None:
            return
        path = path if path.suffix.lower() == ".json" else path.with_name(f"{path.name}.json")
        name = relative_look(path, folder)
        if name is None:
            self._tell_elsewhere(path, folder)
            return
        try:
            self.draft.save(path)
        except (LookError, StorageError) as error:
            self._workshop.dialogs.tell("The look was not saved", f"{error}.")
            return
        self._choose(name)

    # Inside

    def _open(self, path: Path, folder: Path) -> None:
        name = relative_look(path, folder)
        if name is None:
            self._tell_elsewhere(path, folder)
            return
        try:
            look = read_look(path)
            self._begin(look, path.parent)
        except LookError as error:
            self._workshop.dialogs.tell("The look was not opened", f"{error}.")
            return
        self._choose(name)
        self._show()

    def _choose(self, name: str) -> None:
        words = f"Choose the look {self.draft.values.name}"
        self._document.edit(words, with_fields(self._document.episode, look=name))
        self._show()

    def _begin(self, look: LookFile, folder: Path | None) -> None:
        self.draft.begin(look, folder)
        self._begun = True

    def _may_begin(self) -> bool:
        if not self.draft.is_changed:
            return True
        text = f"{self.draft.values.name} is not saved. Begin again without it?"
        return self._workshop.dialogs.choose("The look is not saved", text, _LOSE) == "lose"

    def _changed(self, fields: dict[str, object]) -> None:
        self.draft.change(**fields)
        self._show()

    def _show(self) -> None:
        """Form, problems and pictures as the draft is now; where it cannot be drawn, the pictures stay as they were."""
        found, remarks = self.draft.faults(), self.draft.remarks()
        self.form.show_look(self.draft.values)
        more = f"\nand {len(found) - _MOST_LISTED} more" if len(found) > _MOST_LISTED else ""
        words = "\n".join(found[:_MOST_LISTED]) + more
        self.problems.setText(f"To be changed before it can be saved:\n{words}" if found else "")
        self.problems.setVisible(bool(found))
        self.remarks.setText("\n".join(remarks) if found or remarks else "Everything can be read and told apart.")
        self.remarks.setVisible(bool(self.remarks.text()))
        self.save.setAccessibleDescription(found[0] if found else "")
        QTimer.singleShot(0, self, self._fit)  # once the layout has heard of the new texts
        try:
            self._book.try_on(self.draft.look())
        except LookError:
            return

    def _logo_read(self, art: Art) -> None:
        self.draft.take_logo(art)
        self._show()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """As high as its wrapped lines need at this width, which a scroll area does not ask for."""
        inside = self.widget()
        if inside is not None and (layout := inside.layout()) is not None:
            inside.setMinimumHeight(layout.totalHeightForWidth(self.viewport().width()))

    def _file_refused(self, error: BaseException) -> None:
        known = isinstance(error, LookError)
        text = f"{error}." if known else f"It could not be read ({type(error).__name__}: {error})."
        self._workshop.dialogs.tell("The file was not taken", text)

    def _ask_for_logo(self) -> None:
        path = self._workshop.dialogs.open_file("A logo", self._book.folder or Path.home(), LOGOS)
        if path is not None:
            self.take_logo(path)

    def _ask_for_font(self, role: str) -> None:
        path = self._workshop.dialogs.open_file(f"A font, {role}", self._book.folder or Path.home(), FONTS)
        if path is not None:
            self.take_font(path, role)

    def _suggested(self, folder: Path | None) -> Path:
        name = self._document.episode.look
        return (folder or Path.home()) / (name if is_own(name) else "channel_look.json")

    def _folder_or_tell(self) -> Path | None:
        if self._book.folder is None:
            text = "Save the episode first: its look lies beside it, so that the folder can be moved as a whole."
            self._workshop.dialogs.tell("The channel's look", text)
        return self._book.folder

    def _tell_elsewhere(self, path: Path, folder: Path) -> None:
        text = (
            f"{path.name} would lie elsewhere; expected a place in the episode's folder {folder.name} or below it, "
            "such as channel_look.json."
        )
        self._workshop.dialogs.tell("The channel's look", text)

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(2 * GRID, 2 * GRID, 2 * GRID, 2 * GRID)
        column.setSpacing(GRID)
        for widget in (
            plain_label("The channel's look", "heading", wrap=True), flow(self.save, self.back, across=GRID),
            self.problems, self.remarks, FieldBox("Shipped looks", self.start, wide=True),
            flow(self.begin, self.open, across=GRID), self.form,
        ):  # fmt: skip
            column.addWidget(widget)
        column.addStretch(1)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)
