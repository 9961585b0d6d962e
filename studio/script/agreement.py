"""When a number as said agrees with a number as known: to the precision it is said with, rounding as people do."""

from studio.model.quantity import Quantity, UnitName
from studio.script.known import Known
from studio.script.said import Said

_SHARE = 0.1  # how far rounding may go, as a share of the value (custom of speech, no source)
_SHARE_ROUGH = 0.15
_BEYOND = 0.4  # "more than 8000" of 8060, not of 80,000
_ROUND = 0.03  # of the value: what is said to less than this is no round number (custom of speech, no source)
_SHORT = 0.1  # "almost an inch"
_DECIMALS = (0.1, 0.01, 0.001)
_SHOWN = 0.5  # how far rounding on a screen can go, as a share of a small value
_EXACTLY = 1e-9
_SIGNED: tuple[str, ...] = ("degC", "degF")


def agrees(said: Said, known: Known) -> bool:
    """Whether ``said`` is ``known``, in any unit that it can have been said in."""
    values = [(value, unit) for unit in said.units if (value := known.in_unit(unit)) is not None]
    return any(_agree(said, value, unit) or _is_shown(said, value, unit, known) for value, unit in values)


def _is_shown(said: Said, value: float, unit: UnitName, known: Known) -> bool:
    """Whether it is the number that a screen shows, which rounds 0.15 mm to 0.2."""
    if said.until is not None or unit in _SIGNED or abs(abs(said.value) - abs(value)) > _SHOWN * abs(value):
        return False
    shown = known.quantity.to(unit).number().replace(",", "").replace("−", "-")
    return abs(abs(float(shown)) - abs(said.value)) < _EXACTLY


def agrees_with(said: Said, unit: UnitName, low: float, high: float) -> bool:
    """Whether ``said``, read in ``unit``, is the value ``low`` or the range up to ``high``."""
    if low == high:
        return _agree(said, low, unit)
    until = said.value if said.until is None else said.until
    slack = tolerance(said, low)
    return low - slack <= said.value and until <= high + tolerance(said, high)


def tolerance(said: Said, value: float) -> float:
    """How far from ``value`` the number may lie, in its own unit."""
    half = said.step / 2 * (2 if said.rough else 1)
    return max(min(half, (_SHARE_ROUGH if said.rough else _SHARE) * abs(value)), 1e-6 * abs(value), _fine(said, value))


def _fine(said: Said, value: float) -> float:
    """Half of the last decimal counts however small the value is."""
    return said.step / 2 if said.step in _DECIMALS and said.step / 2 <= 0.25 * abs(value) else 0.0


def _agree(said: Said, value: float, unit: str) -> bool:
    mine = said.value
    if unit not in _SIGNED:
        value, mine = abs(value), abs(mine)
    slack = tolerance(said, value) + 1e-9
    if said.until is not None:
        low, high = sorted((mine, abs(said.until) if unit not in _SIGNED else said.until))
        return low - slack <= value <= high + slack
    if abs(mine - value) <= slack:
        return True
    if said.bound == "least":
        return mine <= value <= mine * (1 + _BEYOND)
    if said.bound == "most":
        return mine * (1 - _BEYOND) <= value <= mine
    return said.rough and _coarse(said) and abs(mine - value) <= _SHORT * value


def _coarse(said: Said) -> bool:
    """Whether it is a round number: ``about 40``, ``almost an inch``, not ``about 1,340``."""
    fives = said.value % 5 == 0 and said.step >= 1 and abs(said.value) < 100
    return fives or said.step >= _ROUND * abs(said.value)


def off_by(said: Said, known: Known) -> str:
    """By how much ``said`` misses ``known``, with its unit; empty where the two cannot be compared."""
    for unit in said.units:
        value = known.in_unit(unit)
        if value is not None:
            near = said.value if said.until is None else min((said.value, said.until), key=lambda v: abs(v - value))
            sign = "too high" if near > value else "too low"
            kind = known.quantity.kind
            return f"{Quantity(abs(near - value), unit, kind).text()} {sign}"
    return ""
