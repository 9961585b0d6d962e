"""Parts of a form: a field under its label, a section under its title, the line that says what was refused."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from studio.reference.tables import Tables
from studio.window.fields import Field
from studio.window.labels import field_label, plain_label


class FieldBox(QWidget):
    """A field with its label above it. A ``wide`` one takes what is left of its line."""

    def __init__(self, label: str, field: QWidget, *, wide: bool = False) -> None:
        super().__init__()
        self.field = field
        self.label = field_label(label, field)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self.label)
        layout.addWidget(field)
        layout.addStretch(1)
        across = QSizePolicy.Policy.Expanding if wide else QSizePolicy.Policy.Fixed
        self.setSizePolicy(across, QSizePolicy.Policy.Preferred)
        field.setSizePolicy(across, field.sizePolicy().verticalPolicy())


class ProblemLine(QLabel):
    """One line under a group of fields: what speaks against the text typed into one of them. Hidden where nothing does.

    Assistive technology hears of it by the field's description.
    """

    def __init__(self, *fields: Field) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("role", "problem")
        self.setWordWrap(True)
        self.setContentsMargins(10, 0, 0, 0)
        self.setVisible(False)
        self._fields: list[Field] = []
        self.watch(*fields)

    def watch(self, *fields: Field) -> None:
        """Look after these fields too."""
        for field in fields:
            self._fields.append(field)
            field.problem_changed.connect(self.look)

    def look(self) -> None:
        """Show the first problem there is."""
        problem = next((field.problem for field in self._fields if field.problem), "")
        self.setText(problem)
        self.setVisible(bool(problem))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The words, and a bar in ink before them."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.fillRect(0, 0, 3, self.height(), self.palette().color(QPalette.ColorRole.WindowText))
        painter.end()

    def clear_watch(self) -> None:
        """Look after no field any more."""
        for field in self._fields:
            field.problem_changed.disconnect(self.look)
        self._fields.clear()
        self.look()


def section(title: str, *parts: QWidget) -> QWidget:
    """Parts below each other under a title; set apart from the next section by space alone."""
    holder = QWidget()
    layout = QVBoxLayout(holder)
    layout.setContentsMargins(0, 8, 0, 8)
    layout.setSpacing(8)
    if title:
        layout.addWidget(plain_label(title, "strong"))
    for part in parts:
        layout.addWidget(part)
    return holder


def caution_note(tables: Tables, *names: str) -> QWidget:
    """Cautions from the table, each with its signal word; shown where the work is asked for."""
    holder = QWidget()
    layout = QVBoxLayout(holder)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(4)
    for name in names:
        row = QHBoxLayout()
        layout.addLayout(row)
        row.setSpacing(8)
        signal = plain_label(tables.cautions[name].signal, "strong")
        signal.setAlignment(Qt.AlignmentFlag.AlignTop)
        row.addWidget(signal)
        row.addWidget(plain_label(tables.cautions[name].text, wrap=True), 1)
    return holder
