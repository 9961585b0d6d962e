"""The findings as the list shows them: grouped by question, each with its number and its scale, all as plain values."""

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from studio.graphics.parts.signs import verdict_word
from studio.model.finding import SEVERITY, Figure, Finding, Findings, Verdict
from studio.model.quantity import Kind, Quantity, System, UnitError
from studio.window.findings_scale import Scale

ROOM = 1.08  # a scale ends a little beyond its largest number
COLUMNS = ("question", "verdict", "finding", "number", "limit", "whose limit", "distance", "uncertainty")


@dataclass(frozen=True)
class Heading:
    """A question that the car raises."""

    topic: str
    question: str
    gravest: Verdict | None = None
    calls: str = ""
    """What its answers call for, the gravest first: ``1 says replace, 2 say watch``; empty where all can stay."""


@dataclass(frozen=True)
class Row:
    """One finding: its deciding number in the audience's unit, the same in the other, how far from the limit."""

    finding: Finding
    number: str = ""
    other: str = ""
    what: str = ""
    """What the number is: ``overall diameter``."""
    limit: str = ""
    distance: str = ""
    doubt: str = ""
    scale: Scale | None = None

    @property
    def spoken(self) -> str:
        """The row in one sentence, for assistive technology."""
        parts = (verdict_word(self.finding.verdict), self.finding.sentence, self.number, self.distance, self.doubt)
        return ". ".join(part.rstrip(".") for part in parts if part)


def calls_for(findings: Iterable[Finding]) -> tuple[tuple[Verdict, int], ...]:
    """How many findings call for what, the gravest first; what can stay and what is not known are left out."""
    counts = Counter(finding.verdict for finding in findings)
    return tuple((verdict, counts[verdict]) for verdict in reversed(SEVERITY[1:]) if counts[verdict])


def calls_words(findings: Iterable[Finding]) -> str:
    """The same in words: ``1 says replace, 2 say watch``. Findings are counted, not tires: one tire has several."""
    return ", ".join(f"{count} {'says' if count == 1 else 'say'} {verdict}" for verdict, count in calls_for(findings))


def deciding(finding: Finding) -> Quantity | None:
    """The deciding number as a quantity; its kind is that of the finding's figure of the same value."""
    return _quantity(finding, finding.value)


def rows(findings: Findings, questions: Mapping[str, str], units: System) -> tuple[Heading | Row, ...]:
    """Headings and rows in order; ``questions`` gives each topic's question. A topic without one has its own name."""
    topics = dict.fromkeys([*questions, *(finding.topic for finding in findings)])
    listed: list[Heading | Row] = []
    for topic in topics:
        group = findings.of(topic)
        if group:
            listed.append(_heading(topic, questions, group))
            listed += [_row(finding, group, units) for finding in group]
    return tuple(listed)


def table(chosen: Iterable[Row], questions: Mapping[str, str]) -> str:
    """The rows as a table of tab-separated text with a heading, as a spreadsheet takes it in."""
    lines = [COLUMNS]
    for row in chosen:
        its = row.finding
        lines.append(
            (questions.get(its.topic, its.topic), verdict_word(its.verdict), its.sentence, row.number, row.limit,
             its.limit_label, row.distance, row.doubt)
        )  # fmt: skip
    return "\n".join("\t".join(_cell(text) for text in line) for line in lines)


def _heading(topic: str, questions: Mapping[str, str], group: tuple[Finding, ...]) -> Heading:
    calls = calls_for(group)
    question = questions.get(topic) or topic.replace("_", " ").capitalize()
    return Heading(topic, question, calls[0][0] if calls else None, calls_words(group))


def _row(finding: Finding, group: tuple[Finding, ...], units: System) -> Row:
    value = deciding(finding)
    if value is None:
        return Row(finding)
    mine = value.in_system(units)
    other = value.in_system("metric" if units == "us" else "us")
    better = _better(group, finding.unit)
    doubt = _difference(finding, finding.uncertainty, units)
    return Row(
        finding, number=mine.text(), other="" if other.unit == mine.unit else other.text(),
        what=figure.label if (figure := _deciding_figure(finding)) else "",
        limit=_limit(finding, units), distance=_distance(finding, better, units),
        doubt=_doubt_words(finding, doubt), scale=_scale(finding, group, better),
    )  # fmt: skip


