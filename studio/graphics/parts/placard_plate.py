"""A schematic placard of our own: one row for each line of the car's, its wheels picked out on a small car, read out.

No maker's and no regulation's design is copied: what is said and how large it stands follows what a viewer must read.
"""

from collections.abc import Sequence

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.parts.wheels_sign import wheels_sign
from studio.graphics.scene import Role, Shape, Stroke, Text, Weight

_PAD, _ICON, _GAP, _ROW_GAP = 2.6, 7.0, 2.4, 1.5  # grid units
_ZOOMS = (1.6, 1.5, 1.4, 1.3, 1.2, 1.1)


class PlateRow(msgspec.Struct, frozen=True, kw_only=True):
    """One line: ``wheels`` are front, rear or spare; sizes from the fullest to the shortest; a number with its unit."""

    name: str
    wheels: tuple[str, ...]
    title: str
    sizes: tuple[str, ...]
    number: str
    unit: str
    other: str
    decides: bool = False


class PlateSteps(msgspec.Struct, frozen=True, kw_only=True):
    """In which steps the sizes and the pressures appear."""

    sizes: int
    pressures: int


class Plate(msgspec.Struct, frozen=True, kw_only=True):
    """The placed plate: its rows' boxes and how full they are.

    ``scale`` is the frame whose sizes of type and distances it has: the picture's own, or a larger one where there is
    room. ``whole`` tells sizes with load and speed marks; ``numbers`` is how wide the pressures stand, in px.
    """

    scale: Frame
    box: Box
    rows: tuple[tuple[PlateRow, Box], ...]
    two_lines: bool
    others: bool
    titled: bool
    whole: bool
    numbers: float

    def end_of(self, row: int) -> tuple[float, float]:
        """The right end of a row at the height of its number."""
        box = self.rows[row][1]
        return (self.box.right, box.top + 0.5 * box.height)


_TWO, _TWO_SHORT, _ONE, _LEAST = (True, True, True), (True, False, True), (False, False, True), (False, False, False)
_FILLED = (_TWO, _TWO_SHORT, _ONE, _LEAST)  # two lines a row, the other unit system, words for the wheels


def plate(rows: Sequence[PlateRow], room: Box, frame: Frame) -> Plate:
    """As large a plate as ``room`` holds, in its middle; with fewer words where even the least sizes are too large."""
    for zoom in _ZOOMS:
        larger = Frame(round(frame.width * zoom), round(frame.height * zoom))
        if _fits(rows, room, larger, *_TWO):
            return _placed(rows, room, larger, *_TWO)
    filled = next((f for f in _FILLED if _fits(rows, room, frame, *f)), _FILLED[-1])
    return _placed(rows, room, frame, *filled)


def _fits(rows: Sequence[PlateRow], room: Box, scale: Frame, two_lines: bool, others: bool, titled: bool) -> bool:
    wide, high = _least(rows, scale, two_lines, others, titled)
    return wide <= room.width and high <= room.height


def _least(
    rows: Sequence[PlateRow], scale: Frame, two_lines: bool, others: bool, titled: bool
) -> tuple[float, float]:  # fmt: skip
    pad, gap = _PAD * scale.grid, _ROW_GAP * scale.grid
    wide = max(_words_wide(row, scale, two_lines, titled) for row in rows) + _numbers(rows, scale, two_lines and others)
    high = sum(_row_high(row, scale, two_lines, others) for row in rows) + gap * (len(rows) - 1)
    return wide + 2 * pad, high + 2 * pad


def _placed(
    rows: Sequence[PlateRow], room: Box, scale: Frame, two_lines: bool, others: bool, titled: bool
) -> Plate:  # fmt: skip
    least, high = _least(rows, scale, two_lines, others, titled)
    wide = min(room.width, max(least, _comfortable(least, high)))
    loose = min(1.6 * scale.grid * len(rows), max(0.0, room.height - high))
    box = Box(room.center[0] - wide / 2, room.center[1] - (high + loose) / 2, wide, high + loose)
    pad, placed, y = _PAD * scale.grid, [], box.top + _PAD * scale.grid
    for row in rows:
        tall = _row_high(row, scale, two_lines, others) + loose / len(rows)
        placed.append((row, Box(box.left + pad, y, wide - 2 * pad, tall)))
        y += tall + _ROW_GAP * scale.grid
    numbers = _numbers(rows, scale, two_lines and others)
    left = wide - 2 * pad - numbers - (_ICON + 2 * _GAP) * scale.grid
    whole = two_lines and all(width(r.sizes[0], scale.cap_height("callout"), "semibold") <= left for r in rows)
    return Plate(scale=scale, box=box, rows=tuple(placed), two_lines=two_lines, others=others, titled=titled,
                 whole=whole, numbers=numbers)  # fmt: skip


def _comfortable(least: float, high: float) -> float:
    """A plate is a little wider than its words, and no narrower than it is high."""
    return max(1.12 * least, 1.15 * high)


