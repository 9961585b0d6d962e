"""Captions: the spoken words as they stand on a screen, cut into cues, written as SRT and as WebVTT.

The limits (two lines, seconds a cue, gaps) are those of published subtitle guides as the conventions restate them;
the WebVTT syntax is the W3C's.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import zip_longest

import msgspec

from studio.handoff.captions_split import LEAST_PER_WORD, LONGEST, atoms_of, least_s, lines_of, parted
from studio.handoff.schedule import Schedule, TimedPoint

LINE_CHARACTERS = 37
SMALLEST_GAP_MS = 1000
_OF_A_READER = re.compile(r"(?<=\d:\d\d)(?=[,.]\d)|(?<=--)(?=>)|(?<=<)(?=[A-Za-z/])|(?<=\{)(?=\\)")
"""Within a clock time, an arrow, a tag or an override: what readers of SubRip files, which know no escape, act upon."""
WORD_JOINER = "\u2060"


class Cue(msgspec.Struct, frozen=True, kw_only=True):
    """One caption: its lines, and when it stands, in whole milliseconds."""

    start_ms: int
    end_ms: int
    lines: tuple[str, ...]


def cues_of(schedule: Schedule, characters: int = LINE_CHARACTERS) -> tuple[Cue, ...]:
    """The captions of what is spoken, in order, none overlapping another."""
    made = [cue for run, until in _runs(schedule) for cue in _of_run(run, until, characters)]
    return tuple(_closed_gaps(made))


def too_fast(cues: Iterable[Cue]) -> tuple[Cue, ...]:
    """Those that give less than 0.3 s a word: the pace is too fast to be read along."""
    return tuple(
        cue for cue in cues if cue.end_ms - cue.start_ms < LEAST_PER_WORD * 1000 * len(" ".join(cue.lines).split())
    )


def srt(cues: Sequence[Cue]) -> str:
    """The cues as a SubRip file."""
    blocks = (
        f"{number}\n{_clock(cue.start_ms, ',')} --> {_clock(cue.end_ms, ',')}\n" + "\n".join(map(_srt_line, cue.lines))
        for number, cue in enumerate(cues, start=1)
    )
    return "".join(f"{block}\n\n" for block in blocks)


def webvtt(cues: Sequence[Cue]) -> str:
    """The cues as a WebVTT file; ``&``, ``<`` and ``>`` are escaped, so no text becomes a tag or a timing."""
    blocks = (
        f"{_clock(cue.start_ms, '.')} --> {_clock(cue.end_ms, '.')}\n" + "\n".join(map(escaped, cue.lines))
        for cue in cues
    )
    return "WEBVTT\n\n" + "".join(f"{block}\n\n" for block in blocks)


def escaped(text: str) -> str:
    """``text`` as WebVTT cue text."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def one_line(text: str) -> str:
    """``text`` without line breaks and control characters."""
    return " ".join("".join(sign if sign.isprintable() or sign.isspace() else "" for sign in text).split())


def _of_run(run: Sequence[TimedPoint], until: Fraction, characters: int) -> Iterator[Cue]:
    """The cues of points that follow each other without a pause. The last may stand on in the silence after it."""
    atoms = [
        atom for point in run for atom in atoms_of(one_line(point.text), point.start, point.end, characters)
    ]  # fmt: skip
    cues = parted(atoms, characters)
    for number, cue in enumerate(cues, start=1):
        start, end = cue[0].start, cue[-1].end
        if number == len(cues):
            end = max(end, min(start + least_s(cue), until))
        yield Cue(
            start_ms=_milliseconds(start), end_ms=_milliseconds(min(end, start + LONGEST)),
            lines=lines_of(cue, characters),
        )  # fmt: skip


def _runs(schedule: Schedule) -> Iterator[tuple[list[TimedPoint], Fraction]]:
    """Points between which there is no pause, with when the next words or the end come."""
    points = [point for segment in schedule.segments for point in segment.points if one_line(point.text)]
    close = schedule.segments[-1].end if schedule.segments else Fraction(0)
    run: list[TimedPoint] = []
    for point in points:
        if run and point.start != run[-1].end:
            yield run, point.start
            run = []
        run.append(point)
    if run:
        yield run, max(close, run[-1].end)


def _closed_gaps(cues: list[Cue]) -> Iterator[Cue]:
    """A gap is nothing or at least a second: a shorter one is closed by the cue before it, or widened where that
    stands long enough already."""
    for cue, following in zip_longest(cues, cues[1:]):
        if following is None or not 0 < following.start_ms - cue.end_ms < SMALLEST_GAP_MS:
            yield cue
        elif following.start_ms - cue.start_ms <= LONGEST * 1000:
            yield msgspec.structs.replace(cue, end_ms=following.start_ms)
        else:
            yield msgspec.structs.replace(cue, end_ms=following.start_ms - SMALLEST_GAP_MS)


def _srt_line(line: str) -> str:
    """What a reader would take for a timing or for markup gets an invisible joiner, so that it is shown as text."""
    return _OF_A_READER.sub(WORD_JOINER, line)


def _milliseconds(seconds: Fraction) -> int:
    return int(seconds * 1000 + Fraction(1, 2))


def _clock(milliseconds: int, separator: str) -> str:
    seconds, rest = divmod(milliseconds, 1000)
    minutes, second = divmod(seconds, 60)
    hour, minute = divmod(minutes, 60)
    return f"{hour:02d}:{minute:02d}:{second:02d}{separator}{rest:03d}"
