"""Episodes as files: JSON in UTF-8 with a format number, plain names in a fixed order, and nothing unknown."""

import os
import stat
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NoReturn

import msgspec

from studio.model.episode import FORMAT, Episode
from studio.model.problem import Problem
from studio.storage.atomic import write_atomically
from studio.storage.errors import EpisodeFileError, StorageError, plain, shown
from studio.storage.explain import explain
from studio.storage.migrations import upgrade
from studio.storage.tidy import tidy

MOST_BYTES = 20_000_000
ProblemFinder = Callable[[Episode], Sequence[Problem]]
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"


class _Numbered(msgspec.Struct):
    """The one thing that is read before all else: which format the rest is in."""

    format: Any = msgspec.UNSET


_number = msgspec.json.Decoder(_Numbered)
_typed = msgspec.json.Decoder(Episode)
_untyped = msgspec.json.Decoder()
_encoder = msgspec.json.Encoder()


def decode(content: bytes) -> Episode:
    """Read an episode of this format or an older one. Raises EpisodeFileError."""
    content = content.removeprefix(_BYTE_ORDER_MARK)
    if len(content) > MOST_BYTES:
        _refuse_size(len(content))
    number = format_of(content)
    if number < FORMAT:
        return _typed_from_older(content, number)
    try:
        return _typed.decode(content)
    except msgspec.ValidationError as error:
        raise EpisodeFileError(explain(error, _raw(content))) from None
    except (ValueError, RecursionError) as error:
        raise EpisodeFileError(_not_json(content, error)) from None


def format_of(content: bytes) -> int:
    """The format number of a file's ``content``; raises EpisodeFileError where there is none that is known."""
    try:
        number = _number.decode(content.removeprefix(_BYTE_ORDER_MARK)).format
    except msgspec.ValidationError:
        raise EpisodeFileError('this JSON is not an episode; expected an object such as {"format": 2, ...}') from None
    except (ValueError, RecursionError) as error:
        raise EpisodeFileError(_not_json(content, error)) from None
    if number is msgspec.UNSET:
        raise EpisodeFileError(f'this JSON is not an episode: "format" is missing; expected "format": {FORMAT}')
    if type(number) is not int or number < 0:
        raise EpisodeFileError(f"format: expected a whole number, read {shown(number)}; for example {FORMAT}")
    if number > FORMAT:
        raise EpisodeFileError(
            f"format {shown(number)} was made by a newer program; this one reads up to {FORMAT}; nothing was changed"
        )
    return number


def encode(episode: Episode) -> bytes:
    """``episode`` as the bytes of its file, which are known to read back equal.

    Raises EpisodeFileError, with the path, for a value that a file cannot hold, such as NaN or a text too long.
    """
    try:
        content = _encoder.encode(episode)
    except (ValueError, TypeError) as error:
        raise EpisodeFileError(f"the episode cannot be written: {plain(str(error))}") from None
    try:
        again = _typed.decode(content)
    except msgspec.ValidationError as error:
        raise EpisodeFileError(explain(error, _raw(content))) from None
    if again != episode:
        raise EpisodeFileError(_changed_value(episode))
    return tidy(_encoder.encode(again))


def load(path: Path, problems: ProblemFinder) -> Episode:
    """Read the episode at ``path``; ``problems`` finds what cannot be in the physical world.

    Raises EpisodeFileError for a content that is refused and StorageError for a file that cannot be read.
    """
    name = plain(path.name)
    try:
        episode = decode(read_bytes(path))
    except EpisodeFileError as error:
        raise EpisodeFileError(f"{name}: {error}") from None
    found = problems(episode)
    if found:
        more = f" (and {len(found) - 1} more of the kind)" if len(found) > 1 else ""
        raise EpisodeFileError(f"{name}: {plain(str(found[0]))}{more}")
    return episode


