"""The cross-section: a tire on its rim cut open above the axle, to scale, its dimensions, one groove enlarged."""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.cross_section_layout import Arranged, Groove, Measured, arrange
from studio.graphics.draw import polyline
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.parts.dimension import (
    dimension_line,
    extension_lines,
    half_dimension_line,
    inward_arrows,
    label,
)
from studio.graphics.parts.lens import groove_lens
from studio.graphics.parts.tire_section import WALL_MM, tire_section
from studio.graphics.scene import Scene, Shape, Stroke, Text
from studio.graphics.specimens import chosen_subjects, finding_for, most_urgent
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.quantity import Quantity, System
from studio.model.source import Source

STEPS = ("the tire cut open", "section width", "section height", "rim diameter", "overall diameter")
_GROOVE_STEPS = ("a groove, enlarged", "the tread that is left")


class CrossSectionData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown."""

    words: Words
    sources: tuple[Source, ...]
    tire: Measured
    findings: tuple[str, ...]


@picture("cross_section")
class CrossSection:
    """Half of a wheel in section; dimensions beside it, a lens over one groove."""

    id = "cross_section"
    name = "The tire in section"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> CrossSectionData:
        """The tire asked for, else the one whose tread is most urgent. Raises CannotShow."""
        size = _chosen(episode, findings, request)
        tread = findings.get(f"tread_left.{size.subject}")
        units = request.units
        new = (tread.figure("depth_new") if tread else None) or size.figure("tread_depth_new")
        groove = _groove(tread, new, units)
        grave = tread if groove and tread and tread.verdict in ("replace", "inspect") else size
        width, rim = _dimension(size, "section_width", 1, units), _dimension(size, "rim_diameter", 3, "us")
        tire = Measured(
            outer_mm=_mm(size, "overall_diameter"), rim_mm=_mm(size, "rim_diameter"),
            width_mm=_mm(size, "section_width"), depths_mm=_depths(tread),
            new_mm=new.to("mm").value if new else None, width=msgspec.structs.replace(width, brief="width"),
            height=msgspec.structs.replace(_dimension(size, "section_height", 2, units), brief="height"),
            # a code: its inches are nominal, so no mm stand beside them
            rim=msgspec.structs.replace(rim, other="", brief="rim"),
            outer=msgspec.structs.replace(_dimension(size, "overall_diameter", 4, units), brief="overall"),
            groove=groove,
        )  # fmt: skip
        return CrossSectionData(
            words=Words(sentence=request.title or size.sentence, verdict=size.verdict, caution=grave.caution),
            sources=size.sources, tire=tire, findings=(size.id, *((tread.id,) if groove and tread else ())),
        )  # fmt: skip

    def compose(self, data: CrossSectionData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        page = plan(frame, look, words, ())
        its = arrange(data.tire, page.drawing, frame)
        marks: list[Shape | Text] = [*tire_section(its.view, look), *_axis(its, frame, look)]
        marks += _dimensions(data.tire, its, frame, look)
        if its.lens:
            marks += groove_lens(its.lens, frame, look)
            for note, box in its.lens_notes:
                marks += label(note, box, frame, look)
        return Scene(
            picture=self.id, frame=frame, background=look.ground, marks=(*marks, *page.marks({})),
            steps=(*STEPS, *(_GROOVE_STEPS if its.lens else ())), title=words.sentence, alternative=_alternative(data),
            findings=data.findings,
        )  # fmt: skip


def _chosen(episode: Episode, findings: Findings, request: Request) -> Finding:
    for subject in chosen_subjects(episode, request, most=1):
        return _measured(finding_for(findings, "size", subject))
    sizes = {finding.subject: finding for finding in findings.of("size") if finding.figure("overall_diameter")}
    worst = most_urgent(finding for finding in findings.of("tread_left") if finding.subject in sizes)
    if not sizes:
        raise CannotShow("no tire has a marking that gives its dimensions yet")
    return sizes[worst.subject] if worst else next(iter(sizes.values()))


def _measured(finding: Finding) -> Finding:
    if finding.figure("overall_diameter") is None:
        raise CannotShow(f"the marking on the sidewall is missing: {finding.sentence}")
    return finding


def _mm(finding: Finding, name: FigureName) -> float:
    quantity = finding.figure(name)
    if quantity is None:
        raise CannotShow(f"the marking does not give the {name.replace('_', ' ')}")
    return quantity.to("mm").value


def _dimension(finding: Finding, name: FigureName, step: int, units: System) -> Note:
    quantity = finding.figure(name)
    if quantity is None:
        raise CannotShow(f"the marking does not give the {name.replace('_', ' ')}")
    return note_of(name, quantity, name.replace("_", " "), units, step)


def _depths(tread: Finding | None) -> tuple[float, ...]:
    """The mean of each groove in mm, from left to right as they were read."""
    if tread is None:
        return ()
    return tuple(figure.quantity.to("mm").value for figure in tread.figures if figure.name.startswith("groove_"))


def _groove(tread: Finding | None, new: Quantity | None, units: System) -> Groove | None:
    depth = tread.figure("depth") if tread else None
    if depth is None:
        return None
    step, bar = len(STEPS), tread.figure("wear_bar") if tread else None
    now = deciding_note("tread_depth", depth, "lowest reading", units, step + 1)
    return Groove(
        depth_mm=depth.to("mm").value, new_mm=new.to("mm").value if new else None,
        bar_mm=bar.to("mm").value if bar else None,
        now=msgspec.structs.replace(now, brief="lowest"),
        new=note_of("tread_depth_new", new, "when new", units, step) if new else None,
    )  # fmt: skip


def _axis(its: Arranged, frame: Frame, look: Look) -> tuple[Shape | Text, ...]:
    """The axle's axis as a chain line (ISO 128), and its name."""
    view, cap = its.view, frame.cap_height("small")
    dash = tuple(share * frame.grid for share in (2.4, 0.7, 0.5, 0.7))
    over = 1.2 * frame.grid
    line = polyline(((its.left_x - over, view.center[1]), (its.right_x + over, view.center[1])))
    chain = Shape(name="axis/line", outline=line, stroke=Stroke(look.ink, frame.short / 400, dash, cap="flat"))
    if not its.axis_words:
        return (chain,)
    return (
        chain,
        Text(name="axis/name", text=its.axis_words, at=its.axis_name, cap_height=cap, fill=look.quiet,
             ground=look.ground, role="small"),
    )  # fmt: skip


