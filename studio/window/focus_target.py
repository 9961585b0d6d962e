"""Focus the field that shows what a path leads to."""

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QScrollArea, QWidget


def focus_path(area: QScrollArea, path: str) -> bool:
    """Focus, and scroll to, the field of ``path`` in ``area``: else the first one of what stands there, such as the
    cells of a grid; else that of the longest part of the path that has one. Whether there is any.
    """
    fields = {getattr(widget, "path", ""): widget for widget in area.findChildren(QWidget) if hasattr(widget, "path")}
    wanted = path if path in fields else _first_within(path, fields)
    while wanted:
        if (field := fields.get(wanted)) is not None and field.isVisibleTo(area):
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            if isinstance(field, QLineEdit):
                field.selectAll()
            area.ensureWidgetVisible(field)
            return True
        wanted = wanted[: max(wanted.rfind("."), wanted.rfind("["), 0)]
    return False


def _first_within(path: str, fields: Iterable[str]) -> str:
    """The first of ``fields`` that is a part of what ``path`` leads to; the path itself where none is."""
    return next((its for its in fields if its.startswith((f"{path}.", f"{path}["))), path)
