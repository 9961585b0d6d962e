"""The words of the life topic."""

from studio.decide.life_fit import LITTLE
from studio.decide.life_read import Life, Part, Reach
from studio.decide.life_working import working
from studio.decide.pace import month_words
from studio.decide.rounded import about, about_both
from studio.decide.ruled_out import RuledOut
from studio.decide.wording import counted, day_words, upper_first
from studio.model.quantity import System
from studio.reference.tables import Tables

NO_PACE = "the yearly distance, for the date"
__all__ = ["NO_PACE", "detail", "refused", "ruled_out", "sentence", "working"]


def sentence(its: Life) -> str:
    """The finding in plain speech."""
    title, legal = its.part.subject.title, its.legal
    if its.done:
        return f"{title} has no distance left: it is at or under the legal minimum."
    if (ends := its.age_ends_it) and its.aged:
        years = f"{its.aged.deciding[-1].from_years or 0:g} years"
        return f"{title} reaches the age advice of {years} in {month_words(ends)}, with tread left."
    units = its.part.audience.units
    if its.far_from_sure:
        until = month_words(its.day(legal.low))
        end = f", legal until {until} or later" if until else " to the legal minimum"
        return f"{title} has at least {about_both(legal.low, its.unit, units)} left{end}."
    until = month_words(its.day(legal.left))
    end = f", legal until about {until}" if until else " to the legal minimum"
    return f"{title} has about {about_both(legal.left, its.unit, units)} left{end}."


def ruled_out(part: Part, out: RuledOut) -> str:
    """The sentence on a tire that its damage or its age speaks against."""
    if out.verdict == "replace":
        return f"{part.subject.title} {out.words}: replace it, however far its tread would go."
    return f"{part.subject.title} {out.words}: no distance is left to it until it was looked at."


def refused(part: Part, missing: str, tables: Tables) -> tuple[str, ...]:
    """Why no rate is projected."""
    least = tables.measuring["projection_least_wear_mm"]
    lines = [f"{counted(len(part.history), 'reading')} of depth on record; needed: {missing}"]
    lines += [
        f"{day_words(tread.reading.on)}: lowest {part.audience.both(tread.depth(tread.lowest.value))}"
        for tread in (part.history if missing == LITTLE else ())
    ]
    lines.append(f"{upper_first(least.means)}: {least.value:g} {least.unit}, and more than the gauge's own doubt")
    return (*lines, *map(upper_first, part.way.assumed))


def detail(its: Life) -> tuple[tuple[str, str], ...]:
    """Words that a chart needs."""
    pace = its.part.pace
    pairs = [
        ("distance_unit", its.unit), ("readings", str(len(its.shown.points))),
        ("band", "open" if its.legal.high is None else "closed"), ("groove", its.shown.name),
        ("sure", "" if its.far_from_sure else "yes"), ("yearly_from", pace.words if pace else ""),
        ("age_ends_it", month_words(its.age_ends_it)),
        *((f"read_on_{n}", day_words(point.tread.reading.on)) for n, point in enumerate(its.shown.points, start=1)),
        *(pair for reach in (its.legal, *its.others) for pair in _about(reach, its)),
    ]  # fmt: skip
    return tuple((name, text) for name, text in pairs if text)


def _about(reach: Reach, its: Life) -> tuple[tuple[str, str], ...]:
    """The distance to a mark as it may be said: rounded, in both systems, with its band; and its date."""
    name, high, units = reach.mark.name, reach.high, its.part.audience.units
    other: System = "metric" if units == "us" else "us"
    band = f"at least {about(reach.low, its.unit, units).text()}"
    if high is not None:
        band = f"{about(reach.low, its.unit, units).number()}–{about(high, its.unit, units).text()}"
    return (
        (f"about.{name}", about(reach.left, its.unit, units).text()),
        (f"about_number.{name}", about(reach.left, its.unit, units).number()),
        (f"about_unit.{name}", about(reach.left, its.unit, units).unit),
        (f"about_other.{name}", about(reach.left, its.unit, other).text()),
        (f"about_band.{name}", band),
        (f"until.{name}", month_words(its.day(reach.left)) if reach.left > 0 else ""),
        (f"until_band.{name}", _until(reach, its) if reach.left > 0 else ""),
    )


def _until(reach: Reach, its: Life) -> str:
    """The months between which a mark is reached."""
    first, last = month_words(its.day(reach.low)), month_words(its.day(reach.high))
    if not first or first == last:
        return first
    return f"{first} to {last}" if last else f"{first} or later"