def _dimensions(tire: Measured, its: Arranged, frame: Frame, look: Look) -> list[Shape | Text]:
    view, left_x, right_x = its.view, its.left_x, its.right_x
    top, bead, axis = (view.at(0, y)[1] for y in (tire.outer_mm / 2, tire.rim_mm / 2, 0.0))
    tread_left, seat_left = view.at(-view.tread_mm / 2, 0)[0], view.at(-view.rim_width_mm / 2 - 14, 0)[0]
    tread_right = view.at(view.tread_mm / 2, 0)[0]
    marks: list[Shape | Text] = [*_width(tire, its, frame, look)]
    marks += [
        extension_lines((((tread_left, top), (left_x, top)), ((seat_left, bead), (left_x, bead))), frame, look,
                        "section_height", 2),
        *dimension_line((left_x, top), (left_x, bead), frame, look, "section_height", 2),
        *half_dimension_line((left_x, bead), (left_x, axis), frame, look, "rim_diameter", 3),
        extension_lines((((tread_right, top), (right_x, top)),), frame, look, "overall_diameter", 4),
        *half_dimension_line((right_x, top), (right_x, axis), frame, look, "overall_diameter", 4),
    ]  # fmt: skip
    for note, box in its.labels:
        marks += label(note, box, frame, look, at_right=note.name == tire.outer.name)
    return marks


def _width(tire: Measured, its: Arranged, frame: Frame, look: Look) -> list[Shape]:
    """The width at its widest place: arrows from outside, the line inside up to its label."""
    view, half = its.view, tire.width_mm / 2
    y = view.widest_mm
    left, right = view.at(-half, y), view.at(half, y)
    box = its.labels[0][1]
    gap = 0.8 * frame.grid
    before = (view.at(WALL_MM - half, y), (box.left - gap, left[1]))
    behind = ((box.right + gap, left[1]), view.at(half - WALL_MM, y))
    pieces = [polyline(piece) for piece in (before, behind) if piece[1][0] > piece[0][0]]
    outline = tuple(command for piece in pieces for command in piece)
    stroke = Stroke(look.measure, frame.short / 270, cap="flat")
    return [
        *inward_arrows(left, right, frame, look, "section_width", 1),
        Shape(name="section_width/line", step=1, outline=outline, stroke=stroke),
    ]


def _alternative(data: CrossSectionData) -> str:
    tire = data.tire
    said = [f"{note.label} {note.value}" for note in (tire.width, tire.height, tire.rim, tire.outer)]
    depth = f"; least tread depth {tire.groove.now.value} {tire.groove.now.unit}" if tire.groove else ""
    return f"A tire on its rim in section, to scale: {', '.join(said)}{depth}."


