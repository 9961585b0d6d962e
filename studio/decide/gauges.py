"""What do a coin and the bars show? The episode's governing reading on each coin of the region, on wear bars, gauge.

What a coin shows is custom: no mint publishes the distances that it rests on. So these findings give no verdict.
"""

from collections.abc import Iterator

from studio.decide import gauges_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.gauge import doubt, fine
from studio.decide.gauges_read import Held, Part, coins_of, governing
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Gauge
from studio.reference.rows import Coin, CoinFact
from studio.reference.tables import Tables

TOPIC = "gauges"
BARS, GAUGE = "bars", "gauge"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each coin of the region, one for the wear bars, one for the gauge; none before anything was read."""
    found = governing(episode)
    if found is None:
        return
    subject, on_car, tread = found
    for name in (*(coin.id for coin in coins_of(episode.region, tables)), BARS, GAUGE):
        yield Part(audience=Audience.of(episode), name=name, subject=subject, on_car=on_car, tread=tread)


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one coin, the bars or the gauge."""
    if part.name == BARS:
        return _bars(part, tables)
    coin = tables.coins.get(part.name)
    return _gauge(part, tables) if coin is None or coin.test is None else _coin(part, coin, coin.test, tables)


def _coin(part: Part, coin: Coin, test: CoinFact, tables: Tables) -> Finding:
    high = coin.test_most or test
    held = Held(
        part=part, low=test.depth, high=high.depth, doubt=doubt(part.tread.reading.gauge, tables), coin=coin
    )  # fmt: skip
    value, rules = part.depth.to(test.unit), gauges_words.coin_rules(part, tables)
    most = (coin.test_most.source,) if coin.test_most else ()
    return Finding(
        id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name,
        sentence=gauges_words.coin_sentence(held, coin, test), value=value.value, unit=value.unit, limit=test.value,
        limit_label=f"depth of the coin, {test.source.standing}", margin=value.value - test.value,
        uncertainty=held.doubt.half_width.to(test.unit).value,
        steps=as_steps(gauges_words.coin_working(held, coin, test, tables)), inputs=_inputs(part),
        sources=unique_sources(test.source, *most, *(row.source for row in rules), coin.thickness.source,
                               coin.diameter.source, held.doubt.source),
        warning=tables.cautions["measuring"], would_change=gauges_words.change(held, test.over, test.under),
        figures=(*_figures(part, held, "depth of the coin"), *_coin_figures(coin)),
        detail=_detail(coin, test, held),
    )  # fmt: skip


def _detail(coin: Coin, test: CoinFact, held: Held) -> tuple[tuple[str, str], ...]:
    words = {"over": test.over, "under": test.under}.get(held.shows, "too close to call with this coin")
    return (
        ("coin", coin.name), ("shows", held.shows), ("words", words), ("landmark", test.landmark),
        ("over", test.over), ("under", test.under),
        ("standing", test.source.standing),
    )  # fmt: skip


def _bars(part: Part, tables: Tables) -> Finding:
    row, over = tables.measuring["indicator_height_mm"], tables.measuring["indicator_over_mm"]
    held = Held(
        part=part, low=depth(row.value, "mm"), high=depth(row.value + over.value, "mm"),
        doubt=doubt(part.tread.reading.gauge, tables),
    )  # fmt: skip
    where, value = tables.gauges["where_bars_are"], part.depth.to("mm")
    return Finding(
        id=f"{TOPIC}.{BARS}", topic=TOPIC, subject=BARS, sentence=gauges_words.bars_sentence(held), value=value.value,
        unit="mm", limit=row.value, limit_label=f"height of the wear bars, {row.source.title}",
        margin=held.above.value, uncertainty=held.doubt.half_width.value,
        steps=as_steps(gauges_words.bars_working(held, tables)), inputs=_inputs(part),
        sources=unique_sources(row.source, over.source, where.source, held.doubt.source),
        warning=tables.cautions["worn_tire" if held.shows != "over" else "measuring"],
        would_change=gauges_words.change(held, "it would stand above them", "it would be down to bars of that height"),
        figures=_figures(part, held, "height of the wear bars"), detail=(("shows", held.shows),),
    )  # fmt: skip


def _gauge(part: Part, tables: Tables) -> Finding:
    gauge, sure = part.tread.reading.gauge, doubt(part.tread.reading.gauge, tables)
    unit = part.tread.reading.unit
    rows = [tables.gauges[name] for name in ("where_to_read", "foot_flat")]
    return Finding(
        id=f"{TOPIC}.{GAUGE}", topic=TOPIC, subject=GAUGE, sentence=gauges_words.gauge_sentence(part, sure),
        value=sure.half_width.to(unit).value, unit=unit, steps=as_steps(gauges_words.gauge_working(part, sure, tables)),
        inputs=_inputs(part), sources=unique_sources(sure.source, *(row.source for row in rows)),
        warning=tables.cautions["measuring"], would_change=_finer(part, gauge, tables),
        figures=(
            Figure(name="doubt", label="half width of one reading", quantity=sure.half_width.to(unit)),
            Figure(name="step", label="smallest step of the gauge", quantity=gauge.resolution),
            Figure(name="by_hand", label="how well a hand repeats itself", quantity=depth(sure.by_hand_mm, "mm")),
            Figure(name="depth", label="lowest reading", quantity=part.depth),
        ),
    )  # fmt: skip


def _finer(part: Part, gauge: Gauge, tables: Tables) -> tuple[str, ...]:
    """What the usual fine gauge would make of it, asked of the same doubt."""
    step = depth(tables.measuring["gauge_step_mm"].value, "mm")
    if gauge.resolution.to("mm").value <= step.value:
        return ()
    finer = doubt(Gauge(resolution=step), tables).half_width
    return (f"In steps of {part.audience.both(step)} it would be good to ±{fine(finer, part.audience)}.",)


def _inputs(part: Part) -> tuple[str, ...]:
    return (part.tread.spot_path(part.tread.lowest), f"{part.tread.path}.gauge.resolution", "region")


def _figures(part: Part, held: Held, label: str) -> tuple[Figure, ...]:
    return (
        Figure(name="depth", label="lowest reading", quantity=part.depth),
        Figure(name="shown_at", label=label, quantity=held.low),
        Figure(name="shown_to", label=f"{label}, at most", quantity=held.high),
        Figure(name="above", label=f"above the {label}", quantity=held.above),
    )


def _coin_figures(coin: Coin) -> tuple[Figure, ...]:
    sizes: dict[str, Quantity] = {
        "coin_diameter": length(coin.diameter.value, coin.diameter.unit),
        "coin_thickness": length(coin.thickness.value, coin.thickness.unit),
    }
    return tuple(
        Figure(name=name, label=name.replace("coin_", "") + f" of {coin.name}", quantity=its)
        for name, its in sizes.items()
    )
