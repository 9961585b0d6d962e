"""Quantities rounded as people say them: ``about an eighth of an inch``, ``about four millimeters``.

How coarse each is said is the custom of speech, no source: never coarser than a viewer could act on wrongly.
"""

import math
from fractions import Fraction

from studio.model.spoken import spell_fraction, spell_integer, spell_mixed

_MONTHS = 12
_STEPS: dict[str, tuple[tuple[float, float], ...]] = {  # (from this size on, rounded to this)
    "mm": ((0.0, 0.1), (1.0, 0.5), (10.0, 1.0), (100.0, 5.0), (1000.0, 10.0)),
    "psi": ((0.0, 0.5), (5.0, 1.0)),
    "kPa": ((0.0, 1.0), (20.0, 5.0)),
    "bar": ((0.0, 0.1),),
    "%": ((0.0, 0.1), (1.0, 0.5), (10.0, 1.0)),
    "years": ((0.0, 0.5), (10.0, 1.0)),
    "rpm": ((0.0, 0.5), (5.0, 1.0)),
    "L/s": ((0.0, 0.5), (5.0, 1.0)),
    "in/h": ((0.0, 0.5),),
}
_DISTANCE = ((0.0, 1.0), (20.0, 5.0), (100.0, 10.0), (1000.0, 100.0), (10_000.0, 1000.0))
_LOAD = ((0.0, 1.0), (100.0, 10.0))
_STEPS |= {"km": _DISTANCE, "mi": _DISTANCE, "kg": _LOAD, "lb": _LOAD}
_WHOLE = ((0.0, 1.0),)
_HALF = Fraction(1, 2)


def said_roughly(value: float, unit: str, one: str, many: str) -> str:
    """``value`` rounded, with its unit in words; ``one`` and ``many`` name the unit."""
    sign, size = ("minus " if value < 0 else ""), abs(value)
    if unit in ("32nds", "in"):
        parts = 32 if unit == "32nds" else _parts(size)
        steps = int(_nearest(size * (parts if unit == "in" else 1), 1.0))
        words = _inches(Fraction(steps, parts), parts)
    elif unit == "years" and size < 1:
        words = _months(size)
    else:
        words = _stepped(size, unit, one, many)
    return words if words.startswith("less than") else f"about {sign}{words}"


def _months(years: float) -> str:
    months = int(_nearest(years * _MONTHS, 1.0))
    return "less than a month" if not months else f"{spell_integer(months)} month{'' if months == 1 else 's'}"


def _nearest(value: float, step: float) -> float:
    """``value`` to the nearest ``step``, halves up."""
    return math.floor(value / step + 0.5 + 1e-9) * step


def _parts(inches: float) -> int:
    """Into how many parts people divide an inch at this size."""
    return 16 if inches < 1 else 4 if inches < 5 else 2 if inches < 12 else 1


def _inches(size: Fraction, parts: int) -> str:
    whole, rest = divmod(size, 1)
    if not size:
        return f"less than {spell_fraction(1, parts)} of an inch"
    if not whole:
        return f"{spell_fraction(rest.numerator, rest.denominator)}{'' if rest == _HALF else ' of'} an inch"
    words = spell_mixed(int(whole), rest.numerator if rest else 0, rest.denominator)
    return f"{words} inch{'' if words == 'one' else 'es'}"


def _stepped(size: float, unit: str, one: str, many: str) -> str:
    steps = _STEPS.get(unit, _WHOLE)
    step = next(step for start, step in reversed(steps) if size >= start)
    whole, rest = divmod(Fraction(round(_nearest(size, step) * 10), 10), 1)
    if not whole and not rest and unit in _STEPS:
        least = f"{spell_fraction(1, 10)} of" if step < 0.5 else "half"
        return f"less than {least} {_with_article(one)}"
    if not whole and rest and rest != _HALF:
        return f"{spell_fraction(int(rest * 10), 10)} of {_with_article(one)}"
    if rest in (0, _HALF):
        words = spell_mixed(int(whole), int(rest * 2), 2)
        return f"{words} {_with_article(one) if words == 'half' else one if words == 'one' else many}".strip()
    return f"{spell_integer(int(whole))} point {spell_integer(int(rest * 10))} {many}"


def _with_article(one: str) -> str:
    return f"{'an' if one[:1] in 'aeio' else 'a'} {one}"
