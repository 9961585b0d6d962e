"""Labels, tooltips and button texts that show text as it is: never as markup, with every ``&`` in it."""

import html
from collections.abc import Callable
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

Role = Literal["text", "quiet", "number", "strong", "heading", "deciding", "problem"]


def plain_label(text: str = "", role: Role = "text", *, wrap: bool = False, parent: QWidget | None = None) -> QLabel:
    """A label that shows ``text`` as it is. ``role`` gives its font and colour by the appearance."""
    label = QLabel(parent)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setProperty("role", role)
    label.setWordWrap(wrap)
    label.setText(text)
    return label


def field_label(text: str, field: QWidget, role: Role = "quiet") -> QLabel:
    """The label of ``field``: its buddy, and its accessible name. ``text`` is ours and may hold one mnemonic."""
    label = plain_label(text, role)
    label.setBuddy(field)
    name_field(field, text.replace("&&", "\0").replace("&", "").replace("\0", "&"))
    return label


def name_field(widget: QWidget, name: str, description: str = "") -> None:
    """Give ``widget`` the name (and description) by which assistive technology calls it."""
    widget.setAccessibleName(name)
    if description:
        widget.setAccessibleDescription(description)


def button_text(text: str) -> str:
    """``text`` for a button, tab or menu: every ``&`` in it is shown."""
    return text.replace("&", "&&")


def plain_tooltip(widget: QWidget | QAction, text: str) -> None:
    """Give ``widget`` a tooltip that shows ``text`` as it is, wrapped at a legible width."""
    widget.setToolTip(f"<p>{html.escape(text)}</p>" if text else "")


def push_button(text: str, on_click: Callable[[], object], *, primary: bool = False) -> QPushButton:
    """A button with our own text, in which ``&`` marks the mnemonic; ``on_click`` is a bound method."""
    button = QPushButton(text)
    button.setProperty("primary", primary)
    button.setAutoDefault(False)
    button.clicked.connect(on_click)
    return button
