"""Fields for quantities, dates, counts, choices, yes or no, and notes."""

import datetime as dt
import itertools
from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QCheckBox, QSizePolicy

from studio.decide.wording import day_words
from studio.model.entry import read_quantity
from studio.model.quantity import UNITS, Kind, Quantity, System, UnitName
from studio.window.chooser import Chooser
from studio.window.fields import Field, ValueField
from studio.window.subject import Get, Set, Subject, attribute
from studio.window.undo_keys import PlainText

DEFAULT_UNITS: dict[str, tuple[UnitName, UnitName]] = {  # kind: what a bare number means (US, metric)
    "depth": ("32nds", "mm"), "length": ("in", "mm"), "pressure": ("psi", "kPa"), "distance": ("mi", "km"),
    "load": ("lb", "kg"), "temperature": ("degF", "degC"), "torque": ("lbf ft", "N m"), "share": ("%", "%"),
}  # fmt: skip
_VISITS = itertools.count(1)
_LONGEST_NOTE = 10_000


def default_unit(kind: Kind, system: System) -> UnitName:
    """What a bare number means where ``system`` comes first."""
    return DEFAULT_UNITS[kind][system == "metric"]


def entry_text(quantity: Quantity) -> str:
    """A quantity as a person would type it again: its own unit, all its digits, no thousands set apart."""
    number = quantity.digits()
    symbol = UNITS[quantity.unit].symbol
    return f"{number}{symbol}" if quantity.unit == "32nds" else f"{number} {symbol}".strip()


def other_unit(quantity: Quantity) -> str:
    """The quantity in the other unit system; empty where there is none."""
    systems: tuple[System, ...] = ("us", "metric")
    return next((other.text() for s in systems if (other := quantity.in_system(s)).unit != quantity.unit), "")


class QuantityField(ValueField):
    """A quantity in any of its units; the other unit system stands lightly beside it."""

    def __init__(self, subject: Subject, part: str, what: str, kind: Kind, *, chars: int = 15) -> None:
        super().__init__(subject, part, what, chars=chars, most=60)
        self.kind: Kind = kind

    def read(self, text: str) -> Quantity:
        """The quantity that ``text`` states; a bare number is in the unit of the episode's first system."""
        found = read_quantity(text, self.kind, default_unit(self.kind, self.subject.document.episode.units))
        # a depth and a length share their units, so they say their kind; with all others the unit says it
        return found if self.kind in ("depth", "length") else Quantity(found.value, found.unit)

    def words_of(self, value: Any) -> str:
        """As a person would type it again."""
        return entry_text(value) if isinstance(value, Quantity) else ""

    def aside_of(self, value: Any) -> str:
        """The other unit system."""
        return other_unit(value) if isinstance(value, Quantity) else ""


