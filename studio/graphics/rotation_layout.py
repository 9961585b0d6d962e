"""Where the parts of the rotation picture stand: the car, its places named, the number, the reasons."""

from collections.abc import Sequence
from typing import Protocol

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import LINE_STEP, Note
from studio.graphics.layout.text import font_size, width, wrap
from studio.graphics.look import Look
from studio.graphics.parts.car_plan import CarPlan, PlacedCar, place_car
from studio.graphics.rotation_paths import Moves
from studio.graphics.scene import Point, Role, Text, Weight
from studio.model.places import Place

_BLOCK_LINES = 3


class Tag(msgspec.Struct, frozen=True, kw_only=True):
    """A place's name and where its tire goes."""

    place: Place
    title: str
    to: str
    step: int


class Block(msgspec.Struct, frozen=True, kw_only=True):
    """A reason: what it rules out, and why."""

    name: str
    title: str
    text: str
    step: int


class Content(Protocol):
    """What is to be arranged."""

    @property
    def car(self) -> CarPlan: ...
    @property
    def moves(self) -> Moves: ...
    @property
    def tags(self) -> tuple[Tag, ...]: ...
    @property
    def notes(self) -> tuple[Note, ...]: ...
    @property
    def blocks(self) -> tuple[Block, ...]: ...


class Layout(msgspec.Struct, frozen=True, kw_only=True):
    """The arranged picture; ``full`` tags stand on one line each, others are broken into words."""

    car: PlacedCar
    area: Box
    full: bool
    spare_free_left: bool
    columns: tuple[tuple[tuple[Note | Block, Box], ...], ...]


def arrange(content: Content, body: Box, frame: Frame) -> Layout:
    """Arrange the picture in ``body``."""
    items: list[Note | Block] = [*content.notes, *content.blocks]
    area, columns = _beside(items, body, frame) if frame.shape != "tall" else _below(content, body, frame)
    space = Box(area.left, area.top + frame.grid, area.width, area.height - 2 * frame.grid)
    tags = max(_tag_width(tag, frame, full=True) for tag in content.tags)
    car = place_car(content.car, space)
    full = (area.width - car.body.width) / 2 - 3.2 * frame.grid >= tags
    if not full:
        short = max(_tag_width(tag, frame, full=False) for tag in content.tags)
        under = 1.4 * font_size(frame.cap_height("small")) if _moves_spare(content.moves) else 0.0
        wide = max(1.0, area.width - 2 * short - 6.4 * frame.grid)
        high = space.height - under
        car = place_car(content.car, Box(area.center[0] - wide / 2, space.top, wide, high))
    free_left = ("spare", "rear_left") not in content.moves
    return Layout(car=car, area=area, full=full, spare_free_left=free_left, columns=columns)


def _moves_spare(moves: Moves) -> bool:
    return any("spare" in move for move in moves)


Columns = tuple[tuple[tuple[Note | Block, Box], ...], ...]


def _beside(items: Sequence[Note | Block], body: Box, frame: Frame) -> tuple[Box, Columns]:
    """Wide and square: one column at the right."""
    if not items:
        return body, ()
    gap = (4 if frame.shape == "wide" else 2) * frame.grid
    wide = (0.465 if frame.shape == "wide" else 0.46) * body.width
    column = Box(body.right - wide, body.top + frame.grid, wide, body.height - 2 * frame.grid)
    return Box(body.left, body.top, body.width - wide - gap, body.height), (_pile(items, column, frame),)


def _below(content: Content, body: Box, frame: Frame) -> tuple[Box, Columns]:
    """Tall: a band under the car, the number at its left, the reasons at its right."""
    gap = 2.5 * frame.grid
    wide = (body.width - gap) / 2
    sides: list[Sequence[Note | Block]] = [content.notes, content.blocks]
    if not content.notes:
        half = (len(content.blocks) + 1) // 2
        sides = [content.blocks[:half], content.blocks[half:]]
    most = 0.36 * body.height
    columns = [
        _pile(items, Box(left, 0.0, wide, most), frame)
        for items, left in zip(sides, (body.left, body.left + wide + gap), strict=True)
    ]
    used = max((box.bottom for column in columns for _, box in column), default=0.0)
    top = body.bottom - used
    moved = tuple(
        tuple((item, Box(box.left, box.top + top, box.width, box.height)) for item, box in column) for column in columns
    )
    return Box(body.left, body.top, body.width, top - gap - body.top), moved


def _pile(items: Sequence[Note | Block], column: Box, frame: Frame) -> tuple[tuple[Note | Block, Box], ...]:
    """The items from the top of the column, as many as fit; what they are held against goes before a reason does."""
    gap = 1.4 * frame.grid
    kept = list(items)
    while kept and sum(_height(i, frame, column.width) for i in kept) + gap * (len(kept) - 1) > column.height:
        spare = [item for item in kept if isinstance(item, Note) and not item.deciding]
        kept.remove(spare[-1] if spare else kept[-1])
    placed, y = [], column.top
    for item in kept:
        high = _height(item, frame, column.width)
        placed.append((item, Box(column.left, y, column.width, high)))
        y += high + gap
    return tuple(placed)


