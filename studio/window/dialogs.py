"""Every question that stops the window, behind one port: tests give answers instead."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QInputDialog, QMessageBox, QWidget

from studio.window.labels import button_text
from studio.window.tasks import JobRunner


@dataclass(frozen=True)
class Choice:
    """One answer to a question: its key, the text on its button, whether Enter or Esc gives it."""

    key: str
    text: str
    by_enter: bool = False
    by_escape: bool = False


class Dialogs(Protocol):
    """The questions that the window may ask. All texts are plain."""

    def choose(self, title: str, text: str, choices: Sequence[Choice], detail: str = "") -> str:
        """Ask; the key of the choice taken (the one ``by_escape`` where the question was closed)."""

    def tell(self, title: str, text: str, detail: str = "") -> None:
        """Say something that must be read; ``detail`` can be opened and copied."""

    def open_file(self, caption: str, folder: Path, filters: str) -> Path | None:
        """Ask for a file to read; None where the question was closed."""

    def open_files(self, caption: str, folder: Path, filters: str) -> tuple[Path, ...]:
        """Ask for files to read."""

    def save_file(self, caption: str, suggested: Path, filters: str) -> Path | None:
        """Ask where to write a file (an existing one has been agreed to); None where the question was closed."""

    def choose_folder(self, caption: str, folder: Path) -> Path | None:
        """Ask for a folder; None where the question was closed."""

    def ask_text(self, title: str, label: str, text: str = "") -> str | None:
        """Ask for a line of text; None where the question was closed."""


class WindowDialogs:
    """The questions as windows over ``parent``."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self._parent = parent

    def belong_to(self, parent: QWidget) -> None:
        """Stand over this window from now on."""
        self._parent = parent

    def choose(self, title: str, text: str, choices: Sequence[Choice], detail: str = "") -> str:
        """Ask by a box with one button a choice."""
        box = _box(self._parent, title, text, detail)
        buttons = {}
        for choice in choices:
            button = box.addButton(button_text(choice.text), QMessageBox.ButtonRole.ActionRole)
            buttons[button] = choice.key
            if choice.by_enter:
                box.setDefaultButton(button)
            if choice.by_escape:
                box.setEscapeButton(button)
        box.exec()
        taken = buttons.get(box.clickedButton(), "")  # type: ignore[call-overload]
        box.deleteLater()
        return taken or next((choice.key for choice in choices if choice.by_escape), choices[-1].key)

    def tell(self, title: str, text: str, detail: str = "") -> None:
        """Say by a box with one button."""
        box = _box(self._parent, title, text, detail)
        box.addButton(QMessageBox.StandardButton.Ok)
        box.exec()
        box.deleteLater()

    def open_file(self, caption: str, folder: Path, filters: str) -> Path | None:
        """Ask by the system's own dialog."""
        name, _ = QFileDialog.getOpenFileName(self._parent, caption, str(folder), filters)
        return Path(name) if name else None

    def open_files(self, caption: str, folder: Path, filters: str) -> tuple[Path, ...]:
        """Ask by the system's own dialog."""
        names, _ = QFileDialog.getOpenFileNames(self._parent, caption, str(folder), filters)
        return tuple(Path(name) for name in names)

    def save_file(self, caption: str, suggested: Path, filters: str) -> Path | None:
        """Ask by the system's own dialog, which asks before it takes an existing name."""
        name, _ = QFileDialog.getSaveFileName(self._parent, caption, str(suggested), filters)
        return Path(name) if name else None

    def choose_folder(self, caption: str, folder: Path) -> Path | None:
        """Ask by the system's own dialog."""
        name = QFileDialog.getExistingDirectory(self._parent, caption, str(folder))
        return Path(name) if name else None

    def ask_text(self, title: str, label: str, text: str = "") -> str | None:
        """Ask by a box with one field."""
        answer, given = QInputDialog.getText(self._parent, title, label, text=text)
        return answer if given else None


class CloseQuestion:
    """What is asked when the window is closed while work is in progress."""

    CHOICES = (Choice("stop", "Stop it and close", by_enter=True), Choice("stay", "Keep working", by_escape=True))

    @classmethod
    def ask(cls, dialogs: Dialogs, jobs: JobRunner) -> bool:
        """Whether the work may be stopped."""
        current = jobs.current()
        name = current[0] if current else "Work"
        text = f"{name} is still in progress. What is half done leaves no file behind."
        return dialogs.choose("Work in progress", text, cls.CHOICES) == "stop"


def _box(parent: QWidget | None, title: str, text: str, detail: str) -> QMessageBox:
    box = QMessageBox(parent)
    box.setWindowTitle(title)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(text)
    if detail:
        box.setDetailedText(detail)
    return box
