"""Where the coins stand: side by side on one floor with their words above them, in narrow frames one below the other.

One scale holds for coins and groove; where it would be too small, the coin farthest from the reading is left out. A
round window enlarges the foot of the nearest one.
"""

from collections.abc import Sequence

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import Note
from studio.graphics.parts.coin import Landmark
from studio.graphics.parts.text_block import Block, Line, block
from studio.graphics.scene import Point

# in grid units
_BASE, _GAP, _OVER = 2.2, 4.0, 1.6
_LEAST_SCALE = 0.85  # a millimeter is at least this long
_SHRINK, _TRIES = 0.97, 30
_LEAST_WINDOW = 7.0
_ASIDE = 0.275  # of the width, for the enlarged groove and its number beside the coins


class Shown(msgspec.Struct, frozen=True, kw_only=True):
    """A coin: what is said of it, its diameter and what depth it shows in mm; ``far`` is how far off the reading is."""

    name: str
    title: str
    landmark: Landmark
    value: str
    other: str
    said: str
    standing: str
    diameter_mm: float
    low_mm: float
    high_mm: float
    far: float
    step: int
    nearest: bool


class Placed(msgspec.Struct, frozen=True, kw_only=True):
    """A coin's foot on the floor, its words from ``at``, where the line of its depth ends (px).

    ``beside`` says that the words stand at the right of that end, not above it.
    """

    coin: Shown
    foot: Point
    block: Block
    at: Point
    line_end: float
    beside: bool = False


class Strip(msgspec.Struct, frozen=True, kw_only=True):
    """A rib across the frame up to ``right``, by the height of the groove's floor behind it."""

    name: str
    floor: float
    right: float


class Enlarged(msgspec.Struct, frozen=True, kw_only=True):
    """The foot of the coin nearest to the reading, enlarged: a round window, how many times larger, the floor in it."""

    center: Point
    radius: float
    times: int
    floor: float


class Arranged(msgspec.Struct, frozen=True, kw_only=True):
    """The drawing laid out; ``scale`` in px per mm, ``base`` the rubber under the floor in px.

    The groove's depth is measured in the window, without one at ``depth_x``.
    """

    scale: float
    base: float
    strips: tuple[Strip, ...]
    coins: tuple[Placed, ...]
    enlarged: Enlarged | None
    depth_x: float
    notes: tuple[tuple[Note, Box], ...]


_Main = tuple[float, list[Strip], list[Placed]]


def arrange(coins: Sequence[Shown], depth_mm: float, notes: Sequence[Note], body: Box, frame: Frame) -> Arranged:
    """Lay the coins out in ``body``, as many as can be read."""
    notes = [note.shortened() for note in notes]
    if frame.shape == "square":
        return _alone(next(coin for coin in coins if coin.nearest), depth_mm, notes, body, frame)
    shown = list(coins)
    main, aside, kept = (_beside if frame.shape == "wide" else _below)(notes, body, frame)
    while True:
        in_a_row = (frame.shape == "wide") == (len(shown) > 1)
        scale, strips, placed = (_in_a_row if in_a_row else _stacked)(shown, depth_mm, main, frame)
        if len(shown) == 1 or scale >= _LEAST_SCALE * frame.grid:
            break
        shown.remove(max((coin for coin in shown if not coin.nearest), key=lambda coin: coin.far))
    nearest = next(coin for coin in shown if coin.nearest)
    window = _enlarged(aside, max(depth_mm, nearest.high_mm), scale, frame)
    depth_x = min(strips[-1].right, body.right) - 8 * frame.grid
    if window is None:
        kept = _moved(kept, (aside.left, aside.top if frame.shape == "wide" else kept[0][1].top))
    return Arranged(scale=scale, base=_BASE * frame.grid, strips=tuple(strips), coins=tuple(placed), enlarged=window,
                    depth_x=depth_x, notes=kept)  # fmt: skip


