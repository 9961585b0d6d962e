"""Kills a process that edits, keeps rescue copies and saves, at chance moments; nothing may be lost but the last edits.

Each round starts where the one before was killed, as the next start of the program does. After each kill the file must
read, it must not be older than the last save that was told, work that was kept must be offered unless the file is
newer, an older state must never be offered as newer, and nothing foreign may lie beside it. At the end, after one
orderly start and the sweep of a later day, no litter is left. COUNT is the number of kills.
"""

import contextlib
import datetime as dt
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import msgspec

from studio.model.episode import Episode
from studio.storage.autosave import put_older_aside, recoverable
from studio.storage.episode_file import decode, save
from studio.storage.errors import StorageError
from studio.storage.folders import OVERRIDE
from studio.storage.leftovers import sweep
from studio.storage.previous import previous_path
from studio.storage.recent import remember
from tests.campaigns.report import Report, main
from tests.storage.episodes import SMALL

COUNT = 500
SHORT = 6
REPOSITORY = Path(__file__).parents[2]
_LIVES_S = 0.25
_A_DAY_S = 90_000.0

_WORKER = """
import random, sys
from pathlib import Path
import msgspec
from studio.storage.autosave import discard_rescue, write_rescue
from studio.storage.episode_file import decode, save
from studio.storage.lock import EpisodeLock
path, number, seed = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
chance = random.Random(seed)
lock = EpisodeLock.take(path)
episode = decode(path.read_bytes())
print("ready", flush=True)
while True:
    number += 1
    episode = msgspec.structs.replace(episode, title=str(number), story="x" * chance.randrange(9000))
    if chance.random() < 0.6:
        write_rescue(path, episode)
        print("kept", number, flush=True)
    else:
        save(path, episode)
        print("saved", number, flush=True)
        discard_rescue(path)
        print("dropped", number, flush=True)
"""


class _Told:
    """What the killed process had told: the number of the last edit that it had kept, and that it had saved."""

    def __init__(self, number: int) -> None:
        self.kept = self.saved = number

    def hear(self, lines: list[str]) -> None:
        for line in lines:
            what, _, number = line.partition(" ")
            if what == "saved":
                self.saved = int(number)
            elif what == "kept":
                self.kept = int(number)

    @property
    def newest(self) -> int:
        return max(self.kept, self.saved)


def run(seed: int, count: int) -> Report:
    """Kill ``count`` times."""
    chance = random.Random(seed)
    faults: list[str] = []
    done = {"kills": 0, "edits told": 0, "copies offered": 0, "saves told": 0, "older copies put aside": 0}
    with tempfile.TemporaryDirectory() as name, _home(Path(name, "home")):
        path = Path(name, "work", "episode.json")
        path.parent.mkdir()
        save(path, _numbered(0))
        told = _Told(0)
        for kill in range(count):
            before = told.newest
            told.hear(_killed(path, before + 1000 * (kill % 2 == 0), chance))
            faults += [f"kill {kill}: {fault}" for fault in _lost(path, told, done)]
            done["kills"] += 1
            done["edits told"] += told.newest != before
            done["saves told"] += told.saved > before
        faults += _litter(path)
    return Report(done=dict(done), faults=tuple(faults))


def _killed(path: Path, number: int, chance: random.Random) -> list[str]:
    """The lines of a worker that was killed at a chance moment."""
    arguments = [sys.executable, "-c", _WORKER, str(path), str(number), str(chance.randrange(1 << 30))]
    with subprocess.Popen(arguments, cwd=REPOSITORY, stdout=subprocess.PIPE, text=True) as worker:
        assert worker.stdout is not None
        first = worker.stdout.readline()
        time.sleep(chance.random() * _LIVES_S)
        worker.send_signal(signal.SIGKILL if os.name != "nt" else signal.SIGTERM)
        return [first.strip(), *worker.stdout.read().split("\n")]


def _lost(path: Path, told: _Told, done: dict[str, int]) -> list[str]:
    """What is wrong after a kill."""
    try:
        in_file = _number_in(path)
    except StorageError as error:
        return [f"the file does not read: {error}"]
    faults = []
    if in_file < told.saved:
        faults.append(f"the file holds {in_file}, and {told.saved} was told as saved")
    done["older copies put aside"] += len(put_older_aside(path, dt.date.today()))
    rescue = recoverable(path)
    offered = int(rescue.episode.title) if rescue is not None else in_file
    if offered < in_file:
        faults.append(f"the older {offered} is offered in place of {in_file}")
    if max(offered, in_file) < told.newest:
        faults.append(f"{max(offered, in_file)} is left, and {told.newest} was told as kept")
    if rescue is not None:
        done["copies offered"] += 1
        save(path, rescue.episode)  # the user restores it and saves
        rescue.path.unlink()
    told.saved = told.kept = _number_in(path)
    for other in path.parent.iterdir():
        if not other.name.startswith((".episode.json.", "..episode.json.")) and other != path:
            faults.append(f"{other.name} lies beside the file")
    with contextlib.suppress(FileNotFoundError):
        previous_path(path).stat()
        if _number_in(previous_path(path)) > _number_in(path):
            faults.append("the previous version is newer than the file")
    return faults


def _litter(path: Path) -> list[str]:
    """What the sweep of a later day leaves; the file and its previous version are wanted, a lock is taken over."""
    later = time.time() - _A_DAY_S
    for each in path.parent.iterdir():
        os.utime(each, (later, later))
    remember(path)  # the sweep goes where an episode was opened lately
    removed = list(sweep(dt.date.today() + dt.timedelta(days=30), path.parent / "no temporary files"))
    wanted = {path.name, previous_path(path).name, ".episode.json.lock"}
    names = {each.name for each in path.parent.iterdir()}
    return [f"{name} is left as litter ({len(removed)} were swept)" for name in sorted(names - wanted)]


def _numbered(number: int) -> Episode:
    return msgspec.structs.replace(SMALL, title=str(number))


def _number_in(path: Path) -> int:
    return int(decode(path.read_bytes()).title)


@contextlib.contextmanager
def _home(folder: Path) -> Iterator[None]:
    before = os.environ.get(OVERRIDE)
    os.environ[OVERRIDE] = str(folder)
    try:
        yield
    finally:
        if before is None:
            del os.environ[OVERRIDE]
        else:
            os.environ[OVERRIDE] = before


if __name__ == "__main__":
    main(run, __doc__, COUNT)
