"""The list of deliverables: a mark whose shape says the state, the name, the state in words and why."""

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from studio.handoff.manifest import State
from studio.window.handoff_rows import Row
from studio.window.palette import GRID, Appearance
from studio.window.quiet_list import choose_index, make_quiet

Index = QModelIndex | QPersistentModelIndex
_ROW = Qt.ItemDataRole.UserRole
_MARK = 14


class HandoffModel(QAbstractListModel):
    """The rows."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: tuple[Row, ...] = ()

    def show_rows(self, rows: tuple[Row, ...]) -> None:
        """Show these; rows of the same deliverables are only redrawn, so that the choice stays."""
        if [row.item for row in rows] == [row.item for row in self.rows]:
            self.rows = rows
            self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row = self.rows[index.row()]
        if role == _ROW:
            return row
        if role == Qt.ItemDataRole.DisplayRole:
            return row.name
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{row.name}: {row.words}. {row.why}".strip()
        return None


class HandoffDelegate(QStyledItemDelegate):
    """Paints a row; its lengths grow with the text."""

    def __init__(self, appearance: Appearance, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._appearance = appearance

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        high = 2 * QFontMetrics(self._appearance.font("strong")).height() + 3 * GRID
        return QSize(self._appearance.px(200), high)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        row: Row = index.data(_ROW)
        field = QRect(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._ground(painter, option, field)
        side = self._appearance.px(_MARK)
        mark = QRectF(field.left() + 2 * GRID, field.top() + GRID + 4, side, side)
        paint_state(painter, row.state, mark, self._appearance)
        left = round(mark.right()) + 2 * GRID
        wide = field.right() - 2 * GRID - left
        high = QFontMetrics(self._appearance.font("strong")).height()
        self._line(painter, QRect(left, field.top() + GRID, wide, high), row.name, "ink", "strong")
        below = QRect(left, field.top() + GRID + high + 2, wide, high)
        self._line(painter, below, f"{row.words}: {row.why}" if row.why else row.words, "quiet", "text")
        painter.restore()

    def _line(self, painter: QPainter, field: QRect, text: str, color: str, role: Any) -> None:
        font = self._appearance.font(role)
        painter.setFont(font)
        painter.setPen(self._appearance.color(color))
        shown = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, field.width())
        painter.drawText(field, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), shown)

    def _ground(self, painter: QPainter, option: QStyleOptionViewItem, field: QRect) -> None:
        state: QStyle.StateFlag = option.state
        look = self._appearance.look
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(field, QColor(look.plate))
            painter.fillRect(QRect(field.left(), field.top(), 4, field.height()), QColor(look.measure))
            if state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(QColor(look.measure), 2))
                painter.drawRect(QRectF(field).adjusted(1, 1, -1, -1))


def paint_state(painter: QPainter, state: State | None, field: QRectF, appearance: Appearance) -> None:
    """A full disc for fresh, half a disc for stale, a dashed ring for not made: told by shape alone."""
    ink = appearance.color("ink")
    pen = QPen(ink, 1.6)
    if state in ("not made", None):
        pen.setDashPattern([2, 2])
    painter.setPen(pen)
    painter.setBrush(ink if state == "fresh" else Qt.BrushStyle.NoBrush)
    painter.drawEllipse(field)
    if state == "stale":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawPie(field, 90 * 16, 180 * 16)


class HandoffList(QListView):
    """Arrows choose. ``chosen`` gives the deliverable at hand, ``opened`` says that it is to be made."""

    chosen = Signal(object)
    opened = Signal()

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.handoff_model = HandoffModel()
        self.setModel(self.handoff_model)
        self.setItemDelegate(HandoffDelegate(appearance, self))
        make_quiet(self)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setAccessibleName("Deliverables")
        self.selectionModel().currentChanged.connect(self._current_changed)
        self.activated.connect(self._activated)
        appearance.changed.connect(self._appearance_changed)

    def show_rows(self, rows: tuple[Row, ...]) -> None:
        """Show these rows; the one at hand stays at hand."""
        before = self.current_item()
        self.handoff_model.show_rows(rows)
        if not self.choose(before) and rows:
            self.choose(rows[0].item)
        self.chosen.emit(self.current_row())

    def current_row(self) -> Row | None:
        """The row at hand."""
        index = self.currentIndex()
        return self.handoff_model.rows[index.row()] if index.isValid() else None

    def current_item(self) -> str:
        """The deliverable at hand; empty where there is none."""
        row = self.current_row()
        return row.item if row else ""

    def choose(self, item: str) -> bool:
        """Make this deliverable the one at hand; False where it is not listed."""
        items = [row.item for row in self.handoff_model.rows]
        if item in items:
            choose_index(self, self.handoff_model.index(items.index(item)))
        return item in items

    def _current_changed(self, _current: QModelIndex, _before: QModelIndex) -> None:
        self.chosen.emit(self.current_row())

    def _activated(self, _index: QModelIndex) -> None:
        self.opened.emit()

    def _appearance_changed(self) -> None:
        self.scheduleDelayedItemsLayout()
        self.viewport().update()
