"""Rows of choices: where each row's sign, name, outlay, bar and words go in a frame, by measuring them.

Wide frames set a row on one line with its words at the right; others set the words below, and the bar on a line of its
own where there is room.
"""

import re
from collections.abc import Sequence

import msgspec
from msgspec.structs import replace

from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP
from studio.graphics.layout.text import font_size, width, wrap_even
from studio.model.finding import Verdict

LEAST = "least"
_BRACKETED = re.compile(r" \([^()]*\)")
_BARS = 0.3  # of the width right of the outlays, where the words stand beside the bars


class Choice(msgspec.Struct, frozen=True, kw_only=True):
    """One choice as it is shown. ``cost`` is None where it is not known; ``words`` is why it is out, or what follows.

    ``out`` is that it is ruled out, ``best`` that it costs least of those that are not.
    """

    kind: str
    name: str
    state: Verdict
    outlay: str
    cost: float | None
    cost_text: str
    reason: str
    follows: str
    out: bool
    best: bool


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """One row placed: its box, the middle of its first line, and what goes where (px)."""

    choice: Choice
    box: Box
    middle: float
    outlay_right: float
    bar: Box
    lines: tuple[str, ...]
    words_at: tuple[float, float]

    @property
    def middle_of_bar(self) -> float:
        """The height of the bar's axis."""
        return self.bar.top + self.bar.height / 2


class Table(msgspec.Struct, frozen=True, kw_only=True):
    """All rows with the heads of the columns: (text, x, right-aligned); ``head`` is their baseline."""

    rows: tuple[Row, ...]
    sizes: "Sizes"
    heads: tuple[tuple[str, float, bool], ...]
    head: float


class Sizes(msgspec.Struct, frozen=True, kw_only=True):
    """Sizes of a row in px: cap heights of its texts, its sign's side, its left inset, how high its lines are."""

    name: float
    small: float
    deciding: float
    sign: float
    inset: float
    step: float
    padding: float
    line: float

    @classmethod
    def of(cls, frame: Frame, tight: bool = False) -> "Sizes":
        """The sizes for a frame; ``tight`` sets names no larger than words."""
        name = frame.cap_height("small" if tight else "callout")
        step = 1.02 if tight else 1.08 if frame.shape == "wide" else LINE_STEP
        return cls(name=name, small=frame.cap_height("small"), deciding=frame.cap_height("deciding"),
                   sign=1.5 * name, inset=1.0 * frame.grid, padding=(0.2 if tight else 0.6) * frame.grid,
                   line=(1.05 if tight else 1.1) * font_size(name),
                   step=step * font_size(frame.cap_height("small")))  # fmt: skip

    def cost(self, choice: Choice) -> float:
        """The cap height of a row's cost."""
        return self.deciding if choice.best else self.small

    def number(self, choice: Choice) -> float:
        """The width of a row's cost with the space before it, and with the word behind it where it is the least."""
        number = width(choice.cost_text, self.cost(choice), "bold" if choice.best else "semibold")
        return number + self.inset + (width(f"  {LEAST}", self.small) if choice.best else 0.0)

    def least_bar(self, choices: Sequence[Choice]) -> float:
        """The least width in which bars still differ and their numbers stand behind them."""
        return max((self.number(choice) for choice in choices if choice.cost is not None), default=0.0) + 5 * self.inset

    def first(self, choice: Choice, words: bool) -> float:
        """The height of a row's line with its cost; the large number's tails need room over words."""
        return (1.5 if words else 1.25) * self.deciding if choice.best else self.line


def table(choices: Sequence[Choice], currency: str, unit: str, box: Box, frame: Frame) -> Table:
    """The rows placed in ``box``, and the heads above them."""
    if frame.shape == "wide":
        return _beside(choices, currency, unit, box, frame, Sizes.of(frame))
    return _below(choices, currency, unit, box, frame)


def _names(choices: Sequence[Choice], frame: Frame, sizes: Sizes) -> float:
    """How wide the column of signs and names is."""
    widest = max(width(choice.name, sizes.name, "semibold") for choice in choices)
    return sizes.inset + sizes.sign + 1.2 * frame.grid + widest + 2 * frame.grid


def _outlays(choices: Sequence[Choice], sizes: Sizes) -> float:
    return max(width(choice.outlay, sizes.name, "semibold") for choice in choices)


def _beside(
    choices: Sequence[Choice], currency: str, unit: str, box: Box, frame: Frame, sizes: Sizes
) -> Table:  # fmt: skip
    heads_high = 1.25 * font_size(sizes.small)
    gap, names = 3 * frame.grid, _names(choices, frame, sizes)
    outlay_head = f"outlay, {currency}"
    outlays = max(_outlays(choices, sizes), width(outlay_head, sizes.small))
    outlay_right = box.left + names + outlays
    bar_left = outlay_right + gap
    words_left = bar_left + max(_BARS * (box.right - bar_left), sizes.least_bar(choices)) + gap
    each = (box.height - heads_high) / len(choices)
    most = 2 if sizes.step + 1.3 * sizes.small < each - 0.5 * frame.grid else 1
    rows = []
    for order, choice in enumerate(choices):
        its = Box(box.left, box.top + heads_high + order * each, box.width, each)
        middle = its.top + each / 2
        lines = _short_lines(_said(choice), sizes, box.right - sizes.inset - words_left, most)
        y = middle - (len(lines) - 1) * sizes.step / 2 + 0.45 * sizes.small
        bar = Box(bar_left, middle - 1.1 * frame.grid, words_left - gap - bar_left, 2.2 * frame.grid)
        rows.append(Row(choice=choice, box=its, middle=middle, outlay_right=outlay_right, bar=bar, lines=lines,
                        words_at=(words_left, y)))  # fmt: skip
    per = _fitted((f"{currency} for the car per 1000 {unit}, until the next purchase",
                   f"{currency} per 1000 {unit} until the next purchase"), box.right - bar_left, sizes)  # fmt: skip
    heads = ((outlay_head, outlay_right, True), (per, bar_left, False))
    return Table(rows=tuple(rows), sizes=sizes, heads=heads, head=box.top + sizes.small)