def plate_marks(its: Plate, look: Look, steps: PlateSteps) -> tuple[Shape | Text, ...]:
    """The plate with its rows."""
    frame, box = its.scale, its.box
    line = frame.short / 400
    marks: list[Shape | Text] = [
        Shape(name="placard/plate", outline=rectangle(box.left, box.top, box.width, box.height, _radius(frame)),
              fill=look.plate, stroke=Stroke(look.quiet, line)),
    ]  # fmt: skip
    for order, (row, at) in enumerate(its.rows):
        if order:
            y = at.top - _ROW_GAP * frame.grid / 2
            rule = polyline(((at.left, y), (at.right, y)))
            marks.append(Shape(name=f"placard/rule {order}", outline=rule,
                               stroke=Stroke(mix(look.plate, look.quiet, 0.45), line)))  # fmt: skip
        marks += wheels_sign(row.name, row.wheels, (at.left, at.center[1]), _ICON * frame.grid, look, steps.sizes)
        marks += _words(row, at, its, look, steps)
    return tuple(marks)


def _radius(frame: Frame) -> float:
    return 1.2 * frame.grid


def _cap(frame: Frame, row: PlateRow) -> float:
    return frame.cap_height("deciding" if row.decides else "heading" if row.unit else "callout")


def _step(cap: float) -> float:
    return LINE_STEP * font_size(cap)


def _row_high(row: PlateRow, frame: Frame, two_lines: bool, others: bool) -> float:
    small, callout = _step(frame.cap_height("small")), _step(frame.cap_height("callout"))
    words = small + callout if two_lines else callout
    number = _step(_cap(frame, row)) + (small if others and two_lines and row.other else 0.0)
    return max(words, number, _ICON * frame.grid * (0.84 if two_lines else 0.63))


def _words_wide(row: PlateRow, frame: Frame, two_lines: bool, titled: bool) -> float:
    small, callout = frame.cap_height("small"), frame.cap_height("callout")
    title, size = width(row.title, small), width(row.sizes[-1], callout, "semibold")
    words = max(title, size) if two_lines else size + (title + _GAP * frame.grid if titled else 0.0)
    return (_ICON + 2 * _GAP) * frame.grid + words


def _numbers(rows: Sequence[PlateRow], frame: Frame, others: bool) -> float:
    return max(_number_wide(row, frame, others) for row in rows)


def _number_wide(row: PlateRow, frame: Frame, others: bool) -> float:
    cap = _cap(frame, row)
    if not row.unit:
        return width(row.number, cap)
    wide = width(row.number, cap, "bold") + width(f" {row.unit}", _unit_cap(frame, cap), "semibold")
    return max(wide, width(row.other, frame.cap_height("small")) if others else 0.0)


def _unit_cap(frame: Frame, cap: float) -> float:
    return max(frame.cap_height("callout"), cap / 2)


def _words(row: PlateRow, at: Box, its: Plate, look: Look, steps: PlateSteps) -> list[Text]:
    """Which wheels and which size at the left, the pressure at the right."""
    frame = its.scale
    small, callout = frame.cap_height("small"), frame.cap_height("callout")
    left, middle = at.left + (_ICON + _GAP) * frame.grid, at.center[1]
    if its.two_lines:
        size = row.sizes[0] if its.whole else row.sizes[-1]
        top = middle - (_step(small) + _step(callout)) / 2
        texts = [
            _text(row, "title", row.title, (left, _baseline(top, small)), small, "small", look.quiet, look,
                  steps.sizes),
            _text(row, "size", size, (left, _baseline(top + _step(small), callout)), callout, "callout", look.ink, look,
                  steps.sizes, "semibold"),
        ]  # fmt: skip
        return [*texts, *_pressure(row, at, its, look, steps.pressures)]
    texts, base = [], middle + callout / 2
    if its.titled:
        texts.append(_text(row, "title", row.title, (left, base), small, "small", look.quiet, look, steps.sizes))
        left += width(row.title, small) + _GAP * frame.grid
    texts.append(_text(row, "size", row.sizes[-1], (left, base), callout, "callout", look.ink, look, steps.sizes,
                       "semibold"))  # fmt: skip
    return [*texts, *_pressure(row, at, its, look, steps.pressures)]


def _pressure(row: PlateRow, at: Box, its: Plate, look: Look, step: int) -> list[Text]:
    frame = its.scale
    cap, small = _cap(frame, row), frame.cap_height("small")
    other = row.other if its.others and its.two_lines else ""
    top = at.center[1] - (_step(cap) + (_step(small) if other else 0.0)) / 2
    left = at.right - its.numbers
    base = _baseline(top, cap)
    if not row.unit:
        return [_text(row, "pressure", row.number, (left, base), cap, "callout", look.quiet, look, step)]
    unit = _unit_cap(frame, cap)
    after = left + width(row.number, cap, "bold") + width(" ", unit, "semibold")
    role: Role = "deciding" if row.decides else "heading"
    texts = [
        _text(row, "pressure", row.number, (left, base), cap, role, look.ink, look, step, "bold"),
        _text(row, "unit", row.unit, (after, base), unit, "callout", look.ink, look, step, "semibold"),
    ]
    if other:
        y = _baseline(top + _step(cap), small)
        texts.append(_text(row, "other", other, (left, y), small, "small", look.quiet, look, step))
    return texts


def _baseline(top: float, cap: float) -> float:
    return top + cap + (_step(cap) - font_size(cap)) / 2


def _text(
    row: PlateRow, part: str, text: str, at: tuple[float, float], cap: float, role: Role, fill: str, look: Look,
    step: int, weight: Weight = "regular",
) -> Text:  # fmt: skip
    return Text(name=f"{row.name}/{part}", step=step, text=text, at=at, cap_height=cap, weight=weight, fill=fill,
                ground=look.plate, role=role)  # fmt: skip
