"""Units that a speaker leaves out: ``nine on the left, four thirty-seconds on the right``; none for a count."""

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence

from studio.model.quantity import System, UnitName
from studio.model.running_text import RunningNumber

_GOES_ON = frozenset(
    "and or if at in on for behind above below to the but is are was instead rather than against as well too"
    " now left here there while versus vs when with not up before after where only again out over"
    " past short we i you he she it that who so then since less belong"
    " belongs outside"
    " more can may must will should would could has have had each all round apart".split()
)
_NAMES = re.compile(
    r"\b(?:episode|segment|part|chapter|page|step|number|no\.|tire|tyre|row|section|version|rule|out of)\s+$",
    re.IGNORECASE)  # fmt: skip
_COUNTED = re.compile(r"\b(?:the|all|these|those|our|your|my)\s+$", re.IGNORECASE)
_NEXT = re.compile(r"\s*-?\s*([^\W\d_]+|\S)?")
_IN_UNIT = re.compile(r"\bin (thirty-seconds|millimet(?:er|re)s|psi|kilopascals|kPa)\b", re.IGNORECASE)
_NAMED_UNIT: dict[str, UnitName] = {"thir": "32nds", "mill": "mm", "psi": "psi", "kilo": "kPa", "kpa": "kPa"}
_COMPARED = re.compile(r" (?:more|less|short|to spare|over|under|above|below)\b", re.IGNORECASE)
_GOES = re.compile(r"\b(?:at|doing|says|shows|does)\s+$", re.IGNORECASE)
_FAST = (25.0, 200.0)  # a bare number behind "at" that can be a speed
_OUTSIDE = re.compile(r" (?:outside|out there|below zero|above zero|below freezing|in the shade)\b", re.IGNORECASE)
_WEATHER = re.compile(r"\b(?:it(?:'s|’s| is| was)|will be|at)\s+$", re.IGNORECASE)
_AIR = re.compile(
    r"\b(?:sticker|placard|door|gauge|label|jamb) (?:says|said|shows|showed|asks for|wants|reads|read)\s+$",
    re.IGNORECASE)  # fmt: skip
_PRESSURES: tuple[tuple[float, float, UnitName], ...] = (  # what a bare pressure can be (custom of speech, no source)
    (1.2, 6.0, "bar"), (20.0, 120.0, "psi"), (150.0, 800.0, "kPa"),
)  # fmt: skip
_NEXT_WORD = re.compile(r"\s*-?[^\W\d_]")
_READS = re.compile(
    r"\b(?:reads?|reading|measures?|measured|down to|shows|gauge says|i (?:read|get|got|have))(?: (?:a|an|only|just|"
    r"about|at))?\s+$", re.IGNORECASE)  # fmt: skip
_SETS = re.compile(r"\b(?:set|fill(?:ed)?(?: (?:it|them))?(?: to)?|inflate(?: to)?|pump(?: to)?)\s+$", re.IGNORECASE)
_ALIKE = 2.5  # a number in the same unit is seldom farther from its neighbor than this
_HAS = re.compile(r":\s*$|\b(?:should (?:have|hold|be)|has|have|holds?|reads?|is at)\s+$", re.IGNORECASE)
_PRICES = 50
_HOTTEST = 120
_FEW = 20  # "196 for one", "the four": a small number is a count
_DEEPEST = 24.0
_PSI_AT_MOST = 120.0
_DEGREES = ("degC", "degF")
_BACK = 60


def units_of(number: RunningNumber) -> tuple[UnitName, ...]:
    """The units that the number's own word can mean; pounds in the thousands are no pressure."""
    first = number.unit
    assert first is not None
    if first == "psi" and number.other_unit == "lb" and number.value > _PSI_AT_MOST:
        return ("lb",)
    if first == "lb" and number.other_unit == "psi" and number.value > _PSI_AT_MOST:
        return ("lb",)
    return (first,) if number.other_unit is None else (first, number.other_unit)


