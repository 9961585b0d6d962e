"""A piece of tread seen from above: ribs and grooves along it, a wear bar across each groove, the mark beside them.

The mark is a plain triangle on the shoulder, as the trade knows it.
"""

from itertools import pairwise

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.frame import Box
from studio.graphics.look import Look
from studio.graphics.parts.groove_section import bar_color
from studio.graphics.parts.outlines import rounded
from studio.graphics.scene import Linear, Outline, Point, Shape, Stroke

_RIBS = ((0.0, 0.21), (0.275, 0.475), (0.54, 0.74), (0.805, 1.0))  # shares of the tread's width
_SHOULDER = 0.16  # of the box's width: the shoulder beside the tread, on which the mark stands
_PITCH = 0.34  # of the tread's width
_SLOT, _LEAN = 0.10, 0.10  # of a pitch: how wide a slot is, how far it leans
_BAR = 0.13  # of the tread's width: how long a bar is along the groove


class BarPatch(msgspec.Struct, frozen=True, kw_only=True):
    """The piece fills ``box``, its row of bars half way up. ``worn`` from 0 to 1 closes slots and softens edges."""

    box: Box
    worn: float = 0.0

    @property
    def tread(self) -> float:
        """The tread's width in px."""
        return self.box.width * (1 - _SHOULDER)

    @property
    def level(self) -> float:
        """The height of the bars' row in px of the frame."""
        return self.box.top + self.box.height / 2

    @property
    def grooves(self) -> tuple[tuple[float, float], ...]:
        """Left and right edge of each groove in px."""
        return tuple((self.x(left[1]), self.x(right[0])) for left, right in pairwise(_RIBS))

    @property
    def mark(self) -> Point:
        """The tip of the mark on the shoulder: it points at the row."""
        return (self.box.left + self.tread + 0.16 * _SHOULDER * self.box.width, self.level)

    def x(self, share: float) -> float:
        """A place across the tread in px."""
        return self.box.left + share * self.tread

    def bar(self, groove: int) -> Box:
        """Where the bar of a groove lies."""
        left, right = self.grooves[groove]
        high = _BAR * self.tread
        return Box(left, self.level - high / 2, right - left, high)


def bar_patch(patch: BarPatch, look: Look, name: str, line: float, step: int = 0) -> tuple[Shape, ...]:
    """The piece: groove floors, bars, blocks above them, the shoulder with its mark; ``line`` px is a fine line."""
    box, window = patch.box, rectangle(patch.box.left, patch.box.top, patch.box.width, patch.box.height)
    edge = Stroke(look.rubber_edge, line) if look.rubber_edge else None
    floor = mix(look.groove, look.rubber, 0.25 + 0.5 * patch.worn)
    light = Linear((box.left, box.top), (box.right, box.bottom),
                   ((0.0, look.rubber_light), (1.0, mix(look.rubber, look.rubber_light, 0.35))))  # fmt: skip
    round_off = Linear((box.left + patch.tread, 0.0), (box.right, 0.0),
                       ((0.0, mix(look.rubber, look.rubber_light, 0.5)), (1.0, mix(look.rubber, look.groove, 0.7))))
    shoulder = rectangle(box.left + patch.tread, box.top, box.width - patch.tread, box.height)
    return (
        Shape(name=f"{name}/floor", step=step, outline=window, fill=floor, stroke=edge),
        Shape(name=f"{name}/bars", step=step, outline=_bars(patch), fill=bar_color(look)),
        Shape(name=f"{name}/shoulder", step=step, outline=shoulder, fill=round_off),
        Shape(name=f"{name}/blocks", step=step, outline=_blocks(patch), fill=light, clip=window),
        Shape(name=f"{name}/mark", step=step, outline=_triangle(patch), fill=look.letter),
    )


def _bars(patch: BarPatch) -> Outline:
    outline: Outline = ()
    for groove in range(len(patch.grooves)):
        bar = patch.bar(groove)
        outline += rectangle(bar.left - 1, bar.top, bar.width + 2, bar.height)
    return outline


def _blocks(patch: BarPatch) -> Outline:
    """All blocks as one outline; the slots of neighbouring ribs are shifted against each other."""
    pitch = _PITCH * patch.tread
    slot, lean = _SLOT * pitch * (1 - 0.6 * patch.worn), _LEAN * pitch
    soft = (0.03 + 0.05 * patch.worn) * pitch
    outline: Outline = ()
    for order, (start, end) in enumerate(_RIBS):
        left, right = patch.x(start), patch.x(end)
        slant = lean if order % 2 else -lean
        y = patch.level + (0.5 if order % 2 == 0 else 0.28) * pitch
        while y > patch.box.top:
            y -= pitch
        while y < patch.box.bottom + pitch:
            low, high = y + slot / 2, y + pitch - slot / 2
            corners = ((left, low), (right, low + slant), (right, high + slant), (left, high))
            outline += rounded([(corner, soft) for corner in corners])
            y += pitch
    return outline


def _triangle(patch: BarPatch) -> Outline:
    (x, y), long = patch.mark, 0.42 * _SHOULDER * patch.box.width
    return polyline(((x, y), (x + long, y - 0.62 * long), (x + long, y + 0.62 * long)), closed=True)
