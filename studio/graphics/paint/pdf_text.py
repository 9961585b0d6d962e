"""Lines of text on a reportlab canvas, placed glyph by glyph as HarfBuzz measured them."""

import threading
from functools import lru_cache
from itertools import groupby
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from studio import shipped
from studio.graphics.layout.text import (
    FONT_FILES,
    Glyph,
    box,
    files_of,
    font_path,
    font_size,
    is_own,
    scale_of,
    shape,
    typeset,
)
from studio.graphics.scene import Text

_INVISIBLE = 3  # text rendering mode of ISO 32000-1, table 106
_lock = threading.Lock()
Placed = tuple[str, str, float]  # font file, character, where it starts in thousandths of the font size


def first_font() -> str:
    """The name of the font that a new canvas starts with, so that no font of a reader's own is asked for."""
    return _name(FONT_FILES["regular"][0])


def register_fonts() -> None:
    """Make the shipped fonts known to reportlab by the stem of their file's name, such as ``Inter-Regular``."""
    with _lock:
        _register()


@lru_cache(maxsize=1)
def _register() -> None:
    known = set(pdfmetrics.getRegisteredFontNames())
    for file in dict.fromkeys(file for files in FONT_FILES.values() for file in files):
        if _name(file) not in known:
            path = shipped.resources() / "fonts" / file
            pdfmetrics.registerFont(TTFont(_name(file), str(path), asciiReadable=False))


def write_line(canvas: Any, mark: Text) -> bool:
    """Write a line of text in the canvas' fill colour; the caller fences the state.

    Returns False, with the text written invisibly, if its glyphs are not those of its characters one by one: then the
    caller draws the outlines.
    """
    text, glyphs = typeset(mark.text), shape(mark.text, mark.weight, mark.face)
    plain = len(text) == len(glyphs) and all(map(_is_own, text, glyphs))
    code = [f"1 0 0 -1 {box(mark).left:.2f} {mark.at[1]:.2f} Tm"]
    if plain:
        placed = [(glyph.font, _sought(char), glyph.x * 1000) for char, glyph in zip(text, glyphs, strict=True)]
    else:
        placed, width = _set_apart(text, mark)
        wanted = glyphs[-1].x + glyphs[-1].advance if glyphs else 0.0
        code += [f"{_INVISIBLE} Tr {100_000 * wanted / width:.2f} Tz"] if width else []
    if placed:
        canvas._code.append(" ".join(("BT", *code, *_show(canvas._doc, placed, font_size(mark.cap_height)), "ET")))
    return plain


def _sought(char: str) -> str:
    """What a reader types to find ``char``: a plain space for one of any width, which its place keeps."""
    return " " if char.isspace() else char


def _show(document: Any, placed: list[Placed], size: float) -> list[str]:
    """The operators that show characters at their places, one array for each font and part of it."""
    shown = [(*_coded(document, file, char), x, _advance(file, char), scale_of(file)) for file, char, x in placed]
    code, here = [], 0.0
    for (font, scale), run in groupby(shown, key=lambda item: (item[0], item[4])):
        parts = []
        for _, byte, x, advance, _ in run:
            back = round((here - x) / scale, 1)  # in thousandths of this font's own size
            parts.append((f"{back:g}" if back else "") + f"<{byte:02x}>")
            here += advance - back * scale
        code.append(f"{font} {size * scale:.3f} Tf [{''.join(parts)}] TJ")
    return code


def _set_apart(text: str, mark: Text) -> tuple[list[Placed], float]:
    """The characters that a font has, one after another, and the width of them all."""
    placed: list[Placed] = []
    x = 0.0
    for char in map(_sought, text):
        files = [file for file in files_of(mark.weight, mark.face) if _can_be_embedded(file)]
        file = next((file for file in files if ord(char) in _face(file).charToGlyph), None)
        if file is not None:
            placed.append((file, char, x))
            x += _advance(file, char)
    return placed, x


def _is_own(char: str, glyph: Glyph) -> bool:
    if glyph.glyph == 0 or glyph.y != 0.0 or not _can_be_embedded(glyph.font):
        return False
    return bool(_face(glyph.font).charToGlyph.get(ord(char)) == glyph.glyph)


def _coded(document: Any, file: str, char: str) -> tuple[str, int]:
    """The PDF's name for the part of a font that holds ``char``, and its code there."""
    font: Any = pdfmetrics.getFont(_name(file))
    ((part, code),) = font.splitString(char, document)
    return font.getSubsetInternalName(part, document), code[0]


def _advance(file: str, char: str) -> float:
    return float(_face(file).getCharWidth(ord(char))) * scale_of(file)


def _face(file: str) -> Any:
    font: Any = pdfmetrics.getFont(_name(file))
    return font.face


def _name(file: str) -> str:
    return f"Channel-{file.partition(':')[0]}" if is_own(file) else file.removesuffix(".ttf")


@lru_cache(maxsize=64)
def _can_be_embedded(file: str) -> bool:
    """Whether reportlab knows the font; a channel's own is made known here, unless its outlines are PostScript's."""
    if is_own(file):
        with _lock:
            try:
                pdfmetrics.registerFont(TTFont(_name(file), str(font_path(file)), asciiReadable=False))
            except TTFError:
                return False
    return True
