"""Where the parts of a cross-section stand: the section as large as its labels allow, a lens over one groove beside it.

Left of the section the sidewall's height and the rim's diameter, at its right the overall diameter, the width inside.
The lens stands beside the tread that it looks at: at the upper right, in tall frames above.
"""

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import Note
from studio.graphics.layout.text import width
from studio.graphics.parts.dimension import label_size
from studio.graphics.parts.lens import Lens, magnification
from studio.graphics.parts.tire_section import UNDER_MM, WALL_MM, SectionView
from studio.graphics.scene import Point

_LABEL_SHARE = {"wide": 0.145, "square": 0.185, "tall": 0.235}  # of the width, for labels on one side
_BESIDE, _TO_LABEL, _ABOVE, _BELOW = 5.0, 1.4, 1.0, 3.2  # in grid units, round the section
_HUB_MM = 5.0  # right of the wheel's middle the hub ends here
_ROOM_INSIDE = 0.78  # of the section's width: a label in the cavity is no wider


class Groove(msgspec.Struct, frozen=True, kw_only=True):
    """The groove in the lens: depths in mm, and what is said beside it."""

    depth_mm: float
    new_mm: float | None
    bar_mm: float | None
    now: Note
    new: Note | None


class Measured(msgspec.Struct, frozen=True, kw_only=True):
    """What is measured: dimensions in mm to draw from, the notes that give them, the groove for the lens."""

    outer_mm: float
    rim_mm: float
    width_mm: float
    depths_mm: tuple[float, ...]
    new_mm: float | None
    width: Note
    height: Note
    rim: Note
    outer: Note
    groove: Groove | None


class Arranged(msgspec.Struct, frozen=True, kw_only=True):
    """The section's view, its labels with their boxes, where its dimension lines stand, the lens and its notes."""

    view: SectionView
    labels: tuple[tuple[Note, Box], ...]
    left_x: float
    right_x: float
    axis_name: Point
    axis_words: str
    lens: Lens | None = None
    lens_notes: tuple[tuple[Note, Box], ...] = ()


def arrange(data: Measured, body: Box, frame: Frame) -> Arranged:
    """Lay the picture out in ``body``; the lens is left out where there is no room for it and its number."""
    if data.groove is None:
        return _section(data, body, frame, lens_beside=False)
    return _with_lens_above(data, body, frame) if frame.shape == "tall" else _with_lens_beside(data, body, frame)


def _with_lens_above(data: Measured, body: Box, frame: Frame) -> Arranged:
    groove, gap = data.groove, 1.5 * frame.grid
    assert groove is not None
    high = min(0.30 * body.height, 0.44 * body.width)
    section = Box(body.left, body.top + high + gap, body.width, body.height - high - gap)
    its = _section(data, section, frame, lens_beside=False)
    if not _has_room(data.width, its.view, frame):
        return _section(data, body, frame, lens_beside=False)
    spare = its.view.at(0, data.outer_mm / 2)[1] - section.top - _ABOVE * frame.grid
    radius = (high + max(0.0, min(spare, 0.12 * body.width))) / 2
    wide = body.width - 2 * radius - 3 * frame.grid
    at_left = _lowest_x(its.view) < 0
    x = body.left + radius if at_left else body.right - radius
    lens = _lens(groove, its.view, (x, body.top + radius), radius)
    box = Box(body.right - wide if at_left else body.left, body.top, wide, 2 * radius)
    notes = _stacked(groove, box, frame, centered=True)
    return msgspec.structs.replace(its, lens=lens, lens_notes=notes) if notes else its


def _with_lens_beside(data: Measured, body: Box, frame: Frame) -> Arranged:
    """Right of the section: the lens, its number beside it where there is room, else below it."""
    groove, grid = data.groove, frame.grid
    assert groove is not None
    its = _section(data, body, frame, lens_beside=True)
    if not _has_room(data.width, its.view, frame):
        return _section(data, body, frame, lens_beside=False)
    left, room = its.right_x + 3 * grid, body.right - its.right_x - 3 * grid
    if room > 0.8 * body.height:
        number = notes_.least_number_width(groove.now, frame) + 1
        radius = min(0.40 * body.height, 0.33 * room, (room - 3 * grid - number) / 2)
        x = left + 2 * radius + 3 * grid
        notes = _stacked(groove, Box(x, body.top, body.right - x, 2 * radius), frame, centered=True)
    else:
        radius = min(room / 2, 0.24 * body.height)
        top = body.top + 2 * radius + 2.5 * grid
        notes = _stacked(groove, Box(left, top, room, body.bottom - top), frame, centered=False)
    if not notes:
        return _section(data, body, frame, lens_beside=False)
    lens = _lens(groove, its.view, (left + radius, body.top + radius + grid / 2), radius)
    return msgspec.structs.replace(its, lens=lens, lens_notes=notes)


