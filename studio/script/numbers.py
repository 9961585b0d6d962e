"""The numbers of a finding by name: its value, limit, margin and uncertainty, and its figures."""

import math
from collections.abc import Mapping

import msgspec

from studio.model.finding import Finding, Findings
from studio.model.quantity import Kind, Quantity, System
from studio.model.spoken import spell_money

VALUE, LIMIT, MARGIN, UNCERTAINTY = "value", "limit", "margin", "uncertainty"
OWN = (VALUE, LIMIT, MARGIN, UNCERTAINTY)


class Number(msgspec.Struct, frozen=True, kw_only=True):
    """One number of a finding; ``label`` says what it is in plain words, ``currency`` stands with money."""

    finding: str
    name: str
    label: str
    quantity: Quantity
    currency: str = ""

    def short(self, units: System) -> str:
        """In the audience's unit: ``5/32 in``."""
        return f"{self.quantity.in_system(units).text()} {self.currency}".rstrip()

    def both(self, units: System) -> str:
        """In both unit systems: ``5/32 in (4.0 mm)``."""
        return f"{self.quantity.both(units)} {self.currency}".rstrip()

    def spoken(self, units: System) -> str:
        """In words, in the audience's unit."""
        mine = self.quantity.in_system(units)
        return spell_money(mine.number().replace(",", ""), self.currency) if self.currency else mine.spoken()

    def spoken_both(self, units: System) -> str:
        """In words, in both unit systems one after the other; once where there is no other."""
        other: System = "metric" if units == "us" else "us"
        first, second = self.spoken(units), self.spoken(other)
        return first if first == second else f"{first}, {second}"

    def rounded(self, units: System) -> str:
        """In words and rounded as people say it."""
        words = self.quantity.rounded(units)
        if not self.currency:
            return words
        return f"about {spell_money(str(round(self.quantity.value)), self.currency)}"


def numbers_of(finding: Finding) -> Mapping[str, Number]:
    """All numbers of ``finding`` by name, its own before its figures."""
    currency = finding.word("currency")

    def number(name: str, label: str, quantity: Quantity) -> Number:
        money = currency if quantity.measures == "money" else ""
        return Number(finding=finding.id, name=name, label=label, quantity=quantity, currency=money)

    own = {name: number(name, _label(finding, name), quantity) for name, quantity in _own(finding)}
    figures = {f.name: number(f.name, f.label, f.quantity) for f in finding.figures if f.name not in own}
    return {**own, **figures}


def by_id(findings: Findings | Mapping[str, Finding]) -> Mapping[str, Finding]:
    """The findings by their id, for looking up many."""
    return {finding.id: finding for finding in findings} if isinstance(findings, Findings) else findings


def _own(finding: Finding) -> list[tuple[str, Quantity]]:
    if finding.unit is None:
        return []
    kind = kind_of_value(finding)
    values = zip(OWN, (finding.value, finding.limit, finding.margin, finding.uncertainty), strict=True)
    return [(name, Quantity(value, finding.unit, kind)) for name, value in values if value is not None]


def kind_of_value(finding: Finding) -> Kind | None:
    """What ``finding.value`` measures, told by the figure of equal value; None leaves it to the unit."""
    if finding.value is None or finding.unit not in ("mm", "in", "32nds"):
        return None
    lengths = (f.quantity for f in finding.figures if f.quantity.measures in ("depth", "length"))
    for its in lengths:
        if math.isclose(its.to(finding.unit).value, finding.value, rel_tol=1e-9, abs_tol=1e-12):
            return its.measures
    return None


def _label(finding: Finding, name: str) -> str:
    if name == LIMIT:
        return finding.limit_label or "limit"
    return {VALUE: "value", MARGIN: "margin to the limit", UNCERTAINTY: "uncertainty, half width"}[name]
