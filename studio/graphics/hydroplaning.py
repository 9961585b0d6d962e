"""Hydroplaning: the speed at which the worst tire floats, against its tread, its pressure and the water.

A computed speed at which the tire has left the road, never one at which it would be safe.
"""

from typing import Any

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Box, Frame
from studio.graphics.hydroplaning_tire import tire_afloat
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.text import font_size
from studio.graphics.look import Look
from studio.graphics.scene import Scene, Shape, Text
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.quantity import Quantity, System, UnitName
from studio.model.source import Source

_ALONG = {"tread": "Tread", "water": "Water", "pressure": "Pressure"}
_UNITS: dict[System, dict[str, UnitName]] = {
    "us": {"tread": "32nds", "pressure": "psi", "water": "in"},
    "metric": {"tread": "mm", "pressure": "kPa", "water": "mm"},
}
_SYMBOLS = {"32nds": "1/32 in", "in": "inch"}
_STEPS = ("tire and axes", "where it floats", "where grip goes", "the other relation")
_MOST_POINTS = 20
_LEAST_HEIGHT = 0.4  # of the frame's shorter side: a lower chart says more without further notes


class HydroplaningData(msgspec.Struct, frozen=True, kw_only=True):
    """What the picture shows: the finding on the worst tire, and that tire's size and wear for the drawing."""

    finding: Finding
    units: System
    title: str
    notes: tuple[Note, ...]
    sources: tuple[Source, ...]
    outer_mm: float
    rim_mm: float
    worn: float
    shown: tuple[str, ...]


@picture("hydroplaning")
class Hydroplaning:
    """Three panels over one scale of speed beside a tire afloat; the speed at which it floats decides."""

    id = "hydroplaning"
    name = "When a tire floats on water"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> HydroplaningData:
        """The tire with the least tread, in the episode's water. Raises CannotShow without a speed."""
        finding = _worst(findings)
        size, tread = (findings.get(f"{topic}.{finding.subject}") for topic in ("size", "tread_left"))
        left = tread.figure("usable_left") if tread else None
        outer, rim = (_mm(size, name, neutral) for name, neutral in (("overall_diameter", 640.0),
                                                                      ("rim_diameter", 406.4)))  # fmt: skip
        return HydroplaningData(
            finding=finding, units=request.units, title=request.title or finding.sentence,
            notes=_notes(finding, request.units), sources=finding.sources, outer_mm=outer, rim_mm=rim,
            worn=min(1.0, max(0.0, 1 - left.value / 100)) if left else 0.5, shown=(finding.id,),
        )  # fmt: skip

    def compose(self, data: HydroplaningData, frame: Frame, look: Look) -> Scene:
        """Wide: tire, chart and notes side by side. Tall: tire above the chart, notes below. Square: no notes."""
        from studio.graphics.charts.water import water_chart

        finding = data.finding
        words = Words(sentence=data.title, verdict=finding.verdict, caution=finding.caution,
                      sources=source_line(data.sources, frame, 1))  # fmt: skip
        # in a square frame the sentence alone says the number: the chart needs the room
        notes = () if frame.shape == "square" else data.notes
        if frame.shape == "wide":  # the speed driven mostly lies above the tire's point
            notes = (*notes[1:2], *notes[:1], *notes[2:])
        page = plan(frame, look, words, notes, share=0.745)
        if page.drawing.height < _LEAST_HEIGHT * frame.short:
            notes = notes[:1]
            page = plan(frame, look, words, notes, share=0.745)
        tire, chart = _parted(page.drawing, frame)
        drawn, reached = water_chart(_floating(data), chart, frame, look)
        names = [note.name for note in notes]
        pointed = names if frame.shape == "wide" else names[:1]
        anchors = {name: at for name, at in reached.items() if name in pointed}
        afloat: tuple[Shape | Text, ...] = ()
        if tire is not None:
            afloat = tire_afloat(tire, _road(tire, frame), data.outer_mm, data.rim_mm, data.worn, frame, look)
        steps = (*_STEPS, *(note.label for note in sorted(data.notes, key=lambda note: note.step)))
        return closed_up(
            Scene(
                picture=self.id, frame=frame, background=look.ground, steps=steps, title=data.title,
                alternative=f"A tire afloat, and its floating speed over tread, pressure and water. {finding.sentence}",
                findings=data.shown, marks=(*afloat, *drawn, *page.marks(anchors)),
            )
        )  # fmt: skip


