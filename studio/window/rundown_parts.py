"""What goes with a segment besides its words, folded until wanted: pictures, shots, props, the work that it shows."""

from collections.abc import Sequence
from typing import Any

from msgspec.structs import replace
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QVBoxLayout, QWidget

from studio.model.rundown import PictureCue, Segment, Shot
from studio.window.document import Document
from studio.window.fields import TextField
from studio.window.flow import flow, low
from studio.window.fold import Fold
from studio.window.form_parts import FieldBox, ProblemLine
from studio.window.labels import button_text, plain_label, push_button
from studio.window.place import Workshop
from studio.window.rows import RowsForm, RowSubject
from studio.window.rundown_fields import StepsField, WithPointField, cue_words
from studio.window.rundown_steps import StepsButton
from studio.window.subject import PathSubject
from studio.window.value_fields import ChoiceField

_NOTHING = "none"


class SegmentParts(QWidget):
    """The folds of one segment; ``show_segment`` makes them speak of another."""

    def __init__(self, workshop: Workshop, names: dict[str, str], cautions: Sequence[str]) -> None:
        super().__init__()
        document = workshop.document
        self._jobs, self._names, self._cautions = workshop.jobs, names, cautions
        self.subject = PathSubject(document, "rundown.segments[0]", "")
        self._forms: list[RowsForm] = []
        self.work = push_button("&Choose the work shown", self._show_menu)
        self.menu = QMenu(self)
        self.menu.aboutToShow.connect(self._fill_menu)
        self.pictures = Fold(document, "Pictures", self._picture_words, self._pictures())
        self.shots = Fold(document, "Shots", self._shot_words, self._shots())
        self.props = Fold(document, "Props", self._prop_words, self._props())
        note = "The caution of each kind of work chosen stands with the segment. It cannot be switched off."
        self.shown = Fold(
            document, "Work shown", self._work_words, plain_label(note, "quiet", wrap=True), flow(self.work)
        )
        self.folds = (self.pictures, self.shots, self.props, self.shown)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for fold in self.folds:
            column.addWidget(fold)

    def show_segment(self, index: int, title: str) -> None:
        """Speak of another segment."""
        if self.subject.path != f"rundown.segments[{index}]":
            self.subject.point(f"rundown.segments[{index}]", title)
            for form in self._forms:
                form.reset()
        for fold in self.folds:
            fold.refresh()

    def lead_to(self, path: str) -> bool:
        """Unfold and focus what shows ``path``; False where nothing here does."""
        fold = next((fold for fold in self.folds if fold.holds(path)), None)
        if fold is None:
            return False
        fold.unfold()
        fields = [widget for widget in fold.findChildren(QWidget) if getattr(widget, "path", "")]
        wanted = next((its for its in fields if str(getattr(its, "path", "")).startswith(path)), fields[0])
        wanted.setFocus()
        return True

    def lead_to_work(self) -> None:
        """Unfold the work shown and focus its button."""
        self.shown.unfold()
        self.work.setFocus()

    def _pictures(self) -> QWidget:
        return self._rows("pictures", "picture", self._picture_row, self._new_cue)

    def _shots(self) -> QWidget:
        return self._rows("shots", "shot", _shot_row, lambda: Shot(text=""))

    def _props(self) -> QWidget:
        return self._rows("props", "prop", _prop_row, lambda: "")

    def _rows(self, part: str, what: str, fields: Any, new: Any) -> RowsForm:
        form = RowsForm(self.subject, part, what, fields, new)
        self._forms.append(form)
        return form

    def _new_cue(self) -> PictureCue:
        return PictureCue(picture=next(iter(self._names), ""))

    def _picture_row(self, row: RowSubject) -> Sequence[QWidget]:
        choices = list(self._names.items())
        held = row.value()
        if held is not None and held.picture not in self._names:
            choices.append((held.picture, f"{held.picture}: no such picture"))
        which = ChoiceField(row, "picture", "", choices, chars=18)
        point = WithPointField(row, "with_point", "point", chars=4, most=6)
        steps = StepsField(row, "steps", "steps", chars=18, most=2000)
        steps.setPlaceholderText("all")
        return (FieldBox("Picture", which), FieldBox("With point", point),
                FieldBox("Steps, by name", steps, wide=True), low(StepsButton(row, self._jobs)),
                ProblemLine(point, steps))  # fmt: skip

    def _segment(self) -> Segment | None:
        value = self.subject.value()
        return value if isinstance(value, Segment) else None

    def _picture_words(self, _document: Document) -> str:
        segment = self._segment()
        return "; ".join(cue_words(cue, self._names) for cue in segment.pictures) if segment else _NOTHING

    def _shot_words(self, _document: Document) -> str:
        segment = self._segment()
        held = [", ".join(part for part in (s.text, s.framing) if part) for s in segment.shots] if segment else []
        return "; ".join(held) or _NOTHING

    def _prop_words(self, _document: Document) -> str:
        segment = self._segment()
        return ", ".join(segment.props) if segment and segment.props else _NOTHING

    def _work_words(self, _document: Document) -> str:
        segment = self._segment()
        return ", ".join(work.replace("_", " ") for work in segment.shows) if segment and segment.shows else _NOTHING

    def _show_menu(self) -> None:
        self.menu.popup(self.work.mapToGlobal(self.work.rect().bottomLeft()))

    def _fill_menu(self) -> None:
        segment = self._segment()
        shows = segment.shows if segment else ()
        self.menu.clear()
        for work in (*self._cautions, *(its for its in shows if its not in self._cautions)):
            action = QAction(button_text(work.replace("_", " ").capitalize()), self.menu)
            action.setCheckable(True)
            action.setChecked(work in shows)
            action.setData(work)
            action.triggered.connect(self._work_chosen)
            self.menu.addAction(action)

    def _work_chosen(self, checked: bool) -> None:
        action, segment = self.sender(), self._segment()
        if isinstance(action, QAction) and segment is not None:
            others = tuple(its for its in segment.shows if its != action.data())
            shows = (*others, action.data()) if checked else others
            self.subject.write("work shown", replace(segment, shows=shows))


def _shot_row(row: RowSubject) -> Sequence[QWidget]:
    text = TextField(row, "text", "", chars=22, most=200)
    framing = TextField(row, "framing", "framing", chars=16, most=200)
    for field in (text, framing):
        field.setCursorPosition(0)
    return FieldBox("Shot", text, wide=True), FieldBox("Framing", framing, wide=True)


def _prop_row(row: RowSubject) -> Sequence[QWidget]:
    field = TextField(row, "name", "", chars=22, most=200)
    field.through(lambda value: value, lambda _before, new: new)
    field.setCursorPosition(0)
    return (FieldBox("Prop", field, wide=True),)
