"""The ``findings`` verb's text for people: question by question, the verdict first."""

from collections.abc import Sequence

from studio.decide import TOPICS
from studio.decide.wording import day_words, plain
from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.model.source import Source
from studio.reference.tables import Tables

_PLAIN = "says"


def told(episode: Episode, findings: Sequence[Finding], tables: Tables, *, in_full: bool) -> list[str]:
    """The findings under their questions, then each caution once."""
    row = tables.regions.get(episode.region)
    where = row.name if row else episode.region
    lines = [f"{plain(episode.title, 100)}: {day_words(episode.on)}, {where}"]
    for topic in TOPICS:
        mine = [finding for finding in findings if finding.topic == topic.id]
        if mine:
            lines += ["", topic.question]
            for finding in mine:
                lines += _finding(finding, in_full)
    cautions = dict.fromkeys(finding.caution for finding in findings if finding.caution)
    return lines if not cautions else [*lines, "", *(f"! {caution}" for caution in cautions)]


def _finding(finding: Finding, in_full: bool) -> list[str]:
    first = f"  {finding.verdict or _PLAIN:<8} {finding.sentence}"
    if not in_full:
        missing = [f"{'':11}missing: {', '.join(finding.missing)}"] if finding.verdict == "unknown" else []
        return [first, *missing]
    sources = [_source(source) for source in finding.sources]
    parts = {
        "working": finding.working, "from": finding.inputs, "sources": sources, "change": finding.would_change,
        "missing": finding.missing,
    }  # fmt: skip
    return [f"{first}  [{finding.id}]", *(line for name, rows in parts.items() for line in _rows(name, rows))]


def _source(source: Source) -> str:
    """A source on one line; what is trade practice has no place to look it up."""
    if source.standing == "common practice":
        return source.title if source.standing in source.title else f"{source.title} ({source.standing})"
    return f"{source.title}, {source.locator} ({source.standing})"


def _rows(name: str, rows: Sequence[str]) -> list[str]:
    return [f"{'':11}{name if i == 0 else '':<8} {row}" for i, row in enumerate(rows)]