def _alone(coin: Shown, depth_mm: float, notes: Sequence[Note], body: Box, frame: Frame) -> Arranged:
    """Square: the nearest coin as large as may be; its words and the reading at its right, above the rib."""
    grid = frame.grid
    scale = min((body.height - (_BASE + 0.8) * grid) / coin.diameter_mm, 0.38 * body.width / coin.diameter_mm)
    floor, x = body.bottom - _BASE * grid, body.left + coin.diameter_mm * scale + 4 * grid
    words, some, top, high, scale = _fitted(coin, depth_mm, notes, Box(x, body.top, body.right - x, floor - body.top),
                                            scale, frame)  # fmt: skip
    wide = coin.diameter_mm * scale
    kept = _down(some, Box(x, top - high, body.right - x, high), frame)
    at = (x, max(body.top, min(top - high - 2.0 * grid - words.height, body.top + 2 * grid)))
    placed = Placed(coin=coin, foot=(body.left + wide / 2, floor), block=words, at=at, line_end=x - 1.8 * grid,
                    beside=True)  # fmt: skip
    return Arranged(scale=scale, base=_BASE * grid, strips=(Strip(name="1", floor=floor, right=frame.width + 2.0),),
                    coins=(placed,), enlarged=None, depth_x=x + 3 * grid, notes=kept)  # fmt: skip


def _fitted(
    coin: Shown, depth_mm: float, notes: Sequence[Note], room: Box, scale: float, frame: Frame
) -> tuple[Block, Sequence[Note], float, float, float]:
    """Words, notes, the notes' foot and height, and the scale at which they stand clear of each other in ``room``.

    The doubt goes before the custom's standing; then all is drawn smaller, last without what the sentence says as well.
    """
    terse = msgspec.structs.replace(coin, standing="", other="")
    bare = msgspec.structs.replace(terse, said="")
    for _ in range(_TRIES):
        top = room.bottom - (max(depth_mm, coin.low_mm) + 1.0) * scale
        for its, some in ((coin, notes), (coin, notes[:1]), (terse, notes[:1])):
            words = block(_lines(its, frame), room.width)
            high = sum(notes_.height(note, frame, room.width) + 0.8 * frame.grid for note in some)
            if room.top + words.height <= top - high:
                return words, some, top, high, scale
        scale *= _SHRINK
    return block(_lines(bare, frame), room.width), some, top, high, scale


def _beside(notes: Sequence[Note], body: Box, frame: Frame) -> tuple[Box, Box, tuple[tuple[Note, Box], ...]]:
    """Main part, square for the window, notes: the window at the upper right, its notes below it."""
    gap = 3 * frame.grid
    wide = max(_ASIDE * body.width, notes_.least_number_width(notes[0], frame) + 1)
    left = body.right - wide
    high = sum(notes_.height(note, frame, wide) for note in notes) + 0.8 * frame.grid * (len(notes) - 1)
    side = min(wide, body.height - high - 1.5 * frame.grid)
    placed = _down(notes, Box(left, body.top + side + 1.5 * frame.grid, wide, high), frame)
    return Box(body.left, body.top, left - gap - body.left, body.height), Box(left, body.top, side, side), placed


def _below(notes: Sequence[Note], body: Box, frame: Frame) -> tuple[Box, Box, tuple[tuple[Note, Box], ...]]:
    """The window at the lower left, its notes at its right."""
    gap = 2.5 * frame.grid
    wide = 0.56 * body.width
    left = body.right - wide
    high = sum(notes_.height(note, frame, wide) for note in notes) + 0.8 * frame.grid * (len(notes) - 1)
    side = min(left - gap - body.left, max(high, 0.24 * body.height))
    top = body.bottom - max(side, high)
    left = body.left + side + gap
    placed = _down(notes, Box(left, top + (max(side, high) - high) / 2, body.right - left, high), frame)
    return Box(body.left, body.top, body.width, top - gap / 2 - body.top), Box(body.left, top, side, side), placed


def _down(notes: Sequence[Note], box: Box, frame: Frame) -> tuple[tuple[Note, Box], ...]:
    placed, y = [], box.top
    for note in notes:
        high = notes_.height(note, frame, box.width)
        placed.append((note, Box(box.left, y, box.width, high)))
        y += high + 0.8 * frame.grid
    return tuple(placed)


