"""Somebody does whatever comes to hand in the real window: keys, clicks, menus, drops, undo, light and dark.

After each lot of events undo leads back to the very start and redo to the end; no slot raises, Qt does not complain,
and what a person would wait for longest is told. Each lot has a window and a process of its own.
"""

import os
import random
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Sequence
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, Qt, QtMsgType, QUrl, qInstallMessageHandler
from PySide6.QtGui import QAction, QDropEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QMenu, QWidget

from studio import shipped
from studio.storage.episode_file import decode
from studio.storage.folders import OVERRIDE
from studio.window.dialogs import Choice
from studio.window.document import Document
from studio.window.main_window import MainWindow
from studio.window.palette import Appearance
from studio.window.preferences import Preferences
from tests.campaigns.report import Report, main

SHORT, LOT = 80, 1000
MOST_S = 900
TYPED = ("5/32", "4 mm", "2.6", "{", "{life", "}", "225/60r17 99h", "35 psi", "nonsense", "1e308", "3621", "a b c", "")
KEYS = (
    Qt.Key.Key_Tab, Qt.Key.Key_Backtab, Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Up, Qt.Key.Key_Down,
    Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Space, Qt.Key.Key_Delete, Qt.Key.Key_Backspace, Qt.Key.Key_F8,
    Qt.Key.Key_Home, Qt.Key.Key_End, Qt.Key.Key_PageDown,
)  # fmt: skip
_BACK_EACH = 0.02
"""How often undo is followed to the start: an episode that is opened in between begins anew."""
_CONTROL = Qt.KeyboardModifier.ControlModifier
_LEFT_ALONE = ("Quit", "About", "Keys", "Open the log", "New window")
"""Ends the program, or opens what waits for a person."""
_OF_THE_PLATFORM = ("This plugin does not support", "propagateSizeHints", "Cannot open file", "window activation")


class AnyAnswer:
    """Answers each question by chance; files are kept within one folder."""

    def __init__(self, chance: random.Random, folder: Path) -> None:
        self._chance, self._folder = chance, folder
        self.told: list[str] = []

    def choose(self, title: str, text: str, choices: Sequence[Choice], detail: str = "") -> str:
        return self._chance.choice(choices).key

    def tell(self, title: str, text: str, detail: str = "") -> None:
        self.told.append(f"{title}: {text}")

    def open_file(self, caption: str, folder: Path, filters: str) -> Path | None:
        return self._chance.choice((None, *self._folder.iterdir(), *shipped.demos().glob("*.json")))

    def open_files(self, caption: str, folder: Path, filters: str) -> tuple[Path, ...]:
        return tuple(self._chance.sample(sorted(self._folder.iterdir()), 1))

    def save_file(self, caption: str, suggested: Path, filters: str) -> Path | None:
        return self._chance.choice((None, self._folder / suggested.name))

    def choose_folder(self, caption: str, folder: Path) -> Path | None:
        return self._chance.choice((None, self._folder / "out"))

    def ask_text(self, title: str, label: str, text: str = "") -> str | None:
        return self._chance.choice((None, *TYPED))


