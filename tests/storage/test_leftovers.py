"""What ended processes left is swept; what a living one is writing, or is not ours, stays."""

import datetime as dt
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from studio.storage.autosave import lock_untitled, rescue_paths
from studio.storage.folders import OVERRIDE
from studio.storage.leftovers import remove_temporary_folder, sweep, temporary_folder
from studio.storage.lock import lock_path
from studio.storage.recent import remember

REPOSITORY = Path(__file__).parents[2]
DAY = dt.date(2026, 12, 1)
NOBODY = 99_999_999
"""No process has that number: systems end theirs below five million."""


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(OVERRIDE, str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "temporary"
    folder.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(folder))
    return folder


def swept(temporary: Path) -> set[str]:
    return {path.name for path in sweep(DAY, temporary)}


def aged(path: Path, seconds: float) -> Path:
    path.write_bytes(b"half")
    at = time.time() - seconds
    os.utime(path, (at, at))
    return path


def test_half_files_of_ended_processes_go_from_beside_the_episodes_opened_last(temporary: Path, tmp_path: Path) -> None:
    work = tmp_path / "work"
    work.mkdir()
    (work / "ep.json").write_bytes(b"")
    remember(work / "ep.json")
    gone = aged(work / f".ep.json.{NOBODY}-3.part", 100)
    kept = [
        aged(work / f".ep.json.{NOBODY}-4.part", 10),  # perhaps written to by another computer
        aged(work / f".ep.json.{os.getpid()}-3.part", 100),  # its process lives
        aged(work / "mine.part", 10**7),
        aged(work / ".download.part", 10**7),
    ]
    old = aged(work / f".ep.json.{os.getpid()}-9.part", 100_000)  # numbers of processes come again
    assert swept(temporary) == {gone.name, old.name}
    assert all(path.exists() for path in kept)


_MAKE_AND_WAIT = """
import sys, tempfile
tempfile.tempdir = sys.argv[1]
from studio.storage.leftovers import temporary_folder
folder = temporary_folder("studio")
(folder / "picture.png").write_bytes(b"a picture")
print(folder, flush=True)
sys.stdin.read()
"""


def test_a_temporary_folder_goes_when_its_process_was_killed_and_not_before(temporary: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", _MAKE_AND_WAIT, str(temporary)], cwd=REPOSITORY,
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
    ) as child:  # fmt: skip
        assert child.stdout is not None
        folder = Path(child.stdout.readline().strip())
        assert swept(temporary) == set()
        assert (folder / "picture.png").exists()
        child.kill()
    assert swept(temporary) == {folder.name}
    assert list(temporary.iterdir()) == []


def test_ones_own_folder_stays_until_it_is_given_up(temporary: Path) -> None:
    folder = temporary_folder("look")
    assert folder.name.startswith("tire-episode-look-")
    assert swept(temporary) == set() and folder.exists()
    remove_temporary_folder(folder)
    assert list(temporary.iterdir()) == []


def test_folders_that_an_older_program_made_go_after_a_week(temporary: Path) -> None:
    young, old = temporary / "tire-episode-studio-a", temporary / "tire-episode-studio-b"
    for folder, days in ((young, 6), (old, 8)):
        folder.mkdir()
        at = time.time() - days * 86_400
        os.utime(folder, (at, at))
    assert swept(temporary) == {old.name}
    assert young.exists()


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no links")
def test_links_and_files_of_that_name_are_let_be(temporary: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "precious").write_bytes(b"")
    os.utime(elsewhere, (0, 0))
    (temporary / "tire-episode-studio-link").symlink_to(elsewhere)
    aged(temporary / "tire-episode-notes.txt", 10**7)
    assert swept(temporary) == set()
    assert (elsewhere / "precious").exists()


def test_locks_of_unnamed_work_go_with_their_process(temporary: Path) -> None:
    mine = rescue_paths(None)[1]
    with lock_untitled():
        left = lock_path(mine.with_name("untitled-1-aa.rescue.json"))
        left.write_bytes(b"")
        assert swept(temporary) == {left.name}
        assert lock_path(mine).exists()


def test_refused_copies_go_after_seven_days(temporary: Path) -> None:
    folder = rescue_paths(None)[1].parent
    folder.mkdir(parents=True)
    for day in ("2026-11-23", "2026-11-24"):
        (folder / f"untitled-1-aa.refused-{day}.rescue.json").write_bytes(b"")
    assert swept(temporary) == {"untitled-1-aa.refused-2026-11-23.rescue.json"}
