"""Rescue copies: the work of a window that was killed, kept beside the episode and never in its place.

A rescue copy is an ordinary episode file. An episode without a file has its copy in the program's own folder, which
the process locks while it runs; there goes the copy too of an episode whose folder cannot be written. A copy that the
presenter refused, or that is older than the saved file, is put aside and kept for 7 days; one that waits for a decision
has a name of its own, so that the next unsaved work does not write over it.
"""

import contextlib
import datetime as dt
import hashlib
import os
import re
import secrets
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import msgspec

from studio.model.episode import Episode
from studio.storage.atomic import write_atomically
from studio.storage.episode_file import decode, encode, read_bytes
from studio.storage.errors import StorageError
from studio.storage.folders import data_folder, made
from studio.storage.lock import EpisodeLock, HeldElsewhere
from studio.storage.previous import previous_path

KEPT_DAYS = 7
_ENDING = ".rescue.json"
_UNTITLED = f"untitled-{os.getpid()}-{secrets.token_hex(4)}{_ENDING}"
_REFUSED = re.compile(r"\.refused-(\d{4}-\d{2}-\d{2})(-\d+)?\.rescue\.json$")
_WAITING = re.compile(r"\.waiting-(\d{4}-\d{2}-\d{2})(-\d+)?\.rescue\.json$")


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


def hold_far(episode_path: Path) -> EpisodeLock:
    """Hold ``episode_path`` on this machine, where no lock file can lie beside it. Raises StorageError."""
    far = rescue_paths(episode_path)[1]
    made(far.parent)
    return EpisodeLock.take(far)


def rescue_paths(episode_path: Path | None) -> tuple[Path | None, Path]:
    """Where the rescue copy lies: beside the episode (None if it has no file), and else in the program's folder."""
    folder = data_folder() / "rescue"
    if episode_path is None:
        return None, folder / _UNTITLED
    target = Path(os.path.realpath(episode_path))
    mark = hashlib.sha256(os.fsencode(target)).hexdigest()[:16]
    return target.with_name(f".{target.name[:180]}{_ENDING}"), folder / f"{mark}-{target.name[:180]}{_ENDING}"


def recoverable(episode_path: Path) -> Rescue | None:
    """The newest rescue copy of ``episode_path`` that reads and differs from what is saved; None if there is none.

    A copy that was written before the file was saved last is not newer work: only one that waits is offered all the
    same, since nobody decided about it yet.
    """
    saved, saved_ns = _saved(episode_path)
    fresh = [path for path in rescue_paths(episode_path) if path is not None and _written_ns(path) >= saved_ns]
    return _newest_unlike(saved, [*fresh, *_of_kind(episode_path, _WAITING)])


def put_older_aside(episode_path: Path, today: dt.date) -> tuple[Path, ...]:
    """Put aside the rescue copies that were written before ``episode_path`` was saved last, as by a program that was
    killed right after the save; one that holds what is saved is removed. Returns those put aside. Raises StorageError.
    """
    saved, saved_ns = _saved(episode_path)
    aside = []
    for path in rescue_paths(episode_path):
        if path is None or not 0 <= _written_ns(path) < saved_ns:
            continue
        rescue = _rescue_at(path)
        if rescue is not None and rescue.episode != saved:
            aside.append(refuse_rescue(rescue, today))
        else:
            with contextlib.suppress(OSError):
                path.unlink(missing_ok=True)
    return tuple(aside)


def let_wait(rescue: Rescue, today: dt.date) -> Path:
    """Keep ``rescue`` for a later decision: `recoverable` goes on offering it. Raises StorageError."""
    return rescue.path if _WAITING.search(rescue.path.name) else _renamed(rescue.path, "waiting", today)


class Kept(msgspec.Struct, frozen=True, kw_only=True):
    """A copy that can be brought back by hand: where it lies, when it was written, what it is."""

    path: Path
    written: dt.datetime
    kind: Literal["waiting", "put_aside", "put_aside_unnamed", "previous"]


def kept_copies(episode_path: Path | None) -> tuple[Kept, ...]:
    """What can be brought back, newest first: of ``episode_path``, and the unnamed work that was put aside."""
    found = [_kept_at(path, "put_aside_unnamed") for path in _files(rescue_paths(None)[1].parent) if _is_unnamed(path)]
    if episode_path is not None:
        found += [_kept_at(path, "waiting") for path in _of_kind(episode_path, _WAITING)]
        found += [_kept_at(path, "put_aside") for path in _of_kind(episode_path, _REFUSED)]
        found.append(_kept_at(previous_path(episode_path), "previous"))
    return tuple(sorted((each for each in found if each), key=lambda each: each.written, reverse=True))


