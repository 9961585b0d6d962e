"""Makes the hand-off again and again in one sitting, at once and after pauses with edits, and watches for a freeze.

A sitting is a process of its own: whether a library can stop the program depends on the thread that used it first, and
a frozen process can only be ended from outside. Where a making does not end in time the sitting ends itself and shows
what each of its threads was at.
"""

import faulthandler
import random
import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from studio.storage.episode_file import load
from studio.window.document import Document
from studio.window.handoff_job import Handoff
from studio.window.pictures_view import look_of
from studio.window.tasks import Job, JobRunner
from tests.campaigns.report import Report, main

SHORT, COUNT = 3, 10
ITEMS = ("timeline", "captions")
MOST_S = 60
DEMO = Path("demo_projects") / "minivan_one_new_tire.json"


class Sitting:
    """An episode, the window's job runner and a folder for the files."""

    def __init__(self, folder: Path) -> None:
        self.document, self.jobs, self.folder = Document(load(DEMO, lambda _: ())), JobRunner(), folder

    def make(self, number: int) -> None:
        """What the button does."""
        handoff = self._handoff()
        made, problems = self._wait_for("making", lambda: handoff.make_job(self.folder, ITEMS, False))
        if made < len(ITEMS) or problems:
            raise RuntimeError(f"making {number}: {made} made, {problems}")
        print(f"made {number}", flush=True)

    def edit(self, number: int) -> None:
        """What the place does after an edit: it looks what is stale."""
        episode = self.document.episode
        self.document.edit("Another title", replace(episode, title=f"{episode.title[:40]} {number}"))
        self._wait_for("looking", partial(self._handoff().look_job, self.folder))

    def _handoff(self) -> Handoff:
        its = self.document
        return Handoff(its.episode, its.findings, its.tables, look_of(its.episode))

    def _wait_for(self, name: str, job: Callable[[], Job]) -> tuple[int, tuple[str, ...]]:
        faulthandler.dump_traceback_later(MOST_S, exit=True)
        ended: list[object] = []
        self.jobs.run(name, job, on_done=ended.append, on_error=ended.append)
        while not ended:
            QTest.qWait(10)
        faulthandler.cancel_dump_traceback_later()
        if isinstance(ended[0], BaseException):
            raise ended[0]
        return ended[0]  # type: ignore[return-value]


def sit(seed: int, count: int, most_edits: int) -> None:
    """One sitting: ``count`` makings, before each but the first up to ``most_edits`` edits with pauses."""
    app, chance = QApplication([]), random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        sitting = Sitting(Path(folder))
        for number in range(count):
            for edit in range(chance.randint(0, most_edits) if number else 0):
                sitting.edit(edit)
                QTest.qWait(chance.randint(0, 2000))
            sitting.make(number)
        if not sitting.jobs.close():
            raise RuntimeError("a job did not end")
    app.quit()


def run(seed: int, count: int) -> Report:
    """One sitting without pauses and, where there are more than a few makings, one with pauses and edits."""
    sittings = (0, 4) if count > SHORT else (0,)
    done, faults = 0, list[str]()
    for most_edits in sittings:
        child = subprocess.run(
            [sys.executable, "-c", f"from tests.campaigns.handoffs import sit; sit({seed}, {count}, {most_edits})"],
            capture_output=True, text=True,
        )  # fmt: skip
        made = child.stdout.count("made ")
        done += made
        if child.returncode:
            how = "froze" if "Timeout (" in child.stderr else f"ended with {child.returncode}"
            where = f"{made} of {count} makings (up to {most_edits} edits between)"
            faults.append(f"{how} after {where}:\n{child.stderr[:500]}\n{child.stderr[-2000:]}")
    return Report(done={"sittings": len(sittings), "makings": done}, faults=tuple(faults))


if __name__ == "__main__":
    main(run, __doc__, COUNT)
