"""The words of the rotation plan."""

from studio.decide.pace import after, month_words
from studio.decide.rotation_plan_read import Planned
from studio.decide.rotation_read import WORDS, due
from studio.decide.rounded import about_both
from studio.decide.wording import joined, on_paper, upper_first
from studio.model.places import CORNERS, place_words
from studio.model.quantity import MINUS, Quantity, depth, format_number
from studio.reference.tables import Tables
from studio.tires.rotation_plan import Course, trace

_LONGEST = 90
NO_SPARE = "a depth reading, spare, to plan with five wheels"


def sentence(its: Planned) -> str:
    """The finding in plain speech."""
    found, units, both = its.found, its.part.rotation.audience.units, its.part.rotation.audience.both
    first = place_words(found.stay.first_out)
    if not its.patterns:
        left = about_both(found.stay.lasts, its.unit, units)
        return f"No pattern suits these tires; {first} is the first to go, after about {left}."
    if its.gains:
        gain = about_both(its.gain, its.unit, units)
        if its.sure:
            told = f"puts off the first new tire by about {gain}."
            whole = f"{upper_first(plan_words(found.longest, its))} {told}"
            return whole if len(whole) <= _LONGEST else f"{upper_first(WORDS[pattern_of(found.longest)])} {told}"
        return f"Rotating by {WORDS[pattern_of(found.longest)]} may put off the first new tire by {gain}, not surely."
    if its.closer:
        close, apart = (depth(c.end_apart, "mm") for c in (found.closest, found.stay))
        end = f"{both(close)} apart, not {its.part.rotation.audience.own(apart)}"
        return f"Rotating puts off no new tire; by {WORDS[pattern_of(found.closest)]} they end {end}."
    return f"Rotating gains nothing here: {first} stays the first to go and the tires no closer."


def pattern_of(course: Course) -> str:
    """The id of the pattern; empty for not rotating."""
    return course.plan.pattern.id if course.plan.pattern else ""


def plan_words(course: Course, its: Planned) -> str:
    """``forward cross every 8000 km``."""
    if course.plan.pattern is None:
        return "not rotating"
    return f"{WORDS[course.plan.pattern.id]} every {_own(course.plan.interval, its)}"


def _own(distance: float, its: Planned) -> str:
    return its.part.rotation.audience.own(Quantity(distance, its.unit))


def _whole_plan(course: Course, its: Planned) -> str:
    """The same with its beginning."""
    if course.plan.pattern is None:
        return "not rotating"
    first = "now" if course.plan.first <= 0 else f"in {_own(course.plan.first, its)}"
    return f"{WORDS[course.plan.pattern.id]} {first}, then every {_own(course.plan.interval, its)}"


def working(its: Planned, tables: Tables) -> tuple[str, ...]:
    """The steps from the wear by place to the two plans."""
    found, grounds = its.found, its.part.grounds
    lines = [
        f"Wear per 1000 {its.unit} by place, least squares through all readings of {joined(grounds.words)}: "
        f"{joined([_wear(place, its) for place in CORNERS])}",
        *map(upper_first, grounds.assumed),
    ]
    if its.wear.by_axle:
        lines.append("Assumed: left and right of an axle wear alike, as the readings do not tell them apart")
    lines.append("Assumed: every place goes on as it did, whatever tire stands there; wear may differ by load and toe")
    lines += [_today(name, its) for name in its.wheels.by_place]
    lines.append(_staying(its))
    lines += _tried(its, tables)
    if its.gains:
        lines += [f"Longest: {_whole_plan(found.longest, its)}", *_way(found.longest, its), _gain(its)]
    lines.append(f"Closest: {_whole_plan(found.closest, its)}: {_apart(found.closest, its)}")
    return (*lines, *_date(its, tables))


def _wear(place: str, its: Planned) -> str:
    mean, lowest = (rate[place] * 1000 * its.factor for rate in (its.wear.mean, its.wear.lowest))
    half = its.wear.mean_half[place] * 1000 * its.factor
    return f"{place_words(place)} {_fine(mean, its)} ±{_fine(half, its)} (lowest spot {_fine(lowest, its)})"


def _fine(value_mm: float, its: Planned) -> str:
    shown = depth(value_mm, "mm").in_system(its.part.rotation.audience.units)
    number = format_number(shown.value, 4)
    return f"{number}/32 in" if shown.unit == "32nds" else f"{number} mm"


def _deep(value_mm: float, its: Planned) -> str:
    return on_paper(depth(value_mm, "mm").in_system(its.part.rotation.audience.units))


