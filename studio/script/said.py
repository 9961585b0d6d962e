"""What is said in numbers: quantities, sizes, weeks and years of manufacture, load indexes, multiples; with precision.

Built on the numbers found in running text; added here is what only a script about tires says, and units that a speaker
leaves out (``nine on the left, four thirty-seconds on the right``).
"""

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from typing import Literal

import msgspec

from studio.model.quantity import System, UnitName
from studio.model.running_text import RunningNumber, numbers_in

Sort = Literal["quantity", "size", "week", "year", "index", "multiple", "part"]
Bound = Literal["", "least", "most"]
_SIZE = re.compile(r"(?<![\w/])(?:LT|HL|P|T)?\d{3}/\d{2} ?(?:Z?R|[DB])F? ?\d{2}(?!\d)(?: ?[CE]\b)?", re.IGNORECASE)
_WEEK = re.compile(r"\bweek(?: number)? (?P<n>\d{1,2}|[a-z]+(?:-[a-z]+)?)\b", re.IGNORECASE)
_YEAR = re.compile(
    r"\b(?:made|built|produced|manufactured|moulded|molded|born|of|dates?|from|in)(?: back)?(?: to)?(?: in| from| the "
    r"year)? (?P<n>(?:19|20)\d{2})\b", re.IGNORECASE)  # fmt: skip
_MADE = re.compile(
    r"\b(?:made|built|produced|manufactured|mou?lded|born|week|date code|dates? (?:from|back)|"
    r"(?:left|leave|came (?:out of|from)|come from) the (?:mou?ld|factory|plant|press)|rolled off)\b", re.IGNORECASE)
_INDEX = re.compile(r"\bload (?:index|number)(?:,| of| is| says)* (?P<n>\d{2,3})\b", re.IGNORECASE)
_MULTIPLE = re.compile(
    r"\b(?P<m>twice|double|triple|half|(?:two|three|four|five|six|\d{1,2}) times)\b"
    r"(?= (?:as (?:much|deep|many|old|far|fast|high|heavy|wide|long|big|large|thick|tall)|"
    r"(?:the|its|that|of the|of its|what|our|this|those)\b|more than ))",
    re.IGNORECASE)  # fmt: skip
_PART_OF = re.compile(
    r"\b(?P<p>(?:a|one|two|three|four)[ -](?:thirds?|quarters?|fifths?|tenths?)|half|a half) of (?:the |its |their |"
    r"all ){0,2}(?:(?:front|rear|back|left|right|usable|original|full)(?:['’]s)? ){0,3}(?:tread|depth|rubber|life|"
    r"profile)\b", re.IGNORECASE)  # fmt: skip
_BY_PART = re.compile(
    r"\bby (?:about |nearly |almost |roughly |more than |over |at least )?"
    r"(?P<p>(?:a|one|two|three|four)[ -](?:thirds?|quarters?|fifths?|tenths?)|half)\b(?! (?:an?|of|past|the)\b)",
    re.IGNORECASE)  # fmt: skip
_A_UNIT = re.compile(
    r"(?<!of )(?<!half )(?<!quarter )(?<!-)\ban? (?:(?P<u>inch|millimet(?:er|re))\b|(?P<v>mile|kilomet(?:er|re)|bar|"
    r"kilo(?:gram)?|pound)(?= (?:is|are|equals|makes|has)\b))", re.IGNORECASE)  # fmt: skip
_NAMED: dict[str, UnitName] = {"inch": "in", "mill": "mm", "mile": "mi", "kilom": "km", "bar": "bar", "kilo": "kg",
                               "pound": "lb"}  # fmt: skip
_COUNT = r"(?:\d{1,2}|[a-z]+(?:-[a-z]+)?)"
_MONTHS = re.compile(
    rf"\b(?:(?P<y>{_COUNT}) years?(?: and|,)? (?P<m>{_COUNT}) months?(?: old)?|(?P<n>{_COUNT}) months? old)\b",
    re.IGNORECASE)  # fmt: skip
_OLDEST = 40
_TIMES = {"twice": 2.0, "double": 2.0, "triple": 3.0, "half": 0.5}
_WORD_TIMES = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "a": 1, "one": 1}
_PARTS = {"third": 3, "quarter": 4, "fifth": 5, "tenth": 10}
_NEARLY = re.compile(
    r"\b(?:nearly|almost|barely|hardly|not quite|close to|just (?:over|under|above|below|short of)|a (?:little|bit|"
    r"touch|hair) (?:over|under|above|below|more than|less than))(?:\s+(?:the|a|an))?\s+$", re.IGNORECASE)  # fmt: skip
