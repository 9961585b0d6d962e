"""Where the parts of the rotation picture stand: the car, its places named, the number, the reasons."""

from collections.abc import Sequence
from typing import Literal, Protocol

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import LINE_STEP, Note
from studio.graphics.layout.text import font_size, width, wrap_even
from studio.graphics.look import Look
from studio.graphics.parts.car_plan import CarPlan, PlacedCar, place_car
from studio.graphics.rotation_paths import Moves
from studio.graphics.scene import Point, Role, Text, Weight
from studio.model.places import Place

_BLOCK_LINES = 3
_LEAST_BODY = 33.0  # in units of the grid
_WIDE_BODY = 1.4  # width over height above which a tall frame's body is arranged as a wide one's


Naming = Literal["full", "line", "words"]
"""A place's name with where its tire goes; the name alone on one line; the name broken into words."""
_NAMINGS: tuple[Naming, ...] = ("full", "line", "words")


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
    """The arranged picture; ``naming`` says how the places are named."""

    car: PlacedCar
    area: Box
    naming: Naming
    spare_free_left: bool
    spare_below: bool
    columns: tuple[tuple[tuple[Note | Block, Box], ...], ...]


def arrange(content: Content, body: Box, frame: Frame) -> Layout:
    """Arrange the picture in ``body``."""
    items: list[Note | Block] = [*content.notes, *content.blocks]
    beside = frame.shape != "tall" or body.width > _WIDE_BODY * body.height
    area, columns = _beside(items, body, frame) if beside else _below(content, body, frame)
    space = Box(area.left, area.top + frame.grid, area.width, area.height - 2 * frame.grid)
    car = place_car(content.car, space)
    naming = _naming(content.tags, car, area, frame)
    below = _moves_spare(content.moves) and (naming == "words" or _spare_too_near(car, naming, frame))
    if naming == "words" or below:
        widest = max(_tag_size(tag, frame, naming)[0] for tag in content.tags)
        under = 1.4 * font_size(frame.cap_height("small")) if below else 0.0
        wide = max(1.0, area.width - 2 * widest - 6.4 * frame.grid)
        car = place_car(content.car, Box(area.center[0] - wide / 2, space.top, wide, space.height - under))
    free_left = ("spare", "rear_left") not in content.moves
    return Layout(car=car, area=area, naming=naming, spare_free_left=free_left, spare_below=below, columns=columns)


def _naming(tags: Sequence[Tag], car: PlacedCar, area: Box, frame: Frame) -> Naming:
    """The fullest way to name the places for which there is room beside the car and above a front wheel's middle."""
    front = car.tire("front_left")
    above = (front.center[1] if front else area.bottom) - area.top
    for naming in _NAMINGS[:2]:
        sizes = [_tag_size(tag, frame, naming) for tag in tags if tag.place != "spare"]
        wide, high = (max(size[i] for size in sizes) for i in (0, 1))
        if wide <= (area.width - car.body.width) / 2 - 3.2 * frame.grid and high <= above + frame.grid:
            return naming
    return "words"


def _spare_too_near(car: PlacedCar, naming: Naming, frame: Frame) -> bool:
    """Whether the spare's name beside it would come against that of a rear wheel."""
    spare, rear = car.tire("spare"), car.tire("rear_left")
    if spare is None or rear is None:
        return False
    high = _tag_size(Tag(place="rear_left", title="Rear left", to="to", step=0), frame, naming)[1]
    return spare.center[1] - LINE_STEP * font_size(frame.cap_height("small")) / 2 < rear.center[1] + high


def _moves_spare(moves: Moves) -> bool:
    return any("spare" in move for move in moves)


Columns = tuple[tuple[tuple[Note | Block, Box], ...], ...]


def _beside(items: Sequence[Note | Block], body: Box, frame: Frame) -> tuple[Box, Columns]:
    """Wide and square: one column at the right; none where the car would get too small."""
    if not items or body.height < _LEAST_BODY * frame.grid:
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
    title = wrap_even(block.title, cap, "semibold", wide, _BLOCK_LINES)
    text = wrap_even(block.text, cap, "regular", wide, _BLOCK_LINES)
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


def _tag_lines(tag: Tag, naming: Naming) -> tuple[_Line, ...]:
    if tag.place == "spare":
        return (_Line(f"{tag.title} {tag.to}", "small", "semibold", "name"),)
    if naming == "full":
        return (_Line(tag.title, "callout", "semibold", "name"), _Line(tag.to, "small", "regular", "to"))
    words = tag.title.split() if naming == "words" else [tag.title]
    return tuple(_Line(word, "small", "semibold", f"name{order}") for order, word in enumerate(words))


def _tag_size(tag: Tag, frame: Frame, naming: Naming) -> tuple[float, float]:
    """Width and height in px; the spare's name stands behind the car and claims no width beside it."""
    lines = _tag_lines(tag, naming)
    wide = max(width(line.text, frame.cap_height(line.role), line.weight) for line in lines)
    high = sum(LINE_STEP * font_size(frame.cap_height(line.role)) for line in lines)
    return (0.0 if tag.place == "spare" else wide), high


def tag_marks(tag: Tag, layout: Layout, frame: Frame, look: Look) -> tuple[Text, ...]:
    """A place's name outside its wheel: above the middle of a front wheel, below that of a rear one."""
    tire = layout.car.tire(tag.place)
    if tire is None or (tag.place == "spare" and not _spare_named(tag, layout, frame)):
        return ()
    lines = _tag_lines(tag, layout.naming)
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


def _spare_named(tag: Tag, layout: Layout, frame: Frame) -> bool:
    """A spare that stays is named where there is room beside it."""
    return bool(tag.step) or (layout.naming != "words" and not _spare_too_near(layout.car, layout.naming, frame))


def _tag_place(tag: Tag, tire: Box, high: float, layout: Layout, frame: Frame) -> tuple[Point, str]:
    gap = 2.2 * frame.grid
    if tag.place == "spare":
        top = min(tire.center[1] - high / 2, layout.area.bottom - high)
        if layout.spare_below:
            return (tire.center[0], tire.bottom + 0.4 * frame.grid), "middle"
        left = layout.spare_free_left
        return (tire.left - gap if left else tire.right + gap, top), "end" if left else "start"
    top = tire.center[1] - high if tag.place.startswith("front") else tire.center[1]
    top = min(max(top, layout.area.top), layout.area.bottom - high)
    left = tag.place.endswith("left")
    x = layout.car.all.left - 0.6 * frame.grid if left else layout.car.all.right + 0.6 * frame.grid
    return (x, top), "end" if left else "start"
