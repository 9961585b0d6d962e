"""Episodes as files: JSON in UTF-8 with a format number, plain names in a fixed order, and nothing unknown."""

import codecs
import contextlib
import stat
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NoReturn

import msgspec

from studio.model.episode import FORMAT, Episode
from studio.model.problem import Problem
from studio.model.question import MOST_QUESTIONS, Question
from studio.storage.atomic import write_atomically
from studio.storage.errors import EpisodeFileError, StorageError, plain, shown
from studio.storage.explain import UNSEEN, explain
from studio.storage.migrations import upgrade
from studio.storage.previous import keep_as_previous, keep_for_good
from studio.storage.tidy import tidy

MOST_BYTES = 100_000_000
"""No episode file is larger, whoever wrote it: the largest table of comments fits with room for the rest."""
MOST_BYTES_BESIDE_QUESTIONS = 20_000_000
"""So large may be what is no question. Only questions come by the thousand; the rest is typed by hand or measured."""
_MOST_LOOKED_AT = 2_000_000  # a file that is refused is read a second time, untyped, only up to this
_LOT = 500  # questions at a time, so that no other thread waits long for Python's lock
ProblemFinder = Callable[[Episode], Sequence[Problem]]
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"


class _Outline(msgspec.Struct):
    """What is read before all else: which format the rest is in, and how much of it are questions."""

    format: Any = msgspec.UNSET
    questions: msgspec.Raw = msgspec.Raw()


class _Lot(msgspec.Struct):
    questions: tuple[Question, ...]


_outline_decoder = msgspec.json.Decoder(_Outline)
_typed = msgspec.json.Decoder(Episode)
_lot_decoder = msgspec.json.Decoder(_Lot)
_untyped = msgspec.json.Decoder()
_encoder = msgspec.json.Encoder()


def decode(content: bytes) -> Episode:
    """Read an episode of this format or an older one. Raises EpisodeFileError."""
    content = content.removeprefix(_BYTE_ORDER_MARK)
    outline = _outline(content)
    _refuse_large(len(content), len(outline.questions))
    number = _format_number(outline)
    if number < FORMAT:
        return _typed_from_older(content, number)
    try:
        return _typed.decode(content)
    except msgspec.ValidationError as error:
        raise EpisodeFileError(explain(error, _second_look(content))) from None
    except (ValueError, RecursionError) as error:
        raise EpisodeFileError(_not_json(content, error)) from None


def format_of(content: bytes) -> int:
    """The format number of a file's ``content``; raises EpisodeFileError where there is none that is known."""
    return _format_number(_outline(content.removeprefix(_BYTE_ORDER_MARK)))


def _outline(content: bytes) -> _Outline:
    if len(content) > MOST_BYTES:
        _refuse_size(len(content))
    try:
        return _outline_decoder.decode(content)
    except msgspec.ValidationError:
        raise EpisodeFileError('this JSON is not an episode; expected an object such as {"format": 2, ...}') from None
    except (ValueError, RecursionError) as error:
        raise EpisodeFileError(_not_json(content, error)) from None


def _format_number(outline: _Outline) -> int:
    number = outline.format
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
    """``episode`` as the bytes of its file, which are known to read back equal and to be no larger than is read.

    Raises EpisodeFileError, with the path, for a value that a file cannot hold, such as NaN or a text too long, and in
    numbers for an episode too large.
    """
    try:
        content = _laid_out(episode)
    except msgspec.ValidationError:  # somewhere in a lot: the whole says where
        whole = _encoder.encode(episode)
        try:
            _typed.decode(whole)
        except msgspec.ValidationError as error:
            raise EpisodeFileError(explain(error, _second_look(whole))) from None
        raise
    except (ValueError, TypeError) as error:
        if isinstance(error, EpisodeFileError):
            raise
        raise EpisodeFileError(f"the episode cannot be written: {plain(str(error))}") from None
    return content


