"""What was delivered and from what: ``handoff.json`` beside the files, and what of it is stale today, and why."""

from collections.abc import Iterable, Sequence
from hashlib import file_digest
from pathlib import Path
from typing import Literal

import msgspec

from studio.decide.input_words import input_words
from studio.handoff.material import Material
from studio.handoff.works import Work
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.storage.atomic import write_atomically
from studio.storage.errors import StorageError, plain

MANIFEST = "handoff.json"
FORMAT = 1
MOST_BYTES = 20_000_000
State = Literal["fresh", "stale", "not made"]


class ReadThen(msgspec.Struct, frozen=True, kw_only=True):
    """An input as it stood when a file was made: its path into the episode, and it in words."""

    path: str
    words: str


class SaidThen(msgspec.Struct, frozen=True, kw_only=True):
    """A finding as it stood when a file was made."""

    id: str
    sentence: str


class FileState(msgspec.Struct, frozen=True, kw_only=True):
    """One file of the hand-off with its state today; ``why`` is empty for a fresh one."""

    item: str
    file: str
    state: State
    why: tuple[str, ...] = ()
    sha256: str | None = None
    fingerprint: str | None = None
    findings: tuple[SaidThen, ...] = ()
    made_from: tuple[ReadThen, ...] = ()


class Manifest(msgspec.Struct, frozen=True, kw_only=True):
    """The list of all files."""

    format: int = FORMAT
    episode: str = ""
    on: str = ""
    files: tuple[FileState, ...] = ()


def read_manifest(folder: Path) -> Manifest:
    """The list in ``folder``; empty where there is none. Raises StorageError for one that cannot be read."""
    path = folder / MANIFEST
    try:
        if path.stat().st_size > MOST_BYTES:
            raise StorageError(f"{MANIFEST} is too large to be a list of the hand-off")
        return msgspec.json.decode(path.read_bytes(), type=Manifest)
    except FileNotFoundError:
        return Manifest()
    except OSError as error:
        raise StorageError(f"{MANIFEST} cannot be read: {plain(error.strerror or str(error))}") from error
    except (msgspec.MsgspecError, UnicodeDecodeError) as error:
        raise StorageError(f"{MANIFEST} is not a list of the hand-off: {plain(str(error))}") from error


def write_manifest(folder: Path, material: Material, files: Iterable[FileState]) -> None:
    """Write the list, whole or not at all."""
    made = Manifest(episode=material.episode.title, on=material.episode.on.isoformat(), files=tuple(files))
    write_atomically(folder / MANIFEST, msgspec.json.format(msgspec.json.encode(made), indent=2) + b"\n")


def states(folder: Path, material: Material, works: Sequence[Work], before: Manifest) -> tuple[FileState, ...]:
    """The state today of every file that could be, by what ``before`` says it was made from."""
    known = {entry.file: entry for entry in before.files}
    today = [_state(folder, material, work, known.get(work.file)) for work in works]
    listed = {work.file for work in works}
    left = (entry for entry in before.files if entry.file not in listed and entry.sha256 is not None)
    gone = ("It is no longer part of the hand-off.",)
    return (*today, *(_stale(entry, gone) for entry in left if _there(folder, entry)))


def entry_made(material: Material, work: Work, digest: str) -> FileState:
    """What the list says of a file just made."""
    findings = tuple(
        SaidThen(id=id_, sentence=finding.sentence)
        for id_ in work.findings
        if (finding := material.findings.get(id_)) is not None
    )
    return FileState(
        item=work.item, file=work.file, state="fresh", sha256=digest, fingerprint=work.fingerprint,
        findings=findings, made_from=_inputs(material, work.findings),
    )  # fmt: skip


def _state(folder: Path, material: Material, work: Work, entry: FileState | None) -> FileState:
    if work.lacking:
        return FileState(item=work.item, file=work.file, state="not made", why=(work.lacking,))
    if entry is None or entry.sha256 is None:
        return FileState(item=work.item, file=work.file, state="not made")
    there = _digest(folder / work.file)
    if there is None:
        return FileState(item=work.item, file=work.file, state="not made", why=("The file is no longer there.",))
    if there != entry.sha256:
        return _stale(entry, ("The file was changed after it was made.",))
    if work.fingerprint != entry.fingerprint:
        return _stale(entry, changes(material.episode, material.findings, entry) or (_other_change(work),))
    return msgspec.structs.replace(entry, state="fresh", why=())


def _stale(entry: FileState, why: tuple[str, ...]) -> FileState:
    return msgspec.structs.replace(entry, state="stale", why=why)


def changes(episode: Episode, findings: Findings, entry: FileState) -> tuple[str, ...]:
    """What has changed since ``entry`` was made: readings first, then findings that came, went or say otherwise."""
    told = []
    for then in entry.made_from:
        now = input_words(episode, then.path)
        if now != then.words:
            told.append(from_to(then.words, now))
    if told:
        return tuple(dict.fromkeys(told))
    for said in entry.findings:
        finding = findings.get(said.id)
        if finding is None:
            told.append(f"No longer found: {said.sentence}")
        elif finding.sentence != said.sentence:
            told.append(f"Was: {said.sentence} Is: {finding.sentence}")
    return tuple(told)


def from_to(then: str, now: str) -> str:
    """``front left, marking: 5/32 in, now 4/32 in``."""
    where, colon, value = now.rpartition(": ")
    if colon and then.startswith(f"{where}: "):
        return f"{then}, now {value}"
    return f"{then}, now {now}"


def _other_change(work: Work) -> str:
    if work.item in ("pictures", "clips"):
        return "Its look, title or drawing has changed."
    return "The rundown's words, order or times have changed."


def _inputs(material: Material, ids: Sequence[str]) -> tuple[ReadThen, ...]:
    found = (material.findings.get(id_) for id_ in ids)
    paths = dict.fromkeys(path for finding in found if finding for path in finding.inputs)
    return tuple(ReadThen(path=path, words=input_words(material.episode, path)) for path in paths)


def _there(folder: Path, entry: FileState) -> bool:
    """Whether a listed file lies in ``folder``; a list from outside may name any path, and only ours is looked at."""
    plainly = not Path(entry.file).is_absolute() and ".." not in Path(entry.file).parts
    return plainly and _digest(folder / entry.file) is not None


def _digest(path: Path) -> str | None:
    try:
        with path.open("rb") as stream:
            return file_digest(stream, "sha256").hexdigest()
    except OSError:
        return None
