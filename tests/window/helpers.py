"""Helpers of the window's tests: answers in place of dialogs, a document without the decisions."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.window.dialogs import Choice
from studio.window.document import Document

DAY = dt.date(2025, 6, 1)


class Answers:
    """Stands in for the dialogs: gives ``queue``'s answers in turn, and keeps what was asked."""

    def __init__(self) -> None:
        self.queue: list[Any] = []
        self.asked: list[tuple[str, str]] = []

    def _next(self, what: str, text: str) -> Any:
        self.asked.append((what, text))
        assert self.queue, f"no answer was prepared for {what}: {text}"
        return self.queue.pop(0)

    def choose(self, title: str, text: str, choices: Sequence[Choice], detail: str = "") -> str:
        answer = self._next(title, text)
        assert answer in [choice.key for choice in choices]
        return str(answer)

    def tell(self, title: str, text: str, detail: str = "") -> None:
        self.asked.append((title, text))

    def open_file(self, caption: str, folder: Path, filters: str) -> Path | None:
        return self._next("open_file", caption)  # type: ignore[no-any-return]

    def open_files(self, caption: str, folder: Path, filters: str) -> tuple[Path, ...]:
        return self._next("open_files", caption)  # type: ignore[no-any-return]

    def save_file(self, caption: str, suggested: Path, filters: str) -> Path | None:
        return self._next("save_file", caption)  # type: ignore[no-any-return]

    def choose_folder(self, caption: str, folder: Path) -> Path | None:
        return self._next("choose_folder", caption)  # type: ignore[no-any-return]

    def ask_text(self, title: str, label: str, text: str = "") -> str | None:
        return self._next(title, label)  # type: ignore[no-any-return]


def no_findings(_episode: Episode, _tables: Any) -> Findings:
    """Stands in for the decisions where a test is not about them."""
    return Findings(())


def plain_document(episode: Episode) -> Document:
    """A document without tables, decisions and admission."""
    return Document(episode, tables=object(), decide=no_findings, check=lambda _episode, _tables: ())
