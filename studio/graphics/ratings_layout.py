"""Where the ratings' picture puts its parts: the sidewall with its service description, two measured scales beside it.

Tall frames have the sidewall above the scales. The marks and the scales that they stand for are joined by numbered
discs.
"""

import math
from collections.abc import Sequence

import msgspec

from studio.graphics.draw import polar, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import Note, badge, badge_radius
from studio.graphics.look import Look
from studio.graphics.parts.lettering import Lettering, bracket, bracket_mark, on_rubber, raised
from studio.graphics.parts.measure_bar import MeasureBar, bar_height, bar_marks
from studio.graphics.parts.scale_bar import Entry, key, key_height
from studio.graphics.parts.tire_face import Face, sidewall_ground, sidewall_of, tire_face
from studio.graphics.scene import ArcText, Shape, Text
from studio.model.finding import Verdict

_TIRE_SHARE = {"wide": 0.34, "square": 0.30}  # of the body's width
_LEAST_TIRE = 13.0  # grid units of height for the sidewall above the scales
_BETWEEN, _MOST_BETWEEN, _WITHIN = 2.4, 7.0, 0.9  # grid units between the scales, and between the rows of one
_LEAST_LETTERS = 34.0  # S over this is the least cap height of the service description
_BRACKET = 1.38  # in cap heights above the baseline


class Scale(msgspec.Struct, frozen=True, kw_only=True):
    """One mark with its scale: what it stands for, the bar, the number that stands below it, what its lines mean."""

    header: Note
    bar: MeasureBar
    below: Note | None
    key: tuple[Entry, ...]
    verdict: Verdict | None
    decides: bool


class Fullness(msgspec.Struct, frozen=True, kw_only=True):
    """How much there is room for: the other unit system, numbers along the bars, whole labels, entries in a key.

    ``aside`` keeps the number below the scale that does not decide; the one that does keeps its number and first entry.
    """

    others: bool = False
    numbered: bool = False
    brief: bool = False
    entries: int = 3
    aside: bool = True


_CHOICES = (
    Fullness(others=True, numbered=True), Fullness(numbered=True), Fullness(), Fullness(numbered=True, brief=True),
    Fullness(brief=True), Fullness(brief=True, entries=1), Fullness(brief=True, entries=1, aside=False),
    Fullness(brief=True, entries=0, aside=False),
)  # fmt: skip


class Arranged(msgspec.Struct, frozen=True, kw_only=True):
    """The window of the sidewall, the room of each scale, and how full they are."""

    window: Box
    boxes: tuple[Box, ...]
    full: Fullness


def arrange(scales: Sequence[Scale], body: Box, frame: Frame) -> Arranged:
    """Lay the picture out in ``body``; the scales are told as ``Arranged.full`` says."""
    beside, gap = frame.shape != "tall", 3 * frame.grid
    left = body.left + _TIRE_SHARE[frame.shape] * body.width + gap if beside else body.left
    wide = body.right - left
    most = body.height if beside else body.height - _LEAST_TIRE * frame.grid - gap
    full = next((f for f in _CHOICES if _high(scales, wide, frame, f) <= most), _CHOICES[-1])
    spare = most - _high(scales, wide, frame, full)
    between = min(_MOST_BETWEEN, _BETWEEN + max(0.0, spare) / frame.grid) * frame.grid
    total = _high(scales, wide, frame, full) + between - _BETWEEN * frame.grid
    y = body.top if beside else body.bottom - total
    boxes = []
    for scale in scales:
        high = _scale_high(told(scale, full), wide, frame, full)
        boxes.append(Box(left, y, wide, high))
        y += high + between
    bottom = body.bottom if beside else boxes[0].top - gap
    right = left - gap if beside else float(frame.width)
    return Arranged(window=Box(0, body.top, right, bottom - body.top), boxes=tuple(boxes), full=full)


