"""Pressure over temperature: what to set where a tire is filled, so that it meets the placard where it is driven.

The line is the finding's own: two points of one law on absolute pressure. Nothing is computed here.
"""

from typing import Any

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.scene import Scene
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.places import AXLES
from studio.model.quantity import Quantity, System, UnitName
from studio.model.source import Source

_STEPS = ("the axes", "the placard where it is driven", "the line of that air", "what is set on top")
_LAMP_STEP = "the warning lamp"
_LEAST_HEIGHT = 0.4  # of the frame's shorter side: a lower chart says more without further notes


class PressureTemperatureData(msgspec.Struct, frozen=True, kw_only=True):
    """What the picture shows: the finding on filling, the lamp's level from a tire's finding where a rule sets one."""

    finding: Finding
    lamp: Quantity | None
    units: System
    title: str
    notes: tuple[Note, ...]
    sources: tuple[Source, ...]
    axles: tuple[str, ...]
    shown: tuple[str, ...]


@picture("pressure_temperature")
class PressureTemperature:
    """The air's line from cold to warm through the placard's point; the pressure to set is the number that decides."""

    id = "pressure_temperature"
    name = "Pressure, warm and cold"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> PressureTemperatureData:
        """The car's filling. Raises CannotShow without a placard pressure or two different temperatures."""
        finding = findings.get("pressure.car")
        if finding is None:
            raise CannotShow("missing: a temperature where the tires are filled and one where they are driven")
        if finding.value is None:
            raise CannotShow(f"what to set is not known yet; missing: {'; '.join(finding.missing)}")
        if reason := finding.word("not_drawn"):
            raise CannotShow(reason)
        _differ(finding)
        axles = _axles(finding)
        lit = _lamp(findings, axles[0])
        lamp = lit.figure("lamp") if lit else None
        return PressureTemperatureData(
            finding=finding, lamp=lamp, units=request.units, title=request.title or finding.sentence, axles=axles,
            notes=_notes(finding, axles, lamp, request.units), sources=finding.sources,
            shown=(finding.id, *((lit.id,) if lit else ())),
        )  # fmt: skip

    def compose(self, data: PressureTemperatureData, frame: Frame, look: Look) -> Scene:
        """The chart beside or above the notes, each joined to its point."""
        from studio.graphics.charts.gas import gas_chart

        finding = data.finding
        words = Words(sentence=data.title, verdict=finding.verdict, caution=finding.caution,
                      sources=source_line(data.sources, frame, 1))  # fmt: skip
        notes, beside = data.notes, frame.shape != "tall"
        share = 0.64 if frame.shape == "wide" else 0.56
        page = plan(frame, look, words, notes, share=share, beside=beside)
        while not beside and page.drawing.height < _LEAST_HEIGHT * frame.short and len(notes) > 1:
            notes = tuple(note for note in notes if note.priority < max(other.priority for other in notes)) or notes[:1]
            page = plan(frame, look, words, notes)
        drawn, reached = gas_chart(_warmth(data), page.drawing, frame, look)
        names = {note.name for note, _ in page.placed}
        anchors = {name: at for name, at in reached.items() if name in names}
        steps = (*_STEPS, _LAMP_STEP, *(note.label for note in sorted(data.notes, key=lambda note: note.step)))
        return closed_up(
            Scene(
                picture=self.id, frame=frame, background=look.ground, steps=steps, title=data.title,
                alternative=f"A line of gauge pressure over temperature. {finding.sentence}", findings=data.shown,
                marks=(*drawn, *page.marks(anchors)),
            )
        )  # fmt: skip


def _differ(finding: Finding) -> None:
    here, there = finding.figure("filling_temperature"), finding.figure("driving_temperature")
    if here is None or there is None or abs(here.to("degC").value - there.to("degC").value) < 1.0:
        raise CannotShow("filled and driven at one temperature; missing: two that differ")


def _axles(finding: Finding) -> tuple[str, ...]:
    """The axles that need a line of their own; the first alone where both are set alike."""
    known = tuple(axle for axle in AXLES if finding.figure_at(f"set_{axle}"))
    alike = len({quantity.value for axle in known if (quantity := finding.figure_at(f"placard_{axle}"))}) == 1
    return known[:1] if alike else known


def _lamp(findings: Findings, axle: str) -> Finding | None:
    """A tire of the axle for which a rule sets the lamp's level."""
    every = (finding for place in AXLES[axle] for finding in findings.of("pressure", place))
    return next((finding for finding in every if finding.figure("lamp")), None)


def _notes(finding: Finding, axles: tuple[str, ...], lamp: Quantity | None, units: System) -> tuple[Note, ...]:
    """The number that decides first on the page and last in speaking."""
    which = f", {axles[0]}" if len(axles) > 1 else ""
    said = [("placard", _known(finding, f"placard_{axles[0]}"), f"placard, cold{which}", 1)]
    said += [] if lamp is None else [("lamp", lamp, "lamp must be lit here", 2)]
    said += [(f"set/{axle}", _known(finding, f"set_{axle}"), f"to set, {axle}", 1) for axle in axles[1:]]
    said.append(("outside", _known(finding, "atmosphere"), "air outside counts too", 3))
    first = len(_STEPS) + 1
    notes = [note_of(name, value, label, units, first + order, priority=priority)
             for order, (name, value, label, priority) in enumerate(said)]  # fmt: skip
    here = _known(finding, "filling_temperature").in_system(units).text()
    decides = deciding_note(f"set/{axles[0]}", _known(finding, f"set_{axles[0]}"), f"to set at {here}{which}", units,
                            first + len(said))  # fmt: skip
    return (decides, *notes)


def _signed(more: Quantity) -> str:
    return more.text() if more.value < 0 else f"+{more.text()}"


def _known(finding: Finding, name: str) -> Quantity:
    quantity = finding.figure_at(name)
    if quantity is None:
        raise CannotShow(f"{name.replace('_', ' ')} is not known yet")
    return quantity


def _warmth(data: PressureTemperatureData) -> Any:
    from studio.graphics.charts.gas import Line, Warmth

    finding, us = data.finding, data.units == "us"
    degree: UnitName = "degF" if us else "degC"
    unit = _known(finding, f"set_{data.axles[0]}").in_system(data.units).unit

    def pressure(name: str) -> float:
        return _known(finding, name).to(unit).value

    here, there = (_known(finding, name).to(degree) for name in ("filling_temperature", "driving_temperature"))
    lines = tuple(
        Line(name=axle, label=axle, warm=pressure(f"set_{axle}"), cold=pressure(f"placard_{axle}"),
             cooled=pressure(f"cooled_{axle}"))
        for axle in data.axles
    )  # fmt: skip
    doubt = Quantity(finding.uncertainty or 0.0, finding.unit or unit).to(unit).value
    return Warmth(
        filled=here.value, driven=there.value, filled_text=here.text(), driven_text=there.text(), lines=lines,
        doubt=doubt, more_text=_signed(_known(finding, "more").to(unit)), degree=degree, unit=unit,
        lamp=data.lamp.to(unit).value if data.lamp else None,
        steps={"placard": 1, "line": 2, "beyond": 2, "climb": 2, "step": 3, "set": 3, "doubt": 3, "lamp": len(_STEPS)},
    )  # fmt: skip
