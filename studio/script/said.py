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
from studio.script.borrowed import borrowed, units_of
from studio.script.sentences import sentence_span

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
_SOMEBODY_BORN = re.compile(r"\b(?:i|he|she|we|you|who|they) (?:was|were) born\b", re.IGNORECASE)
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
_NAMED: dict[str, UnitName] = {"inch": "in", "thirty": "32nds", "mill": "mm", "mile": "mi", "kilom": "km", "bar": "bar",
                               "kilo": "kg", "pound": "lb"}  # fmt: skip
_WITH_A_PART = re.compile(
    r"\b(?P<n>an?|one|two|three|four|five|six|seven|eight|nine|ten|\d{1,2}|good|full|whole|solid|bare) "
    r"(?P<u>inch(?:es)?|thirty-seconds?|millimet(?:er|re)s?|miles?|bars?) and "
    r"(?P<f>(?:a|one|two|three) (?:half|thirds?|quarters?|fifths?|eighths?|tenths?))\b", re.IGNORECASE)  # fmt: skip
_ODD_PARTS = {"fifth": 5, "sixth": 6, "seventh": 7, "ninth": 9, "twelfth": 12}
_PART_OF_UNIT = re.compile(
    r"\b(?P<n>a|one|two|three|four) (?P<p>(?:fifth|sixth|seventh|ninth|twelfth)s?) of an? "
    r"(?P<u>inch|millimet(?:er|re)|bar|mile)\b", re.IGNORECASE)  # fmt: skip
_COUNT = r"(?:\d{1,2}|[a-z]+(?:-[a-z]+)?)"
_MONTHS = re.compile(
    rf"\b(?:(?P<y>{_COUNT}) years?(?: and|,)? (?P<m>{_COUNT}) months?(?: old)?|(?P<n>{_COUNT}) months? old)\b",
    re.IGNORECASE)  # fmt: skip
_OLDEST = 40
_TIMES = {"twice": 2.0, "double": 2.0, "triple": 3.0, "half": 0.5}
_WORD_TIMES = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "a": 1, "one": 1}
_PARTS = {"third": 3, "eighth": 8, "quarter": 4, "fifth": 5, "tenth": 10}
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
_AND_A_BIT = re.compile(r" (?:and|plus) (?:a bit|change|a little|then some|a hair)\b", re.IGNORECASE)
_TURNS = re.compile(r"(?: (?:more|extra))? (?:turns|revolutions)\b(?! (?:of|to)\b)", re.IGNORECASE)
_PER_WAY = re.compile(r"\b(?:miles?|kilomet(?:er|re)s?|minute)\b", re.IGNORECASE)
_ASIDE = re.compile(
    r"(?<=\w) (?:extra|more|additional|further|whole|full|solid|measly|mere|lousy|stinking|good|real|fewer)"
    r"(?= (?:thirty|mm|millim\w*|inch|psi|pounds?|lbs?|kpa|kilo\w*|bar|miles?|degrees?|percent|years?|rev\w*|"
    r"turns? (?:a|per)|times (?:a|per) min|rpm|dollars|euros|bucks)\b)", re.IGNORECASE)  # fmt: skip
_WEIGHS = re.compile(r"\b(?:weighs?|weighed|heavy|heavier|weight)\b", re.IGNORECASE)
_DEGREES = ("degC", "degF")
_RAIN: dict[str | None, UnitName] = {"mm": "mm/h", "in": "in/h"}
_OF_RAIN = re.compile(r" of (?:rain|water) (?:an|per|every|each|in an) hour\b", re.IGNORECASE)
_OTHER_DEGREES = re.compile(r" (?:of )?(?:camber|toe|caster|steering|negative|turn|lock|slope|angle)\b", re.IGNORECASE)
_OTHER_MEASURE = re.compile(
    r" ?-?(?:newtons?(?![ -]?met)|kilonewtons?|watts?|kilowatts?|horsepower|hp|lit(?:er|re)s?|gallons?|gram(?:me)?s?|"
    r"ounces?|tons?|tonnes?|volts?|decibels?|dB|yards?|car lengths?|times more likely|points?"
    r"|cents? (?:a|per))\b", re.IGNORECASE)  # fmt: skip
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
    named = [_as_running(its) for its in special if its.sort == "quantity" and its.units]
    running = sorted([*running, *named], key=lambda its: its.start)
    quantities = _quantities(text, running, units, sentences)
    found = [*special, *(its for its in quantities if its.start not in {one.start for one in named})]
    return sorted(found, key=lambda its: its.start)


