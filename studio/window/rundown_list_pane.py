"""The left of the rundown: headings of the columns, the segments, and what adds to them."""

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from studio.window.flow import flow
from studio.window.palette import GRID, Appearance
from studio.window.rundown_delegate import COLUMN_PX, COLUMNS
from studio.window.rundown_list import SegmentsList


class Headings(QWidget):
    """The names of the columns, over them."""

    def __init__(self, appearance: Appearance, beside: QWidget) -> None:
        super().__init__()
        self._appearance, self._beside = appearance, beside
        appearance.changed.connect(self.updateGeometry)

    def sizeHint(self) -> QSize:
        return QSize(100, QFontMetrics(self._appearance.font("text")).height() + 4)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setFont(self._appearance.font("text"))
        painter.setPen(self._appearance.color("quiet"))
        wide, right = self._appearance.px(COLUMN_PX), self._beside.width() - GRID
        for number, name in enumerate(COLUMNS):
            field = QRect(right - (3 - number) * wide, 0, wide, self.height())
            painter.drawText(field, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter), name)
        painter.end()


class ListPane(QWidget):
    """Headings, list, buttons below each other."""

    def __init__(self, appearance: Appearance, segments: SegmentsList, *buttons: QPushButton) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, GRID, 0, GRID)
        column.setSpacing(4)
        column.addWidget(Headings(appearance, segments.viewport()))
        column.addWidget(segments, 1)
        holder = flow(*buttons, across=GRID)
        holder.setContentsMargins(2 * GRID, 0, 0, 0)
        column.addWidget(holder)
