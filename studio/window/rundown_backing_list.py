"""The list of every number of the script, each with its sign, its word, and what backs it or speaks against it."""

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QKeyEvent, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from studio.window.labels import Role
from studio.window.palette import GRID, Appearance
from studio.window.quiet_list import choose_index, make_quiet
from studio.window.rundown_remarks import RemarkRow
from studio.window.rundown_signs import paint_remark_sign

Index = QModelIndex | QPersistentModelIndex
_ROW = Qt.ItemDataRole.UserRole
_SIGN = 15
_LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)


class RemarksModel(QAbstractListModel):
    """The rows that are shown."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: tuple[RemarkRow, ...] = ()

    def show_rows(self, rows: tuple[RemarkRow, ...]) -> None:
        """Show these."""
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
            return row.said
        return row.spoken if role == Qt.ItemDataRole.AccessibleTextRole else None


class RemarkDelegate(QStyledItemDelegate):
    """Two lines: word and text, then what is right. All rows are alike, so that thousands of them cost nothing."""

    def __init__(self, appearance: Appearance, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._appearance = appearance

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(self._appearance.px(160), 2 * self._line() + 2 * GRID)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        row: RemarkRow = index.data(_ROW)
        field, side, line = QRect(option.rect), self._appearance.px(_SIGN), self._line()
        painter.save()
        self._ground(painter, option, field)
        sign = QRectF(field.left() + GRID, field.top() + GRID - 1 + (line - side) / 2, side, side)
        paint_remark_sign(painter, row.kind, sign, self._appearance.look, aside=bool(row.dismissed))
        left = round(sign.right()) + GRID
        first = QRect(left, field.top() + GRID - 1, field.right() - GRID - left, line)
        word = f"{row.word}  "
        self._write(painter, first, word, "quiet" if row.dismissed else "ink", "strong")
        used = QFontMetrics(self._appearance.font("strong")).horizontalAdvance(word)
        self._write(painter, first.adjusted(used, 0, 0, 0), row.said, "ink")
        self._write(painter, first.translated(0, line), row.dismissed or row.right or row.where, "quiet")
        painter.restore()

    def _line(self) -> int:
        return QFontMetrics(self._appearance.font("strong")).height()

    def _write(self, painter: QPainter, field: QRect, text: str, color: str, role: Role = "text") -> None:
        font = self._appearance.font(role)
        painter.setFont(font)
        painter.setPen(self._appearance.color(color))
        shown = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, max(0, field.width()))
        painter.drawText(field, _LEFT, shown)

    def _ground(self, painter: QPainter, option: QStyleOptionViewItem, field: QRect) -> None:
        state: QStyle.StateFlag = option.state
        look = self._appearance.look
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(field, QColor(look.plate))
            painter.fillRect(QRect(field.left(), field.top(), 4, field.height()), QColor(look.measure))
            if state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(QColor(look.measure), 2))
                painter.drawRect(QRectF(field).adjusted(1, 1, -1, -1))


class RemarksList(QListView):
    """Arrows choose; Enter or a double click goes to it in the text."""

    chosen = Signal(object)
    opened = Signal(object)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.remarks_model = RemarksModel()
        self.setModel(self.remarks_model)
        self.setItemDelegate(RemarkDelegate(appearance, self))
        make_quiet(self)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setUniformItemSizes(True)
        self.setAccessibleName("Numbers of the script")
        self.selectionModel().currentChanged.connect(self._current_changed)
        self.doubleClicked.connect(self._double_clicked)
        appearance.changed.connect(self.scheduleDelayedItemsLayout)

    def show_rows(self, rows: tuple[RemarkRow, ...]) -> None:
        """Show these; the one at hand stays at hand, by what it says and where."""
        if rows == self.remarks_model.rows:
            return
        before, number = self.current_row(), self.currentIndex().row()
        self.remarks_model.show_rows(rows)
        if not rows or before is None:
            self.chosen.emit(None)
            return
        same = next((n for n, row in enumerate(rows) if (row.said, row.where) == (before.said, before.where)), -1)
        choose_index(self, self.remarks_model.index(same if same >= 0 else min(number, len(rows) - 1)))

    def current_row(self) -> RemarkRow | None:
        """The row at hand."""
        index = self.currentIndex()
        return self.remarks_model.rows[index.row()] if index.isValid() else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes to it."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.current_row() is not None:
            self.opened.emit(self.current_row())
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def _current_changed(self, _current: QModelIndex, _before: QModelIndex) -> None:
        self.chosen.emit(self.current_row())

    def _double_clicked(self, _index: QModelIndex) -> None:
        self.opened.emit(self.current_row())
