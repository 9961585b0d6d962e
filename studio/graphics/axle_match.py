"""Axle match: two tires roll one turn from one line; how far apart they arrive, against the tolerance that binds."""

import msgspec

from studio.graphics.axle_lanes import Pair, Roller, anchors, lanes
from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.scene import Scene
from studio.graphics.specimens import chosen_subjects
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings
from studio.model.places import AXLES, place_words
from studio.model.quantity import Kind, Quantity, System
from studio.model.source import Source

_PAIRS = ("matching.front_axle", "matching.rear_axle", "matching.set")
_RIM_SHARE = 0.62  # of the diameter, where the rim is not known
_DRAWING_STEPS = ("the two tires", "one turn")


class AxleMatchData(msgspec.Struct, frozen=True, kw_only=True):
    """What the picture shows."""

    pair: Pair
    notes: tuple[Note, ...]
    words: Words
    sources: tuple[Source, ...]
    title: str
    steps: tuple[str, ...]
    shown: tuple[str, ...]


@picture("axle_match")
class AxleMatch:
    """Two tires of an axle, or the most unequal two of the set; the worst pair unless two specimens are chosen."""

    id = "axle_match"
    name = "How well two tires match"
    takes = 2

    def data(self, episode: Episode, findings: Findings, request: Request) -> AxleMatchData:
        """The pair's diameters, differences and tolerance. Raises CannotShow where no pair has been measured."""
        finding = _finding(episode, findings, request)
        places = (finding.word("deepest"), finding.word("shallowest"))
        if places[0] == places[1]:
            places = _equal_pair(finding)
        rollers = tuple(_roller(place, finding, findings, request.units) for place in places)
        pair = Pair(longer=rollers[0], shorter=rollers[1], limit_mm=_mm(finding, "tolerance_circumference"),
                    apart_mm=_mm(finding, "tape_difference") or 0.0, verdict=finding.verdict)  # fmt: skip
        notes = _notes(finding, request.units)
        steps = (*_DRAWING_STEPS, *(note.label for note in notes))
        return AxleMatchData(
            pair=pair, notes=notes, sources=finding.sources, title=finding.sentence, steps=steps, shown=(finding.id,),
            words=Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution),
        )  # fmt: skip

    def compose(self, data: AxleMatchData, frame: Frame, look: Look) -> Scene:
        """Two lanes, one above the other, and the numbers beside or below them."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame, 1))
        beside = frame.shape != "tall"
        page = plan(frame, look, words, _in_order(data.notes, frame), share=0.62 if frame.shape == "wide" else 0.58,
                    beside=beside)  # fmt: skip
        drawn = lanes(data.pair, page.drawing, frame)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, steps=data.steps, title=words.sentence,
            marks=(*drawn.marks(look), *page.marks(anchors(drawn, discs=page.discs), in_order=True)),
            alternative=_alternative(data), findings=data.shown,
        )  # fmt: skip
        return closed_up(scene)


def _finding(episode: Episode, findings: Findings, request: Request) -> Finding:
    """The finding on the pair asked for; without a choice the worst, an axle before the set."""
    measured = [f for id_ in _PAIRS if (f := findings.get(id_)) and f.value is not None and f.word("deepest")]
    if not measured:
        raise CannotShow("depth readings and markings of two tires on the car are needed to compare them")
    chosen = set(chosen_subjects(episode, request, 2))
    if len(chosen) < 2:
        return max(measured, key=_gravity)
    of_pair = [finding for finding in measured if chosen == _compared(finding)]
    if not of_pair:
        raise CannotShow("compared are two tires of one axle, or the two most unequal of the set: choose such two")
    return of_pair[0]


def _compared(finding: Finding) -> set[str]:
    """The places that a finding compares: an axle's, or the set's two most unequal."""
    axle = finding.id.removeprefix("matching.").removesuffix("_axle")
    return set(AXLES[axle]) if axle in AXLES else {finding.word("deepest"), finding.word("shallowest")}


def _gravity(finding: Finding) -> tuple[int, float]:
    severity = SEVERITY.index(finding.verdict) if finding.verdict in SEVERITY else -1
    return severity, abs(finding.value or 0.0) / finding.limit if finding.limit else 0.0


def _equal_pair(finding: Finding) -> tuple[str, str]:
    """Any two of the finding's places, where no tire is deeper than another."""
    places = [f.name.removeprefix("diameter_") for f in finding.figures if f.name.startswith("diameter_")]
    if len(places) < 2:
        raise CannotShow("two measured tires are needed to compare them")
    return places[0], places[1]


