"""Captions: the spoken words as they stand on a screen, cut into cues, written as SRT and as WebVTT.

The limits (two lines, seconds a cue, gaps) are those of published subtitle guides as the conventions restate them;
the WebVTT syntax is the W3C's.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import zip_longest

import msgspec

from studio.handoff.schedule import Schedule, TimedPoint

LINE_CHARACTERS = 37
LINES = 2
LONGEST = Fraction(7)
LEAST_PER_WORD = Fraction(3, 10)
SMALLEST_GAP_MS = 1000
_SENTENCE_END = re.compile(r"[.!?…]['\")\]]*$")
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
    points = [point for segment in schedule.segments for point in segment.points if point.text.split()]
    made = [cue for point in points for cue in _of_point(point, characters)]
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


def _of_point(point: TimedPoint, characters: int) -> Iterator[Cue]:
    """A point's cues; its time is shared out by the length of their words."""
    groups = list(_grouped(_wrapped(one_line(point.text), characters), point, characters))
    lengths = [sum(len(line) for line in lines) for lines in groups]
    total, before = sum(lengths), 0
    for lines, its in zip(groups, lengths, strict=True):
        start = point.start + (point.end - point.start) * Fraction(before, total)
        before += its
        end = point.start + (point.end - point.start) * Fraction(before, total)
        yield Cue(start_ms=_milliseconds(start), end_ms=_milliseconds(min(end, start + LONGEST)), lines=lines)


def _wrapped(text: str, characters: int) -> list[str]:
    """Lines of at most ``characters``; a sentence begins a new one, a word longer than a line is cut."""
    lines, line = list[str](), ""
    for word in _short_words(text, characters):
        if line and (len(line) + 1 + len(word) > characters or _SENTENCE_END.search(line)):
            lines.append(line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    return [*lines, line] if line else lines


def _short_words(text: str, characters: int) -> Iterator[str]:
    for word in text.split():
        for start in range(0, len(word), characters):
            yield word[start : start + characters]


def _grouped(lines: list[str], point: TimedPoint, characters: int) -> Iterator[tuple[str, ...]]:
    """One or two lines a cue: two where they belong together and do not stand too long."""
    total = sum(map(len, lines))
    waiting: list[str] = []
    for line in lines:
        share = Fraction(sum(map(len, waiting)) + len(line), total) * (point.end - point.start)
        if waiting and (len(waiting) == LINES or share > LONGEST or _SENTENCE_END.search(waiting[-1])):
            yield tuple(waiting)
            waiting = []
        waiting.append(line)
    if waiting:
        yield tuple(waiting)


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