def _height(item: Note | Block, frame: Frame, wide: float) -> float:
    if isinstance(item, Note):
        return notes_.height(item, frame, wide)
    return len(_block_lines(item, frame, wide)) * LINE_STEP * font_size(frame.cap_height("small"))


def _block_lines(block: Block, frame: Frame, wide: float) -> list[tuple[str, str]]:
    """(part, text) of each line."""
    cap = frame.cap_height("small")
    title = wrap(block.title, cap, "semibold", wide, _BLOCK_LINES)
    text = wrap(block.text, cap, "regular", wide, _BLOCK_LINES)
    return [*(("title", line) for line in title), *(("text", line) for line in text)]


def column_marks(layout: Layout, frame: Frame, look: Look) -> tuple[Text, ...]:
    """The number and the reasons."""
    marks: list[Text] = []
    for item, box in (pair for column in layout.columns for pair in column):
        marks += notes_.set_note(item, box, frame, look) if isinstance(item, Note) else _block(item, box, frame, look)
    return tuple(marks)


def _block(block: Block, box: Box, frame: Frame, look: Look) -> list[Text]:
    cap = frame.cap_height("small")
    high = LINE_STEP * font_size(cap)
    marks = []
    for order, (part, line) in enumerate(_block_lines(block, frame, box.width)):
        weight: Weight = "semibold" if part == "title" else "regular"
        at = (box.left, box.top + order * high + cap + (high - font_size(cap)) / 2)
        marks.append(
            Text(name=f"{block.name}/line{order}", step=block.step, text=line, at=at, cap_height=cap, weight=weight,
                 fill=look.ink if part == "title" else look.quiet, ground=look.ground, role="small")
        )  # fmt: skip
    return marks


class _Line(msgspec.Struct, frozen=True):
    text: str
    role: Role
    weight: Weight
    part: str


def _tag_lines(tag: Tag, *, full: bool) -> tuple[_Line, ...]:
    if tag.place == "spare":
        return (_Line(f"{tag.title} {tag.to}", "small", "semibold", "name"),)
    if full:
        return (_Line(tag.title, "callout", "semibold", "name"), _Line(tag.to, "small", "regular", "to"))
    return tuple(_Line(word, "small", "semibold", f"name{order}") for order, word in enumerate(tag.title.split()))


def _tag_width(tag: Tag, frame: Frame, *, full: bool) -> float:
    if tag.place == "spare":
        return 0.0
    return max(width(line.text, frame.cap_height(line.role), line.weight) for line in _tag_lines(tag, full=full))


def tag_marks(tag: Tag, layout: Layout, frame: Frame, look: Look) -> tuple[Text, ...]:
    """A place's name outside its wheel: above the middle of a front wheel, below that of a rear one."""
    tire = layout.car.tire(tag.place)
    if tire is None or (tag.place == "spare" and not tag.step and not layout.full):
        return ()
    lines = _tag_lines(tag, full=layout.full)
    heights = [LINE_STEP * font_size(frame.cap_height(line.role)) for line in lines]
    at, anchor = _tag_place(tag, tire, sum(heights), layout, frame)
    marks, y = [], at[1]
    for line, high in zip(lines, heights, strict=True):
        cap = frame.cap_height(line.role)
        marks.append(
            Text(name=f"{tag.place}/{line.part}", step=tag.step if line.part == "to" else 0, text=line.text,
                 at=(at[0], y + cap + (high - font_size(cap)) / 2), cap_height=cap, weight=line.weight,
                 fill=look.quiet if line.part == "to" else look.ink, ground=look.ground, role=line.role,
                 anchor=anchor)  # type: ignore[arg-type]
        )  # fmt: skip
        y += high
    return tuple(marks)


def _tag_place(tag: Tag, tire: Box, high: float, layout: Layout, frame: Frame) -> tuple[Point, str]:
    gap = 2.2 * frame.grid
    if tag.place == "spare":
        top = min(tire.center[1] - high / 2, layout.area.bottom - high)
        if not layout.full:
            return (tire.center[0], tire.bottom + 0.4 * frame.grid), "middle"
        left = layout.spare_free_left
        return (tire.left - gap if left else tire.right + gap, top), "end" if left else "start"
    top = tire.center[1] - high if tag.place.startswith("front") else tire.center[1]
    top = min(max(top, layout.area.top), layout.area.bottom - high)
    left = tag.place.endswith("left")
    x = layout.car.all.left - 0.6 * frame.grid if left else layout.car.all.right + 0.6 * frame.grid
    return (x, top), "end" if left else "start"
