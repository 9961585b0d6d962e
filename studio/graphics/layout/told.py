"""What is told beside a drawing in words: a quiet heading, below it what matters, one pair under the other."""

from collections.abc import Sequence

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import font_size, wrap, wrap_even
from studio.graphics.look import Look
from studio.graphics.scene import Role, Text

_LINE_STEP = 1.2
_LEAST_GAP, _MOST_GAP = 1.4, 3.5  # in grid units, between two pairs
_MOST_LINES = 3


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """One pair: ``heading`` quiet, ``text`` in ink, larger where it is ``strong``. ``priority`` 0 is never left out."""

    name: str
    heading: str
    text: str
    step: int = 0
    priority: int = 0
    strong: bool = False


class Size(msgspec.Struct, frozen=True):
    """How large the texts are set: the strong ones, the others."""

    strong: Role
    other: Role


_SIZES = (Size("heading", "callout"), Size("callout", "callout"), Size("callout", "small"), Size("small", "small"))


def fitting(told: Sequence[Told], box: Box, frame: Frame) -> tuple[tuple[Told, ...], Size]:
    """What fits into ``box`` and how large its texts are: first smaller ones, then those that may go are left out."""
    kept = list(told)
    while True:
        for size in _SIZES:
            if _height(kept, box.width, frame, size) <= box.height and not _cut(kept, box.width, frame, size):
                return tuple(kept), size
        spare = [pair for pair in kept if pair.priority]
        if not spare:
            return tuple(kept), _SIZES[-1]
        kept.remove(max(reversed(spare), key=lambda pair: pair.priority))


def set_told(told: Sequence[Told], size: Size, box: Box, frame: Frame, look: Look) -> tuple[Text, ...]:
    """The pairs' texts from the top of ``box``, as far apart as its height allows within reason."""
    spare = box.height - _height(told, box.width, frame, size)
    gap = min(_MOST_GAP, _LEAST_GAP + max(0.0, spare) / frame.grid / max(1, len(told) - 1)) * frame.grid
    marks: list[Text] = []
    y = box.top
    for pair in told:
        for order, (text, role, heading) in enumerate(_lines(pair, box.width, frame, size)):
            cap = frame.cap_height(role)
            y += _LINE_STEP * font_size(cap)
            at = (box.left, y - (_LINE_STEP * font_size(cap) - cap) / 2)
            marks.append(Text(
                name=f"{pair.name}/line{order}", step=pair.step, text=text, at=at, cap_height=cap, role=role,
                weight="regular" if heading else "semibold", fill=look.quiet if heading else look.ink,
                ground=look.ground,
            ))  # fmt: skip
        y += gap
    return tuple(marks)


def _lines(pair: Told, wide: float, frame: Frame, size: Size) -> list[tuple[str, Role, bool]]:
    """(text, role, whether it is the heading) of each line."""
    role = size.strong if pair.strong else size.other
    text = wrap_even(pair.text, frame.cap_height(role), "semibold", wide, _MOST_LINES)
    heading = wrap(pair.heading, frame.cap_height("small"), "regular", wide, 1)
    return [*((line, "small", True) for line in heading), *((line, role, False) for line in text)]


def _height(told: Sequence[Told], wide: float, frame: Frame, size: Size) -> float:
    lines = [line for pair in told for line in _lines(pair, wide, frame, size)]
    high = sum(_LINE_STEP * font_size(frame.cap_height(role)) for _, role, _ in lines)
    return high + _LEAST_GAP * frame.grid * max(0, len(told) - 1)


def _cut(told: Sequence[Told], wide: float, frame: Frame, size: Size) -> bool:
    return any(text.endswith("…") for pair in told for text, _, _ in _lines(pair, wide, frame, size))