def _section(data: Measured, region: Box, frame: Frame, lens_beside: bool) -> Arranged:
    """The section between its labels, as large as width and height allow; with brief labels where they would meet."""
    its = _with_section(data, region, frame, lens_beside)
    boxes = {note.name: box for note, box in its.labels}
    upper, lower = boxes[data.height.name], boxes[data.rim.name]
    if not upper.meets(lower) and not lower.bottom > its.axis_name[1] - frame.cap_height("small"):
        return its
    whole = (data.height, data.rim, data.outer)
    height, rim, outer = (msgspec.structs.replace(note, label=note.brief, other="") for note in whole)
    brief = msgspec.structs.replace(data, height=height, rim=rim, outer=outer)
    its = _with_section(brief, region, frame, lens_beside)
    lower = next(box for note, box in its.labels if note.name == data.rim.name)
    crowded = lower.bottom > its.axis_name[1] - frame.cap_height("small")
    return msgspec.structs.replace(its, axis_words="") if crowded else its


def _with_section(data: Measured, region: Box, frame: Frame, lens_beside: bool) -> Arranged:
    grid = frame.grid
    callout = frame.cap_height("callout")
    values = [width(note.value, callout, "semibold") + 1 for note in (data.height, data.rim)]
    widest = max(_LABEL_SHARE[frame.shape] * frame.content.width, *values)
    left_wide = max(label_size(note, frame, widest)[0] for note in (data.height, data.rim))
    aside = _aside(data, region, frame) if lens_beside else 0.0
    room = region.width - left_wide - aside - (2 * _BESIDE + _TO_LABEL + _ABOVE) * grid
    scale = min(room / data.width_mm, (region.height - (_ABOVE + _BELOW) * grid) / (data.outer_mm / 2))
    spare = 0.0 if lens_beside else room - data.width_mm * scale
    half = data.width_mm / 2 * scale
    x = region.left + spare / 2 + left_wide + (_TO_LABEL + _BESIDE) * grid + half
    low = region.height - (_ABOVE + _BELOW) * grid - data.outer_mm / 2 * scale
    axis_y = region.bottom - _BELOW * grid - (0.0 if lens_beside else low / 2)
    view = SectionView(outer_mm=data.outer_mm, rim_mm=data.rim_mm, width_mm=data.width_mm, scale=scale,
                       center=(x, axis_y), depths_mm=data.depths_mm, new_mm=data.new_mm,
                       bar_mm=(data.groove.bar_mm if data.groove else None) or 0.0)  # fmt: skip
    left_x, right_x = x - half - _BESIDE * grid, x + half + _BESIDE * grid
    label_left = left_x - _TO_LABEL * grid - left_wide
    named = width("wheel axis", frame.cap_height("small")) < left_wide
    return Arranged(
        view=view, labels=_labels(data, view, (label_left, right_x), widest, frame), left_x=left_x, right_x=right_x,
        axis_name=(label_left, axis_y + frame.cap_height("small") / 2),
        axis_words="wheel axis" if named else "axis",
    )  # fmt: skip


def _aside(data: Measured, region: Box, frame: Frame) -> float:
    """How much of the width the lens and its number take."""
    number = notes_.least_number_width(data.groove.now, frame) if data.groove else 0.0
    return max((0.40 if frame.shape == "wide" else 0.30) * region.width, number + 5 * frame.grid)


def _labels(
    data: Measured, view: SectionView, sides: tuple[float, float], widest: float, frame: Frame
) -> tuple[tuple[Note, Box], ...]:
    """The labels: left of the left line, in the cavity, and left of the right line in the space under the rim."""
    inside = _inside(data.width, view, frame)
    right = sides[1] - _TO_LABEL * frame.grid
    value = width(data.outer.value, frame.cap_height("callout"), "semibold")
    wide, high = label_size(data.outer, frame, max(value, right - view.at(_HUB_MM, 0)[0]) + 1)
    middle = view.at(0, (data.rim_mm / 2 - 28 + 24) / 2)[1]  # between the rim's well and the axle
    return (
        (inside, _in_cavity(inside, view, frame)),
        (data.height, _level(data.height, sides[0], view.at(0, (data.outer_mm + data.rim_mm) / 4)[1], widest, frame)),
        (data.rim, _level(data.rim, sides[0], view.at(0, data.rim_mm / 4)[1], widest, frame)),
        (data.outer, Box(right - wide, middle - high / 2, wide + 1, high)),
    )  # fmt: skip


