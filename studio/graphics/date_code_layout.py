"""Where the parts of a date code stand: plate and ring above, the line of years below them."""

import math
from collections.abc import Set
from typing import Literal

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP, badge_radius
from studio.graphics.layout.text import font_size, width
from studio.graphics.parts.age_line import AgeLine, bar_height
from studio.graphics.parts.date_plate import DatePlate
from studio.graphics.parts.year_ring import YearRing
from studio.graphics.scene import Point

_GAP = 2.4  # in grid units
_LEAST_RING = 20.0  # in grid units: a smaller one has no room for its months
_LOW = 34.0  # in grid units: a drawing no higher than this has neither ring nor discs over its bar
_RING_SHARE = 0.36  # of the width


class Advice(msgspec.Struct, frozen=True, kw_only=True):
    """An age of which advice speaks."""

    name: str
    years: float


class Code(msgspec.Struct, frozen=True, kw_only=True):
    """The code as read: its digits, what they say, the day of the year on which its week begins, the age in years."""

    digits: str
    week: str
    year: str
    day: float
    from_day: str
    years: float
    last: float
    known: bool
    advice: tuple[Advice, ...]


Said = tuple[str, str, Point, Literal["start", "end"]]


class Arranged(msgspec.Struct, frozen=True, kw_only=True):
    """The drawing laid out; ``said`` are the words under the plate, ``stems`` how high each advice's line stands."""

    plate: DatePlate
    said: tuple[Said, ...]
    ring: YearRing | None
    ring_words: tuple[tuple[str, Point], ...]
    line: AgeLine
    stems: tuple[float, ...]
    anchors: dict[str, Point]


def arrange(code: Code, named: Set[str], body: Box, frame: Frame) -> Arranged:
    """Plate and ring in the upper part of ``body``, the ring where there is room for it, the years below.

    ``named`` are the notes that have a place: only these need a disc over the bar.
    """
    grid, disc = frame.grid, badge_radius(frame)
    low = body.height < _LOW * grid
    base = body.bottom - 1.8 * grid - frame.cap_height("small")
    line = AgeLine(left=body.left + disc, right=body.right - disc, base=base, years=code.years, last=code.last,
                   open=not code.known)  # fmt: skip
    top = base - bar_height(frame)
    stems = _stems(code, named if not low else set(), line, frame)
    upper = Box(body.left, body.top, body.width, top - (0.0 if low else max(stems)) - disc - 0.8 * grid - body.top)
    plate, ring = (_flat(code, upper), None) if low else _plate_and_ring(code, upper, frame)
    anchors = {its.name: (line.x(its.years), top if low else top - high)
               for its, high in zip(code.advice, stems, strict=True)}  # fmt: skip
    anchors["age_now"] = (line.x(code.years), top)
    said = _beside(code, plate, frame) if low else _said(code, plate, ring, frame)
    return Arranged(plate=plate, said=said, ring=ring, ring_words=_ring_words(code, ring, frame), line=line,
                    stems=stems, anchors=anchors)  # fmt: skip


def _stems(code: Code, named: Set[str], line: AgeLine, frame: Frame) -> tuple[float, ...]:
    """How high each advice's disc stands over the bar, so that none meets another or the one of the age."""
    disc = badge_radius(frame)
    placed = [(line.x(code.years), 0.0)]
    for advice in code.advice:
        x, high = line.x(advice.years), 1.4 * disc if advice.name in named else 0.8 * frame.grid
        while advice.name in named and any(math.dist((x, high), other) < 2.15 * disc for other in placed):
            high += 0.7 * disc
        placed.append((x, high))
    return tuple(high for _, high in placed[1:])


def _flat(code: Code, upper: Box) -> DatePlate:
    """The plate alone, at the left of a low drawing."""
    return DatePlate(box=Box(upper.left, upper.top, min(0.5 * upper.width, 3.2 * upper.height), upper.height),
                     digits=code.digits)  # fmt: skip


def _beside(code: Code, plate: DatePlate, frame: Frame) -> tuple[Said, ...]:
    """Week and year one below the other at the plate's right."""
    cap = frame.cap_height("callout")
    x, y, step = plate.box.right + 2.4 * frame.grid, plate.box.center[1], LINE_STEP * font_size(cap)
    return (("week", code.week, (x, y - step / 2 + cap / 2), "start"),
            ("made", code.year, (x, y + step / 2 + cap / 2), "start"))  # fmt: skip


def _plate_and_ring(code: Code, upper: Box, frame: Frame) -> tuple[DatePlate, YearRing | None]:
    """Side by side, words under the plate."""
    grid = frame.grid
    words = LINE_STEP * font_size(frame.cap_height("callout")) + 0.9 * grid
    side = min(upper.height, _RING_SHARE * upper.width)
    if _words_width(code, frame) > upper.width - side - _GAP * grid:
        side = min(side, upper.height - words)  # the words run on below it
    if side < _LEAST_RING * grid:
        side = 0.0
    wide = upper.width - (side + _GAP * grid if side else 0.0)
    high = min(upper.height - words, 0.62 * wide)
    top = upper.top + (upper.height - words - high) / 2
    plate = DatePlate(box=Box(upper.left, top, wide, high), digits=code.digits)
    if not side:
        return plate, None
    middle = min(top + (high + words) / 2, max(upper.top + side / 2, top + high - side / 2))
    return plate, YearRing(center=(upper.right - side / 2, middle), radius=side / 2, day=code.day)


def _words_width(code: Code, frame: Frame) -> float:
    cap = frame.cap_height("callout")
    return width(code.week, cap, "semibold") + width(code.year, cap, "semibold") + 2.6 * frame.grid


def _said(code: Code, plate: DatePlate, ring: YearRing | None, frame: Frame) -> tuple[Said, ...]:
    """Week and year under their digits, to either side of where the two groups part, clear of the ring."""
    cap, grid = frame.cap_height("callout"), frame.grid
    y = plate.box.bottom + 1.5 * grid + cap
    clear = ring is not None and _words_width(code, frame) <= plate.box.width
    feet = [plate.foot(group)[0] for group in (0, 1)]
    parting = feet[0] + 0.55 * (feet[1] - feet[0])
    left, right = width(code.week, cap, "semibold"), width(code.year, cap, "semibold")
    start = max(parting + 1.3 * grid, feet[1] - right / 2)
    if clear:
        start = min(start, plate.box.right - right)
    end = min(parting - 1.3 * grid, feet[0] + left / 2, start - 2.6 * grid)
    return (("week", code.week, (end, y), "end"), ("made", code.year, (start, y), "start"))


def _ring_words(code: Code, ring: YearRing | None, frame: Frame) -> tuple[tuple[str, Point], ...]:
    """Inside the ring: the week, and the day it begins; as much as finds room."""
    if ring is None:
        return ()
    cap = frame.cap_height("small")
    step = LINE_STEP * font_size(cap)
    parts = [code.week, *([f"from {code.from_day.rsplit(' ', 1)[0]}"] if code.from_day else [])]
    for words in (parts, parts[:1]):
        high = step * len(words)
        reach = 2 * (max(0.0, (0.92 * ring.hole) ** 2 - (high / 2) ** 2)) ** 0.5
        if all(width(text, cap) <= reach for text in words):
            (x, y), first = ring.center, (step + cap - high) / 2
            return tuple((text, (x, y + first + step * order)) for order, text in enumerate(words))
    return ()
