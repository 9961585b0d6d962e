"""Text measured once, by the outlines that are painted: HarfBuzz shapes it, Inter first, DejaVu Sans for the rest.

A channel's own face comes before both. Its letters are scaled so that their capitals are as high as Inter's at the
same font size: whoever lays out a picture knows cap heights only.
"""

import math
import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import msgspec
import uharfbuzz as hb

from studio import shipped
from studio.graphics.face import Face, current_face
from studio.graphics.frame import Box
from studio.graphics.scene import ArcText, Command, Outline, Text, Weight

FONT_FILES: dict[str, tuple[str, str]] = {
    "regular": ("Inter-Regular.ttf", "DejaVuSans.ttf"),
    "semibold": ("Inter-SemiBold.ttf", "DejaVuSans-Bold.ttf"),
    "bold": ("Inter-Bold.ttf", "DejaVuSans-Bold.ttf"),
}
FAMILIES: dict[str, tuple[str, int]] = {"regular": ("Inter", 400), "semibold": ("Inter", 600), "bold": ("Inter", 700)}
CAP_SHARE = 1490 / 2048  # sCapHeight / unitsPerEm of Inter
DESCENT_SHARE = 0.216  # of the font size: the deepest tail of Inter's letters
_FEATURES = {"kern": True, "calt": False, "liga": False}
_UNIT_SPACE = re.compile(r"(?<=\d) (?=(?:mm|in|km|mi|psi|kPa|bar|lb|kg|mph|rpm|N·m|years?|°[CF]|rev)\b|km/h|%|°)")
_BRACKETED = re.compile(r" \([^()]*\d[^()]*\)")
_KEPT = "\x00"  # stands for a space at which no line may end
_MONTH = r"(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[a-z]*"
_TOGETHER = re.compile(rf"(?P<first>\d) (?=(?:{_MONTH}|[A-Z]{{3}})\b)|(?P<month>\b{_MONTH}|\bNo\.|\bweek) (?=\d)")
_ENDS = {".": 0.06, ":": 0.06, ";": 0.06, "?": 0.06, ",": 0.02}  # how gladly a line ends there


class Glyph(msgspec.Struct, frozen=True):
    """One glyph of a line: which font, which glyph, where it starts and how wide it is, in font sizes.

    ``signs`` are the characters it stands for; empty where an earlier glyph of the line stands for them too.
    """

    font: str
    glyph: int
    x: float
    y: float
    advance: float
    signs: str


def font_size(cap_height: float) -> float:
    """The font size in px whose capitals have this height."""
    return cap_height / CAP_SHARE


def typeset(text: str) -> str:
    """The characters that are set: a thin space between a number and its unit, control characters dropped."""
    return _UNIT_SPACE.sub("\u2009", visible(text))


def visible(text: str) -> str:
    """``text`` on one line without control signs and signs that turn the direction of reading."""
    cleaned = "".join(" " if char in "\t\n\r\u2028\u2029" else char for char in text)
    return "".join(char for char in cleaned if unicodedata.category(char) not in ("Cc", "Cf", "Cs", "Co", "Cn"))


@lru_cache(maxsize=16)
def _font(file: str) -> Any:
    if is_own(file):  # read, not mapped: somebody may write over it while it is in use
        return hb.Font(hb.Face(hb.Blob(font_path(file).read_bytes())))
    return hb.Font(hb.Face(hb.Blob.from_file_path(str(font_path(file)))))


def is_own(file: str) -> bool:
    """Whether ``file`` is a channel's own font, ``digest:path``, and not the name of a shipped one."""
    return ":" in file


def font_path(file: str) -> Path:
    """Where a font file lies."""
    return Path(file.partition(":")[2]) if is_own(file) else shipped.resources() / "fonts" / file


def files_of(weight: Weight, face: Face | None) -> tuple[str, ...]:
    """The font files in which a text is set, the first one that has a sign before the others."""
    own = (getattr(face, weight),) if face else ()
    return (*own, *FONT_FILES[weight])


