"""A part of a form that stays folded until it is wanted: its title, and in one quiet line what stands in it."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from studio.window.document import Document
from studio.window.elided import ElidedLine
from studio.window.labels import name_field, push_button

_SIGNS = {False: "▸", True: "▾"}


class Fold(QWidget):
    """``parts`` below each other under a button that unfolds them; ``summary`` says what is entered in them."""

    def __init__(self, document: Document, title: str, summary: Callable[[Document], str], *parts: QWidget) -> None:
        super().__init__()
        self.title, self._document, self._summary = title, document, summary
        self.button = push_button("", self.turn)
        self.button.setProperty("fold", True)
        self._line = ElidedLine("quiet")
        self._inside = QWidget()
        inside = QVBoxLayout(self._inside)
        inside.setContentsMargins(0, 0, 0, 8)
        inside.setSpacing(8)
        for part in parts:
            inside.addWidget(part)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        head = QHBoxLayout()
        column.addLayout(head)
        head.setSpacing(8)
        head.addWidget(self.button)
        head.addWidget(self._line, 1)
        column.addWidget(self._inside)
        document.changed.connect(self.refresh)
        self.unfold(False)

    @property
    def is_open(self) -> bool:
        """Whether the parts are shown."""
        return not self._inside.isHidden()

    def turn(self) -> None:
        """Fold or unfold."""
        self.unfold(not self.is_open)

    def unfold(self, wanted: bool = True) -> None:
        """Show the parts, or the summary in their place."""
        self._inside.setVisible(wanted)
        self.button.setText(f"{_SIGNS[wanted]}  {self.title}")
        self.refresh()

    def refresh(self) -> None:
        """Say what stands in it where it is folded."""
        summary = "" if self.is_open else self._summary(self._document)
        self._line.show_text(summary)
        name_field(self.button, f"{self.title}, {'open' if self.is_open else 'folded'}", summary or "its fields follow")

    def holds(self, path: str) -> bool:
        """Whether a field of it shows ``path`` or a part of it, or what ``path`` is a part of."""
        mine = (getattr(widget, "path", "") for widget in self._inside.findChildren(QWidget))
        return any(its and (leads(its, path) or leads(path, its)) for its in mine)

    def first_field(self) -> QWidget | None:
        """The field with which to begin."""
        fields = (widget for widget in self._inside.findChildren(QWidget) if getattr(widget, "path", ""))
        return next(fields, None)

    def take_focus(self) -> None:
        """Unfold, and focus the first field."""
        self.unfold()
        if (field := self.first_field()) is not None:
            field.setFocus(Qt.FocusReason.ShortcutFocusReason)


def leads(path: str, further: str) -> bool:
    """Whether ``further`` is ``path`` or a part of what stands there."""
    return further == path or (further.startswith(path) and further[len(path)] in ".[")
