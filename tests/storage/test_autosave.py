"""Rescue copies: never in the episode's place, offered once they differ, kept 7 days when refused."""

import datetime as dt
import os
import subprocess
import sys
from pathlib import Path

import msgspec
import pytest

from studio.storage import autosave, folders
from studio.storage.atomic import write_atomically
from studio.storage.autosave import (
    discard_rescue,
    lock_untitled,
    recoverable,
    recoverable_untitled,
    refuse_rescue,
    rescue_paths,
    sweep_refused,
    write_rescue,
)
from studio.storage.episode_file import encode, save
from studio.storage.errors import StorageError
from tests.storage.episodes import SMALL

REPOSITORY = Path(__file__).parents[2]
EDITED = msgspec.structs.replace(SMALL, title="Edited")
DAY = dt.date(2026, 11, 14)


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "home"
    monkeypatch.setenv(folders.OVERRIDE, str(folder))
    return folder


@pytest.fixture
def path(tmp_path: Path) -> Path:
    file = tmp_path / "work" / "episode.json"
    file.parent.mkdir()
    save(file, SMALL)
    return file


def test_the_users_file_is_never_written(path: Path) -> None:
    before = (path.read_bytes(), path.stat().st_mtime_ns)
    written = write_rescue(path, EDITED)
    assert (path.read_bytes(), path.stat().st_mtime_ns) == before
    assert written == path.with_name(".episode.json.rescue.json")


def test_what_was_kept_is_offered_until_it_is_saved(path: Path) -> None:
    assert recoverable(path) is None
    write_rescue(path, EDITED)
    rescue = recoverable(path)
    assert rescue is not None and rescue.episode == EDITED
    save(path, EDITED)
    assert recoverable(path) is None
    discard_rescue(path)
    assert sorted(each.name for each in path.parent.iterdir()) == [".episode.json.bak", "episode.json"]


def test_it_is_offered_too_where_the_episode_itself_is_gone_or_broken(path: Path) -> None:
    write_rescue(path, EDITED)
    path.write_bytes(b"broken")
    assert recoverable(path) is not None
    path.unlink()
    assert recoverable(path) is not None


@pytest.mark.parametrize("content", [b"", b"\xff", b"{}", encode(SMALL)[:-40]])
def test_a_broken_rescue_copy_is_not_offered(path: Path, content: bytes) -> None:
    rescue_paths(path)[0].write_bytes(content)  # type: ignore[union-attr]
    assert recoverable(path) is None


def test_where_the_folder_cannot_be_written_the_copy_goes_to_the_programs_own(
    path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = write_atomically

    def only_at_home(target: Path, content: bytes) -> None:
        if home not in target.parents:
            raise StorageError("read-only")
        real(target, content)

    monkeypatch.setattr(autosave, "write_atomically", only_at_home)
    written = write_rescue(path, EDITED)
    assert home in written.parents
    rescue = recoverable(path)
    assert rescue is not None and rescue.episode == EDITED
    discard_rescue(path)
    assert recoverable(path) is None


def test_the_newer_of_two_copies_is_offered(path: Path) -> None:
    beside, far = rescue_paths(path)
    assert beside is not None
    far.parent.mkdir(parents=True)
    os.utime(path, (900_000_000, 900_000_000))
    for place, title, at in ((beside, "older", 1_000_000_000), (far, "newer", 1_000_000_100)):
        place.write_bytes(encode(msgspec.structs.replace(SMALL, title=title)))
        os.utime(place, (at, at))
    rescue = recoverable(path)
    assert rescue is not None and rescue.episode.title == "newer"


LEAVE_UNTITLED = """
import sys
sys.path.insert(0, ".")
from studio.storage.autosave import lock_untitled, write_rescue
from tests.storage.episodes import SMALL
held = lock_untitled()
print(write_rescue(None, SMALL), flush=True)
sys.stdin.read()
"""


def test_the_copy_of_an_untitled_episode_is_offered_only_after_its_window_has_gone() -> None:
    with subprocess.Popen(
        [sys.executable, "-c", LEAVE_UNTITLED], cwd=REPOSITORY, stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as child:
        assert child.stdout is not None
        written = Path(child.stdout.readline().decode().strip())
        assert recoverable_untitled() == ()
        child.kill()
    found = recoverable_untitled()
    assert [(rescue.path, rescue.episode) for rescue in found] == [(written, SMALL)]


def test_ones_own_untitled_copy_is_not_offered_to_oneself() -> None:
    with lock_untitled():
        write_rescue(None, SMALL)
        assert recoverable_untitled() == ()
    discard_rescue(None)


def test_a_refused_copy_is_kept_for_seven_days_and_not_offered_again(path: Path) -> None:
    write_rescue(path, EDITED)
    rescue = recoverable(path)
    assert rescue is not None
    aside = refuse_rescue(rescue, DAY)
    assert recoverable(path) is None
    assert aside.read_bytes() == encode(EDITED)
    assert sweep_refused(path.parent, DAY + dt.timedelta(days=7)) == ()
    assert sweep_refused(path.parent, DAY + dt.timedelta(days=8)) == (aside,)
    assert [each.name for each in path.parent.iterdir()] == ["episode.json"]


def test_two_copies_refused_on_one_day_are_both_kept(path: Path) -> None:
    kept = set()
    for title in ("one", "two"):
        write_rescue(path, msgspec.structs.replace(SMALL, title=title))
        rescue = recoverable(path)
        assert rescue is not None
        kept.add(refuse_rescue(rescue, DAY))
    assert len(kept) == 2 and all(each.exists() for each in kept)
    assert set(sweep_refused(path.parent, DAY + dt.timedelta(days=30))) == kept


def test_the_sweep_takes_nothing_else(path: Path) -> None:
    write_rescue(path, EDITED)
    (path.parent / "mine.refused-2001-01-01.json").write_bytes(b"")
    assert sweep_refused(path.parent, dt.date(2099, 1, 1)) == ()
    assert sweep_refused(path.parent / "nowhere", DAY) == ()


def test_a_copy_that_has_gone_cannot_be_put_aside(path: Path) -> None:
    write_rescue(path, EDITED)
    rescue = recoverable(path)
    assert rescue is not None
    rescue.path.unlink()
    with pytest.raises(StorageError, match="cannot be put aside"):
        refuse_rescue(rescue, DAY)
