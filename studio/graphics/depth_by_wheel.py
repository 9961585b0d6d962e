"""Depth by wheel: the readings of four or five tires over the car plan, against the region's limits."""

from typing import Any

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.depth_layout import arrange
from studio.graphics.draw import circle, polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import Note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.parts.car_above import car_above
from studio.graphics.parts.car_plan import CarPlan, PlacedCar
from studio.graphics.parts.depth_bars import Bars, depth_bars
from studio.graphics.parts.scale_bar import Entry, key
from studio.graphics.parts.wheel_card import Card, card_marks
from studio.graphics.scene import Scene, Shape, Stroke, Text
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import car_plan, source_line
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings
from studio.model.places import ON_CAR, Place, place_words
from studio.model.quantity import Quantity, System, depth
from studio.model.source import Source

_ADVICE = ("winter_minimum", "winter_advice", "wet_advice")


class Wheel(msgspec.Struct, frozen=True, kw_only=True):
    """One tire of the picture: its words, and its bars where it was measured."""

    place: Place
    card: Card
    bars: Bars | None = None


class DepthByWheelData(msgspec.Struct, frozen=True, kw_only=True):
    """What the picture shows."""

    car: CarPlan
    wheels: tuple[Wheel, ...]
    key: tuple[Entry, ...]
    words: Words
    title: str
    sources: tuple[Source, ...]
    shown: tuple[str, ...]
    steps: tuple[str, ...]


@picture("depth_by_wheel")
class DepthByWheel:
    """The car from above; at each wheel its readings across the tread and its lowest as a number, the worst largest."""

    id = "depth_by_wheel"
    name = "Depth at every wheel"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> DepthByWheelData:
        """The readings of the tires on the car. Raises CannotShow where none has a reading."""
        every = tuple(f for place in ON_CAR if (f := findings.get(f"tread_left.{place}")))
        read = [finding for finding in every if finding.value is not None]
        if not read:
            raise CannotShow("no tire on the car has a depth reading yet")
        worst = max(read, key=_gravity)
        steps = ("the car", *(place_words(f.subject) for f in every), "the limits", "the number that decides")
        wheels = tuple(_wheel(f, worst, order, len(steps), request.units) for order, f in enumerate(every, start=1))
        words = Words(sentence=request.title or worst.sentence, verdict=worst.verdict, caution=worst.caution)
        return DepthByWheelData(
            car=car_plan(episode, findings), wheels=wheels, key=_key(worst, len(steps) - 2, request.units), words=words,
            title=worst.sentence, sources=worst.sources, shown=tuple(f.id for f in every), steps=steps,
        )  # fmt: skip

    def compose(self, data: DepthByWheelData, frame: Frame, look: Look) -> Scene:
        """The car in the middle, two columns of readings beside it, the key to the lines."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame, 1))
        page = plan(frame, look, words, ())
        layout = arrange(data, page.drawing, frame)
        marks: list[Shape | Text] = [*car_above(layout.car, frame, look)]
        limits = len(data.steps) - 2
        for wheel in data.wheels:
            spot = layout.spots.get(wheel.place)
            if spot is None:
                continue
            marks += card_marks(wheel.card, spot.card, frame, look, layout.fullness)
            if wheel.bars:
                name, step = f"{wheel.place}/chart", wheel.card.step
                marks += depth_bars(wheel.bars, spot.chart, layout.scale, frame, look, name, step, limits)
                marks += _pointer(wheel, spot.chart, layout.car, frame, look)
        for entries, box in layout.keys:
            marks += key(entries, box, frame, look)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, marks=(*marks, *page.marks({})), steps=data.steps,
            title=data.words.sentence, alternative=_alternative(data), findings=data.shown,
        )  # fmt: skip
        return closed_up(scene)


def _gravity(finding: Finding) -> tuple[Any, ...]:
    severity = SEVERITY.index(finding.verdict) if finding.verdict in SEVERITY else -1
    return (severity, finding.subject != "spare", -(finding.margin or 0.0))


def _wheel(finding: Finding, worst: Finding, step: int, steps: int, units: System) -> Wheel:
    place: Place = next(place for place in ON_CAR if place == finding.subject)
    title = place_words(place).capitalize()
    lowest = finding.figure("depth")
    if lowest is None:
        return Wheel(place=place, card=Card(name=place, title=title, verdict=finding.verdict, step=step, last=step))
    note = note_of(place, lowest, "", units)
    number, _, unit = note.value.partition(" ")
    is_worst = finding is worst
    card = Card(name=place, title=title, verdict=finding.verdict, number=number, unit=unit, other=note.other,
                worst=is_worst, step=step, last=steps - 1 if is_worst else step)  # fmt: skip
    return Wheel(place=place, card=card, bars=_bars(finding, lowest, worst))


def _bars(finding: Finding, lowest: Quantity, worst: Finding) -> Bars | None:
    grooves = [f for f in finding.figures if f.name.startswith("groove_")]
    limit = finding.figure("legal_minimum")
    if not grooves or limit is None:
        return None
    at = finding.word("lowest_groove")
    return Bars(
        grooves=tuple(f.quantity.to("mm").value for f in grooves), verdict=finding.verdict,
        limit=limit.to("mm").value, advice=_mm(finding, _advice(worst)), rule=_is_rule(_advice(worst)),
        new=_mm(finding, "depth_new"),
        lowest=lowest.to("mm").value,
        lowest_groove=next((i for i, groove in enumerate(grooves) if groove.name == at), 0),
        doubt=_doubt(finding).to("mm").value, outer_left=not finding.subject.endswith("right"),
    )  # fmt: skip


def _mm(finding: Finding, figure: str) -> float | None:
    quantity = finding.figure_at(figure)
    return quantity.to("mm").value if quantity else None


def _doubt(finding: Finding) -> Quantity:
    return depth(finding.uncertainty or 0.0, finding.unit or "mm")


def _advice(finding: Finding) -> str:
    """The name of the deepest of the further limits that the tire is held against; empty where there is none."""
    known = [(quantity.to("mm").value, name) for name in _ADVICE if (quantity := finding.figure_at(name))]
    return max(known)[1] if known else ""


def _is_rule(further: str) -> bool:
    """Whether the further limit is law, as a winter minimum is; else it is advice."""
    return further.endswith("_minimum")


def _key(worst: Finding, step: int, units: System) -> tuple[Entry, ...]:
    """What the lines mean: the law and whose it is, the advice, the gauge's doubt."""
    advice = _advice(worst)
    advised = next((f.brief for f in worst.figures if f.name == advice), "")
    law = f"law, {worst.word_at('legal_region')}"
    entries: list[Entry] = []
    if legal := worst.figure("legal_minimum"):
        entries.append((_key_note("law", legal, law, step, units), "law"))
    if further := worst.figure_at(advice):
        rule = _is_rule(advice)
        note = _key_note("winter law" if rule else "advice", further, advised, step, units)
        entries.append((note, "law" if rule else "advice"))
    doubt = _key_note("gauge doubt", _doubt(worst), "gauge doubt", step, units)
    return (*entries, (msgspec.structs.replace(doubt, value=f"±{doubt.value}", other=""), "doubt"))


