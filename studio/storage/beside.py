"""Make a large file, or a folder, bit by bit and yet whole or not at all: beside the target, then in its place.

For what is small enough to be held in memory there is ``atomic.write_atomically``.
"""

import contextlib
import os
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

from studio.storage.atomic import RETRY_AFTER_S, reason
from studio.storage.errors import StorageError, plain
from studio.storage.parts import left_parts_of, new_part

_OLD = ".old"


@contextlib.contextmanager
def file_beside(target: Path) -> Iterator[Path]:
    """A path beside ``target`` to write a new file at; put in the target's place if the block ends well.

    Whatever else happens, a stop included, the target stays as it was and nothing is left beside it. Raises
    StorageError in one line for what the system refuses.
    """
    with _part(target) as part:
        yield part
        _flush(part)
        _replace(part, target)


@contextlib.contextmanager
def folder_beside(target: Path) -> Iterator[Path]:
    """The same for a folder of files: a new folder, which takes the place of the one that was there."""
    with _part(target) as part:
        part.mkdir()
        yield part
        _exchange(part, target)


@contextlib.contextmanager
def _part(target: Path) -> Iterator[Path]:
    part = new_part(target)
    try:
        _tidy(target)
        try:
            yield part
        finally:
            _remove(part)
    except OSError as error:
        sentence = f"{plain(target.name)} was not saved: {reason(error, target)}; nothing was changed"
        raise StorageError(sentence) from error


def _flush(part: Path) -> None:
    with part.open("rb+") as stream:
        os.fsync(stream.fileno())


def _replace(part: Path, target: Path) -> None:
    for pause in RETRY_AFTER_S:
        try:
            part.replace(target)
        except PermissionError:  # on Windows another program may hold the target for a moment
            time.sleep(pause)
        else:
            return
    part.replace(target)


def _exchange(part: Path, target: Path) -> None:
    """Put a folder in another's place; the old one comes back if the new one cannot take it."""
    if not target.exists():
        _replace(part, target)
        return
    old = target.with_name(f".{target.name[:180]}{_OLD}")
    _remove(old)
    _replace(target, old)
    try:
        _replace(part, target)
    except BaseException:
        _replace(old, target)
        raise
    _remove(old)


def _tidy(target: Path) -> None:
    """Clear away what a killed program left, and bring back the folder that it had just put aside."""
    old = target.with_name(f".{target.name[:180]}{_OLD}")
    if old.exists() and not target.exists():
        _replace(old, target)
    for left in left_parts_of(target, time.time()):
        _remove(left)


def _remove(path: Path) -> None:
    with contextlib.suppress(OSError):
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)
