"""Names of half written files: hidden beside the target, with the process that writes them."""

import itertools
import os
import re
from pathlib import Path

ENDING = ".part"
LEFT_AFTER_S = 60.0
"""A part that nobody wrote to for that long, and whose process has ended, was left by a killed program."""
_LEFT_IN_ANY_CASE_S = 86_400.0  # process numbers come again: after a day nobody writes any more
_NAME = re.compile(r"^\..+\.(\d+)-\d+\.part$")
_COUNT = itertools.count()


def new_part(target: Path) -> Path:
    """A name beside ``target`` that no other writer uses."""
    return target.with_name(f".{target.name[:180]}.{os.getpid()}-{next(_COUNT)}{ENDING}")


def left_parts_of(target: Path, now: float) -> list[Path]:
    """The parts of ``target`` that killed programs left; ``now`` in seconds since 1970. Raises OSError."""
    start = f".{target.name[:180]}."
    return [path for path in target.parent.iterdir() if path.name.startswith(start) and is_left(path, now)]


def is_left(path: Path, now: float) -> bool:
    """Whether ``path`` is a half written file or folder whose writer has ended."""
    found = _NAME.match(path.name)
    if not found:
        return False
    try:
        age = now - path.lstat().st_mtime
    except OSError:
        return False
    return age > _LEFT_IN_ANY_CASE_S or (age > LEFT_AFTER_S and not _lives(int(found[1])))


def _lives(pid: int) -> bool:
    """Whether a process of that number lives on this computer; where that cannot be known, it may."""
    if os.name == "nt":  # there a part that is being written cannot be removed
        return False
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
