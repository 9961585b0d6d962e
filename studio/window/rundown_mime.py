"""Talking points on the clipboard: plain text for everybody, with their live numbers for ourselves. Nothing is rich."""

from PySide6.QtCore import QMimeData
from PySide6.QtGui import QTextCursor, QTextDocumentFragment

from studio.window.rundown_blocks import chip_of
from studio.window.rundown_edit import clean_text, split_long

MIME = "application/x-rundown-points"
MOST_CHARACTERS = 2_000_000


def selection_mime(cursor: QTextCursor) -> QMimeData:
    """What is selected, as it is read and as the model holds it."""
    shown: list[str] = []
    source: list[str] = []
    document = cursor.document()
    block = document.findBlock(cursor.selectionStart())
    while block.isValid() and block.position() < cursor.selectionEnd():
        start = max(cursor.selectionStart(), block.position())
        end = min(cursor.selectionEnd(), block.position() + block.length() - 1)
        part = QTextCursor(document)
        part.setPosition(start)
        part.setPosition(end, QTextCursor.MoveMode.KeepAnchor)
        read, held = _read(part)
        shown.append(read)
        source.append(held)
        block = block.next()
    mime = QMimeData()
    mime.setText("\n".join(shown))
    mime.setData(MIME, "\n".join(source).encode("utf-8", "replace"))
    return mime


def read_mime(mime: QMimeData) -> list[str]:
    """The points that were pasted or dropped, one a line; empty where there is no text."""
    if mime.hasFormat(MIME):
        text = bytes(mime.data(MIME).data()).decode("utf-8", "replace")
    elif mime.hasText():
        text = mime.text()
    elif mime.hasHtml():
        text = QTextDocumentFragment.fromHtml(mime.html()).toPlainText()
    else:
        return []
    lines = clean_text(text[:MOST_CHARACTERS]).split("\n")
    full = [line.strip() for line in lines] if len(lines) > 1 else lines
    return [part for line in full if line or len(full) == 1 for part in split_long(line)]


def _read(part: QTextCursor) -> tuple[str, str]:
    """A stretch within one paragraph, as read and as held."""
    text, position = part.selectedText(), part.selectionStart()
    if "\ufffc" not in text:
        plain = text.replace("\u2028", " ")
        return plain, plain
    shown, held, document = [], [], part.document()
    probe = QTextCursor(document)
    for c in text.replace("\u2028", " "):
        if c == "\ufffc":
            probe.setPosition(position + 1)
            chip = chip_of(probe.charFormat(), position)
            shown.append(chip.shown if chip else "")
            held.append(chip.source if chip else "")
        else:
            shown.append(c)
            held.append(c)
        position += 2 if ord(c) > 0xFFFF else 1
    return "".join(shown), "".join(held)


