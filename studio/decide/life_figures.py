"""The numbers of a tire's life that pictures and scripts show: readings, lines, what is left to each limit."""

from studio.decide.life_read import Life, Reach
from studio.model.finding import Figure
from studio.model.quantity import Quantity, depth
from studio.tires.wear_rate import median_rate


def figures(its: Life) -> tuple[Figure, ...]:
    """Points, line and limits, as a chart needs them, and each groove's own wear."""
    shown, line, unit, way = its.shown, its.line, its.unit, its.part.way
    first, last = shown.points[0].rolled, shown.points[-1].rolled
    found = [
        Figure(name="wear_per_1000", label=f"wear in 1000 {unit}", quantity=depth(line.rate * 1000, "mm")),
        Figure(name="wear_per_1000_doubt", label="half width of the wear", quantity=depth(shown.half * 1000, "mm")),
        Figure(name="fit_at_first", label="the line at the first reading", quantity=depth(line.at(first), "mm")),
        Figure(name="fit_at_last", label="the line at the last reading", quantity=depth(line.at(last), "mm")),
        Figure(name="depth", label="last lowest reading", quantity=depth(its.now_mm, "mm")),
        Figure(name="depth_doubt", label="doubt of the last reading", quantity=depth(its.now_half_mm, "mm")),
        Figure(name="rolled", label="rolled from first to last reading", quantity=Quantity(way.rolled[-1], unit)),
        Figure(name="driven", label="run by the car meanwhile", quantity=Quantity(way.driven, unit)),
    ]
    if its.yearly is not None:
        found.append(Figure(name="yearly", label="rolled in a year", quantity=Quantity(its.yearly, unit)))
    return (*found, *_readings(its), *_grooves(its), *(f for r in (its.legal, *its.others) for f in _reach(r, its)))


def _readings(its: Life) -> list[Figure]:
    found = []
    for number, point in enumerate(its.shown.points, start=1):
        found += [
            Figure(name=f"odometer_{number}", label=f"odometer at reading {number}", quantity=point.odometer),
            Figure(name=f"rolled_{number}", label=f"rolled by reading {number}",
                   quantity=Quantity(point.rolled, its.unit)),
            Figure(name=f"depth_{number}", label=f"lowest of reading {number}",
                   quantity=depth(point.depth_mm, "mm").to(point.tread.reading.unit)),
        ]  # fmt: skip
    return found


def _grooves(its: Life) -> list[Figure]:
    """The wear of every groove that has a line of its own; and of the one shown, by the median of all pairs."""
    found = []
    for groove in its.grooves:
        if groove.line and groove.name:
            name, label = groove.name.replace(" ", "_"), f"wear in 1000 {its.unit}, {groove.name} groove"
            found.append(Figure(name=f"wear_{name}", label=label, quantity=depth(groove.rate * 1000, "mm")))
            found.append(
                Figure(name=f"wear_{name}_doubt", label=f"half width, {groove.name} groove",
                       quantity=depth(groove.half * 1000, "mm"))
            )  # fmt: skip
    points = its.shown.points
    median = median_rate([point.rolled for point in points], [point.depth_mm for point in points])
    found.append(
        Figure(name="wear_per_1000_median", label="median of the wear between every two readings",
               quantity=depth(median * 1000, "mm"))
    )  # fmt: skip
    return found


def _reach(reach: Reach, its: Life) -> list[Figure]:
    name, label, unit = reach.mark.name, reach.mark.label, its.unit
    found = [
        Figure(name=name, label=label, brief=reach.mark.brief, quantity=reach.mark.depth),
        Figure(name=f"left_{name}", label=f"left to {label}", quantity=Quantity(reach.left, unit)),
        Figure(name=f"left_{name}_low", label=f"left to {label}, at least", quantity=Quantity(reach.low, unit)),
    ]
    if reach.high is not None:
        most = Quantity(reach.high, unit)
        found.append(Figure(name=f"left_{name}_high", label=f"left to {label}, at most", quantity=most))
    if its.yearly:
        years = Quantity(reach.left / its.yearly, "years")
        found.append(Figure(name=f"years_{name}", label=f"years to {label}", quantity=years))
    return found
