"""Text tables as spreadsheets write them: which encoding, which separator, and bounded in every direction."""

import csv
import io
import unicodedata
from collections.abc import Collection, Iterator
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
    if lines[first].strip().lower() in {f"sep={separator}" for separator in _SEPARATORS}:
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


def _text(content: bytes) -> str:
    if len(content) > MOST_BYTES:
        raise CsvError(f"{len(content) / 1e6:.1f} MB is too large; expected at most {MOST_BYTES // 1_000_000} MB")
    if content.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise CsvError("this is a spreadsheet's own file; expected text: save it as CSV (UTF-8)")
    for encoding in _encodings(content):
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\x00" not in text:
            return text
    raise CsvError("this is not text; expected a table saved as CSV (UTF-8)")


def _encodings(content: bytes) -> tuple[str, ...]:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return ("utf-16",)
    head = content[:200]
    if head[1::2].count(0) > len(head) // 4:
        return ("utf-16-le",)
    if head[::2].count(0) > len(head) // 4:
        return ("utf-16-be",)
    return ("utf-8-sig", "cp1252")


def _separator(header: str, line: int, known: Collection[str]) -> str:
    def score(separator: str) -> int:
        return sum(_name(cell.strip().strip('"')) in known for cell in header.split(separator))

    best = max(_SEPARATORS, key=score)
    if not score(best):
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