_LIMITS = re.compile(  # what must not be passed is the limit itself
    r"\b(?:no|not|never|nothing)\b[^.,;]{0,24}(?:more|less|fewer) than\s+$|n['’]t [^.,;]{0,24}more than\s+$|"
    r"\b(?:at most|up to)\s+$", re.IGNORECASE)  # fmt: skip
_LEAST = re.compile(r"\b(?:at least|more than|over|above|beyond|upwards of|better than|past)\s+$", re.I)
_MOST = re.compile(
    r"\b(?:less than|under|below|fewer than)(?:\s+(?:the|a|an))?\s+$",
    re.IGNORECASE)  # fmt: skip
_ROUGH = re.compile(
    r"\b(?:about|roughly|around|approximately|some|almost|nearly|close to|just under|just over|a good|barely|not quite"
    r"|a little (?:over|under|more than|less than)|or so|say|call it|well over|give or take|near)(?:\s+(?:a|an))?\s+$"
    r"|[~≈]\s*$", re.IGNORECASE)  # fmt: skip
_OR_SO = re.compile(r"\s*(?:or so|or thereabouts|give or take|more or less|plus or minus)\b", re.IGNORECASE)
_GOES_ON = frozenset(
    "and or if at in on for behind above below to the but is are was instead rather than against as well too"
    " now left here there while versus vs when with not up before after where only again out over"
    " past short we i you he she it that who so then"
    " more can may must will should would could has have had each all round apart".split()
)
_NAMES = re.compile(
    r"\b(?:episode|segment|part|chapter|page|step|number|no\.|tire|tyre|row|section|version|rule|out of)\s+$",
    re.IGNORECASE)  # fmt: skip
_COUNTED = re.compile(r"\b(?:the|all|these|those|our|your|my)\s+$", re.IGNORECASE)
_NEXT = re.compile(r"\s*-?\s*([^\W\d_]+|\S)?")
_IN_UNIT = re.compile(r"\bin (thirty-seconds|millimet(?:er|re)s|psi|kilopascals|kPa)\b", re.IGNORECASE)
_NAMED_UNIT: dict[str, UnitName] = {"thir": "32nds", "mill": "mm", "psi": "psi", "kilo": "kPa", "kpa": "kPa"}
_NEXT_WORD = re.compile(r"\s*-?[^\W\d_]")
_READS = re.compile(
    r"\b(?:reads?|reading|measures?|measured|down to|shows|gauge says|i (?:read|get|got|have))(?: (?:a|an|only|just|"
    r"about|at))?\s+$", re.IGNORECASE)  # fmt: skip
_SETS = re.compile(r"\b(?:set|fill(?:ed)?(?: (?:it|them))?(?: to)?|inflate(?: to)?|pump(?: to)?)\s+$", re.IGNORECASE)
_PSI_AT_MOST = 120.0
_ASIDE = re.compile(
    r"(?<=\w) (?:extra|more|additional|further|whole|full|solid|measly|mere|lousy|stinking|good|real|fewer)"
    r"(?= (?:thirty|mm|millim\w*|inch|psi|pounds?|lbs?|kpa|kilo\w*|bar|miles?|degrees?|percent|years?|rev\w*|"
    r"turns? (?:a|per)|times (?:a|per) min|rpm|dollars|euros|bucks)\b)", re.IGNORECASE)  # fmt: skip
_DEGREES = ("degC", "degF")
_RAIN: dict[str | None, UnitName] = {"mm": "mm/h", "in": "in/h"}
_OF_RAIN = re.compile(r" of (?:rain|water) (?:an|per|every|each|in an) hour\b", re.IGNORECASE)
_OTHER_DEGREES = re.compile(r" (?:of )?(?:camber|toe|caster|steering|negative|turn|lock|slope|angle)\b", re.IGNORECASE)
_OTHER_MEASURE = re.compile(
    r" ?-?(?:newtons?(?![ -]?met)|kilonewtons?|watts?|kilowatts?|horsepower|hp|lit(?:er|re)s?|gallons?|gram(?:me)?s?|"
    r"ounces?|tons?|tonnes?|volts?|decibels?|dB|yards?|car lengths?|times more likely|points?"
    r"|cents? (?:a|per))\b", re.IGNORECASE)  # fmt: skip
