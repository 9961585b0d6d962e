"""The words of the matching topic."""

from studio.decide.alike import Unlike
from studio.decide.gauge import fine
from studio.decide.matching_limits import Form, Held
from studio.decide.matching_read import Match, Part
from studio.decide.wording import joined, on_paper, upper_first
from studio.model.finding import Step, summed
from studio.model.places import place_words
from studio.model.quantity import MINUS, Quantity, depth, length

_OF: dict[Form, str] = {
    "depth": "of tread", "tape": "of circumference", "percent": "of circumference", "diameter_percent": "of diameter",
}  # fmt: skip
_BY_TAPE = "Circumference by tape"


def missing(part: Part) -> tuple[str, ...]:
    """What keeps the tires from being compared, or their limit from being known."""
    read = {worn.subject.name: worn.tread is not None for worn in part.tires}
    found = [f"a depth reading, {place_words(place)}" for place in part.places if not read.get(place)]
    return (*found, *(("the drivetrain",) if part.drivetrain is None else ()))


def unread(part: Part, differs: Unlike) -> str:
    """The sentence on tires that cannot be compared yet."""
    if differs.verdict == "inspect":
        return f"{part.title} are not alike: they differ in {differs.brief}. Have it looked at."
    read = {worn.subject.name for worn in part.tires if worn.tread is not None}
    absent = [place_words(place) for place in part.places if place not in read]
    return f"{part.title} cannot be compared yet: no reading of {joined(absent)}."


def sentence(match: Match) -> str:
    """The finding in plain speech."""
    return _sentence(match, match.part.title)


def unplaced(match: Match) -> str:
    """The same of two tires whose axle nobody named; empty of the whole set."""
    return "" if match.part.scope == "set" else _sentence(match, "Side by side on one axle the two")


def _sentence(match: Match, title: str) -> str:
    binding = match.binding
    if match.unlike_rules:
        end = "They should be alike." if match.unlike.verdict == "watch" else "Have it looked at."
        return f"{title} are not alike: they differ in {match.unlike.brief}. {end}"
    if match.wants_rotation and match.axles_apart is not None:
        return f"Front and rear are {match.part.audience.both(match.axles_apart)} apart: time to rotate."
    if binding is None:
        apart = match.part.audience.both(depth(match.compared.depth_mm, "mm"))
        only = "on two-wheel drive only each axle must match"
        known = only if match.part.drivetrain else "the limit depends on the drivetrain"
        return f"{title} are up to {apart} apart; {known}."
    return _held_sentence(match, title, binding)


def _held_sentence(match: Match, title: str, held: Held) -> str:
    audience = match.part.audience
    actual, limit, of = held.actual_quantity, audience.own(held.limit.limit), _OF[held.limit.form]
    if held.limit.level in ("note", "act"):
        if held.verdict == "keep":
            return f"{title} match: {audience.both(actual)} {of} apart; shops take note from {limit}."
        what = "where shops take note" if held.verdict == "watch" else "where shops act"
        return f"{title} are {audience.both(actual)} {of} apart; {limit} is {what}."
    if held.over:
        end = ". Too close to call; counts as over." if held.close else "."
        return f"{title} are {audience.own(actual)} {of} apart, over {held.limit.whose} {limit}{end}"
    if held.close:
        ends = f"{held.limit.whose} limit is {limit}. Too close to call."
        return f"{title} are {audience.own(actual)} {of} apart; {ends}"
    return f"{title} match: {audience.both(actual)} {of} apart; {held.limit.whose} limit is {limit}."


def working(match: Match) -> tuple[str | Step, ...]:
    """The steps from the readings to the verdict."""
    its, audience = match.compared, match.part.audience
    large, small = (depth(tire.mean_mm, "mm") for tire in (its.deepest, its.shallowest))
    apart = depth(its.depth_mm, "mm")
    lines: list[str | Step] = [
        *(f"Mean depth {t.worn.subject.words}: {fine(depth(t.mean_mm, 'mm'), audience)}" for t in its.tires),
        summed(
            "Mean depths are compared, as a tire rolls on its whole tread",
            f"{on_paper(large)} {MINUS} {on_paper(small)} = {on_paper(apart)} ({apart.to('32nds').text()})", "compared",
        ),
        f"Lowest readings: {audience.both(depth(its.lowest_mm, 'mm'))} apart",
        f"Doubt of a difference, root of the sum of squares: ±{fine(depth(its.doubt_mm, 'mm'), audience)}",
        *([its.assumed] if its.assumed else []),
        *_circumference_lines(match),
        *_limit_lines(match),
        *_axle_lines(match),
    ]
    return (*lines, *unlike_lines(match.unlike))


def _circumference_lines(match: Match) -> list[str | Step]:
    its, tape = match.compared, match.part.audience.both(length(match.compared.tape_mm))
    if its.diameters_mm is None or its.circumferences_mm is None or its.percent is None:
        return [summed(_BY_TAPE, f"2π × {on_paper(depth(its.depth_mm, 'mm'))} = {tape}", "tape")]
    small, large = (length(value) for value in its.diameters_mm)
    less, more = (length(value) for value in its.circumferences_mm)
    turns = Quantity(its.turns_a_mile or 0.0, "rev/mi")
    return [
        f"Worn diameters: {on_paper(large)} and {on_paper(small)}",
        summed(_BY_TAPE, f"π × ({on_paper(large)} {MINUS} {on_paper(small)}) = {tape}", "tape"),
        summed(
            "Rolling circumference",
            f"{on_paper(more)} / {on_paper(less)} {MINUS} 1 = {Quantity(its.percent, '%').text()}", "rolling",
        ),
        f"So the smaller tire makes {on_paper(turns)} ({on_paper(turns.to('rev/km'))}) more",
    ]


def _limit_lines(match: Match) -> list[str]:
    lines = []
    for held in match.held:
        unit, kind = held.limit.limit.unit, held.limit.limit.kind
        actual, limit, margin = held.actual_quantity, held.limit.limit, Quantity(held.margin, unit, kind)
        binds = "; this one binds" if held is match.binding and len(match.held) > 1 else ""
        lines.append(
            f"{upper_first(held.limit.label)}: {on_paper(limit)} {MINUS} {on_paper(actual)} {_OF[held.limit.form]} = "
            f"{on_paper(margin)} left, ±{on_paper(Quantity(held.doubt, unit, kind))}{binds}"
        )
    return lines


def _axle_lines(match: Match) -> list[str]:
    if match.rotate_from is None or match.axles_apart is None:
        return []
    both = match.part.audience.both
    return [
        f"Front mean against rear mean: {both(match.axles_apart)}; rotate sooner from {both(match.rotate_from)} on "
        "(common practice)"
    ]


def unlike_lines(differs: Unlike) -> tuple[str, ...]:
    """In what the tires differ, and who asks for alike ones."""
    if not differs.fields:
        return ()
    return (f"Not alike in {differs.words}", *(f"{rule.source.title}: {rule.wording}" for rule in differs.rules))


def detail(match: Match) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    its, binding = match.compared, match.binding
    pairs = {
        "deepest": its.deepest.worn.subject.name, "shallowest": its.shallowest.worn.subject.name,
        "unlike": match.unlike.words, "assumed": its.assumed,
        "tolerance_whose": binding.limit.label if binding else "",
        "tolerance_form": _OF[binding.limit.form] if binding else "",
        "close": "too close to call with this gauge" if binding and binding.close else "", "unplaced": unplaced(match),
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
