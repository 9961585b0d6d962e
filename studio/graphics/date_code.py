"""The date code read out: the digits on the sidewall, their week on the year's ring, the age on the episode's day."""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.date_code_layout import Advice, Arranged, Code, arrange
from studio.graphics.draw import polyline
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.uncut import plan_uncut
from studio.graphics.look import Look
from studio.graphics.parts.age_line import advice_mark, age_line
from studio.graphics.parts.date_plate import date_plate, group_bracket
from studio.graphics.parts.scale_bar import line_width
from studio.graphics.parts.year_ring import year_ring
from studio.graphics.scene import ArcText, Scene, Shape, Stroke, Text
from studio.graphics.specimens import chosen_subjects, finding_for, gravest
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.quantity import System
from studio.model.source import Source

STEPS = ("the code", "the week", "the year", "advice", "the age")
_ADVICE = {"advice_replace": "replace", "advice_plan": "plan a new one", "advice_inspect": "a look every year"}
_DECIDES = tuple(_ADVICE)  # the gravest first: the one that still speaks where the decade is not known
_OPEN = 10.0  # years drawn beyond the least age where the decade is not known


class DateCodeData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown."""

    words: Words
    sources: tuple[Source, ...]
    code: Code
    notes: tuple[Note, ...]
    findings: tuple[str, ...]


@picture("date_code")
class DateCode:
    """The last digits of a tire's identification number, in plain words."""

    id = "date_code"
    name = "The date code read out"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> DateCodeData:
        """The tire asked for, else the one whose age weighs most. Raises CannotShow."""
        finding = _chosen(episode, findings, request)
        return DateCodeData(
            words=Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution),
            sources=finding.sources, code=_code(finding), notes=_notes(finding, request.units),
            findings=(finding.id,),
        )  # fmt: skip

    def compose(self, data: DateCodeData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        notes = data.notes if frame.shape != "square" else tuple(_brief(note) for note in data.notes)
        page = plan_uncut(lambda these: plan(frame, look, words, these, discs=True), notes, _brief)
        its = arrange(data.code, {note.name for note, _ in page.placed}, page.drawing, frame)
        line = line_width(frame)
        marks: list[Shape | Text | ArcText] = [*date_plate(its.plate, look, "code", line)]
        marks += _groups(its, frame, look)
        if its.ring:
            marks += year_ring(its.ring, look, "year", line, frame.cap_height("small"), 1, 1)
        marks += _ring_words(its, frame, look)
        marks += age_line(its.line, look.fill_of(data.words.verdict) or look.steel, frame, look, "age", 3)
        for advice, high in zip(data.code.advice, its.stems, strict=True):
            marks += advice_mark(its.line, advice.years, high, frame, look, f"{advice.name}/line", 3)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground,
            marks=(*marks, *page.marks(its.anchors, in_order=True)), steps=STEPS, title=words.sentence,
            alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _chosen(episode: Episode, findings: Findings, request: Request) -> Finding:
    for subject in chosen_subjects(episode, request, most=1):
        finding = finding_for(findings, "age", subject)
        if not finding.word("digits"):
            raise CannotShow(f"the date code is missing: {finding.sentence}")
        return finding
    oldest = gravest(findings.of("age"))
    if oldest is None:
        raise CannotShow("no tire has a date code that can be read yet")
    return oldest


def _code(finding: Finding) -> Code:
    age, week, year = finding.figure("age"), finding.figure("made_week"), finding.figure("made_year")
    if age is None or week is None or year is None:
        raise CannotShow(f"the date code is missing: {finding.sentence}")
    known = finding.word("decade") == "known"
    advice = tuple(
        Advice(name=figure.name, years=figure.quantity.value)
        for figure in finding.figures if figure.name in (_DECIDES if known else _DECIDES[:1])
    )  # fmt: skip
    return Code(
        digits=finding.word("digits"), week=f"week {week.text()}", year=year.text() if known else "decade unknown",
        day=float(finding.word("first_day_of_year")) - 1.0, from_day=finding.word("first_day") if known else "",
        years=age.value, last=_last(age.value, advice, known), known=known, advice=advice,
    )  # fmt: skip


def _last(years: float, advice: tuple[Advice, ...], known: bool) -> float:
    """How far the line of years runs: past today and past the last advice."""
    furthest = max([years if known else years + _OPEN, *(its.years for its in advice)])
    return furthest * 1.06 if known else furthest


def _notes(finding: Finding, units: System) -> tuple[Note, ...]:
    """The age first, then the ages of which advice speaks."""
    notes: list[Note] = []
    age, on = finding.figure("age"), finding.word("on")
    known = finding.word("decade") == "known"
    if age:
        label = f"old on {on}" if known else "old, at least"
        notes.append(msgspec.structs.replace(deciding_note("age_now", age, label, units, 4),
                                             brief="old" if known else label))  # fmt: skip
    if not known:  # what three digits can say and what not
        notes.append(Note(name="years", value="The year", label=finding.word("years"), step=2, priority=1))
    for name in _DECIDES if known else _DECIDES[:1]:
        figure = next((figure for figure in finding.figures if figure.name == name), None)
        if figure:
            note = note_of(name, figure.quantity, f"advice: {_ADVICE[name]} ({figure.brief})", units, 3,
                           priority=1 + (name == _DECIDES[-1]))  # fmt: skip
            notes.append(msgspec.structs.replace(note, brief=f"advice: {_ADVICE[name]}"))
    return tuple(notes)


def _brief(note: Note) -> Note:
    """The age in two lines; the sentence or the sources say the rest."""
    return msgspec.structs.replace(note, label=note.brief or note.label)


def _groups(its: Arranged, frame: Frame, look: Look) -> list[Shape | Text]:
    """The brackets under the digits, joined to what they say."""
    marks: list[Shape | Text] = []
    line = line_width(frame)
    for group, (name, text, at, anchor) in enumerate(its.said):
        step = group + 1
        x = its.plate.foot(group)[0]
        foot = its.plate.box.bottom
        below = at[1] > foot
        held, pointer = group_bracket(its.plate, group, look, name, line, step)
        marks += (held, pointer) if below else (held,)
        if below:
            marks.append(Shape(name=f"{name}/pointer below", step=step, stroke=Stroke(look.measure, 0.75 * line),
                               outline=polyline(((x, foot), (x, foot + 0.9 * frame.grid)))))  # fmt: skip
        marks.append(Text(name=f"{name}/words", step=step, text=text, at=at, anchor=anchor, weight="semibold",
                          cap_height=frame.cap_height("callout"), fill=look.ink, ground=look.ground,
                          role="callout"))  # fmt: skip
    return marks


def _ring_words(its: Arranged, frame: Frame, look: Look) -> list[Text]:
    cap = frame.cap_height("small")
    return [
        Text(name=f"year/words{order}", step=1, text=text, at=at, anchor="middle", cap_height=cap, role="small",
             weight="regular", fill=look.ink, ground=look.ground)
        for order, (text, at) in enumerate(its.ring_words)
    ]  # fmt: skip


def _alternative(data: DateCodeData) -> str:
    code, age = data.code, data.notes[0]
    return (
        f"The date code {code.digits} on a sidewall: {code.week}, {code.year}; {age.value} {age.unit} {age.label}, on "
        "a line of years with the ages of which advice speaks."
    )
