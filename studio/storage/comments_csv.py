"""Comments from a table as sites and spreadsheets export it: any encoding, broken quoting, markup, formulas.

Only the words and the day are taken; columns that name an author are dropped unread. Everything is plain text.
"""

import datetime as dt
import html
import re
from collections import Counter
from collections.abc import Iterator, Sequence

import msgspec

from studio.storage.comments_rows import MOST_IN_ROW, Doubt, Record, records
from studio.storage.csv_text import CsvError, best_separator, decoded, told_separator

MOST_BYTES = 64_000_000
MOST_ROWS = 100_000
MOST_IN_COMMENT = 20_000
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


class InDoubt(msgspec.Struct, frozen=True, kw_only=True):
    """A row read in doubt: its line in the file, why, its words, and whether they were taken as a comment."""

    line: int
    why: Doubt
    text: str
    is_taken: bool = True


class Comments(msgspec.Struct, frozen=True, kw_only=True):
    """The comments of a table, and what became of each of its lines.

    ``column`` is where they were found, ``dropped`` names author columns, ``remarks`` say what else there is to know.
    Each of the ``lines`` below the heading that is not blank began a comment, began a row without words, was
    ``joined`` to the line before as the rest of its cell, or stands in a row ``in_doubt`` that was not taken.
    """

    comments: tuple[Comment, ...]
    column: str
    lines: int
    without_words: int = 0
    joined: int = 0
    in_doubt: tuple[InDoubt, ...] = ()
    dropped: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()

    @property
    def doubts_told(self) -> tuple[str, ...]:
        """How many rows are in doubt for each reason, and in which lines they stand."""
        return tuple(_doubts_told(self.in_doubt))


DOUBTS: dict[Doubt, tuple[str, str]] = {
    "open": ("row has a quotation mark that never closes", "rows have a quotation mark that never closes"),
    "marks": ("row has quotation marks that do not match", "rows have quotation marks that do not match"),
    "wide": ("row has more cells than the heading", "rows have more cells than the heading"),
    "short": (
        "row ends before the column of comments and was not taken",
        "rows end before the column of comments and were not taken",
    ),
    "cut": (
        f"row was cut, being longer than {MOST_IN_ROW:,} characters",
        f"rows were cut, being longer than {MOST_IN_ROW:,} characters",
    ),
}
"""What is said of one row, and of several."""
_LINES_TOLD = 8


def read_comments(content: bytes) -> Comments:
    """The comments in ``content``. Raises CsvError for what holds no comment or is beyond all bounds."""
    text = decoded(content, MOST_BYTES).text.replace("\r\n", "\n").replace("\r", "\n")
    lines = text.split("\n")
    first = next((number for number, line in enumerate(lines) if line.strip()), 0)
    separator = told_separator(lines[first])
    first += bool(separator)
    separator = separator or _separator(lines[first : first + 30])
    read = list(records(lines, separator, first))
    if not read:
        raise CsvError("the file is empty; expected a table with a column of comments, such as comment")
    table = _Table.of(read, separator)
    rows = read[1:] if table.heading else read
    if len(rows) > MOST_ROWS:
        raise CsvError(f"{len(rows):,} rows were read, expected at most {MOST_ROWS:,}; split the file")
    taken = _Taken(comments=[], in_doubt=[])
    for record in rows:
        table.take(record, taken)
    if not taken.comments:
        raise CsvError(f"no comment stands in column {table.named!r}; expected the words of one in each row")
    return Comments(
        comments=tuple(taken.comments),
        column=table.named,
        lines=sum(record.lines for record in rows),
        without_words=taken.without_words,
        joined=sum(record.lines - 1 for record in rows),
        in_doubt=tuple(taken.in_doubt),
        dropped=tuple(name for i, name in enumerate(table.heading) if i != table.column and _AUTHOR.search(name)),
        remarks=tuple(_remarks(taken)),
    )


def _separator(lines: Sequence[str]) -> str:
    """The sign that cuts a known name out of the first line; else the steadiest one."""
    sign, named = best_separator(next(iter(lines), ""), lambda name: _TEXT.match(name) is not None, _SEPARATORS)
    if named:
        return sign
    counts = {sign: min((line.count(sign) for line in lines if line.strip()), default=0) for sign in _SEPARATORS}
    return max(_SEPARATORS, key=lambda sign: counts[sign])


class _Taken(msgspec.Struct):
    """What was taken out of the rows so far."""

    comments: list[Comment]
    in_doubt: list[InDoubt]
    without_words: int = 0
    cut: int = 0


