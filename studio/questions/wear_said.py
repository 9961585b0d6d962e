"""Wear as the viewer tells it: ``loses 1 mm per 8000 km``, and how far the tread of today lasts at that rate."""

from studio.model.finding import Finding, Step
from studio.model.quantity import Quantity, UnitName, depth
from studio.questions.answer_values import Viewer
from studio.questions.facts import Reading


def hundreds(distance: Quantity, viewer: Viewer) -> str:
    """A distance in both units, each to the hundred: it is a projection."""
    miles, km = (Quantity(round(distance.to(unit).value, -2), unit).text() for unit in _DISTANCES)
    return f"{miles} ({km})" if viewer.units == "us" else f"{km} ({miles})"


_DISTANCES: tuple[UnitName, UnitName] = ("mi", "km")


def at_that_rate(
    viewer: Viewer, rate: tuple[Quantity, Quantity], finding: Finding, now: Quantity
) -> tuple[str, tuple[Step, ...]]:
    """(the answer, its working) where the viewer told the wear: no gauge's doubt is made up for it."""
    left, legal = finding.figure("left_legal_minimum"), viewer.tables.legal_minimum(viewer.region)
    assert left is not None and legal is not None, "asked only where a distance is left"
    worn, rolled = rate
    words = f"If it goes on wearing {worn.text()} in {rolled.text()}, {viewer.both(now)} will last about "
    line = f"({now.text()} − {legal.depth.to(now.unit).text()}) / {worn.text()} × {rolled.text()}"
    return f"{words}{hundreds(left, viewer)} to the legal minimum of {viewer.both(legal.depth)}.", (Step(line),)


_RATE_APART = 45
_LEAST_WEAR_MM = 0.8


def wear_rate(reading: Reading) -> tuple[Quantity, Quantity] | None:
    """(tread worn, distance it took) where the comment says so itself: ``loses 1 mm per 8000 km``."""
    worn = reading.first("worn")
    if worn is None:
        return None
    rolled = [
        fact
        for fact in reading.of("distance", "rotation_interval", "yearly_distance")
        if min(abs(fact.start - worn.end), abs(worn.start - fact.end)) <= _RATE_APART
    ]
    if not rolled:
        return None
    return worn.quantity, min(rolled, key=lambda f: min(abs(f.start - worn.end), abs(worn.start - f.end))).quantity


def from_rate(reading: Reading, worn: Quantity, rolled: Quantity) -> tuple[tuple[Quantity, Quantity], ...]:
    """Two points of the rate through the depth of today; a small step is drawn out, its rate stays."""
    now = reading.of("depth", "depth_without_unit")
    depths = [fact.quantity for fact in now if fact.field == "depth"]
    if not depths or worn.value <= 0 or rolled.value <= 0:
        return ()
    lowest = min(depths, key=lambda it: it.to("mm").value)
    times = max(1.0, _LEAST_WEAR_MM / worn.to("mm").value)
    before = depth(lowest.value + times * worn.to(lowest.unit).value, lowest.unit)
    return (Quantity(0.0, rolled.unit), before), (Quantity(times * rolled.value, rolled.unit), lowest)
