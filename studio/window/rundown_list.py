"""The list of segments, as on a rundown sheet: number, title, planned and said lengths, the running total."""

from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QMimeData,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    Qt,
    Signal,
)
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QListView

from studio.window.palette import Appearance
from studio.window.quiet_list import choose_index, make_quiet
from studio.window.rundown_delegate import ROW, SegmentDelegate
from studio.window.rundown_rows import SegmentRow

MIME = "application/x-rundown-segment"
WHOLE = -1
Index = QModelIndex | QPersistentModelIndex


class SegmentsModel(QAbstractListModel):
    """The whole rundown first, then its segments."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: tuple[SegmentRow, ...] = ()
        self.whole = ""

    def show_rows(self, rows: tuple[SegmentRow, ...], whole: str) -> None:
        """Show these; rows of the same segments are only redrawn, so that the choice stays."""
        same = [row.id for row in rows] == [row.id for row in self.rows]
        if same:
            self.rows, self.whole = rows, whole
            self.dataChanged.emit(self.index(0), self.index(len(rows)))
            return
        self.beginResetModel()
        self.rows, self.whole = rows, whole
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows) + 1

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row = self.rows[index.row() - 1] if index.row() else None
        if role == ROW:
            return row if row is not None else self.whole
        if role == Qt.ItemDataRole.DisplayRole:
            return row.title if row is not None else "The whole rundown"
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return row.spoken if row is not None else f"The whole rundown: {self.whole}"
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        usual = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return usual | Qt.ItemFlag.ItemIsDragEnabled if index.row() > 0 else usual

    def mimeTypes(self) -> list[str]:
        return [MIME]

    def mimeData(self, indexes: Any) -> QMimeData:
        mime = QMimeData()
        mime.setData(MIME, str(indexes[0].row() - 1).encode())
        return mime

    def supportedDropActions(self) -> Qt.DropAction:
        return Qt.DropAction.MoveAction


class SegmentsList(QListView):
    """``chosen`` gives the number of the segment at hand (``WHOLE`` for the rundown as a whole), ``opened`` says that
    it is wanted, ``dropped`` gives a segment's number and where it is to stand."""

    chosen = Signal(int)
    opened = Signal()
    dropped = Signal(int, int)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.segments_model = SegmentsModel()
        self.setModel(self.segments_model)
        self.setItemDelegate(SegmentDelegate(appearance, self))
        make_quiet(self)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setDragEnabled(True)
        self.setAcceptDrops(True)
        self.setDropIndicatorShown(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragDrop)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)
        self.setAccessibleName("Segments")
        self.selectionModel().currentChanged.connect(self._current_changed)
        appearance.changed.connect(self._appearance_changed)
        choose_index(self, self.segments_model.index(0))

    def show_rows(self, rows: tuple[SegmentRow, ...], whole: str) -> None:
        """Show these; the segment at hand stays at hand."""
        before = self.current_id()
        number = self.current_number()
        self.segments_model.show_rows(rows, whole)
        if self.currentIndex().isValid() and self.current_id() == before:
            return
        ids = [row.id for row in rows]
        self.choose(ids.index(before) if before in ids else min(number, len(rows) - 1))

    def current_number(self) -> int:
        """The number of the segment at hand from 0, ``WHOLE`` for the rundown as a whole."""
        return self.currentIndex().row() - 1 if self.currentIndex().isValid() else WHOLE

    def current_id(self) -> str:
        """The id of the segment at hand; empty for the rundown as a whole."""
        number = self.current_number()
        return self.segments_model.rows[number].id if 0 <= number < len(self.segments_model.rows) else ""

    def choose(self, number: int) -> None:
        """Make this segment, or the whole, the one at hand."""
        index = self.segments_model.index(number + 1)
        if index.isValid():
            choose_index(self, index)
            self.scrollTo(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes into the segment."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        self._accept(event)

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        super().dragMoveEvent(event)
        self._accept(event)

    def dropEvent(self, event: QDropEvent) -> None:
        """Say where the segment is to stand; the rundown is changed as one step, and the list shows it then."""
        number = bytes(event.mimeData().data(MIME).data())
        event.setDropAction(Qt.DropAction.CopyAction)  # nothing is taken out of the list by Qt
        event.accept()
        if number.isdigit():
            self.dropped.emit(int(number), self.gap_at(event.position().toPoint()))
        self.viewport().update()

    def gap_at(self, place: QPoint) -> int:
        """Before which segment a drop at ``place`` goes."""
        index = self.indexAt(place)
        if not index.isValid():
            return len(self.segments_model.rows)
        below = place.y() > self.visualRect(index).center().y()
        return max(0, index.row() - 1 + below)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def _accept(self, event: QDragEnterEvent | QDragMoveEvent) -> None:
        if event.mimeData().hasFormat(MIME):
            event.acceptProposedAction()
        else:
            event.ignore()

    def _current_changed(self, current: QModelIndex, _before: QModelIndex) -> None:
        if current.isValid():
            self.chosen.emit(current.row() - 1)

    def _appearance_changed(self) -> None:
        self.scheduleDelayedItemsLayout()
        self.viewport().update()
