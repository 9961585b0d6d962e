"""What stands at a page's edges: the sentence with its verdict, the small print, the channel's logo and own line.

Caution and sources always stand. The channel's own line goes and its logo shrinks where a frame has little room.
"""

from collections.abc import Iterator

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout.logo_zone import LogoZone, logo_marks, logo_zones
from studio.graphics.layout.notes import LINE_STEP
from studio.graphics.layout.text import balanced, font_size, wrap, wrap_even, wrap_whole
from studio.graphics.look import Look
from studio.graphics.parts.signs import sign
from studio.graphics.scene import Image, Shape, Text
from studio.model.finding import Verdict

Marks = tuple[Shape | Text | Image, ...]
_ENOUGH = 0.5  # of the frame's height: a drawing that has it needs no more
_KEPT = 0.88  # of what the page leaves to the drawing without logo and own line
_SMALL = 0.6  # of the logo's wanted height


class Words(msgspec.Struct, frozen=True, kw_only=True):
    """The words of a page: the sentence on top with its verdict, caution and sources for the foot."""

    sentence: str
    verdict: Verdict | None = None
    caution: str = ""
    sources: str = ""


def edges(frame: Frame, look: Look, words: Words) -> tuple[Marks, float, float]:
    """The marks at the page's edges, and between which heights they leave it free."""
    zones = msgspec.structs.replace(look.zones, logo=False)
    bare = msgspec.structs.replace(look, art=None, small_print="", zones=zones)
    plain, top, bottom = _around(logo_zones(frame, bare)[0], frame, bare, words)
    if bare == look:
        return plain, top, bottom
    least, must_be_whole = min(_KEPT * (bottom - top), _ENOUGH * frame.height), not _is_cut(plain)
    found = [_roomiest(frame, modest, words) for modest in _modest(look)]
    return next(
        (its for its in found if its[2] - its[1] >= least and not (must_be_whole and _is_cut(its[0]))),
        max(found, key=lambda its: (not _is_cut(its[0]), its[2] - its[1])),
    )


def _modest(look: Look) -> Iterator[Look]:
    """The look as it is, then with less of the channel's own."""
    yield look
    if look.small_print:
        look = msgspec.structs.replace(look, small_print="")
        yield look
    yield msgspec.structs.replace(look, logo=msgspec.structs.replace(look.logo, height=_SMALL * look.logo.height))


def _roomiest(frame: Frame, look: Look, words: Words) -> tuple[Marks, float, float]:
    """With the logo where it leaves the most room and cuts no words."""
    return max(
        (_around(zone, frame, look, words) for zone in logo_zones(frame, look)),
        key=lambda its: (not _is_cut(its[0]), its[2] - its[1]),
    )


def _around(zone: LogoZone, frame: Frame, look: Look, words: Words) -> tuple[Marks, float, float]:
    heading, top = _heading(frame, look, words, zone.head)
    foot, bottom = _foot(frame, look, words, zone.foot)
    if zone.box is not None:
        top = max(top, zone.box.bottom) if look.logo.corner.startswith("top") else top
        bottom = min(bottom, zone.box.top) if look.logo.corner.startswith("bottom") else bottom
    return (*heading, *foot, *logo_marks(zone, frame, look)), top, bottom


def _is_cut(marks: Marks) -> bool:
    return any(isinstance(mark, Text) and mark.text.endswith("…") for mark in marks)


def _heading(frame: Frame, look: Look, words: Words, content: Box) -> tuple[Marks, float]:
    cap = frame.cap_height("heading")
    step = LINE_STEP * font_size(cap)
    has_sign = words.verdict is not None
    side = cap * 2.2 if has_sign else 0.0
    left = content.left + (side + 2 * frame.grid if has_sign else 0.0)
    widest = content.right - left
    lines = wrap_whole(words.sentence, cap, "bold", widest, 2 if frame.shape == "wide" else 3)
    lines = balanced(lines, cap, "bold", widest)
    marks: list[Shape | Text | Image] = []
    if words.verdict is not None:
        box = Box(content.left, content.top, side, side)
        marks += sign(words.verdict, box, look, "verdict")
    for order, line in enumerate(lines):
        offset = (side - cap) / 2 if has_sign and len(lines) == 1 else 0.0
        at = (left, content.top + cap * 1.05 + order * step + offset)
        marks.append(Text(name=f"sentence/line{order}", text=line, at=at, cap_height=cap, weight="bold", fill=look.ink,
                          ground=look.ground, role="heading"))  # fmt: skip
    return tuple(marks), content.top + max(side, cap * 1.05 + (len(lines) - 1) * step + cap * 0.3)


def _foot(frame: Frame, look: Look, words: Words, content: Box) -> tuple[Marks, float]:
    """Caution, sources and the channel's own line. Beside a logo each may take a line more, so that it is not cut."""
    cap, more = frame.cap_height("small"), int(content.width < frame.content.width)
    step = LINE_STEP * font_size(cap)
    tall, wide = frame.shape == "tall", frame.shape == "wide"
    caution = wrap_even(words.caution, cap, "semibold", content.width, (3 if wide else 4) + more)
    sources = wrap_even(words.sources, cap, "regular", content.width, (2 if tall else 1) + more)
    own = wrap(look.small_print, cap, "regular", content.width, 1 if frame.shape == "wide" else 2)
    lines = [(line, "caution", "semibold", look.ink) for line in caution]
    lines += [(line, "sources", "regular", look.quiet) for line in sources]
    lines += [(line, "small_print", "regular", look.quiet) for line in own]
    lowest = content.bottom - 0.3 * cap
    marks = []
    for order, (line, name, weight, fill) in enumerate(lines):
        at = (content.left, lowest - (len(lines) - 1 - order) * step)
        marks.append(Text(name=f"{name}/line{order}", text=line, at=at, cap_height=cap, fill=fill, role="small",
                          ground=look.ground, weight=weight))  # type: ignore[arg-type]  # fmt: skip
    top = lowest - (len(lines) - 1) * step - cap if lines else content.bottom
    return tuple(marks), top


