"""How the zone of repair is drawn: a section as large as its words allow, dimension lines above it, words inside it."""

import msgspec
from msgspec.structs import replace

from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import Note
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.text import font_size, width, wrap_even
from studio.graphics.look import Look
from studio.graphics.parts.dimension import dimension_line, extension_lines
from studio.graphics.parts.repair_band import hole, place_of, struck_out
from studio.graphics.parts.tire_section import UNDER_MM, WALL_MM, SectionView, tire_section
from studio.graphics.scene import Point, Scene, Shape, Stroke, Text
from studio.graphics.steps import closed_up
from studio.model.specimen import Zone

_BELOW_RIM_MM = 27.0  # the rim's well
_LINE_ABOVE, _TOP = 4.2, 1.6  # in grid units: the dimension line above the tread, and room above it
_LOWEST = 30.0  # in grid units: a lower drawing cannot hold a section that can be read
_LEFT_OUT = ("/disc", "/axle")
_STEPS = ("the tire cut open", "where nothing is repaired")


class Hole(msgspec.Struct, frozen=True, kw_only=True):
    """A recorded puncture: its zone, its width in mm where that was measured."""

    zone: Zone
    size_mm: float | None


class Zoned(msgspec.Struct, frozen=True, kw_only=True):
    """The tire to draw: mm; ``half_mm`` is half of the crown, 0 where nothing of the tire is repaired."""

    outer_mm: float
    rim_mm: float
    width_mm: float
    half_mm: float
    depths_mm: tuple[float, ...]
    new_mm: float | None
    bar_mm: float
    hole: Hole | None


def composed(
    tire: Zoned, notes: tuple[Note, ...], words: Words, frame: Frame, look: Look
) -> tuple[tuple[Shape | Text, ...], tuple[str, ...]]:  # fmt: skip
    """The marks, and the names of the steps in which they appear."""
    page = plan(frame, look, words, notes, share=0.66)
    inline = frame.shape == "square" or page.drawing.height < _LOWEST * frame.grid
    if inline:  # no room for notes beside or below a section that can be read: the number stands at its line
        page = plan(frame, look, words, ())
    view = _view(tire, page.drawing, frame, inline)
    marks = _tire(tire, view, frame, look)
    anchors: dict[str, Point] = {}
    for note in notes if inline else [note for note, _ in page.placed]:
        if note.name == "crown":
            marks += _crown(view, tire.half_mm, frame, look, note.step)
            marks += _number(note, view, frame, look) if inline else _name(view, tire.half_mm, frame, look, page.discs)
            anchors["crown"] = _reach(view, tire.half_mm, frame, page.discs)
        if note.name == "hole" and tire.hole and (place := place_of(view, tire.hole.zone, tire.half_mm)):
            shapes, anchors["hole"] = hole(view, place, tire.hole.size_mm, frame, look, note.step)
            marks += shapes
    steps = (*_STEPS, *(_step_name(note) for note in sorted(notes, key=lambda note: note.step)))
    joined = page.marks({} if inline else anchors)
    closed = closed_up(Scene(picture="", frame=frame, background=None, marks=(*marks, *joined), steps=steps))
    return closed.marks, closed.steps  # type: ignore[return-value]


def _step_name(note: Note) -> str:
    return {"hole": "the puncture", "crown": "how far the crown reaches"}.get(note.name, note.label)


def _tire(tire: Zoned, view: SectionView, frame: Frame, look: Look) -> list[Shape | Text]:
    """Rim and tire, what is not repaired struck out and said."""
    section = [mark for mark in tire_section(view, look) if not mark.name.endswith(_LEFT_OUT)]
    order = next(i for i, mark in enumerate(section) if mark.name.endswith("/rubber"))
    struck = struck_out(view, tire.half_mm, section[order].outline, frame, look, 1)
    return [*section[: order + 1], *struck, *section[order + 1 :], *_inside(view, tire, frame, look)]


def _view(tire: Zoned, drawing: Box, frame: Frame, inline: bool) -> SectionView:
    """As large as the drawing allows, the room for the dimension line above it kept."""
    above = (_LINE_ABOVE + _TOP) * frame.grid + frame.cap_height("deciding" if inline else "callout")
    low = (tire.outer_mm - tire.rim_mm) / 2 + _BELOW_RIM_MM
    scale = min((drawing.height - above) / low, (drawing.width - 4 * frame.grid) / (tire.width_mm + 12))
    spare = drawing.height - above - low * scale
    axis = drawing.top + above + spare / 2 + tire.outer_mm / 2 * scale
    return SectionView(
        outer_mm=tire.outer_mm, rim_mm=tire.rim_mm, width_mm=tire.width_mm, scale=scale,
        center=(drawing.center[0], axis), depths_mm=tire.depths_mm, new_mm=tire.new_mm, bar_mm=tire.bar_mm,
    )  # fmt: skip


