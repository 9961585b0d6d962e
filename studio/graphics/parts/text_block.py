"""A block of short lines that belong together: measured as it is set, wrapped to a width."""

from collections.abc import Sequence

import msgspec

from studio.graphics.layout.notes import LINE_STEP
from studio.graphics.layout.text import font_size, width, wrap_even
from studio.graphics.look import Look
from studio.graphics.scene import Point, Role, Text, Weight


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """One line; ``color`` is a field of the look. ``follows`` sets it behind the line before, where it fits."""

    part: str
    text: str
    cap: float
    role: Role
    weight: Weight = "regular"
    color: str = "ink"
    most: int = 2
    follows: bool = False


class Block(msgspec.Struct, frozen=True, kw_only=True):
    """The lines as they are set: (line, text, x, baseline), px from the block's top left."""

    set: tuple[tuple[Line, str, float, float], ...]
    width: float
    height: float

    @property
    def whole(self) -> bool:
        """Whether nothing was cut."""
        return not any(text.endswith("…") for _, text, _, _ in self.set)


def block(lines: Sequence[Line], widest: float) -> Block:
    """The lines wrapped to ``widest`` px, one below the other."""
    placed: list[tuple[Line, str, float, float]] = []
    x = y = wide = base = 0.0
    for line in (line for line in lines if line.text):
        gap = width("  ", line.cap)
        its = width(line.text, line.cap, line.weight)
        if line.follows and placed and x + gap + its <= widest:
            placed.append((line, line.text, x + gap, base))
            x += gap + its
            wide = max(wide, x)
            continue
        step = LINE_STEP * font_size(line.cap)
        for text in wrap_even(line.text, line.cap, line.weight, widest, line.most):
            base = y + line.cap + (step - font_size(line.cap)) / 2
            placed.append((line, text, 0.0, base))
            x = width(text, line.cap, line.weight)
            wide, y = max(wide, x), y + step
    return Block(set=tuple(placed), width=wide, height=y)


def set_block(its: Block, at: Point, look: Look, name: str, step: int = 0) -> tuple[Text, ...]:
    """The block's texts from its top left at ``at``; parts are named once, further lines of one are counted."""
    texts: list[Text] = []
    count: dict[str, int] = {}
    for line, text, x, base in its.set:
        number = count.get(line.part, 0)
        count[line.part] = number + 1
        texts.append(
            Text(name=f"{name}/{line.part}{number or ''}", step=step, text=text, at=(at[0] + x, at[1] + base),
                 cap_height=line.cap, weight=line.weight, fill=getattr(look, line.color), ground=look.ground,
                 role=line.role)
        )  # fmt: skip
    return tuple(texts)
