"""Cold start to a usable window, against a bare Qt window in the same run. Aim: at most 2.5 times.

    python -m tests.benchmarks.bench_start [ROUNDS]

Python keeps what it compiled, as it does where the program is installed; the first round makes that. Each measure is a
process of its own: from its beginning to the moment when the window has been painted and the event loop is idle. The
kinds take turns, so that a busy moment of the machine meets all. Two things follow a usable empty window some
hundredths of a second later and are not in its time: the drawing of the car, and the places that are not open. On an
episode all that is seen is there; its time, for which no aim was set, is printed beside.
"""

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 7
AIM = 2.5
IDLE = """
from PySide6.QtCore import QTimer
def leave():
    QTimer.singleShot(0, app.quit)
QTimer.singleShot(0, leave)
app.exec()
import os
os._exit(0)
"""
BARE = """
import sys
from PySide6.QtWidgets import QApplication, QMainWindow, QLabel
app = QApplication(sys.argv)
window = QMainWindow()
window.setCentralWidget(QLabel("bare"))
window.resize(1280, 720)
window.show()
app.processEvents()
"""
OURS = """
import sys
from pathlib import Path
from PySide6.QtWidgets import QApplication
from studio.window.app import open_window
app = QApplication(sys.argv)
window = open_window(app, Path(sys.argv[1]) if len(sys.argv) > 1 else None)
app.processEvents()
heavy = {"matplotlib", "reportlab"} & set(sys.modules)
assert not heavy, f"imported at start: {heavy}"
"""


def seconds(code: str, *arguments: str, home: str) -> float:
    """How long a fresh process takes to run ``code``."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment = {**kept, "TIRE_EPISODE_STUDIO_HOME": home, "PYTHONPATH": str(ROOT)}
    environment["PYTHONPYCACHEPREFIX"] = str(Path(home) / "compiled")
    environment.setdefault("QT_QPA_PLATFORM", "offscreen")
    begin = time.perf_counter()
    subprocess.run([sys.executable, "-c", code + IDLE, *arguments], check=True, env=environment, cwd=ROOT)
    return time.perf_counter() - begin


def main() -> int:
    """Measure, print, and say by the exit code whether the aim is met."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    bare, empty, episode = [], [], []
    with tempfile.TemporaryDirectory() as home:
        demo = shutil.copy(min((ROOT / "demo_projects").glob("*.json")), home)
        for _ in range(rounds + 1):  # the first round warms the disk's cache and is left out
            bare.append(seconds(BARE, home=home))
            empty.append(seconds(OURS, home=home))
            episode.append(seconds(OURS, demo, home=home))
    base = statistics.median(bare[1:])
    print(f"bare Qt window            {base * 1000:7.0f} ms")
    for name, every in (("our window", empty), ("our window, on an episode", episode)):
        middle = statistics.median(every[1:])
        print(f"{name:25s} {middle * 1000:7.0f} ms   {middle / base:.2f} times")
    return 0 if statistics.median(empty[1:]) <= AIM * base else 1


if __name__ == "__main__":
    sys.exit(main())
