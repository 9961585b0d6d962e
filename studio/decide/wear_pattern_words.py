"""The words of the wear pattern topic."""

from studio.decide.gauge import fine
from studio.decide.wear_pattern_read import Part, Uneven, Wear, in_mm
from studio.decide.wording import counted, day_words, joined, on_paper, upper_first
from studio.model.finding import Step
from studio.model.places import place_words
from studio.model.quantity import MINUS, depth
from studio.reference.tables import Tables

NOTHING_MM = 0.05
"""Less than a gauge's step: two grooves that read alike."""
BY_HAND = ("feathering", "heel_and_toe", "diagonal_wipe")
"""What a gauge in a groove does not show."""


def unread(part: Part) -> str:
    """The sentence on a tire that was not read, or in one groove only."""
    if not part.history:
        return f"{part.subject.title} has no depth reading yet."
    return f"{part.subject.title}: how it wears shows only across the tread, outer to inner groove."


def where(its: Wear, uneven: Uneven) -> str:
    """``inner groove``, ``outer and inner grooves``, ``place 2 of the inner groove``."""
    names = [its.tread.groove_name(groove) for groove in uneven.grooves]
    groove = f"{joined(names)} groove{'s' if len(names) > 1 else ''}"
    return groove if uneven.station is None else f"place {uneven.station + 1} of the {groove}"


def sentence(its: Wear) -> str:
    """The finding in plain speech."""
    title, uneven = its.part.subject.title, its.deciding
    if uneven is None or its.verdict == "unknown":
        return unread(its.part)
    amount, name = its.part.audience.both(depth(uneven.amount_mm, "mm")), uneven.row.name.split(",")[0]
    if uneven.verdict == "keep":
        return _even(its, uneven)
    if its.unsure:
        return f"{title}: {name} of {amount}? Too close to call with this gauge."
    now = " now" if uneven.verdict == "inspect" else ""
    return f"{title}: {name} of {amount}. Have {uneven.row.brief} checked{now}."


def _even(its: Wear, uneven: Uneven) -> str:
    title, audience, amount = its.part.subject.title, its.part.audience, depth(uneven.amount_mm, "mm")
    if uneven.amount_mm < NOTHING_MM:
        return f"{title} wears evenly: its grooves read alike."
    if uneven.amount_mm <= its.limits.doubt_mm:
        return f"{title} wears evenly, to within {audience.both(amount)}, as far as this gauge can tell."
    note, odd = audience.own(its.limits.report), "apart" if uneven.row.id == "one_groove" else "low"
    return f"{title} wears evenly enough: {where(its, uneven)} {audience.own(amount)} {odd}; uneven from {note} on."


def working(its: Wear, tables: Tables) -> tuple[str | Step, ...]:
    """The steps from the readings to the pattern, then its causes and what to check."""
    audience = its.part.audience
    return (
        f"{counted(len(its.tread.spots), 'reading')} on {day_words(its.tread.reading.on)}",
        *_across_lines(its), *_round_lines(its),
        f"Reported from {audience.both(its.limits.report)}, urgent from {audience.both(its.limits.urgent)}"
        f" ({tables.measuring['uneven_report_32nds'].source.standing})",
        its.doubt.working(audience),
        f"Doubt of a difference, root of the sum of squares: ±{fine(depth(its.limits.doubt_mm, 'mm'), audience)}",
        *(line for uneven in its.uneven if uneven.verdict != "keep" for line in _found_lines(its, uneven)),
        *_pressure_lines(its), *_before_lines(its), _by_hand(tables),
    )  # fmt: skip


def _across_lines(its: Wear) -> list[str]:
    audience = its.part.audience
    levels = joined([
        f"{its.tread.groove_name(groove)} {fine(depth(mm, 'mm'), audience)}"
        for groove, mm in enumerate(its.levels)
        if mm is not None
    ])  # fmt: skip
    lines = [f"Level of each groove, median round the tire without a low stretch: {levels}"]
    if its.three is None:
        return lines
    new = "Each groove held against its own depth when new, as read then" if its.new else (
        "Assumed: all grooves were equally deep when new"
    )  # fmt: skip
    parts = zip(("outer", "center", "inner"), (its.three.outer, its.three.center, its.three.inner), strict=True)
    three = joined([f"{name} {on_paper(depth(mm, 'mm'))}" for name, mm in parts if mm is not None])
    high, low = (depth(pick(its.three.parts), "mm") for pick in (max, min))
    spread = depth(its.three.spread, "mm")
    return [
        *lines, new,
        f"Across: {three}; {on_paper(high)} {MINUS} {on_paper(low)} = {on_paper(spread)} ({spread.to('32nds').text()})",
    ]  # fmt: skip


