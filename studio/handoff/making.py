"""Makes the hand-off, file by file; whoever stops iterating stops it, and what was made stays named in the list."""

import contextlib
import errno
from collections.abc import Generator, Iterator, Sequence
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from typing import cast

import msgspec

from studio.handoff.manifest import FileState, Manifest, entry_made, read_manifest, states, write_manifest
from studio.handoff.material import Material
from studio.handoff.works import ITEMS, Work, works
from studio.storage.atomic import reason, write_atomically
from studio.storage.errors import StorageError, plain

_STOPS_ALL = (errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.ENOENT, errno.ENOTDIR, errno.EACCES, errno.EPERM)


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """How far it is: ``done`` of ``total`` files and ``share`` of the next; the file just made, or why there is none.

    Where there is neither ``state`` nor ``problem`` the file is being written.
    """

    done: int
    total: int
    item: str
    file: str
    state: FileState | None = None
    problem: str = ""
    failed: bool = False
    share: float = 0.0


def read_items(text: str) -> tuple[str, ...]:
    """Items named with commas between; raises ValueError naming those there are."""
    items = tuple(part.strip() for part in text.split(",") if part.strip())
    for item in items:
        if item not in ITEMS:
            raise ValueError(f"{item[:40]!r} is not a deliverable; there are: {', '.join(ITEMS)}")
    if not items:
        raise ValueError(f"{text[:40]!r} names no deliverable; there are: {', '.join(ITEMS)}")
    return items


def today(material: Material, folder: Path | None) -> tuple[FileState, ...]:
    """The state of every file in ``folder``; where none is chosen yet, nothing is made. Raises StorageError for a list
    that cannot be read.
    """
    before = Manifest() if folder is None else read_manifest(folder)
    return states(folder or Path(), material, works(material), before)


def make(material: Material, folder: Path, items: Sequence[str] = (), *, stale_only: bool = False) -> Iterator[Step]:
    """Make the files of ``items`` (none named is all), or only those that are not fresh; each step makes one.

    Raises StorageError where nothing can be written, before the first step or when the disk fills up.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StorageError(f"nothing was written to {plain(folder.name)}: {reason(error, folder)}") from error
    every = works(material)
    now = {state.file: state for state in states(folder, material, every, read_manifest(folder))}
    wanted = [work for work in every if (not items or work.item in items)]
    if stale_only:
        wanted = [work for work in wanted if now[work.file].state != "fresh"]
    return _run(material, folder, wanted, now)


def _run(material: Material, folder: Path, wanted: Sequence[Work], now: dict[str, FileState]) -> Iterator[Step]:
    try:
        for done, work in enumerate(wanted, start=1):
            step = Step(done=done, total=len(wanted), item=work.item, file=work.file)
            if work.lacking:
                yield msgspec.structs.replace(step, problem=work.lacking)
                continue
            try:
                now[work.file] = yield from _made(material, folder, work, msgspec.structs.replace(step, done=done - 1))
                step = msgspec.structs.replace(step, state=now[work.file])
            except Exception as error:
                if isinstance(error, StorageError) and getattr(error.__cause__, "errno", None) in _STOPS_ALL:
                    raise
                step = msgspec.structs.replace(step, problem=_sentence(work, error), failed=True)
            yield step
    except BaseException:  # stopped, or the disk is full: what is there is named all the same
        with contextlib.suppress(StorageError):
            write_manifest(folder, material, now.values())
        raise
    write_manifest(folder, material, now.values())


def _made(material: Material, folder: Path, work: Work, going: Step) -> Generator[Step, None, FileState]:
    """Make one file; one that takes long says how far it is."""
    path = folder / work.file
    path.parent.mkdir(parents=True, exist_ok=True)
    if work.write is None:
        content = work.make()
        write_atomically(path, content)
        return entry_made(material, work, sha256(content).hexdigest())
    with closing(work.write(path)) as writing:
        while True:
            try:
                share = next(writing)
            except StopIteration as end:
                return entry_made(material, work, cast("str", end.value))
            yield msgspec.structs.replace(going, share=share)


def _sentence(work: Work, error: Exception) -> str:
    if isinstance(error, StorageError):
        return plain(f"{work.file}: {error}")
    return plain(f"{work.file}: it could not be made ({type(error).__name__}: {error})"[:300])
