"""Whether a file is still the one that was read or written: somebody may change it outside this program."""

import hashlib
from pathlib import Path
from typing import Literal

import msgspec

Change = Literal["unchanged", "changed", "gone", "appeared"]
_AT_ONCE = 1 << 20


class Fingerprint(msgspec.Struct, frozen=True, kw_only=True):
    """What tells one content of a file from another: time and length for a quick look, the hash for a sure one."""

    mtime_ns: int
    size: int
    sha256: str


def fingerprint(path: Path) -> Fingerprint | None:
    """The file's fingerprint; None where there is no file that can be read.

    Take it *before* reading the file: a change in between is then noticed at the next look, and not lost.
    """
    try:
        with path.open("rb") as stream:
            status = path.stat()
            digest = hashlib.sha256()
            while block := stream.read(_AT_ONCE):
                digest.update(block)
    except (OSError, ValueError):
        return None
    return Fingerprint(mtime_ns=status.st_mtime_ns, size=status.st_size, sha256=digest.hexdigest())


def changed_outside(path: Path, known: Fingerprint | None) -> Change:
    """What happened to ``path`` since ``known`` was taken (None: there was no file then).

    A file that was only touched, or copied over by its own content, is unchanged.
    """
    try:
        status = path.stat()
    except (OSError, ValueError):
        return "gone" if known is not None else "unchanged"
    if known is None:
        return "appeared"
    if (status.st_mtime_ns, status.st_size) == (known.mtime_ns, known.size):
        return "unchanged"
    now = fingerprint(path)
    if now is None:
        return "gone"
    return "unchanged" if now.sha256 == known.sha256 else "changed"
