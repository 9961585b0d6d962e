"""One writer for one episode: a lock file beside it that says where it is open.

The system holds the lock itself, so it ends with the process, however that ends; a file left by a crash is taken over.
The text names computer and process and no person.
"""

import contextlib
import datetime as dt
import errno
import os
import socket
import sys
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Self

import msgspec

from studio.storage.errors import StorageError, plain

_MOST_BYTES = 4_000
_HELD = (errno.EACCES, errno.EAGAIN, errno.EWOULDBLOCK, errno.EDEADLK)
_LOCKED_BYTE = 1 << 30  # beyond the text, so that others can read who holds it

if sys.platform == "win32":
    import msvcrt

    def _seize(handle: int) -> None:
        os.lseek(handle, _LOCKED_BYTE, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
else:
    import fcntl

    def _seize(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


class Holder(msgspec.Struct, frozen=True, kw_only=True):
    """Where the episode is open: the computer, the process there, and since when."""

    host: str
    pid: int
    since: dt.datetime

    def words(self) -> str:
        """In plain words: ``process 4711 on workbench, since 14:05``."""
        return f"process {self.pid} on {plain(self.host)[:60]}, since {self.since:%Y-%m-%d %H:%M}"


class HeldElsewhere(StorageError):
    """Somebody else holds the lock; ``holder`` says where, if the lock file could be read."""

    def __init__(self, path: Path, holder: Holder | None) -> None:
        self.holder = holder
        where = holder.words() if holder else "another process"
        super().__init__(f"{plain(path.name)} is open already ({where}); close it there, or open it for reading only")


class EpisodeLock:
    """The lock on one episode, held until ``release`` or the end of the process."""

    def __init__(self, path: Path, handle: int) -> None:
        self.path = path
        self._handle: int | None = handle

    @classmethod
    def take(cls, episode: Path, clock: Callable[[], dt.datetime] = dt.datetime.now) -> Self:
        """Lock ``episode``. Raises HeldElsewhere, or StorageError where no lock file can be written."""
        path = lock_path(episode)
        while True:
            try:
                handle = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o666)
            except (OSError, ValueError) as error:
                why = plain(getattr(error, "strerror", None) or str(error))
                raise StorageError(f"{plain(episode.name)} cannot be locked for writing: {why}") from None
            try:
                _seize(handle)
            except OSError as error:
                os.close(handle)
                if error.errno in _HELD:
                    raise HeldElsewhere(episode, read_holder(path)) from None
                raise StorageError(f"{plain(episode.name)} cannot be locked here: {error.strerror}") from None
            if _is_still(handle, path):
                break
            os.close(handle)  # its holder removed it just now: try again with the new one
        _write_holder(handle, Holder(host=socket.gethostname(), pid=os.getpid(), since=clock().replace(microsecond=0)))
        return cls(path, handle)

    def release(self) -> None:
        """Give the lock up and remove its file; a second call does nothing."""
        handle, self._handle = self._handle, None
        if handle is None:
            return
        if os.name != "nt":
            with contextlib.suppress(OSError):
                self.path.unlink(missing_ok=True)
        os.close(handle)
        if os.name == "nt":  # there an open file cannot be removed
            with contextlib.suppress(OSError):
                self.path.unlink(missing_ok=True)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.release()


def lock_path(episode: Path) -> Path:
    """The lock file of ``episode``; a link and its target have the same one."""
    target = Path(os.path.realpath(episode))
    return target.with_name(f".{target.name[:200]}.lock")


def read_holder(path: Path) -> Holder | None:
    """Who wrote the lock file at ``path``; None where that cannot be read."""
    try:
        with path.open("rb") as stream:
            return msgspec.json.decode(stream.read(_MOST_BYTES), type=Holder)
    except (OSError, ValueError):
        return None


def _is_still(handle: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except OSError:
        return False


def _write_holder(handle: int, holder: Holder) -> None:
    with contextlib.suppress(OSError):  # on a full disk the lock holds all the same, only without its text
        os.lseek(handle, 0, os.SEEK_SET)
        os.write(handle, msgspec.json.encode(holder) + b"\n")
        os.ftruncate(handle, os.lseek(handle, 0, os.SEEK_CUR))
