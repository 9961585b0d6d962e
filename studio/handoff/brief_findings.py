"""The brief's findings, each with its working, inputs, sources and caution, and the list of all sources by standing."""

from collections.abc import Iterator
from typing import get_args

from reportlab.platypus import CondPageBreak, Flowable, Spacer

from studio.decide import TOPICS
from studio.decide.input_words import input_words, source_words
from studio.graphics.parts.signs import verdict_word
from studio.handoff.material import Material
from studio.handoff.printed import BOLD, SEMIBOLD, Heading, Sign, lines_of, paragraph, style, table
from studio.model.finding import Finding
from studio.model.source import Source, Standing

_SIGN, _LABEL, _LEAST = 18.0, 78.0, 130.0
_MOST_INPUTS = 12


def findings(material: Material, width: float) -> Iterator[Flowable]:
    """All findings under their questions."""
    if not len(material.findings):
        return
    yield CondPageBreak(200)
    yield Heading("Findings", 0, "findings", style(18, BOLD, before=14))
    for topic in TOPICS:
        mine = material.findings.of(topic.id)
        if mine:
            yield CondPageBreak(110)
            yield Heading(topic.question, 1, f"topic_{topic.id}", style(13, SEMIBOLD, "measure", before=10))
        for finding in mine:
            yield from _finding(material, finding, width)


def _finding(material: Material, finding: Finding, width: float) -> Iterator[Flowable]:
    title = f"{verdict_word(finding.verdict)}: {finding.sentence}" if finding.verdict else finding.sentence
    heading = Heading(title[:1].upper() + title[1:], 2, finding.id, style(10, SEMIBOLD))
    rows = [(paragraph(label, style(8, tint="quiet")), lines_of(lines, style(8)))
            for label, lines in _parts(material, finding) if lines]  # fmt: skip
    yield CondPageBreak(_LEAST)
    yield Spacer(0, 5)
    head: Flowable = table([(Sign(finding.verdict), heading)], (_SIGN, width - _SIGN)) if finding.verdict else heading
    head.keepWithNext = 1  # type: ignore[attr-defined, unused-ignore]
    yield head
    if rows:
        yield table(rows, (_LABEL, width - _LABEL))


def _parts(material: Material, finding: Finding) -> list[tuple[str, list[str]]]:
    inputs = [input_words(material.episode, path) for path in finding.inputs]
    if len(inputs) > _MOST_INPUTS:
        rest = len(inputs) - _MOST_INPUTS
        inputs = [*inputs[:_MOST_INPUTS], f"and {rest} more reading{'s' if rest > 1 else ''}"]
    return [
        ("working", list(finding.working)),
        ("from", ["; ".join(inputs)] if inputs else []),
        ("missing", list(finding.missing)),
        ("would change it", list(finding.would_change)),
        ("sources", ["; ".join(source_words(source) for source in finding.sources)] if finding.sources else []),
        ("caution", [finding.caution] if finding.caution else []),
    ]


def source_list(material: Material, width: float) -> Iterator[Flowable]:
    """Every source once, the best standing first."""
    all_ = dict.fromkeys(source for finding in material.findings for source in finding.sources)
    if not all_:
        return
    yield CondPageBreak(120)
    yield Heading("Sources by standing", 0, "sources", style(18, BOLD, before=14))
    for standing in get_args(Standing):
        mine = sorted({_place(source) for source in all_ if source.standing == standing})
        if mine:
            yield CondPageBreak(60)
            yield Heading(standing[:1].upper() + standing[1:], 1, f"standing_{standing}", style(12, SEMIBOLD, before=6))
            for text in mine:
                yield paragraph(text, style(9, left=10))


def _place(source: Source) -> str:
    return f"{source.title}, {source.locator}" if source.locator not in ("", "none") else source.title
