"""Wear bars: where they sit, this tire's groove cut at its bar, and beside it a groove worn level with its bar."""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP, Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.text import font_size, wrap_even
from studio.graphics.look import Look
from studio.graphics.parts.bar_patch import BarPatch, bar_patch
from studio.graphics.parts.depth_axis import axis_width, depth_axis, last_tick
from studio.graphics.parts.groove_section import TreadPiece, tread_piece
from studio.graphics.parts.scale_bar import doubt_mark, limit_line
from studio.graphics.scene import Point, Scene, Shape, Stroke, Text
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.quantity import Quantity, System, depth
from studio.model.source import Source

STEPS = ("where the bars sit", "this tire's groove", "worn level with its bar", "the reading")
_TITLES = ("a mark points to the bars", "this tire", "worn to the bar")
_BRIEF_TITLES = ("at the mark", "this tire", "worn out")  # for a frame without room for two lines
_PATCH = 0.34  # of the width
_GAP, _BASE, _TOP = 3.0, 2.2, 2.4  # in grid units
_GROOVE_SHARE = 0.42


class WearBarsData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown; depths in mm. The bars stand from ``bar_mm`` up to ``bar_most_mm`` high."""

    words: Words
    sources: tuple[Source, ...]
    notes: tuple[Note, ...]
    depth_mm: float
    doubt_mm: float
    bar_mm: float
    bar_most_mm: float
    units: System
    findings: tuple[str, ...]


class Arranged(msgspec.Struct, frozen=True, kw_only=True):
    """The drawing laid out: the tread from above, two grooves on one floor, the scale of depths before them."""

    patch: BarPatch
    pieces: tuple[TreadPiece, TreadPiece]
    axis_x: float
    highest_mm: float
    titles: tuple[Box, ...]

    def height(self, mm: float) -> float:
        """Where a depth lies, in px of the frame."""
        return self.pieces[0].height(mm)


@picture("wear_bars")
class WearBars:
    """The bars from above and in section, on the tire with the lowest reading."""

    id = "wear_bars"
    name = "Wear bars and what flush looks like"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> WearBarsData:
        """The lowest reading against its bars. Raises CannotShow."""
        finding = findings.get("gauges.bars")
        if finding is None:
            raise CannotShow("no tire has a depth reading yet")
        return WearBarsData(
            words=Words(sentence=request.title or finding.sentence, caution=finding.caution),
            sources=finding.sources, notes=_notes(finding, request.units),
            depth_mm=_of(finding, "depth").to("mm").value,
            doubt_mm=depth(finding.uncertainty or 0.0, finding.unit or "mm").to("mm").value,
            bar_mm=_of(finding, "shown_at").to("mm").value, bar_most_mm=_of(finding, "shown_to").to("mm").value,
            units=request.units, findings=(finding.id,),
        )  # fmt: skip

    def compose(self, data: WearBarsData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        notes = data.notes if frame.shape == "wide" else tuple(_narrower(note) for note in data.notes)
        page = plan(frame, look, words, notes, discs=True, share=0.66)
        its = arrange(data, page.drawing, frame)
        marks: list[Shape | Text] = [*bar_patch(its.patch, look, "tread", frame.short / 400), _cut(its, frame, look)]
        first = its.pieces[0]
        marks += depth_axis(its.axis_x, first.floor, first.scale, its.highest_mm, data.units, frame, look, 1)
        for piece, name, step in zip(its.pieces, ("this tire", "flush"), (1, 2), strict=True):
            marks += tread_piece(piece, look, name, step)
        marks += _levels(data, its, frame, look)
        for words_, box, step in zip(_titles(frame), its.titles, (0, 1, 2), strict=True):
            marks += _title(words_, box, frame, look, step)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground,
            marks=(*marks, *page.marks(_anchors(data, its), in_order=True)), steps=STEPS, title=words.sentence,
            alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _of(finding: Finding, name: FigureName) -> Quantity:
    quantity = finding.figure(name)
    if quantity is None:
        raise CannotShow(f"the finding {finding.id} has no {name.replace('_', ' ')}")
    return quantity


def _notes(finding: Finding, units: System) -> tuple[Note, ...]:
    """In the order in which they are spoken of."""
    most = note_of("bar_most", _of(finding, "shown_to"), "bars may be as high as this", units, 1, priority=2)
    bar = note_of("bar", _of(finding, "shown_at"), "bar in the groove", units, 1)
    flush = Note(name="level", value="Flush", label="bar and tread in one: worn out", step=2, priority=1)
    reading = deciding_note("reading", _of(finding, "depth"), "lowest reading", units, 3)
    return (
        msgspec.structs.replace(reading, brief="lowest"), msgspec.structs.replace(bar, brief="wear bar"),
        msgspec.structs.replace(flush, brief="worn out"), msgspec.structs.replace(most, brief="highest bar"),
    )  # fmt: skip


def _narrower(note: Note) -> Note:
    """The deciding note without the other unit, which the sentence gives: one line less."""
    return msgspec.structs.replace(note, other="") if note.deciding else note


def arrange(data: WearBarsData, body: Box, frame: Frame) -> Arranged:
    """The tread from above at the left, then the axis, then the two grooves on one floor."""
    grid, gap = frame.grid, _GAP * frame.grid
    highest = max(data.depth_mm + data.doubt_mm, data.bar_most_mm)
    axis = axis_width(highest, data.units, frame)
    patch = _PATCH * body.width
    wide = (body.width - patch - axis - 3 * gap) / 2
    widths = (patch, wide, wide)
    title = max(len(_lines(words, across, frame)) for words, across in zip(_titles(frame), widths, strict=True))
    floor = body.bottom - title * _line(frame) - 0.8 * grid - _BASE * grid
    scale = (floor - body.top - frame.cap_height("small") - grid) / highest
    axis_x = body.left + patch + gap + axis
    lefts = (axis_x + gap, axis_x + 2 * gap + wide)
    pieces = tuple(
        TreadPiece(left=left, right=left + wide, floor=floor, scale=scale, depth_mm=mm, grooves=(left + wide / 2,),
                   groove=_GROOVE_SHARE * wide, base_mm=_BASE * grid / scale, bar_mm=data.bar_mm)
        for left, mm in zip(lefts, (data.depth_mm, data.bar_mm), strict=True)
    )  # fmt: skip
    high = floor + _BASE * grid - body.top
    tops = body.top + high + 0.8 * grid
    boxes = tuple(Box(left, tops, across, title * _line(frame))
                  for left, across in zip((body.left, *lefts), widths, strict=True))  # fmt: skip
    return Arranged(patch=BarPatch(box=Box(body.left, body.top, patch, high)), pieces=(pieces[0], pieces[1]),
                    axis_x=axis_x, highest_mm=last_tick(highest, data.units), titles=boxes)  # fmt: skip


def _titles(frame: Frame) -> tuple[str, ...]:
    return _BRIEF_TITLES if frame.shape == "square" else _TITLES


def _lines(words: str, across: float, frame: Frame) -> tuple[str, ...]:
    return wrap_even(words, frame.cap_height("small"), "semibold", across, 2)


def _line(frame: Frame) -> float:
    return LINE_STEP * font_size(frame.cap_height("small"))


def _title(words: str, box: Box, frame: Frame, look: Look, step: int) -> list[Text]:
    cap = frame.cap_height("small")
    return [
        Text(name=f"title/{words}/{order}", step=step, text=line,
             at=(box.left, box.top + cap * 1.1 + order * _line(frame)), cap_height=cap, weight="semibold",
             fill=look.ink, ground=look.ground, role="small")
        for order, line in enumerate(_lines(words, box.width, frame))
    ]  # fmt: skip


def _cut(its: Arranged, frame: Frame, look: Look) -> Shape:
    """Where the grooves are cut: the end of a line along the row of bars."""
    box, y, grid = its.patch.box, its.patch.level, frame.grid
    line = polyline(((box.left - grid, y), (box.left + 2.2 * grid, y)))
    return Shape(name="tread/cut", step=1, outline=line, stroke=Stroke(look.measure, frame.short / 270, cap="flat"))


def _levels(data: WearBarsData, its: Arranged, frame: Frame, look: Look) -> list[Shape]:
    """The bars' height from groove to groove, how high they may be, the doubt of the reading."""
    first, second = its.pieces
    y, most = its.height(data.bar_mm), its.height(data.bar_most_mm)
    marks = [*limit_line("bar/line", "law", (its.axis_x, y), (second.right, y), frame, look, 1)]
    if data.bar_most_mm > data.bar_mm:
        right = first.right + 0.5 * _GAP * frame.grid
        marks += limit_line("bar_most/line", "advice", (its.axis_x, most), (right, most), frame, look, 1)
    if data.doubt_mm:
        x = first.left + 0.82 * (first.right - first.left)
        at = (x, its.height(data.depth_mm))
        marks += doubt_mark("doubt/mark", at, data.doubt_mm * first.scale, frame, look, 3, first.floor)
    return marks


def _anchors(data: WearBarsData, its: Arranged) -> dict[str, Point]:
    first, second = its.pieces
    middle = first.grooves[0]
    return {
        "bar": (middle, first.height(min(data.bar_mm, data.depth_mm) / 2)),
        "bar_most": (0.5 * (first.right + second.left), its.height(data.bar_most_mm)),
        "level": (second.grooves[0], second.height(data.bar_mm)),
        "reading": (first.left + 0.16 * (first.right - first.left), first.height(data.depth_mm)),
    }


def _alternative(data: WearBarsData) -> str:
    said = {note.name: f"{note.value} {note.unit}".strip() for note in data.notes}
    return (
        "A piece of tread from above with a bar across each groove, then two grooves cut at the bar on one scale: "
        f"this tire at {said['reading']} with its bar of {said['bar']}, and one worn level with its bar."
    )
