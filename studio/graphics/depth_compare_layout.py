"""How treads stand side by side: columns on one floor, numbers above, names below, labels of the lines beside."""

from collections.abc import Sequence
from typing import Literal

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import LINE_STEP, Note
from studio.graphics.layout.text import font_size, width, wrap_even
from studio.graphics.parts.depth_axis import axis_width
from studio.graphics.parts.groove_section import TreadPiece
from studio.graphics.parts.scale_bar import Line, key_height
from studio.graphics.scene import Role
from studio.model.finding import Verdict
from studio.model.quantity import System

Part = Literal["unit", "other"]

_WIDEST = 32.0  # a column is at most this many grid units wide
_GAP = 2.2
_BASE = 2.4  # the rubber under the grooves, in grid units
_GROOVE_SHARE = 0.40
_LOWEST = 11.0  # in grid units: lower treads cannot be compared
_TALLEST = 8.0  # a column is at most this many times as high as wide, so that it still looks like a tread
_LEADER = 3.4  # from the columns to the labels of the lines, in grid units


class Limit(msgspec.Struct, frozen=True, kw_only=True):
    """A depth that the tread is held against: its note, law or advice, where it lies in mm."""

    note: Note
    kind: Line
    mm: float


class Column(msgspec.Struct, frozen=True, kw_only=True):
    """One tread: what is said of it, its depths in mm. The number of the ``worst`` decides, in step ``last``."""

    name: str
    title: str
    verdict: Verdict | None
    number: str
    unit: str
    other: str
    depth_mm: float
    new_mm: float | None
    bar_mm: float | None = None
    doubt_mm: float = 0.0
    worst: bool = False
    step: int = 0
    last: int = 0


class Placed(msgspec.Struct, frozen=True, kw_only=True):
    """A column in the drawing: the tread, and how wide its texts may be."""

    column: Column
    piece: TreadPiece
    room: float

    @property
    def doubt_x(self) -> float:
        """Where the doubt of the reading is marked: on the right block."""
        groove = self.piece.grooves[0] + self.piece.groove / 2
        return groove + 0.62 * (self.piece.right - groove)


class Sizes(msgspec.Struct, frozen=True, kw_only=True):
    """Cap heights in px of the numbers; whether their units stand beside them or below."""

    worst: float
    others: float
    others_role: Role
    beside: bool

    def cap(self, column: Column) -> float:
        """The cap height of a column's number."""
        return self.worst if column.worst else self.others

    def role(self, column: Column) -> Role:
        """Its role."""
        return "deciding" if column.worst else self.others_role


class Arranged(msgspec.Struct, frozen=True, kw_only=True):
    """The drawing laid out: floor and scale (px per mm) of all columns, the axis, where lines and rows of text stand.

    ``labels`` are the notes of the lines with their boxes; ``key`` is where the doubt of a reading and the wear bar are
    explained; ``inline`` says that signs stand before the names.
    """

    columns: tuple[Placed, ...]
    axis_x: float
    floor: float
    scale: float
    highest_mm: float
    lines_end: float
    numbers_base: float
    first_under: float
    under: tuple[tuple[Part, ...], ...]
    titles_top: float
    titles_high: float
    inline: bool
    sizes: Sizes
    labels: tuple[tuple[Note, Box], ...] = ()
    key: Box | None = None

    def height(self, mm: float) -> float:
        """Where a depth lies, in px of the frame."""
        return self.floor - mm * self.scale


def arrange(
    columns: Sequence[Column], limits: Sequence[Limit], doubt: Note | None, units: System, body: Box, frame: Frame
) -> Arranged:
    """Lay the columns out in ``body``.

    Where numbers find no room or the treads would be too low to read, the new tread goes, then the deepest ones, last
    the key. Advice goes before a tire, but not where it is what the verdict rests on.
    """
    needed = len(limits) if any(column.worst and column.verdict == "watch" for column in columns) else 1
    highest = max(
        [*(limit.mm for limit in limits),
         *(max(c.depth_mm + c.doubt_mm, c.new_mm or 0.0, c.bar_mm or 0.0) for c in columns)]
    )  # fmt: skip
    room = _Room(strip=_strip(limits, body, frame), axis=axis_width(highest, units, frame), highest_mm=highest)
    for start in range(len(columns)):
        shown = columns[start:]
        wide = _column_width(len(shown), room, body, frame)
        its = _arranged(shown, limits, doubt, room, body, frame)
        high = its.scale * highest >= _LOWEST * frame.grid
        if high and _sizes(shown, wide, frame) and len(its.labels) >= min(needed, len(limits)):
            return its
    return _arranged(columns[-1:], limits, None, msgspec.structs.replace(room, keyed=False), body, frame)


