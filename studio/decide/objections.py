"""What other topics hold against a tire that its tread alone would let stay on: its damage, its age."""

import msgspec

from studio.decide import age, condition
from studio.decide.condition_read import Condition, judge
from studio.decide.condition_read import Part as ConditionPart
from studio.model.finding import SEVERITY, Verdict
from studio.model.source import Source
from studio.reference.tables import Tables

_CALLS: dict[str, str] = {"replace": "replace it", "inspect": "have it looked at"}


class Objection(msgspec.Struct, frozen=True, kw_only=True):
    """What one topic holds against a tire: ``words`` go on a sentence about it (``is 12.3 years old: replace it``)."""

    topic: str
    verdict: Verdict
    words: str
    path: str
    source: Source
    caution: str


def objections(aged: age.Part, damaged: ConditionPart | None, tables: Tables) -> tuple[Objection, ...]:
    """The objections to one tire, the gravest first, of equal ones damage before age."""
    found = [_by_condition(judge(damaged, tables)) if damaged else None, _by_age(aged, tables)]
    return tuple(sorted(filter(None, found), key=lambda it: -SEVERITY.index(it.verdict)))


def _by_condition(its: Condition) -> Objection:
    item = its.deciding
    hole = item.kind.kind == "puncture"
    shows = f"{'is punctured' if hole else f'shows {item.kind.brief}'}{' beyond repair' if item.broken else ''}"
    source = (*(check.source for check in item.broken), *(row.source for row in item.rules), item.kind.source)[0]
    return Objection(
        topic=condition.TOPIC, verdict=its.verdict, words=f"{shows}: {_CALLS[its.verdict]}", path=item.seen.path,
        source=source, caution="repair" if hole else "damage",
    )  # fmt: skip


def _by_age(part: age.Part, tables: Tables) -> Objection | None:
    its = age.read_part(part, tables)
    if its is None or its.reached is None:
        return None
    return Objection(
        topic=age.TOPIC, verdict=its.verdict, words=f"{age.clause(its)}: {_CALLS[its.verdict]}",
        path=f"{part.subject.path}.date_code", source=its.reached.source, caution="over_age",
    )  # fmt: skip