def _key_note(name: str, quantity: Quantity, label: str, step: int, units: System) -> Note:
    return msgspec.structs.replace(note_of(f"key/{name}", quantity, label, units, step), brief=name)


def _pointer(wheel: Wheel, chart: Box, car: PlacedCar, frame: Frame, look: Look) -> tuple[Shape, ...]:
    """A fine line from the chart to its tire."""
    tire = car.tire(wheel.place)
    if tire is None or wheel.place == "spare":
        return ()
    left = wheel.place.endswith("left")
    y = min(max(tire.center[1], chart.top), chart.bottom)
    start = (chart.right + frame.grid if left else chart.left - frame.grid, y)
    end = (tire.left if left else tire.right, tire.center[1])
    line = Stroke(look.measure, frame.short / 360)
    name = f"{wheel.place}/pointer"
    return (
        Shape(name=name, step=wheel.card.step, outline=polyline((start, end)), stroke=line),
        Shape(name=f"{name}/dot", step=wheel.card.step, outline=circle(end, frame.short / 150), fill=look.measure,
              stroke=Stroke(look.ground, frame.short / 540)),
    )  # fmt: skip


def _alternative(data: DepthByWheelData) -> str:
    said = [f"{w.card.title.lower()} {w.card.number} {w.card.unit}".strip() for w in data.wheels if w.card.number]
    return f"The car from above with the lowest tread depth of each tire: {', '.join(said)}. {data.title}"
