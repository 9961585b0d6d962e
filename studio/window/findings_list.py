"""The list of findings under the questions that they answer; it keeps its place by a finding's id."""

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import QAbstractListModel, QItemSelectionModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QListView

from studio.model.finding import Finding
from studio.window.findings_delegate import ROW, FindingDelegate
from studio.window.findings_rows import Heading, Row, calls_for
from studio.window.palette import Appearance
from studio.window.quiet_list import make_quiet

Index = QModelIndex | QPersistentModelIndex


class FindingsModel(QAbstractListModel):
    """Headings and rows; headings cannot be chosen."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: tuple[Heading | Row, ...] = ()

    def show_rows(self, rows: tuple[Heading | Row, ...]) -> None:
        """Show these rows in place of those before."""
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row = self.rows[index.row()]
        if role == ROW:
            return row
        if role == Qt.ItemDataRole.DisplayRole:
            return row.question if isinstance(row, Heading) else row.finding.sentence
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{row.question} {row.calls}".strip() if isinstance(row, Heading) else row.spoken
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid() or isinstance(self.rows[index.row()], Heading):
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable

    def place_of(self, finding_id: str) -> int:
        """The row in which a finding stands; -1 where it is not listed."""
        ids = (row.finding.id if isinstance(row, Row) else None for row in self.rows)
        return next((number for number, its in enumerate(ids) if its == finding_id), -1)


class FindingsList(QListView):
    """Arrows move, Enter opens. ``chosen`` gives the finding at hand, ``opened`` says that it is wanted."""

    chosen = Signal(object)
    opened = Signal()

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.findings_model = FindingsModel()
        self._appearance = appearance
        self.setModel(self.findings_model)
        self.setItemDelegate(FindingDelegate(appearance, self))
        make_quiet(self)
        self.setAccessibleName("Findings")
        self.selectionModel().currentChanged.connect(self._current_changed)
        self.activated.connect(self._activated)
        appearance.changed.connect(self._appearance_changed)

    def show_rows(self, rows: tuple[Heading | Row, ...]) -> None:
        """Show these rows; the finding at hand stays at hand where it is still there, else its neighbour is."""
        before, number = self.current_finding(), self.currentIndex().row()
        self.findings_model.show_rows(rows)
        if before is None or not self.choose(before.id):
            self._choose_row(self._nearest(max(number, 0)))

    def current_finding(self) -> Finding | None:
        """The finding at hand."""
        row = self.currentIndex().data(ROW) if self.currentIndex().isValid() else None
        return row.finding if isinstance(row, Row) else None

    def chosen_rows(self) -> tuple[Row, ...]:
        """The selected rows in their order."""
        numbers = sorted(index.row() for index in self.selectedIndexes())
        found = (self.findings_model.rows[number] for number in numbers)
        return tuple(row for row in found if isinstance(row, Row))

    def choose(self, finding_id: str) -> bool:
        """Make this finding the one at hand; False where it is not listed."""
        number = self.findings_model.place_of(finding_id)
        if number >= 0:
            self._choose_row(number)
        return number >= 0

    def choose_next_call(self) -> bool:
        """Choose the next finding that calls for something to be done; False where none does."""
        return self._choose_next(lambda row: bool(calls_for([row.finding])))

    def find_text(self, text: str, elsewhere: Mapping[str, str]) -> bool:
        """Choose the next finding that holds ``text`` in its row or in ``elsewhere[id]``; False where none does."""
        wanted = text.casefold()

        def holds(row: Row) -> bool:
            return wanted in f"{row.spoken}\n{elsewhere.get(row.finding.id, '')}".casefold()

        return self._choose_next(holds)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens on every platform; the view itself reports it on some only."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()  # rows wrap to the width

    def _choose_next(self, wanted: Callable[[Row], bool]) -> bool:
        """From the finding at hand on, and round again from the top."""
        rows, start = self.findings_model.rows, self.currentIndex().row() + 1
        order = (number for number in (*range(start, len(rows)), *range(start)))
        found = (number for number in order if isinstance(row := rows[number], Row) and wanted(row))
        if (first := next(found, None)) is not None:
            self._choose_row(first)
        return first is not None

    def _choose_row(self, number: int) -> None:
        index = self.findings_model.index(number) if number >= 0 else QModelIndex()
        self.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        if index.isValid():
            self.scrollTo(index)
        else:
            self.chosen.emit(None)

    def _nearest(self, number: int) -> int:
        rows = self.findings_model.rows
        order = sorted(range(len(rows)), key=lambda place: (abs(place - number), place))
        return next((place for place in order if isinstance(rows[place], Row)), -1)

    def _current_changed(self, current: QModelIndex, _before: QModelIndex) -> None:
        self.chosen.emit(self.current_finding())

    def _activated(self, _index: QModelIndex) -> None:
        self.opened.emit()

    def _appearance_changed(self) -> None:
        self.scheduleDelayedItemsLayout()
        self.viewport().update()
