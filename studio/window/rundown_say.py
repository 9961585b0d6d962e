"""*Say it*: a finding's sentence as a talking point, each number in it live."""

import re

from msgspec.structs import replace

from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.model.quantity import System
from studio.model.rundown import Point
from studio.script.live import Reference
from studio.script.numbers import OWN, VALUE, Number, numbers_of
from studio.window.rundown_edit import LONGEST_POINT, insert_segments, new_segment, with_segment

SAY = "say "
"""What stands before a finding's id in a target that asks the rundown to take it in."""
_NEAR = 40  # characters before a number whose words tell which one it is
_WORD = re.compile(r"[a-z]{3,}")
_Candidate = tuple[frozenset[str], str]


def point_of(finding: Finding, units: System) -> Point:
    """The finding's sentence with its numbers live; where none stands in it, its own number is added by name."""
    text = finding.sentence.replace("{", "(").replace("}", ")")
    found = _texts(finding, units)
    if found:
        pattern = "|".join(re.escape(its) for its in sorted(found, key=len, reverse=True))
        text = re.sub(
            rf"(?<![\w.,/±])(?:{pattern})(?![\w/])",
            lambda match: _best(found[match[0]], match.string[max(0, match.start() - _NEAR) : match.start()]), text,
        )  # fmt: skip
    if "{" not in text and (deciding := _deciding(finding)) is not None:
        written = Reference(finding=finding.id, number=deciding.name, form="both").written()
        text = f"{text} {deciding.label[:1].upper()}{deciding.label[1:]}: {written}."
    return Point(text=text[:LONGEST_POINT], findings=(finding.id,))


def say(episode: Episode, finding: Finding, index: int) -> tuple[Episode, int, int]:
    """The episode with the finding said at the end of the segment at ``index``; which segment and point that is.

    Where there is no such segment, one is made.
    """
    segments, point = episode.rundown.segments, point_of(finding, episode.units)
    if not 0 <= index < len(segments):
        made = new_segment(episode.rundown, points=(point,))
        return insert_segments(episode, len(segments), (made,)), len(segments), 0
    segment = segments[index]
    after = with_segment(episode, index, replace(segment, points=(*segment.points, point)))
    return after, index, len(segment.points)


def _texts(finding: Finding, units: System) -> dict[str, list[_Candidate]]:
    """What may stand in the sentence for each number of the finding, and the live numbers that could take its place."""
    found: dict[str, list[_Candidate]] = {}
    systems: tuple[System, System] = ("us", "metric") if units == "us" else ("metric", "us")
    for name, number in numbers_of(finding).items():
        words = frozenset(_WORD.findall(f"{name} {number.label}".replace("_", " ").lower()))
        for system in systems:
            short, both = number.short(system), number.both(system)
            for form, text in (("short", short), ("both", both)):
                if any(c.isdigit() for c in text) and not (form == "both" and both == short):
                    reference = Reference(finding=finding.id, number=name, form="both" if form == "both" else "short")
                    found.setdefault(text, []).append((words, reference.written()))
    return found


def _best(candidates: list[_Candidate], before: str) -> str:
    """Of several numbers that read alike, the one whose name stands before it; else the finding's own first one."""
    near = set(_WORD.findall(before.lower()))
    return max(candidates, key=lambda its: len(its[0] & near))[1]


def _deciding(finding: Finding) -> Number | None:
    """The figure that is the finding's own number, as it has a name."""
    numbers = numbers_of(finding)
    value = numbers.get(VALUE)
    named = (its for name, its in numbers.items() if name not in OWN)
    return next((its for its in named if value is not None and its.short("us") == value.short("us")), None)
