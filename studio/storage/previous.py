"""What a save is about to replace is kept beside the file: one previous version, and older formats for good.

The previous version is there for the day on which the file itself cannot be read. It is hidden beside the file, so that
it goes with the folder, and is replaced by each save.
"""

import contextlib
import os
from pathlib import Path

from studio.storage.atomic import write_atomically
from studio.storage.errors import StorageError, plain
from studio.storage.parts import new_part

_ENDING = ".bak"


def previous_path(path: Path) -> Path:
    """Where the version before the last save of ``path`` lies: ``.NAME.bak``; a link has that of its target."""
    target = Path(os.path.realpath(path))
    return target.with_name(f".{target.name[:200]}{_ENDING}")


def keep_as_previous(path: Path, content: bytes) -> None:
    """Make the file at ``path``, which holds ``content``, the previous version too.

    It is linked where the system can: nothing is copied then. Raises StorageError.
    """
    kept = previous_path(path)
    part = new_part(kept)
    try:
        os.link(os.path.realpath(path), part)
        part.replace(kept)
    except (OSError, NotImplementedError):
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
        write_atomically(kept, content)


def keep_for_good(path: Path, content: bytes) -> None:
    """Keep ``content`` of ``path`` as a backup of its own, which no later save replaces. Raises StorageError."""
    write_atomically(backup_path(path, content), content)


def backup_path(path: Path, content: bytes) -> Path:
    """Where ``content`` is kept: ``NAME.bak``, or the next number if another content is kept there."""
    for number in range(1, 1000):
        backup = path.with_name(path.name + (_ENDING if number == 1 else f"{_ENDING}{number}"))
        if not os.path.lexists(backup) or (backup.is_file() and backup.read_bytes() == content):
            return backup
    raise StorageError(f"{plain(path.name)} has too many backups beside it; move some of them away")
