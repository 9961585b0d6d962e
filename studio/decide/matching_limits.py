"""The limits that tires are matched against: the maker's own form, the law of the region, else common practice."""

import math
from typing import Literal

import msgspec

from studio.decide.audience import Audience
from studio.decide.matching_tires import Compared
from studio.model.car import Drivetrain, Tolerance
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Kind, Quantity, UnitName
from studio.model.source import Source
from studio.reference.rows import MatchingRule
from studio.reference.tables import Tables

Form = Literal["depth", "tape", "percent", "diameter_percent"]
Level = Literal["law", "maker", "typical", "note", "act"]
_SAME = 1e-9
_KINDS: dict[Form, Kind] = {"depth": "depth", "tape": "length", "percent": "share", "diameter_percent": "share"}
_FORMS: dict[str, Form] = {"depth": "depth", "circumference": "tape", "percent": "percent"}
MANUAL = Source(
    title="the vehicle's manual", locator="tolerance for unequal tires, as entered", standing="published, restated"
)
ALL_WHEELS: tuple[Drivetrain, ...] = ("all", "part_time_four")


class Limit(msgspec.Struct, frozen=True, kw_only=True):
    """How unequal tires may be, in one form, and whose limit it is."""

    level: Level
    form: Form
    limit: Quantity
    label: str
    source: Source

    @property
    def whose(self) -> str:
        """``the manual's``, ``the legal``, ``the usual``."""
        return {"law": "the legal", "maker": "the manual's"}.get(self.level, "the usual")


class Held(msgspec.Struct, frozen=True, kw_only=True):
    """A comparison held against one limit, in the limit's own form and unit."""

    limit: Limit
    actual: float
    doubt: float

    @property
    def margin(self) -> float:
        """What is left until the limit; negative beyond it."""
        return self.limit.limit.value - self.actual

    @property
    def actual_quantity(self) -> Quantity:
        """The difference in the limit's form."""
        return Quantity(self.actual, self.limit.limit.unit, self.limit.limit.kind)

    @property
    def over(self) -> bool:
        """Whether the limit is passed."""
        return self.margin < -_SAME

    @property
    def close(self) -> bool:
        """Whether the gauge cannot tell on which side of the limit the tires are."""
        return abs(self.margin) <= self.doubt + _SAME

    @property
    def verdict(self) -> Verdict:
        """Law and maker bind; what is usual only calls for a look. Shops take note from their figure on, not beyond."""
        level = self.limit.level
        if level in ("note", "act"):
            reached = self.margin <= _SAME
            return "keep" if not reached else "watch" if level == "note" else "inspect"
        if self.over:
            return "replace" if level in ("law", "maker") else "inspect"
        return "inspect" if self.close else "keep"


def gravest(held: tuple[Held, ...]) -> Held | None:
    """The limit that binds: the gravest verdict, then the one of which the largest share is used up."""
    return max(
        held, default=None, key=lambda it: (SEVERITY.index(it.verdict), it.actual / max(it.limit.limit.value, _SAME))
    )


def limits_for(
    audience: Audience, scope: Literal["axle", "set"], drivetrain: Drivetrain | None, tolerance: Tolerance | None,
    tables: Tables,
) -> tuple[Limit, ...]:  # fmt: skip
    """The limits that hold for an axle or the set: law, the maker's own, and common practice where there is none."""
    law = _laws(audience, tables) if scope == "axle" else ()
    if tolerance is not None:
        return (*law, _makers(tolerance))
    rows = tables.matching
    usual = []
    if drivetrain in ALL_WHEELS:
        usual.append(_limit(rows["awd_depth"], "typical", "common practice, all-wheel drive"))
    if scope == "axle":
        usual.append(_limit(rows["axle_note"], "note", "common practice"))
        usual.append(_limit(rows["axle_act_from"], "act", "common practice"))
    return (*law, *usual)


def _laws(audience: Audience, tables: Tables) -> tuple[Limit, ...]:
    if audience.region not in tables.regions:
        return ()
    rules = [row for row in tables.matching_rules(audience.region) if (row.scope, row.level) == ("axle", "law")]
    return tuple(
        _limit(row, "law", f"law, {tables.regions[row.region].name}") for row in rules if row.value is not None
    )


def _makers(tolerance: Tolerance) -> Limit:
    form = _FORMS[tolerance.form]
    limit = Quantity(tolerance.limit.value, tolerance.limit.unit, _KINDS[form])
    return Limit(level="maker", form=form, limit=limit, label="maker's tolerance", source=MANUAL)


def _limit(row: MatchingRule, level: Level, label: str) -> Limit:
    unit = msgspec.convert(row.unit, UnitName)
    form: Form = "diameter_percent" if (row.measure, unit) == ("diameter", "%") else _FORMS[row.measure]
    return Limit(
        level=level, form=form, limit=Quantity(row.value or 0.0, unit, _KINDS[form]), label=label, source=row.source
    )


def hold(compared: Compared, limit: Limit) -> Held | None:
    """Hold tires against a limit; None where their sizes are not known and the form needs them."""
    found = _actual(compared, limit.form)
    if found is None:
        return None
    actual, doubt, unit = found
    kind = _KINDS[limit.form]
    to = limit.limit.unit
    return Held(
        limit=limit, actual=Quantity(actual, unit, kind).to(to).value, doubt=Quantity(doubt, unit, kind).to(to).value
    )


def _actual(compared: Compared, form: Form) -> tuple[float, float, UnitName] | None:
    """The difference in a form with its doubt and unit."""
    doubt = compared.doubt_mm
    if form == "depth":
        return compared.depth_mm, doubt, "mm"
    if form == "tape":
        return compared.tape_mm, 2 * math.pi * doubt, "mm"
    percent = compared.percent if form == "percent" else compared.diameter_percent
    if percent is None or compared.diameters_mm is None:
        return None
    return percent, 100 * 2 * doubt / compared.diameters_mm[0], "%"


def depth_of(limit: Limit, diameter_mm: float | None) -> float | None:
    """The difference of depth, in mm, that reaches the limit between two tires of one size.

    ``diameter_mm`` is the larger tire's; a percentage needs it, and counts from the smaller tire.
    """
    if limit.form == "depth":
        return limit.limit.to("mm").value
    if limit.form == "tape":
        return limit.limit.to("mm").value / (2 * math.pi)
    return None if diameter_mm is None else (diameter_mm - diameter_mm / (1 + limit.limit.value / 100)) / 2