def _moved(placed: tuple[tuple[Note, Box], ...], to: Point) -> tuple[tuple[Note, Box], ...]:
    """The notes with their first one's corner at ``to``."""
    dx, dy = to[0] - placed[0][1].left, to[1] - placed[0][1].top
    return tuple((note, Box(box.left + dx, box.top + dy, box.width, box.height)) for note, box in placed)


def _enlarged(box: Box, highest_mm: float, scale: float, frame: Frame) -> Enlarged | None:
    """The whole number of times at which the depths fill the window well; None below two, or in a small one."""
    radius = box.width / 2
    times = int(1.05 * radius / (max(highest_mm, 1.0) * scale))
    if times < 2 or radius < _LEAST_WINDOW * frame.grid:
        return None
    return Enlarged(center=box.center, radius=radius, times=times,
                    floor=box.center[1] + min(0.55 * radius, highest_mm * scale * times / 2))  # fmt: skip


def _lines(coin: Shown, frame: Frame) -> tuple[Line, ...]:
    callout, small = frame.cap_height("callout"), frame.cap_height("small")
    return (
        Line(part="coin", text=coin.title, cap=small, role="small", weight="semibold"),
        Line(part="value", text=coin.value, cap=callout, role="callout", weight="semibold"),
        Line(part="other", text=coin.other, cap=small, role="small", color="quiet", follows=True),
        Line(part="said", text=coin.said, cap=small, role="small", color="quiet", most=3),
        Line(part="standing", text=coin.standing, cap=small, role="small", color="quiet", follows=True),
    )


def _in_a_row(coins: Sequence[Shown], depth_mm: float, body: Box, frame: Frame) -> _Main:
    """The coins side by side, words above each."""
    grid, count = frame.grid, len(coins)
    across, largest = sum(coin.diameter_mm for coin in coins), max(coin.diameter_mm for coin in coins)
    scale = min((body.width - count * _GAP * grid) / across, (body.height - (_OVER + _BASE) * grid) / largest)
    for _ in range(_TRIES):
        extra = (body.width - across * scale) / count
        blocks = [block(_lines(coin, frame), coin.diameter_mm * scale + extra - 3 * grid) for coin in coins]
        tallest = max(its.height for its in blocks)
        if tallest + (_OVER + _BASE) * grid + largest * scale <= body.height:
            break
        scale *= _SHRINK
    floor = body.bottom - _BASE * grid
    x, placed = body.left, []
    for coin, its in zip(coins, blocks, strict=True):
        wide = coin.diameter_mm * scale
        end = x + max(wide + 1.4 * grid, its.width + 1.2 * grid)
        at = (x, floor - largest * scale - _OVER * grid - tallest)
        placed.append(Placed(coin=coin, foot=(x + wide / 2, floor), block=its, at=at, line_end=end))
        x += wide + extra
    return scale, [Strip(name="1", floor=floor, right=_right(body, frame))], placed


def _right(main: Box, frame: Frame) -> float:
    """Where a rib ends: at the frame's edge, in a wide one before the window."""
    return main.right if frame.shape == "wide" else frame.width + 2.0


def _stacked(coins: Sequence[Shown], depth_mm: float, body: Box, frame: Frame) -> _Main:
    """A rib for each coin, its words at the right."""
    grid = frame.grid
    each, largest = body.height / len(coins), max(coin.diameter_mm for coin in coins)
    share = 0.6 if frame.shape == "wide" else 0.46
    scale = min(each - (_BASE + 1.5) * grid, share * body.width) / largest
    text_x = body.left + largest * scale + 3.6 * grid
    strips, placed = [], []
    for order, coin in enumerate(coins):
        floor = body.top + (order + 1) * each - _BASE * grid
        its = block(_lines(coin, frame), body.right - text_x)
        lowest = floor - max(depth_mm, coin.low_mm) * scale - 1.4 * grid - its.height
        wanted = min(lowest, floor - 0.5 * largest * scale - its.height / 2)
        at = (text_x, max(body.top + order * each + 0.8 * grid, wanted))
        foot = (body.left + largest * scale / 2, floor)
        strips.append(Strip(name=f"{order + 1}", floor=floor, right=_right(body, frame)))
        placed.append(Placed(coin=coin, foot=foot, block=its, at=at, line_end=text_x - 1.8 * grid, beside=True))
    return scale, strips, placed
