"""The rows of a table of comments, each line of the file accounted for, however its quotation marks are broken.

A cell may span lines (RFC 4180, section 2, rules 6 and 7). Where an opened mark finds its end, the rows between it and
that end would vanish in one cell if it was never meant to open there: so what was joined has to prove itself, by its
number of cells and by lines that do not look like rows of their own; else each line is read by itself, in doubt.
"""

import csv
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

MOST_IN_ROW = 60_000
"""Characters of one row; what stands beyond is cut and told."""
_MOST_LINES = 200
_MOST_UNPROVEN = 12
"""So many lines one comment has at most where marks are broken elsewhere and a table of one column proves nothing."""
_LEARNED_FROM = 2_000
_TELLING_SHARE = 0.6
Doubt = Literal["", "open", "marks", "wide", "short", "cut"]


class Record(NamedTuple):
    """One row: the lines from ``line`` on that it was read from, its cells, and why it is in doubt, if it is."""

    line: int
    lines: int
    cells: list[str]
    doubt: Doubt = ""


def records(lines: Sequence[str], separator: str, first: int) -> Iterator[Record]:
    """Each row of ``lines`` from the one at ``first`` on; lines without anything in them are none."""
    at = first
    shape = _Shape.learned(lines, separator, first)
    while at < len(lines):
        if not lines[at].strip():
            at += 1
            continue
        record = _record(lines, at, separator, shape)
        yield record
        at += record.lines


def _record(lines: Sequence[str], at: int, separator: str, shape: "_Shape") -> Record:
    line = lines[at]
    if len(line) > MOST_IN_ROW:
        return Record(at + 1, 1, _torn(line[:MOST_IN_ROW], separator), "cut")
    within, sound = _walked(line, separator, within=False)
    if within:
        end = _end(lines, at, separator)
        if end is not None:
            cells = _cells("\n".join(lines[at:end]), separator)
            if shape.allows(lines, at, end, cells):
                return Record(at + 1, end - at, cells)
        return _opened(lines, at, separator, shape)
    return Record(at + 1, 1, _cells(line, separator)) if sound else Record(at + 1, 1, _torn(line, separator), "marks")


def _end(lines: Sequence[str], at: int, separator: str) -> int | None:
    """The line after the one in which the mark left open in line ``at`` closes as a mark should; None where none."""
    length = 0
    for here in range(at, min(len(lines), at + _MOST_LINES)):
        length += len(lines[here]) + 1
        within, sound = _walked(lines[here], separator, within=here > at)
        if not sound or length > MOST_IN_ROW:
            return None
        if not within:
            return here + 1
    return None


def _opened(lines: Sequence[str], at: int, separator: str, shape: "_Shape") -> Record:
    """The row whose mark never closes, with the lines after it that are too short to be rows of their own."""
    end = at + 1
    while end < min(len(lines), at + _MOST_LINES) and shape.is_rest(lines[end]):
        end += 1
    first, *rest = lines[at:end]
    cells = _torn(first, separator)
    if rest:
        cells[-1] = "\n".join([cells[-1], *(line.replace('"', "") for line in rest)])
    return Record(at + 1, end - at, cells, "open")


def _walked(line: str, separator: str, *, within: bool) -> tuple[bool, bool]:
    """(whether a quoted cell is left open at the end of the line, whether each closing mark ends its cell).

    A mark opens a cell only at its start; a doubled one in a quoted cell is a mark that is meant.
    """
    if '"' not in line:
        return within, True
    at = 0
    while True:
        if not within:
            at += len(line) - at - len(line[at:].lstrip(" "))
            if line[at : at + 1] != '"':
                at = line.find(separator, at) + 1
                if not at:
                    return False, True
                continue
            at += 1
        at = _closing(line, at)
        if at < 0:
            return True, True
        within, after = False, line[at + 1 :].lstrip(" ")
        if not after:
            return False, True
        if not after.startswith(separator):
            return False, False
        at = len(line) - len(after) + 1


def _closing(line: str, at: int) -> int:
    """The place of the first mark from ``at`` on that is no doubled one; -1 where there is none."""
    at = line.find('"', at)
    while at >= 0 and line[at + 1 : at + 2] == '"':
        at = line.find('"', at + 2)
    return at


def _cells(record: str, separator: str) -> list[str]:
    if '"' not in record:
        return record.split(separator)
    try:
        return next(csv.reader([record.replace("\x00", " ")], delimiter=separator, skipinitialspace=True), [])
    except csv.Error:
        return _torn(record, separator)


def _torn(line: str, separator: str) -> list[str]:
    """The cells of a line whose marks mean nothing."""
    return line.replace('"', "").split(separator)


class _Shape(NamedTuple):
    """What rows of this table look like: their number of cells, and columns whose cells are all of one make."""

    separator: str
    width: int
    telling: dict[int, str]
    is_sound: bool

    @classmethod
    def learned(cls, lines: Sequence[str], separator: str, first: int) -> "_Shape":
        rows = [
            _cells(line, separator)
            for line in lines[first : first + _LEARNED_FROM]
            if line.strip() and len(line) <= MOST_IN_ROW and _walked(line, separator, within=False) == (False, True)
        ]
        widths = Counter(map(len, rows))
        width = len(rows[0]) if rows and widths[len(rows[0])] > 1 else max(widths, key=lambda w: widths[w], default=1)
        telling = {}
        for column in range(width):
            makes = Counter(_make(cells[column]) for cells in rows[1:] if len(cells) == width)
            usual, count = makes.most_common(1)[0] if makes else ("", 0)
            if "0" in usual and len(usual) < 40 and count > _TELLING_SHARE * makes.total():
                telling[column] = usual
        return cls(separator, width, telling, _is_sound(lines[first:], separator, width))

    def allows(self, lines: Sequence[str], at: int, end: int, cells: list[str]) -> bool:
        """Whether lines ``at`` to ``end`` may be one row: no other number of cells, and no row within."""
        if len(cells) != self.width:
            return False
        if self.width == 1:
            return self.is_sound or end - at <= _MOST_UNPROVEN
        *within, last = lines[at + 1 : end]
        return not any(self._looks_like_a_row(line) for line in (*within, last[: _closing(last, 0)]))

    def _looks_like_a_row(self, line: str) -> bool:
        """In a sound file only what looks like one in each telling column; else what has as many cells."""
        cells = _torn(line, self.separator)
        if len(cells) < self.width or not self.is_sound:
            return len(cells) >= self.width
        return bool(self.telling) and all(_make(cells[column]) == make for column, make in self.telling.items())

    def is_rest(self, line: str) -> bool:
        """Whether a line after an open mark is too short to be a row: the rest of the cell."""
        return self.width > 1 and bool(line.strip()) and self.separator not in line


_RUNS = re.compile(r"[0-9]+|[^\W\d_]+")


def _make(cell: str) -> str:
    """What a cell is made of: digits as one 0, letters as one a, all else as it is."""
    return _RUNS.sub(lambda run: "0" if run[0][0].isdigit() else "a", cell.strip()[:60])


def _is_sound(lines: Sequence[str], separator: str, width: int) -> bool:
    """Whether the whole table reads by the standard, each row with as many cells as the first."""
    reader = csv.reader((f"{line}\n" for line in lines), delimiter=separator, strict=True, skipinitialspace=True)
    try:
        return all(len(cells) in (0, width) for cells in reader)
    except csv.Error:
        return False