def _round_lines(its: Wear) -> list[str]:
    round_ = next((it for it in its.uneven if it.direction == "round"), None)
    if round_ is None:
        return []
    read = [mm for mm in in_mm(its.tread)[round_.grooves[0]] if mm is not None]
    high, low, drop = (depth(mm, "mm") for mm in (max(read), min(read), round_.amount_mm))
    groove = its.tread.groove_name(round_.grooves[0])
    sum_ = f"{on_paper(high)} {MINUS} {on_paper(low)} = {on_paper(drop)} ({drop.to('32nds').text()})"
    return [f"Round the tire, largest drop in the {groove} groove: {sum_}"]


def _found_lines(its: Wear, uneven: Uneven) -> list[str]:
    sure, row = "too close to call, " if its.limits.unsure(uneven.amount_mm) else "", uneven.row
    return [
        f"Nearest usual pattern, {sure}seen at the {where(its, uneven)}: {row.name} ({row.source.standing})",
        f"Usual causes: {uneven.row.cause}",
        f"What to check: {uneven.row.check}",
        f"Who must look: {uneven.row.look}",
        "Uneven wear never repairs itself; rotation only spreads it",
    ]


def _pressure_lines(its: Wear) -> list[str]:
    """A cold pressure off the placard's is the first thing to look at where shoulders or center are low."""
    pressure = its.part.pressure
    if pressure is None or not its.speaks_of_pressure:
        return []
    audience = its.part.audience
    apart = pressure.read.to(pressure.placard.unit).value - pressure.placard.value
    how = "at" if abs(apart) < 1e-9 else "over" if apart > 0 else "under"
    return [f"Last cold pressure {audience.both(pressure.read)}: {how} the placard's {audience.both(pressure.placard)}"]


def _before_lines(its: Wear) -> list[str]:
    here = its.tread.reading.place
    before = dict.fromkeys(held.reading.place for held in its.part.history if held.reading.place != here)
    if not before or all(uneven.verdict == "keep" for uneven in its.uneven):
        return []
    return [f"Read before at: {joined([place_words(place) for place in before])}; the cause may lie there"]


def _by_hand(tables: Tables) -> str:
    names = joined([tables.wear_patterns[id_].name for id_ in BY_HAND], "or")
    return f"A gauge in the grooves does not show {names}: feel across the ribs by hand, the car standing still"


def missing(its: Wear, tables: Tables) -> tuple[str, ...]:
    """What a full picture of the wear still needs."""
    grooves, stations = (round(tables.measuring[f"{name}_diagnosis"].value) for name in ("grooves", "stations"))
    read = {spot.groove for spot in its.tread.spots}
    places = max(len({spot.station for spot in its.tread.spots if spot.groove == groove}) for groove in read)
    found = [] if its.three else ["readings of the outer and the inner groove"]
    if its.three and len(read) < grooves:
        found.append("a reading of a center groove")
    return (*found, *(() if places >= stations else (f"readings at {stations} places round the tire",)))


def detail(its: Wear) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    uneven = its.deciding
    if uneven is None:
        return ()
    even = uneven.verdict == "keep"
    pairs = {
        "pattern": "even" if even else uneven.row.id, "name": "even wear" if even else uneven.row.name,
        "direction": uneven.direction, "lowest_at": where(its, uneven),
        "cause": "" if even else uneven.row.cause, "check": "" if even else uneven.row.check,
        "look": "" if even else uneven.row.look, "close": "too close to call with this gauge" if its.unsure else "",
        "also": joined([it.row.name for it in its.uneven[1:] if it.verdict != "keep"]),
        "standing": uneven.row.source.standing, "read_on": day_words(its.tread.reading.on),
    }  # fmt: skip
    return tuple((name, upper_first(text) if name == "lowest_at" else text) for name, text in pairs.items() if text)
