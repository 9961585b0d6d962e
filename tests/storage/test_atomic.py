"""A save is whole or not at all: a killed process, a full disk, a folder that may not be written, a busy target."""

import errno
import os
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import msgspec
import pytest

from studio.storage import atomic, parts
from studio.storage.atomic import write_atomically
from studio.storage.episode_file import decode, encode
from studio.storage.errors import StorageError
from tests.storage.episodes import SMALL

BEFORE = encode(SMALL)
AFTER = encode(msgspec.structs.replace(SMALL, title="After", story="word " * 1900))
REPOSITORY = Path(__file__).parents[2]


@pytest.fixture
def target(tmp_path: Path) -> Path:
    path = tmp_path / "episode.json"
    path.write_bytes(BEFORE)
    return path


def others(target: Path) -> list[str]:
    return [path.name for path in target.parent.iterdir() if path != target]


def test_it_replaces_the_content_and_leaves_nothing_else(target: Path) -> None:
    write_atomically(target, AFTER)
    assert target.read_bytes() == AFTER
    assert others(target) == []


CHILD = """
import os, signal, sys
from pathlib import Path
from studio.storage import atomic

def die(*_):
    os.kill(os.getpid(), signal.SIGKILL)

point, content = sys.argv[2], sys.stdin.buffer.read()
real_open = Path.open

class Dying:
    def __init__(self, stream): self.stream = stream
    def __getattr__(self, name): return getattr(self.stream, name)
    def __enter__(self): return self
    def __exit__(self, *_): self.stream.close()
    def write(self, content):
        self.stream.write(content[: int(point)])
        self.stream.flush()
        die()

if point.isdigit():
    Path.open = lambda path, *a, **k: Dying(real_open(path, *a, **k))
elif point == "fsync":
    os.fsync = die
elif point == "before replace":
    os.replace = die
elif point == "after replace":
    real = os.replace
    os.replace = lambda *a: (real(*a), die())
atomic.write_atomically(Path(sys.argv[1]), content)
"""


