"""Tab goes in reading order, also where rows and cells come and go while the window is open."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLayout, QWidget


def in_reading_order(layout: QLayout | None) -> Iterator[QWidget]:
    """The widgets of a layout that Tab can reach, in the order in which they were laid out."""
    if layout is None:
        return
    for index in range(layout.count()):
        item = layout.itemAt(index)
        if item is None:
            continue
        widget = item.widget()
        if widget is None:
            yield from in_reading_order(item.layout())
        else:
            if widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
                yield widget
            yield from in_reading_order(widget.layout())


def order_tabs(root: QWidget | None) -> None:
    """Let Tab go through ``root`` in reading order."""
    before = None
    for widget in in_reading_order(root.layout() if root else None):
        if before is not None:
            QWidget.setTabOrder(before, widget)
        before = widget