def _worst(findings: Findings) -> Finding:
    on_car = [finding for finding in findings.of("wet") if finding.subject != "car"]
    if not on_car:
        raise CannotShow("there is no water on the road; missing: a depth of water or a rain, and a tread reading")
    if on_car[0].value is None:
        missing = "; ".join(on_car[0].missing) or "conditions within the tests"
        raise CannotShow(f"no floating speed is given; missing: {missing}")
    return on_car[0]


def _mm(finding: Finding | None, name: str, neutral: float) -> float:
    quantity = finding.figure_at(name) if finding else None
    return quantity.to("mm").value if quantity else neutral


def _notes(finding: Finding, units: System) -> tuple[Note, ...]:
    year, last = finding.word("relation"), len(_STEPS)
    speed, driven = finding.figure_at(f"floating_{year}"), finding.figure("speed")
    if speed is None or driven is None:
        raise CannotShow("no floating speed is given for this water")
    label = "driven" if finding.word("speed") == "given" else "driven, assumed"
    return (
        deciding_note("floats", speed, "floats near", units, last + 2),
        note_of("driven", driven, label, units, last),
        Note(name="formula", value=f"formula of {year}", label="hatched: not tested", step=last + 1,
             brief="hatched: untested", priority=2),
    )  # fmt: skip


def _parted(drawing: Box, frame: Frame) -> tuple[Box | None, Box]:
    """The tire's part, which may run off the frame at the left, and the chart's."""
    if frame.shape == "wide":
        across = 0.22 * drawing.width
        left = drawing.left + across + 1.5 * frame.grid
        tire = Box(0.0, drawing.top, drawing.left + across, drawing.height)
        return tire, Box(left, drawing.top, drawing.right - left, drawing.height)
    if frame.shape == "square" or drawing.height < 0.7 * drawing.width:
        return None, drawing
    high = 0.36 * drawing.height
    top = drawing.top + high + 0.5 * frame.grid
    return Box(0.0, drawing.top, float(frame.width), high), Box(drawing.left, top, drawing.width, drawing.bottom - top)


def _road(tire: Box, frame: Frame) -> float:
    """In a wide frame level with the chart's foot, else with room for a line under it."""
    return tire.bottom - (2.3 if frame.shape == "wide" else 1.5) * font_size(frame.cap_height("small"))


def _floating(data: HydroplaningData) -> Any:
    from studio.graphics.charts.water_values import Floating

    finding = data.finding
    fast: UnitName = "mph" if data.units == "us" else "km/h"

    def speed(name: str) -> float:
        quantity = finding.figure_at(name)
        return quantity.to(fast).value if quantity else 0.0

    year = finding.word("relation")
    return Floating(
        panels=tuple(panel for along in _ALONG if (panel := _panel(finding, along, data.units, fast)).curves),
        year=year, speed=speed(f"floating_{year}"), driven=speed("speed"), gradual=speed("gradual"), unit=fast,
        steps={"curve": 1, "point": 1, "driven": len(_STEPS), "water": 2, "other": 3},
    )  # fmt: skip


def _panel(finding: Finding, along: str, units: System, fast: UnitName) -> Any:
    from studio.graphics.charts.water_values import Curve, Panel

    unit = _UNITS[units][along]

    def shown(name: str) -> Quantity:
        quantity = finding.figure_at(name)
        if quantity is None:
            raise CannotShow(f"the range of the tests is not known along the {along}")
        return quantity.to(unit)

    own = shown(along)
    ends = shown(f"1979.{along}.low"), shown(f"1979.{along}.high")
    found = [Curve(year=year, points=points) for year in ("1979", "1963")
             if (points := _points(finding, year, along, unit, fast))]  # fmt: skip
    return Panel(
        name=along, title=_ALONG[along], unit=_SYMBOLS.get(unit, unit), own=own.value, own_text=own.number(),
        ends=(ends[0].value, ends[1].value), end_texts=(ends[0].number(), ends[1].number()), curves=tuple(found),
    )  # fmt: skip


def _points(
    finding: Finding, year: str, along: str, unit: UnitName, fast: UnitName
) -> tuple[tuple[float, float], ...]:  # fmt: skip
    found = []
    for order in range(1, _MOST_POINTS):
        at, speed = (finding.figure_at(f"{year}.{along}.{part}.{order}") for part in ("at", "speed"))
        if at is None or speed is None:
            break
        found.append((at.to(unit).value, speed.to(fast).value))
    return tuple(found)
