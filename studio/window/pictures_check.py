"""Check marks drawn as the fields are: as large as the text, an edge that is seen by day and by night."""

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPalette, QPen, QPolygonF
from PySide6.QtWidgets import QCheckBox, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

_GAP = 8
_TICK = ((0.22, 0.52), (0.42, 0.72), (0.78, 0.28))
Index = QModelIndex | QPersistentModelIndex


def paint_check(painter: QPainter, field: QRectF, checked: bool, focus: bool, palette: QPalette) -> None:
    """One box in ``field``: its tick in the colour of the text, its edge thick where the focus is."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    width = 2.0 if focus else 1.0
    edge = QPalette.ColorRole.Highlight if focus else QPalette.ColorRole.Mid
    painter.setPen(QPen(palette.color(edge), width))
    painter.setBrush(palette.color(QPalette.ColorRole.Base))
    painter.drawRoundedRect(field.adjusted(width / 2, width / 2, -width / 2, -width / 2), 3, 3)
    if checked:
        pen = QPen(palette.color(QPalette.ColorRole.Text), max(2.0, field.width() / 8))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setPen(pen)
        spots = [QPointF(field.left() + x * field.width(), field.top() + y * field.height()) for x, y in _TICK]
        painter.drawPolyline(QPolygonF(spots))
    painter.restore()


class Check(QCheckBox):
    """A check box; its text is ours and may hold one mnemonic."""

    def sizeHint(self) -> QSize:
        """The box, a gap, the text."""
        metrics = self.fontMetrics()
        words = metrics.size(int(Qt.TextFlag.TextShowMnemonic), self.text())
        return QSize(self._side() + _GAP + words.width() + 4, max(self._side(), words.height()) + 4)

    def minimumSizeHint(self) -> QSize:
        """As the hint."""
        return self.sizeHint()

    def hitButton(self, pos: object) -> bool:
        """All of it can be clicked."""
        return True

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The box and its text."""
        side = self._side()
        painter = QPainter(self)
        box = QRectF(0, (self.height() - side) / 2, side, side)
        paint_check(painter, box, self.isChecked(), self.hasFocus(), self.palette())
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        flags = Qt.TextFlag.TextShowMnemonic | Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        painter.drawText(self.rect().adjusted(side + _GAP, 0, 0, 0), int(flags), self.text())
        painter.end()

    def _side(self) -> int:
        return self.fontMetrics().height()


class CheckDelegate(QStyledItemDelegate):
    """Rows of a list with such check marks."""

    def __init__(self, view: QListView) -> None:
        super().__init__(view)
        self._view = view

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        high = self._view.fontMetrics().height()
        return QSize(high + _GAP + self._view.fontMetrics().horizontalAdvance(str(index.data())), high + 6)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        field, palette = QRect(option.rect), self._view.palette()
        side = self._view.fontMetrics().height()
        box = QRectF(field.left() + 4, field.top() + 3, side, side)
        current = bool(option.state & QStyle.StateFlag.State_HasFocus)
        checked = index.data(Qt.ItemDataRole.CheckStateRole) == Qt.CheckState.Checked
        paint_check(painter, box, checked, current, palette)
        painter.setPen(palette.color(QPalette.ColorRole.Text))
        painter.setFont(self._view.font())
        room = field.adjusted(side + _GAP + 4, 0, -4, 0)
        words = self._view.fontMetrics().elidedText(str(index.data()), Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft), words)

    def editorEvent(
        self, event: QEvent, model: QAbstractItemModel, option: QStyleOptionViewItem, index: Index
    ) -> bool:
        """A click anywhere in the row, or Space, sets or takes away the mark."""
        if isinstance(event, QKeyEvent):
            wanted = event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Space
        else:
            wanted = event.type() == QEvent.Type.MouseButtonRelease
        if not wanted:
            return False
        role = Qt.ItemDataRole.CheckStateRole
        checked = index.data(role) == Qt.CheckState.Checked
        return model.setData(index, Qt.CheckState.Unchecked if checked else Qt.CheckState.Checked, role)