def previous_version(episode_path: Path) -> Rescue | None:
    """The version of ``episode_path`` before its last save; None where there is none that reads."""
    return _rescue_at(previous_path(episode_path))


def lock_untitled() -> EpisodeLock:
    """Hold this process's copy of an episode without a file, so that no other window offers it. Raises StorageError."""
    path = rescue_paths(None)[1]
    made(path.parent)
    return EpisodeLock.take(path)


def recoverable_untitled() -> tuple[Rescue, ...]:
    """The rescue copies of episodes without a file, newest first, but for those of windows that are open."""
    mine = rescue_paths(None)[1]
    left = [
        path
        for path in _files(mine.parent)
        if path.name.startswith("untitled-") and path != mine and not _REFUSED.search(path.name)
    ]
    found = [_rescue_at(path) for path in left if not is_held(path)]
    return tuple(sorted((each for each in found if each), key=lambda each: each.written, reverse=True))


def discard_rescue(episode_path: Path | None) -> None:
    """Remove the rescue copies of ``episode_path``: it was saved, or closed without changes."""
    for path in rescue_paths(episode_path):
        if path is not None:
            with contextlib.suppress(OSError):
                path.unlink(missing_ok=True)


def refuse_rescue(rescue: Rescue, today: dt.date) -> Path:
    """Put ``rescue`` aside: it is not offered again and is kept for 7 days from ``today``. Raises StorageError."""
    return _renamed(rescue.path, "refused", today)


def _renamed(path: Path, kind: str, today: dt.date) -> Path:
    stem = _WAITING.sub("", path.name).removesuffix(_ENDING)
    for number in range(1000):
        again = f"-{number}" if number else ""
        aside = path.with_name(f"{stem}.{kind}-{today:%Y-%m-%d}{again}{_ENDING}")
        if not aside.exists():
            break
    try:
        return path.rename(aside)
    except OSError as error:
        raise StorageError(f"{path.name} cannot be put aside: {error.strerror}") from None


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


def _of_kind(episode_path: Path, kind: re.Pattern[str]) -> list[Path]:
    """The copies of ``episode_path`` that were put aside or wait, beside it and in the program's folder."""
    found = []
    for usual in rescue_paths(episode_path):
        if usual is not None:
            start = usual.name.removesuffix(_ENDING)
            found += [path for path in _files(usual.parent) if kind.sub("", path.name) == start]
    return found


def _is_unnamed(path: Path) -> bool:
    return path.name.startswith("untitled-") and _REFUSED.search(path.name) is not None


def _saved(episode_path: Path) -> tuple[Episode | None, int]:
    """What the file holds and when it was saved: nothing, before all else, where it does not read."""
    saved = _episode_at(episode_path)
    return saved, -1 if saved is None else _written_ns(episode_path)


def _newest_unlike(saved: Episode | None, paths: list[Path]) -> Rescue | None:
    found = [_rescue_at(path) for path in paths]
    differing = [rescue for rescue in found if rescue is not None and rescue.episode != saved]
    return max(differing, key=lambda rescue: rescue.written, default=None)


def _written_ns(path: Path) -> int:
    """When ``path`` was written; -1 where there is no such file."""
    try:
        return path.stat().st_mtime_ns
    except (OSError, ValueError):
        return -1


def _kept_at(path: Path, kind: Literal["waiting", "put_aside", "put_aside_unnamed", "previous"]) -> Kept | None:
    try:
        return Kept(path=path, written=_time_of(path), kind=kind)
    except (OSError, ValueError, OverflowError):
        return None


def _time_of(path: Path) -> dt.datetime:
    return dt.datetime.fromtimestamp(path.stat().st_mtime).replace(microsecond=0)


def _files(folder: Path) -> Iterator[Path]:
    try:
        names = sorted(folder.iterdir())
    except OSError:
        return
    yield from (path for path in names if path.name.endswith(_ENDING))


def is_held(path: Path) -> bool:
    """Whether a living process holds ``path``; a lock that nobody holds any more is removed."""
    try:
        EpisodeLock.take(path).release()
    except HeldElsewhere:
        return True
    except StorageError:
        return False
    return False


def _rescue_at(path: Path) -> Rescue | None:
    episode = _episode_at(path)
    if episode is None:
        return None
    try:
        return Rescue(path=path, written=_time_of(path), episode=episode)
    except (OSError, ValueError, OverflowError):
        return None


def _episode_at(path: Path) -> Episode | None:
    try:
        return decode(read_bytes(path))
    except StorageError:
        return None
