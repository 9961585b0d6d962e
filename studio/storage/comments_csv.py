"""Comments from a table as sites and spreadsheets export it: any encoding, broken quoting, markup, formulas.

Only the words and the day are taken; columns that name an author are dropped unread. Everything is plain text.
"""

import csv
import datetime as dt
import html
import re
from collections.abc import Iterator, Sequence

import msgspec

from studio.storage.csv_text import CsvError

MOST_BYTES = 64_000_000
MOST_ROWS = 100_000
MOST_IN_COMMENT = 20_000
_MOST_LINES = 40
_MOST_IN_LINE = 60_000
_SEPARATORS = (",", ";", "\t", "|")
_TEXT = re.compile(
    r"^(?:comments?|texts?|messages?|body|content|questions?|comment[ _]?(?:text|body)"
    r"|text[ _]?(?:display|original)|description|kommentare?|nachricht|"
    r"commentaires?|message|comentarios?|mensaje|commenti|commento|frage|reply|review)$",
    re.IGNORECASE,
)
_DAY = re.compile(
    r"^(?:date|day|on|published(?:[ _]?at)?|posted|time(?:stamp)?|created(?:[ _]?at)?|datum|fecha"
    r"|data|published date|updated(?:[ _]?at)?)$",
    re.IGNORECASE,
)
_AUTHOR = re.compile(
    r"author|user|name|channel|handle|profile|from|sender|autor|auteur|nutzer|usuario|utente"
    r"|e-?mail|phone|link|url|avatar|\bid\b",
    re.IGNORECASE,
)
_TAG = re.compile(r"<(?:br|/p|/div)[^<>]{0,200}>|<[a-z/!][^<>]{0,500}>", re.IGNORECASE)
_UNSEEN = re.compile(r"[^\n\x20-\x7e\xa0-\U0010ffff]|[\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ud800-\udfff]")
_ISO = re.compile(r"\b(\d{4})-(\d{2})-(\d{2})")


class Comment(msgspec.Struct, frozen=True, kw_only=True):
    """One comment: its line in the file, its words, its day where the table tells it."""

    line: int
    text: str
    on: dt.date | None = None


class Comments(msgspec.Struct, frozen=True, kw_only=True):
    """The comments of a table.

    ``column`` is where they were found, ``dropped`` names author columns, ``remarks`` say what was mended.
    """

    comments: tuple[Comment, ...]
    column: str
    dropped: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


def read_comments(content: bytes) -> Comments:
    """The comments in ``content``. Raises CsvError for what is no text, holds no comment, or is beyond all bounds."""
    text = _decoded(content)
    lines = text.split("\n")
    separator = _separator(lines[:30])
    mended: dict[str, int] = {}
    records = list(_records(lines, separator, mended))
    if not records:
        raise CsvError("the file is empty; expected a table with a column of comments, such as comment")
    column, header, named = _column(records)
    day = _day_column(records[0][1]) if header else None
    rows = records[1:] if header else records
    if len(rows) > MOST_ROWS:
        raise CsvError(f"{len(rows):,} rows were read, expected at most {MOST_ROWS:,}; split the file")
    comments = tuple(_comments(rows, column, day, mended))
    if not comments:
        raise CsvError(f"no comment stands in column {named!r}; expected the words of one in each row")
    names = records[0][1] if header else []
    dropped = tuple(name for i, name in enumerate(names) if i != column and _AUTHOR.search(name))
    return Comments(
        comments=comments,
        column=named,
        dropped=dropped,
        remarks=tuple(f"{count} {what}" for what, count in mended.items() if count),
    )


def _decoded(content: bytes) -> str:
    if len(content) > MOST_BYTES:
        raise CsvError(f"{len(content) / 1e6:.0f} MB is too large; expected at most {MOST_BYTES // 1_000_000} MB")
    if content.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF")):
        raise CsvError("this is a spreadsheet's or document's own file; expected text: save it as CSV (UTF-8)")
    for encoding in _encodings(content):
        try:
            return content.decode(encoding).replace("\r\n", "\n").replace("\r", "\n")
        except UnicodeDecodeError:
            continue
    return content.decode("utf-8", errors="replace").replace("\r\n", "\n").replace("\r", "\n")


def _encodings(content: bytes) -> tuple[str, ...]:
    head = content[:400]
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return ("utf-16",)
    if head and head[1::2].count(0) > len(head) // 4:
        return ("utf-16-le",)
    if head and head[::2].count(0) > len(head) // 4:
        return ("utf-16-be",)
    return ("utf-8-sig", "cp1252")


def _separator(lines: Sequence[str]) -> str:
    """The sign that cuts the first line into the most cells, of which one is a known name; else the steadiest one."""
    first = next((line for line in lines if line.strip()), "")
    if first.strip().lower()[:4] == "sep=" and len(first.strip()) == 5:
        return first.strip()[4]
    known = {sign: sum(_TEXT.match(cell.strip(' "')) is not None for cell in first.split(sign)) for sign in _SEPARATORS}
    if max(known.values()) and first.strip().count(max(known, key=lambda s: known[s])):
        return max(known, key=lambda sign: (known[sign], first.count(sign)))
    counts = {sign: min((line.count(sign) for line in lines if line.strip()), default=0) for sign in _SEPARATORS}
    return max(_SEPARATORS, key=lambda sign: counts[sign])


