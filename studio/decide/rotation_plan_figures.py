"""The numbers of the plans that pictures and scripts show: how far the first tire goes, how close the tires stay."""

from studio.decide.rotation_plan_read import Planned
from studio.model.finding import Figure
from studio.model.places import CORNERS, place_words
from studio.model.quantity import Quantity, depth
from studio.tires.rotation_plan import Course

_SAID = {
    "stay": "without rotating", "longest": "by the plan that lasts longest",
    "closest": "by the plan that keeps them closest",
}  # fmt: skip


def figures(its: Planned) -> tuple[Figure, ...]:
    """All figures: each plan's, the gain, and the wear by place."""
    found = its.found
    each = [f for name in _SAID for f in _course(name, getattr(found, name), its)]
    gain = Figure(name="gain", label="the first new tire is put off by", quantity=Quantity(its.gain, its.unit))
    ends = [
        Figure(name="gain_low", label="put off by, at least", quantity=Quantity(its.gain_low, its.unit)),
        Figure(name="gain_high", label="put off by, at most", quantity=Quantity(its.gain_high, its.unit)),
        Figure(name="over", label="the tires are watched over", quantity=Quantity(found.stay.over, its.unit)),
    ]
    return (*each, gain, *ends, *_rates(its))


def _course(name: str, course: Course, its: Planned) -> list[Figure]:
    said, unit = _SAID[name], its.unit
    found = [
        Figure(name=f"{name}_lasts", label=f"until the first new tire, {said}", quantity=Quantity(course.lasts, unit)),
        Figure(name=f"{name}_apart", label=f"apart on the average, {said}", quantity=depth(course.mean_apart, "mm")),
        Figure(name=f"{name}_most_apart", label=f"apart at most, {said}", quantity=depth(course.most_apart, "mm")),
        Figure(name=f"{name}_end_apart", label=f"apart in the end, {said}", quantity=depth(course.end_apart, "mm")),
    ]
    if course.plan.pattern is not None:
        first, interval = Quantity(course.plan.first, unit), Quantity(course.plan.interval, unit)
        found.append(Figure(name=f"{name}_first", label=f"to the first rotation, {said}", quantity=first))
        found.append(Figure(name=f"{name}_interval", label=f"from rotation to rotation, {said}", quantity=interval))
    found += [
        Figure(name=f"{name}_end_{place}", label=f"mean depth in the end, {place_words(place)} today, {said}",
               quantity=depth(value, "mm"))
        for place, value in course.ends.items()
    ]  # fmt: skip
    return found


def _rates(its: Planned) -> list[Figure]:
    found = []
    for place in CORNERS:
        words, thousand = place_words(place), 1000 * its.factor
        found += [
            Figure(name=f"wear_{place}", label=f"mean wear in 1000 {its.unit}, {words}",
                   quantity=depth(its.wear.mean[place] * thousand, "mm")),
            Figure(name=f"wear_lowest_{place}", label=f"wear of the lowest spot in 1000 {its.unit}, {words}",
                   quantity=depth(its.wear.lowest[place] * thousand, "mm")),
        ]  # fmt: skip
    return found
