"""What killed programs leave behind, and how it is told from what a living one is just writing."""

import contextlib
import datetime as dt
import os
import re
import shutil
import stat
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from studio.storage.autosave import KEPT_DAYS, is_held, rescue_paths, sweep_refused
from studio.storage.errors import StorageError
from studio.storage.folders import data_folder, settings_folder
from studio.storage.lock import EpisodeLock, lock_path
from studio.storage.parts import is_left
from studio.storage.recent import recent_files

_PREFIX = "tire-episode-"
_HELD = "in_use"
_LOCK_OF_UNNAMED = re.compile(r"^\.(untitled-.*\.rescue\.json)\.lock$")


def temporary_folder(kind: str) -> Path:
    """A folder for this process alone, ``tire-episode-KIND-…``, told as living as long as the process does.

    Raises OSError where the system gives none.
    """
    folder = Path(tempfile.mkdtemp(prefix=f"{_PREFIX}{kind}-"))
    with contextlib.suppress(StorageError):
        _OURS[folder] = EpisodeLock.take(folder / _HELD)
    return folder


def remove_temporary_folder(folder: Path) -> None:
    """Give up a folder that `temporary_folder` made."""
    held = _OURS.pop(folder, None)
    if held is not None:
        held.release()
    shutil.rmtree(folder, ignore_errors=True)


_OURS: dict[Path, EpisodeLock] = {}


def sweep(today: dt.date, temporary: Path | None = None) -> Iterator[Path]:
    """Remove what ended processes left, path by path as it is removed: half written files, temporary folders with
    pictures in them, refused rescue copies older than 7 days, locks of nobody.

    It looks in the program's own folders, beside the episodes opened last, and among the system's temporary files.
    Nothing of a living process is touched, nor anything that this program did not name.
    """
    rescues = rescue_paths(None)[1].parent
    folders = dict.fromkeys([rescues, data_folder(), settings_folder()])
    folders |= dict.fromkeys(each.path.parent for each in recent_files())
    for folder in folders:
        yield from sweep_refused(folder, today)
        yield from _swept_parts(folder)
    yield from _swept_locks(rescues)
    yield from _swept_temporary(temporary or Path(tempfile.gettempdir()))


def _swept_parts(folder: Path) -> Iterator[Path]:
    now = time.time()
    for path in _entries(folder):
        if is_left(path, now) and _is_gone(path):
            yield path


def _swept_locks(folder: Path) -> Iterator[Path]:
    """The locks of unnamed work whose process and rescue copy are both gone."""
    for path in _entries(folder):
        found = _LOCK_OF_UNNAMED.match(path.name)
        if found and not folder.joinpath(found[1]).exists() and not is_held(folder / found[1]) and not path.exists():
            yield path


def _swept_temporary(folder: Path) -> Iterator[Path]:
    oldest = time.time() - KEPT_DAYS * 86_400
    for path in _entries(folder):
        if not path.name.startswith(_PREFIX) or not _is_own_folder(path):
            continue
        was_locked = lock_path(path / _HELD).exists()  # if not, it is just being made, or an older program made it
        if not is_held(path / _HELD) if was_locked else path.lstat().st_mtime < oldest:
            shutil.rmtree(path, ignore_errors=True)
            yield path


def _is_own_folder(path: Path) -> bool:
    """Whether ``path`` is a true folder of this user: in a place that all may write, links and others' are let be."""
    try:
        status = path.lstat()
    except OSError:
        return False
    return stat.S_ISDIR(status.st_mode) and (not hasattr(os, "getuid") or status.st_uid == os.getuid())


def _is_gone(path: Path) -> bool:
    """Remove ``path``; whether it is gone."""
    with contextlib.suppress(OSError):
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)
        return True
    return False


def _entries(folder: Path) -> list[Path]:
    try:
        return sorted(folder.iterdir())
    except OSError:
        return []
