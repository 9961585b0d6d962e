"""What can be said of a picture: its title, its tires, the channel's look, frame and background. Never its numbers."""

from collections.abc import Mapping
from dataclasses import replace

from msgspec.structs import replace as with_fields
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from studio.graphics.catalogue import Picture
from studio.graphics.frame import Frame, read_frame
from studio.graphics.look import Look, is_own, shipped_looks
from studio.window.chooser import Chooser
from studio.window.document import Document
from studio.window.fields import TextField
from studio.window.flow import flow
from studio.window.form_parts import FieldBox
from studio.window.labels import plain_label, push_button
from studio.window.look_book import LookBook
from studio.window.palette import GRID
from studio.window.pictures_check import Check
from studio.window.pictures_choice import ChoiceSubject, choice_of, with_choice
from studio.window.pictures_frame import background_chooser, frame_chooser, frame_key
from studio.window.pictures_tires import TireChoice
from studio.window.pictures_view import View

WIDTH = 256


class Controls(QScrollArea):
    """``changed`` gives another view. What belongs to the episode is edited through the document, as named steps."""

    changed = Signal(object)
    look_wanted = Signal()
    """The user wants to make the channel's look."""

    def __init__(self, document: Document, book: LookBook) -> None:
        super().__init__()
        self._document, self._book = document, book
        self._view = View()
        self._subject = ChoiceSubject(document)
        self._takes = 0
        self.title = TextField(self._subject, "title", "title", chars=20, most=200)
        self.title_note = plain_label("A number typed here does not follow the readings.", "quiet", wrap=True)
        self.tires = TireChoice()
        self.tires_note = plain_label("", "quiet", wrap=True)
        self.look = Chooser(16)
        self.look_problem = plain_label("", "problem", wrap=True)
        self.make_look = push_button("Channel's &look…", self.look_wanted.emit)
        self.frame, self.background = frame_chooser(), background_chooser(self._look)
        self.captions = Check("&Keep the caption band free")
        self._tires_box = below(GRID // 2, FieldBox("Tires shown", self.tires, wide=True), self.tires_note)
        for id_, look in shipped_looks().items():
            self.look.addItem(look.name, id_)
        self._lay_out()
        self._connect()

    def point(self, picture: str, entry: Picture) -> None:
        """Speak of this picture."""
        self._subject.point(picture, entry.name)
        self._takes = entry.takes
        self.title.reset()
        self.refresh()

    def refresh(self) -> None:
        """Show what the episode holds."""
        episode, picture = self._document.episode, self._subject.picture
        title = choice_of(episode, picture).title
        self.title_note.setVisible(any(character.isdigit() for character in title))
        self._show_look(episode.look)
        self.tires.tires.show_choice(episode, choice_of(episode, picture).specimens, self._takes)
        some = self._takes > 0 and self.tires.tires.rowCount() > 0
        self._tires_box.setVisible(some)
        most = "One tire" if self._takes == 1 else f"Up to {self._takes} tires"
        self.tires_note.setText(f"{most}; with none checked, the picture chooses.")

    def _show_look(self, name: str) -> None:
        """The shipped looks, and the channel's own where the episode has one; why it cannot be used, if it cannot."""
        for row in range(self.look.count() - 1, len(shipped_looks()) - 1, -1):
            self.look.removeItem(row)
        fault, chosen = self._book.fault, self._book.chosen
        if is_own(name) or fault:
            self.look.addItem(f"{name} cannot be used" if fault else f"{chosen.name}, ours", name)
        self.look.setCurrentIndex(self.look.findData(name))
        self.look_problem.setText(f"{fault}. Until then pictures are drawn in {chosen.name}." if fault else "")
        self.look_problem.setVisible(bool(fault))

    def show_view(self, view: View) -> None:
        """Show how the picture is looked at."""
        self._view = view
        self.frame.show_value(frame_key(view.frame))
        self.background.show_value(view.background)
        self.captions.setChecked(view.frame.captions)

    def show_own_title(self, title: str) -> None:
        """The title that the picture has by itself, where none is typed."""
        self.title.setPlaceholderText(title)

    def add_below(self, widget: QWidget) -> None:
        """Something else that stands under the choices."""
        self._column.insertWidget(self._column.count() - 1, widget)

    def commit(self) -> None:
        """Take in what is typed and not yet entered."""
        self.title.commit()
        self.frame.commit()
        self.background.commit()

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(2 * GRID, 2 * GRID, 2 * GRID, 2 * GRID)
        column.setSpacing(GRID + 4)
        for widget in (below(GRID // 2, FieldBox("Title", self.title, wide=True), self.title_note), self._tires_box,
                       below(GRID // 2, FieldBox("Look of the channel", self.look, wide=True), self.look_problem,
                             flow(self.make_look)), self.frame, self.captions, self.background):  # fmt: skip
            column.addWidget(widget)
        column.addStretch(1)
        self._column = column
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)

    def _connect(self) -> None:
        self.tires.tires.chosen.connect(self._choose_tires)
        self.look.activated.connect(self._choose_look)
        self.frame.taken.connect(self._choose_frame)
        self.background.taken.connect(self._choose_background)
        self.captions.clicked.connect(self._keep_captions)

    def _choose_tires(self, ids: tuple[str, ...]) -> None:
        episode = self._document.episode
        choice = with_fields(choice_of(episode, self._subject.picture), specimens=ids)
        self._document.edit(f"Choose the tires of {self._subject.name}", with_choice(episode, choice))

    def _choose_look(self, _row: int) -> None:
        id_, name = self.look.currentData(), self.look.currentText()
        self._document.edit(f"Choose the look {name}", with_fields(self._document.episode, look=id_))

    def _choose_frame(self, text: str) -> None:
        frame = with_fields(read_frame(text), captions=self._view.frame.captions)
        self.changed.emit(replace(self._view, frame=frame))

    def _keep_captions(self, wanted: bool) -> None:
        frame: Frame = with_fields(self._view.frame, captions=wanted)
        self.changed.emit(replace(self._view, frame=frame))

    def _choose_background(self, text: str) -> None:
        self.changed.emit(replace(self._view, background=text))

    def _look(self) -> Look:
        return self._book.chosen


def below(spacing: int, *widgets: QWidget) -> QWidget:
    """Widgets below each other, as one."""
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(spacing)
    for widget in widgets:
        column.addWidget(widget)
    return holder


def names_of(pictures: Mapping[str, Picture]) -> dict[str, str]:
    """The pictures' names by id."""
    return {id_: entry.name for id_, entry in pictures.items()}