@lru_cache(maxsize=64)
def scale_of(file: str) -> float:
    """The size of a font whose capitals are as high as Inter's at size 1."""
    return 1.0 if not is_own(file) else CAP_SHARE / cap_share(file)


@lru_cache(maxsize=64)
def cap_share(file: str) -> float:
    """How high a font's capitals are, as a share of its size. Raises ValueError if it has no H."""
    return -_reach(file, "H", top=True)


@lru_cache(maxsize=64)
def descent_share(file: str) -> float:
    """How deep the tails of a font's letters reach below the baseline, as a share of Inter's size."""
    return DESCENT_SHARE if not is_own(file) else _reach(file, "gjpqyQ,;()", top=False) * scale_of(file)


def _reach(file: str, chars: str, *, top: bool) -> float:
    font = _font(file)
    pens = [_Pen(font.face.upem) for _ in chars]
    for char, pen in zip(chars, pens, strict=True):
        font.draw_glyph(font.get_nominal_glyph(ord(char)) or 0, _draw_functions(), pen)
    heights = [value for pen in pens for command in pen.commands for value in command[2::2]]
    if not heights or not _covers(file, chars[0]):
        raise ValueError(f"no letter {chars[0]}")
    return float(min(heights) if top else max(heights))


@lru_cache(maxsize=4096)
def _covers(file: str, char: str) -> bool:
    return _font(file).get_nominal_glyph(ord(char)) is not None


def missing_glyphs(text: str, face: Face | None = None) -> str:
    """The characters of ``text`` that no font can draw, neither the face's nor a shipped one."""
    files = files_of("regular", face)
    return "".join(dict.fromkeys(c for c in typeset(text) if not any(_covers(file, c) for file in files)))


def _runs(text: str, weight: Weight, face: Face | None) -> list[tuple[str, str]]:
    files, missing = files_of(weight, face), FONT_FILES[weight][0]
    runs: list[tuple[str, str]] = []
    for char in text:
        file = next((file for file in files if _covers(file, char)), missing)
        if runs and runs[-1][0] == file:
            runs[-1] = (file, runs[-1][1] + char)
        else:
            runs.append((file, char))
    return runs


@lru_cache(maxsize=4096)
def shape(text: str, weight: Weight, face: Face | None = None) -> tuple[Glyph, ...]:
    """The glyphs of one line of text, positions in units of the font size."""
    glyphs: list[Glyph] = []
    x = 0.0
    for file, part in _runs(typeset(text), weight, face):
        font, buffer = _font(file), hb.Buffer()
        buffer.add_str(part)
        buffer.guess_segment_properties()
        hb.shape(font, buffer, _FEATURES)
        em = font.face.upem / scale_of(file)
        signs = _signs(part, (info.cluster for info in buffer.glyph_infos))
        for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
            at = (x + position.x_offset / em, position.y_offset / em)
            glyphs.append(Glyph(file, info.codepoint, *at, position.x_advance / em, signs.pop(info.cluster, "")))
            x += position.x_advance / em
    return tuple(glyphs)


def _signs(text: str, clusters: Iterable[int]) -> dict[int, str]:
    """The characters of each cluster, by where it starts: signs that HarfBuzz draws together stay together."""
    starts = sorted(set(clusters))
    return {start: text[start:end] for start, end in pairwise((*starts, len(text)))}


def width(text: str, cap_height: float, weight: Weight = "regular") -> float:
    """The width of one line in px, in the face that is set now."""
    return _width(text, cap_height, weight, current_face())


def text_width(mark: Text) -> float:
    """The measured width of a line of text in px."""
    return _width(mark.text, mark.cap_height, mark.weight, mark.face)


def _width(text: str, cap_height: float, weight: Weight, face: Face | None) -> float:
    glyphs = shape(text, weight, face)
    return (glyphs[-1].x + glyphs[-1].advance) * font_size(cap_height) if glyphs else 0.0


