"""Frame and background: chosen from a short list, or typed where the list does not have it."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio.graphics.frame import Frame, read_frame
from studio.graphics.look import Look, read_background
from studio.handoff.picture_files import frame_name
from studio.window.chooser import Chooser
from studio.window.form_parts import FieldBox
from studio.window.labels import name_field, plain_label
from studio.window.palette import GRID
from studio.window.pictures_view import KEY_COLOR
from studio.window.undo_keys import LineEdit

FRAME_LIST: tuple[tuple[str, str], ...] = (
    ("wide", "Wide, 1920 × 1080"), ("3840x2160", "Wide, 3840 × 2160"), ("tall", "Tall, 1080 × 1920"),
    ("square", "Square, 1080 × 1080"),
)  # fmt: skip
BACKGROUND_LIST: tuple[tuple[str, str], ...] = (("look", "The look's own"), ("clear", "Clear"))
_OTHER = "other"


class ListOrTyped(QWidget):
    """A list whose last entry opens a field. ``taken`` gives what was chosen, or typed and found good."""

    taken = Signal(str)

    def __init__(
        self, label: str, listed: tuple[tuple[str, str], ...], other: str, example: str, check: Callable[[str], object]
    ) -> None:
        super().__init__()
        self._check = check
        self.chooser, self.field = Chooser(16), LineEdit()
        self.problem = plain_label("", "problem", wrap=True)
        for key, words in (*listed, (_OTHER, other)):
            self.chooser.addItem(words, key)
        name_field(self.field, f"{label}: {other}", f"such as {example}")
        self.field.setPlaceholderText(example)
        self.field.setMaxLength(20)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID // 2)
        for widget in (FieldBox(label, self.chooser, wide=True), self.field, self.problem):
            column.addWidget(widget)
        self.chooser.activated.connect(self._activated)
        self.field.returnPressed.connect(self.commit)
        self.field.editingFinished.connect(self.commit)
        self.show_value(listed[0][0])

    def show_value(self, value: str) -> None:
        """Show this value: by its entry in the list, else in the field."""
        row = self.chooser.findData(value)
        typed = row < 0
        self.chooser.setCurrentIndex(self.chooser.findData(_OTHER) if typed else row)
        if typed:
            self.field.setText(value)
        self.field.setVisible(typed)
        self._show_problem("")

    def commit(self) -> None:
        """Take in what is typed; what cannot be read stays there with the reason."""
        text = self.field.text().strip()
        if not self.field.isVisibleTo(self) or not text:
            return
        try:
            self._check(text)
        except ValueError as error:
            self._show_problem(str(error))
        else:
            self._show_problem("")
            self.taken.emit(text)

    def _activated(self, _row: int) -> None:
        key = self.chooser.currentData()
        self.field.setVisible(key == _OTHER)
        if key == _OTHER:
            self.field.setFocus()
            self.field.selectAll()
            self.commit()
        else:
            self._show_problem("")
            self.taken.emit(key)

    def _show_problem(self, problem: str) -> None:
        self.problem.setText(problem)
        self.problem.setVisible(bool(problem))
        self.field.setAccessibleDescription(problem)


def frame_chooser() -> ListOrTyped:
    """The frames offered, or any other as WIDTHxHEIGHT."""
    return ListOrTyped("Frame", FRAME_LIST, "Other size", "1280x720", read_frame)


def background_chooser(look: Callable[[], Look]) -> ListOrTyped:
    """The look's own ground, none, or a key colour as #RRGGBB."""

    def check(text: str) -> None:
        read_background(text, look())

    chooser = ListOrTyped("Background", BACKGROUND_LIST, "Key colour", KEY_COLOR, check)
    chooser.field.setText(KEY_COLOR)
    return chooser


def frame_key(frame: Frame) -> str:
    """A frame as the list knows it."""
    return frame_name(frame)