_ALIKE = 2.5  # a number in the same unit is seldom farther from its neighbor than this
_HAS = re.compile(r":\s*$|\b(?:should (?:have|hold|be)|has|have|holds?|reads?|is at)\s+$", re.IGNORECASE)
_PRICES = 50
_HOTTEST = 120
_FEW = 20  # "196 for one", "the four": a small number is a count
_DEEPEST = 24.0
_BACK = 60


class Said(msgspec.Struct, frozen=True, kw_only=True):
    """A number as said at ``text[start:end]``: ``value`` (to ``until``) in one of ``units``, said to ``step``."""

    sort: Sort
    start: int
    end: int
    text: str
    value: float
    until: float | None = None
    units: tuple[UnitName, ...] = ()
    step: float = 1.0
    rough: bool = False
    bound: Bound = ""
    unit_inferred: bool = False
    exact: bool = False
    """Said in whole units or a fraction, so that a conversion starts from it as it stands."""


def said_in(text: str, units: System, sentences: Sequence[int]) -> list[Said]:
    """What ``text`` says in numbers, in its order; what claims no quantity (counts, ordinals, dates) is left out.

    ``sentences`` are the starts of its sentences. Time grows with the length of the text.
    """
    special = _special(text)
    taken = sorted((its.start, its.end) for its in special)
    starts = [start for start, _ in taken]
    plain = _ASIDE.sub(lambda aside: " " * len(aside[0]), text)
    running = [n for n in numbers_in(plain) if not _within(n, starts, taken)]
    found = [*special, *_quantities(text, running, units, sentences)]
    return sorted(found, key=lambda its: its.start)


def _within(number: RunningNumber, starts: Sequence[int], taken: Sequence[tuple[int, int]]) -> bool:
    at = bisect_right(starts, number.start) - 1
    inside = at >= 0 and taken[at][1] > number.start
    return inside or (at + 1 < len(taken) and taken[at + 1][0] < number.end)


def _special(text: str) -> list[Said]:
    found = [_plainly("size", m.start(), m.end(), text, 0.0) for m in _SIZE.finditer(text)]
    for match in _WEEK.finditer(text):
        number = numbers_in(match["n"]) or ()
        if number and number[0].unit is None and 1 <= number[0].value <= 53:
            found.append(_plainly("week", match.start("n"), match.end("n"), text, number[0].value))
    for match in _YEAR.finditer(text):
        near = text[max(0, match.start() - _BACK) : match.end("n")]
        if _MADE.search(near):
            found.append(_plainly("year", match.start("n"), match.end("n"), text, float(match["n"])))
    for match in _INDEX.finditer(text):
        found.append(_plainly("index", match.start("n"), match.end("n"), text, float(match["n"])))
    found += _in_months(text)
    for match in _A_UNIT.finditer(text):
        word = (match["u"] or match["v"]).lower()
        unit = next(its for start, its in _NAMED.items() if word.startswith(start))
        one = _plainly("quantity", match.start(), match.end(), text, 1.0)
        found.append(msgspec.structs.replace(one, units=(unit,), exact=True))
    for match in _BY_PART.finditer(text):
        found.append(_part(match, text))
    for match in _PART_OF.finditer(text):
        found.append(_part(match, text))
    spans = [(its.start, its.end) for its in found]
    for match in _MULTIPLE.finditer(text):
        if not any(start < match.end("m") and match.start("m") < end for start, end in spans):
            value = _times(match["m"].lower())
            found.append(_plainly("multiple", match.start("m"), match.end("m"), text, value))
    return found


def _in_months(text: str) -> Iterator[Said]:
    """``eight months old``, ``two years and four months``: an age in years."""
    for match in _MONTHS.finditer(text):
        years, months = (numbers_in(its or "") for its in (match["y"], match["m"] or match["n"]))
        value = (years[0].value if years else 0.0) + (months[0].value / 12 if months else 0.0)
        if months and (not match["y"] or years) and value < _OLDEST:
            one = _plainly("quantity", match.start(), match.end(), text, value)
            yield msgspec.structs.replace(one, units=("years",), step=1 / 12)


def _plainly(sort: Sort, start: int, end: int, text: str, value: float) -> Said:
    return Said(sort=sort, start=start, end=end, text=text[start:end], value=value, bound=_bound(text, start),
                rough=bool(_ROUGH.search(text[max(0, start - _BACK) : start])))  # fmt: skip


