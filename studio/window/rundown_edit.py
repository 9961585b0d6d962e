"""Edits of the rundown as plain functions from one episode to the next: segments come, go, move and are said anew."""

import re
import unicodedata
from collections.abc import Iterable

from msgspec.structs import replace

from studio.model.episode import Episode
from studio.model.rundown import Dismissal, Point, Rundown, Segment, Take

LONGEST_TITLE = 200
LONGEST_POINT = 10_000
LONGEST_MARK = 200
NEW_TITLE = "New segment"
_LONGEST_ID = 36
_BREAK = re.compile(r"\s")


def with_rundown(episode: Episode, **parts: object) -> Episode:
    """The episode with these parts of its rundown."""
    return replace(episode, rundown=replace(episode.rundown, **parts))


def with_segment(episode: Episode, index: int, segment: Segment) -> Episode:
    """The episode with another segment at ``index``."""
    segments = list(episode.rundown.segments)
    segments[index] = segment
    return with_rundown(episode, segments=tuple(segments))


def insert_segments(episode: Episode, at: int, segments: Iterable[Segment]) -> Episode:
    """The episode with ``segments`` before the one at ``at``."""
    every = episode.rundown.segments
    return with_rundown(episode, segments=(*every[:at], *segments, *every[at:]))


def new_segment(rundown: Rundown, title: str = NEW_TITLE, points: tuple[Point, ...] = ()) -> Segment:
    """A segment with an id of its own."""
    return Segment(id=free_id(rundown, title), title=title, points=points)


def duplicate_segment(episode: Episode, index: int) -> Episode:
    """The episode with the segment at ``index`` once more after it."""
    segment = episode.rundown.segments[index]
    twin = replace(segment, id=free_id(episode.rundown, segment.id))
    return insert_segments(episode, index + 1, (twin,))


def move_segment(episode: Episode, index: int, to: int) -> Episode:
    """The episode with the segment at ``index`` standing at ``to`` afterwards."""
    segments = list(episode.rundown.segments)
    segments.insert(to, segments.pop(index))
    return with_rundown(episode, segments=tuple(segments))


def remove_segment(episode: Episode, index: int) -> Episode:
    """The episode without the segment at ``index``, its times in takes and what was set aside in it."""
    rundown = episode.rundown
    gone = rundown.segments[index].id
    takes = (_without(take, gone) for take in rundown.takes)
    return with_rundown(
        episode, segments=tuple(its for place, its in enumerate(rundown.segments) if place != index),
        takes=tuple(take for take in takes if take.times),
        dismissed=tuple(its for its in rundown.dismissed if its.segment != gone),
    )  # fmt: skip


def set_aside(episode: Episode, segment: str, text: str, reason: str) -> Episode:
    """The episode with a mark set aside for this reason, in place of an earlier reason."""
    kept = Dismissal(segment=segment, text=text.strip(), reason=reason.strip()[:LONGEST_MARK])
    return with_rundown(episode, dismissed=(*_others(episode, segment, text), kept))


def take_up_again(episode: Episode, segment: str, text: str) -> Episode:
    """The episode in which that mark counts again."""
    return with_rundown(episode, dismissed=_others(episode, segment, text))


def free_id(rundown: Rundown, wish: str) -> str:
    """An id like ``wish`` that no segment has."""
    taken = {segment.id for segment in rundown.segments}
    plain = unicodedata.normalize("NFKD", wish).encode("ascii", "ignore").decode().lower()
    base = re.sub(r"[^a-z0-9]+", "_", plain)[:_LONGEST_ID].strip("_") or "segment"
    base, number, free = re.sub(r"_\d{1,3}$", "", base), 2, base
    while free in taken:
        free, number = f"{base}_{number}", number + 1
    return free


def clean_line(text: str) -> str:
    """Text from outside on one line, without control characters and halves of characters."""
    return " ".join(clean_text(text).split())


def clean_text(text: str) -> str:
    """Text from outside: line ends as ``\\n``, no control characters, no halves of characters, no stand-ins of Qt's."""
    whole = text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    lines = whole.replace("\r\n", "\n").replace("\r", "\n").replace("\u2028", "\n").replace("\u2029", "\n")
    return "".join(_clean(c) for c in lines)


def split_long(text: str) -> list[str]:
    """A text in parts that a talking point can hold, parted at blanks where there are any."""
    parts = []
    while len(text) > LONGEST_POINT:
        blank = max((m.start() for m in _BREAK.finditer(text, LONGEST_POINT // 2, LONGEST_POINT)), default=0)
        at = blank or LONGEST_POINT
        parts.append(text[:at])
        text = text[at + 1 :] if blank else text[at:]
    return [*parts, text]


def _clean(c: str) -> str:
    if c in "\n\t":
        return " " if c == "\t" else c
    return "" if unicodedata.category(c) in ("Cc", "Cs", "Cn", "Co") or c == "\ufffc" else c


def _without(take: Take, segment: str) -> Take:
    return replace(take, times=tuple(time for time in take.times if time.segment != segment))


def _others(episode: Episode, segment: str, text: str) -> tuple[Dismissal, ...]:
    mine = (segment, text.strip())
    return tuple(its for its in episode.rundown.dismissed if (its.segment, its.text.strip()) != mine)
