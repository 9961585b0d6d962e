"""Focus the field that shows what a path leads to."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QScrollArea, QWidget


def focus_path(area: QScrollArea, path: str) -> bool:
    """Focus, and scroll to, the field of ``path`` in ``area``, or of the longest part of it that has one."""
    fields = {getattr(widget, "path", ""): widget for widget in area.findChildren(QWidget) if hasattr(widget, "path")}
    wanted = path
    while wanted:
        if (field := fields.get(wanted)) is not None and field.isVisibleTo(area):
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            if isinstance(field, QLineEdit):
                field.selectAll()
            area.ensureWidgetVisible(field)
            return True
        wanted = wanted[: max(wanted.rfind("."), wanted.rfind("["), 0)]
    return False
