"""Tab goes in reading order, also where rows and cells come and go while the window is open."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLayout, QWidget

from studio.window.layouts import laid_out


def in_reading_order(layout: QLayout | None) -> Iterator[QWidget]:
    """The widgets of a layout that Tab can reach, in the order in which they were laid out."""
    for part in laid_out(layout) if layout is not None else ():
        if isinstance(part, QLayout):
            yield from in_reading_order(part)
        else:
            if part.focusPolicy() & Qt.FocusPolicy.TabFocus:
                yield part
            yield from in_reading_order(part.layout())


def order_tabs(root: QWidget | None) -> None:
    """Let Tab go through ``root`` in reading order."""
    before = None
    for widget in in_reading_order(root.layout() if root else None):
        if before is not None:
            QWidget.setTabOrder(before, widget)
        before = widget