def _line_y(view: SectionView, frame: Frame) -> float:
    return view.at(0, view.outer_mm / 2)[1] - _LINE_ABOVE * frame.grid


def _crown(view: SectionView, half_mm: float, frame: Frame, look: Look, step: int) -> tuple[Shape, ...]:
    """The center line, the crown's limits in the tread, its two halves as dimension lines."""
    grid, middle, y = frame.grid, view.center[0], _line_y(view, frame)
    left, right = (view.at(side * half_mm, 0)[0] for side in (-1, 1))
    edge, under = (view.at(0, high)[1] for high in (view.surface(half_mm), view.floor(half_mm) - UNDER_MM - 4))
    dash = tuple(share * grid for share in (2.4, 0.7, 0.5, 0.7))
    chain = polyline(((middle, y - 1.2 * grid), (middle, view.at(0, view.floor(0) - UNDER_MM)[1] + 1.2 * grid)))
    limits = polyline(((left, edge), (left, under))) + polyline(((right, edge), (right, under)))
    return (
        Shape(name="center line", step=1, outline=chain, stroke=Stroke(look.ink, frame.short / 400, dash, cap="flat")),
        Shape(name="crown/limits", step=1, outline=limits, stroke=Stroke(look.letter, frame.short / 270, cap="flat")),
        extension_lines((((left, edge), (left, y)), ((right, edge), (right, y))), frame, look, "crown", step),
        *dimension_line((left, y), (middle, y), frame, look, "crown/left", step),
        *dimension_line((middle, y), (right, y), frame, look, "crown/right", step),
    )


def _reach(view: SectionView, half_mm: float, frame: Frame, discs: bool) -> Point:
    """Where the crown's note belongs: a leader ends at the limit, a disc stands on the dimension line."""
    y, right = _line_y(view, frame), view.at(half_mm, 0)[0]
    return (view.center[0] - half_mm * view.scale / 2, y) if discs else (right, y + 1.7 * frame.grid)


def _name(view: SectionView, half_mm: float, frame: Frame, look: Look, at_right: bool) -> tuple[Text, ...]:
    """``crown`` above one half of its dimension line, where that is wide enough for it."""
    cap, y = frame.cap_height("callout"), _line_y(view, frame) - 1.3 * frame.grid
    if width("crown", cap, "semibold") > half_mm * view.scale - frame.grid:
        return ()
    x = view.center[0] + (0.5 if at_right else -0.5) * half_mm * view.scale
    return (Text(name="crown/name", step=1, text="crown", at=(x, y), cap_height=cap, weight="semibold", fill=look.ink,
                 ground=look.ground, role="callout", anchor="middle"),)  # fmt: skip


def _number(note: Note, view: SectionView, frame: Frame, look: Look) -> tuple[Text, ...]:
    """The deciding number above the right half of its line, what it is at the left of the center line."""
    cap, small, y = frame.cap_height("deciding"), frame.cap_height("callout"), _line_y(view, frame) - 1.3 * frame.grid
    x, gap = view.center[0], 1.6 * frame.grid
    number = Text(name="crown/line0a", step=note.step, text=note.value, at=(x + gap, y), cap_height=cap, weight="bold",
                  fill=look.ink, ground=look.ground, role="deciding")  # fmt: skip
    unit = replace(number, name="crown/line0b", text=note.unit, weight="semibold", cap_height=small, role="callout",
                   at=(x + gap + width(f"{note.value} ", cap, "bold"), y))  # fmt: skip
    name = replace(unit, name="crown/name", step=1, text="crown", at=(x - gap, y), anchor="end")
    return name, number, unit


def _inside(view: SectionView, tire: Zoned, frame: Frame, look: Look) -> list[Shape | Text]:
    """In the cavity: what is never repaired."""
    words = "never in shoulder or sidewall" if tire.half_mm else "nothing is repaired on it"
    cap = frame.cap_height("callout")
    room = 2 * (view.width_mm / 2 - WALL_MM - 14) * view.scale
    lines = wrap_even(words, cap, "semibold", room, 2)
    step = 1.2 * font_size(cap)
    top, bottom = view.at(0, view.floor(0) - UNDER_MM)[1], view.at(0, view.rim_mm / 2 - 4)[1]
    first = (top + bottom) / 2 - (len(lines) - 1) * step / 2 + cap / 2
    if any(width(line, cap, "semibold") > room or line.endswith("…") for line in lines):
        return []
    return [
        Text(name=f"never/line{order}", step=1, text=line, at=(view.center[0], first + order * step), cap_height=cap,
             weight="semibold", fill=look.ink, ground=look.ground, role="callout", anchor="middle")
        for order, line in enumerate(lines)
    ]  # fmt: skip

