"""What would change the verdict on a tire's wear, found by judging its readings again with a part of them moved."""

import math

import msgspec

from studio.decide.gauge import fine
from studio.decide.measured import Measured, Spot
from studio.decide.wear_pattern_read import Uneven, Wear, judge_reading
from studio.decide.wear_pattern_words import where
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import depth
from studio.reference.tables import Tables

_NUDGE_MM = 1e-6
_OUTCOME: dict[Verdict, str] = {
    "keep": "it would wear evenly", "watch": "it would be one to watch", "inspect": "it would have to be looked at",
}  # fmt: skip


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """Other readings that give another verdict: the unevenness they belong to, how much more (less), the verdict."""

    uneven: Uneven
    more_mm: float
    verdict: Verdict


def texts(its: Wear, tables: Tables) -> tuple[str, ...]:
    """The changes as sentences."""
    audience, lines = its.part.audience, []
    for change in changes(its, tables):
        amount, kind = fine(depth(abs(change.more_mm), "mm"), audience), "more" if change.more_mm > 0 else "less"
        lines.append(f"If the {where(its, change.uneven)} read {amount} {kind}, {_OUTCOME[change.verdict]}.")
    return (*lines, *_gauge(its))


def changes(its: Wear, tables: Tables) -> tuple[Change, ...]:
    """The nearest graver verdict if what is lowest wore on alone, the nearest milder one if it had worn less."""
    uneven = its.deciding
    if uneven is None or its.verdict == "unknown":
        return ()
    return tuple(change for change in (_worse(its, uneven, tables), _better(its, uneven, tables)) if change)


def _levels(its: Wear) -> list[float]:
    return sorted((its.limits.from_mm, its.limits.report_mm, its.limits.urgent_mm))


def _worse(its: Wear, uneven: Uneven, tables: Tables) -> Change | None:
    for at in _levels(its):
        more_mm = uneven.amount_mm - at - _NUDGE_MM
        verdict = moved(its, uneven, more_mm, tables).verdict if more_mm < 0 else its.verdict
        if _rank(verdict) > _rank(its.verdict):
            return Change(uneven=uneven, more_mm=more_mm, verdict=verdict)
    return None


def _better(its: Wear, uneven: Uneven, tables: Tables) -> Change | None:
    if its.verdict == "keep":
        return None
    for at in reversed(_levels(its)):
        more_mm = uneven.amount_mm - at + _NUDGE_MM
        verdict = moved(its, uneven, more_mm, tables).verdict if more_mm > 0 else its.verdict
        if 0 <= _rank(verdict) < _rank(its.verdict):
            return Change(uneven=uneven, more_mm=more_mm, verdict=verdict)
    return None


def moved(its: Wear, uneven: Uneven, more_mm: float, tables: Tables) -> Wear:
    """The same tire with its low grooves, or the one low place, reading so much more (less if negative)."""
    tread = its.tread
    more = depth(more_mm, "mm").to(tread.reading.unit).value

    def other(groove: int, station: int, value: float) -> float:
        here = groove in uneven.grooves and uneven.station in (None, station)
        return value + more if here else value

    grid = tuple(
        tuple(None if value is None else other(g, s, value) for s, value in enumerate(groove))
        for g, groove in enumerate(tread.reading.depths)
    )
    spots = tuple(Spot(s.groove, s.station, other(s.groove, s.station, s.value)) for s in tread.spots)
    reading = msgspec.structs.replace(tread.reading, depths=grid)
    other_tread = Measured(path=tread.path, reading=reading, spots=spots)
    return judge_reading(its.part, other_tread, its.doubt, its.limits, its.new, tables)


def _gauge(its: Wear) -> tuple[str, ...]:
    """Which gauge would settle a close call."""
    if its.deciding is None or not its.unsure:
        return ()
    margin = abs(its.deciding.amount_mm - its.limits.report_mm) / math.sqrt(2)
    step, audience = its.doubt.finest_step_mm(margin), its.part.audience
    if step is None:
        by_hand = fine(depth(its.doubt.by_hand_mm, "mm"), audience)
        return (f"No gauge held by hand can settle it: the hand alone is good to ±{by_hand}.",)
    return (f"The same readings with a gauge of finer steps than {fine(depth(step, 'mm'), audience)} would settle it.",)


def _rank(verdict: Verdict) -> int:
    return SEVERITY.index(verdict) if verdict in SEVERITY else -1