@lru_cache(maxsize=2048)
def glyph_outline(file: str, glyph: int) -> Outline:
    """A glyph's outline in units of the font size, y down, baseline at 0."""
    pen = _Pen(_font(file).face.upem / scale_of(file))
    _font(file).draw_glyph(glyph, _draw_functions(), pen)
    return tuple(pen.commands)


def box(mark: Text) -> Box:
    """The box of a line of text: from its capitals' top to its tails' bottom."""
    wide = text_width(mark)
    left = mark.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[mark.anchor]
    tails = max(descent_share(file) for file in files_of(mark.weight, mark.face)) * font_size(mark.cap_height)
    return Box(left, mark.at[1] - mark.cap_height, wide, mark.cap_height + tails)


def placed_glyphs(mark: Text) -> tuple[tuple[str, int, float, float, float], ...]:
    """(font file, glyph, x, y, font size) of each glyph of a line, in px of the frame."""
    size, left = font_size(mark.cap_height), box(mark).left
    glyphs = shape(mark.text, mark.weight, mark.face)
    return tuple((g.font, g.glyph, left + g.x * size, mark.at[1] - g.y * size, size) for g in glyphs)


def arc_glyphs(mark: ArcText) -> tuple[tuple[str, int, float, float, float, float], ...]:
    """(font file, glyph, x, y, font size, rotation in degrees clockwise) of each glyph of text along an arc."""
    size = font_size(mark.cap_height)
    glyphs = shape(mark.text, mark.weight, mark.face)
    extra = mark.spacing * size
    total = (glyphs[-1].x + glyphs[-1].advance) * size + extra * (len(glyphs) - 1) if glyphs else 0.0
    turn = -1.0 if mark.inward else 1.0
    placed = []
    for order, glyph in enumerate(glyphs):
        along = glyph.x * size + order * extra + glyph.advance * size / 2 - total / 2
        angle = math.radians(mark.angle) + turn * along / mark.radius
        x = mark.center[0] + mark.radius * math.sin(angle)
        y = mark.center[1] - mark.radius * math.cos(angle)
        tilt = angle + (math.pi if mark.inward else 0.0)
        back = glyph.advance * size / 2
        placed.append(
            (glyph.font, glyph.glyph, x - back * math.cos(tilt), y - back * math.sin(tilt), size, math.degrees(tilt))
        )
    return tuple(placed)


class _Pen:
    """Collects a glyph's outline as our commands; a quadratic curve becomes a cubic one."""

    def __init__(self, em: float) -> None:
        self.em = em
        self.commands: list[Command] = []
        self.last = (0.0, 0.0)

    def add(self, letter: str, *points: float) -> None:
        scaled = [value / self.em * (-1 if index % 2 else 1) for index, value in enumerate(points)]
        if letter == "Q":
            (x0, y0), (cx, cy, x, y) = self.last, scaled
            scaled = [x0 + 2 / 3 * (cx - x0), y0 + 2 / 3 * (cy - y0), x + 2 / 3 * (cx - x), y + 2 / 3 * (cy - y), x, y]
            letter = "C"
        if scaled:
            self.last = (scaled[-2], scaled[-1])
        self.commands.append((letter, *scaled))  # type: ignore[arg-type]


@lru_cache(maxsize=1)
def _draw_functions() -> Any:
    functions = hb.DrawFuncs()
    functions.set_move_to_func(lambda x, y, pen: pen.add("M", x, y))
    functions.set_line_to_func(lambda x, y, pen: pen.add("L", x, y))
    functions.set_quadratic_to_func(lambda cx, cy, x, y, pen: pen.add("Q", cx, cy, x, y))
    functions.set_cubic_to_func(lambda ax, ay, bx, by, x, y, pen: pen.add("C", ax, ay, bx, by, x, y))
    functions.set_close_path_func(lambda pen: pen.add("Z"))
    return functions


