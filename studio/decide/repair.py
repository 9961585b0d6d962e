"""Can a puncture be repaired? Each rule of repair held against what is known of hole and tire.

A rule is *met*, *broken*, *unsure* (too close, or a matter of judgement) or *open* (only the workshop sees it). One
broken rule ends the matter; however many are met, whether the tire may be repaired is for a tire professional to say.
"""

from collections.abc import Iterator
from typing import Literal

import msgspec

from studio.decide.damage import HOLE_ZONES, Sighting, hole_limits_mm, ruled_out_by, too_wide
from studio.decide.gauge import Doubt
from studio.model.finding import Verdict
from studio.model.quantity import Quantity, UnitName, depth
from studio.model.source import Source
from studio.reference.rows import Rule
from studio.reference.tables import Tables
from studio.tires.marking import Marking
from studio.tires.repair import CrownShares, crown_half_width_mm
from studio.tires.units import MM_PER_INCH

State = Literal["met", "broken", "unsure", "open"]
_SAME_MM = 1e-9


class Check(msgspec.Struct, frozen=True, kw_only=True):
    """One rule of repair held against one hole. ``why`` is a clause that can follow ``not repaired:``."""

    id: str
    state: State
    why: str
    source: Source


class Tread(msgspec.Struct, frozen=True, kw_only=True):
    """The lowest reading with its doubt."""

    depth: Quantity
    doubt: Doubt


class Holed(msgspec.Struct, frozen=True, kw_only=True):
    """A hole, and what of the tire decides whether it can be repaired."""

    hole: Sighting
    others: tuple[Sighting, ...]
    marking: Marking | None
    tread: Tread | None
    age_verdict: Verdict
    age_words: str
    age_source: Source | None
    region: str

    @property
    def section_width_mm(self) -> float | None:
        """Nominal section width; None where the marking is not known."""
        return section_width_mm(self.marking)


def section_width_mm(marking: Marking | None) -> float | None:
    """Nominal section width of a marking, also where it is printed in inches."""
    if marking is None:
        return None
    return marking.section_width_in * MM_PER_INCH if marking.section_width_in is not None else marking.width_mm


def crown_half_width(marking: Marking | None, tables: Tables) -> Quantity | None:
    """How far the crown reaches to either side of the tread's center line; None without a marking."""
    width = section_width_mm(marking)
    return None if width is None else Quantity(crown_half_width_mm(width, crown_shares(tables)), "mm", "length")


def crown_shares(tables: Tables) -> CrownShares:
    """The shares of the table of repair."""
    names = ("crown_share_narrow", "crown_share_middle", "crown_share_wide", "narrow_to", "middle_to")
    return CrownShares(*(tables.repair[name].value or 0.0 for name in names))


def checks(its: Holed, tables: Tables) -> tuple[Check, ...]:
    """Every rule, broken ones first."""
    found = list(_checks(its, tables))
    order: tuple[State, ...] = ("broken", "unsure", "open", "met")
    return tuple(sorted(found, key=lambda check: order.index(check.state)))


def _checks(its: Holed, tables: Tables) -> Iterator[Check]:
    rules = tables.repair
    yield _zone(its, rules["crown_only"])
    yield _width(its, tables)
    yield _tread(its, tables)
    yield from _others(its, tables)
    yield _aged(its, tables)
    if its.marking is not None and its.marking.run_flat:
        yield _check("unsure", rules["run_flat_type"], "it is a run-flat tire, which many do not repair")
    yield _check("open", rules["not_run_flat"], "whether it was driven flat shows only inside")
    yield _check("open", rules["straight_through"], "whether the hole goes straight through shows only inside")


def _check(state: State, rule: Rule, why: str) -> Check:
    return Check(id=rule.id, state=state, why=why, source=rule.source)


def _zone(its: Holed, rule: Rule) -> Check:
    zone = its.hole.damage.zone
    if zone in HOLE_ZONES:
        return _check("broken", rule, f"the hole is {its.hole.place}, outside the crown")
    if zone == "unknown":
        return _check("open", rule, "where the hole is was not recorded")
    return _check("met", rule, "the hole is in the crown")


def _width(its: Holed, tables: Tables) -> Check:
    """The limit is quoted as 6 mm and as 1/4 in, which are not the same: between the two nobody can call it."""
    rule, size = tables.repair["hole_most"], its.hole.damage.size
    if size is None:
        return _check("open", rule, "how wide the hole is was not recorded")
    if too_wide(its.hole.damage, tables):
        return _check("broken", rule, "the hole is too wide")
    if size.to("mm").value > min(hole_limits_mm(tables)) + _SAME_MM:
        inch = tables.repair["hole_most_inch"]
        both = f"{rule.value:g} {rule.unit} and {inch.value:g} {inch.unit}"
        return _check("unsure", rule, f"the hole is between {both}, as the same limit is quoted")
    return _check("met", rule, "the hole is not too wide as it is now; cleaning it out makes it wider")


def least_depth(region: str, tables: Tables) -> Rule:
    """The tread below which nothing is repaired: the region's own rule, else the general one."""
    known = tables.rules_in(tables.repair, region) if region in tables.regions else ()
    return next((rule for rule in known if rule.id.startswith("depth_least")), tables.repair["depth_least"])


def _tread(its: Holed, tables: Tables) -> Check:
    rule = least_depth(its.region, tables)
    if its.tread is None:
        return _check("open", rule, "its tread was not read")
    least = depth(rule.value or 0.0, msgspec.convert(rule.unit, UnitName)).to("mm").value
    above = its.tread.depth.to("mm").value - least
    if above < -_SAME_MM:
        return _check("broken", rule, "its tread is worn out")
    if above <= its.tread.doubt.half_width.to("mm").value + _SAME_MM:
        return _check("unsure", rule, "its tread is too close to worn out to call with this gauge")
    return _check("met", rule, "it has tread left")


def _others(its: Holed, tables: Tables) -> Iterator[Check]:
    rules, kinds = tables.repair, {other.damage.kind for other in its.others}
    bad = [other for other in its.others if other.damage.kind != "puncture" and ruled_out_by(other, tables)]
    if bad:
        yield _check("broken", rules["not_damaged"], f"it also shows {bad[0].words(tables.damage[bad[0].damage.kind])}")
    elif its.others and kinds != {"puncture"}:
        first = next(other for other in its.others if other.damage.kind != "puncture")
        seen = first.words(tables.damage[first.damage.kind])
        yield _check("unsure", rules["not_damaged"], f"it also shows {seen}")
    if "puncture" in kinds:
        yield _check("unsure", rules["no_overlap"], "it has more than one hole, and repairs must not overlap")


def _aged(its: Holed, tables: Tables) -> Check:
    rule = tables.repair["not_aged"]
    source = its.age_source or rule.source
    if its.age_verdict == "replace":
        return Check(id=rule.id, state="broken", why=its.age_words, source=source)
    if its.age_verdict == "inspect":
        return Check(id=rule.id, state="unsure", why=its.age_words, source=source)
    if its.age_verdict == "unknown":
        return _check("open", rule, "its age is not known")
    return _check("met", rule, "it is not over age")