def _mm(finding: Finding, figure: str) -> float | None:
    quantity = finding.figure_at(figure)
    return quantity.to("mm").value if quantity else None


def _roller(place: str, finding: Finding, findings: Findings, units: System) -> Roller:
    diameter = _mm(finding, f"diameter_{place}")
    depth = finding.figure_at(f"depth_{place}")
    if diameter is None or depth is None:
        raise CannotShow(f"the size of the tire {place_words(place)} is not known yet")
    size = findings.get(f"size.{place}")
    rim = (_mm(size, "rim_diameter") if size else None) or _RIM_SHARE * diameter
    own = depth.in_system(units).text()
    return Roller(name=place, title=place_words(place).capitalize(), diameter_mm=diameter, rim_mm=rim,
                  depths=(f"{depth.both(units)} of tread", depth.both(units), f"{own} of tread", own))  # fmt: skip


def _notes(finding: Finding, units: System) -> tuple[Note, ...]:
    """The deciding difference, the limit and whose it is, then the same difference in other forms."""
    form = finding.word("tolerance_form") or "of tread"
    found = [
        ("depth", "difference", "of tread apart"), ("rolled", "circumference_difference", "of rolling circumference"),
        ("turns", "turns_difference", "more turns of the smaller"),
    ]  # fmt: skip
    notes = []
    if finding.limit is not None:
        notes.append(_note("limit", _own(finding.limit, finding, form), finding.limit_label, units, 2))
    for name, figure, label in found:
        quantity = finding.figure_at(figure)
        if quantity and not (name == "depth" and form == "of tread" and finding.limit is not None):
            notes.append(_note(name, quantity, label, units, 2 + len(notes)))
    step = 2 + len(notes)
    axles = finding.figure("axles_apart")
    if finding.limit is None and axles is not None:
        return (*notes, deciding_note("axles", axles, "front and rear apart", units, step))
    deciding = _own(finding.value or 0.0, finding, form)
    return (*notes, deciding_note("apart", deciding, f"{form} apart", units, step))


def _own(value: float, finding: Finding, form: str) -> Quantity:
    """A value of the finding in the form that its limit has."""
    kinds: dict[str, Kind] = {"of tread": "depth", "of circumference": "length"}
    unit = finding.unit or "mm"
    return Quantity(value, unit, None if unit == "%" else kinds.get(form))


def _in_order(notes: tuple[Note, ...], frame: Frame) -> tuple[Note, ...]:
    """Beside the drawing what points at the arrivals stands lowest, near them; below it the number comes first."""
    pointing = [note for name in ("axles", "apart", "limit") for note in notes if note.name == name]
    others = [note for note in notes if note not in pointing]
    if frame.shape == "square":
        pointing = [msgspec.structs.replace(note, label="apart") if note.deciding else note for note in pointing]
    return (*pointing, *others) if frame.shape == "tall" else (*others, *pointing)


def _note(name: str, quantity: Quantity, label: str, units: System, step: int) -> Note:
    note = note_of(name, quantity, label, units, step, priority=1 if name == "limit" else 2 + step)
    return msgspec.structs.replace(note, brief={"limit": "limit", "depth": "of tread"}.get(name, ""))


def _alternative(data: AxleMatchData) -> str:
    longer, shorter = data.pair.longer, data.pair.shorter
    return (
        f"Two tires roll one turn from one line: {longer.title.lower()} with {longer.depths[0]} arrives ahead of "
        f"{shorter.title.lower()} with {shorter.depths[0]}; the difference is drawn enlarged. {data.title}"
    )
