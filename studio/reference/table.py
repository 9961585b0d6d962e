"""Read one reference table: a comma-separated file in which every row says where its value comes from.

A row without source, locator and standing does not load: a number that nobody can trace must not reach a viewer.
"""

import csv
import io
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import NoReturn, get_args

import msgspec

from studio.model.source import Source, Standing

PROVENANCE = ("source", "locator", "standing")
STANDINGS: tuple[str, ...] = get_args(Standing)
MAX_BYTES = 1_000_000
MAX_ROWS = 5_000
MAX_CELL = 600


class TableError(ValueError):
    """A reference table cannot be read. The message names the file, the line, and what is wrong."""


class RawRow(msgspec.Struct, frozen=True, kw_only=True):
    """One row as text, with the place it was read from."""

    file: str
    line: int
    cells: Mapping[str, str]
    source: Source

    def refuse(self, what: str) -> NoReturn:
        """Raise a TableError for this row."""
        raise TableError(f"{self.file}, line {self.line}: {what}")


def read_table(path: Path, columns: Sequence[str], key: Sequence[str]) -> tuple[RawRow, ...]:
    """Read a table with exactly ``columns``, in any order, and the three columns of its provenance.

    ``key`` names the columns that together tell the rows apart. Raises TableError, with file and line, for a file that
    is too large or not UTF-8, for other columns, for a row without provenance, and for two rows with one key.
    """
    lines = csv.reader(io.StringIO(_read_text(path), newline=""), strict=True)
    expected = (*columns, *PROVENANCE)
    try:
        header = tuple(next(lines, ()))
        if sorted(header) != sorted(expected):
            raise TableError(f"{path.name}, line 1: columns are {', '.join(header)}; expected {', '.join(expected)}")
        rows = tuple(_row(path.name, lines.line_num, header, cells) for cells in lines if cells)
    except csv.Error as error:
        raise TableError(f"{path.name}, line {lines.line_num}: not comma-separated text ({error})") from None
    if len(rows) > MAX_ROWS:
        raise TableError(f"{path.name}: {len(rows)} rows, at most {MAX_ROWS} are read")
    _refuse_duplicates(rows, key)
    return rows


def _read_text(path: Path) -> str:
    try:
        with path.open("rb") as stream:
            content = stream.read(MAX_BYTES + 1)
    except OSError as error:
        raise TableError(f"{path.name}: cannot be read ({error.strerror})") from None
    if len(content) > MAX_BYTES:
        raise TableError(f"{path.name}: larger than {MAX_BYTES} bytes, which no reference table is")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TableError(f"{path.name}: not UTF-8 text (byte {error.start})") from None


def _row(file: str, line: int, columns: Sequence[str], cells: Sequence[str]) -> RawRow:
    if len(cells) != len(columns):
        raise TableError(f"{file}, line {line}: {len(cells)} cells, expected {len(columns)}")
    named = {column: cell.strip() for column, cell in zip(columns, cells, strict=True)}
    for column, cell in named.items():
        if len(cell) > MAX_CELL:
            raise TableError(f"{file}, line {line}: {column} is longer than {MAX_CELL} characters")
        if not cell.isprintable() and any(unicodedata.category(character).startswith("C") for character in cell):
            raise TableError(f"{file}, line {line}: {column} holds a control character")
    return RawRow(file=file, line=line, cells=MappingProxyType(named), source=_source(file, line, named))


def _source(file: str, line: int, named: Mapping[str, str]) -> Source:
    absent = [column for column in PROVENANCE if not named[column]]
    if absent:
        raise TableError(f"{file}, line {line}: no {' and no '.join(absent)}; every row says where it was published")
    for standing in get_args(Standing):
        if standing == named["standing"]:
            return Source(title=named["source"], locator=named["locator"], standing=standing)
    raise TableError(
        f"{file}, line {line}: standing is {named['standing']!r}, expected one of {'; '.join(STANDINGS)}",
    )


def _refuse_duplicates(rows: Iterable[RawRow], key: Sequence[str]) -> None:
    seen: dict[tuple[str, ...], int] = {}
    for row in rows:
        mine = tuple(row.cells[column] for column in key)
        if mine in seen:
            row.refuse(f"{' and '.join(key)} {' '.join(mine)!r} stands in line {seen[mine]} already")
        seen[mine] = row.line
