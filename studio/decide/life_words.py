"""The words of the life topic."""

from studio.decide.life_read import Life, Part, Reach
from studio.decide.wording import counted, day_words, on_paper, upper_first
from studio.model.quantity import MINUS, Quantity, System, depth, format_number
from studio.reference.tables import Tables

_ROUND_TO = 100


def _rounded(value: float, its: Life, system: System | None = None) -> Quantity:
    """A projected distance as far as it can be known: to the hundred, in the audience's units or another system's."""
    quantity = Quantity(value, its.unit).in_system(system or its.part.audience.units)
    return Quantity(round(quantity.value / _ROUND_TO) * _ROUND_TO, quantity.unit)


def _rough(value: float, its: Life) -> str:
    return _rounded(value, its).text()


def sentence(its: Life) -> str:
    """The finding in plain speech."""
    title, legal = its.part.subject.title, its.legal
    if its.done:
        return f"{title} has no distance left: it is at or under the legal minimum."
    low = _rough(legal.low, its)
    if legal.high is None:
        return f"{title} should last at least {low} to the legal minimum; the gauge tells no more."
    return (
        f"{title} has about {_rough(legal.left, its)} left to the legal minimum "
        f"({low} to {_rough(legal.high, its)})."
    )


def refused(part: Part, missing: str, tables: Tables) -> tuple[str, ...]:
    """Why no rate is projected."""
    least = tables.measuring["projection_least_wear_mm"]
    lines = [f"{counted(len(part.history), 'reading')} of depth on record; needed: {missing}"]
    lines.append(f"{upper_first(least.means)}: {least.value:g} {least.unit}, and more than the gauge's own doubt")
    return tuple(lines)


def working(its: Life) -> tuple[str, ...]:
    """The steps from the readings to the distance."""
    lines = [
        f"{day_words(point.tread.reading.on)}: {on_paper(Quantity(point.rolled, its.unit))} rolled, lowest "
        f"{_deep(point.depth_mm, its)}"
        for point in its.points
    ]
    first, last, rate = its.points[0], its.points[-1], its.fit.rate_per_1000
    if len(its.points) == 2:
        worn = f"({_deep(first.depth_mm, its)} {MINUS} {_deep(last.depth_mm, its)})"
        rolled = on_paper(Quantity(last.rolled, its.unit))
        lines.append(f"Wear: {worn} / {rolled} × 1000 = {_fine(rate, its)} in 1000 {its.unit}")
    else:
        lines.append(f"Least squares through all {len(its.points)}: {_fine(rate, its)} in 1000 {its.unit}")
    lines.append(f"Half width of that wear: ±{_fine(its.rate_doubt, its)} in 1000 {its.unit}")
    lines += [_reach_line(reach, its) for reach in (its.legal, *its.others)]
    lines.append("New blocks wear faster at first, so early readings overstate the wear (common practice)")
    if its.part.history[-1] != last.tread:
        day = day_words(its.part.history[-1].reading.on)
        lines.append(f"Counted from the last reading, {day}: {_deep(its.now_mm, its)}")
    return tuple(lines)


def _reach_line(reach: Reach, its: Life) -> str:
    left, low = (on_paper(Quantity(round(value), its.unit)) for value in (reach.left, reach.low))
    high = "no upper end" if reach.high is None else on_paper(Quantity(round(reach.high), its.unit))
    to_go = f"({_deep(its.now_mm, its)} {MINUS} {_deep(reach.mark.mm, its)})"
    rate = _fine(its.fit.rate_per_1000, its)
    return f"To {reach.mark.label}: {to_go} / {rate} × 1000 = {left} (from {low} to {high})"


def _deep(value_mm: float, its: Life) -> str:
    return on_paper(depth(value_mm, "mm").in_system(its.part.audience.units))


def _fine(value_mm: float, its: Life) -> str:
    """A wear with the digits that a calculation on paper needs."""
    shown = depth(value_mm, "mm").in_system(its.part.audience.units)
    number = format_number(shown.value, 4)
    return f"{number}/32 in" if shown.unit == "32nds" else f"{number} mm"


def would_change(its: Life) -> tuple[str, ...]:
    """What another millimeter of the last reading, or less wear, does to the distance."""
    if its.done:
        return ()
    tenth = depth(0.1, "mm")
    more = tenth.to("mm").value / its.fit.rate_per_1000 * 1000
    off = f"Each {its.part.audience.both(tenth)} that the last reading is off"
    return (f"{off} moves it by {_rough(more, its)}.",)


def detail(its: Life) -> tuple[tuple[str, str], ...]:
    """Words that a chart needs."""
    return (
        ("distance_unit", its.unit), ("readings", str(len(its.points))),
        ("band", "open" if its.legal.high is None else "closed"),
        *((f"read_on_{n}", day_words(point.tread.reading.on)) for n, point in enumerate(its.points, start=1)),
        *(pair for reach in (its.legal, *its.others) for pair in _about(reach, its)),
    )  # fmt: skip


def _about(reach: Reach, its: Life) -> tuple[tuple[str, str], ...]:
    """The distance to a mark as it may be said: rounded, in both systems, with its band."""
    name, high = reach.mark.name, reach.high
    other: System = "metric" if its.part.audience.units == "us" else "us"
    band = f"at least {_rough(reach.low, its)}"
    if high is not None:
        band = f"{_rounded(reach.low, its).number()}–{_rough(high, its)}"
    return (
        (f"about.{name}", _rough(reach.left, its)), (f"about_other.{name}", _rounded(reach.left, its, other).text()),
        (f"about_band.{name}", band),
    )  # fmt: skip
