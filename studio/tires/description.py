"""Read what follows the size on a sidewall: load index, speed symbol, load range, extra load, and other marks."""

import re
from collections.abc import Callable
from dataclasses import replace

from studio.tires.marking import Marking, MarkingError

SPEED_SYMBOLS: tuple[str, ...] = (*(f"A{step}" for step in range(1, 9)), *"BCDEFGJKLMNPQRSTUHVWY")
LOAD_INDICES = (20, 200)
LOAD_RANGES = "ABCDEFG"

_END = r"(?![A-Z0-9])"
_SYMBOL = r"(?P<symbol>[A-Z]\d?)(?=$|[\s,;/()]|XL|EXTRA|REINF|M\+S)"
_NUMBERS = r"(?P<single>\d{1,3})(?:\s*/\s*(?P<dual>\d{1,3}))?"
_SKIPPED = re.compile(r"[\s,;/]*")
_OTHER_MARKS = {
    "M+S": r"M\s?[+&/.-]\s?S|MS|M S|MUD (?:AND|&|\+) SNOW", "3PMSF": r"3\s?PMSF", "SL": "SL", "LL": "LL",
    "TL": "TL|TUBELESS", "ICE": "ICE", "ROTATION": "ROTATION", "OUTSIDE": "OUTSIDE", "INSIDE": "INSIDE",
    "STUDDED": "STUDDED", "TEMPORARY USE ONLY": "TEMPORARY USE ONLY", "POR": "POR", "MPT": "MPT", "FRT": "FRT",
    "ET": "ET", "NHS": "NHS",
}  # fmt: skip


def read_description(size: Marking, text: str) -> Marking:
    """``size`` with what ``text`` adds to it. Raises MarkingError for what is no part of a marking."""
    marking, at = size, _skip(text, 0)
    while at < len(text):
        marking, at = _take(marking, text, at)
        at = _skip(text, at)
    return marking


def _skip(text: str, at: int) -> int:
    found = _SKIPPED.match(text, at)
    return found.end() if found else at


def _take(marking: Marking, text: str, at: int) -> tuple[Marking, int]:
    for pattern, add in _READERS:
        if found := pattern.match(text, at):
            return add(marking, found), found.end()
    word = text[at:].split()[0][:20]
    raise MarkingError(
        f"{word!r} after the size is not understood, expected load index and speed symbol, such as 99H XL"
    )


def _extra_load(marking: Marking, found: re.Match[str]) -> Marking:
    return replace(marking, extra_load=True)


def _nothing(marking: Marking, found: re.Match[str]) -> Marking:
    return marking


def _run_flat(marking: Marking, found: re.Match[str]) -> Marking:
    if marking.construction != "radial":
        raise MarkingError("run-flat on a tire that is not radial, expected one such as 225/60RF17 99V")
    return replace(marking, run_flat=True)


def _unclear(marking: Marking, found: re.Match[str]) -> Marking:
    raise MarkingError(
        "RF behind the size means reinforced or run-flat, expected XL, or RF before the rim: 225/60RF17 99V"
    )


def _load_range(marking: Marking, found: re.Match[str]) -> Marking:
    letter = found["letter"]
    if letter not in LOAD_RANGES:
        raise MarkingError(f"load range {letter}, expected a letter from A to G, such as E in LT245/75R16 E")
    if marking.load_range not in (None, letter):
        raise MarkingError(f"load ranges {marking.load_range} and {letter}, expected one, such as LT245/75R16 E")
    return replace(marking, load_range=letter)


def _ply(marking: Marking, found: re.Match[str]) -> Marking:
    return _with_mark(marking, f"{int(found['ply'])}PR")


def _with_mark(marking: Marking, mark: str) -> Marking:
    return marking if mark in marking.marks else replace(marking, marks=(*marking.marks, mark))