@pytest.mark.skipif(os.name == "nt", reason="kills by signal")
@pytest.mark.parametrize(
    ("point", "content"),
    [
        ("0", BEFORE), ("1", BEFORE), (str(len(AFTER) // 2), BEFORE), (str(len(AFTER)), BEFORE), ("fsync", BEFORE),
        ("before replace", BEFORE), ("after replace", AFTER), ("never", AFTER),
    ],
)  # fmt: skip
def test_killed_at_any_point_the_file_is_as_before_or_after(target: Path, point: str, content: bytes) -> None:
    child = subprocess.run([sys.executable, "-c", CHILD, str(target), point], input=AFTER, cwd=REPOSITORY, check=False)
    assert child.returncode == (0 if point == "never" else -signal.SIGKILL)
    assert target.read_bytes() == content
    write_atomically(target, AFTER)  # what the killed one left is in nobody's way
    assert target.read_bytes() == AFTER


ENDLESS = """
import sys
from pathlib import Path
from studio.storage.atomic import write_atomically
path, contents = Path(sys.argv[1]), [Path(name).read_bytes() for name in sys.argv[2:]]
print("ready", flush=True)
while True:
    for content in contents:
        write_atomically(path, content)
"""


def test_killed_at_a_moment_of_chance_the_file_opens(target: Path, tmp_path: Path) -> None:
    sources = tmp_path / "sources"
    sources.mkdir()
    (sources / "a").write_bytes(AFTER)
    (sources / "b").write_bytes(BEFORE)
    for turn in range(8):
        arguments = [sys.executable, "-c", ENDLESS, str(target), str(sources / "a"), str(sources / "b")]
        with subprocess.Popen(arguments, cwd=REPOSITORY, stdout=subprocess.PIPE) as child:
            assert child.stdout and child.stdout.readline() == b"ready\n"
            time.sleep(0.003 * turn)
            child.kill()
        assert target.read_bytes() in (BEFORE, AFTER)
        decode(target.read_bytes())


def test_what_a_killed_process_left_is_removed_once_it_is_old(target: Path) -> None:
    old, fresh = (target.with_name(f".episode.json.99999999-{number}.part") for number in (0, 1))
    for part in (old, fresh):
        part.write_bytes(b"half")
    long_ago = time.time() - parts.LEFT_AFTER_S - 1
    os.utime(old, (long_ago, long_ago))
    write_atomically(target, AFTER)
    assert others(target) == [fresh.name]  # that one may still be written by another program


@pytest.mark.parametrize(
    ("code", "said"),
    [
        (errno.ENOSPC, "the disk is full; make room or choose another disk"),
        (errno.EDQUOT, "the disk is full"),
        (errno.EACCES, "may not be written; choose another folder"),
        (errno.EROFS, "may not be written; choose another folder"),
        (errno.EIO, "Input/output error"),
    ],
)
@pytest.mark.parametrize("step", ["write", "fsync", "replace"])
def test_a_refusal_of_the_system_is_one_line_and_changes_nothing(
    target: Path, monkeypatch: pytest.MonkeyPatch, code: int, said: str, step: str
) -> None:
    def refuse(*_: Any, **__: Any) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(atomic, "RETRY_AFTER_S", (0.0,) * 5)
    if step == "write":
        monkeypatch.setattr(atomic, "_write_part", refuse)
    else:
        monkeypatch.setattr(os, step, refuse)
    with pytest.raises(StorageError) as caught:
        write_atomically(target, AFTER)
    assert str(caught.value).startswith("episode.json was not saved: ")
    assert said in str(caught.value) and "\n" not in str(caught.value)
    assert target.read_bytes() == BEFORE
    assert others(target) == []


def test_a_disk_that_fills_up_while_it_is_written_leaves_no_part(target: Path) -> None:
    """A limit on the size of files makes the system itself break off the write."""
    resource = pytest.importorskip("resource")
    script = (
        "import resource, signal, sys; from pathlib import Path; from studio.storage.atomic import write_atomically\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN); resource.setrlimit(resource.RLIMIT_FSIZE, (4000, 4000))\n"
        "try: write_atomically(Path(sys.argv[1]), b'x' * 100_000)\n"
        "except Exception as error: print(type(error).__name__, error)"
    )
    child = subprocess.run(
        [sys.executable, "-c", script, str(target)], cwd=REPOSITORY, capture_output=True, text=True, check=True
    )
    assert resource and child.stdout.startswith("StorageError episode.json was not saved: ")
    assert target.read_bytes() == BEFORE
    assert others(target) == []


@pytest.mark.parametrize(("failures", "saved"), [(0, True), (1, True), (5, True), (6, False)])
def test_a_target_held_by_a_scanner_is_tried_again_five_times_within_200_ms(
    target: Path, monkeypatch: pytest.MonkeyPatch, failures: int, saved: bool
) -> None:
    tries, real = [], os.replace

    def busy(source: Path, to: Path) -> None:
        tries.append(source)
        if len(tries) <= failures:
            raise PermissionError(errno.EACCES, "in use")
        real(source, to)

    monkeypatch.setattr(os, "replace", busy)
    pauses: list[float] = []
    monkeypatch.setattr(time, "sleep", pauses.append)
    if saved:
        write_atomically(target, AFTER)
    else:
        with pytest.raises(StorageError, match="may not be written"):
            write_atomically(target, AFTER)
    assert target.read_bytes() == (AFTER if saved else BEFORE)
    assert len(tries) == min(failures, 5) + 1
    assert sum(pauses) <= 0.2
    assert others(target) == []


READ_ONLY = """
import os, sys
from pathlib import Path
from studio.storage.atomic import write_atomically
if os.geteuid() == 0:  # whoever may do everything gives that up first
    os.setgroups([]); os.setgid(65534); os.setuid(65534)
try: write_atomically(Path(sys.argv[1]), b"after")
except Exception as error: print(type(error).__name__, error)
"""


@pytest.mark.skipif(os.name == "nt", reason="folders have no such permissions there")
def test_a_folder_that_may_not_be_written() -> None:
    with tempfile.TemporaryDirectory() as above:
        folder = Path(above, "locked")
        folder.mkdir()
        target = folder / "episode.json"
        target.write_bytes(BEFORE)
        target.chmod(0o666)
        Path(above).chmod(0o755)
        folder.chmod(0o555)
        child = subprocess.run(
            [sys.executable, "-c", READ_ONLY, str(target)], cwd=REPOSITORY, capture_output=True, text=True, check=True
        )
        folder.chmod(0o755)
        assert child.stdout == (
            "StorageError episode.json was not saved: the folder locked may not be written; choose another folder;"
            " nothing was changed\n"
        )
        assert target.read_bytes() == BEFORE


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(StorageError, match="there is no folder nowhere; nothing was changed"):
        write_atomically(tmp_path / "nowhere" / "episode.json", AFTER)


def test_a_folder_in_the_place_of_the_file(tmp_path: Path) -> None:
    (tmp_path / "episode.json").mkdir()
    with pytest.raises(StorageError, match=r"episode\.json was not saved: "):
        write_atomically(tmp_path / "episode.json", AFTER)
    assert [path.name for path in tmp_path.iterdir()] == ["episode.json"]


@pytest.mark.parametrize("name", ["x" * 300, "bad\x00name"])
def test_a_name_that_cannot_be(tmp_path: Path, name: str) -> None:
    with pytest.raises(StorageError) as caught:
        write_atomically(tmp_path / name, AFTER)
    assert str(caught.value).isprintable()
    assert list(tmp_path.iterdir()) == []


def test_a_write_protected_file_is_kept(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(StorageError, match="the file is write-protected; choose another name"):
        write_atomically(target, AFTER)
    assert target.read_bytes() == BEFORE


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_link_is_followed_and_permissions_stay(target: Path) -> None:
    link = target.with_name("link.json")
    link.symlink_to(target)
    target.chmod(0o640)
    write_atomically(link, AFTER)
    assert link.is_symlink() and target.read_bytes() == AFTER
    assert target.stat().st_mode & 0o777 == 0o640
