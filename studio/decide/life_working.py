"""The working of a tire's life: from the readings to the line, from the line to distance and date of each limit."""

from statistics import fmean

from studio.decide.life_read import Groove, Life, Point, Reach
from studio.decide.pace import month_words
from studio.decide.wording import day_words, on_paper, upper_first
from studio.model.finding import Step, summed
from studio.model.quantity import MINUS, Quantity, depth, format_number
from studio.reference.tables import Tables
from studio.tires.wear_rate import median_rate

_ROBUST_FROM = 4
NEW_BLOCKS = "New blocks wear faster at first, so early readings overstate the wear (common practice)"


def working(its: Life, tables: Tables) -> tuple[str | Step, ...]:
    """The steps from the readings to the distance."""
    part, shown = its.part, its.shown
    of = f" of the {shown.name} groove" if shown.name else ""
    lines: list[str | Step] = [_reading(point, its, of) for point in shown.points]
    lines += map(upper_first, part.way.assumed)
    if part.way.assumed:
        rolled, driven = (on_paper(Quantity(x, its.unit)) for x in (part.way.rolled[-1], part.way.driven))
        lines.append(f"So it rolled {rolled} itself while the car ran {driven}")
    lines += _line(its)
    lines += [_other(groove, its) for groove in its.grooves if groove is not shown]
    lines += [_reach(reach, its) for reach in (its.legal, *its.others)]
    if part.history[-1] != shown.points[-1].tread:
        day = day_words(part.history[-1].reading.on)
        lines.append(f"Counted from the last reading, {day}: {deep(its.now_mm, its)}")
    return (*lines, *_dates(its, tables), _new(its))


def deep(value_mm: float, its: Life) -> str:
    """A depth in the audience's unit, as a calculation on paper needs it."""
    return on_paper(depth(value_mm, "mm").in_system(its.part.audience.units))


def fine(value_mm: float, its: Life) -> str:
    """A wear with the digits that a calculation on paper needs."""
    shown = depth(value_mm, "mm").in_system(its.part.audience.units)
    number = format_number(shown.value, 4)
    return f"{number}/32 in" if shown.unit == "32nds" else f"{number} mm"


def is_new(point: Point, its: Life) -> bool:
    """Whether the tire had its full depth at a reading, as far as the gauge can tell."""
    new = its.part.depth_new
    return new is not None and point.depth_mm >= new.to("mm").value - point.half_mm


def _reading(point: Point, its: Life, of: str) -> str:
    rolled, odometer = on_paper(Quantity(point.rolled, its.unit)), on_paper(point.odometer)
    low = deep(point.depth_mm, its)
    return f"{day_words(point.tread.reading.on)}, odometer {odometer}: {rolled} rolled, lowest{of} {low}"


def _line(its: Life) -> list[str | Step]:
    """The line through the readings and its half width."""
    shown, line, unit = its.shown, its.line, its.unit
    points = shown.points
    halves = [point.half_mm for point in points]
    lines: list[str | Step] = [_two(its) if len(points) == 2 else _squares(its)]
    gauge = f"the gauge's ±{fine(halves[-1], its)}"
    if line.readings > 2 and its.coverage * line.scatter > 1:
        scatter = fine(line.scatter * halves[-1], its)
        gauge = f"{its.coverage:g} × the scatter about the line, {scatter}, which is more than {gauge},"
    spread = sum((p.rolled - fmean(q.rolled for q in points)) ** 2 for p in points) ** 0.5
    lines.append(Step(
        f"Half width: {gauge} over the root of Σ(x {MINUS} x̄)², {on_paper(Quantity(spread, unit))}, gives "
        f"±{fine(shown.half * 1000, its)} per 1000 {unit}", "wear_doubt",
    ))  # fmt: skip
    if len(points) >= _ROBUST_FROM:
        median = median_rate([p.rolled for p in points], [p.depth_mm for p in points])
        lines.append(f"Check: the median of the wear between every two readings is {fine(median * 1000, its)}")
    return lines


