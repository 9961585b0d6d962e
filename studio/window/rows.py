"""A list in a form: one row of fields for each entry, a button to add one, a button in each row to remove it."""

from collections.abc import Callable, Sequence
from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from studio.window.document import Document
from studio.window.flow import flow, low
from studio.window.labels import name_field, push_button
from studio.window.subject import Subject


class RowSubject:
    """One entry of a list that belongs to another subject."""

    def __init__(self, owner: Subject, part: str, index: int, what: str) -> None:
        self._owner, self._part, self._index, self._what = owner, part, index, what

    @property
    def document(self) -> Document:
        """The document that is edited."""
        return self._owner.document

    @property
    def path(self) -> str:
        """The path of the entry."""
        return f"{self._owner.path}.{self._part}[{self._index}]"

    @property
    def words(self) -> str:
        """The entry in words."""
        return f"{self._owner.words} {self._what} {self._index + 1}"

    def value(self) -> Any:
        """The entry; None where it is no longer there."""
        owner = self._owner.value()
        rows = getattr(owner, self._part) if owner is not None else ()
        return rows[self._index] if self._index < len(rows) else None

    def write(self, what: str, after: Any, merge: str = "") -> str:
        """Make the entry ``after``."""
        owner = self._owner.value()
        rows = list(getattr(owner, self._part))
        rows[self._index] = after
        text = f"{self._what} {self._index + 1} {what}".strip()
        return self._owner.write(text, replace(owner, **{self._part: tuple(rows)}), merge)


class RowsForm(QWidget):
    """The rows of ``part`` of a subject. ``fields_of`` makes the widgets of a row, ``new`` makes an entry to add."""

    rebuilt = Signal()
    """There are more rows or fewer now."""

    def __init__(
        self,
        subject: Subject,
        part: str,
        what: str,
        fields_of: Callable[[RowSubject], Sequence[QWidget]],
        new: Callable[[], Any],
    ) -> None:
        super().__init__()
        self._subject, self._part, self._what = subject, part, what
        self._fields_of, self._new = fields_of, new
        self._rows: list[QWidget] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(8)
        self._add = push_button(f"Add {what}", self._add_row)
        self._layout.addWidget(flow(self._add))
        subject.document.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Have as many rows as there are entries; the fields look after their own texts."""
        count = len(self._entries())
        if count == len(self._rows):
            return
        while len(self._rows) > count:
            row = self._rows.pop()
            self._layout.removeWidget(row)
            row.hide()
            row.deleteLater()
        while len(self._rows) < count:
            self._rows.append(self._make_row(len(self._rows)))
            self._layout.insertWidget(len(self._rows) - 1, self._rows[-1])
            self._rows[-1].show()  # at once, so that a link can lead to it
        self.rebuilt.emit()

    def reset(self) -> None:
        """Make the rows anew: they speak of another part now."""
        while self._rows:
            row = self._rows.pop()
            self._layout.removeWidget(row)
            row.hide()
            row.deleteLater()
        self.refresh()

    def _entries(self) -> tuple[Any, ...]:
        value = self._subject.value()
        return tuple(getattr(value, self._part)) if value is not None else ()

    def _make_row(self, index: int) -> QWidget:
        remove = push_button("Remove", self._remove_row)
        name_field(remove, f"Remove {self._what} {index + 1}")
        remove.setProperty("row", index)
        return flow(*self._fields_of(RowSubject(self._subject, self._part, index, self._what)), low(remove))

    def _add_row(self) -> None:
        value = self._subject.value()
        if value is None:
            return
        rows = (*getattr(value, self._part), self._new())
        self._subject.write(f"{self._what} added", replace(value, **{self._part: rows}))
        if len(self._rows) == len(rows):
            first = next((its for its in self._rows[-1].findChildren(QWidget) if _takes_keys(its)), None)
            if first is not None:
                first.setFocus(Qt.FocusReason.OtherFocusReason)

    def _remove_row(self) -> None:
        value, button = self._subject.value(), self.sender()
        if value is None or not isinstance(button, QPushButton):
            return
        index = button.property("row")
        rows = tuple(row for number, row in enumerate(getattr(value, self._part)) if number != index)
        self._subject.write(f"{self._what} {index + 1} removed", replace(value, **{self._part: rows}))
        self._add.setFocus()


def _takes_keys(widget: QWidget) -> bool:
    return hasattr(widget, "path") and bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