def _service(marking: Marking, found: re.Match[str]) -> Marking:
    """Load index, dual index and symbol; a second one, in brackets, is kept as a mark."""
    bracketed = found[0].startswith("(")
    single = _index(found["single"])
    dual = _index(found["dual"])
    symbol = _symbol(found["symbol"]) if found["symbol"] else None
    if marking.load_index is not None and bracketed and single is None and marking.speed_symbol is None:
        single, dual = marking.load_index, marking.load_index_dual
    elif marking.load_index is not None and bracketed:
        return _with_mark(marking, f"({found['single'] or ''}{symbol})")
    elif marking.load_index is not None:
        raise MarkingError(
            f"two load indices, {marking.load_index} and {single}, expected one, such as 99H or 120/116S"
        )
    if single is not None and dual is not None and dual > single:
        raise MarkingError(f"dual load index {dual} above the single one {single}, expected one such as 120/116S")
    _agree(marking, symbol)
    return replace(
        marking,
        load_index=single,
        load_index_dual=dual,
        speed_symbol=symbol or marking.speed_symbol,
        bracketed=bracketed,
    )


def _agree(marking: Marking, symbol: str | None) -> None:
    """A symbol inside the size, as in 225/60HR17, and one behind it must be the same."""
    if None not in (symbol, marking.speed_symbol) and symbol != marking.speed_symbol:
        raise MarkingError(f"speed symbols {marking.speed_symbol} and {symbol}, expected one, such as 99H")


def _index(digits: str | None) -> int | None:
    if digits is None:
        return None
    if not LOAD_INDICES[0] <= int(digits) <= LOAD_INDICES[1]:
        low, high = LOAD_INDICES
        raise MarkingError(f"load index {int(digits)}, expected {low} to {high}, such as 99 in 225/60R17 99H")
    return int(digits)


def _symbol(letter: str) -> str:
    if letter in ("I", "O"):
        raise MarkingError(f"speed symbol {letter}, which is not used as it looks like a digit; expected one such as H")
    if letter not in SPEED_SYMBOLS:
        raise MarkingError(
            f"speed symbol {letter}, expected one of A1 to A8, B to Y without I, O and X, such as H in 99H"
        )
    return letter


def _lone_letter(marking: Marking, found: re.Match[str]) -> Marking:
    """A letter by itself: a load range up to G, else the speed symbol without its load index."""
    if found["letter"] in LOAD_RANGES:
        return _load_range(marking, found)
    symbol = _symbol(found["letter"])
    _agree(marking, symbol)
    return replace(marking, speed_symbol=symbol)


def _mark(name: str) -> Callable[[Marking, re.Match[str]], Marking]:
    return lambda marking, found: _with_mark(marking, name)


_Reader = tuple[re.Pattern[str], Callable[[Marking, re.Match[str]], Marking]]
_READERS: tuple[_Reader, ...] = (
    (re.compile(r"(?:EXTRA[ -]?LOAD|REINF(?:ORCED|\.)?|XL)(?![A-Z])"), _extra_load),
    (re.compile(rf"(?:LOAD[ -]?RANGE|LR)[ -]?(?P<letter>[A-Z]){_END}"), _load_range),
    *((re.compile(rf"(?:{pattern}){_END}"), _mark(name)) for name, pattern in _OTHER_MARKS.items()),
    (re.compile(rf"(?:RUN[ -]?FLAT){_END}"), _run_flat),
    (re.compile(rf"RF{_END}"), _unclear),
    (re.compile(rf"DOT(?: ?[0-9A-Z]{{2,4}}(?: ?[0-9A-Z]{{2,6}}){{0,3}} ?\d{{3,4}}$)?{_END}"), _nothing),
    (re.compile(rf"RADIAL{_END}"), _nothing),
    (re.compile(r"\((?P<letter>[A-G])\)"), _load_range),
    (re.compile(rf"(?P<ply>\d{{1,2}})[ -]?(?:PR|PLY){_END}"), _ply),
    (re.compile(rf"\(\s*(?:{_NUMBERS})?\s*(?P<symbol>[A-Z]\d?)\s*\)"), _service),
    (re.compile(rf"{_NUMBERS}\s*(?!(?<=\s)[A-G]{_END})(?:{_SYMBOL})"), _service),
    (re.compile(rf"{_NUMBERS}(?P<symbol>){_END}"), _service),
    (re.compile(rf"(?P<letter>[A-Z]){_END}"), _lone_letter),
)
