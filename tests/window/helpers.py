"""Helpers of the window's tests: answers in place of dialogs, a document without the decisions."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from studio.model.car import Car, Placard, PlacardTire
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.places import Place
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Gauge, Reading, Specimen
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


def tire(id_: str, place: Place, **more: Any) -> Specimen:
    """A tire of which the sidewall is known and nothing was read yet."""
    more = {"marking": "225/60R17 99H", "date_code": "3622", "depth_new": depth(10.0, "32nds"), **more}
    return Specimen(id=id_, place=place, **more)


def five_tires(**more: Any) -> Episode:
    """An invented car on its four tires, with a full-size spare."""
    places: tuple[Place, ...] = ("front_left", "front_right", "rear_left", "rear_right", "spare")
    line = PlacardTire(marking="225/60R17 99H", pressure=Quantity(35.0, "psi"))
    car = Car(
        name="Test wagon", drivetrain="all", placard=Placard(front=line, rear=line),
        wheelbase=length(2750.0), front_track=length(1570.0), rear_track=length(1575.0),
    )  # fmt: skip
    specimens = tuple(tire(f"tire_{letter}", place) for letter, place in zip("abcde", places, strict=True))
    return Episode(title="Spring check", on=DAY, car=car, specimens=specimens, **more)


def reading(*grooves: tuple[float | None, ...], **more: Any) -> Reading:
    """A reading in 32nds with a gauge that reads to 1/32 in."""
    more = {"on": DAY, "place": "front_left", "unit": "32nds", **more}
    return Reading(gauge=Gauge(resolution=depth(1.0, "32nds")), depths=grooves, **more)


def with_reading(episode: Episode, index: int, taken: Reading) -> Episode:
    """The episode with one more reading of a tire."""
    rows = list(episode.specimens)
    rows[index] = replace(rows[index], readings=(*rows[index].readings, taken))
    return replace(episode, specimens=tuple(rows))


def focused() -> QWidget:
    """The widget that has the focus."""
    widget = QApplication.focusWidget()
    assert widget is not None, "nothing has the focus"
    return widget


def type_keys(text: str) -> None:
    """Type ``text`` into whatever has the focus, as a person does."""
    QTest.keyClicks(focused(), text)


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Press one key in whatever has the focus."""
    QTest.keyClick(focused(), key, modifier)
