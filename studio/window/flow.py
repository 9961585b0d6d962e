"""A layout that sets its items side by side and goes to the next line where they no longer fit."""

from PySide6.QtCore import QMargins, QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QSizePolicy, QVBoxLayout, QWidget


class FlowLayout(QLayout):
    """Items in reading order, each as wide as it wants; an item that may grow takes what is left of its line."""

    def __init__(self, parent: QWidget | None = None, across: int = 16, down: int = 8) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._across, self._down = across, down
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._arrange(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._arrange(rect, move=True)

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        margins: QMargins = self.contentsMargins()
        return size + QSize(margins.left() + margins.right(), margins.top() + margins.bottom())

    def _lines(self, width: int) -> list[list[QLayoutItem]]:
        lines: list[list[QLayoutItem]] = []
        used = 0
        for item in self._items:
            if item.isEmpty():
                continue
            wide = item.sizeHint().width()
            if not lines or used + self._across + wide > width:
                lines.append([item])
                used = wide
            else:
                lines[-1].append(item)
                used += self._across + wide
        return lines

    def _arrange(self, rect: QRect, *, move: bool) -> int:
        margins = self.contentsMargins()
        inside = rect.marginsRemoved(margins)
        y = inside.y()
        for line in self._lines(inside.width()):
            y += self._set_line(line, QPoint(inside.x(), y), inside.width(), move=move) + self._down
        return max(0, y - self._down - rect.y() + margins.bottom())

    def _set_line(self, line: list[QLayoutItem], at: QPoint, width: int, *, move: bool) -> int:
        left = width - sum(item.sizeHint().width() for item in line) - self._across * (len(line) - 1)
        growing = [item for item in line if item.expandingDirections() & Qt.Orientation.Horizontal]
        share = max(0, left) // len(growing) if growing else 0
        widths = [min(item.sizeHint().width(), width) + (share if item in growing else 0) for item in line]
        high = max(_height(item, wide) for item, wide in zip(line, widths, strict=True))
        x = at.x()
        for item, wide in zip(line, widths, strict=True):
            if move:
                item.setGeometry(QRect(x, at.y(), wide, high))
            x += wide + self._across
        return high


def _height(item: QLayoutItem, width: int) -> int:
    return item.heightForWidth(width) if item.hasHeightForWidth() else item.sizeHint().height()


def low(widget: QWidget) -> QWidget:
    """A widget without a label above it, on the line of its neighbours' fields."""
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.addStretch(1)
    column.addWidget(widget)
    holder.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
    return holder


def flow(*widgets: QWidget, across: int = 16, down: int = 8) -> QWidget:
    """The widgets in a flow of their own."""
    holder = QWidget()
    layout = FlowLayout(holder, across, down)
    for widget in widgets:
        layout.addWidget(widget)
    policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
    policy.setHeightForWidth(True)
    holder.setSizePolicy(policy)
    return holder
