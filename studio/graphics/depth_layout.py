"""Where the parts of the depth picture stand: the car between two columns of readings, the key, the spare."""

from collections.abc import Sequence
from typing import Protocol

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.parts.car_plan import CarPlan, PlacedCar, place_car
from studio.graphics.parts.depth_bars import Bars
from studio.graphics.parts.scale_bar import Entry, key_height
from studio.graphics.parts.wheel_card import FULLNESS, Card, Fullness, card_size
from studio.graphics.scene import Point
from studio.model.places import CORNERS, Place

# in units of the grid
_CHART_WIDTHS = (8.5, 20.0)
_LEAST_CHART_HEIGHT, _TALLEST_CHART = 8.0, 22.0
_LEAST_CAR = 8.0


class Shown(Protocol):
    """A tire of the picture."""

    @property
    def place(self) -> Place: ...
    @property
    def card(self) -> Card: ...
    @property
    def bars(self) -> Bars | None: ...


class Content(Protocol):
    """What is to be arranged."""

    @property
    def car(self) -> CarPlan: ...
    @property
    def wheels(self) -> Sequence[Shown]: ...
    @property
    def key(self) -> tuple[Entry, ...]: ...


class Spot(msgspec.Struct, frozen=True):
    """Where one tire's words (top left corner) and its chart stand."""

    card: Point
    chart: Box


class Layout(msgspec.Struct, frozen=True, kw_only=True):
    """The arranged picture; ``scale`` is px per mm of depth, one for all charts."""

    car: PlacedCar
    spots: dict[Place, Spot]
    keys: tuple[tuple[tuple[Entry, ...], Box], ...]
    scale: float
    fullness: Fullness


class _Regions(msgspec.Struct, frozen=True, kw_only=True):
    area: Box
    keys: tuple[tuple[tuple[Entry, ...], Box], ...]
    spare: Box | None


class _Columns(msgspec.Struct, frozen=True, kw_only=True):
    """How the columns beside the car are built: words beside the charts, or stacked above them."""

    car: PlacedCar
    text: tuple[float, float]
    column: float
    chart: tuple[float, float]
    stacked: bool
    fullness: Fullness
    fits: bool


def arrange(content: Content, body: Box, frame: Frame) -> Layout:
    """Arrange the picture in ``body``: the fullest cards with which everything has its place."""
    body = Box(body.left, body.top + frame.grid, body.width, body.height - 1.5 * frame.grid)
    regions, columns = _best(content, body, frame)
    spots = {w.place: _corner(w, columns, regions.area, frame) for w in content.wheels if w.place in CORNERS}
    for wheel in content.wheels:
        if wheel.place == "spare" and regions.spare is not None:
            spots[wheel.place] = _spare(wheel, regions.spare, content, columns, frame)
    highest = max((wheel.bars.highest for wheel in content.wheels if wheel.bars), default=10.0)
    least = min(spot.chart.height for spot in spots.values())
    return Layout(
        car=columns.car, spots=spots, keys=regions.keys, scale=least / highest, fullness=columns.fullness
    )


def _best(content: Content, body: Box, frame: Frame) -> tuple[_Regions, _Columns]:
    """Of the fullest cards that fit, words beside or above the charts, whichever leaves the larger car.

    Where nothing fits, the spare is left out, then the key too.
    """
    spare = any(wheel.place == "spare" for wheel in content.wheels)
    for has_spare in (True, False) if spare else (False,):
        for fullness in FULLNESS:
            both = [_try(content, body, frame, fullness, stacked, has_spare) for stacked in (False, True)]
            fitting = [pair for pair in both if pair[1].fits]
            if fitting:
                return max(fitting, key=lambda pair: round(pair[1].car.body.height / frame.grid))
    bare = _Regions(area=body, keys=(), spare=None)
    return bare, _columns(content, body, frame, "least", stacked=False)


def _try(
    content: Content, body: Box, frame: Frame, fullness: Fullness, stacked: bool, has_spare: bool
) -> tuple[_Regions, _Columns]:
    beside = frame.shape == "wide"
    regions = (_beside if beside else _below)(content, body, frame, has_spare, fullness)
    return regions, _columns(content, regions.area, frame, fullness, stacked)


def _beside(content: Content, body: Box, frame: Frame, has_spare: bool, fullness: Fullness) -> _Regions:
    """Wide: the key in a column at the right, the spare under it."""
    gap, wide = 4 * frame.grid, max(30 * frame.grid, 0.23 * body.width)
    area = Box(body.left, body.top, body.width - wide - gap, body.height)
    most = body.height - (_spare_height(content, frame, fullness) + gap if has_spare else 0.0)
    entries = _fitting(content.key, frame, wide, most)
    key = Box(body.right - wide, body.top, wide, key_height(entries, frame, wide))
    spare = Box(key.left, key.bottom + gap, wide, body.bottom - key.bottom - gap) if has_spare else None
    return _Regions(area=area, keys=((entries, key),), spare=spare)