class Monkey:
    """One window on a demo, and what has gone wrong with it so far."""

    def __init__(self, app: QApplication, seed: int, folder: Path) -> None:
        self.faults: list[str] = []
        self.longest = 0.0
        self._app, self._chance = app, random.Random(seed)
        self._answers = AnyAnswer(self._chance, folder)
        demo = self._chance.choice(sorted(shipped.demos().glob("*.json")))
        (folder / "session.csv").write_text("comment\nis 4/32 ok?\nhow old is 3621\n", encoding="utf-8")
        (folder / "broken.json").write_text('{"format": 2,', encoding="utf-8")
        (folder / "demo.json").write_bytes(demo.read_bytes())
        self.window = MainWindow(Document(decode(demo.read_bytes())), Appearance(app), Preferences(), self._answers)
        self._begun = self.window.document.episode
        self.window.document.started.connect(self._started)
        self.window.appearance.apply()
        self.window.resize(1280, 720)
        self.window.show()
        while self.window.places.make_next():
            pass
        sys.excepthook = self._caught
        qInstallMessageHandler(self._said)
        self._doings: tuple[Callable[[], None], ...] = (
            self._key, self._key, self._key, self._type, self._type, self._click, self._click, self._action, self._undo,
            self._redo, self._go, self._wheel, self._drop, self._resize, self._dress,
        )  # fmt: skip

    def do(self, count: int) -> None:
        """So many events, each waited for as a person would."""
        for _ in range(count):
            doing = self._chance.choice(self._doings)
            begun = time.monotonic()
            doing()
            self._run_events()
            self.longest = max(self.longest, time.monotonic() - begun)
            if self._chance.random() < _BACK_EACH:
                self.there_and_back()

    def there_and_back(self) -> None:
        """Undo to the very start, which is the episode that was opened, and redo to the end."""
        stack = self.window.document.undo_stack
        at, here = stack.index(), self.window.document.episode
        for _ in range(at):
            stack.undo()
        self._run_events()
        if self.window.document.episode != self._begun and at < stack.undoLimit():
            self.faults.append("undo to the start is not the episode that was opened")
        for _ in range(at):
            stack.redo()
        self._run_events()
        if self.window.document.episode != here:
            self.faults.append("redo to the end is not where one was")

    def _started(self) -> None:
        self._begun = self.window.document.episode

    def end(self) -> None:
        """Close the window, whatever is asked."""
        self.window.jobs.close(20_000)
        self.window.document.undo_stack.setClean()
        self.window.close()
        self._run_events()

    def _key(self) -> None:
        with_control = self._chance.random() < 0.08
        QTest.keyClick(self._at(), self._chance.choice(KEYS), _CONTROL if with_control else Qt.KeyboardModifier(0))

    def _type(self) -> None:
        QTest.keyClicks(self._at(), self._chance.choice(TYPED))

    def _click(self) -> None:
        parts = [it for it in self.window.current.findChildren(QWidget) if it.isVisible() and it.isEnabled()]
        part = self._chance.choice(parts or [self.window])
        if isinstance(part, QAbstractButton) and getattr(part, "menu", None) and part.menu():
            return  # a menu waits for a person
        spot = QPoint(self._chance.randrange(max(1, part.width())), self._chance.randrange(max(1, part.height())))
        QTest.mouseClick(part, Qt.MouseButton.LeftButton, Qt.KeyboardModifier(0), spot)

    def _action(self) -> None:
        every = [it for it in self.window.findChildren(QAction) if it.isEnabled() and it.isVisible() and it.text()]
        usable = [it for it in every if not it.menu() and not it.text().replace("&", "").startswith(_LEFT_ALONE)]
        if usable:
            self._chance.choice(usable).trigger()

    def _undo(self) -> None:
        self.window.commands.undo()

    def _redo(self) -> None:
        self.window.commands.redo()

    def _go(self) -> None:
        self.window.show_place(self._chance.choice(list(self.window.places)))

    def _wheel(self) -> None:
        part, turn = self._at(), QPoint(0, self._chance.choice((-120, 120)))
        middle = QPointF(part.rect().center())
        event = QWheelEvent(
            middle, part.mapToGlobal(middle), QPoint(), turn, Qt.MouseButton.NoButton, Qt.KeyboardModifier(0),
            Qt.ScrollPhase.NoScrollPhase, False,
        )  # fmt: skip
        self._app.sendEvent(part, event)

    def _drop(self) -> None:
        mime = QMimeData()
        name = self._chance.choice(("session.csv", "broken.json", "nothing.txt"))
        mime.setUrls([QUrl.fromLocalFile(str(self._answers._folder / name))])
        event = QDropEvent(
            QPointF(100, 100), Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton, Qt.KeyboardModifier(0)
        )
        self._app.sendEvent(self.window, event)

    def _resize(self) -> None:
        self.window.resize(self._chance.randrange(960, 1920), self._chance.randrange(600, 1080))

    def _dress(self) -> None:
        if self._chance.random() < 0.5:
            self.window.appearance.choose(self._chance.choice(("light", "dark")))
        else:
            self.window.appearance.set_percent(self._chance.choice((100, 125, 150)))

    def _at(self) -> QWidget:
        return self._app.focusWidget() or self.window

    def _run_events(self) -> None:
        for _ in range(3):
            self._app.processEvents()
        self._app.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        while (popup := self._app.activePopupWidget()) is not None:
            popup.close()
            if isinstance(popup, QMenu):
                popup.hide()
        for other in self._app.topLevelWidgets():
            if other is not self.window and other.isVisible() and other.isWindow():
                other.close()

    def _caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        where = traceback.extract_tb(trace)[-1]
        self.faults.append(f"{kind.__name__}: {error} at {Path(where.filename).name}:{where.lineno}")

    def _said(self, kind: QtMsgType, _context: object, text: str) -> None:
        if kind != QtMsgType.QtDebugMsg and not any(words in text for words in _OF_THE_PLATFORM):
            self.faults.append(f"Qt says: {text[:160]}")


def lot(seed: int, count: int) -> None:
    """One process's part; its lines tell what was done, the longest event and what went wrong."""
    app = QApplication([])
    with tempfile.TemporaryDirectory() as folder:
        monkey = Monkey(app, seed, Path(folder))
        monkey.do(count)
        monkey.there_and_back()
        monkey.end()
    print(f"longest {monkey.longest:.3f}")
    for fault in dict.fromkeys(monkey.faults):
        print(f"fault {fault}")
    sys.stdout.flush()
    os._exit(0)  # what Qt does at the end of a process is the closing campaign's matter


def run(seed: int, count: int) -> Report:
    """``count`` events in lots, each in a process with folders of its own."""
    faults: list[str] = []
    longest, done = 0.0, 0
    for number in range(-(-count // LOT)):
        mine, events = seed * 1000 + number, min(LOT, count - done)
        script = f"from tests.campaigns.monkey import lot; lot({mine}, {events})"
        with tempfile.TemporaryDirectory() as home:
            surroundings = {**os.environ, OVERRIDE: home, "QT_QPA_PLATFORM": "offscreen"}
            try:
                ended = subprocess.run(
                    [sys.executable, "-X", "faulthandler", "-c", script], env=surroundings, capture_output=True,
                    text=True, timeout=MOST_S, check=False,
                )  # fmt: skip
            except subprocess.TimeoutExpired:
                faults.append(f"lot {mine}: froze")
                done += events
                continue
        lines = ended.stdout.splitlines()
        longest = max([longest, *(float(line.split()[1]) for line in lines if line.startswith("longest "))])
        faults += [f"lot {mine}: {line.removeprefix('fault ')}" for line in lines if line.startswith("fault ")]
        if ended.returncode:
            faults.append(f"lot {mine}: ended with {ended.returncode}: {ended.stderr[-300:]}")
        done += events
    return Report(done={"events": done, "longest_event_s": longest}, faults=tuple(faults))


if __name__ == "__main__":
    main(run, __doc__, 50_000)
