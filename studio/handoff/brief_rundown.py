"""The brief's rundown: each segment with its time, its words, its pictures, its cautions; then props and shots."""

from collections.abc import Iterator

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from studio.handoff.material import Material
from studio.handoff.printed import BOLD, SEMIBOLD, Heading, Picture, paragraph, style, table
from studio.handoff.schedule import TimedSegment
from studio.model.rundown import Segment
from studio.script.chapters import clock
from studio.script.live import without_braces

PICTURE_SHARE = 0.62


def rundown(material: Material, width: float) -> Iterator[Flowable]:
    """The segments in order."""
    segments = material.schedule.segments
    yield CondPageBreak(200)
    yield Heading("Rundown", 0, "rundown", style(18, BOLD, before=14))
    if not segments:
        yield paragraph("The rundown has no segments yet.", style(10))
        return
    basis = f", {material.schedule.basis}" if material.schedule.basis else ""
    yield paragraph(f"Runs {clock(material.schedule.end)}{basis}.", style(10, tint="quiet"))
    for number, segment in enumerate(segments, start=1):
        yield from _segment(material, number, segment, width)


def _segment(material: Material, number: int, segment: TimedSegment, width: float) -> Iterator[Flowable]:
    title = f"{number}. {without_braces(segment.title) or 'Untitled segment'}"
    yield CondPageBreak(90)
    yield Heading(title, 1, f"segment_{segment.id}", style(13, SEMIBOLD, before=10))
    length = clock(segment.end - segment.start)
    yield paragraph(f"from {clock(segment.start)}, {length} long", style(9, tint="quiet"))
    for note in segment.notes:
        yield paragraph(note, style(9, SEMIBOLD, before=3))
    for point in segment.points:
        yield paragraph(point.text, style(10.5, before=4))
    for picture in segment.pictures:
        scene = material.scenes.get(picture.picture)
        named = paragraph(f"{picture.name}, on at {clock(picture.start)}", style(9, tint="quiet", before=4))
        if scene is None:
            yield named
        else:
            yield KeepTogether([Spacer(0, 6), Picture(scene, width * PICTURE_SHARE), named])


def lists(material: Material, width: float) -> Iterator[Flowable]:
    """Props and shots, by segment."""
    segments = material.episode.rundown.segments
    for title, anchor, rows in (("Props", "props", _props(segments)), ("Shots", "shots", _shots(segments))):
        if rows:
            yield CondPageBreak(100)
            yield Heading(title, 0, anchor, style(18, BOLD, before=14))
            cells = [(paragraph(a, style(9, tint="quiet")), paragraph(b, style(10))) for a, b in rows]
            yield table(cells, (150, width - 150))


def _props(segments: tuple[Segment, ...]) -> list[tuple[str, str]]:
    return [(without_braces(segment.title), "; ".join(segment.props)) for segment in segments if segment.props]


def _shots(segments: tuple[Segment, ...]) -> list[tuple[str, str]]:
    return [
        (without_braces(segment.title), f"{shot.text} ({shot.framing})" if shot.framing else shot.text)
        for segment in segments
        for shot in segment.shots
    ]