def _below(content: Content, body: Box, frame: Frame, has_spare: bool, fullness: Fullness) -> _Regions:
    """Tall and square: the key in a band below the car, the spare beside it."""
    gap = 2 * frame.grid
    wide, most = (body.width - gap) / 2, 0.26 * body.height
    right = body.left + wide + gap
    half = len(content.key) if has_spare else (len(content.key) + 1) // 2
    parts = ((content.key[:half], body.left), (content.key[half:], right))
    groups = [(_fitting(entries, frame, wide, most), left) for entries, left in parts]
    high = max(key_height(entries, frame, wide) for entries, _ in groups)
    high = max(high, _spare_height(content, frame, fullness)) if has_spare else high
    top = body.bottom - high
    keys = tuple((entries, Box(left, top, wide, high)) for entries, left in groups)
    spare = Box(right, top, wide, high) if has_spare else None
    return _Regions(area=Box(body.left, body.top, body.width, top - 1.5 * gap - body.top), keys=keys, spare=spare)


def _fitting(entries: tuple[Entry, ...], frame: Frame, wide: float, most: float) -> tuple[Entry, ...]:
    """The entries in full; on one line each where that is too high; then without the last: no limit goes unsaid."""
    if key_height(entries, frame, wide) <= most:
        return entries
    short = tuple((note.shortened(), line) for note, line in entries)
    return short if key_height(short, frame, wide) <= most or len(short) < 3 else short[:-1]


def _spare_height(content: Content, frame: Frame, fullness: Fullness) -> float:
    return max(card_size(wheel.card, frame, fullness)[1] for wheel in content.wheels if wheel.place == "spare")


def _columns(content: Content, area: Box, frame: Frame, fullness: Fullness, stacked: bool) -> _Columns:
    """The columns' widths: the car as large as the height allows, then the charts, or a smaller car."""
    gap, row = 1.6 * frame.grid, area.height / 2
    sizes = [card_size(wheel.card, frame, fullness) for wheel in content.wheels if wheel.place in CORNERS]
    text = (max(size[0] for size in sizes), max(size[1] for size in sizes))
    least, most = _CHART_WIDTHS[0] * frame.grid, _CHART_WIDTHS[1] * frame.grid
    words = 0.0 if stacked else text[0] + gap
    spare_room = (area.width - place_car(content.car, area).all.width) / 2 - 2 * gap - words
    chart = min(most, max(least, spare_room))
    column = max(text[0], chart) if stacked else words + chart
    chart = column if stacked else chart
    middle = Box(area.left + column + 2 * gap, area.top, max(1.0, area.width - 2 * column - 4 * gap), area.height)
    high = min(_TALLEST_CHART * frame.grid, row - 0.5 * gap - (text[1] + gap if stacked else 0.0))
    car = place_car(content.car, middle)
    fits = high >= _LEAST_CHART_HEIGHT * frame.grid and row - 0.5 * gap >= text[1]
    return _Columns(
        car=car, text=text, column=column, chart=(chart, high), stacked=stacked, fullness=fullness,
        fits=fits and car.body.width >= _LEAST_CAR * frame.grid,
    )  # fmt: skip


def _corner(wheel: Shown, columns: _Columns, area: Box, frame: Frame) -> Spot:
    """Words outside, chart towards the car and as high as its wheel where there is room.

    Stacked, the words stand above the front charts and below the rear ones.
    """
    gap, (wide, high) = 1.6 * frame.grid, columns.chart
    left, front = wheel.place.endswith("left"), wheel.place.startswith("front")
    text_high = card_size(wheel.card, frame, columns.fullness)[1]
    block = high + columns.text[1] + gap if columns.stacked else max(high, columns.text[1])
    middle, tire = area.top + area.height / 2, columns.car.tire(wheel.place)
    above = block - high / 2 if front else high / 2
    wanted = (tire.center[1] if tire else middle) - (above if columns.stacked else block / 2)
    if front:
        top = min(max(wanted, area.top), middle - block - 0.5 * gap)
    else:
        top = max(min(wanted, area.bottom - block), middle + 0.5 * gap)
    start = columns.car.all.left - 2 * gap - columns.column if left else columns.car.all.right + 2 * gap
    inner = start + columns.column - wide if left else start
    if columns.stacked and not front:
        return Spot((start, top + high + gap), Box(inner, top, wide, high))
    chart = Box(inner, top + block - high, wide, high)
    if columns.stacked:
        return Spot((start, chart.top - gap - text_high), chart)
    return Spot((start if left else start + wide + gap, top), chart)


def _spare(wheel: Shown, box: Box, content: Content, columns: _Columns, frame: Frame) -> Spot:
    """The spare's words with its chart beside them, its bars as wide as the others'."""
    wide, high = card_size(wheel.card, frame, columns.fullness)
    gap = 1.6 * frame.grid
    chart_high = min(columns.chart[1], box.height)
    counts = [len(w.bars.grooves) for w in content.wheels if w.bars and w.place != "spare"]
    mine = len(wheel.bars.grooves) if wheel.bars else 1
    chart_wide = min(columns.chart[0] * mine / max(counts, default=mine), box.width - wide - 2 * gap)
    bottom = box.top + max(high, chart_high)
    return Spot((box.left, box.top), Box(box.left + wide + 2 * gap, bottom - chart_high, chart_wide, chart_high))
