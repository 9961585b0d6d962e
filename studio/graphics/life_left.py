"""Life left: a tire's readings over the distance it rolled, the fit with its band, and when each limit is reached."""

from typing import Any

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import Note
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.text import DESCENT_SHARE, font_size, width
from studio.graphics.look import Look
from studio.graphics.scene import Scene, Text
from studio.graphics.specimens import chosen_subjects
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.places import CORNERS
from studio.model.quantity import UNITS, System, UnitName
from studio.model.source import Source

_BESIDE = 0.62
_ADVICE = ("winter_minimum", "winter_advice", "wet_advice")
_STEPS = ("the readings", "the line through them", "the limits and the way there")


class LifeLeftData(msgspec.Struct, frozen=True, kw_only=True):
    """What the picture shows. ``wear`` is what the chart draws, made only when it is drawn."""

    finding: Finding
    units: System
    title: str
    notes: tuple[Note, ...]
    sources: tuple[Source, ...]
    steps: tuple[str, ...]


@picture("life_left")
class LifeLeft:
    """Depth over distance, drawn by a chart; the distance left to the legal minimum is the number that decides."""

    id = "life_left"
    name = "How far a tire will go"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> LifeLeftData:
        """The tire asked for, else the one on the car with the least left. Raises CannotShow without a fit."""
        finding = _chosen(episode, findings, request)
        notes = _notes(finding)
        return LifeLeftData(
            finding=finding, units=request.units, title=request.title or finding.sentence, notes=notes,
            sources=finding.sources, steps=(*_STEPS, *(note.label for note in notes)),
        )  # fmt: skip

    def compose(self, data: LifeLeftData, frame: Frame, look: Look) -> Scene:
        """The chart beside or above the notes; each note joined to where its limit is reached."""
        from studio.graphics.charts.wear import wear_chart

        finding = data.finding
        sources = source_line(data.sources, frame, 1)
        words = Words(sentence=data.title, verdict=finding.verdict, caution=finding.caution, sources=sources)
        square = frame.shape == "square"
        page = plan(frame, look, words, data.notes, share=0.52 if square else 0.6, beside=square or None)
        cap = frame.cap_height("callout")
        head = cap + DESCENT_SHARE * font_size(cap) + frame.grid
        box = Box(page.drawing.left, page.drawing.top + head, page.drawing.width, page.drawing.height - head)
        drawn, reached = wear_chart(_wear(data), box, frame, look)
        shown = {note.name for note, _ in page.placed}
        anchors = {f"left/{name}": at for name, at in reached.items() if f"left/{name}" in shown}
        said = f"A chart of tread depth over distance with {finding.word('readings')} readings. {finding.sentence}"
        return closed_up(
            Scene(
                picture=self.id, frame=frame, background=look.ground, steps=data.steps, title=data.title,
                alternative=said, findings=(finding.id,),
                marks=(*drawn, *_axis_names(data, page.drawing, cap, look), *page.marks(anchors)),
            )
        )  # fmt: skip


def _chosen(episode: Episode, findings: Findings, request: Request) -> Finding:
    asked = chosen_subjects(episode, request, 1)
    every = [f for subject in asked or CORNERS for f in findings.of("life", subject)]
    fitted = [finding for finding in every if finding.figure("wear_per_1000")]
    if not fitted:
        missing = next((line for finding in every for line in finding.missing), "two readings with odometer")
        raise CannotShow(f"how far a tire will go is not known yet; missing: {missing}")
    return min(fitted, key=lambda finding: finding.value or 0.0)


def _limits(finding: Finding) -> tuple[str, ...]:
    """The law's limit and the deepest further one that the finding knows."""
    known = [(quantity.to("mm").value, name) for name in _ADVICE if (quantity := finding.figure_at(name))]
    return ("legal_minimum", *([max(known)[1]] if known else []))


def _notes(finding: Finding) -> tuple[Note, ...]:
    law, *further = _limits(finding)
    last = len(_STEPS) + len(further)
    number, unit = finding.word_at(f"about_number.{law}"), finding.word_at(f"about_unit.{law}")
    notes = [
        Note(name=f"left/{law}", value=number, unit=unit, other=finding.word_at(f"about_other.{law}"), step=last,
             label="to the legal minimum", brief="left", deciding=True, priority=0),
        Note(name="band_note", value=finding.word_at(f"about_band.{law}"), label="range the gauge allows", brief="band",
             step=last, priority=2),
    ]  # fmt: skip
    return (*notes, *(_further(finding, name, order) for order, name in enumerate(further, start=len(_STEPS))))


def _further(finding: Finding, name: str, step: int) -> Note:
    label = next(figure.brief for figure in finding.figures if figure.name == name)
    left = finding.figure_at(f"left_{name}")
    if left is None or left.value <= 0:
        return Note(name=f"left/{name}", value="Reached", label=label, brief=label, step=step)
    return Note(name=f"left/{name}", value=finding.word_at(f"about.{name}"),
                other=finding.word_at(f"about_other.{name}"), label=f"to {label}", brief=f"to {label}",
                step=step)  # fmt: skip


def _wear(data: LifeLeftData) -> Any:
    from studio.graphics.charts.wear import Dot, Limit, Wear

    finding = data.finding
    law, *_ = names = _limits(finding)
    deep: UnitName = "32nds" if data.units == "us" else "mm"
    far: UnitName = "mi" if data.units == "us" else "km"

    def value(name: str, unit: UnitName) -> float:
        quantity = finding.figure_at(name)
        return quantity.to(unit).value if quantity else 0.0

    count = int(finding.word("readings"))
    doubt = value("depth_doubt", deep)
    dots = tuple(Dot(rolled=value(f"rolled_{n}", far), depth=value(f"depth_{n}", deep), doubt=doubt)
                 for n in range(1, count + 1))  # fmt: skip
    limits = tuple(
        Limit(name=name, depth=value(name, deep), left=value(f"left_{name}", far), law=name == law,
              rule=name.endswith("_minimum"), least=value(f"left_{name}_low", far),
              most=value(f"left_{name}_high", far) if finding.figure_at(f"left_{name}_high") else None)
        for name in names
    )  # fmt: skip
    steps = {"fit": 1, "band": 2, "projection": 2, **{f"limit/{name}": 2 for name in names}}
    return Wear(dots=dots, line=(value("fit_at_first", deep), value("fit_at_last", deep)), limits=limits,
                depth_unit=deep, distance_unit=far, steps=steps)  # fmt: skip


def _axis_names(data: LifeLeftData, drawing: Box, cap: float, look: Look) -> tuple[Text, ...]:
    """What the axes count, above the upright one: `32nds of an inch left, over miles rolled`."""
    deep, far = ("1/32 in", "miles") if data.units == "us" else ("mm", UNITS["km"].spoken_many)
    short = "mi" if data.units == "us" else "km"
    said = (f"{deep} of tread, over {far} rolled", f"{deep} of tread over {far}", f"{deep} over {far}")
    steep = drawing.width < drawing.height * 2  # leaders come in over its right part
    room = drawing.width * (_BESIDE if steep else 1.0)
    text = next((text for text in said if width(text, cap) <= room), f"{deep} over {short}")
    return (
        Text(name="axis/names", text=text, at=(drawing.left, drawing.top + cap), cap_height=cap, fill=look.quiet,
             ground=look.ground, role="callout"),
    )  # fmt: skip
