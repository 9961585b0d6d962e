"""Where the parts of an answer stand: the slip with the question, the number against its limit, what is told."""

import msgspec

from studio.graphics.draw import polyline, rectangle
from studio.graphics.face import current_face
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import Note
from studio.graphics.layout.notes import height as note_height
from studio.graphics.layout.text import font_size, missing_glyphs, width, wrap
from studio.graphics.look import Look
from studio.graphics.parts.door_pillar import plate_shadow
from studio.graphics.scene import Outline, Role, Shape, Stroke, Text
from studio.model.finding import Verdict

HEADING = "A viewer asks"
_LINE = 1.32
_MOST_LINES = {"wide": 7, "square": 6, "tall": 9}
_ROLES: tuple[Role, ...] = ("heading", "callout", "small")


class Slip(msgspec.Struct, frozen=True, kw_only=True):
    """The question in the viewer's own words; ``brief`` is what it asks, for where there is no room for more."""

    text: str
    brief: str
    step: int


class Gauge(msgspec.Struct, frozen=True, kw_only=True):
    """A number against its limit, both in one unit; ``doubt`` is the half width of what is not known."""

    value: float
    limit: float
    doubt: float
    verdict: Verdict | None
    limit_text: str
    label: str


class Placed(msgspec.Struct, frozen=True, kw_only=True):
    """The boxes in px."""

    slip: Box
    gauge: Box
    number: Box
    told: Box


def boxes(body: Box, frame: Frame, number: Note | None, gauge: bool) -> Placed:
    """Wide: slip and gauge at the left, number and what is told at the right. Tall: all of it from top to bottom.

    Square: the slip above, number and what is told side by side below it; there is no room for the gauge.
    """
    if frame.shape == "wide":
        return _wide(body, frame, number, gauge)
    return _tall(body, frame, number, gauge) if frame.shape == "tall" else _square(body, frame, number)


def _wide(body: Box, frame: Frame, number: Note | None, gauge: bool) -> Placed:
    gap, across = 2.5 * frame.grid, 0.56 * body.width
    low = _gauge_height(frame) if gauge else 0.0
    left = body.left + across + 2 * gap
    wide = body.right - left
    high = note_height(number, frame, wide) if number else 0.0
    under = high + gap if number else 0.0
    return Placed(
        slip=Box(body.left, body.top, across, body.height - low - (gap if low else 0.0)),
        gauge=Box(body.left, body.bottom - low, across, low),
        number=Box(left, body.top, wide, high),
        told=Box(left, body.top + under, wide, body.height - under),
    )  # fmt: skip


def _tall(body: Box, frame: Frame, number: Note | None, gauge: bool) -> Placed:
    gap, low = 2.5 * frame.grid, _gauge_height(frame) if gauge else 0.0
    high = body.height * (0.40 if number else 0.52)
    y = body.top + high + gap
    bar = Box(body.left, y, body.width, low)
    y += low + gap if gauge else 0.0
    its = Box(body.left, y, body.width, note_height(number, frame, body.width) if number else 0.0)
    y += its.height + gap if number else 0.0
    return Placed(
        slip=Box(body.left, body.top, body.width, high), gauge=bar, number=its,
        told=Box(body.left, y, body.width, max(0.0, body.bottom - y)),
    )  # fmt: skip


def _square(body: Box, frame: Frame, number: Note | None) -> Placed:
    gap, half = 2 * frame.grid, (body.width - 2 * frame.grid) / 2
    needed = note_height(number, frame, half) if number else 0.30 * body.height
    low = min(max(needed, 0.36 * body.height), 0.56 * body.height)
    y = body.bottom - low
    left = body.left + (half + gap if number else 0.0)
    return Placed(
        slip=Box(body.left, body.top, body.width, body.height - low - gap), gauge=Box(body.left, y, 0.0, 0.0),
        number=Box(body.left, y, half, low), told=Box(left, y, body.right - left, low),
    )  # fmt: skip


def slip_marks(its: Slip, box: Box, frame: Frame, look: Look) -> tuple[Shape | Text, ...]:
    """A slip of paper as high as its words need, its corner pointing down to where it came from."""
    pad, grid = (1.6 if frame.shape == "square" else 2.2) * frame.grid, frame.grid
    role, lines = _set(its, box, frame, pad)
    cap, small = frame.cap_height(role), frame.cap_height("small")
    high = 2 * pad + 1.6 * font_size(small) + _LINE * font_size(cap) * len(lines)
    sheet_high = min(high, box.height - 1.6 * grid)
    paper = _paper(Box(box.left, box.top, box.width, sheet_high), grid, look)
    marks: list[Shape | Text] = [
        *plate_shadow(Box(box.left, box.top, box.width, sheet_high), grid, frame, look),
        Shape(name="slip/paper", step=its.step, outline=paper, fill=look.plate,
              stroke=Stroke(color=look.steel, width=frame.short / 540)),
    ]  # fmt: skip
    x, y = box.left + pad, box.top + pad + small
    marks.append(Text(name="slip/heading", step=its.step, text=HEADING, at=(x, y), cap_height=small, fill=look.quiet,
                      ground=look.plate, role="small"))  # fmt: skip
    y += 0.7 * font_size(small)
    for order, line in enumerate(lines):
        y += _LINE * font_size(cap)
        marks.append(Text(name=f"slip/line{order}", step=its.step, text=line, at=(x, y), cap_height=cap,
                          fill=look.ink, ground=look.plate, role=role, weight="semibold"))  # fmt: skip
    return tuple(marks)


