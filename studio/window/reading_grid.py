"""The grid of one reading: grooves by places round the tire, entered as a person goes round with the gauge.

Enter takes a value in and goes on: along one groove, then to the next groove, then to the next tire. Tab does the same
within the grid. Arrow keys move between neighbours. A pasted column fills the grid in the same order, as one step.
"""

from typing import Any

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QGridLayout, QWidget

from studio.decide.gauge import finer_than_read
from studio.model.entry import read_quantity
from studio.model.quantity import Quantity
from studio.model.specimen import Reading
from studio.window.fields import ValueField
from studio.window.grid_words import groove_words
from studio.window.labels import name_field, plain_label
from studio.window.layouts import clear_out
from studio.window.pasted import PasteError, pasted_depths
from studio.window.reading_subject import ReadingSubject, depth_at, with_depth
from studio.window.value_fields import other_unit

_ARROWS = {Qt.Key.Key_Up: (-1, 0), Qt.Key.Key_Down: (1, 0), Qt.Key.Key_Left: (0, -1), Qt.Key.Key_Right: (0, 1)}


class DepthCell(ValueField):
    """One depth: ``5/32``, ``5``, ``4 mm``; the other unit stands lightly beside it."""

    entered = Signal(int)
    """Enter was pressed and the value was taken in; 1 goes on, -1 goes back."""
    moved = Signal(int, int)
    """An arrow key asks for a neighbour: so many grooves, so many places."""
    block_pasted = Signal(str)
    """More than one value was pasted."""

    def __init__(self, subject: ReadingSubject, groove: int, station: int) -> None:
        super().__init__(subject, f"depths[{groove}][{station}]", "", chars=10, most=40)
        self._reading_subject = subject
        self._asked = self._sure = ""
        self.groove, self.station = groove, station
        self.through(self._depth, self._with_depth)

    def _depth(self, reading: Reading) -> Quantity | None:
        return depth_at(reading, self.groove, self.station)

    def _with_depth(self, reading: Reading, read: Quantity | None) -> Reading:
        return with_depth(reading, self.groove, self.station, read)

    def read(self, text: str) -> Quantity:
        """The depth that ``text`` states; a bare number is in the reading's unit."""
        reading = self._reading_subject.value()
        return read_quantity(text, "depth", reading.unit if reading else "32nds")

    def words_of(self, value: Any) -> str:
        """The number alone: its unit stands over the grid."""
        return value.digits() if isinstance(value, Quantity) else ""

    def aside_of(self, value: Any) -> str:
        """The other unit."""
        return other_unit(value) if isinstance(value, Quantity) else ""

    def commit(self) -> bool:
        """Take in the typed text; where it is finer than the gauge can be read, ask first. The text stays."""
        text = self.text().strip()
        if self.is_pending and text and text != self._sure and (question := self._question(text)):
            self._asked = text
            self.set_problem(question)
            return False
        self._asked = self._sure = ""
        return super().commit()

    def _question(self, text: str) -> str:
        reading = self._reading_subject.value()
        try:
            read = self.read(text)
        except ValueError:  # it is refused anyway
            return ""
        finer = finer_than_read(read, reading.gauge, self.subject.document.tables) if reading else ""
        return f"{finer}: Enter once more takes it as it is, Esc gives it up" if finer else ""

    def minimumSizeHint(self) -> QSize:
        """Room for the number alone, where many places stand side by side."""
        return QSize(self.fontMetrics().horizontalAdvance("00.0") + 20, self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on where the value can be; arrows move; a pasted column goes to the grid."""
        key = event.key()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self.problem and self._asked == self.text().strip():
                self._sure = self._asked  # asked and answered
            if self.commit():
                self.entered.emit(-1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1)
            else:
                self.selectAll()
        elif event.matches(QKeySequence.StandardKey.Paste) and _is_block(QGuiApplication.clipboard().text()):
            self.block_pasted.emit(QGuiApplication.clipboard().text())
        elif self._leaves_by(event):
            self.moved.emit(*_ARROWS[Qt.Key(key)])
        else:
            super().keyPressEvent(event)

    def _leaves_by(self, event: QKeyEvent) -> bool:
        """Whether an arrow key leaves the cell: up and down do, left and right at the text's ends."""
        key = event.key()
        if key not in _ARROWS or event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            return False
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            return True
        whole = self.selectedText() == self.text()
        return whole or self.cursorPosition() == (0 if key == Qt.Key.Key_Left else len(self.text()))


def _is_block(text: str) -> bool:
    return any(sign in text.strip() for sign in "\n\r\t")


class ReadingGrid(QWidget):
    """The cells of one reading, made anew only when the grid has another shape."""

    finished = Signal(int)
    """Enter was pressed in the last cell (1), or Shift and Enter in the first (-1)."""
    refused = Signal(str)
    """What speaks against what was pasted; empty where nothing does."""
    rebuilt = Signal()
    """The cells are others now."""

    def __init__(self, subject: ReadingSubject) -> None:
        super().__init__()
        self._subject = subject
        self._cells: list[list[DepthCell]] = []
        self._shape: tuple[int, int] = (0, 0)
        self._layout = QGridLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setHorizontalSpacing(8)
        self._layout.setVerticalSpacing(4)
        subject.document.changed.connect(self.refresh)
        self.refresh()

    @property
    def cells(self) -> list[DepthCell]:
        """All cells in the order of measuring."""
        return [cell for row in self._cells for cell in row]

    def cell(self, groove: int, station: int) -> DepthCell | None:
        """The cell of a depth; None outside the grid."""
        inside = 0 <= groove < self._shape[0] and 0 <= station < self._shape[1]
        return self._cells[groove][station] if inside else None

    def refresh(self) -> None:
        """Show the reading; the cells look after their own texts."""
        reading = self._subject.value()
        depths = reading.depths if reading else ()
        shape = (len(depths), max((len(groove) for groove in depths), default=0))
        if shape != self._shape:
            self._build(shape)

    def reset(self) -> None:
        """Give up what is typed: another reading is shown."""
        self.refresh()
        for cell in self.cells:
            cell.what = f"depth, {groove_words(cell.groove, self._shape[0])} groove, place {cell.station + 1}"
            name_field(cell, f"{self._subject.words}: {cell.what}")
            cell.reset()

    def focus_first_empty(self) -> None:
        """Focus the first cell in which nothing was read, or the first of all."""
        every = self.cells
        target = next((cell for cell in every if not cell.text()), every[0] if every else None)
        if target:
            target.setFocus(Qt.FocusReason.TabFocusReason)

    def _build(self, shape: tuple[int, int]) -> None:
        clear_out(self._layout)
        self._shape, self._cells = shape, []
        grooves, stations = shape
        for station in range(stations):
            self._layout.addWidget(plain_label(f"place {station + 1}", "quiet"), 0, station + 1)
        for groove in range(grooves):
            self._layout.addWidget(plain_label(groove_words(groove, grooves), "quiet"), groove + 1, 0)
            self._cells.append([self._new_cell(groove, station) for station in range(stations)])
        for column in range(1, stations + 1):
            self._layout.setColumnStretch(column, 1)
        self.reset()
        self.rebuilt.emit()

    def _new_cell(self, groove: int, station: int) -> DepthCell:
        cell = DepthCell(self._subject, groove, station)
        cell.entered.connect(self._go_on)
        cell.moved.connect(self._move)
        cell.block_pasted.connect(self._paste)
        self._layout.addWidget(cell, groove + 1, station + 1)
        return cell

    def _go_on(self, way: int) -> None:
        every = self.cells
        index = every.index(self._current()) + way
        if 0 <= index < len(every):
            every[index].setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self.finished.emit(way)

    def _move(self, grooves: int, stations: int) -> None:
        here = self._current()
        if target := self.cell(here.groove + grooves, here.station + stations):
            target.setFocus(Qt.FocusReason.TabFocusReason)

    def _current(self) -> DepthCell:
        sender = self.sender()
        assert isinstance(sender, DepthCell)
        return sender

    def _paste(self, text: str) -> None:
        """Fill the grid from the current cell on, as one step or not at all."""
        here, reading = self._current(), self._subject.value()
        if reading is None:
            return
        try:
            found = pasted_depths(text, reading, here.groove, here.station)
        except PasteError as error:
            self.refused.emit(str(error))
            return
        after = reading
        for groove, station, value in found:
            after = with_depth(after, groove, station, value)
        here.reset()
        refused = self._subject.write(f"depths, {len(found)} pasted", after)
        self.refused.emit(refused or self._remark([value for _, _, value in found if value], reading))

    def _remark(self, read: list[Quantity], reading: Reading) -> str:
        """What is to be said of what was pasted, which is taken as it is."""
        tables = self._subject.document.tables
        finer = [said for each in read if (said := finer_than_read(each, reading.gauge, tables))]
        more = f" ({len(finer)} of what was pasted are)" if len(finer) > 1 else ""
        return f"{finer[0]}{more}: taken as it is" if finer else ""

