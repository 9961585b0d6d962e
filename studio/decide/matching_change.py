"""What would change the verdict on a match, found by holding other depths against the same limits."""

import msgspec

from studio.decide.gauge import fine
from studio.decide.matching_limits import Held, depth_of, gravest, hold
from studio.decide.matching_read import Match
from studio.decide.matching_tires import Compared, Rolling
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import depth
from studio.tires.geometry import worn_diameter_mm

_NUDGE_MM = 1e-6
_OUTCOME: dict[Verdict, str] = {
    "keep": "they would match", "watch": "they would be worth a note", "inspect": "it would need a look",
    "replace": "they would be too unequal",
}  # fmt: skip


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """Another mean depth of one tire that gives another verdict: the tire, how much more (less) tread, the verdict."""

    tire: Rolling
    more_mm: float
    verdict: Verdict


def texts(match: Match) -> tuple[str, ...]:
    """The changes as sentences."""
    if match.unlike.fields:
        return (f"With tires alike in {match.unlike.words} only the tread would be left to compare.",)
    audience = match.part.audience
    lines = []
    for change in changes(match):
        amount = fine(depth(abs(change.more_mm), "mm"), audience)
        kind = "more" if change.more_mm > 0 else "less"
        lines.append(f"If {change.tire.worn.subject.words} had {amount} {kind} tread, {_OUTCOME[change.verdict]}.")
    return tuple(lines)


def changes(match: Match) -> tuple[Change, ...]:
    """The next graver verdict if the shallowest tire wore on alone; a milder one if the deepest were shaved."""
    return tuple(change for change in (_worn_on(match), _shaved(match)) if change)


def _worn_on(match: Match) -> Change | None:
    tire, now = match.compared.shallowest, _rank(_verdict(match.compared, match))
    for level in sorted(_levels(match, larger=match.compared.deepest.diameter_mm)):
        more_mm = match.compared.depth_mm - level
        if more_mm > _NUDGE_MM:
            continue
        verdict = _verdict(moved(match.compared, tire, more_mm - _NUDGE_MM), match)
        if _rank(verdict) > now:
            return Change(tire=tire, more_mm=more_mm, verdict=verdict)
    return None


def _shaved(match: Match) -> Change | None:
    tire, now = match.compared.deepest, _rank(_verdict(match.compared, match))
    for level in sorted(_levels(match, smaller=match.compared.shallowest.diameter_mm), reverse=True):
        more_mm = level - match.compared.depth_mm
        if level <= _NUDGE_MM or more_mm > _NUDGE_MM:
            continue
        verdict = _verdict(moved(match.compared, tire, more_mm - _NUDGE_MM), match)
        if _rank(verdict) < now:
            return Change(tire=tire, more_mm=more_mm, verdict=verdict)
    return None


def _levels(match: Match, *, larger: float | None = None, smaller: float | None = None) -> list[float]:
    """The differences of depth at which a verdict can turn, one of two diameters staying as it is."""
    compared = match.compared
    extra = compared.depth_mm - (_half_apart(compared) or compared.depth_mm)
    found = []
    for held in match.held:
        for doubt_mm in (0.0, compared.doubt_mm):
            level = _level(held, doubt_mm, larger, smaller)
            if level is not None:
                found.append(level if held.limit.form == "depth" else level + extra)
    return found


def _half_apart(compared: Compared) -> float | None:
    """Half the difference of the worn diameters of deepest and shallowest: their depths', if they were alike new."""
    deep, shallow = compared.deepest.diameter_mm, compared.shallowest.diameter_mm
    return None if deep is None or shallow is None else (deep - shallow) / 2


def _level(held: Held, doubt_mm: float, larger: float | None, smaller: float | None) -> float | None:
    if held.limit.form in ("depth", "tape"):
        at = depth_of(held.limit, None)
        return None if at is None else at - doubt_mm
    ratio = 1 + held.limit.limit.value / 100
    if larger is not None:
        return (larger - (larger + 2 * doubt_mm) / ratio) / 2
    return None if smaller is None else (smaller * ratio - 2 * doubt_mm - smaller) / 2


def moved(compared: Compared, tire: Rolling, more_mm: float) -> Compared:
    """The same tires, ``tire`` with so much more tread all over (less if negative)."""
    diameter = None if tire.diameter_mm is None else worn_diameter_mm(tire.diameter_mm, -more_mm, 0.0)
    other = msgspec.structs.replace(tire, mean_mm=tire.mean_mm + more_mm, diameter_mm=diameter)
    return msgspec.structs.replace(compared, tires=tuple(other if it is tire else it for it in compared.tires))


def _verdict(compared: Compared, match: Match) -> Verdict:
    binding = gravest(tuple(it for held in match.held if (it := hold(compared, held.limit))))
    return binding.verdict if binding else "keep"


def _rank(verdict: Verdict) -> int:
    return SEVERITY.index(verdict)
