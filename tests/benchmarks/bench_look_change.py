"""Light to dark, and larger text, on a full episode with all six places visited: to the first painted frame.

    python -m tests.benchmarks.bench_look_change [ROUNDS] [EVENTS]

Each is measured fresh and after EVENTS chance events (by the monkey of the campaigns), against what the same style
sheet costs Qt on as many bare labels and fields in the same process, which is the floor. Aim: at most 0.3 s on an idle
machine, 3 times the floor, and no more than half as much again after long use.
"""

import os
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["TIRE_EPISODE_STUDIO_HOME"] = tempfile.mkdtemp()

from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from studio.window.style_sheet import style_sheet
from tests.campaigns.monkey import Monkey

ROUNDS, EVENTS = 5, 2000
AIM_S, AIM_FLOORS, AIM_GROWTH = 0.3, 3.0, 1.5
SETTLE_S = 1.5


def seconds(app: QApplication, change: Callable[[], object]) -> float:
    """From the change to the painted frame."""
    began = time.perf_counter()
    change()
    app.processEvents()
    return time.perf_counter() - began


def floor(app: QApplication, monkey: Monkey, count: int) -> float:
    """The same style sheet on ``count`` bare widgets."""
    bare = QWidget()
    column = QVBoxLayout(bare)
    for number in range(count):
        column.addWidget((QLabel, QLineEdit, QPushButton)[number % 3]())
    bare.show()
    app.processEvents()
    sheets = [style_sheet(monkey.window.appearance.look, percent) for percent in (100, 101)] * ROUNDS
    taken = statistics.median(seconds(app, lambda sheet=sheet: bare.setStyleSheet(sheet)) for sheet in sheets)
    bare.hide()
    bare.deleteLater()
    return taken


def measured(app: QApplication, monkey: Monkey, rounds: int) -> dict[str, float]:
    """The median of each change."""
    appearance = monkey.window.appearance
    appearance.choose("light")
    appearance.set_percent(100)
    colors = [seconds(app, lambda to=to: appearance.choose(to)) for _ in range(rounds) for to in ("dark", "light")]
    sizes = [seconds(app, lambda to=to: appearance.set_percent(to)) for _ in range(rounds) for to in (125, 100)]
    return {"light to dark": statistics.median(colors), "text size": statistics.median(sizes)}


def visit(app: QApplication, monkey: Monkey) -> None:
    """Each place until what fills in off the window's thread is there."""
    for key in monkey.window.places:
        monkey.window.show_place(key)
        until = time.monotonic() + SETTLE_S
        while time.monotonic() < until:
            app.processEvents()
            time.sleep(0.01)
    monkey.window.show_place("car")
    app.processEvents()


def main(arguments: list[str]) -> int:
    """Print the times and their ratios; 1 where an aim was missed."""
    rounds, events = [int(each) for each in (*arguments, *(str(it) for it in (ROUNDS, EVENTS)[len(arguments) :]))]
    app = QApplication([])
    with tempfile.TemporaryDirectory() as folder:
        monkey = Monkey(app, 1, Path(folder))
        visit(app, monkey)
        bare = floor(app, monkey, len(monkey.window.findChildren(QWidget)))
        fresh = measured(app, monkey, rounds)
        monkey.do(events)
        visit(app, monkey)
        used = measured(app, monkey, rounds)
        monkey.end()
    missed = False
    print(f"{len(app.allWidgets())} widgets; floor {bare * 1000:.0f} ms")
    for name, taken in fresh.items():
        growth = used[name] / taken
        good = taken <= AIM_S and taken / bare <= AIM_FLOORS and growth <= AIM_GROWTH
        missed = missed or not good
        print(
            f"{name}: {taken * 1000:.0f} ms, {taken / bare:.1f} x the floor (aim {AIM_FLOORS:g}); "
            f"after {events} events {used[name] * 1000:.0f} ms, {growth:.2f} x (aim {AIM_GROWTH:g})"
            f"{'' if good else '  MISSED'}"
        )
    sys.stdout.flush()
    os._exit(1 if missed else 0)


if __name__ == "__main__":
    main(sys.argv[1:])
