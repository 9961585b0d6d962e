"""What stands on a sidewall: marking and date code, spelled out while they are typed; tread, season, depth when new."""

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from studio.window.elided import ElidedLine
from studio.window.fields import TextField, ValueField
from studio.window.flow import flow
from studio.window.form_parts import FieldBox, ProblemLine
from studio.window.labels import plain_label
from studio.window.spelled import Spelled, spell_date_code, spell_marking
from studio.window.subject import Subject
from studio.window.value_fields import ChoiceField, QuantityField
from studio.window.words import SEASONS, TREADS


class WrittenField(ValueField):
    """Text as it is written somewhere, which must be readable: taken in when the field is left."""

    optional = False

    def read(self, text: str) -> str:
        """The text itself; what cannot be is found by the checks of the episode."""
        return text

    def commit(self) -> bool:
        """Take in the typed text, an empty one too."""
        if self.is_pending:
            self.write(self.text().strip())
        return not self.problem

    def words_of(self, value: Any) -> str:
        """The text."""
        return value or ""


class SpelledView(QWidget):
    """A text spelled out: a line for each part while it is worked on, one line for all of them otherwise."""

    def __init__(self, field: ValueField) -> None:
        super().__init__()
        self._field = field
        self._layout = QGridLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setHorizontalSpacing(8)
        self._layout.setVerticalSpacing(0)
        self._layout.setColumnStretch(1, 1)
        self._line = ElidedLine()
        self._layout.addWidget(self._line, 0, 0, 1, 2)
        self._labels: list[tuple[QLabel, QLabel]] = []
        self._spelled = Spelled()

    def show_spelled(self, spelled: Spelled, *, short: bool) -> None:
        """Show this; ``short`` puts all on one line."""
        self._line.show_text(spelled.short if short else "")
        lines = [] if short else list(spelled.lines)
        lines += [("", text) for text in (spelled.problem, spelled.remark) if text]
        while len(self._labels) < len(lines):
            self._add_line()
        for index, (first, second) in enumerate(self._labels):
            text, meaning = lines[index] if index < len(lines) else ("", "")
            first.setText(text)
            second.setText(meaning)
            first.setVisible(bool(text))
            second.setVisible(bool(meaning))
        self.setVisible(bool(lines) or (short and bool(spelled.short)))

    def _add_line(self) -> None:
        row = len(self._labels) + 1
        pair = plain_label("", "strong"), plain_label("", "quiet", wrap=True)
        self._layout.addWidget(pair[0], row, 0, Qt.AlignmentFlag.AlignTop)
        self._layout.addWidget(pair[1], row, 1)
        self._labels.append(pair)

    @property
    def text(self) -> str:
        """All that is shown, for tests and assistive technology."""
        return "\n".join(f"{a.text()} {b.text()}".strip() for a, b in self._labels if not b.isHidden())


class SidewallForm(QWidget):
    """The fields of a sidewall, each with what was read from it underneath."""

    def __init__(self, subject: Subject) -> None:
        super().__init__()
        self._subject = subject
        self.name = TextField(subject, "name", "name", chars=18, most=200)
        self.marking = WrittenField(subject, "marking", "marking", chars=24)
        self.date_code = WrittenField(subject, "date_code", "date code", chars=7)
        self.tread = ChoiceField(subject, "tread", "tread", TREADS, chars=11)
        self.season = ChoiceField(subject, "season", "season", SEASONS, chars=9)
        self.depth_new = QuantityField(subject, "depth_new", "depth when new", "depth", chars=14)
        self.max_pressure = QuantityField(
            subject, "max_pressure", "highest pressure on the sidewall", "pressure", chars=12
        )
        self.marking_spelled = SpelledView(self.marking)
        self.date_spelled = SpelledView(self.date_code)
        self._lay_out()
        for field in (self.marking, self.date_code):
            field.textChanged.connect(self._spell)
            field.installEventFilter(self)
        subject.document.changed.connect(self._spell)
        self._spell()

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(flow(FieldBox("Mar&king", self.marking), FieldBox("&Name of this tire", self.name, wide=True)))
        layout.addWidget(self.marking_spelled)
        layout.addWidget(ProblemLine(self.marking))
        layout.addWidget(
            flow(
                FieldBox("Date &code", self.date_code),
                FieldBox("Tread", self.tread),
                FieldBox("Season", self.season),
                FieldBox("Depth when new", self.depth_new),
                FieldBox("Max. pressure on the sidewall", self.max_pressure),
            )
        )
        layout.addWidget(self.date_spelled)
        layout.addWidget(ProblemLine(self.date_code, self.depth_new, self.max_pressure))

    def reset(self) -> None:
        """Another tire is shown: give up what is typed."""
        for field in (self.name, self.marking, self.date_code, self.depth_new, self.max_pressure):
            field.reset()
        self.tread.refresh()
        self.season.refresh()
        self._spell()

    def eventFilter(self, watched: Any, event: Any) -> bool:
        """Spell out at length while a field is worked on."""
        if isinstance(event, QFocusEvent):
            self._spell(leaving=watched if event.lostFocus() else None, entering=watched if event.gotFocus() else None)
        return super().eventFilter(watched, event)

    def _spell(self, _text: str = "", leaving: Any = None, entering: Any = None) -> None:
        document = self._subject.document
        units = document.episode.units
        pairs = (
            (self.marking, self.marking_spelled, spell_marking(self.marking.text(), document.tables, units)),
            (self.date_code, self.date_spelled, spell_date_code(self.date_code.text(), document.episode.on)),
        )
        for field, view, spelled in pairs:
            working = (field.hasFocus() and field is not leaving) or field is entering or field.is_pending
            shown = replace(spelled, problem="") if field.problem else spelled
            view.show_spelled(shown, short=not working)
