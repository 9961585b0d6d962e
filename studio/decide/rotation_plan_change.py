"""What would change the gain of rotating, found by searching again with another depth or another pattern."""

from collections.abc import Callable

from studio.decide.rotation_plan_read import Planned
from studio.decide.rotation_plan_words import plan_words
from studio.decide.rounded import about, about_both
from studio.decide.wording import upper_first
from studio.model.places import place_words
from studio.model.quantity import depth
from studio.tires.rotation_plan import Course, Wheel, first_to_go

_TENTH_MM = 0.1


def texts(its: Planned) -> tuple[str, ...]:
    """The changes as sentences."""
    found = [_tenth(its), _another_pattern(its), _seldom(its)]
    return tuple(text for text in found if text)


def _tenth(its: Planned) -> str:
    """What a tenth of a millimeter of the reading that decides does to the first new tire under the plan."""
    name = its.found.stay.first_out
    wheel = its.wheels.by_place[name]
    moved = Wheel(mean=wheel.mean, lowest=wheel.lowest + _TENTH_MM, limit=wheel.limit)
    plan = its.found.longest.plan
    lasts, _ = first_to_go({**its.wheels.by_place, name: moved}, its.wear.rates(its.factor), plan)
    more, audience = lasts - its.found.longest.lasts, its.part.rotation.audience
    far = about(max(0.0, more), its.unit, audience.units).text()
    if far.startswith("0 "):
        return ""
    deeper = audience.both(depth(_TENTH_MM, "mm"))
    return f"If the lowest of {place_words(name)} read {deeper} more, the first new tire would come {far} later."


def _another_pattern(its: Planned) -> str:
    """The best that another pattern can do."""
    best = _best(its, lambda course: course.plan.pattern != its.found.longest.plan.pattern)
    if best is None or not its.gains:
        return ""
    gain = about_both(abs(best.lasts - its.found.stay.lasts), its.unit, its.part.rotation.audience.units)
    later = "later" if best.lasts >= its.found.stay.lasts else "earlier"
    return f"{upper_first(plan_words(best, its))} would bring it {gain} {later} than not rotating."


def _seldom(its: Planned) -> str:
    """The same pattern at the other end of the intervals."""
    plan = its.found.longest.plan
    best = _best(its, lambda c: c.plan.pattern == plan.pattern and c.plan.interval == its.intervals[-1])
    if best is None or not its.gains or plan.interval == its.intervals[-1]:
        return ""
    gain = about_both(abs(best.lasts - its.found.stay.lasts), its.unit, its.part.rotation.audience.units)
    later = "later" if best.lasts >= its.found.stay.lasts else "earlier"
    return f"{upper_first(plan_words(best, its))} it would be {gain} {later}."


def _best(its: Planned, wanted: Callable[[Course], bool]) -> Course | None:
    courses = [c for c in its.found.tried if c.plan.pattern is not None and wanted(c)]
    return max(courses, default=None, key=lambda course: course.lasts)