def borrowed(
    text: str, running: Sequence[RunningNumber], place: int, units: System, sentences: Sequence[int]
) -> tuple[UnitName, ...]:
    """The unit that a bare number leaves out: that of a neighbor in its sentence, or the gauge's; none for a count."""
    number = running[place]
    dates = number.step == 1.0 and 1950 <= number.value < 2060
    named = _IN_UNIT.search(text, number.end, number.end + 2 * _BACK)
    same = named is not None and bisect_right(sentences, named.start()) == bisect_right(sentences, number.start)
    if named is not None and same and _stands_alone(text, number):
        return (_NAMED_UNIT[named[1][:4].lower()],)
    if number.value < 0 and not _NEXT_WORD.match(text, number.end):
        return ("degC", "degF")
    if dates or (number.in_words and 0 < number.value < 1) or not _stands_alone(text, number):
        return ()
    if _OUTSIDE.match(text, number.end) and _WEATHER.search(text[max(0, number.start - _BACK) : number.start]):
        return ("degC", "degF")
    lenders = [other for other in _neighbors(running, place) if _lends(text, number, other, sentences)]
    whole = number.step >= 1  # temperatures are said in whole degrees
    close = [its for its in lenders if (whole and its.unit in _DEGREES) or _times_apart(number, its) <= _ALIKE]
    behind = text[max(0, number.start - _BACK) : number.start]
    if not close and all(its.unit != "money" for its in lenders) and _can_be_speed(number, behind):
        return ("mph", "km/h")
    if lenders:
        return units_of((close or lenders)[0])
    air = next((unit for low, high, unit in _PRESSURES if low <= number.value <= high), None)
    if air is not None and _AIR.search(behind):
        return (air,)
    if _SETS.search(text[max(0, number.start - _BACK) : number.start]):
        return ("psi",) if number.value <= _PSI_AT_MOST else ("kPa",)
    if _READS.search(text[max(0, number.start - _BACK) : number.start]) and 0 < number.value <= _DEEPEST:
        return ("32nds",) if units == "us" else ("mm",)
    return ()


def _neighbors(running: Sequence[RunningNumber], place: int) -> Iterator[RunningNumber]:
    """The numbers around the one at ``place``, the nearest first."""
    for step in (-1, 1, -2, 2, -3, 3, -4, 4):
        if 0 <= place + step < len(running):
            yield running[place + step]


def _can_be_speed(number: RunningNumber, behind: str) -> bool:
    """``at 55``, ``the needle says 55``, not ``the sticker says 36``."""
    low, high = _FAST
    return low <= number.value <= high and bool(_GOES.search(behind)) and not _AIR.search(behind)


def _lends(text: str, number: RunningNumber, other: RunningNumber, sentences: Sequence[int]) -> bool:
    """Whether ``other`` has a unit that ``number`` can have left out."""
    if other.unit in (None, "years", "%"):
        return False
    if other.unit == "money" and number.in_words and number.value <= _FEW:
        return False
    here = bisect_right(sentences, other.start) == bisect_right(sentences, number.start)
    behind = text[max(0, number.start - _BACK) : number.start]
    lately = other.start < number.start and number.start - other.end <= _BACK and _HAS.search(behind)
    apart = here and other.start < number.start and _COMPARED.match(text, number.end)
    return bool(here or lately) and (bool(apart) or _alike(number, other))


def _times_apart(number: RunningNumber, other: RunningNumber) -> float:
    small, large = sorted((abs(number.value), abs(other.value)))
    return large / small if small else float("inf")


def _alike(number: RunningNumber, other: RunningNumber) -> bool:
    """Whether the two could be said in one unit: neither is many times the other."""
    small, large = sorted((abs(number.value), abs(other.value)))
    if other.unit in ("degC", "degF"):
        return large <= _HOTTEST
    return large <= (_PRICES if other.unit == "money" else 10) * small


def _stands_alone(text: str, number: RunningNumber) -> bool:
    """Whether no noun follows that the number would count, and no name stands before it."""
    before = text[max(0, number.start - 20) : number.start]
    if _NAMES.search(before) or (abs(number.value) <= _FEW and _COUNTED.search(before)):
        return False
    after = _NEXT.match(text, number.end)
    word = (after[1] or "").lower() if after else ""
    return not word or word in _GOES_ON or (len(word) == 1 and not word.isalnum() and word not in "/%:")
