"""What takes teach about the presenter's pace, and which of them cannot teach anything, in plain sentences."""

from collections.abc import Mapping
from fractions import Fraction

import msgspec

from studio.model.rundown import Rundown, Take, TakeTime

SLOWEST, FASTEST = 60, 300  # words a minute; outside of it the take was not of this text
FEWEST_WORDS = 20


class TakeProblem(msgspec.Struct, frozen=True, kw_only=True):
    """Why a take is left out: its place among the takes, and the sentence for people."""

    take: int
    sentence: str


def learnt_pace(
    rundown: Rundown, words: Mapping[str, int], pauses: Mapping[str, Fraction]
) -> tuple[Fraction | None, tuple[TakeProblem, ...]]:
    """Words a minute over all sound takes, planned pauses apart; None where no take can tell.

    ``words`` and ``pauses`` are those of each segment as the script stands now.
    """
    said, took, problems = 0, Fraction(0), []
    for number, take in enumerate(rundown.takes):
        wrong = wrong_with(take, words) or _of_another_text(take, words, pauses)
        if wrong:
            problems.append(TakeProblem(take=number, sentence=f"The take of {take.on.isoformat()} {wrong}."))
            continue
        for time in take.times:
            said += words[time.segment]
            took += _speaking(time, pauses)
    pace = Fraction(said * 60) / took if said >= FEWEST_WORDS and took > 0 else None
    return pace, tuple(problems)


def wrong_with(take: Take, segments: Mapping[str, object]) -> str:
    """What makes the times of ``take`` useless, as the rest of a sentence; empty where they are in order."""
    before: TakeTime | None = None
    for time in take.times:
        named = f"segment {time.segment[:40]!r}"
        if time.segment not in segments:
            return f"names {named}, which the rundown does not have"
        if time.end_s <= time.start_s:
            return f"has {named} end at {time.end_s:g} s, not after its start at {time.start_s:g} s"
        if before is not None and time.start_s < before.end_s:
            return f"has {named} start at {time.start_s:g} s, before the one spoken earlier ends at {before.end_s:g} s"
        before = time
    return "" if take.times else "has no times"


def _of_another_text(take: Take, words: Mapping[str, int], pauses: Mapping[str, Fraction]) -> str:
    said = sum(words[time.segment] for time in take.times)
    took = sum((_speaking(time, pauses) for time in take.times), Fraction(0))
    if took <= 0:
        return "is shorter than the pauses planned in it"
    pace = said * 60 / took
    if SLOWEST <= pace <= FASTEST:
        return ""
    return f"comes to {float(pace):.0f} words a minute, so it was not a reading of this text"


def _speaking(time: TakeTime, pauses: Mapping[str, Fraction]) -> Fraction:
    return Fraction(time.end_s) - Fraction(time.start_s) - pauses[time.segment]
