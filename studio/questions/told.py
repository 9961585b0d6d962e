"""What an answer says, taken apart for a screen: sentence, numbers as quantities, one finding that carries both.

Nothing is computed here: every number is one of the answer's own.
"""

import re

import msgspec

from studio.model.episode import Episode
from studio.model.finding import AskedQuestion, Figure, Finding, Findings
from studio.model.quantity import Kind, Quantity, UnitName
from studio.model.question import Question
from studio.questions.answer_values import Answer
from studio.questions.answering import answer
from studio.reference.tables import Tables

PICTURE = "answer"
_MOST_TRIED = 60
_LONGEST = 110
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+(?=[A-Z0-9])")
_NUMBERS: dict[str, tuple[UnitName, Kind | None, str]] = {
    "depth_32nds": ("32nds", "depth", "lowest depth"),
    "above_legal_mm": ("mm", "depth", "above the legal minimum"),
    "legal_minimum_mm": ("mm", "depth", "legal minimum"),
    "difference_32nds": ("32nds", "depth", "difference of depth"),
    "circumference_difference_mm": ("mm", "length", "difference of circumference"),
    "circumference_difference_percent": ("%", None, "of the circumference"),
    "overall_diameter_change_percent": ("%", None, "change of overall diameter"),
    "true_speed_at_60": ("", None, "true speed where 60 is shown"),
    "load_index_change": ("", None, "change of load index"),
    "age_years": ("years", None, "age"),
    "made_week": ("", None, "week made"),
    "made_year": ("", None, "year made"),
    "expected_psi": ("psi", None, "pressure to expect"),
    "distance_to_2_32nds_miles": ("mi", None, "left to 2/32 in"),
    "distance_to_4_32nds_miles": ("mi", None, "left to 4/32 in"),
    "distance_to_legal_km": ("km", None, "left to the legal minimum"),
    "hydroplaning_speed_mph": ("mph", None, "speed at which it can float"),
    "load_kg": ("kg", None, "load"),
    "speed_kmh": ("km/h", None, "speed"),
    "mm": ("mm", "depth", "converted"),
    "32nds": ("32nds", "depth", "converted"),
    "psi": ("psi", None, "converted"),
    "kpa": ("kPa", None, "converted"),
    "bar": ("bar", None, "converted"),
    "miles": ("mi", None, "converted"),
    "km": ("km", None, "converted"),
    "kg": ("kg", None, "converted"),
    "lb": ("lb", None, "converted"),
}
"""Of each number its unit, its kind where the unit leaves it open, and what it is; the most telling first.

The other unit of the same number follows from it, so ``depth_mm`` and the like are not listed again.
"""
_TENTHS = ("true_speed_at_60",)


def figures_of(its: Answer) -> tuple[Figure, ...]:
    """The answer's numbers as quantities, each once, the most telling first."""
    found = []
    for name, (unit, kind, label) in _NUMBERS.items():
        value = its.numbers.get(name)
        if isinstance(value, int | float):
            rounded = round(float(value), 1) if name in _TENTHS else float(value)
            found.append(Figure(name=name, label=label, quantity=Quantity(rounded, unit, kind)))
    return tuple(found)


def sentence_of(its: Answer) -> str:
    """One sentence that answers: of a finding, else the first of the reply."""
    if its.finding is not None:
        return its.finding.sentence
    said = _SENTENCE_END.split(its.said)
    return _shortened(next((each for each in said if any(char.isdigit() for char in each)), said[0]))


def rest_of(its: Answer) -> str:
    """What the reply begins with besides that sentence."""
    said = sentence_of(its).rstrip(".")
    before, found, after = its.said.partition(said)
    if not found:
        return its.said
    left = " ".join(part for part in (before.strip(), after.lstrip(".; ").strip()) if part)
    return left[:1].upper() + left[1:]


def _shortened(sentence: str) -> str:
    """A sentence that is too long for a screen, up to the end of one of its parts."""
    if len(sentence) <= _LONGEST:
        return sentence
    parts = sentence.split("; ")
    return f"{parts[0].rstrip('.')}." if len(parts) > 1 else sentence


def finding_of(question: Question, index: int, its: Answer) -> Finding:
    """The answer as one finding, worked out from ``questions[index]``; what else the reply says is its detail."""
    found = its.finding or _of_numbers(its)
    names = [figure.name for figure in figures_of(its)[1:]]
    rest = rest_of(its)
    return msgspec.structs.replace(
        found,
        id=f"{PICTURE}.{question.id}",
        topic=its.kind,
        subject=question.id,
        verdict=its.verdict,
        steps=its.steps or found.steps,
        sources=its.sources or found.sources,
        warning=its.warning or found.warning,
        inputs=(f"questions[{index}].text",),
        figures=tuple({figure.name: figure for figure in (*found.figures, *figures_of(its))}.values()),
        detail=(*found.detail, ("asked", question.text), ("more", rest), ("told", " ".join(names))),
    )


def _of_numbers(its: Answer) -> Finding:
    """An answer by a table or a formula: its first number decides."""
    figures = figures_of(its)
    first = figures[0].quantity if figures else None
    return Finding(
        id=PICTURE,
        topic=its.kind,
        subject="",
        sentence=sentence_of(its),
        value=first.value if first else None,
        unit=first.unit if first else None,
        figures=figures,
    )


def can_be_shown(its: Answer) -> bool:
    """Whether there is an answer to show: something was computed or judged, and nothing in it is impossible."""
    return its.kind != "none" and not its.open and not its.invalid and bool(sentence_of(its))


def with_answer(episode: Episode, findings: Findings, tables: Tables) -> Findings:
    """The findings with the viewer's question that the picture shows: the chosen one, else the first with an answer."""
    for index, question in _candidates(episode):
        its = answer(
            question.text, tables=tables, on=episode.on, episode=episode, length="short", corrected=question.corrected
        )
        if can_be_shown(its):
            asked = AskedQuestion(id=question.id, text=question.text, finding=finding_of(question, index, its))
            return msgspec.structs.replace(findings, asked=(asked,))
    return findings


def _candidates(episode: Episode) -> list[tuple[int, Question]]:
    chosen = next((its.specimens for its in episode.pictures if its.picture == PICTURE and its.specimens), ())
    numbered = list(enumerate(episode.questions))
    if chosen and (mine := [pair for pair in numbered if pair[1].id == chosen[0]]):
        return mine
    return [pair for pair in numbered if pair[1].state != "set_aside"][:_MOST_TRIED]