def _today(name: str, its: Planned) -> str:
    wheel = its.wheels.by_place[name]
    return f"Today {place_words(name)}: mean {_deep(wheel.mean, its)}, lowest {_deep(wheel.lowest, its)}"


def _staying(its: Planned) -> str:
    stay = its.found.stay
    wheel, rate = its.wheels.by_place[stay.first_out], its.wear.lowest[stay.first_out] * 1000 * its.factor
    far = on_paper(Quantity(round(stay.lasts), its.unit))
    return (
        f"Not rotating: {place_words(stay.first_out)} goes first, ({_deep(wheel.lowest, its)} {MINUS} "
        f"{_deep(wheel.limit, its)}) / {_fine(rate, its)} × 1000 = {far}; {_apart(stay, its)}"
    )


def _apart(course: Course, its: Planned) -> str:
    over = on_paper(Quantity(round(course.over), its.unit))
    mean, most, end = (_deep(value, its) for value in (course.mean_apart, course.most_apart, course.end_apart))
    return f"over these {over} the tires are {mean} apart on the average, {most} at most, {end} in the end"


def _tried(its: Planned, tables: Tables) -> list[str]:
    if not its.patterns:
        return ["No pattern is permitted for these tires, so nothing else was tried"]
    label = due(its.part.rotation, tables).label
    intervals = ", ".join(format_number(interval, 0) for interval in its.intervals)
    return [
        f"Tried, all {len(its.tried)} of them: {joined([WORDS[id_] for id_ in its.patterns])}, every {intervals} "
        f"{its.unit} ({label}), beginning now or when due"
    ]


def _way(course: Course, its: Planned) -> list[str]:
    """The way of the tire that goes first under the plan, leg by leg."""
    lines = []
    for place, far, lowest in trace(its.wheels.by_place, its.wear.rates(its.factor), course.plan, course.first_out):
        rate = its.wear.lowest.get(place, 0.0) * 1000 * its.factor
        lost = "does not roll" if place == "spare" else f"loses {_fine(rate, its)} per 1000 {its.unit}"
        lines.append(
            f"Today's {place_words(course.first_out)} at {place_words(place)} for "
            f"{on_paper(Quantity(round(far), its.unit))}: {lost}, then lowest {_deep(lowest, its)}"
        )
    return lines


def _gain(its: Planned) -> str:
    longest, stay, gain, low, high = (
        on_paper(Quantity(round(value), its.unit))
        for value in (its.found.longest.lasts, its.found.stay.lasts, its.gain, its.gain_low, its.gain_high)
    )
    return f"Put off by: {longest} {MINUS} {stay} = {gain}; from {low} to {high} within the half widths of the wear"


def _date(its: Planned, tables: Tables) -> list[str]:
    """When the first tire has to go, by the longest plan and without rotating."""
    pace, last = its.part.pace, max((w.tread.reading.on for w in its.part.rotation.corners if w.tread), default=None)
    if pace is None or last is None:
        return []
    yearly, days = pace.yearly.to(its.unit).value * its.part.grounds.share, tables.physics["days_per_year"].value
    stay, longest = (
        month_words(after(last, course.lasts, yearly, days)) for course in (its.found.stay, its.found.longest)
    )
    if not stay or not longest:
        return []
    far = on_paper(Quantity(round(yearly), its.unit))
    whose = "the car's own" if its.part.grounds.share >= 1 else "this set's share of what the car runs"
    return [f"At {far} a year, {whose} ({pace.words}), that is {stay} without and {longest} with the plan"]


def missing(its: Planned) -> tuple[str, ...]:
    """What would let more plans be tried."""
    spare = its.part.rotation.spare
    return (NO_SPARE,) if spare is not None and spare.tread is None and not its.wheels.five else ()


def detail(its: Planned) -> tuple[tuple[str, str], ...]:
    """Each plan's pattern and words, and which tire goes first."""
    pairs = [("patterns", ",".join(its.patterns)), ("distance_unit", its.unit), ("sure", "yes" if its.sure else "")]
    for name in ("stay", "longest", "closest"):
        course: Course = getattr(its.found, name)
        pairs += [
            (f"{name}.pattern", pattern_of(course)), (f"{name}.words", _whole_plan(course, its)),
            (f"{name}.first_out", course.first_out),
            (f"{name}.about", about_both(course.lasts, its.unit, its.part.rotation.audience.units)),
        ]  # fmt: skip
    return tuple((name, text) for name, text in pairs if text)