def _quantity(finding: Finding, value: float | None) -> Quantity | None:
    if value is None or finding.unit is None:
        return None
    return Quantity(value, finding.unit, _kind(finding))


def _kind(finding: Finding) -> Kind | None:
    figure = _deciding_figure(finding)
    return figure.quantity.measures if figure else None


def _deciding_figure(finding: Finding) -> Figure | None:
    """The figure that is the finding's own number, in whatever unit it is given."""
    return next((its for its in finding.figures if _is_same(its.quantity, finding)), None)


def _is_same(quantity: Quantity, finding: Finding) -> bool:
    if finding.value is None or finding.unit is None:
        return False
    try:
        return math.isclose(quantity.to(finding.unit).value, finding.value, rel_tol=1e-9, abs_tol=1e-12)
    except UnitError:
        return False


def _difference(finding: Finding, value: float | None, units: System) -> str:
    """A difference in the unit shown; one of temperatures stays in its own, whose zero is another's."""
    found = _quantity(finding, value)
    if found is None or not value:
        return ""
    return found.text() if found.measures == "temperature" else found.in_system(units).text()


def _doubt_words(finding: Finding, doubt: str) -> str:
    """Where the uncertainty comes from a gauge, that is said."""
    if not doubt:
        return ""
    by_gauge = any(".gauge" in path for path in finding.inputs)
    return f"gauge ±{doubt}" if by_gauge else f"give or take {doubt}"


def _limit(finding: Finding, units: System) -> str:
    found = _quantity(finding, finding.limit)
    return found.in_system(units).text() if found else ""


def _distance(finding: Finding, better: int, units: System) -> str:
    if finding.limit is None or finding.margin is None:
        return ""
    if finding.margin == 0:
        return "at the limit"
    apart = _difference(finding, abs(finding.margin), units)
    if better == 0:
        return f"{apart} from the limit"
    if better > 0:
        return f"{apart} {'above' if finding.margin > 0 else 'under'} the limit"
    return f"{apart} {'under' if finding.margin > 0 else 'over'} the limit"


def _better(group: tuple[Finding, ...], unit: str | None) -> int:
    """Whether more is better: what margin and value of any finding of the group say together."""
    for its in group:
        if its.unit == unit and its.margin and its.value is not None and its.limit is not None:
            return 1 if (its.value > its.limit) == (its.margin > 0) else -1
    return 0


def _scale(finding: Finding, group: tuple[Finding, ...], better: int) -> Scale | None:
    """All scales of one question and unit have the same ends, so that their rows can be compared by eye."""
    if finding.value is None or finding.limit is None:
        return None
    alike = [its for its in group if its.unit == finding.unit]
    ends = [number for its in alike for number in _numbers(its)]
    low, high = min(0.0, *ends), max(0.0, *ends)
    return Scale(
        low=low * ROOM, high=high * ROOM, value=finding.value, limit=finding.limit,
        uncertainty=finding.uncertainty or 0.0, better=better,
    )  # fmt: skip


def _numbers(finding: Finding) -> list[float]:
    doubt = finding.uncertainty or 0.0
    numbers = [] if finding.value is None else [finding.value - doubt, finding.value + doubt]
    its, new = deciding(finding), finding.figure("depth_new")
    if its is not None and new is not None and its.measures == new.measures:
        numbers.append(new.to(its.unit).value)
    return [*numbers, *([] if finding.limit is None else [finding.limit])]


def _cell(text: str) -> str:
    """Text that a spreadsheet takes as text: no line ends or tabs in it, and nothing that it would compute."""
    line = " ".join(text.split())
    return f"'{line}" if line[:1] in ("=", "+", "-", "@") else line