def _records(lines: list[str], separator: str, mended: dict[str, int]) -> Iterator[tuple[int, list[str]]]:
    """Each record with its line. A quotation mark that is never closed takes in no more than its own line."""
    at = 0
    while at < len(lines):
        if not lines[at].strip() or lines[at].strip().lower().startswith("sep="):
            at += 1
            continue
        end = _end_of_record(lines, at, separator)
        if end is None:
            mended["rows with quotation marks that do not match, read line by line"] = (
                mended.get("rows with quotation marks that do not match, read line by line", 0) + 1
            )
            yield at + 1, _cells(lines[at].replace('"', ""), separator, mended)
            at += 1
            continue
        yield at + 1, _cells("\n".join(lines[at:end]), separator, mended)
        at = end


def _end_of_record(lines: list[str], at: int, separator: str) -> int | None:
    """The line after the record that begins at ``at``; None where its quotation marks do not close soon.

    A mark opens a cell only at the cell's start and closes one only at its end: a stray one takes in no other row.
    """
    if lines[at].count('"') % 2 == 0:
        return at + 1
    if not _opens(lines[at], separator):
        return None
    for here in range(at + 1, min(len(lines), at + _MOST_LINES)):
        if lines[here].count('"') % 2:
            return here + 1 if _closes(lines[here], separator) else None
    return None


def _opens(line: str, separator: str) -> bool:
    """Whether the mark that is left open in ``line`` stands at the start of a cell."""
    within, opened = False, 0
    for place, sign in enumerate(line):
        if sign == '"':
            within = not within
            opened = place if within else opened
    before = line[:opened].rstrip(" ")
    return not before or before.endswith(separator)


def _closes(line: str, separator: str) -> bool:
    """Whether the first mark of ``line`` that is no doubled one stands at the end of a cell."""
    place = line.find('"')
    while line[place + 1 : place + 2] == '"':
        place = line.find('"', place + 2)
        if place < 0:
            return False
    after = line[place + 1 :].lstrip(" ")
    return not after or after.startswith(separator)


def _cells(record: str, separator: str, mended: dict[str, int]) -> list[str]:
    if len(record) > _MOST_IN_LINE:
        mended["rows cut, being longer than 60,000 characters"] = (
            mended.get("rows cut, being longer than 60,000 characters", 0) + 1
        )
        record = record[:_MOST_IN_LINE].replace('"', "")
    try:
        return next(csv.reader([record.replace("\x00", " ")], delimiter=separator), [])
    except csv.Error:
        return record.replace('"', "").split(separator)


def _column(records: list[tuple[int, list[str]]]) -> tuple[int, bool, str]:
    """(the column of the comments, whether the first row is a heading, its name)."""
    header = [cell.strip() for cell in records[0][1]]
    for index, name in enumerate(header):
        if _TEXT.match(name):
            return index, True, name
    heading = any(_DAY.match(name) or (_AUTHOR.search(name) and len(name) < 25) for name in header) and len(header) > 1
    lengths: dict[int, int] = {}
    for _, cells in records[1 if heading else 0 : 400]:
        for index, cell in enumerate(cells):
            if not (heading and index < len(header) and _AUTHOR.search(header[index])):
                lengths[index] = lengths.get(index, 0) + len(cell)
    if not lengths:
        raise CsvError("no column of comments was found; expected a heading such as comment, or one column of texts")
    best = max(lengths, key=lambda index: lengths[index])
    return best, heading, header[best] if heading and best < len(header) else f"column {best + 1}"


def _day_column(header: list[str]) -> int | None:
    return next((index for index, name in enumerate(header) if _DAY.match(name.strip())), None)


def _comments(
    rows: list[tuple[int, list[str]]], column: int, day: int | None, mended: dict[str, int]
) -> Iterator[Comment]:
    for line, cells in rows:
        cell = cells[column] if column < len(cells) else ""
        text = plain_comment(cell)
        if not text:
            mended["rows without words"] = mended.get("rows without words", 0) + 1
            continue
        if len(text) > MOST_IN_COMMENT:
            mended[f"comments cut to {MOST_IN_COMMENT:,} characters"] = (
                mended.get(f"comments cut to {MOST_IN_COMMENT:,} characters", 0) + 1
            )
        yield Comment(
            line=line,
            text=text[:MOST_IN_COMMENT],
            on=_date(cells[day]) if day is not None and day < len(cells) else None,
        )


def plain_comment(cell: str) -> str:
    """The words of a cell: entities and tags undone, control characters blanked; a formula is nothing but its text."""
    text = _TAG.sub(_tag, html.unescape(cell))
    return "\n".join(" ".join(line.split()) for line in _UNSEEN.sub(" ", text).split("\n")).strip()


def _tag(match: re.Match[str]) -> str:
    return "\n" if match[0].lower().startswith(("<br", "</p", "</div")) else " "


def _date(cell: str) -> dt.date | None:
    found = _ISO.search(cell)
    if found is None:
        return None
    try:
        return dt.date(int(found[1]), int(found[2]), int(found[3]))
    except ValueError:
        return None
