"""The words of a depth comparison: numbers above the columns, names below them, the key."""

from studio.graphics.depth_compare_layout import Arranged, Placed, key_row, sign_side, title_lines, unit_cap
from studio.graphics.draw import rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP, Note
from studio.graphics.layout.text import box as box_of
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.parts.groove_section import bar_color
from studio.graphics.parts.scale_bar import key, key_height
from studio.graphics.parts.signs import sign
from studio.graphics.scene import Point, Role, Shape, Text, Weight

_BAR = "wear bar"
_SAMPLE = 5.6  # from a sample's left edge to its words, in grid units, as in the key of other pictures


def number_marks(placed: Placed, its: Arranged, frame: Frame, look: Look) -> tuple[Text, ...]:
    """The depth above its column: the number, its unit, the other system's text under it."""
    column, sizes, left = placed.column, its.sizes, placed.piece.left
    cap, role = sizes.cap(column), sizes.role(column)
    small, step = frame.cap_height("small"), LINE_STEP * font_size(frame.cap_height("small"))
    y = its.numbers_base

    def text(part: str, words: str, at: Point, size: float, weight: Weight, color: str, its_role: Role) -> Text:
        return Text(name=f"{column.name}/{part}", step=column.last, text=words, at=at, cap_height=size, weight=weight,
                    fill=getattr(look, color), ground=look.ground, role=its_role)  # fmt: skip

    texts = [text("depth", column.number, (left, y), cap, "bold", "ink", role)]
    if column.unit and sizes.beside:
        x = left + width(column.number, cap, "bold") + width(" ", unit_cap(cap, frame), "semibold")
        texts.append(text("unit", column.unit, (x, y), unit_cap(cap, frame), "semibold", "ink", "callout"))
    for order, row in enumerate(its.under):
        y, x = its.first_under + order * step, left
        for part in row:
            words: str = getattr(column, part)
            weight: Weight = "semibold" if part == "unit" else "regular"
            if words:
                texts.append(text(part, words, (x, y), small, weight, "ink" if part == "unit" else "quiet", "small"))
                x += width(f"{words}  ", small, weight)
    return tuple(texts)


def title_marks(placed: Placed, its: Arranged, frame: Frame, look: Look) -> tuple[Shape | Text, ...]:
    """The tire's name below its column, its verdict's sign before it."""
    column, left, y = placed.column, placed.piece.left, its.titles_top
    cap, side = frame.cap_height("small"), sign_side(frame)
    step, x = LINE_STEP * font_size(cap), left
    marks: list[Shape | Text] = []
    if column.verdict:
        top = y + (step - side) / 2 if its.inline else y
        marks += sign(column.verdict, Box(left, top, side, side), look, f"{column.name}/sign", column.last)
        x, y = (left + side + 0.8 * frame.grid, y) if its.inline else (left, y + side + 0.6 * frame.grid)
    for order, line in enumerate(title_lines(column, placed.room, its.inline, frame)):
        base = y + cap + (step - font_size(cap)) / 2 + order * step
        marks.append(Text(name=f"{column.name}/title{order}", step=column.step, text=line, at=(x, base), cap_height=cap,
                          weight="semibold", fill=look.ink, ground=look.ground, role="small"))  # fmt: skip
    return tuple(marks)


def key_marks(doubt: Note | None, its: Arranged, frame: Frame, look: Look) -> tuple[Shape | Text, ...]:
    """What the doubt's mark and the bars in the grooves are: one below the other, in narrow frames side by side."""
    box, row = its.key, key_row(frame)
    if box is None:
        return ()
    if frame.shape == "wide":
        below = Box(box.left, box.top + row, box.width, box.height - row)
        said = key([(doubt, "doubt")], below, frame, look) if doubt else ()
        return (*_bar_key((box.left, box.top), frame, look), *said)
    bar, gap = _SAMPLE * frame.grid + width(_BAR, frame.cap_height("small")), 2.5 * frame.grid
    room = Box(box.left, box.top, box.width - bar - gap, row)
    if doubt and key_height([(doubt, "doubt")], frame, room.width) > row + 1:  # letters so wide that it takes two rows
        doubt = None
    marks = key([(doubt, "doubt")], room, frame, look) if doubt else ()
    ends = [box_of(mark).right for mark in marks if isinstance(mark, Text)]
    return (*marks, *_bar_key((max(ends) + gap if ends else box.left, box.top), frame, look))


def _bar_key(at: Point, frame: Frame, look: Look) -> tuple[Shape | Text, ...]:
    """A piece of a bar, and its name."""
    cap, high = frame.cap_height("small"), 1.5 * frame.cap_height("small")
    middle = at[1] + key_row(frame) / 2
    swatch = rectangle(at[0], middle - high / 2, (_SAMPLE - 2) * frame.grid, high, 0.4 * frame.grid)
    return (
        Shape(name="wear bar/sample", outline=swatch, fill=bar_color(look)),
        Text(name="wear bar/name", text=_BAR, at=(at[0] + _SAMPLE * frame.grid, middle + cap / 2), cap_height=cap,
             fill=look.quiet, ground=look.ground, role="small"),
    )  # fmt: skip
