"""Numbers and quantities in running text: ``5/32nds``, ``4,5 mm``, ``two and a half millimetres``, ``4 to 5 mm``.

One pass over the text, in time proportional to its length. What is a name and no number (a size such as 225/60R17, a
date, a time, the code behind DOT, 99H, 4x4) is passed over.
"""

import msgspec

from studio.model.quantity import Kind, Quantity, UnitName
from studio.model.running_tokens import Token, adjoin, tokens_of
from studio.model.running_units import UNIT_OF, unit_at
from studio.model.running_values import Value, value_at

_ABOUT = frozenset("about roughly around approximately approx almost nearly circa ca ~ ≈ some".split())
_TO = ("to", "-", "–", "through", "thru", "or", "bis", "à")
_MINUS = ("-", "−", "–")
_MONEY = ("$", "€", "£")
_JOINED = frozenset(UNIT_OF) | {"k", "c", "f", "m", "in", "mil", "n", "x"}


class RunningNumber(msgspec.Struct, frozen=True, kw_only=True):
    """A number as it stands in a text at ``text[start:end]``.

    ``unit`` is None for a bare number; ``other_unit`` is what its word can mean too (pounds, degrees). ``until`` is the
    end of a range, in the same unit. ``step`` is the precision said, in ``unit``: 0.1 for ``4.0 mm``, 1000 for ``ten
    thousand``. ``otherwise`` is what the same digits mean where the comma and the point have changed places.
    """

    start: int
    end: int
    text: str
    value: float
    unit: UnitName | None = None
    other_unit: UnitName | None = None
    until: float | None = None
    otherwise: float | None = None
    step: float = 1.0
    in_words: bool = False
    approximate: bool = False

    @property
    def quantity(self) -> Quantity | None:
        """The value with its unit; None for a bare number."""
        if self.unit is None:
            return None
        return Quantity(self.value, self.unit, _KIND.get(self.unit))


_KIND: dict[str, Kind] = {"mm": "depth", "32nds": "depth", "in": "length"}


def numbers_in(text: str) -> tuple[RunningNumber, ...]:
    """All numbers of ``text`` in its order; their spans do not overlap."""
    tokens, found, at = tokens_of(text), [], 0
    while at < len(tokens):
        read = _number(text, tokens, at)
        if read is None:
            at = _past_what_is_no_number(tokens, at)
            continue
        number, at = read
        if number is not None:
            found.append(number)
    return tuple(found)


def _past_what_is_no_number(tokens: list[Token], at: int) -> int:
    """Past one token, or past the whole of ``24/7`` or ``6/6/7``, of which no part is a number by itself."""
    after = at + 1
    if tokens[at].kind == "digits":
        while after + 1 < len(tokens) and tokens[after].text == "/" and tokens[after + 1].kind == "digits":
            after += 2
    return after


def _number(text: str, tokens: list[Token], at: int) -> tuple[RunningNumber | None, int] | None:
    """The number that begins at token ``at`` and the token after it; (None, after) for a name such as R17 or 99H."""
    first = at + (1 if _sign(tokens, at) else 0)
    money = tokens[at].text in _MONEY
    here = first + (1 if money or (first > at and tokens[first].text in _MONEY) else 0)
    value = value_at(tokens, here) if here < len(tokens) else None
    if value is None or (here > at and value.in_words and not _says_minus(tokens[at])):
        return None
    if tokens[here].kind == "digits" and _is_part_of_a_name(tokens, here, value):
        return None, value.after
    return _with_unit(text, tokens, (at, here), value, money)


def _says_minus(token: Token) -> bool:
    return token.text in ("minus", "negative")


def _sign(tokens: list[Token], at: int) -> bool:
    """Whether token ``at`` is the sign of the number behind it."""
    if at + 1 >= len(tokens):
        return False
    if _says_minus(tokens[at]):
        return True
    if tokens[at].text not in _MINUS or not adjoin(tokens[at], tokens[at + 1]):
        return False
    return at == 0 or not adjoin(tokens[at - 1], tokens[at]) or tokens[at - 1].text in ("(", ":", "=", "~", ",")


def _is_part_of_a_name(tokens: list[Token], at: int, value: Value) -> bool:
    """``R17``, ``99H``, ``4x4``, ``2nd``: letters adjoin the digits and are no unit."""
    before = tokens[at - 1] if at else None
    if before is not None and before.kind in ("word", "name") and adjoin(before, tokens[at]):
        return before.text != "x" or _between_digits(tokens, at - 1)
    after = tokens[value.after] if value.after < len(tokens) else None
    if after is None or after.kind not in ("word", "name") or not adjoin(tokens[value.after - 1], after):
        return False
    if value.bottom and after.text in ("nds", "nd", "ths", "th", "s", "rds", "nths", "sec", "secs"):
        return False
    if after.text == "x" and value.after + 1 < len(tokens):
        return adjoin(after, tokens[value.after + 1])
    return after.text not in _JOINED


