"""The placard: this car's tire sizes and cold pressures on its door pillar, read out row by row."""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import Note, badge_radius, note_of
from studio.graphics.layout.page import Page, Words, plan
from studio.graphics.look import Look
from studio.graphics.parts.door_pillar import door_pillar, plate_shadow, striker
from studio.graphics.parts.placard_plate import Plate, PlateRow, PlateSteps, plate, plate_marks
from studio.graphics.scene import Point, Scene, Shape
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.quantity import System
from studio.model.source import Source

_SIZES, _FIRST_NOTE = 1, 2
_AROUND = 7.5  # grid units of pillar beside the plate


class PlacardData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown."""

    words: Words
    sources: tuple[Source, ...]
    rows: tuple[PlateRow, ...]
    notes: tuple[Note, ...]
    findings: tuple[str, ...]


@picture("placard")
class PlacardPicture:
    """A plate of our own on a door pillar; beside it what cold means, and what the sidewall's number does not."""

    id = "placard"
    name = "The placard read out"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> PlacardData:
        """The placard as it was entered. Raises CannotShow where it is empty."""
        finding = findings.get("placard.car")
        if finding is None:
            raise CannotShow("nothing of the placard is entered yet: its sizes and cold pressures are missing")
        return PlacardData(
            words=Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution),
            sources=finding.sources, rows=_rows(finding, request.units), notes=_notes(finding, request.units),
            findings=(finding.id,),
        )  # fmt: skip

    def compose(self, data: PlacardData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        page = plan(frame, look, words, _kept(data.notes, frame), share=0.64)
        its = plate(data.rows, _room(page, frame), frame)
        last = _FIRST_NOTE + len(data.notes)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, title=words.sentence, findings=data.findings,
            steps=("the door pillar", "the sizes", *(note.label for note in data.notes), "the cold pressures"),
            marks=(*_pillar(page, its, frame, look),
                   *plate_marks(its, look, PlateSteps(sizes=_SIZES, pressures=last)),
                   *page.marks(_anchors(its, page))), alternative=_alternative(data),
        )  # fmt: skip
        return closed_up(scene)


def _rows(finding: Finding, units: System) -> tuple[PlateRow, ...]:
    """A row for each line of the placard; front and rear share one where they are alike."""
    front, rear, spare = (_row(finding, name, units) for name in ("front", "rear", "spare"))
    if front and rear and _said(front) == _said(rear):
        front, rear = msgspec.structs.replace(front, wheels=("front", "rear"), title="front and rear"), None
    rows = [row for row in (front, rear, spare) if row]
    decides = next((row.name for row in rows if row.unit), "")
    return tuple(msgspec.structs.replace(row, decides=row.name == decides) for row in rows)


def _said(row: PlateRow) -> tuple[object, ...]:
    return (row.sizes, row.number, row.unit)


def _row(finding: Finding, name: str, units: System) -> PlateRow | None:
    pressure, size = finding.figure_at(f"{name}_pressure"), finding.word_at(f"{name}_size")
    if pressure is None and not size:
        return None
    sizes = tuple(dict.fromkeys((finding.word_at(f"{name}_marking"), size))) if size else ("size not entered",)
    if pressure is None:
        return PlateRow(name=name, wheels=(name,), title=name, sizes=sizes, number="not entered", unit="", other="")
    number, _, unit = pressure.in_system(units).text().partition(" ")
    other = note_of(name, pressure, "", units).other
    return PlateRow(name=name, wheels=(name,), title=name, sizes=sizes, number=number, unit=unit, other=other)


def _notes(finding: Finding, units: System) -> tuple[Note, ...]:
    """What cold means, what the sidewall's number is, then the axle ratings of the certification label."""
    said = [
        Note(name="cold", value="Cold", label=finding.word("cold"), priority=1),
        Note(name="sidewall", value="Sidewall number", label=finding.word("sidewall"), priority=2),
    ]
    for order, axle in enumerate(("front", "rear")):
        if rating := finding.figure_at(f"{axle}_axle_rating"):
            note = note_of(f"{axle}_rating", rating, f"{axle} axle rating", units, priority=3 + order)
            said.append(msgspec.structs.replace(note, brief=f"{axle} axle"))
    return tuple(msgspec.structs.replace(note, step=_FIRST_NOTE + order) for order, note in enumerate(said))


def _kept(notes: tuple[Note, ...], frame: Frame) -> tuple[Note, ...]:
    """A square frame has room for the two that guard against harm."""
    return notes[:2] if frame.shape == "square" else notes


def _room(page: Page, frame: Frame) -> Box:
    """Where the plate may stand: the pillar shows on both sides of it."""
    box, around = page.drawing, _AROUND * frame.grid
    side = around if frame.shape == "wide" else 0.55 * around
    over = 1.4 * frame.grid
    return Box(box.left + side, box.top + over, box.width - 2 * side, box.height - 2 * over)


def _pillar(page: Page, its: Plate, frame: Frame, look: Look) -> tuple[Shape, ...]:
    """The body behind the plate; it runs off the frame where no note stands."""
    box, grid = page.drawing, frame.grid
    right = box.right if frame.shape == "wide" else float(frame.width)
    window = Box(0.0, box.top, right, box.height)
    left_edge, right_edge = its.box.left - 2.6 * grid, its.box.right + 2.6 * grid
    above = its.box.top - box.top
    loop = min(9 * grid, 0.62 * above)
    marks = [*door_pillar(window, left_edge, right_edge, frame, look)]
    if loop > 4 * grid:
        marks += striker((its.box.left + 0.22 * its.box.width, box.top + above / 2), loop, look)
    return (*marks, *plate_shadow(its.box, 1.2 * grid, frame, look))


def _anchors(its: Plate, page: Page) -> dict[str, Point]:
    """What cold means belongs to the first pressure that is given."""
    first = next((order for order, (row, _) in enumerate(its.rows) if row.unit), None)
    if first is None:
        return {}
    x, y = its.end_of(first)
    return {"cold": (x + 0.7 * badge_radius(page.frame) if page.discs else x - 0.9 * page.frame.grid, y)}


def _alternative(data: PlacardData) -> str:
    said = "; ".join(f"{row.title}: {row.sizes[0]}, {row.number} {row.unit}".strip() for row in data.rows)
    notes = "; ".join(" ".join(part for part in (note.value, note.label) if part) for note in data.notes)
    return f"A placard on a door pillar, cold pressures. {said}. {notes}."
