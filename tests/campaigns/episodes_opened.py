"""Opens episode after episode in one window, goes through its places, and watches what stays in memory.

Every episode is another one, of the measure of the demos. The window is a process of its own. Memory is taken when the
window has come to rest after the first quarter of the episodes, by when it has seen its places, and after the last:
between them it may grow by 20 MB whatever the count, and no more tires may be alive than some few episodes have.
"""

import gc
import json
import os
import random
import subprocess
import sys
import tempfile
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import QEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from studio import shipped
from studio.model.specimen import Specimen
from studio.storage.episode_file import load, save
from studio.storage.folders import OVERRIDE
from studio.window.document import Document
from studio.window.main_window import MainWindow
from studio.window.palette import Appearance
from studio.window.preferences import Preferences
from tests.campaigns.report import Report, main
from tests.campaigns.windows_closed import Leaving

SHORT, COUNT = 14, 200
MOST_MB = 20
MOST_EPISODES_ALIVE = 12
"""The open one, and those that the kept results of the last decisions and drawings hold."""
PLACES = ("car", "findings", "rundown", "pictures", "questions", "handoff")


def open_many(seed: int, count: int) -> None:
    """Open ``count`` episodes; prints what was alive, as JSON."""

    app, chance = QApplication([]), random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        os.environ[OVERRIDE] = str(Path(folder) / "home")
        demos = [load(path, lambda _: ()) for path in sorted(shipped.demos().glob("*.json"))]
        window = MainWindow(Document(demos[0]), Appearance(app, "light"), Preferences(), Leaving())
        window.show()
        warm = max(2 * len(PLACES), count // 4)  # each place has drawn what it keeps
        path, taken = Path(folder) / "episode.json", list[tuple[int, float, int]]()
        for number in range(count):
            demo = chance.choice(demos)
            save(path, replace(demo, title=f"{demo.title} {number}"))
            if not window.keeper.open(path):
                raise RuntimeError("the episode was not opened")
            window.show_place(PLACES[number % len(PLACES)] if number < warm else chance.choice(PLACES))
            _come_to_rest(app, window)
            if number + 1 in (warm, count):
                taken.append((number + 1, _memory_mb(), sum(type(each) is Specimen for each in gc.get_objects())))
        most = max(len(demo.specimens) for demo in demos)
        print(json.dumps({"taken": taken, "tires_an_episode": most}))
        window.close()


def _come_to_rest(app: QApplication, window: MainWindow) -> None:
    QTest.qWait(20)
    while len(window.jobs):
        QTest.qWait(10)
    app.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    gc.collect()


def _memory_mb() -> float:
    """What the process has in memory now, in MB; 0 where the system does not tell."""
    status = Path("/proc/self/status")
    lines = status.read_text().splitlines() if status.exists() else []
    return next((int(line.split()[1]) / 1024 for line in lines if line.startswith("VmRSS")), 0.0)


def run(seed: int, count: int) -> Report:
    """One window that opens ``count`` episodes."""
    child = subprocess.run(
        [sys.executable, "-c", f"from tests.campaigns.episodes_opened import open_many; open_many({seed}, {count})"],
        capture_output=True, text=True,
    )  # fmt: skip
    if child.returncode:
        return Report(done={"episodes": 0}, faults=(f"ended with {child.returncode}:\n{child.stderr[-2000:]}",))
    told = json.loads(child.stdout.splitlines()[-1])
    (_, before, _), (episodes, after, alive) = told["taken"]
    faults = list[str]()
    if after - before > MOST_MB:
        faults.append(f"memory grew by {after - before:.1f} MB")
    if alive > MOST_EPISODES_ALIVE * told["tires_an_episode"]:
        faults.append(f"{alive} tires are alive after {episodes} episodes of at most {told['tires_an_episode']}")
    done = {"episodes": episodes, "MB after a quarter": before, "MB at the end": after, "tires alive": alive}
    return Report(done=done, faults=tuple(faults))


if __name__ == "__main__":
    main(run, __doc__, COUNT)