def _strip(limits: Sequence[Limit], body: Box, frame: Frame) -> float:
    """The room right of the columns, in which lines run on to their labels."""
    widest = (0.28 if frame.shape == "wide" else 0.16) * body.width
    needed = [width(limit.note.value, frame.cap_height("callout"), "semibold") for limit in limits]
    return max(widest, *needed) + 1 + _LEADER * frame.grid if needed else 0.0


class _Room(msgspec.Struct, frozen=True, kw_only=True):
    """What stands beside the columns: the labels' strip and the axis (px), how much depth the scale holds, a key."""

    strip: float
    axis: float
    highest_mm: float
    keyed: bool = True


def _column_width(count: int, room: _Room, body: Box, frame: Frame) -> float:
    free = body.width - room.axis - room.strip - frame.grid - _GAP * frame.grid * count
    return min(_WIDEST * frame.grid, free / count)


def _sizes(columns: Sequence[Column], wide: float, frame: Frame) -> Sizes | None:
    """The largest sizes at which each number fits its column and some of the gap after it."""
    overs = [0.6 * _GAP * frame.grid] * (len(columns) - 1) + [6.0 * frame.grid]  # beside the last one there is room
    callout, heading, deciding = (frame.cap_height(role) for role in ("callout", "heading", "deciding"))
    roomy: tuple[float, float, Role] = (1.25 * deciding, heading, "heading")
    close: tuple[float, float, Role] = (deciding, callout, "callout")
    for worst, others, role in (roomy, close):
        for beside in (True, False):
            sizes = Sizes(worst=worst, others=others, others_role=role, beside=beside)
            pairs = zip(columns, overs, strict=True)
            if all(_number_width(column, sizes, frame) <= wide + over for column, over in pairs):
                return sizes
    return None


def _number_width(column: Column, sizes: Sizes, frame: Frame) -> float:
    cap = sizes.cap(column)
    beside = width(f" {column.unit}", unit_cap(cap, frame), "semibold") if sizes.beside and column.unit else 0.0
    return width(column.number, cap, "bold") + beside


def unit_cap(cap: float, frame: Frame) -> float:
    """The cap height of a unit beside a number of this one."""
    return max(cap / 2, frame.cap_height("callout"))


def _arranged(
    columns: Sequence[Column], limits: Sequence[Limit], doubt: Note | None, room: _Room, body: Box, frame: Frame
) -> Arranged:
    grid, gap, highest = frame.grid, _GAP * frame.grid, room.highest_mm
    wide = _column_width(len(columns), room, body, frame)
    sizes = _sizes(columns, wide, frame) or Sizes(
        worst=frame.cap_height("deciding"), others=frame.cap_height("callout"), others_role="callout", beside=False
    )
    small = frame.cap_height("small")
    largest = max(sizes.cap(column) for column in columns)
    numbers_base = body.top + 1.1 * largest
    first_under = numbers_base + 0.21 * font_size(largest) + 1.15 * small
    under = _under(columns, sizes, wide, frame)
    top = first_under + LINE_STEP * font_size(small) * (len(under) - 1) if under else numbers_base
    key_high = key_row(frame) if frame.shape != "wide" and room.keyed else 0.0
    inline, titles = _titles(columns, wide, frame)
    base = _BASE * grid
    floor = body.bottom - titles - key_high - (2.0 if key_high else 0.8) * grid - base
    scale = min(floor - top - 1.6 * grid, _TALLEST * wide) / highest
    floor = top + 1.6 * grid + highest * scale
    axis_x = body.left + room.axis
    placed = []
    for order, column in enumerate(columns):
        left = axis_x + grid + gap / 2 + order * (wide + gap)
        piece = TreadPiece(
            left=left, right=left + wide, floor=floor, scale=scale, depth_mm=column.depth_mm, new_mm=column.new_mm,
            bar_mm=column.bar_mm, grooves=(left + wide / 2,), groove=_GROOVE_SHARE * wide, base_mm=base / scale,
        )  # fmt: skip
        placed.append(Placed(column=column, piece=piece, room=wide))
    its = Arranged(
        columns=tuple(placed), axis_x=axis_x, floor=floor, scale=scale, highest_mm=highest,
        lines_end=placed[-1].piece.right + gap / 2, numbers_base=numbers_base,
        first_under=first_under, under=under, titles_top=floor + base + 0.8 * grid, titles_high=titles, inline=inline,
        sizes=sizes,
    )  # fmt: skip
    strip_box = Box(its.lines_end, body.top, body.right - its.lines_end, body.height)
    its = _with_labels(_with_key(its, doubt, strip_box, frame), limits, strip_box, frame)
    return its if room.keyed else msgspec.structs.replace(its, key=None)


def key_row(frame: Frame) -> float:
    """The height of a line of the key in px."""
    return LINE_STEP * font_size(frame.cap_height("callout"))


