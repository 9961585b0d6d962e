"""Cue cards: the talking points in large print, two cards to a page, and the shot list on paper and as a table."""

import csv
import io
from collections.abc import Iterator

from reportlab.lib.pagesizes import landscape
from reportlab.platypus import Flowable, KeepInFrame, PageBreak, Spacer, Table, TableStyle

from studio.handoff.material import Material
from studio.handoff.printed import (
    BOLD,
    MARGIN,
    REGULAR,
    SEMIBOLD,
    Heading,
    color,
    document,
    paper,
    paragraph,
    style,
    table,
)
from studio.handoff.schedule import TimedSegment
from studio.script.chapters import clock
from studio.storage.readings_out import safe_text

LARGE, CARD_GAP = 20.0, 24.0
MOST_SIGNS = 330
_HEAD = ("segment", "title", "shot", "framing", "picture", "prop", "from")


def cue_cards(material: Material) -> bytes:
    """The cards as a PDF, cut along the middle; a long segment goes on over several cards."""
    width, height = landscape(paper(material.episode.region))
    card = ((width - 2 * MARGIN - CARD_GAP) / 2, height - 2 * MARGIN)
    cards = [card_ for number, segment in enumerate(material.schedule.segments, 1) for card_ in _cards(number, segment)]
    story: list[Flowable] = []
    for first in range(0, len(cards), 2):
        pair = [KeepInFrame(*card, cards[first + i] if first + i < len(cards) else [Spacer(0, 1)]) for i in (0, 1)]
        sheet = Table([pair], colWidths=[card[0] + CARD_GAP / 2] * 2, rowHeights=[card[1]])
        sheet.setStyle(
            TableStyle([
                ("FONTNAME", (0, 0), (-1, -1), REGULAR), ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (0, 0), 0),
                ("LINEAFTER", (0, 0), (0, 0), 0.5, color("quiet"), None, (3, 3)), ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("LEFTPADDING", (1, 0), (1, 0), CARD_GAP / 2),
            ])
        )  # fmt: skip
        story += [sheet, PageBreak()]
    if not story:
        story = [paragraph("The rundown has no segments yet, so there are no cards.", style(12))]
    title = f"Cue cards: {material.episode.title}"
    return document(story, (width, height), title, material.episode.channel, title)


def _cards(number: int, segment: TimedSegment) -> Iterator[list[Flowable]]:
    """The cards of a segment: as many points as stand large on one."""
    groups: list[list[str]] = [[]]
    for text in _portions(segment):
        if groups[-1] and sum(map(len, groups[-1])) + len(text) > MOST_SIGNS:
            groups.append([])
        groups[-1].append(text)
    for place, texts in enumerate(groups):
        more = f" ({place + 1} of {len(groups)})" if len(groups) > 1 else ""
        card: list[Flowable] = [
            paragraph(f"{number}. {segment.title}{more}", style(13, SEMIBOLD, "measure")),
            paragraph(
                f"from {clock(segment.start)}, {clock(segment.end - segment.start)} long", style(9, tint="quiet")
            ),
        ]
        if place == 0:
            card += [paragraph(note, style(10, SEMIBOLD, before=4)) for note in segment.notes]
        card += [paragraph(text, style(LARGE, before=8)) for text in texts]
        if place == len(groups) - 1:
            named = ", ".join(dict.fromkeys(picture.name for picture in segment.pictures))
            card += [paragraph(f"Picture: {named}", style(10, tint="measure", before=8))] if named else []
        yield card


def _portions(segment: TimedSegment) -> Iterator[str]:
    """The points, a very long one cut at a blank so that it fits on a card."""
    for point in segment.points:
        rest = " ".join(point.text.split())
        while len(rest) > MOST_SIGNS:
            cut = rest.rfind(" ", 0, MOST_SIGNS)
            cut = cut if cut > 0 else MOST_SIGNS
            yield rest[:cut]
            rest = rest[cut:].lstrip()
        if rest:
            yield rest


def shot_rows(material: Material) -> list[tuple[str, ...]]:
    """One row for each shot, picture or prop: segment, title, shot, framing, picture, prop, from."""
    rows: list[tuple[str, ...]] = []
    for segment, timed in zip(material.episode.rundown.segments, material.schedule.segments, strict=True):
        start = clock(timed.start)
        rows += [(segment.id, timed.title, shot.text, shot.framing, "", "", start) for shot in segment.shots]
        rows += [(segment.id, timed.title, "", "", its.name, "", clock(its.start)) for its in timed.pictures]
        rows += [(segment.id, timed.title, "", "", "", prop, start) for prop in segment.props]
    return rows


def shot_table(material: Material) -> str:
    """The shot list as CSV; no cell runs as a formula in a spreadsheet."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(_HEAD)
    writer.writerows([safe_text(text) for text in row] for row in shot_rows(material))
    return out.getvalue()


def shot_list(material: Material) -> bytes:
    """The shot list as a PDF."""
    size = paper(material.episode.region)
    width = size[0] - 2 * MARGIN
    story: list[Flowable] = [Heading("Shots, pictures and props", 0, "shots", style(18, BOLD))]
    small, bold = style(9.5), style(9.5, SEMIBOLD)
    rows = [[paragraph(text, bold) for text in ("From", "Segment", "Shot", "Picture", "Prop")]]
    before = ""
    for segment, its, shot, framing, picture, prop, start in shot_rows(material):
        said = f"{shot} ({framing})" if framing else shot
        title, before = ("" if segment == before else its), segment
        rows.append([paragraph(text, small) for text in (start, title, said, picture, prop)])
    if len(rows) == 1:
        story.append(paragraph("No shots, pictures or props are planned yet.", style(10)))
    else:
        each = (width - 45) / 4
        story.append(table(rows, (45, each, each, each, each), head=True))
    title = f"Shot list: {material.episode.title}"
    return document(story, size, title, material.episode.channel, title)
