"""Values in running text: digits with their separators, fractions, and numbers in English words."""

import re
from dataclasses import dataclass
from fractions import Fraction

from studio.model.running_tokens import Token, adjoin

MOST_DIGITS = 15
_ONES = {word: n for n, word in enumerate(
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen".split())}  # fmt: skip
_TENS = {word: 10 * n for n, word in enumerate("zero ten twenty thirty forty fifty sixty seventy eighty ninety".split())
         if n > 1} | {"fourty": 40}  # fmt: skip
_SCALES = {"thousand": 1_000, "million": 1_000_000, "k": 1_000, "grand": 1_000, "tausend": 1_000, "mil": 1_000}
_PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4,
    "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10, "sixteenth": 16, "sixteenths": 16, "hundredth": 100,
    "hundredths": 100,
}  # fmt: skip
_GLYPHS = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
_BOTTOMS = (2, 4, 8, 16, 32, 64)
_SLASHES = ("/", "⁄", "∕", "÷")
_GROUPED = re.compile(r"[1-9][0-9]{0,2}([.,'’])[0-9]{3}(?:\1[0-9]{3})*(?:[.,][0-9]+)?")


@dataclass(frozen=True, slots=True)
class Value:
    """A value from ``tokens[first:after]``. ``bottom`` is the denominator said, 0 for none; ``step`` its precision.

    ``otherwise`` is what the same digits can mean too: ``41.200`` is 41.2, or 41200 as other languages write it.
    """

    value: float
    after: int
    step: float
    bottom: int = 0
    otherwise: float | None = None
    in_words: bool = False


def value_at(tokens: list[Token], at: int) -> Value | None:
    """The value that begins at token ``at``; None where none does."""
    token = tokens[at]
    if token.kind == "digits":
        return _from_digits(tokens, at)
    if token.text in _GLYPHS:
        top, bottom = _GLYPHS[token.text]
        return Value(top / bottom, at + 1, 1 / bottom, bottom)
    return _from_words(tokens, at) if token.kind == "word" else None


def _text(tokens: list[Token], at: int) -> str:
    return tokens[at].text if at < len(tokens) else ""


def _from_digits(tokens: list[Token], at: int) -> Value | None:
    read = read_digits(tokens[at].text)
    if read is None:
        return None
    value, step, otherwise = read
    whole = float(value).is_integer() and tokens[at].text.isdigit()
    if _text(tokens, at + 1) in _SLASHES:
        return _fraction(tokens, at, value)
    if whole and _text(tokens, at + 1) in _GLYPHS:
        top, bottom = _GLYPHS[tokens[at + 1].text]
        return Value(value + top / bottom, at + 2, 1 / bottom, bottom)
    if whole and (mixed := _mixed_digits(tokens, at, value)):
        return mixed
    if (scale := _SCALES.get(_text(tokens, at + 1))) and value < 1000:
        return Value(value * scale, at + 2, step * scale)
    grouped = _spaced_groups(tokens, at)
    return grouped or Value(value, at + 1, step, otherwise=otherwise)


def read_digits(text: str) -> tuple[float, float, float | None] | None:
    """(value, step of the last digit, the other reading) of digits with separators; None for what is no number."""
    if len(text) > MOST_DIGITS + 5:
        return None
    if text.isdigit():
        return (float(text), 1.0, None) if len(text) <= MOST_DIGITS else None
    marks = [c for c in text if not c.isdigit()]
    if grouped := _GROUPED.fullmatch(text):
        digits = text.replace(grouped[1], "")
        decimal = next((c for c in digits if not c.isdigit()), "")
        value = float(digits.replace(decimal, ".") if decimal else digits)
        step = 10.0 ** -len(digits.partition(decimal)[2]) if decimal else 1.0
        if len(marks) > 1 or grouped[1] in "'’":
            return value, step, None
        small = float(text.replace(",", "."))
        return (value, 1.0, small) if grouped[1] == "," else (small, 0.001, value)
    if len(marks) != 1 or marks[0] in "'’":
        return None
    whole, _, decimals = text.partition(marks[0])
    return float(f"{whole}.{decimals}"), 10.0 ** -len(decimals), None


def _fraction(tokens: list[Token], at: int, top: float) -> Value | None:
    """``5/32``, ``1/8``; None for ``24/7`` and the like."""
    bottom = tokens[at + 2] if at + 2 < len(tokens) else None
    if bottom is None or bottom.kind != "digits" or _text(tokens, at + 3) in _SLASHES:
        return None
    if not bottom.text.isdigit() or len(bottom.text) > 2:
        return None
    below = int(bottom.text)
    tight = adjoin(tokens[at], tokens[at + 1]) and adjoin(tokens[at + 1], bottom)
    if below not in _BOTTOMS or (below < 32 and top >= below) or not (tight or below == 32):
        return None
    return Value(top / below, at + 3, 1 / below, below)


def _mixed_digits(tokens: list[Token], at: int, whole: float) -> Value | None:
    """``2 1/2``: a whole number and a fraction of halves to eighths."""
    if at + 3 >= len(tokens) or tokens[at + 1].kind != "digits" or tokens[at + 2].text not in _SLASHES:
        return None
    top, below = tokens[at + 1].text, tokens[at + 3].text
    if len(top) != 1 or below not in ("2", "4", "8") or int(top) >= int(below) or int(top) == 0:
        return None
    return Value(whole + int(top) / int(below), at + 4, 1 / int(below), int(below))


def _spaced_groups(tokens: list[Token], at: int) -> Value | None:
    """``41 200 km``: thousands set apart by a space, only in front of a unit of distance or load."""
    if not (tokens[at].text.isdigit() and len(tokens[at].text) <= 3 and tokens[at].text[0] != "0"):
        return None
    digits, after = tokens[at].text, at + 1
    while after < min(len(tokens), at + 3) and _is_group(tokens[after]):
        if tokens[after].start - tokens[after - 1].end != 1:
            break
        digits, after = digits + tokens[after].text, after + 1
    known = _text(tokens, after) in ("km", "kms", "mi", "miles", "kilometers", "kilometres", "kg")
    return Value(float(digits), after, 1.0) if after > at + 1 and known else None


def _is_group(token: Token) -> bool:
    """Three digits, and not ``4,5``."""
    return token.kind == "digits" and len(token.text) == 3 and token.text.isdigit()


def _from_words(tokens: list[Token], at: int) -> Value | None:
    """A number in words, with its fraction: ``fifty-five``, ``two and a half``, ``five thirty-seconds``."""
    if tokens[at].text in ("a", "an", "half", "quarter", "eighth"):
        return _after_article(tokens, at)
    found = _whole(tokens, at)
    if found is None:
        return None
    value, after, step = found
    if _text(tokens, after) == "point":
        decimals, after = _decimals(tokens, after + 1)
        return Value(value + float(f"0.{decimals}"), after, 10.0 ** -len(decimals), in_words=True) if decimals else None
    parts, past = _part(tokens, after)
    if parts and (value > 1 or parts != 32 or _text(tokens, past) == "of"):
        return Value(value / parts, past, 1 / parts, parts, in_words=True)
    if (mixed := _and_part(tokens, after)) is not None:
        share, past = mixed
        return Value(value + float(share), past, 1 / share.denominator, share.denominator, in_words=True)
    return Value(float(value), after, float(step), in_words=True)


def _after_article(tokens: list[Token], at: int) -> Value | None:
    """``an eighth of``, ``half an``, ``a hundred``, ``quarter inch``: only in front of what they measure."""
    first = at + (tokens[at].text in ("a", "an"))
    if _text(tokens, first) == "hundred" or _text(tokens, first) in ("thousand", "million"):
        found = _whole(tokens, first, 1)
        return Value(float(found[0]), found[1], float(found[2]), in_words=True) if found else None
    parts, after = _part(tokens, first)
    if not parts:
        return None
    if _text(tokens, after) in ("an", "a", "of"):
        after += 2 if _text(tokens, after) == "of" and _text(tokens, after + 1) in ("a", "an") else 1
    elif _text(tokens, after) not in ("inch", "millimeter", "millimetre", "mile", "percent", "bar"):
        return None
    measured = _text(tokens, after) in ("inch", "millimeter", "millimetre", "mile", "bar", "percent", "mm", "kilometer")
    return Value(1 / parts, after, 1 / parts, parts, in_words=True) if measured else None


def _whole(tokens: list[Token], at: int, start: int | None = None) -> tuple[int, int, int] | None:
    """A whole number in words: (value, the token after it, its last step)."""
    total, current, last, step = 0, start or 0, "ones" if start else "", 1
    here = at
    while here < len(tokens):
        word, jump = tokens[here].text, 1
        if last and word == "-" and here + 1 < len(tokens) and adjoin(tokens[here - 1], tokens[here]):
            word, jump = tokens[here + 1].text, 2
        if word == "and" and last in ("hundred", "scale") and _text(tokens, here + 1) in {**_ONES, **_TENS}:
            word, jump = tokens[here + 1].text, 2
        if word in _ONES and (last in ("", "hundred", "scale") or (last == "tens" and 0 < _ONES[word] < 10)):
            current, last, step = current + _ONES[word], "ones", 1
        elif word in _TENS and last in ("", "hundred", "scale"):
            if _part(tokens, here + jump - 1)[0] and last:
                break
            current, last, step = current + _TENS[word], "tens", 1
        elif word in _ONES and last == "tens" and total == 0 and current in (20,) and _ONES[word] >= 10:
            return current * 100 + _ONES[word], here + jump, 1  # a year: twenty nineteen
        elif word == "hundred" and last in ("ones", "tens") and 0 < current < 100:
            current, last, step = current * 100, "hundred", 100
        elif word in ("thousand", "million") and last and 0 < current < 1000:
            total, current, step = total + current * _SCALES[word], 0, _SCALES[word]
            last = "scale"
        else:
            break
        here += jump
    return (total + current, here, step) if last and here > at else None


def _decimals(tokens: list[Token], at: int) -> tuple[str, int]:
    digits = ""
    while at < len(tokens) and len(digits) < 6:
        word = tokens[at].text
        if word in ("oh", "o"):
            digits += "0"
        elif word in _ONES and _ONES[word] < 10:
            digits += str(_ONES[word])
        else:
            break
        at += 1
    return digits, at


def _part(tokens: list[Token], at: int) -> tuple[int, int]:
    """The denominator named at ``at`` and the token after it; 0 where none is. A hyphen may stand before it."""
    if _text(tokens, at) == "-" and at and adjoin(tokens[at - 1], tokens[at]):
        at += 1
    word = _text(tokens, at)
    if word in ("thirty", "sixty") and at + 1 < len(tokens):
        after = at + 1 + (tokens[at + 1].text == "-")
        ending = _text(tokens, after)
        if word == "thirty" and ending in ("second", "seconds", "seconths"):
            return 32, after + 1
        if word == "sixty" and ending in ("fourth", "fourths"):
            return 64, after + 1
    return (_PARTS[word], at + 1) if word in _PARTS else (0, at)


def _and_part(tokens: list[Token], at: int) -> tuple[Fraction, int] | None:
    """``and a half``, ``and three quarters``."""
    if _text(tokens, at) != "and":
        return None
    if _text(tokens, at + 1) in ("a", "an"):
        parts, after = _part(tokens, at + 2)
        return (Fraction(1, parts), after) if parts else None
    top = _ONES.get(_text(tokens, at + 1), 0)
    parts, after = _part(tokens, at + 2)
    return (Fraction(top, parts), after) if parts and 0 < top < parts and parts <= 16 else None
