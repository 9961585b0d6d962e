"""Text as it is spoken: digits and signs in words, markup and pictures silent; and how many words that makes."""

import re
from collections.abc import Callable

from studio.model.quantity import UNITS
from studio.model.spoken import spell_fraction, spell_integer, spell_number, spell_thirty_seconds

LONGEST_NUMBER = 12
_TAG = re.compile(r"</?[A-Za-z][^<>]{0,200}>|&[a-z]{2,6};|https?://\S{1,300}")
_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_SYMBOLS = {
    "mm": "mm", "in": "in", '"': "in", "″": "in", "kPa": "kPa", "bar": "bar", "km/h": "km/h", "kmh": "km/h",
    "mph": "mph", "km": "km", "mi": "mi", "kg": "kg", "lb": "lb", "lbs": "lb", "°C": "degC", "°F": "degF", "%": "%",
    "psi": "psi", "N·m": "N m", "Nm": "N m", "lbf·ft": "lbf ft", "lb-ft": "lbf ft", "ft": "ft", "m": "m",
    "mm/h": "mm/h", "in/h": "in/h", "L/s": "L/s", "rpm": "rpm",
}  # fmt: skip
_UNIT = "|".join(re.escape(symbol) for symbol in sorted(_SYMBOLS, key=len, reverse=True))
_NUMBER = rf"\d{{1,3}}(?:,\d{{3}})+(?:\.\d+)?|\d{{1,{LONGEST_NUMBER}}}(?:\.\d{{1,6}})?"
_SAID = re.compile(
    rf"(?P<thirty>\d{{1,3}}(?:\.\d)?)\s?/\s?32(?:nds?)?(?!\d)(?:\s?(?:of an inch|inch(?:es)?|in\b|[\"″]))?"
    rf"|(?P<size>\d{{3}}/\d{{2}}\s?[RDB]\s?\d{{2}}\b)"
    rf"|(?P<top>\d{{1,2}})/(?P<bottom>2|4|8|16)(?!\d)"
    rf"|(?P<sign>(?<![\w)])[-−])?(?P<number>{_NUMBER})(?:\s?(?P<unit>{_UNIT})(?![A-Za-z]))?"
    rf"|(?P<lone>[%&=+×°±≈])"
)
_LONE = {"%": "percent", "&": "and", "=": "equals", "+": "plus", "×": "times", "°": "degrees", "±": "plus or minus",
         "≈": "about"}  # fmt: skip


def count_words(text: str) -> int:
    """How many words are spoken; a hyphen parts words, so ``two thirty-seconds of an inch`` has six."""
    return len(_WORD.findall(as_spoken(text)))


def as_spoken(text: str) -> str:
    """``text`` with numbers, units and signs in words, as a presenter would read it; tags and addresses are silent."""
    return _SAID.sub(_said, _TAG.sub(" ", text))


def _said(found: re.Match[str]) -> str:
    kind = found.lastgroup or ""
    if found["thirty"]:
        return f" {spell_thirty_seconds(found['thirty'])} "
    if found["top"]:
        return f" {_fraction(int(found['top']), int(found['bottom']))} "
    return f" {_READ.get(kind, _quantity)(found)} "


def _fraction(top: int, bottom: int) -> str:
    return spell_fraction(top, bottom) if 0 < top < bottom else f"{spell_integer(top)} over {spell_integer(bottom)}"


def _size(found: re.Match[str]) -> str:
    """``235/60R18`` as the trade reads it: two thirty-five sixty R eighteen."""
    width, aspect, letter, rim = re.findall(r"\d+|[RDB]", found["size"])
    return f"{spell_integer(int(width[0]))} {spell_integer(int(width[1:]))} {spell_integer(int(aspect))} {letter} " + (
        spell_integer(int(rim))
    )


def _quantity(found: re.Match[str]) -> str:
    digits, unit = found["number"].replace(",", ""), UNITS[_SYMBOLS[found["unit"]]] if found["unit"] else None
    words = _year(digits) or spell_number(digits) if unit is None else spell_number(digits)
    minus = "minus " if found["sign"] else ""
    name = "" if unit is None else unit.spoken_one if words == "one" else unit.spoken_many
    return f"{minus}{words} {name}".rstrip()


def _year(digits: str) -> str:
    """A number of a year as people say it; empty where it is none."""
    if len(digits) != 4 or digits[:2] not in ("19", "20") or digits[2:] == "00":
        return ""
    last = int(digits[2:])
    if digits[:3] == "200":
        return f"two thousand {spell_integer(last)}"
    return f"{spell_integer(int(digits[:2]))} {'oh ' if last < 10 else ''}{spell_integer(last)}"


_READ: dict[str, Callable[[re.Match[str]], str]] = {"size": _size, "lone": lambda found: _LONE[found["lone"]]}
