"""What would change the verdict on a tread, found by asking the verdict again at other depths."""

import msgspec

from studio.decide.gauge import fine
from studio.decide.tread_limits import judge
from studio.decide.tread_read import Read
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Quantity, depth

_NUDGE_MM = 1e-6
_OUTCOME: dict[Verdict, str] = {
    "keep": "it would have tread enough", "watch": "it would be one to watch",
    "inspect": "it would be too close to call", "replace": "it would be done",
}  # fmt: skip


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """Another reading that gives another verdict: the spot's path, how much more (less if negative) it would read.

    ``spots`` is how many spots would have to read at least as deep for that; 1 where the lowest alone decides.
    """

    path: str
    more: Quantity
    spots: int
    verdict: Verdict


def texts(its: Read) -> tuple[str, ...]:
    """The changes as sentences, nearest first."""
    if its.part.damage:
        return (f"Without the damage, {_OUTCOME[its.judged.verdict]}; a qualified professional must look at it first.",)
    found = [_text(its, change) for change in (worse(its), better(its)) if change]
    alone = [f"By its tread alone {_OUTCOME[its.judged.verdict]}."] if its.objection else []
    return (*alone, *found, *_gauge(its))


def worse(its: Read) -> Change | None:
    """How much less the lowest spot must read for a graver verdict; None at the gravest."""
    for level in sorted(_levels(its), reverse=True):
        verdict = _verdict(its, level)
        if level <= its.depth_mm and SEVERITY.index(verdict) > SEVERITY.index(its.judged.verdict):
            return _change(its, level, verdict)
    return None


def better(its: Read) -> Change | None:
    """How much more the lowest spots must read for a better verdict that the gauge can tell; None at the best."""
    for level in sorted(_levels(its)):
        verdict = _verdict(its, level + 2 * _NUDGE_MM)
        mild = SEVERITY.index(verdict) < SEVERITY.index(its.judged.verdict)
        if level >= its.depth_mm - _NUDGE_MM and mild and verdict != "inspect":
            return _change(its, level, verdict)
    return None


def _levels(its: Read) -> list[float]:
    """The depths at which a verdict can turn, in mm."""
    legal, doubt_mm = its.marks.legal.mm, its.doubt.half_width.to("mm").value
    return [legal, legal + doubt_mm, *(mark.mm + doubt_mm for mark in its.marks.others)]


def _verdict(its: Read, depth_mm: float) -> Verdict:
    return judge(depth_mm - _NUDGE_MM, its.doubt.half_width.to("mm").value, its.marks).verdict


def _change(its: Read, level_mm: float, verdict: Verdict) -> Change:
    below = [spot for spot in its.tread.spots if its.tread.depth(spot.value).to("mm").value < level_mm + _NUDGE_MM]
    return Change(
        path=its.tread.spot_path(its.tread.lowest), more=depth(level_mm - its.depth_mm, "mm"),
        spots=max(1, len(below)) if level_mm > its.depth_mm else 1, verdict=verdict,
    )  # fmt: skip


def _text(its: Read, change: Change) -> str:
    spot, audience = its.tread.spot_words(its.tread.lowest), its.part.audience
    amount = fine(depth(abs(change.more.value), "mm"), audience)
    if change.more.value <= 0:
        return f"If {spot} read {amount} less, {_OUTCOME[change.verdict]}."
    if change.spots == 1:
        return f"If {spot} alone read over {amount} more, {_OUTCOME[change.verdict]}."
    needed = fine(depth(its.depth_mm + change.more.value, "mm"), audience)
    all_of_them = f"If all {change.spots} readings up to {needed} read above that"
    return f"{all_of_them}, {_OUTCOME[change.verdict]}; {spot} is the lowest."


def _gauge(its: Read) -> tuple[str, ...]:
    """Which gauge would settle a close call."""
    if its.judged.verdict != "inspect":
        return ()
    step, audience = its.doubt.finest_step_mm(its.above.to("mm").value), its.part.audience
    if step is None:
        by_hand = fine(depth(its.doubt.by_hand_mm, "mm"), audience)
        return (f"No gauge held by hand can settle it: the hand alone is good to ±{by_hand}.",)
    return (f"The same reading with a gauge of finer steps than {fine(depth(step, 'mm'), audience)} would settle it.",)