def save(path: Path, episode: Episode) -> None:
    """Write ``episode`` to ``path``, whole or not at all; a file of an older format is kept beside it as ``.bak``.

    Raises StorageError.
    """
    content = encode(episode)
    _keep_older_format(path)
    write_atomically(path, content)


def read_bytes(path: Path, most: int = MOST_BYTES) -> bytes:
    """The content of an ordinary file of at most ``most`` bytes; raises StorageError."""
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise EpisodeFileError("this is a folder or a device; expected a file")
        if status.st_size > most:
            _refuse_size(status.st_size, most)
        with path.open("rb") as stream:
            content = stream.read(status.st_size + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, EpisodeFileError):
            raise
        reason = plain(getattr(error, "strerror", None) or str(error))
        raise StorageError(f"{plain(path.name)} cannot be read: {reason}") from None
    if len(content) > most:
        _refuse_size(len(content), most)
    return content


def _refuse_size(size: int, most: int = MOST_BYTES) -> NoReturn:
    raise EpisodeFileError(f"{size / 1e6:.1f} MB is too large; expected at most {most // 1_000_000} MB")


def _typed_from_older(content: bytes, number: int) -> Episode:
    raw = upgrade(_raw(content), number)
    try:
        return msgspec.convert(raw, Episode)
    except msgspec.ValidationError as error:
        raise EpisodeFileError(f"format {number}: {explain(error, raw)}") from None


def _raw(content: bytes) -> Any:
    try:
        return _untyped.decode(content)
    except (ValueError, RecursionError) as error:
        raise EpisodeFileError(_not_json(content, error)) from None


def _not_json(content: bytes, error: Exception) -> str:
    """Why ``content`` is no JSON at all; the decoder's own words where they help to find the place."""
    expected = 'expected an episode as JSON in UTF-8, such as {"format": 2, ...}'
    if not content.strip():
        return f"the file is empty; {expected}"
    if isinstance(error, RecursionError):
        return f"lists and objects are nested too deeply; {expected}"
    if b"\x00" in content[:4000] or isinstance(error, UnicodeDecodeError):
        return f"this is not text in UTF-8; {expected}"
    if "out of range" in str(error):
        return _out_of_range(content)
    if "truncated" in str(error) and not content.rstrip().endswith(b"}"):
        return f"the file breaks off after {len(content)} bytes; {expected}"
    return f"this is not JSON ({plain(str(error)).removeprefix('JSON is malformed: ')}); {expected}"


def _out_of_range(content: bytes) -> str:
    """Where a number is too large for any computer's arithmetic, such as 1e999."""
    try:
        _typed.decode(content)
    except (ValueError, RecursionError) as error:
        if "out of range" in str(error):
            return explain(error, None)
    return "a number is out of range"


def _changed_value(episode: Episode) -> str:
    """Which number a file cannot hold; JSON knows no NaN."""
    for s, specimen in enumerate(episode.specimens):
        for r, reading in enumerate(specimen.readings):
            for g, groove in enumerate(reading.depths):
                for d, depth in enumerate(groove):
                    if depth is not None and not abs(depth) < float("inf"):
                        where = f"specimens[{s}].readings[{r}].depths[{g}][{d}]"
                        return f"{where}: {depth} is not a number that a file can hold; for example 4.5"
    return "the episode cannot be written: it would not read back equal"


def _keep_older_format(path: Path) -> None:
    try:
        content = read_bytes(path)
        older = format_of(content) < FORMAT
    except StorageError:
        return
    if older:
        write_atomically(backup_path(path, content), content)


def backup_path(path: Path, content: bytes) -> Path:
    """Where ``content`` is kept: ``NAME.bak``, or the next number if another content is kept there."""
    for number in range(1, 1000):
        backup = path.with_name(path.name + (".bak" if number == 1 else f".bak{number}"))
        if not os.path.lexists(backup) or (backup.is_file() and backup.read_bytes() == content):
            return backup
    raise StorageError(f"{plain(path.name)} has too many backups beside it; move some of them away")
