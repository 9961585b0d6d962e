"""Text tables as spreadsheets write them: which encoding, which separator, and bounded in every direction."""

import codecs
import csv
import io
import unicodedata
from collections.abc import Callable, Collection, Iterator, Sequence
from typing import NamedTuple

from studio.storage.errors import StorageError, plain, shown

MOST_BYTES = 5_000_000
MOST_ROWS = 20_000
MOST_COLUMNS = 250
MOST_IN_CELL = 500
_SEPARATORS = ("\t", ";", ",")
RUNS_AS_FORMULA = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What a cell that a spreadsheet runs begins with; the wide signs run in programs set to languages that type them."""


class CsvError(StorageError, ValueError):
    """A table was refused: where, what was read, what was expected, an example."""


class Row(NamedTuple):
    """One row: its line in the file and its cells by column."""

    line: int
    cells: dict[str, str]


def at(line: int, column: str) -> str:
    """How a message names a place in the file."""
    return f"line {line}, column {plain(column)[:40]}"


def read_rows(content: bytes, known: Collection[str]) -> tuple[tuple[str, ...], list[Row]]:
    """The columns and the rows of ``content``; ``known`` are column names that help to find the separator.

    Names come in small letters with single blanks. Rows and columns without any content are left out. Raises CsvError.
    """
    lines = list(io.StringIO(_text(content), newline=""))
    first = next((number for number, line in enumerate(lines) if line.strip()), None)
    if first is None:
        raise CsvError(f"the file is empty; expected a first line with the names of the columns: {_some(known)}")
    if told_separator(lines[first]) in _SEPARATORS:
        first += 1
    separator = _separator(lines[first] if first < len(lines) else "", first + 1, known)
    parsed = _parsed(lines[first:], separator, first)
    _, header = next(parsed, (first, []))
    names = [_name(cell) for cell in header]
    rows = list(_rows(parsed, names, separator))
    used = [name for name in names if name]
    for name in used:
        if used.count(name) > 1:
            raise CsvError(f"{at(first + 1, name)}: the name is there twice; expected each column once")
    return tuple(used), rows


def _name(cell: str) -> str:
    return " ".join(cell.lower().replace("_", " ").replace("-", " ").split())


def _some(known: Collection[str]) -> str:
    return ", ".join(list(known)[:12])


class Decoded(NamedTuple):
    """The text of a file; ``sound`` where every byte of it had a meaning."""

    text: str
    sound: bool


def decoded(content: bytes, most_bytes: int) -> Decoded:
    """``content`` as text: UTF-8 or UTF-16 with or without a mark, stray bytes in it by Windows-1252.

    Raises CsvError for what is too large, or a spreadsheet's or document's own file.
    """
    if len(content) > most_bytes:
        raise CsvError(f"{len(content) / 1e6:.1f} MB is too large; expected at most {most_bytes // 1_000_000} MB")
    if content.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF")):
        raise CsvError("this is a spreadsheet's or document's own file; expected text: save it as CSV (UTF-8)")
    encoding = _encoding(content)
    try:
        return Decoded(content.decode(encoding), True)
    except UnicodeDecodeError:
        pass
    text = content.decode(encoding, _BYTE_BY_BYTE if encoding == "utf-8-sig" else "replace")
    return Decoded(text, "\ufffd" not in text)


_BYTE_BY_BYTE = "studio.windows-1252"


def _of_windows(error: UnicodeError) -> tuple[str, int]:
    """What a byte that is no UTF-8 says in Windows-1252: alone such bytes make up a file of that encoding."""
    if not isinstance(error, UnicodeDecodeError):
        raise error
    return error.object[error.start : error.end].decode("cp1252", "replace"), error.end


codecs.register_error(_BYTE_BY_BYTE, _of_windows)


def _encoding(content: bytes) -> str:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    head = content[:400]
    if head[1::2].count(0) > len(head) // 4:
        return "utf-16-le"
    if head[::2].count(0) > len(head) // 4:
        return "utf-16-be"
    return "utf-8-sig"


def told_separator(line: str) -> str:
    """The separator that a first line tells as spreadsheets write it, ``sep=;``; empty where it tells none."""
    told = line.strip().lower()
    return line.strip()[4:5] or "\t" if told.startswith("sep=") and len(told) <= 5 else ""


def best_separator(header: str, is_name: Callable[[str], bool], signs: Sequence[str]) -> tuple[str, int]:
    """The sign that cuts the most known names out of ``header``, and how many they are."""
    named = {sign: sum(is_name(cell.strip().strip('"')) for cell in header.split(sign)) for sign in signs}
    best = max(signs, key=lambda sign: (named[sign], bool(named[sign]) and header.count(sign)))
    return best, named[best]


def _text(content: bytes) -> str:
    text, sound = decoded(content, MOST_BYTES)
    if not sound or "\x00" in text:
        raise CsvError("this is not text; expected a table saved as CSV (UTF-8)")
    return text


def _separator(header: str, line: int, known: Collection[str]) -> str:
    best, named = best_separator(header, lambda cell: _name(cell) in known, _SEPARATORS)
    if not named:
        raise CsvError(
            f"line {line}: {shown(header.strip())} was read, expected the names of the columns, such as {_some(known)}"
        )
    return best


def _parsed(lines: list[str], separator: str, skipped: int) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(lines, delimiter=separator, strict=True)
    line = skipped + 1
    try:
        for cells in reader:
            yield line, [cell.strip() for cell in cells]
            line = skipped + reader.line_num + 1
    except csv.Error as error:
        raise CsvError(f"line {line}: the quotation marks do not match ({plain(str(error))})") from None


def _rows(parsed: Iterator[tuple[int, list[str]]], names: list[str], separator: str) -> Iterator[Row]:
    if len(names) > MOST_COLUMNS:
        raise CsvError(f"line 1: {len(names)} columns, expected at most {MOST_COLUMNS}")
    taken = 0
    for line, cells in parsed:
        if not any(cells):
            continue
        taken += 1
        if taken > MOST_ROWS:
            raise CsvError(f"line {line}: expected at most {MOST_ROWS} rows")
        if any(cells[len(names) :]):
            comma = (
                "; write a decimal comma in quotation marks or put semicolons between cells" if separator == "," else ""
            )
            raise CsvError(f"line {line}: {len(cells)} cells were read, expected at most {len(names)}{comma}")
        for name, cell in zip(names, cells, strict=False):
            _check_cell(line, name, cell)
        yield Row(line, {name: cell for name, cell in zip(names, cells, strict=False) if name})


def _check_cell(line: int, name: str, cell: str) -> None:
    if cell and not name:
        raise CsvError(f"line {line}: {shown(cell)} stands in a column without a name")
    if len(cell) > MOST_IN_CELL:
        raise CsvError(f"{at(line, name)}: {len(cell)} characters, expected at most {MOST_IN_CELL}")
    if any(unicodedata.category(character) in ("Cc", "Cs") for character in cell):
        raise CsvError(f"{at(line, name)}: {shown(cell)} holds a control character")
