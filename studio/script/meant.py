"""Which of several known numbers a wrong one was meant to be, by the slips that people make when they speak."""

from collections.abc import Iterable, Sequence

import msgspec

from studio.script.agreement import agrees
from studio.script.ground import Ground
from studio.script.known import Known
from studio.script.numbers import MARGIN, OWN
from studio.script.said import Said

_HEADLINE = frozenset({
    *OWN, "told", "read", "set_front", "set_rear", "front_pressure", "rear_pressure",
}) - {"uncertainty"}  # fmt: skip
_NEARLY = 1.5


def meant(said: Said, expected: Sequence[Known], own: Sequence[Known], loose: Sequence[Known]) -> Known:
    """The number meant: one whose digits were swapped or whose point was moved, one of the findings that the talking
    point is about (``own``), a finding's own number, the nearest. ``loose`` is what else its subjects have."""
    swapped = (known for known in map(headlines, (own, expected, loose)))
    candidates = next(filter(None, (
        *([its for its in known if slipped(said, its)] for known in swapped),
        [its for its in headlines(expected) if slipped(said, its, changed=True)],
    )), expected)  # fmt: skip
    mine = {its.source for its in own}
    near = {id(its): distance(said, its) * _seldom(its) for its in candidates}
    candidates = [its for its in candidates if its.source in mine] or candidates
    told = [its for its in candidates if its.name == "told"]
    told = [its for its in told if its.quantity.unit in said.units] or told
    if told and min(near[id(its)] for its in told) <= _NEARLY * min(near[id(its)] for its in candidates) + 0.01:
        candidates = told  # what the finding's own sentence says is what people repeat
    return min(candidates, key=lambda its: (round(near[id(its)], 2), its.topic != "placard", _order(its)))


def in_unit_said(said: Said, known: Known, ground: Ground) -> str:
    """The number as it should have been said: in the unit spoken, where that is no other than a screen's own."""
    unit = next((unit for unit in said.units if known.in_unit(unit) is not None), None)
    text = known.text(ground.units)
    if unit is None or known.shown or (unit == "in" and known.quantity.measures == "depth"):
        return text
    right = known.quantity.to(unit)
    below = right.value < 0 < said.value and right.measures != "temperature"  # "4 psi short", not "-4 psi"
    return (msgspec.structs.replace(right, value=-right.value) if below else right).text()


def _seldom(known: Known) -> float:
    """How much nearer a number must be that people seldom say."""
    return 1.0 if known.name in _HEADLINE and known.name != MARGIN else 2.0


def headlines(known: Iterable[Known]) -> list[Known]:
    """The numbers that people say of a finding, not those it was worked out with."""
    return [its for its in known if its.name in _HEADLINE or its.topic == "given"]


def _order(known: Known) -> int:
    return OWN.index(known.name) if known.name in OWN else len(OWN)


def distance(said: Said, known: Known) -> float:
    """How far the two lie apart, as a share of the known one."""
    values = [known.in_unit(unit) for unit in said.units] or [known.quantity.value]
    return min((abs(abs(said.value) - abs(value)) / max(abs(value), 1e-9) for value in values if value is not None),
               default=float("inf"))  # fmt: skip


def slipped(said: Said, known: Known, *, changed: bool = False) -> bool:
    """Whether ``said`` is ``known`` with digits swapped or its point moved; with one digit changed if ``changed``."""
    if agrees(said, known):
        return False  # said rightly, but of something else
    values = [value for unit in said.units if (value := known.in_unit(unit)) is not None]
    mine = _digits(said.value, said.step)
    if changed:
        return any(_one_off(mine, _digits(value, said.step)) for value in values if len(mine) > 2 or _whole(value))
    moved = [_digits(value, said.step / tens) for value in values for tens in (10, 100)]
    swapped = [_digits(value, said.step) for value in values]
    return len(mine) > 1 and (mine in moved or any(sorted(mine) == sorted(its) for its in swapped))


def _digits(value: float, step: float) -> str:
    """The digits of ``value`` to the precision ``step``, without its point and the zeros before it."""
    places = 0 if step >= 1 else min(4, len(f"{step:.6f}".rstrip("0").partition(".")[2]))
    shown = f"{abs(round(value / step) * step if step >= 1 else value):.{places}f}"
    return shown.replace(".", "").lstrip("0")


def _whole(value: float) -> bool:
    """Two digits that come of rounding are alike by chance too often to tell what was meant."""
    return abs(value - round(value)) < 0.05


def _one_off(mine: str, other: str) -> bool:
    return 1 < len(mine) == len(other) and sum(a != b for a, b in zip(mine, other, strict=True)) == 1
