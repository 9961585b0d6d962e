"""The words of the gauges topic."""

import math

from studio.decide.gauge import Doubt, fine
from studio.decide.gauges_read import Held, Part
from studio.decide.wording import on_paper, plain, upper_first
from studio.model.finding import Step
from studio.model.quantity import MINUS, Quantity, depth, length
from studio.reference.rows import Coin, CoinFact, Rule
from studio.reference.tables import Tables


def coin_sentence(held: Held, coin: Coin, test: CoinFact) -> str:
    """What the coin shows at the governing reading."""
    own, start = held.part.audience.own, f"{coin.name}, {held.part.at}"
    if held.shows == "over":
        return f"{start}: {test.over}, so more than {own(held.high)}."
    if held.shows == "under":
        return f"{start}: {test.under}, so {own(held.low)} or less."
    if held.shows == "between":
        return f"{start}: over its {own(held.low)}, yet {test.under}."
    return f"{start}: too close to the coin's {own(held.low)} to call."


def bars_sentence(held: Held) -> str:
    """How the tread stands to its wear bars."""
    own, start = held.part.audience.own, f"Wear bars, {held.part.at}"
    if held.shows == "over":
        return f"{start}: the tread stands about {own(held.above)} above them."
    if held.shows == "under":
        return f"{start}: the tread is down to them."
    return f"{start}: perhaps level with them, {own(held.low)} to {own(held.high)} high."


def gauge_sentence(part: Part, sure: Doubt) -> str:
    """How sure a reading with this gauge is."""
    name = plain(part.tread.reading.gauge.name) or "gauge"
    step = part.audience.own(part.tread.reading.gauge.resolution)
    return f"The {name} in steps of {step}: by hand a reading is good to ±{fine(sure.half_width, part.audience)}."


def reading_line(part: Part) -> str:
    """Which reading governs."""
    where = f"{part.subject.words}, {part.tread.spot_words(part.tread.lowest)}"
    of = "the tires on the car" if part.on_car else "all tires"
    return f"Lowest reading of {of}: {where}, {part.audience.both(part.depth)}"


def band_line(part: Part, sure: Doubt) -> str:
    """What the reading may be in truth."""
    read, half = part.depth.to("mm").value, sure.half_width.to("mm").value
    low, high = (fine(depth(max(0.0, mm), "mm"), part.audience) for mm in (read - half, read + half))
    return f"So the tread there is between {low} and {high}"


def coin_working(held: Held, coin: Coin, test: CoinFact, tables: Tables) -> tuple[str | Step, ...]:
    """From the reading to what the coin shows, and how far that can be trusted."""
    part, audience = held.part, held.part.audience
    far = coin.test_most
    most = [f"{upper_first(far.wording)}: {audience.both(far.depth)} ({far.source.standing})"] if far else []
    return (
        reading_line(part), held.doubt.working(audience), band_line(part, held.doubt),
        f"Custom ({test.source.standing}): {test.wording}: {audience.both(test.depth)}", *most,
        f"Above the coin's depth: {on_paper(part.depth.to('mm'))} {MINUS} {on_paper(held.low.to('mm'))} = "
        f"{on_paper(held.above)}",
        *(f"{upper_first(row.wording)} ({row.source.standing})" for row in coin_rules(part, tables)),
        f"{coin.name}: {on_paper(_length(coin.thickness))} thick, {on_paper(_length(coin.diameter))} across",
        same_line(tables),
    )  # fmt: skip


def _length(fact: CoinFact) -> Quantity:
    return length(fact.value, fact.unit)


def coin_rules(part: Part, tables: Tables) -> tuple[Rule, ...]:
    """What holds of every coin, and of the region's own."""
    known = tables.rules_in(tables.gauges, part.audience.region) if part.audience.region in tables.regions else ()
    return tuple(row for row in known if row.id in ("no_mint_figure", "new_designs", "wide_groove"))


def same_line(tables: Tables) -> str:
    """Why nothing here tells the US figure from the metric one."""
    inch, metric = tables.tread_minimum["us_car"].depth, depth(tables.measuring["indicator_height_mm"].value, "mm")
    apart = depth(metric.value - inch.to("mm").value, "mm")
    return (
        f"{inch.text()} is {on_paper(inch.to('mm'))}, {on_paper(apart)} from {metric.text()}: no coin, no bar and no "
        "gauge held by hand tells the two apart"
    )


def bars_working(held: Held, tables: Tables) -> tuple[str | Step, ...]:
    """From the reading to the bars, and how high these may be."""
    part, audience, measuring = held.part, held.part.audience, tables.measuring
    height, over = measuring["indicator_height_mm"], measuring["indicator_over_mm"]
    return (
        reading_line(part), held.doubt.working(audience), band_line(part, held.doubt),
        f"{upper_first(height.means)}: {audience.both(held.low)} ({height.source.title})",
        f"{upper_first(over.means)}: {on_paper(depth(over.value, 'mm'))}, so up to {audience.both(held.high)} "
        f"({over.source.title})",
        f"Above bars of the lower height: {on_paper(part.depth.to('mm'))} {MINUS} {on_paper(held.low)} = "
        f"{on_paper(held.above)}",
        f"{upper_first(tables.gauges['where_bars_are'].wording)} ({tables.gauges['where_bars_are'].source.standing})",
        same_line(tables),
    )  # fmt: skip


def gauge_working(part: Part, sure: Doubt, tables: Tables) -> tuple[str | Step, ...]:
    """From the gauge's step to what a reading is worth."""
    apart = depth(math.hypot(sure.half_width.value, sure.half_width.value), "mm")
    rows = (tables.gauges[name] for name in ("where_to_read", "foot_flat"))
    return (
        sure.working(part.audience), reading_line(part), band_line(part, sure),
        f"Two readings less than {fine(apart, part.audience)} apart may be of one depth",
        *(f"Read {row.wording} ({row.source.standing})" for row in rows), same_line(tables),
    )  # fmt: skip


def change(held: Held, over: str, under: str) -> tuple[str, ...]:
    """How much more or less tread the other side begins at."""
    amount = Quantity(abs(held.above.value), "mm", "depth")
    less = held.above.value > 0
    words = under if less else over
    return (f"With {fine(amount, held.part.audience)} {'less' if less else 'more'} tread {words}.",)