def _laid_out(episode: Episode) -> bytes:
    """The file's bytes, the questions lot by lot: ten thousands of them take seconds."""
    rest = msgspec.structs.replace(episode, questions=())
    again = _typed.decode(_encoder.encode(rest))
    if again != rest:
        raise EpisodeFileError(_changed_value(episode))
    content = tidy(_encoder.encode(again))
    lots: list[bytes] = []
    size = 0
    for first in range(0, len(episode.questions), _LOT):
        lot = _Lot(episode.questions[first : first + _LOT])
        again_lot = _lot_decoder.decode(_encoder.encode(lot))
        if again_lot != lot:
            raise EpisodeFileError(_changed_value(episode))
        lots.append(tidy(_encoder.encode(again_lot)).removeprefix(_LOT_HEAD).removesuffix(_LOT_FOOT))
        size += len(lots[-1]) + 2
        _refuse_large(len(content) + size, size, _CANNOT_BE_KEPT)
    _refuse_large(len(content) + size, size, _CANNOT_BE_KEPT)
    if len(episode.questions) > MOST_QUESTIONS:
        raise EpisodeFileError(
            f"{len(episode.questions):,} questions are too many; expected at most {MOST_QUESTIONS:,}; nothing was saved"
        )
    if not lots:
        return content
    head, _, foot = content.partition(_NO_QUESTIONS)
    return b"".join((head, b'\n  "questions": [\n', b",\n".join(lots), b"\n  ],\n", foot))


_LOT_HEAD, _LOT_FOOT = b'{\n  "questions": [\n', b"\n  ]\n}\n"
_NO_QUESTIONS = b'\n  "questions": [],\n'
_CANNOT_BE_KEPT = "; take out questions that you do not need; nothing was saved"


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
    """Write ``episode`` to ``path``, whole or not at all; what could not be opened again replaces nothing.

    What was there is kept: an episode as the previous version (`previous_path`), and besides, for good, a file of an
    older format or one that does not read. Raises StorageError.
    """
    content = encode(episode)
    _keep_what_is_there(path)
    write_atomically(path, content)


def _keep_what_is_there(path: Path) -> None:
    try:
        content = read_bytes(path)
    except StorageError:
        return
    try:
        decode(content)
    except EpisodeFileError:
        if content.strip():
            keep_for_good(path, content)
        return
    if format_of(content) < FORMAT:
        keep_for_good(path, content)
    with contextlib.suppress(StorageError):  # a folder that takes no second file still takes the save
        keep_as_previous(path, content)


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


def _refuse_large(size: int, of_questions: int, more: str = "") -> None:
    """Refuse a file of ``size`` bytes, ``of_questions`` of which are questions, that would be too large."""
    if size > MOST_BYTES:
        _refuse_size(size, more=more)
    beside = size - of_questions
    if beside > MOST_BYTES_BESIDE_QUESTIONS:
        most = MOST_BYTES_BESIDE_QUESTIONS // 1_000_000
        raise EpisodeFileError(
            f"{beside / 1e6:.1f} MB without the questions is too large; expected at most {most} MB{more}"
        )


def _refuse_size(size: int, most: int = MOST_BYTES, more: str = "") -> NoReturn:
    raise EpisodeFileError(f"{size / 1e6:.1f} MB is too large; expected at most {most // 1_000_000} MB{more}")


def _second_look(content: bytes) -> Any:
    """The content of a refused file as plain data, to say what was read; `UNSEEN` for one too large to read twice."""
    return _raw(content) if len(content) <= _MOST_LOOKED_AT else UNSEEN


def _typed_from_older(content: bytes, number: int) -> Episode:
    if len(content) > MOST_BYTES_BESIDE_QUESTIONS:  # no program of that format wrote more
        _refuse_size(len(content), MOST_BYTES_BESIDE_QUESTIONS)
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
    if b"\x00" in content[:4000] or not _is_utf8(content):
        return f"this is not text in UTF-8; {expected}"
    if "out of range" in str(error):
        return _out_of_range(content)
    if "truncated" in str(error) and not content.rstrip().endswith(b"}"):
        return f"the file breaks off after {len(content)} bytes; {expected}"
    return f"this is not JSON ({plain(str(error)).removeprefix('JSON is malformed: ')}); {expected}"


def _is_utf8(content: bytes) -> bool:
    """Whether there is nothing but UTF-8, up to a letter that a file may break off in."""
    try:
        codecs.getincrementaldecoder("utf-8")().decode(content)
    except UnicodeDecodeError:
        return False
    return True


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
