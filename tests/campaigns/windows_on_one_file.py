"""Three windows work by chance on one file and on work without a name; they close, are killed, and start again.

Each window is a process of its own with the program's own document, keeper and rescue copies, told what to do line by
line. What is held against them: unsaved work that a living window had kept can always be found again after it is
killed, whatever the other windows did; a file never holds what nobody saved. COUNT is the number of deeds.
"""

import os
import random
import subprocess
import sys
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

import msgspec

from studio.model.episode import Episode
from studio.storage.autosave import recoverable, recoverable_untitled, rescue_paths
from studio.storage.episode_file import decode, save
from studio.storage.folders import OVERRIDE
from tests.campaigns.report import Report, main
from tests.storage.episodes import SMALL

COUNT = 2000
SHORT = 12
REPOSITORY = Path(__file__).parents[2]
WINDOWS = 3
_DEEDS = ("work", "work", "work", "work", "edit", "save", "save_as", "open", "open", "close", "kill", "kill")


@dataclass
class _Window:
    """A window's process, and what is known of its work."""

    process: subprocess.Popen[str]
    path: str = ""
    read_only: bool = False
    title: str = ""
    clean: bool = True
    kept: str = ""
    """The title of the unsaved work of which it said that a rescue copy is written; empty where there is none."""

    def do(self, *words: str) -> list[str]:
        """Let it do something; what it says then of how it stands."""
        assert self.process.stdin is not None and self.process.stdout is not None
        self.process.stdin.write("\t".join(words) + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline().rstrip("\n").split("\t")
        if len(answer) != 5:
            raise RuntimeError(f"the window ended at {words}: {answer}")
        self.path, self.title = answer[0], answer[2]
        self.read_only, self.clean = answer[1] == "read", answer[3] == "clean"
        return answer


@dataclass
class _Stage:
    """The windows, the folder, and what was done."""

    folder: Path
    chance: random.Random
    windows: list[_Window] = field(default_factory=list)
    titles: int = 0
    saved: set[str] = field(default_factory=lambda: {"start"})
    done: dict[str, int] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)

    @property
    def file(self) -> Path:
        return self.folder / "one.json"

    def start(self) -> _Window:
        """A new window, which is asked to take up whatever is offered."""
        process = subprocess.Popen(
            [sys.executable, "-m", "tests.campaigns.one_window"], cwd=REPOSITORY, text=True, bufsize=1,
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        )  # fmt: skip
        window = _Window(process)
        answer = window.do("start")
        self._took_up(window, answer)
        return window

    def step(self) -> None:
        """One deed of one window by chance."""
        window = self.chance.choice(self.windows)
        deed = self.chance.choice(_DEEDS)
        self.done[deed] = self.done.get(deed, 0) + 1
        getattr(self, f"_{deed}")(window)

    def _edit(self, window: _Window) -> None:
        self.titles += 1
        window.do("edit", f"t{self.titles}")

    def _work(self, window: _Window) -> None:
        """An edit, and the rescue copy that follows it in time."""
        self._edit(window)
        window.do("keep")
        window.kept = "" if window.clean else window.title

    def _save(self, window: _Window) -> None:
        self.titles += 1
        window.do("save", str(self.folder / f"other{self.titles}.json"))
        self._note_save(window)

    def _save_as(self, window: _Window) -> None:
        self.titles += 1
        target = self.chance.choice([self.file, self.folder / f"other{self.titles}.json"])
        window.do("save_as", str(target))
        self._note_save(window)

    def _note_save(self, window: _Window) -> None:
        if window.clean:
            self.saved.add(window.title)
            window.kept = ""

    def _open(self, window: _Window) -> None:
        answer = window.do("open", str(self.file))
        window.kept = ""  # it was asked about its changes and gave them up
        self._took_up(window, answer)

    def _close(self, window: _Window) -> None:
        assert window.process.stdin is not None
        window.process.communicate("close\n", timeout=30)
        if window.process.returncode != 0:
            self.faults.append("a window did not close in order")
        self._replace(window)

    def _kill(self, window: _Window) -> None:
        window.process.kill()
        window.process.communicate()
        if window.kept:
            self._look_for(window)
        self._replace(window)

    def _look_for(self, window: _Window) -> None:
        """The killed window's unsaved work must be offered, exactly as it was kept."""
        if window.path and not window.read_only:
            rescue = recoverable(Path(window.path))
            found = {rescue.episode.title} if rescue else set()
        else:
            found = {rescue.episode.title for rescue in recoverable_untitled()}
        self.done["kept work looked for"] = self.done.get("kept work looked for", 0) + 1
        if window.kept not in found:
            where = Path(window.path).name or "no file"
            where += ", for reading" if window.read_only else ""
            self.faults.append(f"{window.kept} ({where}) was kept, its window killed, and is not offered: {found}")

    def _copies_of(self, window: _Window) -> set[str]:
        """What lies where the window keeps its rescue copy: beside the file that it holds, else as unnamed work."""
        beside, far = rescue_paths(None if window.read_only or not window.path else Path(window.path))
        copies = [beside] if beside is not None else far.parent.glob("untitled-*.rescue.json")
        return {decode(copy.read_bytes()).title for copy in copies if copy.exists()}

    def _took_up(self, window: _Window, answer: list[str]) -> None:
        window.kept = window.title if answer[4] == "restored" else ""

    def _replace(self, window: _Window) -> None:
        self.windows[self.windows.index(window)] = self.start()

    def look(self) -> None:
        """The file reads and holds what somebody saved; no window lives on another's lock, or has lost what it kept."""
        for number, window in enumerate(self.windows):
            if window.kept and window.kept not in self._copies_of(window):
                self.faults.append(f"window {number} lives, and its kept {window.kept} is gone: {window}")
        title = decode(self.file.read_bytes()).title
        if title not in self.saved:
            self.faults.append(f"the file holds {title!r}, which nobody saved")
        holders = [w for w in self.windows if w.path == str(self.file) and not w.read_only]
        if len(holders) > 1:
            self.faults.append(f"{len(holders)} windows hold the file for writing")


def run(seed: int, count: int) -> Report:
    """Do ``count`` deeds."""
    with tempfile.TemporaryDirectory() as name:
        before = os.environ.get(OVERRIDE)
        os.environ[OVERRIDE] = str(Path(name, "home"))
        stage = _Stage(Path(name, "work"), random.Random(seed))
        try:
            stage.folder.mkdir()
            save(stage.file, _titled("start"))
            stage.windows += [stage.start() for _ in range(WINDOWS)]
            for number in range(count):
                stage.step()
                stage.look()
                if stage.faults:
                    stage.faults[-1] = f"deed {number}: {stage.faults[-1]}"
                    break
        finally:
            for window in stage.windows:
                window.process.kill()
                window.process.communicate()
            os.environ.pop(OVERRIDE)
            if before is not None:
                os.environ[OVERRIDE] = before
    return Report(done=dict(sorted(stage.done.items())), faults=tuple(stage.faults))


def _titled(title: str) -> Episode:
    return msgspec.structs.replace(SMALL, title=title)


if __name__ == "__main__":
    main(run, __doc__, COUNT)