def _level(note: Note, left: float, middle: float, widest: float, frame: Frame) -> Box:
    _, high = label_size(note, frame, widest)
    return Box(left, middle - high / 2, widest, high)


def _inside(note: Note, view: SectionView, frame: Frame) -> Note:
    """The note as it fits into the cavity: with its label, with brief words, or the value alone."""
    for label in (note.label, note.brief):
        short = msgspec.structs.replace(note, label=label)
        if _holds(view, _in_cavity(short, view, frame), frame):
            return short
    return msgspec.structs.replace(note, label="", other="")


def _has_room(note: Note, view: SectionView, frame: Frame) -> bool:
    """Whether at least the value fits across the cavity."""
    value = width(note.value, frame.cap_height("callout"), "semibold")
    return value + 1 <= _ROOM_INSIDE * view.width_mm * view.scale


def _holds(view: SectionView, box: Box, frame: Frame) -> bool:
    """Whether a box in the middle of the cavity lies clear of crown and sidewalls; towards the beads these draw in."""
    top = view.at(0, view.floor(0) - UNDER_MM)[1] + 0.4 * frame.grid
    high = (view.center[1] - box.bottom) / view.scale - view.rim_mm / 2
    share = min(1.0, max(0.0, (high / view.height_mm - 0.12) / 0.33))
    low, wide = view.rim_width_mm / 2 - 14, view.width_mm / 2 - WALL_MM - 3
    half = (low + (wide - low) * share) * view.scale
    return box.top >= top and high > -12 and box.width / 2 + 0.5 * frame.grid <= half


def _in_cavity(note: Note, view: SectionView, frame: Frame) -> Box:
    """In the middle of the cavity, level with the widest place."""
    wide, high = label_size(note, frame, _ROOM_INSIDE * view.width_mm * view.scale)
    top = view.at(0, view.floor(0) - UNDER_MM)[1] + 0.5 * frame.grid
    return Box(view.center[0] - wide / 2, max(top, view.at(0, view.widest_mm)[1] - high / 2), wide + 1, high)


def _lowest_x(view: SectionView) -> float:
    """The middle of the groove whose mean is lowest, in mm from the wheel's middle."""
    return view.grooves_mm[min(range(len(view.depths)), key=lambda order: view.depths[order])]


def _lens(groove: Groove, view: SectionView, center: Point, radius: float) -> Lens:
    """The lens over the groove whose mean is lowest."""
    full = max(groove.depth_mm, groove.new_mm or 0.0)
    x = _lowest_x(view)
    return Lens(
        center=center, radius=radius, source=view.at(x, view.floor(x) + full / 2), scale=view.scale,
        times=magnification(radius, view.scale, full), depth_mm=groove.depth_mm, new_mm=groove.new_mm,
        bar_mm=groove.bar_mm, groove_mm=view.groove_mm, step=groove.now.step - 1,
    )  # fmt: skip


def _stacked(groove: Groove, box: Box, frame: Frame, centered: bool) -> tuple[tuple[Note, Box], ...]:
    """The number that decides, below it the depth when new if there is room; nothing where even the first has none."""
    gap = 1.5 * frame.grid
    for notes in _choices(groove, box.width, frame):
        heights = [notes_.height(note, frame, box.width) for note in notes]
        cut = any(text.endswith("…") for note in notes for row in notes_.rows(note, frame, box.width)
                  for text, *_ in row.parts)  # fmt: skip
        free = box.height - sum(heights) - gap * (len(notes) - 1)
        if free >= 0 and not cut:
            break
    else:
        return ()
    y = box.top + (free / 2 if centered else 0.0)
    placed = []
    for note, high in zip(notes, heights, strict=True):
        placed.append((note, Box(box.left, y, box.width, high)))
        y += high + gap
    return tuple(placed)


def _choices(groove: Groove, room: float, frame: Frame) -> list[list[Note]]:
    """What may be said beside the lens, from most to least; the label in brief where it would be broken."""
    now = groove.now
    if width(now.label, frame.cap_height("callout")) > room:
        now = msgspec.structs.replace(now, label=now.brief)
    brief = msgspec.structs.replace(now, label=now.brief)
    new = [groove.new] if groove.new else []
    return [[now, *new], [brief, *new], [now], [brief]]
