"""Rescue copies: the work of a window that was killed, kept beside the episode and never in its place.

A rescue copy is an ordinary episode file. An episode without a file has its copy in the program's own folder, which
the process locks while it runs; there goes the copy too of an episode whose folder cannot be written. A copy that the
presenter refused is kept for 7 days.
"""

import contextlib
import datetime as dt
import hashlib
import os
import re
import secrets
from collections.abc import Iterator
from pathlib import Path

import msgspec

from studio.model.episode import Episode
from studio.storage.atomic import write_atomically
from studio.storage.episode_file import decode, encode, read_bytes
from studio.storage.errors import StorageError
from studio.storage.folders import data_folder, made
from studio.storage.lock import EpisodeLock, HeldElsewhere

KEPT_DAYS = 7
_ENDING = ".rescue.json"
_UNTITLED = f"untitled-{os.getpid()}-{secrets.token_hex(4)}{_ENDING}"
_REFUSED = re.compile(r"\.refused-(\d{4}-\d{2}-\d{2})(-\d+)?\.rescue\.json$")


class Rescue(msgspec.Struct, frozen=True, kw_only=True):
    """A rescue copy that can be taken up again: where it lies, when it was written, and what it holds."""

    path: Path
    written: dt.datetime
    episode: Episode


def write_rescue(episode_path: Path | None, episode: Episode) -> Path:
    """Keep ``episode`` as the rescue copy of ``episode_path`` (None: it has no file yet). Raises StorageError.

    Only the rescue copy is written, never the episode's own file.
    """
    content = encode(episode)
    beside, far = rescue_paths(episode_path)
    if beside is not None:
        try:
            write_atomically(beside, content)
        except StorageError:
            pass
        else:
            return beside
    made(far.parent)
    write_atomically(far, content)
    return far


def rescue_paths(episode_path: Path | None) -> tuple[Path | None, Path]:
    """Where the rescue copy lies: beside the episode (None if it has no file), and else in the program's folder."""
    folder = data_folder() / "rescue"
    if episode_path is None:
        return None, folder / _UNTITLED
    target = Path(os.path.realpath(episode_path))
    mark = hashlib.sha256(os.fsencode(target)).hexdigest()[:16]
    return target.with_name(f".{target.name[:180]}{_ENDING}"), folder / f"{mark}-{target.name[:180]}{_ENDING}"


def recoverable(episode_path: Path) -> Rescue | None:
    """The newest rescue copy of ``episode_path`` that reads and differs from what is saved; None if there is none."""
    saved = _episode_at(episode_path)
    found = [_rescue_at(path) for path in rescue_paths(episode_path) if path is not None]
    differing = [rescue for rescue in found if rescue is not None and rescue.episode != saved]
    return max(differing, key=lambda rescue: rescue.written, default=None)


def lock_untitled() -> EpisodeLock:
    """Hold this process's copy of an episode without a file, so that no other window offers it. Raises StorageError."""
    path = rescue_paths(None)[1]
    made(path.parent)
    return EpisodeLock.take(path)


def recoverable_untitled() -> tuple[Rescue, ...]:
    """The rescue copies of episodes without a file, newest first, but for those of windows that are open."""
    mine = rescue_paths(None)[1]
    left = [path for path in _files(mine.parent) if path.name.startswith("untitled-") and path != mine]
    found = [_rescue_at(path) for path in left if not _is_held(path)]
    return tuple(sorted((each for each in found if each), key=lambda each: each.written, reverse=True))


def discard_rescue(episode_path: Path | None) -> None:
    """Remove the rescue copies of ``episode_path``: it was saved, or closed without changes."""
    for path in rescue_paths(episode_path):
        if path is not None:
            with contextlib.suppress(OSError):
                path.unlink(missing_ok=True)


def refuse_rescue(rescue: Rescue, today: dt.date) -> Path:
    """Put ``rescue`` aside: it is not offered again and is kept for 7 days from ``today``. Raises StorageError."""
    stem = rescue.path.name.removesuffix(_ENDING)
    for number in range(1000):
        again = f"-{number}" if number else ""
        aside = rescue.path.with_name(f"{stem}.refused-{today:%Y-%m-%d}{again}{_ENDING}")
        if not aside.exists():
            break
    try:
        return rescue.path.rename(aside)
    except OSError as error:
        raise StorageError(f"{rescue.path.name} cannot be put aside: {error.strerror}") from None


def sweep_refused(folder: Path, today: dt.date) -> tuple[Path, ...]:
    """Remove the refused rescue copies in ``folder`` that are older than 7 days; returns what was removed."""
    removed = []
    for path in _files(folder):
        found = _REFUSED.search(path.name)
        with contextlib.suppress(OSError, ValueError):
            if found and (today - dt.date.fromisoformat(found[1])).days > KEPT_DAYS:
                path.unlink(missing_ok=True)
                removed.append(path)
    return tuple(removed)


def _files(folder: Path) -> Iterator[Path]:
    try:
        names = sorted(folder.iterdir())
    except OSError:
        return
    yield from (path for path in names if path.name.endswith(_ENDING))


def _is_held(path: Path) -> bool:
    try:
        EpisodeLock.take(path).release()
    except HeldElsewhere:
        return True
    except StorageError:
        return False
    return False


def _rescue_at(path: Path) -> Rescue | None:
    if _REFUSED.search(path.name):
        return None
    episode = _episode_at(path)
    if episode is None:
        return None
    try:
        written = dt.datetime.fromtimestamp(path.stat().st_mtime).replace(microsecond=0)
    except (OSError, ValueError, OverflowError):
        return None
    return Rescue(path=path, written=written, episode=episode)


def _episode_at(path: Path) -> Episode | None:
    try:
        return decode(read_bytes(path))
    except StorageError:
        return None