def _short_lines(said: str, sizes: Sizes, widest: float, most: int) -> tuple[str, ...]:
    """On one line, if need be without the other units; on two where that is not enough."""
    for words, lines in ((said, 1), (_BRACKETED.sub("", said), 1), (said, most), (_BRACKETED.sub("", said), most)):
        found = wrap_even(words, sizes.small, "regular", widest, lines)
        if not found or not found[-1].endswith("…"):
            break
    return found


def _said(choice: Choice) -> str:
    return choice.reason or choice.follows


def _fitted(texts: Sequence[str], widest: float, sizes: Sizes) -> str:
    return next((text for text in texts if width(text, sizes.small) <= widest), texts[-1])


# from roomy to tight: the bar on its own line, names as large as callouts, lines of words, words of rows that are in
_MODES = ((True, False, 2, True), (False, False, 2, True), (True, False, 1, True), (False, False, 1, True),
          (False, True, 1, True), (True, True, 1, False), (False, True, 1, False), (True, True, 0, False),
          (False, True, 0, False))  # fmt: skip


def _below(choices: Sequence[Choice], currency: str, unit: str, box: Box, frame: Frame) -> Table:
    """The words below each row; as much of them, and as large, as there is room for."""
    for own_line, tight, most, those_in in _MODES:
        sizes = Sizes.of(frame, tight)
        room = box.height - (1.0 if tight else 1.3) * font_size(sizes.small)
        lines = [_lines(choice, box, sizes, most, those_in) for choice in choices]
        heights = [_height(choice, its, own_line, frame, sizes) for choice, its in zip(choices, lines, strict=True)]
        names, outlays = _names(choices, frame, sizes), _outlays(choices, sizes)
        beside = box.width - names - outlays - sizes.inset - 2 * frame.grid
        if sum(heights) <= room and (own_line or beside >= sizes.least_bar(choices)):
            break
    else:  # captions, a long title and dear tires at once: without bars
        choices = [replace(choice, cost=None) for choice in choices]
    gap = min(3 * frame.grid, max(0.0, (room - sum(heights)) / max(1, len(choices) - 1)))
    rows, y = [], box.bottom - room
    for choice, its, high in zip(choices, lines, heights, strict=True):
        rows.append(_row(choice, its, Box(box.left, y, box.width, high), names, outlays, own_line, frame, sizes))
        y += high + gap
    right, outlay = box.right - sizes.inset, f"outlay, {currency}"
    room = box.width - 2 * sizes.inset - width(outlay, sizes.small) - 2 * frame.grid
    per = _fitted((f"{currency} per 1000 {unit} until the next purchase", f"per 1000 {unit} until the next purchase",
                   f"per 1000 {unit} to the next purchase", f"per 1000 {unit} to the next"), room, sizes)  # fmt: skip
    heads = ((per, box.left + sizes.inset, False), (outlay, right, True))
    return Table(rows=tuple(rows), sizes=sizes, heads=heads, head=box.top + sizes.small)


def _lines(choice: Choice, box: Box, sizes: Sizes, most: int, those_in: bool) -> tuple[str, ...]:
    said = _said(choice) if those_in or choice.out else ""
    widest = box.width - 2 * sizes.inset - _indent(sizes)
    if not said or not most:
        return ()
    # before a number is cut the other units go, and the first word, which says what the sign does
    for shorter in (said, _BRACKETED.sub("", said), said.partition(": ")[2]):
        lines = wrap_even(shorter, sizes.small, "regular", widest, most)
        if lines and not lines[-1].endswith("…"):
            return lines
    return wrap_even(said, sizes.small, "regular", widest, most)


def _indent(sizes: Sizes) -> float:
    return sizes.sign + 1.2 * sizes.inset


def _height(choice: Choice, lines: tuple[str, ...], own_line: bool, frame: Frame, sizes: Sizes) -> float:
    second = max(sizes.first(choice, bool(lines)), 3 * frame.grid) if own_line and choice.cost is not None else 0.0
    first = sizes.line if own_line else sizes.first(choice, bool(lines))
    edge = 0.8 * frame.grid if choice.best else 0.0  # of its plate
    return first + second + len(lines) * sizes.step + sizes.padding + edge


def _row(
    choice: Choice, lines: tuple[str, ...], its: Box, names: float, outlays: float, own_line: bool, frame: Frame,
    sizes: Sizes,
) -> Row:  # fmt: skip
    first = sizes.line if own_line else sizes.first(choice, bool(lines))
    top = its.top + sizes.padding / 2 + (0.4 * frame.grid if choice.best else 0.0)
    middle = top + first / 2 - 0.1 * sizes.name  # tails hang below
    right, left = its.right - sizes.inset, its.left + sizes.inset + _indent(sizes)
    if own_line and choice.cost is not None:
        second = max(sizes.first(choice, bool(lines)), 3 * frame.grid)
        words = top + first + second
        bar = Box(left, words - second / 2 - 1.1 * frame.grid, right - left, 2.2 * frame.grid)
    else:
        start = its.left + names
        bar = Box(start, middle - 1.1 * frame.grid, right - outlays - 2 * frame.grid - start, 2.2 * frame.grid)
        words = top + first
    base = words + (sizes.step - 1.3 * sizes.small) / 2 + sizes.small
    return Row(choice=choice, box=its, middle=middle, outlay_right=right, bar=bar, lines=lines, words_at=(left, base))