def told(scale: Scale, full: Fullness) -> Scale:
    """The scale with as many words as there is room for, and no line that they leave unexplained."""
    header, entries = scale.header, scale.key[: max(full.entries, 1 if scale.decides else 0)]
    below = scale.below if full.aside or scale.decides else None
    if not full.others:
        header = msgspec.structs.replace(header, other="")
        below = msgspec.structs.replace(below, other="") if below else None
    if full.brief:
        header = msgspec.structs.replace(header, label=header.brief) if header.deciding else header
        below = msgspec.structs.replace(below, label=below.brief) if below else None
        entries = tuple((_in_brief(note), line) for note, line in entries)
    left_out = {note.name for note, _ in scale.key} - {note.name for note, _ in entries}
    limits = tuple(limit for limit in scale.bar.limits if f"{scale.bar.name}_{limit.name}" not in left_out)
    bar = msgspec.structs.replace(scale.bar, limits=limits)
    return msgspec.structs.replace(scale, header=header, below=below, key=entries, bar=bar)


def _in_brief(note: Note) -> Note:
    return msgspec.structs.replace(note, label=note.brief, on_one_line=True)


def _high(scales: Sequence[Scale], wide: float, frame: Frame, full: Fullness) -> float:
    heights = [_scale_high(told(scale, full), wide, frame, full) for scale in scales]
    return sum(heights) + _BETWEEN * frame.grid * (len(heights) - 1)


def _scale_high(scale: Scale, wide: float, frame: Frame, full: Fullness) -> float:
    header = notes_.height(scale.header, frame, wide - _indent(frame))
    under = _under_high(scale, wide, frame)
    gap = _WITHIN * frame.grid
    return header + gap + bar_height(frame, full.numbered) + (under + gap if under else 0.0)


def _under_high(scale: Scale, wide: float, frame: Frame) -> float:
    left, right = _columns(scale, wide)
    number = notes_.height(scale.below, frame, left) if scale.below else 0.0
    return max(number, key_height(scale.key, frame, right) if scale.key else 0.0)


def _columns(scale: Scale, wide: float) -> tuple[float, float]:
    """The widths under the bar: for the number, and for what the lines mean."""
    if scale.below is None or not scale.key:
        return wide, wide
    return 0.46 * wide, 0.52 * wide


def _indent(frame: Frame) -> float:
    return 2 * badge_radius(frame) + frame.grid


def scale_marks(
    scales: Sequence[Scale], its: Arranged, frame: Frame, look: Look
) -> tuple[Shape | Text, ...]:  # fmt: skip
    """Both scales with their headers, numbers and keys."""
    marks: list[Shape | Text] = []
    for order, (scale, box) in enumerate(zip(scales, its.boxes, strict=True), start=1):
        marks += _one(told(scale, its.full), order, box, its.full, frame, look)
    return tuple(marks)


def _one(scale: Scale, order: int, box: Box, full: Fullness, frame: Frame, look: Look) -> list[Shape | Text]:
    indent, gap = _indent(frame), _WITHIN * frame.grid
    header = Box(box.left + indent, box.top, box.width - indent, notes_.height(scale.header, frame, box.width - indent))
    middle = box.top + notes_.first_middle(scale.header, frame, header.width)
    lettered = msgspec.structs.replace(scale.header, name=scale.bar.name, step=scale.bar.step)
    disc = (box.left + badge_radius(frame), middle)
    marks: list[Shape | Text] = list(badge(lettered, order, disc, "key", frame, look))
    marks += notes_.set_note(scale.header, header, frame, look)
    bar = Box(box.left, header.bottom + gap, box.width, bar_height(frame, full.numbered))
    fill = (look.fill_of(scale.verdict) if scale.decides else None) or look.steel
    marks += bar_marks(scale.bar, bar, frame, look, fill, full.numbered)
    left, right = _columns(scale, box.width)
    top = bar.bottom + gap
    if scale.below:
        marks += notes_.set_note(scale.below, Box(box.left, top, left, box.bottom - top), frame, look)
    return marks + list(key(scale.key, Box(box.right - right, top, right, box.bottom - top), frame, look))


