"""Damage seen on one tire, judged: what the finding on its condition and its words are made from."""

import msgspec

from studio.decide import age, repair
from studio.decide.audience import Audience
from studio.decide.damage import Sighting, ruled_out_by
from studio.decide.gauge import doubt
from studio.decide.markings import read
from studio.decide.measured import Measured
from studio.decide.repair import Check, Holed, Tread, section_width_mm
from studio.decide.subjects import Subject
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Quantity
from studio.reference.rows import DamageKind, Rule
from studio.reference.tables import Tables
from studio.tires.marking import Marking
from studio.tires.repair import longest_cut_mm

TO_THE_CORD = ("cut", "cracks")
"""Damage that rules a tire out where it reaches the cord, which no entry tells."""


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the condition of one tire depends on; ``seen`` is not empty."""

    audience: Audience
    subject: Subject
    seen: tuple[Sighting, ...]
    marking: str
    tread: Measured | None
    age: age.Part


class Item(msgspec.Struct, frozen=True, kw_only=True):
    """One damage judged; ``checks`` are the rules of repair where it is a puncture."""

    seen: Sighting
    kind: DamageKind
    verdict: Verdict
    checks: tuple[Check, ...]
    rules: tuple[Rule, ...]
    """Who rules a tire out for such damage, the region's own rule first."""

    @property
    def words(self) -> str:
        """``a bulge in the sidewall``."""
        return self.seen.words(self.kind)

    @property
    def broken(self) -> tuple[Check, ...]:
        """The rules of repair that it breaks."""
        return tuple(check for check in self.checks if check.state == "broken")


class Condition(msgspec.Struct, frozen=True, kw_only=True):
    """All damage of one tire judged, and the one that decides: the gravest, of equal ones the last seen."""

    part: Part
    items: tuple[Item, ...]
    marking: Marking | None
    crown_half: Quantity | None
    longest_cut: Quantity | None
    """How long a cut may be where the region's law says so."""

    @property
    def deciding(self) -> Item:
        """The gravest item."""
        return max(self.items, key=lambda item: SEVERITY.index(item.verdict))

    @property
    def verdict(self) -> Verdict:
        """The verdict of the gravest item."""
        return self.deciding.verdict


def judge(part: Part, tables: Tables) -> Condition:
    """Judge every damage of the part."""
    marking = read(part.marking)
    return Condition(
        part=part, items=tuple(_item(seen, part, marking, tables) for seen in part.seen), marking=marking,
        crown_half=repair.crown_half_width(marking, tables), longest_cut=_longest_cut(part, marking, tables),
    )  # fmt: skip


def _item(seen: Sighting, part: Part, marking: Marking | None, tables: Tables) -> Item:
    kind = tables.damage[seen.damage.kind]
    checks = repair.checks(_holed(seen, part, marking, tables), tables) if kind.kind == "puncture" else ()
    out = ruled_out_by(seen, tables) is not None or any(check.state == "broken" for check in checks)
    return Item(
        seen=seen, kind=kind, verdict="replace" if out else kind.verdict, checks=checks,
        rules=_rules(kind.kind, part.audience.region, tables),
    )  # fmt: skip


def _holed(seen: Sighting, part: Part, marking: Marking | None, tables: Tables) -> Holed:
    aged = age.read_part(part.age, tables)
    tread = part.tread
    return Holed(
        hole=seen, others=tuple(other for other in part.seen if _is_another(other, seen)), marking=marking,
        tread=Tread(depth=tread.depth(tread.lowest.value), doubt=doubt(tread.reading.gauge, tables)) if tread else None,
        age_verdict=aged.verdict if aged else "unknown", age_words=f"it {age.clause(aged)}" if aged else "",
        age_source=aged.reached.source if aged and aged.reached else None, region=part.audience.region,
    )  # fmt: skip


def _is_another(other: Sighting, hole: Sighting) -> bool:
    """Whether another sighting is not this hole again, as an earlier or later reading saw it."""
    if other is hole:
        return False
    if other.damage.kind != "puncture" or other.reading == hole.reading:
        return True
    zones = {other.damage.zone, hole.damage.zone}
    return len(zones) == 2 and "unknown" not in zones


def _rules(kind: str, region: str, tables: Tables) -> tuple[Rule, ...]:
    """The rows of the table of what condemns that speak of such damage."""
    name = "cut_to_cord" if kind in TO_THE_CORD else kind
    rows = tables.rules_in(tables.condemning, region) if region in tables.regions else tables.condemning.values()
    found = [row for row in rows if row.id == name or row.id.startswith(f"{name}_")]
    found += [row for row in rows if kind == "cut" and row.id.startswith("cut_length")]
    return tuple(row for row in found if region in tables.regions or row.region == "any")


def _longest_cut(part: Part, marking: Marking | None, tables: Tables) -> Quantity | None:
    """How long a cut that reaches the cord may be, where the region's law says so."""
    region = part.audience.region
    known = tables.rules_in(tables.condemning, region) if region in tables.regions else ()
    least = next((row for row in known if row.id.startswith("cut_length")), None)
    share = next((row for row in known if row.id.startswith("cut_share")), None)
    if least is None or share is None or least.value is None or share.value is None:
        return None
    return Quantity(longest_cut_mm(section_width_mm(marking), least.value, share.value), "mm", "length")
