"""Paints a segment's row: number and title over its lengths in columns, and how long it is as a bar."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from studio.window.labels import Role
from studio.window.palette import GRID, Appearance
from studio.window.rundown_rows import SegmentRow, clock

ROW = Qt.ItemDataRole.UserRole
COLUMNS = ("planned", "said", "ends at")
_NUMBER, COLUMN_PX = 26, 58
_LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
_RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
Index = QModelIndex | QPersistentModelIndex


class SegmentDelegate(QStyledItemDelegate):
    """All its lengths grow with the text."""

    def __init__(self, appearance: Appearance, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._appearance = appearance

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        row = index.data(ROW)
        line = QFontMetrics(self._appearance.font("strong")).height()
        lines = 3 if isinstance(row, SegmentRow) and row.calls else 2
        return QSize(self._appearance.px(180), lines * line + 2 * GRID + 4)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        field, row = QRect(option.rect), index.data(ROW)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._ground(painter, option, field)
        inside = field.adjusted(2 * GRID, GRID, -GRID, -GRID)
        if isinstance(row, SegmentRow):
            self._segment(painter, inside, row)
        else:
            self._whole(painter, inside, str(row))
        painter.restore()

    def _segment(self, painter: QPainter, inside: QRect, row: SegmentRow) -> None:
        line, number = self._line(), self._appearance.px(_NUMBER)
        self._write(painter, QRect(inside.left(), inside.top(), number, line), str(row.number), "quiet", "number")
        title = QRect(inside.left() + number, inside.top(), inside.width() - number, line)
        self._write(painter, title, row.title or "without a title", "ink" if row.title else "quiet", "strong")
        below = title.translated(0, line + 3)
        self._columns(painter, below, row)
        if row.calls:
            self._write(painter, below.translated(0, line), row.calls, "ink", "text")

    def _columns(self, painter: QPainter, below: QRect, row: SegmentRow) -> None:
        wide = self._appearance.px(COLUMN_PX)
        columns = [QRect(below.right() - (3 - n) * wide, below.top(), wide, below.height()) for n in range(3)]
        self._bar(painter, QRectF(below.left(), below.center().y() - 2, columns[0].left() - below.left() + 4, 4), row)
        ends = clock(row.ends_s)
        for column, text, color in zip(
            columns, (clock(row.planned_s), clock(row.said_s), ends), ("ink", "quiet", "ink"), strict=True
        ):
            self._write(painter, column, text, color, "number", _RIGHT)

    def _bar(self, painter: QPainter, room: QRectF, row: SegmentRow) -> None:
        """How long it is beside the longest; hatched where it runs past the target."""
        if room.width() < GRID:
            return
        bar = QRectF(room.left(), room.top(), max(2.0, room.width() * row.share), room.height())
        look = self._appearance.look
        painter.setPen(QPen(QColor(look.ink), 1) if row.over else Qt.PenStyle.NoPen)
        painter.setBrush(QColor(look.ground if row.over else look.steel))
        painter.drawRect(bar)

    def _whole(self, painter: QPainter, inside: QRect, words: str) -> None:
        line = self._line()
        self._write(painter, QRect(inside.left(), inside.top(), inside.width(), line), "The whole rundown", "ink",
                    "strong")  # fmt: skip
        self._write(painter, QRect(inside.left(), inside.top() + line + 3, inside.width(), line), words, "quiet")

    def _write(
        self, painter: QPainter, field: QRect, text: str, color: str, role: Role = "text", align: int = _LEFT
    ) -> None:
        font = self._appearance.font(role)
        painter.setFont(font)
        painter.setPen(self._appearance.color(color))
        shown = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, field.width())
        painter.drawText(field, align, shown)

    def _line(self) -> int:
        return QFontMetrics(self._appearance.font("strong")).height()

    def _ground(self, painter: QPainter, option: QStyleOptionViewItem, field: QRect) -> None:
        state: QStyle.StateFlag = option.state
        look = self._appearance.look
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(field, QColor(look.plate))
            painter.fillRect(QRect(field.left(), field.top(), 4, field.height()), QColor(look.measure))
            if state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(QColor(look.measure), 2))
                painter.drawRect(QRectF(field).adjusted(1, 1, -1, -1))