def _as_running(said: Said) -> RunningNumber:
    """A number of a form of its own, which lends its unit like any other."""
    return RunningNumber(start=said.start, end=said.end, text=said.text, value=said.value, unit=said.units[0])


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
        if _MADE.search(near) and not _SOMEBODY_BORN.search(near):
            found.append(_plainly("year", match.start("n"), match.end("n"), text, float(match["n"])))
    for match in _INDEX.finditer(text):
        found.append(_plainly("index", match.start("n"), match.end("n"), text, float(match["n"])))
    found += [*_in_months(text), *_and_a_half(text)]
    for match in _A_UNIT.finditer(text):
        word = (match["u"] or match["v"]).lower()
        unit = next(its for start, its in _NAMED.items() if word.startswith(start))
        one = _plainly("quantity", match.start(), match.end(), text, 1.0)
        if not any(its.start <= match.start() < its.end for its in found):
            found.append(msgspec.structs.replace(one, units=(unit,), exact=True))
    found += [its for match in _PART_OF_UNIT.finditer(text) for its in _part_of_unit(match, text)]
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


def _and_a_half(text: str) -> Iterator[Said]:
    """``an inch and three quarters``, ``two thirty-seconds and a half``."""
    for match in _WITH_A_PART.finditer(text):
        unit = next(its for start, its in _NAMED.items() if match["u"].lower().startswith(start))
        whole = numbers_in(match["n"])
        count, part = match["f"].lower().split()
        bottom = next((n for name, n in _PARTS.items() if part.startswith(name)), 2)
        value = (whole[0].value if whole else 1.0) + _WORD_TIMES.get(count, 1) / bottom
        one = _plainly("quantity", match.start(), match.end(), text, value)
        yield msgspec.structs.replace(one, units=(unit,), step=1 / bottom, exact=True)


def _part_of_unit(match: re.Match[str], text: str) -> Iterator[Said]:
    """``a fifth of an inch``: parts that are not halves, quarters, eighths of one."""
    unit = next(its for start, its in _NAMED.items() if match["u"].lower().startswith(start))
    bottom = next(n for name, n in _ODD_PARTS.items() if match["p"].lower().startswith(name))
    value = _WORD_TIMES[match["n"].lower()] / bottom
    one = _plainly("quantity", match.start(), match.end(), text, value)
    yield msgspec.structs.replace(one, units=(unit,), step=value / _WORD_TIMES[match["n"].lower()] / 2, exact=True)


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
            weighs = "lb" in units_of(number) and _WEIGHS.search(_sentence(text, number, sentences))
            found.append(_quantity(text, number, ("lb",) if weighs else units_of(number)))
        elif number.unit is not None:
            found.append(_quantity(text, number, ()))
        elif (turns := _TURNS.match(text, number.end)) and _PER_WAY.search(_sentence(text, number, sentences)):
            whole = msgspec.structs.replace(number, end=turns.end(), text=text[number.start : turns.end()])
            found.append(_quantity(text, whole, ("rev/mi", "rev/km", "rpm")))
        elif measure := _OTHER_MEASURE.match(text, number.end):
            whole = msgspec.structs.replace(number, end=measure.end(), text=text[number.start : measure.end()])
            found.append(_quantity(text, whole, ()))
        elif lent := borrowed(text, running, place, units, sentences):
            found.append(_quantity(text, number, lent, inferred=True))
    return found


def _sentence(text: str, number: RunningNumber, sentences: Sequence[int]) -> str:
    return text[slice(*sentence_span(sentences, number.start, len(text)))]


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
        bound="least" if _AND_A_BIT.match(text, number.end) else _bound(text, number.start),
        unit_inferred=inferred, exact=bool(fraction) or step >= 1,
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