def _two(its: Life) -> Step:
    first, last = its.shown.points
    worn = f"({deep(first.depth_mm, its)} {MINUS} {deep(last.depth_mm, its)})"
    rolled = on_paper(Quantity(last.rolled - first.rolled, its.unit))
    return summed("Wear", f"{worn} / {rolled} × 1000 = {fine(its.line.rate * 1000, its)} per 1000 {its.unit}", "wear")


def _squares(its: Life) -> str:
    """Least squares with its sums, x in thousands; weighed where the gauges differ."""
    points, unit = its.shown.points, its.unit
    rate = f"{fine(its.line.rate * 1000, its)} per 1000 {unit}"
    if len({point.half_mm for point in points}) > 1:
        return f"Least squares through all {len(points)}, each weighed by its gauge: {rate}"
    xs, ys = [p.rolled / 1000 for p in points], [p.depth_mm for p in points]
    x, y = fmean(xs), fmean(ys)
    xx = sum((a - x) ** 2 for a in xs)
    xy = depth(sum((a - x) * (b - y) for a, b in zip(xs, ys, strict=True)), "mm").in_system(its.part.audience.units)
    sums = f"Σ(x {MINUS} x̄)(d {MINUS} d̄) / Σ(x {MINUS} x̄)² = {format_number(xy.value, 2)} / {format_number(xx, 1)}"
    return f"Least squares through all {len(points)}, x in 1000 {unit}: {sums}, so {rate}"


def _other(groove: Groove, its: Life) -> str:
    name = f"{upper_first(groove.name)} groove" if groove.name else "The whole tire's lowest readings"
    if groove.line is None:
        return f"{name}: worn too little to have a rate; assumed: no faster than the fastest"
    rate, half = fine(groove.rate * 1000, its), fine(groove.half * 1000, its)
    return f"{name}: {rate} ±{half} per 1000 {its.unit}, lowest now {deep(groove.now_mm, its)}"


def _reach(reach: Reach, its: Life) -> str:
    left, low = (on_paper(Quantity(round(value), its.unit)) for value in (reach.left, reach.low))
    high = "no upper end" if reach.high is None else on_paper(Quantity(round(reach.high), its.unit))
    to_go = f"({deep(reach.groove.now_mm, its)} {MINUS} {deep(reach.mark.mm, its)})"
    rate = fine(reach.groove.rate * 1000, its)
    where = f", {reach.groove.name} groove" if reach.groove.name and len(its.grooves) > 1 else ""
    if reach.groove.now_mm <= reach.mark.mm:
        return f"To {reach.mark.label}{where}: reached already"
    return f"To {reach.mark.label}{where}: {to_go} / {rate} × 1000 = {left} (from {low} to {high})"


def _dates(its: Life, tables: Tables) -> list[str]:
    """When that is, at what distance in a year, and what its age says."""
    pace, way = its.part.pace, its.part.way
    if pace is None or its.yearly is None:
        return []
    car, own = (on_paper(Quantity(round(x.value), x.unit)) for x in (pace.yearly, Quantity(its.yearly, its.unit)))
    lines = [f"The car's yearly distance, {pace.words}: {car}"]
    if way.rolled[-1] < way.driven:
        rolled, driven = (on_paper(Quantity(x, its.unit)) for x in (way.rolled[-1], way.driven))
        lines.append(f"This tire's share: {car} × {rolled} / {driven} = {own} a year")
    ends, left = month_words(its.day(its.legal.left)), its.legal.left
    if ends and not its.done:
        years = format_number(left / its.yearly, 2)
        last = day_words(its.part.history[-1].reading.on)
        lines.append(f"Date: {last} + {on_paper(Quantity(round(left), its.unit))} / {own} = {years} years: {ends}")
    day = its.day(left)
    if day and day < its.part.on and not its.done:
        lines.append("That day is past: measure again before it is driven on")
    if its.age_ends_it and its.aged:
        row = its.aged.deciding[-1]
        lines.append(f"{upper_first(row.wording)} ({row.source.standing}): {month_words(its.age_ends_it)}")
    return lines


def _new(its: Life) -> str:
    if is_new(its.shown.points[0], its):
        return f"The first reading is of the new tire. {NEW_BLOCKS}"
    return NEW_BLOCKS