def sidewall_marks(
    service: str, split: int, diameters_mm: tuple[float, float], its: Arranged, frame: Frame, look: Look
) -> tuple[Shape | Text | ArcText, ...]:
    """The upper part of the tire in its window: the service description, brackets over index and symbol, discs.

    ``split`` is where the symbol begins in ``service``; its length where there is none.
    """
    face, letters = _lettered(service, split, diameters_mm, its.window, frame)
    clip = rectangle(its.window.left, its.window.top, its.window.width, its.window.height)
    marks: list[Shape | Text | ArcText] = [*tire_face(face, look, clip=clip)]
    marks += raised(letters, look, sidewall_ground(look), "service")
    held = [("load", 0, split), ("speed", split, len(service))]
    for order, (name, start, end) in enumerate(held, start=1):
        if end > start:
            marks += _held(name, order, letters.span(start, end), letters, frame, look)
    return tuple(marks)


def _held(
    name: str, order: int, span: tuple[float, float], letters: Lettering, frame: Frame, look: Look
) -> tuple[Shape | Text, ...]:
    """A bracket over the letters and the disc that joins them to their scale."""
    radius = letters.radius + letters.cap_height * _BRACKET
    outline = bracket(letters.center, radius, span, letters.cap_height * 0.14)
    at = polar(letters.center, radius + badge_radius(frame) + 0.5 * frame.grid, sum(span) / 2)
    note = Note(name=name, value="", label="", step=order)
    return (
        bracket_mark(outline, on_rubber(look), frame.short / 270, f"{name}/bracket", order),
        *badge(note, order, at, "badge", frame, look),
    )


def _half_width(letters: Lettering, split: int, frame: Frame) -> float:
    """How far lettering, brackets and discs reach to either side of the tire's middle, in px."""
    radius = letters.radius + letters.cap_height * _BRACKET
    ends = radius * math.sin(math.radians(min(90.0, letters.spread / 2)))
    parts = [(0, split), (split, len(letters.text))]
    middles = [abs(sum(letters.span(*part)) / 2) for part in parts if part[1] > part[0]]
    disc = radius + badge_radius(frame) + 0.5 * frame.grid
    discs = disc * math.sin(math.radians(min(90.0, max(middles)))) + badge_radius(frame)
    return max(ends, discs) + 0.5 * frame.grid


def _lettered(
    service: str, split: int, diameters_mm: tuple[float, float], window: Box, frame: Frame
) -> tuple[Face, Lettering]:  # fmt: skip
    """The tire cropped so that lettering, brackets and discs stand within the window; its crown shows where it can."""
    disc = 2 * badge_radius(frame) + 1.2 * frame.grid
    safe = min(window.right, frame.titles.right) - max(window.left, frame.titles.left)
    middle = (min(window.right, frame.titles.right) + max(window.left, frame.titles.left)) / 2
    cap = min(frame.short / 8, 0.34 * window.height)
    radius = max(0.70 * window.width, 1.15 * window.height)
    while True:
        face = Face(outer_mm=diameters_mm[0], rim_mm=diameters_mm[1], scale=2 * radius / diameters_mm[0], center=(0, 0))
        side = sidewall_of(face)
        cap = min(cap, 0.60 * side.band)
        base = side.lower_rib + (side.band - cap) * 0.34
        letters = Lettering(text=service, center=(0, 0), radius=base, angle=0.0, cap_height=cap, spacing=0.08)
        top = base + cap * _BRACKET + disc  # the discs' upper edge, as a radius
        feet = base * math.cos(math.radians(min(90.0, letters.spread / 2))) - 0.35 * cap  # of the outermost letters
        fits = _half_width(letters, split, frame) <= safe / 2 and top - feet <= window.height
        if fits or cap <= frame.short / _LEAST_LETTERS:
            break
        cap *= 0.94
    shown = max(face.radius + frame.grid, top)
    if shown - feet > window.height:
        shown = top
    slack = window.height - (shown - feet)
    y = window.top + shown + (0.0 if slack > 0 else slack / 2)
    placed = msgspec.structs.replace(face, center=(middle, y))
    return placed, msgspec.structs.replace(letters, center=(middle, y))
