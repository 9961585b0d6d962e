"""What would change the verdict on a damage, found by judging it again elsewhere, in another size, or not at all."""

from msgspec.structs import replace

from studio.decide.condition_read import Condition, Part, judge
from studio.decide.condition_words import size_of
from studio.decide.damage import Sighting, hole_limits_mm
from studio.decide.wording import upper_first
from studio.model.finding import SEVERITY
from studio.model.quantity import Quantity, length
from studio.model.specimen import Zone
from studio.reference.tables import Tables

_NUDGE_MM = 1e-6


def texts(its: Condition, tables: Tables) -> tuple[str, ...]:
    """The changes as sentences."""
    if its.deciding.kind.kind == "puncture":
        found = (*_zone_texts(its, tables), *_width_texts(its, tables))
        return found or _without(its, tables)
    return _without(its, tables)


def elsewhere(its: Condition, zone: Zone, size: Quantity | None, tables: Tables) -> Condition:
    """The same tire, the deciding hole in another zone or of another size."""
    hole = its.deciding.seen
    other = replace(hole, damage=replace(hole.damage, zone=zone, size=size))
    return judge(_with(its.part, hole, other), tables)


def _with(part: Part, old: Sighting, new: Sighting) -> Part:
    return replace(part, seen=tuple(new if seen is old else seen for seen in part.seen))


def _zone_texts(its: Condition, tables: Tables) -> tuple[str, ...]:
    damage = its.deciding.seen.damage
    half = its.part.audience.both(its.crown_half) if its.crown_half else ""
    inside = not elsewhere(its, "crown", damage.size, tables).deciding.broken
    if damage.zone == "crown":
        beyond = f"More than {half} from the tread's center line" if half else "Outside the crown"
        outside = elsewhere(its, "shoulder", damage.size, tables).deciding.broken
        return (f"{beyond} it could not be repaired.",) if outside and not its.deciding.broken else ()
    within = f"Within {half} of the tread's center line" if half else "In the crown"
    return (f"{within} the same hole could perhaps be repaired.",) if inside else ()


def _width_texts(its: Condition, tables: Tables) -> tuple[str, ...]:
    damage, size = its.deciding.seen.damage, size_of(its.deciding)
    if size is None:
        return ()
    size_mm, limits = size.to("mm").value, hole_limits_mm(tables)
    narrow, wide = (length(limit + step) for limit, step in ((min(limits), 0.0), (max(limits), 2 * _NUDGE_MM)))
    both = its.part.audience.both
    if its.deciding.broken:
        better = not elsewhere(its, damage.zone, narrow, tables).deciding.broken
        less = length(size_mm - narrow.value)
        return (f"If the hole measured {both(less)} less, it could perhaps be repaired.",) if better else ()
    worse = elsewhere(its, damage.zone, wide, tables).deciding.broken
    more = length(max(0.0, max(limits) - size_mm))
    return (f"If cleaning it out makes it over {both(more)} wider, it cannot be repaired.",) if worse else ()


def _without(its: Condition, tables: Tables) -> tuple[str, ...]:
    item = its.deciding
    rest = tuple(seen for seen in its.part.seen if seen is not item.seen)
    end = "only its tread and its age would be left to judge"
    if rest:
        others = judge(replace(its.part, seen=rest), tables)
        if SEVERITY.index(others.verdict) >= SEVERITY.index(its.verdict):
            return (f"{upper_first(others.deciding.words)} would call for the same even without {item.words}.",)
        end = f"{others.deciding.words} would still have to be looked at"
    return (f"Were it not for {item.words}, {end}.",)