def _part(match: re.Match[str], text: str) -> Said:
    words = re.split(r"[ -]", match["p"].lower())
    bottom = next((n for word in words for name, n in _PARTS.items() if word.startswith(name)), 2)
    share = 100.0 * _WORD_TIMES.get(words[0], 1) / bottom
    start, end = match.span("p")
    return Said(sort="part", start=start, end=end, text=text[start:end], value=share, units=("%",), step=10.0,
                rough=True, bound=_bound(text, start))  # fmt: skip


def _times(words: str) -> float:
    first = words.split()[0]
    return _TIMES.get(first) or float(_WORD_TIMES.get(first, 0) or first)


def _quantities(
    text: str, running: Sequence[RunningNumber], units: System, sentences: Sequence[int]
) -> list[Said]:
    found = []
    for place, number in enumerate(running):
        if number.unit in _RAIN and (rain := _OF_RAIN.match(text, number.end)):
            whole = msgspec.structs.replace(number, end=rain.end(), text=text[number.start : rain.end()])
            found.append(_quantity(text, whole, (_RAIN[number.unit],)))
        elif number.unit is not None and not (number.unit in _DEGREES and _OTHER_DEGREES.match(text, number.end)):
            found.append(_quantity(text, number, _units_of(number)))
        elif number.unit is not None:
            found.append(_quantity(text, number, ()))
        elif measure := _OTHER_MEASURE.match(text, number.end):
            whole = msgspec.structs.replace(number, end=measure.end(), text=text[number.start : measure.end()])
            found.append(_quantity(text, whole, ()))
        elif borrowed := _borrowed(text, running, place, units, sentences):
            found.append(_quantity(text, number, borrowed, inferred=True))
    return found


def _units_of(number: RunningNumber) -> tuple[UnitName, ...]:
    first = number.unit
    assert first is not None
    if first == "psi" and number.other_unit == "lb" and number.value > _PSI_AT_MOST:
        return ("lb",)
    if first == "lb" and number.other_unit == "psi" and number.value > _PSI_AT_MOST:
        return ("lb",)
    return (first,) if number.other_unit is None else (first, number.other_unit)


def _quantity(text: str, number: RunningNumber, units: tuple[UnitName, ...], inferred: bool = False) -> Said:
    before = text[max(0, number.start - _BACK) : number.start]
    step = number.step
    last = number.until if number.until is not None else number.value
    if step == 1.0 and not number.in_words and number.unit != "money":
        step = _round_step(abs(last))
    fraction = number.unit == "32nds" or (step < 1 and not (step * 10**6) % 1 and number.in_words)
    roughly = bool(_ROUGH.search(before) or _OR_SO.match(text, number.end))
    return Said(
        sort="quantity", start=number.start, end=number.end, text=text[number.start : number.end],
        value=number.value, until=number.until,
        units=units, step=step, rough=number.approximate or roughly,
        bound=_bound(text, number.start), unit_inferred=inferred, exact=bool(fraction) or step >= 1,
    )  # fmt: skip


def _round_step(value: float) -> float:
    """12,000 is said to the thousand, 6830 to the ten."""
    step = 1.0
    while value >= 100 * step and value % (step * 10) == 0 and step < 10_000:
        step *= 10
    return step


def _bound(text: str, start: int) -> Bound:
    before = text[max(0, start - _BACK) : start]
    if _NEARLY.search(before) or _LIMITS.search(before):
        return ""
    return "least" if _LEAST.search(before) else "most" if _MOST.search(before) else ""


def _borrowed(
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
    lenders = [other for other in _neighbors(running, place) if _lends(text, number, other, sentences)]
    close = [its for its in lenders if its.unit in _DEGREES or _times_apart(number, its) <= _ALIKE]
    if lenders:
        return _units_of((close or lenders)[0])
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


def _lends(text: str, number: RunningNumber, other: RunningNumber, sentences: Sequence[int]) -> bool:
    """Whether ``other`` has a unit that ``number`` can have left out."""
    if other.unit in (None, "years", "%"):
        return False
    if other.unit == "money" and number.in_words and number.value <= _FEW:
        return False
    here = bisect_right(sentences, other.start) == bisect_right(sentences, number.start)
    behind = text[max(0, number.start - _BACK) : number.start]
    lately = other.start < number.start and number.start - other.end <= _BACK and _HAS.search(behind)
    return bool(here or lately) and _alike(number, other)


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
