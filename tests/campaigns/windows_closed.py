"""Opens windows on an episode, uses and closes them in one process, and collects their remains whole, at any moment.

What a closed window leaves behind is destroyed by the collector in an order of its own: whatever wrapper or command of
Qt's is then destroyed after what it belongs to crashes the program. Each process takes up to 40 windows, one after the
other; its seed tells what is done in them and when garbage is collected. The collector's own thresholds are left as
they are: where it looks all the time it finds the remains in small pieces, and what a whole window does is not seen.
"""

import faulthandler
import gc
import os
import random
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from studio import shipped
from studio.storage.episode_file import load
from studio.storage.folders import OVERRIDE
from studio.window.dialogs import Choice, WindowDialogs
from studio.window.document import Document
from studio.window.main_window import MainWindow
from studio.window.palette import Appearance
from studio.window.preferences import Preferences
from studio.window.rows import RowsForm
from tests.campaigns.report import Report, main

SHORT, COUNT = 2, 400
A_PROCESS = 40
MOST_S = 180
"""One window used and closed takes about a second on a machine at rest; a process that needs this long has stopped."""


class Leaving(WindowDialogs):
    """Gives every change up and takes note of nothing, as somebody in a hurry does."""

    def choose(self, title: str, text: str, choices: Sequence[Choice], detail: str = "") -> str:
        keys = [choice.key for choice in choices]
        return next((key for key in ("discard", "stop", "refuse") if key in keys), keys[0])

    def tell(self, title: str, text: str, detail: str = "") -> None:
        pass


class Windows:
    """One person who opens window after window."""

    def __init__(self, app: QApplication, chance: random.Random) -> None:
        self._app, self._chance = app, chance
        self._deferred = chance.random() < 0.5
        self._appearance = Appearance(app, "light")
        self._demos = [load(path, lambda _: ()) for path in sorted(shipped.demos().glob("*.json"))]
        self._tables = Document(self._demos[0]).tables

    def one(self) -> None:
        """Open a window, use it, close it, and let go of it."""
        document = Document(self._chance.choice(self._demos), tables=self._tables)
        window = MainWindow(document, self._appearance, Preferences(), Leaving())
        window.show()
        for _ in range(self._chance.randint(2, 8)):
            self._chance.choice((self._edit, self._undo, self._tire, self._fewer, self._row, self._go))(window)
            self._run_events()
            self._collect(0.2)
        if not window.close():
            raise RuntimeError("the window did not close")
        del window, document
        self._run_events()
        self._collect(0.5)

    def _edit(self, window: MainWindow) -> None:
        for number in range(self._chance.randint(1, 5)):
            episode = window.document.episode
            merge = self._chance.choice(("", "title"))
            window.document.edit("Title", replace(episode, title=f"{episode.title[:30]} {number}"), merge)

    def _undo(self, window: MainWindow) -> None:
        window.document.undo_stack.undo()

    def _go(self, window: MainWindow) -> None:
        window.show_place(self._chance.choice(("car", "findings", "rundown", "questions")))

    def _tire(self, window: MainWindow) -> None:
        window.go("car", f"specimens[{self._chance.randrange(4)}]")

    def _fewer(self, window: MainWindow) -> None:
        episode = window.document.episode
        if len(episode.specimens) > 2:
            window.document.edit("Remove a tire", replace(episode, specimens=episode.specimens[:-1]))

    def _row(self, window: MainWindow) -> None:
        window.show_place("car")
        self._chance.choice(window.places["car"].findChildren(RowsForm))._add_row()

    def _collect(self, how_often: float) -> None:
        if self._chance.random() < how_often:
            gc.collect()

    def _run_events(self) -> None:
        self._app.processEvents()
        if self._deferred:
            self._app.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def use(seed: int, count: int) -> None:
    """Use ``count`` windows in this process."""
    app, chance = QApplication([]), random.Random(seed)
    with tempfile.TemporaryDirectory() as home:
        os.environ[OVERRIDE] = str(Path(home) / "home")
        windows = Windows(app, chance)
        for number in range(count):
            faulthandler.dump_traceback_later(MOST_S, exit=True)
            windows.one()
            print(f"closed {number}", flush=True)
        faulthandler.cancel_dump_traceback_later()
    gc.collect()


def run(seed: int, count: int) -> Report:
    """As many processes as are needed, each with the next seed."""
    faults, closed, processes = list[str](), 0, 0
    for start in range(0, count, A_PROCESS):
        mine, own = seed + processes, min(A_PROCESS, count - start)
        child = subprocess.run(
            [sys.executable, "-X", "faulthandler", "-c",
             f"from tests.campaigns.windows_closed import use; use({mine}, {own})"],
            capture_output=True, text=True,
        )  # fmt: skip
        processes += 1
        ended = child.stdout.count("closed ")
        closed += ended
        if child.returncode:
            told = f"{child.stderr[:800]}\n{child.stderr[-800:]}"
            faults.append(f"seed {mine} ended with {child.returncode} after {ended} of {own} windows:\n{told}")
    return Report(done={"processes": processes, "windows": closed}, faults=tuple(faults))


if __name__ == "__main__":
    main(run, __doc__, COUNT)
