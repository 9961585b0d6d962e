"""Write a file whole or not at all: beside the target, flushed to the disk, then put in its place in one step."""

import contextlib
import errno
import os
import shutil
import time
from pathlib import Path

from studio.storage.errors import StorageError, plain
from studio.storage.parts import left_parts_of, new_part

RETRY_AFTER_S = (0.01, 0.02, 0.04, 0.05, 0.06)
"""Pauses before another try where another program, such as a virus scanner, holds the target: 180 ms in all."""


def write_atomically(path: Path, content: bytes) -> None:
    """Make ``content`` the file at ``path``; whatever goes wrong, the file there is the old or the new one, whole.

    A link is followed, and the permissions of an existing file are kept. Raises StorageError in one line for a folder
    that cannot be written, a full disk, and anything else that the system refuses.
    """
    try:
        target = Path(os.path.realpath(path))
        part = new_part(target)
        _refuse_protected(target)
        _remove_left_parts(target)
        try:
            _write_part(part, content)
            _keep_mode(target, part)
            _put_in_place(part, target)
        finally:
            with contextlib.suppress(OSError):
                part.unlink(missing_ok=True)
        _flush_folder(target.parent)
    except (OSError, ValueError) as error:
        raise StorageError(_sentence(path, error)) from error


def _write_part(part: Path, content: bytes) -> None:
    with part.open("xb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def _keep_mode(target: Path, part: Path) -> None:
    with contextlib.suppress(OSError):
        shutil.copymode(target, part)


def _put_in_place(part: Path, target: Path) -> None:
    for pause in RETRY_AFTER_S:
        try:
            part.replace(target)
        except PermissionError:
            time.sleep(pause)
        else:
            return
    part.replace(target)


def _flush_folder(folder: Path) -> None:
    """Flush the folder's entry too where the system can; the file itself is safe already."""
    if os.name == "nt":
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _remove_left_parts(target: Path) -> None:
    """Remove what a killed program left half written beside ``target``."""
    with contextlib.suppress(PermissionError):
        for left in left_parts_of(target, time.time()):
            with contextlib.suppress(OSError):
                left.unlink(missing_ok=True)


def _refuse_protected(target: Path) -> None:
    if target.exists() and not os.access(target, os.W_OK):
        raise OSError(errno.ETXTBSY, "the file is write-protected; choose another name")


def _sentence(path: Path, error: Exception) -> str:
    return f"{plain(path.name)} was not saved: {reason(error, path)}; nothing was changed"


def reason(error: Exception, path: Path) -> str:
    """Why the system refused ``path``, in plain words with what to do about it."""
    code = getattr(error, "errno", None)
    if code in (errno.ENOSPC, errno.EDQUOT):
        return "the disk is full; make room or choose another disk"
    if code in (errno.EACCES, errno.EPERM, errno.EROFS):
        return f"the folder {plain(path.parent.name or str(path.parent))} may not be written; choose another folder"
    if code == errno.ENOENT:
        return f"there is no folder {plain(path.parent.name or str(path.parent))}"
    if code == errno.EISDIR:
        return "that is the name of a folder; choose another name"
    if code == errno.ENAMETOOLONG:
        return "the name is too long"
    return plain(getattr(error, "strerror", None) or str(error))