def _between_digits(tokens: list[Token], at: int) -> bool:
    return at > 0 and tokens[at - 1].kind == "digits" and adjoin(tokens[at - 1], tokens[at])


def _with_unit(
    text: str, tokens: list[Token], at: tuple[int, int], value: Value, money: bool
) -> tuple[RunningNumber | None, int]:
    first, here = at
    second = _until(tokens, value)
    last = second or value
    unit, other, after = _measured(tokens, last)
    scale = 32.0 if unit == "32nds" and last.bottom in (32, 64) else 1.0
    if value.in_words and value.value == 1 and not value.bottom and unit is None and second is None:
        return None, value.after  # "one" is a pronoun here
    sign = -1.0 if first < here and tokens[first].text not in _MONEY else 1.0
    start, end = tokens[first].start, tokens[after - 1].end
    return RunningNumber(
        start=start, end=end, text=text[start:end], value=sign * value.value * (scale if value.bottom else 1.0),
        unit="money" if money else unit, other_unit=None if money else other,
        until=second.value * scale if second else None,
        otherwise=value.otherwise, step=last.step * scale, in_words=value.in_words,
        approximate=bool(first) and tokens[first - 1].text in _ABOUT,
    ), after  # fmt: skip


def _until(tokens: list[Token], value: Value) -> Value | None:
    """The second number of ``4 to 5 mm``: directly behind, and said in the same way."""
    at = value.after
    if at + 1 >= len(tokens) or tokens[at].text not in _TO:
        return _between(tokens, value)
    loose = tokens[at].text in ("-", "–") and adjoin(tokens[at - 1], tokens[at]) != adjoin(tokens[at], tokens[at + 1])
    second = None if loose else value_at(tokens, at + 1)
    if second is None or (tokens[at + 1].kind == "digits" and _is_part_of_a_name(tokens, at + 1, second)):
        return None
    return second if _alike(value, second) else None


def _alike(first: Value, second: Value) -> bool:
    """Whether the two ends are said in one measure: ``5/32 to 7/32``, ``5-7/32``, ``4 to 5``."""
    same = first.bottom == second.bottom or (first.bottom == 0 and second.bottom == 32)
    return same and first.in_words == second.in_words


def _between(tokens: list[Token], value: Value) -> Value | None:
    """``between 4 and 5 mm``."""
    at = value.after
    width = next((n for n in (1, 2, 3) if value.after - n > 0 and tokens[value.after - n - 1].text == "between"), 0)
    if not width or at + 1 >= len(tokens) or tokens[at].text != "and":
        return None
    second = value_at(tokens, at + 1)
    return second if second is not None and _alike(value, second) else None


def _measured(tokens: list[Token], value: Value) -> tuple[UnitName | None, UnitName | None, int]:
    """(unit, its other meaning, the token after), a fraction of 32 being a number of thirty-seconds."""
    after = value.after
    if value.bottom in (32, 64):
        return "32nds", None, _past_thirty_seconds(tokens, after)
    here = after
    if here < len(tokens) and tokens[here].text == "-" and adjoin(tokens[here - 1], tokens[here]):
        here += 1  # a 17-inch rim
    if here < len(tokens) and tokens[here].text == "of" and value.bottom:
        here += 2 if here + 1 < len(tokens) and tokens[here + 1].text in ("a", "an") else 1
    unit, other, past = unit_at(tokens, here, value.value)
    return (None, None, after) if unit is None else (unit, other, past)


def _past_thirty_seconds(tokens: list[Token], at: int) -> int:
    """Past what follows ``5/32``: ``nds``, ``'s``, ``of an inch``, ``in``."""
    if at < len(tokens) and tokens[at].text in ("nds", "nd", "ths", "th", "s", "rds", "nths", "sec", "secs"):
        at += 1 if adjoin(tokens[at - 1], tokens[at]) else 0
    elif at + 1 < len(tokens) and tokens[at].text in ("'", "’") and tokens[at + 1].text == "s":
        at += 2
    unit, _, past = unit_at(tokens, at, 0.0)
    if unit == "in":
        return past
    words = [token.text for token in tokens[at : at + 3]]
    if words[:1] == ["of"] and words[1:2] and words[1] in ("inch", "inches"):
        return at + 2
    return at + 3 if words in (["of", "an", "inch"], ["of", "a", "inch"], ["of", "one", "inch"]) else at
