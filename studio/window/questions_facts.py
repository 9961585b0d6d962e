"""What was read from the comment, as fields: each can be set right, dropped by emptying it, or added."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from studio.model.question import Question
from studio.questions.facts import Fact
from studio.window.chooser import Chooser
from studio.window.document import Document
from studio.window.elided import ElidedLine
from studio.window.fields import ValueField
from studio.window.form_parts import ProblemLine
from studio.window.labels import field_label, name_field, plain_label, plain_tooltip
from studio.window.layouts import put_in_place
from studio.window.palette import GRID
from studio.window.questions_open import corrected_value, with_correction
from studio.window.questions_words import (
    FACTS,
    aside,
    can_be_typed,
    checked,
    field_of,
    how_read,
    quoted,
    shown,
    words_of,
)
from studio.window.subject import PathSubject

MOST_SHOWN = 40
_ADD = "Add a fact…"
_BESIDE = ("place", "units", "region", "made_year")  # follow from other words, and stand last


class FactField(ValueField):
    """One fact of a question: shown as read, or as it was set right. Empty drops the fact."""

    def __init__(self, subject: PathSubject, name: str, fact: Fact | None, document: Document) -> None:
        self.name, self.fact = name, fact
        self._document = document
        super().__init__(subject, "corrected", words_of(name), chars=12, most=100)
        self.through(self._shown_of, self._with)
        self.setReadOnly(not can_be_typed(field_of(name)))

    def read(self, text: str) -> str:
        """The value as typed, once it can be read."""
        return checked(field_of(self.name), text, self._document.episode.units, self._document.tables)

    def aside_of(self, value: object) -> str:
        """The other unit system."""
        return aside(field_of(self.name), str(value or ""), self._document.episode.units)

    def _shown_of(self, question: Question) -> str:
        corrected = corrected_value(question, self.name)
        return corrected if corrected is not None else shown(self.fact) if self.fact else ""

    def _with(self, question: Question, value: str | None) -> Question:
        if self.fact is None and value is None:
            return with_correction(question, self.name, None)
        if self.fact is not None and value == shown(self.fact):
            return with_correction(question, self.name, None)
        return with_correction(question, self.name, value or "")


class FactsPanel(QWidget):
    """The facts of one question. ``at_hand`` gives the name of the fact whose field has the focus."""

    at_hand = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self._subject = PathSubject(document, "", "what was read:")
        self._shown: tuple[object, ...] = ()
        self.fields: dict[str, FactField] = {}
        self.add = Chooser(16)
        name_field(self.add, "Add a fact")
        self.add.addItem(_ADD, "")
        for field, kind in FACTS.items():
            self.add.addItem(kind.words, field)
        self.add.activated.connect(self._add_chosen)
        self._more = plain_label("", "quiet", wrap=True)
        self._problem = ProblemLine()
        self._rows = QWidget()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(GRID // 2)
        self._column.addWidget(plain_label("What was read", "strong"))
        for widget in (self._rows, self._more, self._problem, self.add):
            self._column.addWidget(widget, 0)
        self._column.setAlignment(self.add, Qt.AlignmentFlag.AlignLeft)

    def show_facts(self, place: int, question: Question, facts: Sequence[tuple[str, Fact]]) -> None:
        """Show the facts of ``questions[place]``; fields that stay keep their text and the focus."""
        self._subject.point(f"questions[{place}]", "what was read:")
        known = [name for name, _ in facts]
        added = [its.field for its in question.corrected if its.field not in known and field_of(its.field) in FACTS]
        first = sorted(facts, key=lambda its: field_of(its[0]) in _BESIDE)
        rows = [*first[:MOST_SHOWN], *((name, None) for name in added)]
        pending = [name for name, field in self.fields.items() if field.fact is None and field.hasFocus()]
        rows += [(name, None) for name in pending if name not in added and name not in known]
        self._more.setText(f"and {len(facts) - MOST_SHOWN} more, not shown" if len(facts) > MOST_SHOWN else "")
        self._more.setVisible(len(facts) > MOST_SHOWN)
        now = (question.id, place, tuple((name, fact) for name, fact in rows))
        if now == self._shown:
            for field in self.fields.values():
                field.refresh()
            return
        self._shown = now
        self._fill(rows)

    def focus_fact(self, name: str) -> None:
        """Go to the field of this fact."""
        if name in self.fields:
            self.fields[name].setFocus(Qt.FocusReason.ShortcutFocusReason)

    def commit(self) -> None:
        """Take in what is typed."""
        for field in tuple(self.fields.values()):
            field.commit()

    def add_fact(self, field: str) -> None:
        """A row for one more fact of this field, ready to type."""
        taken, number, name = {*self.fields}, 2, field
        while name in taken:
            name, number = f"{field}_{number}", number + 1
        rows = [(its, row.fact) for its, row in self.fields.items()]
        self._shown = ()
        self._fill([*rows, (name, None)])
        self.focus_fact(name)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A field that is gone to sets its words off in the comment."""
        if event.type() == QEvent.Type.FocusIn and isinstance(watched, FactField):
            self.at_hand.emit(watched.name)
        elif event.type() == QEvent.Type.FocusOut:
            self.at_hand.emit("")
        return False

    def _fill(self, rows: Sequence[tuple[str, Fact | None]]) -> None:
        focused = next((name for name, field in self.fields.items() if field.hasFocus()), "")
        self._problem.clear_watch()
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GRID)
        grid.setVerticalSpacing(3)
        grid.setColumnStretch(2, 1)
        self.fields = {}
        for number, (name, fact) in enumerate(rows):
            self._add_row(grid, number, name, fact)
        if not rows:
            grid.addWidget(plain_label("Nothing that a tire says.", "quiet"), 0, 0)
        put_in_place(self._column, self._rows, holder)
        self._rows.hide()
        self._rows.deleteLater()
        self._rows = holder
        holder.show()
        self._in_tab_order()
        if focused in self.fields:
            self.fields[focused].setFocus()

    def _add_row(self, grid: QGridLayout, number: int, name: str, fact: Fact | None) -> None:
        field = FactField(self._subject, name, fact, self._document)
        label = field_label(words_of(name), field)
        how = how_read(fact) if fact else f"added; such as {FACTS[field_of(name)].example}"
        told = ElidedLine()
        plain_tooltip(told, how)
        plain_tooltip(field, "" if not field.isReadOnly() else "It follows from other words; empty it to drop it")
        field.installEventFilter(self)
        self._problem.watch(field)
        grid.addWidget(label, number, 0)
        grid.addWidget(field, number, 1)
        grid.addWidget(told, number, 2)
        told.show_text(quoted(fact) if fact else how)  # only now: what is shown without a parent is a window
        self.fields[name] = field

    def _in_tab_order(self) -> None:
        before: QWidget | None = None
        for field in (*self.fields.values(), self.add):
            if before is not None:
                QWidget.setTabOrder(before, field)
            before = field

    def _add_chosen(self, row: int) -> None:
        field = self.add.itemData(row)
        self.add.setCurrentIndex(0)
        if field:
            self.add_fact(field)
