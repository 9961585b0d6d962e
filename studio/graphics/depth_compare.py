"""Depths compared: treads cut through side by side on one scale, new and now, against law, advice and wear bar."""

from collections.abc import Sequence

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.depth_compare_layout import Arranged, Column, Limit, arrange
from studio.graphics.depth_compare_words import key_marks, number_marks, title_marks
from studio.graphics.draw import polyline
from studio.graphics.frame import Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import Note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.parts.depth_axis import depth_axis
from studio.graphics.parts.groove_section import tread_piece
from studio.graphics.parts.scale_bar import Line, doubt_mark, limit_line
from studio.graphics.scene import Scene, Shape, Stroke, Text
from studio.graphics.specimens import chosen_subjects, finding_for, gravest, most_urgent
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.places import ON_CAR, place_words
from studio.model.quantity import Quantity, System, depth
from studio.model.source import Source

_MARKS: tuple[tuple[str, Line, str], ...] = (
    ("legal_minimum", "law", "law"), ("winter_minimum", "law", "winter law"), ("wet_advice", "advice", "advice"),
    ("winter_advice", "advice", "winter advice"),
)  # fmt: skip
_SAME_MM = 0.01
NEW = "new"


class DepthCompareData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown; the last column is the most worn."""

    words: Words
    sources: tuple[Source, ...]
    columns: tuple[Column, ...]
    limits: tuple[Limit, ...]
    doubt: Note | None
    units: System
    steps: tuple[str, ...]
    findings: tuple[str, ...]


@picture("depth_compare")
class DepthCompare:
    """A groove of each tire cut through, floors on one line, so that the rubber above them can be compared."""

    id = "depth_compare"
    name = "Tread depths compared"
    takes = 4

    def data(self, episode: Episode, findings: Findings, request: Request) -> DepthCompareData:
        """The tires asked for, else the most urgent one; a new tread beside them where its depth is known."""
        read = _read(episode, findings, request)
        worst = gravest(read)
        if worst is None:
            raise CannotShow("no tire has a depth reading yet")
        read.sort(key=lambda finding: -(_mm(finding, "depth") or 0.0))
        names = {finding.id: _title(finding, episode) for finding in read}
        last = len(read) + len(_MARKS) + 1
        units = request.units
        columns = [_column(f, names[f.id], f is worst, order, last, units) for order, f in enumerate(read, start=1)]
        new = _new(read, units)
        limits = _limits(worst, len(read) + 1, units)
        steps = ["a new tread" if new else "the scale", *names.values()]
        steps += [limit.note.label for limit in limits]
        steps += [""] * (last - len(steps)) + ["the number that decides"]
        return DepthCompareData(
            words=Words(sentence=request.title or worst.sentence, verdict=worst.verdict, caution=worst.caution),
            sources=worst.sources, columns=(*((new,) if new else ()), *columns), limits=limits,
            doubt=_doubt(read[-1], last, units), units=units, steps=tuple(steps),
            findings=tuple(finding.id for finding in read),
        )  # fmt: skip

    def compose(self, data: DepthCompareData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame, 1))
        page = plan(frame, look, words, ())
        doubt = data.doubt
        if doubt and frame.shape != "wide":
            doubt = msgspec.structs.replace(doubt, on_one_line=True)
        its = arrange(data.columns, data.limits, doubt, data.units, page.drawing, frame)
        axis = depth_axis(its.axis_x, its.floor, its.scale, its.highest_mm, data.units, frame, look)
        marks: list[Shape | Text] = [*axis]
        for placed in its.columns:
            marks += tread_piece(placed.piece, look, f"{placed.column.name}/tread", placed.column.step)
        marks += _lines(data, its, frame, look)
        for placed in its.columns:
            marks += number_marks(placed, its, frame, look)
            marks += title_marks(placed, its, frame, look)
        marks += key_marks(doubt, its, frame, look)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, marks=(*marks, *page.marks({})), steps=data.steps,
            title=words.sentence, alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _read(episode: Episode, findings: Findings, request: Request) -> list[Finding]:
    """The findings with a reading, of the tires asked for or of the most urgent one."""
    chosen = [finding_for(findings, "tread_left", subject) for subject in chosen_subjects(episode, request, most=4)]
    if chosen:
        return [finding for finding in chosen if finding.figure("depth")]
    worst = most_urgent(findings.of("tread_left"))
    return [worst] if worst else []


def _mm(finding: Finding, name: FigureName) -> float | None:
    quantity = finding.figure(name)
    return quantity.to("mm").value if quantity else None


def _title(finding: Finding, episode: Episode) -> str:
    """The tire's place, or its name where it has none on the car."""
    if finding.subject in ON_CAR:
        return place_words(finding.subject)
    specimen = episode.specimen(finding.subject)
    return (specimen.name or specimen.id) if specimen else finding.subject


