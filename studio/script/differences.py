"""What lies between two known numbers of one finding: ``misses the advice by 0.7 mm``, ``4 psi under the sticker``."""

import re
from collections.abc import Iterable
from itertools import combinations

import msgspec

from studio.model.quantity import Quantity
from studio.script.agreement import agrees
from studio.script.known import Known
from studio.script.said import Said
from studio.script.verdict import Around

_BY = re.compile(r"\bby (?:about |only |just |nearly |almost |roughly |some )?$", re.IGNORECASE)
_LOST = re.compile(r"\b(?:lost|worn (?:off|away|down)|used up|gone through|wore)"
                   r"(?: about| only| just)? $", re.IGNORECASE)
_FROM = re.compile(
    r"\s*(?:of (?:tread|air|pressure|rubber) )?(?:above|over|under|below|short|more|less|to spare|away|from|"
    r"beyond|since|low|high|shy|down)\b",
    re.IGNORECASE)  # fmt: skip
_MEASURED = frozenset({"value", "depth", "read", "street", "told"})
_HELD_AGAINST = ("limit", "legal", "winter", "wet_advice", "placard", "advice", "expected", "before", "depth_new")


def difference(said: Said, around: Around, known: Iterable[Known]) -> Known | None:
    """The difference of what was measured and what it is held against that ``said`` is; None where it is none."""
    before = around.text[: around.at[0]]
    if not (_LOST.search(before) or _BY.search(before) or _FROM.match(around.text, around.at[1])):
        return None
    by_source: dict[str, list[Known]] = {}
    for its in known:
        by_source.setdefault(its.source, []).append(its)
    for mine in by_source.values():
        for one, two in combinations(mine, 2):
            between = _between(one, two) if _opposed(one, two) else None
            if between is not None and agrees(said, between):
                return between
    return None


def _opposed(one: Known, two: Known) -> bool:
    names = (one.name, two.name)
    return any(its in _MEASURED for its in names) and any(its.startswith(_HELD_AGAINST) for its in names)


def _between(one: Known, two: Known) -> Known | None:
    """The difference as a known number of the same finding, in the unit of the first."""
    other = two.in_unit(one.quantity.unit)
    if other is None:
        return None
    value = abs(one.quantity.value - other)
    return msgspec.structs.replace(one, name="difference", shown="",
                                   quantity=Quantity(value, one.quantity.unit, one.quantity.kind))  # fmt: skip
