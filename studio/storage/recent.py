"""The episodes that were opened last, newest first."""

import os
from pathlib import Path

import msgspec

from studio.storage.atomic import write_atomically
from studio.storage.episode_file import read_bytes
from studio.storage.errors import StorageError
from studio.storage.folders import data_folder, made

MOST = 10
_MOST_BYTES = 1_000_000


class RecentFile(msgspec.Struct, frozen=True):
    """One episode that was open, and whether its file is still there."""

    path: Path
    there: bool


def recent_path() -> Path:
    """The file of the list."""
    return data_folder() / "recent.json"


def recent_files(store: Path | None = None) -> tuple[RecentFile, ...]:
    """The list, newest first; empty where it is missing or broken."""
    return tuple(RecentFile(path, path.is_file()) for path in map(Path, _read(store or recent_path())))


def remember(episode: Path, store: Path | None = None) -> None:
    """Put ``episode`` first. What cannot be written is not remembered: no work hangs on it."""
    store = store or recent_path()
    name = os.path.abspath(episode)  # noqa: PTH100 - a link keeps the name under which it was opened
    _write(store, [name, *(other for other in _read(store) if other != name)][:MOST])


def forget(episode: Path, store: Path | None = None) -> None:
    """Take ``episode`` off the list."""
    store = store or recent_path()
    name = os.path.abspath(episode)  # noqa: PTH100
    _write(store, [other for other in _read(store) if other != name])


def forget_all(store: Path | None = None) -> None:
    """Empty the list, as when the presenter turns it off."""
    _write(store or recent_path(), [])


def _read(store: Path) -> list[str]:
    try:
        names = msgspec.json.decode(read_bytes(store, _MOST_BYTES), type=list[str])
    except (StorageError, ValueError, RecursionError):
        return []
    return [name for name in names if name and "\x00" not in name][:MOST]


def _write(store: Path, names: list[str]) -> None:
    made(store.parent)
    try:
        write_atomically(store, msgspec.json.format(msgspec.json.encode(names), indent=2) + b"\n")
    except (StorageError, ValueError):
        return
