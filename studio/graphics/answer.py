"""A viewer's question in their own words on a slip of paper, and beside it what it comes to when it is computed."""

import re

import msgspec

from studio.graphics.answer_layout import Gauge, Slip, boxes, gauge_marks, slip_marks
from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of, set_note
from studio.graphics.layout.notes import height as note_height
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.told import Told, fitting, set_told
from studio.graphics.look import Look
from studio.graphics.scene import Scene
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import AskedQuestion, Figure, Finding, Findings
from studio.model.quantity import Quantity, System, UnitError
from studio.model.source import Source

_NOTHING = "no question has been asked yet, or none that can be answered: Questions takes comments in"
_MOST_WORDS = 190  # characters of the question
_MOST_BRIEF = 70
_SENTENCE = re.compile(r"(?<=[.!?…])\s+")
_QUESTION, _WORKING, _FIRST = 0, 1, 2


class AnswerData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown."""

    words: Words
    sources: tuple[Source, ...]
    question: str
    brief: str
    number: Note | None
    told: tuple[Told, ...]
    gauge: Gauge | None
    alternative: str
    findings: tuple[str, ...]


@picture("answer")
class AnswerPicture:
    """The question on its slip, how far the number is from its limit, the number itself and how it is worked out."""

    id = "answer"
    name = "A viewer's question answered"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> AnswerData:
        """The question that came with the findings. Raises CannotShow where there is none."""
        asked = next(iter(findings.asked), None)
        if asked is None:
            raise CannotShow(_NOTHING)
        finding, units = asked.finding, request.units
        number = _number(finding, units)
        told = _told(finding, units, number)
        words = Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution)
        return AnswerData(
            words=words, sources=finding.sources, question=shortened(asked.text), brief=asked_in_short(asked.text),
            number=number, told=told, gauge=_gauge(finding, units), alternative=_alternative(asked, number),
            findings=(finding.id,),
        )  # fmt: skip

    def compose(self, data: AnswerData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        page = plan(frame, look, words, ())
        gauge = data.gauge if frame.shape != "square" else None
        placed = boxes(page.drawing, frame, data.number, gauge is not None)
        told, size = fitting(data.told, placed.told, frame)
        last = _FIRST + len(told)
        slip = Slip(text=data.question, brief=data.brief, step=_QUESTION)
        marks = [*slip_marks(slip, placed.slip, frame, look), *set_told(told, size, placed.told, frame, look)]
        if gauge is not None:
            marks += gauge_marks(gauge, placed.gauge, frame, look, last)
        if data.number is not None:
            number = msgspec.structs.replace(data.number, step=last)
            if note_height(number, frame, placed.number.width) > placed.number.height + 1:
                number = msgspec.structs.replace(number, label="")  # the sentence says what it is
            marks += set_note(number, placed.number, frame, look)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, marks=(*marks, *page.marks({})),
            steps=("the question", "how it is worked out", *(pair.heading for pair in told), "the deciding number"),
            title=words.sentence, alternative=data.alternative, findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def shortened(text: str, most: int = _MOST_WORDS) -> str:
    """A comment as much as a slip holds: its first words and what it asks at last, in the viewer's own words."""
    whole = " ".join(text.split())
    if len(whole) <= most:
        return whole
    sentences = _SENTENCE.split(whole)
    asks = next((its for its in reversed(sentences) if its.endswith("?") and len(its) <= most - 40), "")
    head, kept = "", ""
    for sentence in sentences:
        if sentence == asks or len(f"{head} {sentence} … {asks}") > most:
            break
        head = f"{head} {sentence}".strip()
    kept = head or whole[: most - len(asks) - 4].rsplit(" ", 1)[0]
    return f"{kept} … {asks}".strip()


def asked_in_short(text: str, most: int = _MOST_BRIEF) -> str:
    """The last thing that a comment asks; its beginning where it asks nothing in so many words."""
    sentences = _SENTENCE.split(" ".join(text.split()))
    asks = next((its for its in reversed(sentences) if its.endswith("?")), sentences[0])
    if len(asks) > most:
        asks = f"{asks[: most - 2].rsplit(' ', 1)[0]} …"
    return asks if asks == sentences[0] else f"… {asks}"


def _number(finding: Finding, units: System) -> Note | None:
    if finding.value is None or finding.unit is None:
        return None
    figure = _figure_of(finding)
    quantity = Quantity(finding.value, finding.unit, figure.quantity.measures if figure else None)
    return deciding_note("number", quantity, figure.label if figure else "", units)


def _figure_of(finding: Finding) -> Figure | None:
    """The figure that is the finding's own number, in whatever unit it is given."""
    return next((its for its in finding.figures if _is_value(its.quantity, finding)), None)


def _is_value(quantity: Quantity, finding: Finding) -> bool:
    if finding.value is None or finding.unit is None:
        return False
    try:
        return abs(quantity.to(finding.unit).value - finding.value) < 1e-9 * max(1.0, abs(finding.value))
    except UnitError:
        return False


def _told(finding: Finding, units: System, number: Note | None) -> tuple[Told, ...]:
    """How it is worked out in one line; of damage what it means and what not to do; else what the reply says more."""
    pairs = list[Told]()
    step = next((its for its in finding.steps if its.sum), None) or next(iter(finding.steps), None)
    if finding.word("brief_meaning"):
        pairs.append(Told(name="meaning", heading="what it means", text=finding.word("brief_meaning"), priority=2))
        pairs.append(Told(name="avoid", heading="what not to do", text=finding.word("first_avoid"), strong=True))
        pairs.append(Told(name="look", heading="who must look", text=finding.word("look"), priority=1))
    elif step:
        pairs.append(Told(name="working", heading="worked out", text=(step.sum or step.text).rstrip(".")))
    if number is not None:
        pairs += _others(finding, units)
    kept = [pair for pair in pairs if pair.text]
    return tuple(msgspec.structs.replace(pair, step=_WORKING + order) for order, pair in enumerate(kept))


def _others(finding: Finding, units: System) -> list[Told]:
    """Further numbers of the answer, where there is room."""
    mine = _figure_of(finding)
    others = [
        its for its in finding.figures
        if its != mine and its.label and its.label != "converted" and its.name in finding.word("told").split()
    ]  # fmt: skip
    notes = [(its, note_of(its.name, its.quantity, its.label, units)) for its in others[:2]]
    return [
        Told(name=its.name, heading=its.label, text=f"{note.value} ({note.other})" if note.other else note.value,
             priority=2 + order)
        for order, (its, note) in enumerate(notes)
    ]  # fmt: skip


def _gauge(finding: Finding, units: System) -> Gauge | None:
    """The number against its limit; none where either is missing or the two are no lengths from nothing."""
    value, limit, unit = finding.value, finding.limit, finding.unit
    if value is None or limit is None or unit is None or limit <= 0 or value < 0:
        return None
    figure = _figure_of(finding)
    shown = Quantity(limit, unit, figure.quantity.measures if figure else None).in_system(units)
    return Gauge(
        value=value, limit=limit, doubt=finding.uncertainty or 0.0, verdict=finding.verdict,
        limit_text=f"limit {shown.text()}", label=finding.limit_label,
    )  # fmt: skip


def _alternative(asked: AskedQuestion, number: Note | None) -> str:
    said = f" {number.value} {number.unit}".rstrip() if number else ""
    return f"A viewer asks: {shortened(asked.text)} The answer: {asked.finding.sentence}{said}"
