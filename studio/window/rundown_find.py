"""Finding a text in the rundown, and what a path of it leads to."""

from collections.abc import Iterator
from dataclasses import dataclass

from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.paths import steps
from studio.model.rundown import Rundown, Segment
from studio.script.check import TITLE
from studio.script.live import filled, screen_text
from studio.script.numbers import by_id
from studio.window.rundown_list import WHOLE


@dataclass(frozen=True)
class Found:
    """Where a text stands: the segment, its point with a stretch of the filled text, or a path within the segment."""

    segment: int
    point: int
    start: int = 0
    end: int = 0
    path: str = ""


def target_parts(target: str, rundown: Rundown) -> tuple[int, str]:
    """The segment that a path leads to (``WHOLE`` for what is of no segment), and the rest of the path within it."""
    try:
        parts = steps(target)
    except ValueError:
        parts = ()
    if len(parts) > 2 and parts[1] == "segments" and isinstance(parts[2], int) and rundown.segments:
        rest = target.partition("]")[2].lstrip(".")
        return min(parts[2], len(rundown.segments) - 1), rest
    ids = [segment.id for segment in rundown.segments]
    return (ids.index(target), "") if target in ids else (WHOLE, "")


def find_in_rundown(episode: Episode, findings: Findings, text: str, here: tuple[int, int]) -> Found | None:
    """The next place after ``here`` (segment, point) that holds ``text``, round again from the top."""
    wanted = text.casefold()
    every = list(_places(episode, findings, wanted))
    after = (found for found in every if (found.segment, found.point) > here)
    return next(after, every[0] if every else None)


def _places(episode: Episode, findings: Findings, wanted: str) -> Iterator[Found]:
    rundown, index = episode.rundown, by_id(findings)
    for number, tie in enumerate(rundown.paid_ties):
        if wanted in f"{tie.what}\n{tie.line}\n{tie.card}".casefold():
            yield Found(WHOLE, number, path=f"rundown.paid_ties[{number}]")
    for number, segment in enumerate(rundown.segments):
        if (span := _span(segment.title, wanted)) is not None:
            yield Found(number, TITLE, *span)
        for place, point in enumerate(segment.points):
            shown = screen_text(filled(point.text, index, episode.units))
            if (span := _span(shown, wanted)) is not None:
                yield Found(number, place, *span)
        yield from _beside(number, segment, wanted)


def _beside(number: int, segment: Segment, wanted: str) -> Iterator[Found]:
    """Shots and props, which come after the points."""
    after = len(segment.points)
    for place, shot in enumerate(segment.shots):
        if wanted in f"{shot.text}\n{shot.framing}".casefold():
            yield Found(number, after, path=f"shots[{place}]")
    for place, prop in enumerate(segment.props):
        if wanted in prop.casefold():
            yield Found(number, after, path=f"props[{place}]")


def _span(text: str, wanted: str) -> tuple[int, int] | None:
    at = text.casefold().find(wanted)
    return (at, at + len(wanted)) if at >= 0 else None
