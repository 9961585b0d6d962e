"""One writer: a second opening is told where the first is, and a crash leaves nothing locked."""

import datetime as dt
import errno
import os
import socket
import subprocess
import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest

from studio.storage import lock
from studio.storage.errors import StorageError
from studio.storage.lock import EpisodeLock, HeldElsewhere, Holder, lock_path, read_holder

REPOSITORY = Path(__file__).parents[2]
HOLD = """
import sys
from pathlib import Path
from studio.storage.lock import EpisodeLock
held = EpisodeLock.take(Path(sys.argv[1]))
print("held", flush=True)
sys.stdin.read()
"""


@pytest.fixture
def episode(tmp_path: Path) -> Path:
    path = tmp_path / "episode.json"
    path.write_text("{}")
    return path


def holding(episode: Path) -> subprocess.Popen[bytes]:
    child = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(episode)], cwd=REPOSITORY, stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert child.stdout and child.stdout.readline() == b"held\n"
    return child


def test_the_file_says_where_and_by_which_process_and_names_nobody(episode: Path) -> None:
    with EpisodeLock.take(episode, lambda: dt.datetime(2026, 11, 14, 14, 5)):
        text = lock_path(episode).read_text()
        assert set(msgspec.json.decode(text)) == {"host", "pid", "since"}
        holder = read_holder(lock_path(episode))
    assert holder == Holder(host=socket.gethostname(), pid=os.getpid(), since=dt.datetime(2026, 11, 14, 14, 5))
    assert holder.words() == f"process {os.getpid()} on {socket.gethostname()}, since 2026-11-14 14:05"


def test_release_removes_the_file_and_may_be_called_again(episode: Path) -> None:
    held = EpisodeLock.take(episode)
    held.release()
    held.release()
    assert [path.name for path in episode.parent.iterdir()] == ["episode.json"]
    EpisodeLock.take(episode).release()


def test_a_second_opening_in_another_process_is_told_who_holds_it(episode: Path) -> None:
    with holding(episode) as child:
        with pytest.raises(HeldElsewhere) as caught:
            EpisodeLock.take(episode)
        assert caught.value.holder and caught.value.holder.pid == child.pid
        assert f"episode.json is open already (process {child.pid} on " in str(caught.value)
        assert "\n" not in str(caught.value)
        child.communicate()
    EpisodeLock.take(episode).release()


def test_a_second_opening_in_the_same_process_is_refused_too(episode: Path) -> None:
    with EpisodeLock.take(episode), pytest.raises(HeldElsewhere):
        EpisodeLock.take(episode)


def test_a_lock_left_by_a_killed_process_is_taken_over(episode: Path) -> None:
    with holding(episode) as child:
        child.kill()
    assert lock_path(episode).exists()
    with EpisodeLock.take(episode):
        holder = read_holder(lock_path(episode))
        assert holder and holder.pid == os.getpid()


@pytest.mark.parametrize("text", [b"", b"\xff\x00", b'{"host": 5}', b"[" * 10_000, b"x" * 100_000])
def test_a_lock_file_with_any_text_in_it_is_taken_over(episode: Path, text: bytes) -> None:
    lock_path(episode).write_bytes(text)
    with EpisodeLock.take(episode):
        holder = read_holder(lock_path(episode))
        assert holder and holder.pid == os.getpid()


def test_a_holder_without_a_readable_text_is_just_another_process(episode: Path) -> None:
    with EpisodeLock.take(episode):
        lock_path(episode).write_bytes(b"?")
        with pytest.raises(HeldElsewhere, match=r"open already \(another process\)"):
            EpisodeLock.take(episode)


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_link_leads_to_the_same_lock(episode: Path) -> None:
    link = episode.with_name("link.json")
    link.symlink_to(episode)
    with EpisodeLock.take(link), pytest.raises(HeldElsewhere):
        EpisodeLock.take(episode)


def test_a_lock_removed_by_its_holder_in_between_is_taken_anew(episode: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = lock._seize
    removed: list[Path] = []

    def seize(handle: int) -> None:
        real(handle)
        if not removed:
            removed.append(lock_path(episode))
            lock_path(episode).unlink()

    monkeypatch.setattr(lock, "_seize", seize)
    with EpisodeLock.take(episode):
        assert removed and lock_path(episode).exists()


def test_where_no_lock_file_can_be_it_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(StorageError, match="cannot be locked for writing: No such file"):
        EpisodeLock.take(tmp_path / "nowhere" / "episode.json")

    def unsupported(_: Any) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr(lock, "_seize", unsupported)
    with pytest.raises(StorageError, match="cannot be locked here: No locks available") as caught:
        EpisodeLock.take(tmp_path / "episode.json")
    assert not isinstance(caught.value, HeldElsewhere)
