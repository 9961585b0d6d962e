"""What each choice can mean for these four tires: which are taken off, what is bought, which one is shaved."""

import itertools
from typing import Literal

import msgspec

from studio.decide.choices_read import Part, Stand
from studio.model.places import AXLES

Bought = Literal["new", "used", "shaved"]


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """What a choice does: the tires taken off, what is bought for each at which depth, or the one that is shaved."""

    off: tuple[Stand, ...] = ()
    bought: Bought | None = None
    bought_mm: float | None = None
    shaved: Stand | None = None
    shaved_mm: float = 0.0
    stay: bool = False
    """Whether every tire goes where one stood, so that nothing else is moved."""


def changes(part: Part, every: tuple[Stand, ...], new_mm: float | None, used_mm: float | None) -> tuple[Change, ...]:
    """The changes that a choice can mean; empty where the depth of what would be bought is not known."""
    ordered = sorted(every, key=lambda stand: stand.urgency, reverse=True)
    if part.kind == "keep":
        return (Change(stay=True),)
    if part.kind == "used_pair":
        return () if used_mm is None else _pairs(part, ordered, "used", used_mm)
    if part.kind == "shaved":
        return _shaved(ordered, new_mm)
    if new_mm is None:
        return ()
    if part.kind == "one":
        return (Change(off=(ordered[0],), bought="new", bought_mm=new_mm),)
    if part.kind == "pair":
        return _pairs(part, ordered, "new", new_mm)
    return (Change(off=every, bought="new", bought_mm=new_mm),)


def _pairs(part: Part, ordered: list[Stand], bought: Bought, depth_mm: float) -> tuple[Change, ...]:
    """Every pair that holds the tire that should go first, and the second one too if that must go."""
    must = [stand for stand in ordered if stand.must_go][:2] or ordered[:1]
    found = []
    for pair in itertools.combinations(ordered, 2):
        one_axle = any({stand.name for stand in pair} == set(places) for places in AXLES.values())
        if all(stand in pair for stand in must[:1]) and (one_axle or not part.axle_bound):
            found.append(pair)
    both = [pair for pair in found if all(stand in pair for stand in must)]
    return tuple(Change(off=pair, bought=bought, bought_mm=depth_mm) for pair in both or found)


def _shaved(ordered: list[Stand], new_mm: float | None) -> tuple[Change, ...]:
    """A new tire shaved to its mate's depth; while none must go, one that stands out shaved may do as well."""
    first = ordered[0]
    found = []
    deepest = max(ordered, key=lambda stand: stand.mean_mm)
    to = _mate(deepest, ordered).mean_mm
    if not first.must_go and deepest.mean_mm - to > deepest.half_mm:
        found.append(Change(shaved=deepest, shaved_mm=to, stay=True))
    if new_mm is not None:
        to = min(new_mm, _mate(first, ordered).mean_mm)
        found.append(Change(off=(first,), bought="shaved", bought_mm=to, stay=True))
    return tuple(found)


def _mate(stand: Stand, every: list[Stand]) -> Stand:
    axle = next(places for places in AXLES.values() if stand.name in places)
    return next(other for other in every if other.name in axle and other is not stand)
