"""Cautions and duties: work that can hurt someone carries its caution by itself; what is paid for is said and shown.

Which caution a work carries is the trade's practice; the duty for paid ties is 16 CFR 255.0(f) and 255.5.
"""

import re
from collections.abc import Iterator
from typing import Literal

import msgspec

from studio.model.caution import Caution
from studio.model.rundown import PaidTie, Rundown, Segment
from studio.reference.tables import Tables

DutyKind = Literal["caution", "unknown_work", "tie_line", "tie_segment", "tie_card"]
_WORK: dict[str, str] = {
    "jacking": r"\bjack(?:s|ed|ing)?\b|\blift(?:s|ed|ing)?\b|\bhoist|raise[sd]? (?:the|a) (?:car|corner|wheel|van|"
               r"truck)|"
               r"axle stands?|under(?:neath)? the (?:car|van|truck)|wheels? off\b|tak(?:e|es|ing) (?:the|a|each) "
               r"wheel off|chang(?:e|es|ing) (?:a|the) wheel",
    "wheel_nuts": r"\b(?:wheel|lug)[- ]?(?:nuts?|bolts?|studs?)\b|\btorque\b|\bnuts? (?:go|come|off|on|get)",
    "temporary_spare": r"\b(?:temporary|small|space[- ]saver|donut|little) spare\b|\bspare (?:goes|go|is) on\b|"
                       r"\b(?:mount|fit|use|drive on|put on)\w* (?:the|a) spare\b",
    "inflating": r"\binflat(?:e|es|ed|ing)\b|\bpump(?:s|ed|ing)? up\b|\bfill(?:s|ed|ing)? (?:it|them|the (?:tires?|"
                 r"tyres?|"
                 r"spare)|up|in the|at)|\bcompressor\b|\bair (?:line|hose|chuck)\b|\btop(?:ping)? up the (?:tires?|"
                 r"air)",
    "damage": r"\bbulge|\bdeep cut|\ba cut\b|\bcuts?\b (?:in|through)|\bcords?\b|\bgash|\bsplit sidewall|"
              r"\bcrack(?:s|ed)\b|\bhurt (?:tire|tyre)s?\b|\bwrecked (?:tire|tyre)",
    "repair": r"\bplugs?\b|\bplugged\b|\bpatch(?:es|ed)?\b|\brepair(?:s|ed|ing|able)?\b|\bsealant\b|\bpunctur|"
              r"\bnail hole|\bscrew in",
    "worn_tire": r"\bbald\b|\bworn[- ](?:out|down)\b|\bwear bars?\b|\blegal (?:minimum|limit)",
    "uneven_wear": r"\buneven(?:ly)? w(?:ear|orn)|\bfeather(?:ed|ing)\b|\bcupp(?:ed|ing)\b|\binner edge\b",
    "over_age": r"\bold (?:tire|tyre)s?\b|\bdate code\b|\bfrom the (?:barn|nineties|last century)|\byears old\b",
    "mixing": r"\b(?:unequal|mismatch\w*|mixed|mixing)\b|\bone new (?:tire|tyre)\b",
    "rotation": r"\brotat(?:e|es|ed|ing|ion)\b|\bswap (?:the )?(?:wheels|tires|tyres)|\bfront for rear\b",
    "overload": r"\boverload|\baxle rating|\bpayload\b",
    "hydroplaning": r"\bhydroplan|\baquaplan|\bfloats?\b.{0,30}\bwater\b",
    "size_change": r"\bother size\b|\banother size\b|\bwinter size\b|\bbigger (?:wheels|tires|tyres)",
    "measuring": r"\bdepth gauge\b|\bmeasur(?:e|es|ed|ing)\b.{0,40}\b(?:groove|tread|depth)",
}  # fmt: skip
_WORDS = {id_: re.compile(words, re.IGNORECASE) for id_, words in _WORK.items()}
_LONGEST = 20_000


