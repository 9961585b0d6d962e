"""Chapters for a description: the first at 0:00, at least three, each at least ten seconds long."""

import unicodedata
from collections.abc import Sequence
from fractions import Fraction

import msgspec

from studio.script.live import without_braces
from studio.script.timing import Timing

FEWEST = 3
SHORTEST_S = 10
LONGEST_TITLE = 100


class Chapter(msgspec.Struct, frozen=True, kw_only=True):
    """A chapter: its first segment, when it starts (seconds), and its title on one line."""

    segment: str
    starts_s: Fraction
    title: str

    @property
    def mark(self) -> str:
        """``m:ss`` or ``h:mm:ss``, down to the whole second."""
        return clock(self.starts_s)

    @property
    def line(self) -> str:
        """The line of a description: the mark, one space, the title."""
        return f"{self.mark} {self.title}"


class Chapters(msgspec.Struct, frozen=True, kw_only=True):
    """The chapters, or none and the sentence why."""

    all: tuple[Chapter, ...] = ()
    why_none: str = ""


class Spoken(msgspec.Struct, frozen=True, kw_only=True):
    """A segment with its times, planned or as taken (seconds)."""

    segment: str
    title: str
    starts_s: Fraction
    ends_s: Fraction


def clock(seconds: Fraction) -> str:
    """``m:ss`` below an hour, ``h:mm:ss`` from there on; parts of a second are dropped."""
    minutes, second = divmod(int(seconds), 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours}:{minute:02d}:{second:02d}" if hours else f"{minute}:{second:02d}"


def planned(timing: Timing) -> tuple[Spoken, ...]:
    """The segments at their planned times."""
    return tuple(
        Spoken(segment=s.segment, title=s.title, starts_s=s.starts_s, ends_s=s.starts_s + s.total_s)
        for s in timing.segments
    )


def chapters(spoken: Sequence[Spoken]) -> Chapters:
    """The chapters of segments in the order of their times; one that is too short joins the one before it."""
    if not spoken:
        return Chapters(why_none="The rundown has no segments, so there are no chapters.")
    made: list[Chapter] = []
    ends = Fraction(0)
    for number, its in enumerate(spoken):
        title = without_braces(one_line(its.title)) or f"Part {number + 1}"
        if made and (its.ends_s - its.starts_s < SHORTEST_S or ends - made[-1].starts_s < SHORTEST_S):
            ends = its.ends_s
            continue
        made.append(Chapter(segment=its.segment, starts_s=its.starts_s if made else Fraction(0), title=title))
        ends = its.ends_s
    if ends - made[-1].starts_s < SHORTEST_S:
        made.pop()
    if len(made) < FEWEST:
        return Chapters(why_none=_why_none(len(spoken)))
    return Chapters(all=tuple(made))


def one_line(text: str) -> str:
    """A title from outside on one line, without control or direction characters."""
    kept = "".join(" " if unicodedata.category(c).startswith("C") else c for c in text[: 10 * LONGEST_TITLE])
    line = " ".join(kept.split())
    return line if len(line) <= LONGEST_TITLE else line[: LONGEST_TITLE - 1].rstrip() + "…"


def _why_none(segments: int) -> str:
    if segments < FEWEST:
        return f"Chapters need at least {FEWEST} segments of {SHORTEST_S} seconds; the rundown has {segments}."
    return f"Chapters need at least {FEWEST} of {SHORTEST_S} seconds or more; too few segments are that long."