def _with_key(its: Arranged, doubt: Note | None, strip: Box, frame: Frame) -> Arranged:
    """The key at the top of the labels' strip, in other than wide frames below the names."""
    if frame.shape != "wide":
        top, across = its.titles_top + its.titles_high + 1.2 * frame.grid, strip.right - its.axis_x - frame.grid
        return msgspec.structs.replace(its, key=Box(its.axis_x + frame.grid, top, across, key_row(frame)))
    left = strip.left + _LEADER * frame.grid
    high = key_height([(doubt, "doubt")], frame, strip.right - left) if doubt else 0.0
    key = Box(left, its.numbers_base + 0.5 * frame.grid, strip.right - left, high + key_row(frame))
    return msgspec.structs.replace(its, key=key)


def _with_labels(its: Arranged, limits: Sequence[Limit], strip: Box, frame: Frame) -> Arranged:
    """The labels at the heights of their lines, moved apart; where they find no room, advice goes before law."""
    left = strip.left + _LEADER * frame.grid
    room = strip.right - left
    upper = its.key.bottom + 2 * frame.grid if its.key and frame.shape == "wide" else its.numbers_base + frame.grid
    bottom = strip.bottom if frame.shape == "wide" else its.floor + _BASE * frame.grid
    kept = sorted(limits, key=lambda limit: -limit.mm)
    while True:
        notes = _fitting([limit.note for limit in kept], room, bottom - upper, frame)
        heights = [notes_.height(note, frame, room) for note in notes]
        wanted = [its.height(limit.mm) - notes_.first_middle(note, frame, room)
                  for limit, note in zip(kept, notes, strict=True)]  # fmt: skip
        tops = _apart(wanted, heights, frame.grid, bottom)
        if len(kept) < 2 or tops[0] >= upper:
            break
        kept.remove(max(kept, key=lambda limit: (limit.note.priority, limit.mm)))
    boxes = [Box(left, top, room, high) for top, high in zip(tops, heights, strict=True)]
    return msgspec.structs.replace(its, labels=tuple(zip(notes, boxes, strict=True)))


def _fitting(notes: list[Note], room: float, high: float, frame: Frame) -> list[Note]:
    """The notes with their labels; with brief words where the labels are cut or all together too high."""

    def cut(note: Note) -> bool:
        return any(text.endswith("…") for row in notes_.rows(note, frame, room) for text, *_ in row.parts)

    whole = sum(notes_.height(note, frame, room) for note in notes) + frame.grid * len(notes)
    if whole <= high and not any(cut(note) for note in notes):
        return notes
    return [msgspec.structs.replace(note, label=note.brief, other="") for note in notes]


def _apart(wanted: Sequence[float], heights: Sequence[float], gap: float, bottom: float) -> list[float]:
    """Tops as near to what is wanted as gap and bottom allow, settled from the lowest up."""
    tops = list(wanted)
    limit = bottom
    for order in reversed(range(len(tops))):
        tops[order] = min(tops[order], limit - heights[order])
        limit = tops[order] - gap
    return tops


def _under(columns: Sequence[Column], sizes: Sizes, wide: float, frame: Frame) -> tuple[tuple[Part, ...], ...]:
    """What stands in the rows under the numbers, alike for all: the unit unless beside, the other system's text."""
    cap = frame.cap_height("small")
    others = all(width(column.other, cap) <= wide for column in columns) and any(column.other for column in columns)
    if sizes.beside or not columns[0].unit:
        return (("other",),) if others else ()
    if not others:
        return (("unit",),)
    inline = all(width(f"{column.unit}  {column.other}", cap, "semibold") <= wide for column in columns)
    return (("unit", "other"),) if inline else (("unit",), ("other",))


def sign_side(frame: Frame) -> float:
    """The side of a verdict's sign in px."""
    return 1.5 * frame.cap_height("small")


def _inline(columns: Sequence[Column], wide: float, frame: Frame) -> bool:
    """Whether signs stand before the names, not above them: where each longest word has room beside its sign."""
    cap = frame.cap_height("small")
    longest = max(width(word, cap, "semibold") for column in columns for word in (column.title.split() or [""]))
    return sign_side(frame) + 0.8 * frame.grid + longest <= wide


def _titles(columns: Sequence[Column], wide: float, frame: Frame) -> tuple[bool, float]:
    """Whether signs stand before the names, and how high names with their signs are."""
    inline = _inline(columns, wide, frame)
    step = LINE_STEP * font_size(frame.cap_height("small"))
    lines = max(len(title_lines(column, wide, inline, frame)) for column in columns)
    above = 0.0 if inline or not any(column.verdict for column in columns) else sign_side(frame) + 0.6 * frame.grid
    return inline, lines * step + above


def title_lines(column: Column, wide: float, inline: bool, frame: Frame) -> tuple[str, ...]:
    """The tire's name in at most two lines, beside its sign or below it."""
    indent = sign_side(frame) + 0.8 * frame.grid if column.verdict and inline else 0.0
    return wrap_even(column.title, frame.cap_height("small"), "semibold", wide - indent, 2)
