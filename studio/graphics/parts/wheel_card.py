"""One tire's words beside the car: its place and sign, its governing depth large, the other unit under it."""

from typing import Literal

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.parts.signs import sign
from studio.graphics.scene import Point, Role, Shape, Text, Weight
from studio.model.finding import Verdict

Fullness = Literal["full", "compact", "least"]
"""``compact`` leaves the place's name to the plan of the car; ``least`` sets all numbers in one size besides."""
FULLNESS: tuple[Fullness, ...] = ("full", "compact", "least")
_DECIDING = 1.25  # in a full card the deciding number stands out by this much over the least size of its role


class Card(msgspec.Struct, frozen=True, kw_only=True):
    """What a card says; ``number`` is empty where nothing was measured. ``worst`` sets it in the deciding size."""

    name: str
    title: str
    verdict: Verdict | None
    number: str = ""
    unit: str = ""
    other: str = ""
    worst: bool = False
    step: int = 0
    last: int = 0  # the step of sign and number


class _Line(msgspec.Struct, frozen=True, kw_only=True):
    part: str
    text: str
    cap: float
    weight: Weight = "regular"
    color: str = "ink"
    role: Role = "small"
    indent: float = 0.0


_Row = tuple[_Line, ...]


def _rows(card: Card, frame: Frame, fullness: Fullness) -> tuple[_Row, ...]:
    """The rows of a card; the sign stands before the first or the last of them."""
    small, after = frame.cap_height("small"), _sign_side(frame) + 0.9 * frame.grid
    name = _Line(part="place", text=card.title, cap=small, weight="semibold", indent=after)
    number = _number(card, frame, fullness) if card.number else ()
    under = " ".join((card.title, card.other)) if fullness != "full" and card.name == "spare" else card.other
    under = under if card.number else "not measured"
    if fullness == "full":
        last = _Line(part="other", text=under, cap=small, color="quiet")
        return tuple(row for row in ((name,), number, (last,) if under else ()) if row)
    last = _Line(part="other", text=under, cap=small, color="quiet", indent=after)
    return (number, (last,)) if number else ((last,),)


def _number(card: Card, frame: Frame, fullness: Fullness) -> _Row:
    role: Role = "callout" if fullness == "least" else "deciding" if card.worst else "heading"
    cap = frame.cap_height(role) * (_DECIDING if role == "deciding" and fullness == "full" else 1.0)
    number = _Line(part="depth", text=card.number, cap=cap, weight="bold", role=role)
    if not card.unit:
        return (number,)
    unit = _Line(part="unit", text=card.unit, cap=max(frame.cap_height("callout"), cap / 2), weight="semibold",
                 role="callout", indent=width(card.number, cap, "bold") + 0.22 * cap)  # fmt: skip
    return number, unit


def _sign_side(frame: Frame) -> float:
    return 1.5 * frame.cap_height("small")


def _row_height(row: _Row) -> float:
    return LINE_STEP * font_size(row[0].cap) * (0.94 if row[0].part == "depth" else 1.0)


def card_size(card: Card, frame: Frame, fullness: Fullness = "full") -> tuple[float, float]:
    """Width and height of the card in px."""
    rows = _rows(card, frame, fullness)
    wide = max(line.indent + width(line.text, line.cap, line.weight) for row in rows for line in row)
    return wide, sum(_row_height(row) for row in rows)


def card_marks(
    card: Card, at: Point, frame: Frame, look: Look, fullness: Fullness = "full"
) -> tuple[Shape | Text, ...]:
    """The card with its top left corner ``at``."""
    marks: list[Shape | Text] = []
    x, y = at
    rows = _rows(card, frame, fullness)
    for order, row in enumerate(rows):
        high = _row_height(row)
        baseline = y + row[0].cap + (high - font_size(row[0].cap)) / 2
        if order == (0 if fullness == "full" else len(rows) - 1):
            side = _sign_side(frame)
            box = Box(x, baseline - row[0].cap / 2 - side / 2, side, side)
            marks += sign(card.verdict, box, look, f"{card.name}/sign", card.last)
        marks += [_text(card, line, (x + line.indent, baseline), look) for line in row]
        y += high
    return tuple(marks)


def _text(card: Card, line: _Line, at: Point, look: Look) -> Text:
    step = card.step if line.part == "place" else card.last
    return Text(
        name=f"{card.name}/{line.part}", step=step, text=line.text, at=at, cap_height=line.cap, weight=line.weight,
        fill=getattr(look, line.color), ground=look.ground, role=line.role,
    )  # fmt: skip
