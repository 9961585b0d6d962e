"""The brief: the episode on paper, with every number's working and source, for whoever checks or edits it."""

from collections.abc import Iterator, Sequence

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, PageBreak, Spacer

from studio.decide.wording import day_words
from studio.graphics.parts.signs import verdict_word
from studio.handoff import brief_car, brief_findings, brief_rundown
from studio.handoff.material import Material
from studio.handoff.printed import (
    BOLD,
    MARGIN,
    SEMIBOLD,
    Heading,
    Picture,
    Sign,
    document,
    linked,
    paper,
    paragraph,
    style,
    table,
)
from studio.model.finding import SEVERITY, Finding

COVER_PICTURES = ("depth_by_wheel", "depth_compare", "size_code")
MOST_VERDICTS = 12
COVER_SHARE = 0.82
_SIGN, _WORD = 18.0, 108.0


def brief(material: Material) -> bytes:
    """The brief as a PDF; equal material gives equal bytes."""
    episode = material.episode
    size = paper(episode.region)
    width = size[0] - 2 * MARGIN
    story = [
        *_cover(material, width),
        PageBreak(),
        *brief_car.car_sheet(material, width),
        *brief_car.specimen_sheets(material, width),
        *brief_rundown.rundown(material, width),
        *brief_rundown.lists(material, width),
        *_cautions(material),
        *brief_findings.findings(material, width),
        *brief_findings.source_list(material, width),
    ]
    return document(story, size, episode.title or "Untitled episode", episode.channel, episode.title)


def _cover(material: Material, width: float) -> Iterator[Flowable]:
    episode = material.episode
    if episode.channel:
        yield paragraph(episode.channel, style(11, SEMIBOLD, "measure"))
    yield Heading(episode.title or "Untitled episode", 0, "cover", style(26, BOLD, before=4))
    yield paragraph(f"Brief for {day_words(episode.on)}. Limits: {material.region_words}.", style(11, tint="quiet"))
    yield Spacer(0, 10)
    picture = next((material.scenes[id_] for id_ in COVER_PICTURES if id_ in material.scenes), None)
    if picture is not None:
        yield Picture(picture, width * COVER_SHARE)
        yield Spacer(0, 10)
    worst = _by_severity(material.findings.all)[:MOST_VERDICTS]
    if not worst:
        yield paragraph("No readings yet: nothing is found, and nothing is judged.", style(11))
        return
    yield paragraph("What it comes to", style(14, SEMIBOLD, before=6))
    side = width - _SIGN - _WORD
    rows = [
        (Sign(finding.verdict), paragraph(verdict_word(finding.verdict), style(10, SEMIBOLD)),
         linked(finding.sentence, finding.id, style(10)))
        for finding in worst
    ]  # fmt: skip
    yield table(rows, (_SIGN, _WORD, side))


def _by_severity(findings: Sequence[Finding]) -> list[Finding]:
    """What needs doing first; a finding that only gives a quantity is no verdict."""
    order = {verdict: rank for rank, verdict in enumerate(reversed(SEVERITY))}
    judged = [finding for finding in findings if finding.verdict in order and finding.verdict != "keep"]
    return sorted(judged, key=lambda finding: order[finding.verdict or "keep"])


def _cautions(material: Material) -> Iterator[Flowable]:
    texts = list(dict.fromkeys(finding.caution for finding in material.findings if finding.caution))
    shown = [note for segment in material.schedule.segments for note in segment.notes]
    texts = list(dict.fromkeys([*texts, *shown]))
    if not texts:
        return
    yield CondPageBreak(120)
    yield Heading("Cautions", 0, "cautions", style(18, BOLD, before=14))
    for text in texts:
        yield KeepTogether([paragraph(text, style(10, before=4))])
