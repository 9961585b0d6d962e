"""Text as outlines for every hand: the glyphs that were measured, a drawn box where no shipped font has the sign."""

import math
from functools import lru_cache

from studio.graphics.draw import bounds, polyline, rectangle, transformed
from studio.graphics.frame import Box
from studio.graphics.layout.text import arc_glyphs, glyph_outline, placed_glyphs, shape
from studio.graphics.scene import ArcText, Command, Outline, Text

HALO_SHARE = 0.14  # of the font size, on each side of a letter's edge; 0.12 is the least that keeps text legible
HALO_STROKES = tuple(share * 2 * HALO_SHARE for share in (1, 0.85, 0.7, 0.5))
"""Widths of a halo's strokes in font sizes. A stroke wider than a dot or a counter leaves a rim in it (Qt, cairo and
poppler agree), each of another radius; together they leave none that can be seen."""
_BOX_HIGH, _BOX_LINE = 0.72, 0.06


@lru_cache(maxsize=8)
def _missing_box(file: str) -> Outline:
    """A hollow box of the missing glyph's own width: the same sign in every font and from every hand."""
    left, _, right, _ = bounds(glyph_outline(file, 0))
    outer = (left, -_BOX_HIGH, right, 0.0)
    left, top, right, bottom = left + _BOX_LINE, _BOX_LINE - _BOX_HIGH, right - _BOX_LINE, -_BOX_LINE
    hole = polyline(((left, top), (left, bottom), (right, bottom), (right, top)), closed=True)
    # The hole runs the other way round, so that the winding rule leaves it empty.
    return rectangle(outer[0], outer[1], outer[2] - outer[0], _BOX_HIGH) + hole


def letter(file: str, glyph: int) -> Outline:
    """The outline that is painted for a glyph, in units of the font size; a box for a sign that is missing."""
    return glyph_outline(file, glyph) if glyph else _missing_box(file)


@lru_cache(maxsize=512)
def text_outline(mark: Text) -> Outline:
    """A line of text as one outline in px of the frame, to be filled by the winding rule."""
    commands: list[Command] = []
    for file, glyph, x, y, size in placed_glyphs(mark):
        commands += transformed(letter(file, glyph), (size, 0.0, 0.0, size, x, y))
    return tuple(commands)


@lru_cache(maxsize=128)
def arc_outline(mark: ArcText) -> Outline:
    """Text along an arc as one outline in px of the frame, to be filled by the winding rule."""
    return tuple(command for outline in _turned(mark) for command in outline)


def arc_box(mark: ArcText) -> Box:
    """The box round text along an arc; empty at its middle where nothing is drawn."""
    outline = arc_outline(mark)
    return _around(outline) if outline else Box(*_middle(mark), 0.0, 0.0)


def arc_letters(mark: ArcText) -> tuple[tuple[str, Box], ...]:
    """Each letter of text along an arc with the box round what is drawn of it; blanks draw nothing and have none."""
    letters: list[tuple[str, Outline]] = []
    for glyph, outline in zip(shape(mark.text, mark.weight, mark.face), _turned(mark), strict=True):
        if glyph.signs or not letters:
            letters.append((glyph.signs, outline))
        else:  # a sign of several glyphs, such as an accent of its own
            letters[-1] = (letters[-1][0], letters[-1][1] + outline)
    return tuple((signs, _around(outline)) for signs, outline in letters if outline)


def _turned(mark: ArcText) -> tuple[Outline, ...]:
    """The outline of each glyph of text along an arc, in px of the frame."""
    outlines = []
    for file, glyph, x, y, size, degrees in arc_glyphs(mark):
        turn = math.radians(degrees)
        cosine, sine = size * math.cos(turn), size * math.sin(turn)
        outlines.append(transformed(letter(file, glyph), (cosine, sine, -sine, cosine, x, y)))
    return tuple(outlines)


def _around(outline: Outline) -> Box:
    left, top, right, bottom = bounds(outline)
    return Box(left, top, right - left, bottom - top)


def _middle(mark: ArcText) -> tuple[float, float]:
    turn = math.radians(mark.angle)
    return mark.center[0] + mark.radius * math.sin(turn), mark.center[1] - mark.radius * math.cos(turn)