class _Table(msgspec.Struct, frozen=True, kw_only=True):
    """Where in a row what stands; ``heading`` is empty where the table has none, ``width`` its number of cells."""

    separator: str
    column: int
    day: int | None
    named: str
    heading: tuple[str, ...]
    width: int
    authors: tuple[int, ...]

    @classmethod
    def of(cls, read: list[Record], separator: str) -> "_Table":
        column, has_heading, named = _column(read)
        heading = tuple(cell.strip() for cell in read[0].cells) if has_heading else ()
        return cls(
            separator=separator,
            column=column,
            day=_day_column(heading),
            named=named,
            heading=heading,
            width=len(heading) or Counter(len(record.cells) for record in read[:400]).most_common(1)[0][0],
            authors=tuple(i for i, name in enumerate(heading) if i != column and _AUTHOR.search(name)),
        )

    def take(self, record: Record, taken: _Taken) -> None:
        """Put what the row holds where it belongs."""
        cells, doubt = record.cells, record.doubt
        while len(cells) > self.width and not cells[-1].strip():
            cells = cells[:-1]
        if len(cells) > self.width:
            cells, doubt = self._narrowed(cells), doubt or "wide"
        if len(cells) <= self.column:
            self._leave(record, taken)
            return
        text = plain_comment(cells[self.column])
        if not text:
            taken.without_words += 1
            return
        if doubt:
            taken.in_doubt.append(InDoubt(line=record.line, why=doubt, text=text[:MOST_IN_COMMENT]))
        taken.cut += len(text) > MOST_IN_COMMENT
        on = _date(cells[self.day]) if self.day is not None and self.day < len(cells) else None
        taken.comments.append(Comment(line=record.line, text=text[:MOST_IN_COMMENT], on=on))

    def _narrowed(self, cells: list[str]) -> list[str]:
        """The cells with those joined that separators in the words of a comment made of it."""
        cells = list(cells)
        for author in self.authors:  # "Doe, Jo" is one author, and never part of a comment
            at = author if author < self.column else len(cells) - self.width + author - 1
            if len(cells) > self.width and _LAST_NAME.match(cells[at]) and _FIRST_NAME.match(cells[at + 1]):
                del cells[at + 1 if author < self.column else at]
        end = self.column + len(cells) - self.width + 1
        return [*cells[: self.column], self.separator.join(cells[self.column : end]), *cells[end:]]

    def _leave(self, record: Record, taken: _Taken) -> None:
        """A row that does not reach the comments: whose words these are cannot be known, so they are only shown."""
        if text := plain_comment(self.separator.join(record.cells)):
            taken.in_doubt.append(InDoubt(line=record.line, why="short", text=text[:MOST_IN_COMMENT], is_taken=False))
        else:
            taken.without_words += 1


_LAST_NAME = re.compile(r"^[A-ZÀ-Þ][\w'’-]+$")
_FIRST_NAME = re.compile(r"^ [A-ZÀ-Þ][\w.'’-]*(?: [A-Z]\.?)?$")


def _doubts_told(in_doubt: Sequence[InDoubt]) -> Iterator[str]:
    for why, (of_one, of_several) in DOUBTS.items():
        lines = [row.line for row in in_doubt if row.why == why]
        if lines:
            told = ", ".join(f"{line}" for line in lines[:_LINES_TOLD])
            more = f" and {len(lines) - _LINES_TOLD:,} more" if len(lines) > _LINES_TOLD else ""
            said = of_one if len(lines) == 1 else of_several
            yield f"{len(lines):,} {said}: line{'' if len(lines) == 1 else 's'} {told}{more}"


def _remarks(taken: _Taken) -> Iterator[str]:
    if taken.without_words:
        yield f"{taken.without_words:,} {'row' if taken.without_words == 1 else 'rows'} without words"
    if taken.cut:
        yield f"{taken.cut:,} {'comment' if taken.cut == 1 else 'comments'} cut to {MOST_IN_COMMENT:,} characters"


def _column(read: list[Record]) -> tuple[int, bool, str]:
    """(the column of the comments, whether the first row is a heading, its name)."""
    header = [cell.strip() for cell in read[0].cells]
    for index, name in enumerate(header):
        if _TEXT.match(name):
            return index, True, name
    heading = any(_DAY.match(name) or (_AUTHOR.search(name) and len(name) < 25) for name in header) and len(header) > 1
    lengths: dict[int, int] = {}
    for record in read[1 if heading else 0 : 400]:
        for index, cell in enumerate(record.cells):
            if not (heading and index < len(header) and _AUTHOR.search(header[index])):
                lengths[index] = lengths.get(index, 0) + len(cell)
    if not lengths:
        raise CsvError("no column of comments was found; expected a heading such as comment, or one column of texts")
    best = max(lengths, key=lambda index: lengths[index])
    return best, heading, header[best] if heading and best < len(header) else f"column {best + 1}"


def _day_column(header: Sequence[str]) -> int | None:
    return next((index for index, name in enumerate(header) if _DAY.match(name.strip())), None)


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