def _set(its: Slip, box: Box, frame: Frame, pad: float) -> tuple[Role, tuple[str, ...]]:
    """The words in the largest letters in which the slip holds all of them, else what is asked in short."""
    for text in dict.fromkeys((its.text, its.brief)):
        plain = drawable(text)
        for role in _ROLES:
            cap = frame.cap_height(role)
            room = box.height - 2 * pad - 1.6 * font_size(frame.cap_height("small")) - 1.6 * frame.grid
            most = max(1, min(_MOST_LINES[frame.shape], int(room / (_LINE * font_size(cap)))))
            lines = wrap(plain, cap, "semibold", box.width - 2 * pad, most)
            if not lines[-1].endswith("…") or plain.endswith("…"):
                return role, lines
    return role, lines


def drawable(text: str) -> str:
    """The text without signs that no face has, such as emoji."""
    gone = set(missing_glyphs(text, current_face()))
    return " ".join("".join(" " if char in gone else char for char in text).split()) or "…"


def _paper(box: Box, grid: float, look: Look) -> Outline:
    """A sheet with a small corner that hangs down at the left."""
    tail = 1.6 * grid
    sheet = rectangle(box.left, box.top, box.width, box.height, look.rounded(grid))
    at = box.left + 3 * grid
    corner = polyline(
        ((at, box.bottom - 0.5), (at, box.bottom + tail), (at + 1.6 * tail, box.bottom - 0.5)), closed=True
    )
    return (*sheet, *corner)


def _gauge_height(frame: Frame) -> float:
    small = font_size(frame.cap_height("small"))
    return 2.6 * frame.grid + 2.9 * small


def gauge_marks(its: Gauge, box: Box, frame: Frame, look: Look, step: int) -> tuple[Shape | Text, ...]:
    """From nothing to the number a bar, across it the limit; what is not known a bracket."""
    top, high = box.top, 2.2 * frame.grid
    most = 1.3 * max(its.value + its.doubt, its.limit)
    scale = box.width / most
    line = frame.short / 270
    fill = getattr(look.verdicts, its.verdict, None) if its.verdict not in (None, "inspect", "unknown") else None
    marks: list[Shape | Text] = [
        Shape(name="gauge/track", step=step, outline=rectangle(box.left, top, box.width, high), fill=look.plate,
              stroke=Stroke(color=look.steel, width=line / 2)),
        Shape(name="gauge/value", step=step, outline=rectangle(box.left, top, max(line, its.value * scale), high),
              fill=fill or look.steel, stroke=Stroke(color=look.ink, width=line)),
    ]  # fmt: skip
    if its.doubt:
        left, right = max(0.0, its.value - its.doubt) * scale, (its.value + its.doubt) * scale
        middle = top + high / 2
        across = (box.left + left, box.left + right)
        ends = [polyline(((x, middle - 0.5 * high), (x, middle + 0.5 * high))) for x in across]
        bar = polyline(((box.left + left, middle), (box.left + right, middle)))
        marks.append(Shape(name="gauge/doubt", step=step, outline=(*bar, *ends[0], *ends[1]),
                           stroke=Stroke(color=look.ink, width=line)))  # fmt: skip
    x = box.left + its.limit * scale
    over = 0.8 * frame.grid
    across_it = polyline(((x, top - over), (x, top + high + over)))
    marks.append(Shape(name="gauge/limit", step=step, outline=across_it, stroke=Stroke(look.measure, 1.5 * line)))
    return (*marks, *_gauge_words(its, x, box, top + high, frame, look, step))


def _gauge_words(
    its: Gauge, x: float, box: Box, below: float, frame: Frame, look: Look, step: int
) -> tuple[Text, ...]:
    cap = frame.cap_height("small")
    y = below + 1.1 * frame.grid + 1.1 * font_size(cap)
    named = wrap(its.label, cap, "regular", box.width, 1)
    said = [("scale/limit", its.limit_text, look.ink, "semibold")]
    said += [("gauge/label", line, look.quiet, "regular") for line in named]
    made = []
    for order, (name, text, fill, weight) in enumerate(said):
        half = width(text, cap, weight) / 2  # type: ignore[arg-type]
        left = min(max(x - half, box.left), box.right - 2 * half)
        made.append(Text(name=name, step=step, text=text, at=(left, y + order * 1.2 * font_size(cap)), cap_height=cap,
                         fill=fill, ground=look.ground, role="small", weight=weight))  # type: ignore[arg-type]  # fmt: skip
    return tuple(made)
