"""Talking points as paragraphs of a text document: a live number is one object in it, its source text kept with it."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from msgspec.structs import replace
from PySide6.QtGui import QTextBlock, QTextBlockFormat, QTextCharFormat, QTextCursor, QTextFormat

from studio.model.rundown import Point
from studio.script.live import Piece
from studio.window.rundown_edit import LONGEST_POINT

OBJECT = "\ufffc"
LINE = "\u2028"
CHIP = QTextFormat.ObjectTypes.UserObject.value + 1
SOURCE, SHOWN, HOLE, FINDING, NUMBER, FORM = (QTextFormat.Property.UserProperty.value + n for n in range(1, 7))
PAUSE, ABOUT = (QTextFormat.Property.UserProperty.value + n for n in range(11, 13))
_BELOW = 10
_UNSAFE = re.compile("[\x00-\x1f\ufffc\ufdd0\ufdd1\u2028\u2029\ud800-\udfff]")
Fill = Callable[[str], Sequence[Piece]]


@dataclass(frozen=True)
class Chip:
    """A live number or a hole as it stands in the text at ``position``."""

    position: int
    source: str
    shown: str
    hole: bool
    finding: str
    number: str
    form: str


def chip_format(piece: Piece, source: str, base: QTextCharFormat) -> QTextCharFormat:
    """How a live number or a hole stands in the text. ``source`` is what the model holds for it."""
    made = QTextCharFormat(base)
    made.setObjectType(CHIP)
    made.setVerticalAlignment(QTextCharFormat.VerticalAlignment.AlignBaseline)
    hole = piece.kind == "hole"
    for key, value in (
        (SOURCE, source), (SHOWN, piece.why if hole else piece.text), (HOLE, hole), (FINDING, piece.finding),
        (NUMBER, piece.number), (FORM, piece.form),
    ):  # fmt: skip
        made.setProperty(key, value)
    return made


def chip_of(made: QTextCharFormat, position: int) -> Chip | None:
    """The chip that a format stands for; None for that of plain text."""
    if made.objectType() != CHIP:
        return None
    source, shown, finding, number, form = (str(made.property(key)) for key in (SOURCE, SHOWN, FINDING, NUMBER, FORM))
    return Chip(position, source, shown, bool(made.property(HOLE)), finding, number, form)


def insert_source(cursor: QTextCursor, source: str, fill: Fill, base: QTextCharFormat) -> None:
    """Put the text of a point at the cursor, its live numbers as chips; line ends stay within the paragraph."""
    for piece in fill(source):
        if piece.kind == "text":
            cursor.insertText(safe(piece.text), base)
        else:
            cursor.insertText(OBJECT, chip_format(piece, source[piece.start : piece.end], base))
    cursor.setCharFormat(base)


def safe(text: str) -> str:
    """A text, as long as it was, that makes no paragraphs and holds no stand-ins of the document's own."""
    return _UNSAFE.sub(_safe, text)


def block_format(point: Point) -> QTextBlockFormat:
    """What a paragraph keeps of its point besides the text."""
    made = QTextBlockFormat()
    made.setBottomMargin(_BELOW)
    made.setProperty(PAUSE, float(point.pause_s))
    made.setProperty(ABOUT, " ".join(point.findings))
    return made


def source_of(block: QTextBlock) -> str:
    """The paragraph's text as the model holds it."""
    text = block.text()
    if OBJECT not in text:
        return text.replace(LINE, "\n")
    return "".join(_source(part.text(), part.charFormat()) for part in _fragments(block))


def point_of(block: QTextBlock) -> Point:
    """The paragraph as a talking point. What it speaks of goes with the live numbers that told of it."""
    made = block.blockFormat()
    about = str(made.property(ABOUT) or "").split()
    return Point(text=source_of(block)[:LONGEST_POINT], findings=tuple(about), pause_s=float(made.property(PAUSE) or 0))


def same_about(before: Point, after: Point) -> Point:
    """``after``, no longer about those findings whose live numbers were taken out."""
    gone = {id_ for id_ in before.findings if f"{{{id_}" in before.text and f"{{{id_}" not in after.text}
    return replace(after, findings=tuple(id_ for id_ in before.findings if id_ not in gone))


def chips_in(block: QTextBlock) -> list[Chip]:
    """The chips of a paragraph, in order."""
    if OBJECT not in block.text():
        return []
    found = []
    for part in _fragments(block):
        for offset in range(part.length()):
            if (chip := chip_of(part.charFormat(), part.position() + offset)) is not None:
                found.append(chip)
    return found


def shown_text(block: QTextBlock) -> str:
    """The paragraph as it is read: numbers in the place of their chips."""
    if OBJECT not in block.text():
        return block.text().replace(LINE, "\n")
    return "".join(
        part.text().replace(OBJECT, str(part.charFormat().property(SHOWN) or "")) for part in _fragments(block)
    ).replace(LINE, "\n")


def span_in_block(pieces: Sequence[Piece], start: int, end: int) -> tuple[int, int]:
    """Where a stretch of the filled text stands in the paragraph, counted as Qt counts."""
    at = shown = 0
    places = [0, 0]
    for piece in pieces:
        long = len(piece.text)
        for which, wanted in enumerate((start, end)):
            if wanted >= shown:
                inside = min(wanted - shown, long)
                chip = piece.kind != "text"
                places[which] = at + ((inside > 0) * 1 if chip and (which or inside == long) else 0 if chip
                                      else units(piece.text[:inside]))  # fmt: skip
        at += 1 if piece.kind != "text" else units(piece.text)
        shown += long
    return places[0], max(places)


def units(text: str) -> int:
    """The length of a text as Qt counts it: a sign beyond the first 65,536 is two."""
    return len(text) + sum(ord(c) > 0xFFFF for c in text)


def _fragments(block: QTextBlock):  # type: ignore[no-untyped-def]  # Qt's iterator has no name in Python
    parts = block.begin()
    while not parts.atEnd():
        yield parts.fragment()
        parts += 1


def _source(text: str, made: QTextCharFormat) -> str:
    chip = made.objectType() == CHIP
    return text.replace(OBJECT, str(made.property(SOURCE) or "")) if chip else text.replace(LINE, "\n")


def _safe(match: re.Match[str]) -> str:
    return LINE if match[0] == "\n" else " "
