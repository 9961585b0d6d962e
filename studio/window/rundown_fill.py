"""Puts talking points into a text document in the place of others, leaving alone what stays."""

from collections.abc import Sequence

from PySide6.QtGui import QTextBlock, QTextCharFormat, QTextCursor, QTextDocument

from studio.model.rundown import Point
from studio.window.rundown_blocks import Fill, block_format, insert_source

_KEEP = QTextCursor.MoveMode.KeepAnchor


def replace_blocks(
    document: QTextDocument, first: int, end: int, points: Sequence[Point], fill: Fill, base: QTextCharFormat
) -> None:
    """Put ``points`` in the place of the paragraphs from ``first`` up to ``end``; one paragraph always stays."""
    beside = {number: document.findBlockByNumber(number).blockFormat() for number in (first - 1, end)}
    before, after = document.findBlockByNumber(first - 1), document.findBlockByNumber(end)
    cursor = QTextCursor(document)
    cursor.beginEditBlock()
    if points and end > first:
        _write_over(cursor, document.findBlockByNumber(first), document.findBlockByNumber(end - 1), points, fill, base)
    elif points:
        _write_between(cursor, before, after, points, fill, base)
    elif end > first:
        _take_out(cursor, first, end, document)
    if not points and first > 0 and before.isValid():
        QTextCursor(document.findBlockByNumber(first - 1)).setBlockFormat(beside[first - 1])
    if not points and after.isValid():
        QTextCursor(document.findBlockByNumber(first)).setBlockFormat(beside[end])
    cursor.endEditBlock()


def _write_over(
    cursor: QTextCursor, first: QTextBlock, last: QTextBlock, points: Sequence[Point], fill: Fill,
    base: QTextCharFormat,
) -> None:  # fmt: skip
    cursor.setPosition(first.position())
    cursor.setPosition(last.position() + last.length() - 1, _KEEP)
    cursor.removeSelectedText()
    cursor.setBlockFormat(block_format(points[0]))
    insert_source(cursor, points[0].text, fill, base)
    _append(cursor, points[1:], fill, base)


def _write_between(
    cursor: QTextCursor, before: QTextBlock, after: QTextBlock, points: Sequence[Point], fill: Fill,
    base: QTextCharFormat,
) -> None:  # fmt: skip
    if before.isValid():
        cursor.setPosition(before.position() + before.length() - 1)
        _append(cursor, points, fill, base)
        return
    cursor.setPosition(after.position())
    cursor.insertBlock(after.blockFormat())  # what follows the cursor goes into the new paragraph
    cursor.movePosition(QTextCursor.MoveOperation.PreviousBlock)
    cursor.setBlockFormat(block_format(points[0]))
    insert_source(cursor, points[0].text, fill, base)
    _append(cursor, points[1:], fill, base)


def _append(cursor: QTextCursor, points: Sequence[Point], fill: Fill, base: QTextCharFormat) -> None:
    for point in points:
        cursor.insertBlock(block_format(point), base)
        insert_source(cursor, point.text, fill, base)


def _take_out(cursor: QTextCursor, first: int, end: int, document: QTextDocument) -> None:
    if end < document.blockCount():
        cursor.setPosition(document.findBlockByNumber(first).position())
        cursor.setPosition(document.findBlockByNumber(end).position(), _KEEP)
    else:
        before = document.findBlockByNumber(first - 1)
        cursor.setPosition(before.position() + before.length() - 1)
        cursor.movePosition(QTextCursor.MoveOperation.End, _KEEP)
    cursor.removeSelectedText()
