"""The numbers of a match that pictures and scripts show: the difference in every form, the tolerance in every form."""

import math

from studio.decide.matching_limits import Limit, depth_of
from studio.decide.matching_read import Match
from studio.model.finding import Figure
from studio.model.quantity import Quantity, UnitName, depth, length
from studio.reference.tables import Tables
from studio.tires.geometry import mismatch_percent, turns_per_mile

_DECIDING = ("maker", "law", "typical", "act", "note")


def difference(match: Match, tables: Tables) -> Quantity:
    """The difference of the mean depths, in the depth unit of the region."""
    row = tables.regions.get(match.part.audience.region)
    unit: UnitName = "32nds" if row and row.units == "us" else "mm"
    return depth(match.compared.depth_mm, "mm").to(unit)


def figures(match: Match, tables: Tables) -> tuple[Figure, ...]:
    """Every figure of the match."""
    its = match.compared
    found = [
        Figure(name="difference", label="difference of mean depth", quantity=difference(match, tables)),
        Figure(name="difference_lowest", label="difference of lowest readings", quantity=depth(its.lowest_mm, "mm")),
        Figure(name="tape_difference", label="difference of circumference by tape", quantity=length(its.tape_mm)),
        Figure(name="doubt", label="doubt of the difference", quantity=depth(its.doubt_mm, "mm")),
    ]
    return (*found, *_rolling(match), *_axles(match), *_tolerance(match), *_each(match))


def _rolling(match: Match) -> list[Figure]:
    its = match.compared
    if its.circumferences_mm is None or its.percent is None or its.turns_a_mile is None:
        return []
    small, large = its.circumferences_mm
    return [
        Figure(name="circumference_difference", label="difference of rolling circumference",
               quantity=length(large - small)),
        Figure(name="circumference_percent", label="larger over smaller rolling circumference",
               quantity=Quantity(its.percent, "%")),
        Figure(name="turns_difference", label="more turns of the smaller tire",
               quantity=Quantity(its.turns_a_mile, "rev/mi")),
    ]  # fmt: skip


def _axles(match: Match) -> list[Figure]:
    apart = match.axles_apart
    return [Figure(name="axles_apart", label="front mean against rear mean", quantity=apart)] if apart else []


def deciding(match: Match) -> Limit | None:
    """The limit to show in all forms: the maker's if there is one, else the law's, else what is usual."""
    by_level = {it.limit.level: it.limit for it in reversed(match.held)}
    return next((by_level[level] for level in _DECIDING if level in by_level), None)


def _tolerance(match: Match) -> list[Figure]:
    """One tolerance in its three forms, for tires of these diameters."""
    limit = deciding(match)
    diameters = match.compared.diameters_mm
    within = depth_of(limit, diameters[1] if diameters else None) if limit else None
    if limit is None or within is None:
        return []
    found = [
        Figure(name="tolerance_depth", label=f"{limit.label}, as depth", quantity=depth(within, "mm")),
        Figure(name="tolerance_circumference", label=f"{limit.label}, as circumference by tape",
               quantity=length(2 * math.pi * within)),
    ]  # fmt: skip
    if diameters:
        percent = Quantity(mismatch_percent(diameters[1], diameters[1] - 2 * within), "%")
        found.append(Figure(name="tolerance_percent", label=f"{limit.label}, as share", quantity=percent))
    return found


def _each(match: Match) -> list[Figure]:
    """Each tire's own depth and what it covers in one turn, named by its place."""
    found: list[Figure] = []
    for tire in match.compared.tires:
        name, words = tire.worn.subject.name, tire.worn.subject.words
        found += [
            Figure(name=f"depth_{name}", label=f"mean depth, {words}", quantity=tire.tread.mean()),
            Figure(name=f"lowest_{name}", label=f"lowest reading, {words}", quantity=depth(tire.lowest_mm, "mm")),
        ]
        if tire.circumference_mm is None or tire.diameter_mm is None:
            continue
        turns = Quantity(turns_per_mile(tire.circumference_mm), "rev/mi")
        found += [
            Figure(name=f"diameter_{name}", label=f"worn diameter, {words}", quantity=length(tire.diameter_mm)),
            Figure(name=f"rolling_circumference_{name}", label=f"rolling circumference, {words}",
                   quantity=length(tire.circumference_mm)),
            Figure(name=f"turns_{name}", label=f"turns in a mile, {words}", quantity=turns),
        ]  # fmt: skip
    return found
