"""The wear profile: this tire's tread cut across, groove by groove from outer to inner, against the new one; the usual
causes of such a pattern.
"""

import re

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.uncut import plan_uncut
from studio.graphics.look import Look
from studio.graphics.parts.depth_axis import depth_axis
from studio.graphics.parts.scale_bar import doubt_mark
from studio.graphics.parts.tread_across import tread_across
from studio.graphics.scene import Scene, Shape, Text
from studio.graphics.specimens import chosen_subjects, finding_for, most_urgent
from studio.graphics.steps import closed_up
from studio.graphics.wear_profile_layout import Arranged, Groove, Section, arrange
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.quantity import System, depth
from studio.model.source import Source

STEPS = ("the tread cut across", "the readings", "what was found", "usual causes", "the difference")
_LISTED = re.compile(r"(; |, or |, | or )")
_LEVEL = re.compile(r"level_([1-8])")


class WearProfileData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown; the notes in speaking order, the deciding one last."""

    words: Words
    sources: tuple[Source, ...]
    section: Section
    notes: tuple[Note, ...]
    findings: tuple[str, ...]


@picture("wear_profile")
class WearProfile:
    """A tread in section across, to one scale of depths."""

    id = "wear_profile"
    name = "Wear across the tread"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> WearProfileData:
        """The tire asked for, else the one whose pattern is gravest. Raises CannotShow."""
        finding = _chosen(episode, findings, request)
        tread = findings.get(f"tread_left.{finding.subject}")
        size = findings.get(f"size.{finding.subject}")
        section = Section(
            grooves=_grooves(finding, request.units), units=request.units, new_mm=_mm(tread, "depth_new"),
            bar_mm=_mm(tread, "wear_bar"), doubt_mm=_doubt_mm(tread), outer_mm=_mm(size, "overall_diameter"),
            rim_mm=_mm(size, "rim_diameter"), width_mm=_mm(size, "section_width"),
        )  # fmt: skip
        used = [its.id for its in (tread, size) if its is not None and its.figures]
        return WearProfileData(
            words=Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution),
            sources=finding.sources, section=section, notes=_notes(finding, request.units),
            findings=(finding.id, *used),
        )  # fmt: skip

    def compose(self, data: WearProfileData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame, 1))
        beside = frame.shape != "tall"
        notes = _squared(data.notes) if frame.shape == "square" else data.notes
        page = plan_uncut(lambda these: plan(frame, look, words, these, share=0.62, beside=beside), notes, _less)
        its = arrange(data.section, page.drawing, frame)
        across = its.across
        marks: list[Shape | Text] = [
            *depth_axis(its.axis_x, across.floor, across.scale, its.highest_mm, data.section.units, frame, look),
            *tread_across(across, look, "tread", frame.short / 400),
        ]
        marks += _labels(data.section, its, frame, look)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, marks=(*marks, *page.marks({}, in_order=True)),
            steps=STEPS, title=words.sentence, alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _chosen(episode: Episode, findings: Findings, request: Request) -> Finding:
    for subject in chosen_subjects(episode, request, most=1):
        finding = finding_for(findings, "wear_pattern", subject)
        if not _levels(finding):
            raise CannotShow(f"no groove was read: {finding.sentence}")
        return finding
    read = [finding for finding in findings.of("wear_pattern") if _levels(finding)]
    worst = most_urgent(read) or next(iter(read), None)
    if worst is None:
        raise CannotShow("no tire has a depth reading yet")
    return worst


def _levels(finding: Finding) -> list[tuple[int, str]]:
    """Number and name of each groove that was read."""
    found = [(_LEVEL.fullmatch(figure.name), figure.brief) for figure in finding.figures]
    return [(int(match[1]), name) for match, name in found if match]


def _mm(finding: Finding | None, name: FigureName) -> float | None:
    quantity = finding.figure(name) if finding else None
    return quantity.to("mm").value if quantity else None


def _doubt_mm(tread: Finding | None) -> float:
    """The half width of one reading."""
    if tread is None or tread.uncertainty is None:
        return 0.0
    return depth(tread.uncertainty, tread.unit or "mm").to("mm").value


def _grooves(finding: Finding, units: System) -> tuple[Groove, ...]:
    grooves = []
    for number, name in _levels(finding):
        level = finding.figure_at(f"level_{number}")
        assert level is not None
        value, _, unit = note_of("", level, "", units).value.partition(" ")
        grooves.append(Groove(number=number, name=name, value=value, count=level.in_system(units).number(), unit=unit,
                              mm=level.to("mm").value))  # fmt: skip
    return tuple(grooves)


def _notes(finding: Finding, units: System) -> tuple[Note, ...]:
    """The difference, from which it is reported, its doubt, what usually does this and what to check."""
    difference, reported = finding.figure("difference"), finding.figure("reported_from")
    notes: list[Note] = []
    if difference and finding.word("name"):
        where = "low at the " + finding.word("lowest_at").lower()
        label = "largest difference" if finding.verdict == "keep" else where
        note = deciding_note("difference", difference, label, units, 4)
        notes.append(msgspec.structs.replace(note, brief="difference"))
    if finding.word("cause"):
        notes.append(Note(name="cause", value="Usual causes", label=finding.word("cause"), step=3))
        notes.append(Note(name="check", value="Check", label=finding.word("check"), step=3, priority=2))
    if reported:
        note = note_of("reported_from", reported, "uneven from here on", units, 2, priority=3)
        notes.append(msgspec.structs.replace(note, brief="uneven"))
    if finding.uncertainty and finding.unit:
        note = note_of("doubt", depth(finding.uncertainty, finding.unit), "doubt of a difference", units, 2, priority=2)
        notes.append(msgspec.structs.replace(note, value=f"±{note.value}", other="", brief="doubt"))
    return tuple(notes)


def _less(note: Note) -> Note:
    """The note without the last of what it lists, the number that decides with its brief words; else as it is."""
    if note.deciding:
        return msgspec.structs.replace(note, label=note.brief)
    listed = _LISTED.split(note.label)
    return msgspec.structs.replace(note, label="".join(listed[:-2])) if len(listed) > 2 else note


def _squared(notes: tuple[Note, ...]) -> tuple[Note, ...]:
    """With a heading that a narrow column holds."""
    return tuple(msgspec.structs.replace(note, value="Causes") if note.name == "cause" else note for note in notes)


def _labels(section: Section, its: Arranged, frame: Frame, look: Look) -> list[Shape | Text]:
    """Depth and name of each groove, the doubt of each reading, by how much depths are enlarged."""
    marks: list[Shape | Text] = []
    small = frame.cap_height("small")
    for groove, (x, mm) in zip(section.grooves, its.across.grooves, strict=True):
        key = f"groove{groove.number}"
        lowest = mm == min(other.mm for other in section.grooves)
        if value := its.values.get(groove.number):
            marks.append(Text(name=f"{key}/depth", step=1, text=value, at=(x, its.values_base), anchor="middle",
                              cap_height=its.value_cap, weight="bold" if lowest else "regular",
                              fill=look.ink if lowest else look.quiet, ground=look.ground, role="callout"))  # fmt: skip
        if section.doubt_mm:
            half = section.doubt_mm * its.across.scale
            marks += doubt_mark(f"{key}/doubt", (x, its.across.height(mm)), half, frame, look, 1, its.across.floor)
        if name := its.names.get(groove.number):
            marks.append(Text(name=f"{key}/name", text=name, at=(x, its.names_base), anchor="middle", cap_height=small,
                              weight="semibold", fill=look.ink, ground=look.ground, role="small"))  # fmt: skip
    if its.said:
        marks.append(Text(name="scale/depths", text=its.said, at=its.said_at, anchor=its.said_anchor,
                          cap_height=small, fill=look.quiet, ground=look.ground, role="small"))  # fmt: skip
    return marks


def _alternative(data: WearProfileData) -> str:
    said = ", ".join(f"{groove.name} {groove.value} {groove.unit}".strip() for groove in data.section.grooves)
    return f"The tread cut across from the outer to the inner side, depths enlarged: {said}."