class CountField(ValueField):
    """A small whole number; the arrow keys up and down step it."""

    optional = False

    def __init__(self, subject: Subject, part: str, what: str, most: int) -> None:
        super().__init__(subject, part, what, chars=3, most=4)
        self._most = most

    def read(self, text: str) -> int:
        """The number that ``text`` states."""
        number = int(text) if text.isascii() and text.isdigit() else 0
        if not 1 <= number <= self._most:
            raise ValueError(f"{text[:20]!r} was read; expected from 1 to {self._most} {self.what}, such as 3")
        return number

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Step up and down."""
        step = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}.get(Qt.Key(event.key()))
        value = self.model_value()
        if step is not None and isinstance(value, int) and 1 <= value + step <= self._most:
            self.write(value + step)
            self.selectAll()
        elif step is None:
            super().keyPressEvent(event)


class DateField(ValueField):
    """A date, year first, so that it cannot be taken for another one."""

    def __init__(self, subject: Subject, part: str, what: str, *, optional: bool = False) -> None:
        super().__init__(subject, part, what, chars=21, most=30)
        self.optional = optional

    def read(self, text: str) -> dt.date:
        """The date that ``text`` states, year first."""
        return read_date(text)

    def words_of(self, value: Any) -> str:
        """Year, month, day."""
        return value.isoformat() if isinstance(value, dt.date) else ""

    def aside_of(self, value: Any) -> str:
        """The date in words."""
        return day_words(value) if isinstance(value, dt.date) else ""


def read_date(text: str) -> dt.date:
    """A date written year first; raises ValueError with what was read, what was expected, an example."""
    parts = text.replace("/", "-").replace(".", "-").split("-")
    try:
        year, month, day = (int(part) for part in parts)
        if len(parts[0].strip()) != 4:
            raise ValueError
        return dt.date(year, month, day)
    except ValueError:
        raise ValueError(f"{text[:30]!r} was read; expected a date, year first, such as 2025-06-14") from None


class ChoiceField(Chooser):
    """One of a few values."""

    def __init__(
        self, subject: Subject, part: str, what: str, choices: Sequence[tuple[Any, str]], *, chars: int = 12
    ) -> None:
        super().__init__(chars)
        self.subject, self.part, self.what = subject, part, what
        self._get, self._set = attribute(part)
        self._values = [value for value, _ in choices]
        self.addItems([words for _, words in choices])
        self.activated.connect(self._chosen)
        subject.document.changed.connect(self.refresh)
        self.refresh()

    @property
    def path(self) -> str:
        """The path into the episode of what is shown here."""
        return f"{self.subject.path}.{self.part}".removeprefix(".")

    def through(self, get: Get, set_: Set) -> "ChoiceField":
        """Read and write by these in place of the attribute ``part``."""
        self._get, self._set = get, set_
        self.refresh()
        return self

    def refresh(self) -> None:
        """Show what the episode holds."""
        value = self.subject.value()
        held = self._get(value) if value is not None else None
        self.setCurrentIndex(self._values.index(held) if held in self._values else -1)

    def _chosen(self, index: int) -> None:
        value = self.subject.value()
        if value is not None and self._values[index] != self._get(value):
            self.subject.write(self.what, self._set(value, self._values[index]))
        self.refresh()

class CheckField(QCheckBox):
    """Yes or no."""

    def __init__(self, subject: Subject, part: str, what: str, text: str) -> None:
        super().__init__(text)
        self.subject, self.part, self.what = subject, part, what
        self._get, self._set = attribute(part)
        self.clicked.connect(self._clicked)
        subject.document.changed.connect(self.refresh)
        self.refresh()

    @property
    def path(self) -> str:
        """The path into the episode of what is shown here."""
        return f"{self.subject.path}.{self.part}".removeprefix(".")

    def through(self, get: Get, set_: Set) -> "CheckField":
        """Read and write by these in place of the attribute ``part``."""
        self._get, self._set = get, set_
        self.refresh()
        return self

    def refresh(self) -> None:
        """Show what the episode holds."""
        value = self.subject.value()
        self.setChecked(value is not None and bool(self._get(value)))

    def _clicked(self, checked: bool) -> None:
        value = self.subject.value()
        if value is not None:
            self.subject.write(self.what, self._set(value, checked))
        self.refresh()


class NoteField(PlainText):
    """A few lines of plain text, taken in while they are typed; one visit is one step of undo."""

    def __init__(self, subject: Subject, part: str, what: str, lines: int = 3) -> None:
        super().__init__()
        self.subject, self.part, self.what, self._lines, self._visit = subject, part, what, lines, 0
        self._get, self._set = attribute(part)
        self._held, self._refreshing = "", False
        self.setTabChangesFocus(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.textChanged.connect(self._typed)
        subject.document.changed.connect(self.refresh)
        self.refresh()

    @property
    def path(self) -> str:
        """The path into the episode of what is shown here."""
        return f"{self.subject.path}.{self.part}".removeprefix(".")

    def sizeHint(self) -> QSize:
        """As high as the lines it was made for, in any text size."""
        metrics = self.fontMetrics()
        return QSize(metrics.horizontalAdvance("0") * 24, metrics.lineSpacing() * self._lines + 20)

    def minimumSizeHint(self) -> QSize:
        """As the hint."""
        return self.sizeHint()

    def refresh(self) -> None:
        """Show what the episode holds."""
        value = self.subject.value()
        held = "" if value is None else str(self._get(value))
        if held != self._held:
            self._held, self._refreshing = held, True
            self.setPlainText(held)
            self._refreshing = False

    def _typed(self) -> None:
        value, text = self.subject.value(), self.toPlainText()[:_LONGEST_NOTE]
        if self._refreshing:
            return  # setPlainText tells of itself, and has its own idea of line ends
        self._held = text
        if value is not None and self._get(value) != text:
            self.subject.write(self.what, self._set(value, text), merge=f"{self.path} {self._visit}")

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A new visit: what is typed now is a step of undo of its own."""
        self._visit = next(_VISITS)
        super().focusInEvent(event)


BoundField = Field | ChoiceField | CheckField | NoteField
OnProblem = Callable[[str], object]