def _number(quantity: Quantity, units: System) -> tuple[str, str, str]:
    """Number, unit, and the other system's text."""
    note = note_of("", quantity, "", units)
    number, _, unit = note.value.partition(" ")
    return number, unit, note.other


def _column(finding: Finding, title: str, worst: bool, step: int, last: int, units: System) -> Column:
    lowest = finding.figure("depth")
    if lowest is None:
        raise CannotShow(f"the tire {title} has no depth reading yet")
    number, unit, other = _number(lowest, units)
    doubt = depth(finding.uncertainty or 0.0, finding.unit or "mm").to("mm").value
    return Column(
        name=finding.subject, title=title, verdict=finding.verdict, number=number, unit=unit, other=other,
        depth_mm=lowest.to("mm").value, new_mm=_mm(finding, "depth_new"), bar_mm=_mm(finding, "wear_bar"),
        doubt_mm=doubt, worst=worst, step=step, last=last if worst else step,
    )  # fmt: skip


def _new(read: Sequence[Finding], units: System) -> Column | None:
    """A column for the new tread where all tires shown began with one depth."""
    depths = [finding.figure("depth_new") for finding in read]
    first = depths[0]
    if first is None or any(d is None or abs(d.to("mm").value - first.to("mm").value) > _SAME_MM for d in depths):
        return None
    number, unit, other = _number(first, units)
    mm, bar = first.to("mm").value, _mm(read[0], "wear_bar")
    return Column(name=NEW, title=NEW, verdict=None, number=number, unit=unit, other=other, depth_mm=mm, new_mm=mm,
                  bar_mm=bar)  # fmt: skip


def _limits(finding: Finding, step: int, units: System) -> tuple[Limit, ...]:
    found: list[Limit] = []
    for name, kind, brief in _MARKS:
        figure = next((figure for figure in finding.figures if figure.name == name), None)
        if figure:
            note = note_of(name, figure.quantity, figure.label, units, step + len(found), priority=1 + (kind != "law"))
            found.append(Limit(note=msgspec.structs.replace(note, brief=brief), kind=kind,
                               mm=figure.quantity.to("mm").value))  # fmt: skip
    return tuple(found)


def _doubt(finding: Finding, step: int, units: System) -> Note | None:
    """How sure the last column's reading is."""
    if not finding.uncertainty or not finding.unit:
        return None
    note = note_of("doubt", depth(finding.uncertainty, finding.unit), "doubt of one reading", units, step, priority=3)
    return msgspec.structs.replace(note, value=f"±{note.value}", other="", brief="gauge doubt")


def _lines(data: DepthCompareData, its: Arranged, frame: Frame, look: Look) -> list[Shape | Text]:
    """The limits across all columns with their labels, and the doubt of each reading at its surface."""
    marks: list[Shape | Text] = []
    boxes = {note.name: (note, box) for note, box in its.labels}
    for limit in (limit for limit in data.limits if limit.note.name in boxes):
        note, box = boxes[limit.note.name]
        y, step = its.height(limit.mm), limit.note.step
        marks += limit_line(f"{note.name}/line", limit.kind, (its.axis_x, y), (its.lines_end, y), frame, look, step)
        middle = box.top + notes_.first_middle(note, frame, box.width)
        end = box.left - 0.8 * frame.grid
        path = polyline(((its.lines_end, y), (end - frame.grid, middle), (end, middle)))
        marks.append(Shape(name=f"{note.name}/leader", step=step, outline=path,
                           stroke=Stroke(look.measure, frame.short / 360)))  # fmt: skip
        marks += notes_.set_note(note, box, frame, look)
    for placed in its.columns:
        column = placed.column
        if column.doubt_mm:
            at, half = (placed.doubt_x, its.height(column.depth_mm)), column.doubt_mm * its.scale
            marks += doubt_mark(f"{column.name}/doubt", at, half, frame, look, column.last, floor=its.floor)
    return marks


def _alternative(data: DepthCompareData) -> str:
    said = ", ".join(f"{column.title} {column.number} {column.unit}".strip() for column in data.columns)
    limits = ", ".join(f"{limit.note.label} {limit.note.value}" for limit in data.limits)
    return f"Treads cut through side by side on one scale: {said}; lines at {limits}."
