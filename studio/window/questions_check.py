"""The number check of a reply that the presenter has reworded: against the answer's own numbers and the tables."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

import msgspec

from studio.model.finding import Figure, Finding, Findings
from studio.model.quantity import Quantity, System
from studio.model.question import Question
from studio.questions.answer_values import Answer
from studio.questions.facts import Fact
from studio.questions.told import finding_of
from studio.script.check_text import Mark, check_text
from studio.script.sentences import sentence_starts
from studio.window.tasks import Job

_UNIT_CHARS = " \u2009\u00a0"


def findings_for(question: Question, its: Answer) -> Findings:
    """All that backs a number of the reply: the decisions' findings, the answers themselves, what the viewer wrote."""
    answers = (its, *its.also)
    own = tuple(
        msgspec.structs.replace(finding_of(question, 0, each), id=f"answer_{number}.{question.id}")
        for number, each in enumerate(answers)
    )
    decided = tuple(finding for each in answers for finding in each.findings)
    return Findings((*decided, *own, _as_written(question, its.read)))


def _as_written(question: Question, facts: Sequence[Fact]) -> Finding:
    """What the viewer gave, so that it may be said back to them."""
    figures = tuple(
        Figure(name=f"read_{number}", label=f"{fact.field.replace('_', ' ')} as written", quantity=fact.value)
        for number, fact in enumerate(facts)
        if isinstance(fact.value, Quantity)
    )
    return Finding(id=f"comment.{question.id}", topic="comment", subject=question.id, sentence="", figures=figures)


def marks_of(
    reply: str, computed: Sequence[str], question: Question, its: Answer, tables: Any, units: System
) -> tuple[Mark, ...]:
    """The marks of the reply. Sentences taken over from the ``computed`` wordings stand; of the others a number that
    those wordings hold too is backed, unless it contradicts what it is said of."""
    found = check_text(reply, findings_for(question, its), tables, units)
    own = [_squeezed(text) for text in computed]
    known = " ".join([*own, _squeezed(question.text)])
    taken = tuple(span for span in _sentences(reply) if any(_squeezed(reply[slice(*span)]) in text for text in own))
    return tuple(_settled(mark, taken, known) for mark in found.marks)


def _settled(mark: Mark, taken: Sequence[tuple[int, int]], known: str) -> Mark:
    if mark.state not in ("contradicted", "unbacked"):
        return mark
    stands = any(start <= mark.start < end for start, end in taken)
    if stands or (mark.state == "unbacked" and _holds(known, _squeezed(mark.text))):
        return msgspec.structs.replace(mark, state="computed", expected="", why="as the answer says", conversion=False)
    return mark


def _holds(known: str, said: str) -> bool:
    """Whether the number stands there as a whole, not as a part of a longer one."""
    at = known.find(said)
    while said and at >= 0:
        before, after = known[at - 1 : at], known[at + len(said) : at + len(said) + 1]
        if not (before.isdigit() or (before and before in ".,/") or after.isdigit()):
            return True
        at = known.find(said, at + 1)
    return False


def _sentences(text: str) -> Iterator[tuple[int, int]]:
    starts = [*sentence_starts(text), len(text)]
    yield from ((start, end) for start, end in pairwise(starts) if text[start:end].strip())


def _squeezed(text: str) -> str:
    return " ".join(text.translate(dict.fromkeys(map(ord, _UNIT_CHARS), " ")).split())


def check_job(
    reply: str, computed: Sequence[str], question: Question, its: Answer, tables: Any, units: System
) -> Job:
    """Check the reply; returns (the reply checked, its marks)."""
    yield None
    return reply, marks_of(reply, computed, question, its, tables, units)