class SegmentCaution(msgspec.Struct, frozen=True, kw_only=True):
    """A caution that stands with a segment, and why: the work it is said to show, or the words that tell of it."""

    segment: str
    caution: Caution
    because: str
    named: bool


class Duty(msgspec.Struct, frozen=True, kw_only=True):
    """Something that the check asks for: the sentence for people, and where."""

    kind: DutyKind
    segment: str
    sentence: str
    caution: str = ""


def cautions_of(segment: Segment, tables: Tables) -> tuple[SegmentCaution, ...]:
    """The cautions that stand with ``segment``, in the table's order. None of them can be switched off."""
    text = _text_of(segment)
    found = []
    for id_, caution in tables.cautions.items():
        named = id_ in segment.shows
        match = _WORDS[id_].search(text) if id_ in _WORDS else None
        if named or match:
            because = f"it speaks of {match[0]!r}" if match and not named else f"it shows {id_.replace('_', ' ')}"
            found.append(SegmentCaution(segment=segment.id, caution=caution, because=because, named=named))
    return tuple(found)


def script_cautions(rundown: Rundown, tables: Tables) -> tuple[SegmentCaution, ...]:
    """The cautions of all segments in order."""
    return tuple(its for segment in rundown.segments for its in cautions_of(segment, tables))


def duties_of(rundown: Rundown, tables: Tables) -> tuple[Duty, ...]:
    """What is missing: work that a segment speaks of without naming it among what it shows, and what ties still owe."""
    return (*_of_work(rundown, tables), *_of_ties(rundown))


def _text_of(segment: Segment) -> str:
    shots = (f"{shot.text} {shot.framing}" for shot in segment.shots)
    parts = (segment.title, *(point.text for point in segment.points), *shots, *segment.props)
    return "\n".join(parts)[:_LONGEST]


def _of_work(rundown: Rundown, tables: Tables) -> Iterator[Duty]:
    for segment in rundown.segments:
        named = f"Segment {segment.title.strip()[:60] or segment.id!r}"
        for work in segment.shows:
            if work not in tables.cautions:
                known = ", ".join(tables.cautions)
                sentence = f"{named} shows {work[:40]!r}, which has no caution; expected one of {known}."
                yield Duty(kind="unknown_work", segment=segment.id, sentence=sentence)
        for its in cautions_of(segment, tables):
            if not its.named and its.caution.signal == "WARNING" and its.caution.id in _HANDS_ON:
                sentence = (
                    f"{named}: {its.because}, so it carries the caution on {its.caution.id.replace('_', ' ')}; say "
                    f"it or enter that work under what the segment shows."
                )
                yield Duty(kind="caution", segment=segment.id, sentence=sentence, caution=its.caution.id)


_HANDS_ON = frozenset({"jacking", "wheel_nuts", "temporary_spare", "inflating", "damage", "repair"})


def _of_ties(rundown: Rundown) -> Iterator[Duty]:
    for tie in rundown.paid_ties:
        yield from _of_tie(tie, rundown)


def _of_tie(tie: PaidTie, rundown: Rundown) -> Iterator[Duty]:
    what = f"The paid tie {tie.what.strip()[:60]!r}" if tie.what.strip() else "A paid tie without a name"
    if not tie.line.strip():
        yield Duty(kind="tie_line", segment=tie.segment, sentence=f"{what} has no spoken line: what is seen and heard "
                   "must be disclosed in both.")  # fmt: skip
    if rundown.segment(tie.segment) is None:
        where = f"names the segment {tie.segment[:40]!r}, which does not exist" if tie.segment else "names no segment"
        yield Duty(kind="tie_segment", segment=tie.segment, sentence=f"{what} {where}: its line is spoken nowhere.")
    if not tie.card.strip():
        yield Duty(kind="tie_card", segment=tie.segment, sentence=f"{what} has no card on the screen: a line in the "
                   "description alone is not enough.")  # fmt: skip