def wrap(text: str, cap_height: float, weight: Weight, widest: float, most_lines: int) -> tuple[str, ...]:
    """``text`` in lines no wider than ``widest`` px; the last line ends in an ellipsis if there is too much of it.

    No line ends between a number and its unit.
    """
    lines: list[str] = []
    for word in _words(text):
        candidate = f"{lines[-1]} {word}" if lines else word
        if lines and width(candidate, cap_height, weight) <= widest:
            lines[-1] = candidate
        elif len(lines) < most_lines or not lines:
            lines.append(_cut(word, cap_height, weight, widest))
        else:
            lines[-1] = _cut(f"{lines[-1]} …", cap_height, weight, widest)
            break
    return tuple(lines)


def _words(text: str, *, together: bool = False) -> list[str]:
    """The pieces between which a line may end; ``together`` keeps dates whole and currencies with their amounts."""
    kept = _UNIT_SPACE.sub(_KEPT, text.replace(_KEPT, ""))
    if together:
        kept = _TOGETHER.sub(lambda found: f"{found['first'] or found['month']}{_KEPT}", kept)
    return [word.replace(_KEPT, " ") for word in kept.split()]


def wrap_whole(text: str, cap_height: float, weight: Weight, widest: float, most_lines: int) -> tuple[str, ...]:
    """Like ``wrap``, but before anything is cut the bracketed other units go, then one line more is taken."""
    shorter = _BRACKETED.sub("", text)
    for words, lines in ((text, most_lines), (shorter, most_lines), (text, most_lines + 1), (shorter, most_lines + 1)):
        wrapped = wrap(words, cap_height, weight, widest, lines)
        if not wrapped or not wrapped[-1].endswith("…") or text.endswith("…"):
            return wrapped
    return wrapped


def balanced(lines: tuple[str, ...], cap_height: float, weight: Weight, widest: float) -> tuple[str, ...]:
    """The same words in as many lines of like width, rather broken behind a sentence's pieces than within one.

    No line ends within a date or before a currency, if that needs no further line.
    """
    if len(lines) < 2 or lines[-1].endswith("…"):
        return lines
    space = width(" ", cap_height, weight) / widest
    for together in (True, False):
        words = _words(" ".join(lines), together=together)
        wide = [width(word, cap_height, weight) / widest for word in words]
        breaks = _even_breaks(words, wide, space, len(lines))
        again = tuple(" ".join(words[start:end]) for start, end in pairwise(breaks))
        if len(again) == len(lines) and all(width(line, cap_height, weight) <= widest for line in again):
            return again
    return lines


def _even_breaks(words: list[str], wide: list[float], space: float, most: int) -> tuple[int, ...]:
    """Where lines start and end so that the room left over, a share of the line's, is spread evenly."""
    best: dict[int, tuple[float, tuple[int, ...]]] = {0: (0.0, (0,))}
    for _ in range(most):
        further: dict[int, tuple[float, tuple[int, ...]]] = {}
        for start, (cost, breaks) in best.items():
            for end in range(start + 1, len(words) + 1):
                across = sum(wide[start:end]) + space * (end - start - 1)
                if across > 1.0:
                    break
                its = cost + (1.0 - across) ** 2 - (_ENDS.get(words[end - 1][-1], 0.0) if end < len(words) else 0.0)
                further[end] = min(further.get(end, (math.inf, ())), (its, (*breaks, end)))
        best = further
    return best.get(len(words), (0.0, ()))[1]


def wrap_even(text: str, cap_height: float, weight: Weight, widest: float, most_lines: int) -> tuple[str, ...]:
    """Like ``wrap``, the lines of like width where there are several."""
    return balanced(wrap(text, cap_height, weight, widest, most_lines), cap_height, weight, widest)


def _cut(word: str, cap_height: float, weight: Weight, widest: float) -> str:
    if width(word, cap_height, weight) <= widest:
        return word
    kept = word.rstrip("…").rstrip()
    while kept and width(f"{kept}…", cap_height, weight) > widest:
        kept = kept[:-1]
    return f"{kept}…"
