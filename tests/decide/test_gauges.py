"""The gauges topic: mint tables, 49 CFR 571.139, UN R30's tolerance of the bars; what a coin shows is custom."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.paths import value_at
from studio.model.quantity import depth
from studio.model.specimen import Gauge
from tests.decide.build import TABLES, TENTHS, THIRTY_SECONDS, episode, flat, four, number, reading, tire


def found(at, region="us", units="us", unit="32nds", gauge=TENTHS):
    whole = episode(tire("front_left", flat(at, unit=unit, gauge=gauge)), region=region, units=units)
    return {finding.subject: finding for finding in decide(whole, TABLES).of("gauges")}


@pytest.mark.parametrize(
    ("region", "coins"),
    [("us", ["us_cent", "us_quarter", "us_cent_memorial"]), ("us-md", ["us_cent", "us_quarter", "us_cent_memorial"]),
     ("de", ["euro_1", "euro_2"]), ("uk", ["uk_20p"]), ("ca-qc", ["ca_2d"]), ("jp", []), ("zz", [])],
)  # fmt: skip
def test_each_region_has_its_own_coins_then_bars_and_gauge(region, coins):
    assert list(found(6, region)) == [*coins, "bars", "gauge"]


@pytest.mark.parametrize(
    ("at", "cent", "quarter", "memorial"),
    [(1.0, "under", "under", "under"), (2.0, "unsure", "under", "under"), (3.0, "over", "under", "under"),
     (4.0, "over", "unsure", "under"), (5.0, "over", "over", "under"), (7.0, "over", "over", "over")],
)  # fmt: skip
def test_us_coins_by_custom_2_4_and_6_32nds(at, cent, quarter, memorial):
    """Handbook, coins: cent 2/32, quarter 4/32, old memorial reverse 6/32; common practice. Doubt 0.25 mm = 0.31/32."""
    its = found(at)
    shown = [its[coin].word("shows") for coin in ("us_cent", "us_quarter", "us_cent_memorial")]
    assert shown == [cent, quarter, memorial]
    for coin in ("us_cent", "us_quarter", "us_cent_memorial"):
        assert its[coin].verdict is None and its[coin].sources[0].standing == "common practice"
        assert its[coin].caution and "No mint publishes" in " ".join(its[coin].working)


def test_the_sentences_say_what_one_sees():
    its = found(4, gauge=THIRTY_SECONDS)
    assert its["us_cent"].sentence == (
        "US cent, front left at 4/32 in (3.2 mm): the top of the head is covered, so more than 2/32 in."
    )
    assert its["us_quarter"].sentence == (
        "US quarter, front left at 4/32 in (3.2 mm): too close to the coin's 4/32 in to call."
    )
    assert found(1)["us_cent"].sentence.endswith(": the top of the head shows, so 2/32 in or less.")


@pytest.mark.parametrize(
    ("at_mm", "one", "two"), [(2.5, "under", "under"), (3.0, "unsure", "under"), (3.5, "over", "under"),
                              (4.1, "over", "unsure"), (5.0, "over", "over")],
)  # fmt: skip
def test_euro_coins_3_and_4_mm(at_mm, one, two):
    """Handbook, coins: 1 euro 3 mm (common practice), 2 euro 4 mm (from memory)."""
    its = found(at_mm, "de", "metric", "mm")
    assert (its["euro_1"].word("shows"), its["euro_2"].word("shows")) == (one, two)
    assert its["euro_2"].word("standing") == "from memory"


@pytest.mark.parametrize(
    ("at_mm", "shows"), [(1.2, "under"), (1.6, "unsure"), (2.5, "between"), (3.0, "unsure"), (3.5, "over")]
)
def test_the_20_pence_is_cautious_as_its_band_is_wider_than_the_limit(at_mm, shows):
    """Handbook: outer band hidden above 1.6 mm, yet the band is nearer 3 mm and shows on a legal tread."""
    finding = found(at_mm, "uk", "metric", "mm")["uk_20p"]
    assert finding.word("shows") == shows and number(finding, "shown_to") == 3
    if shows == "between":
        assert finding.sentence == (
            "UK 20 pence, front left at 2.5 mm (3.1/32 in): over its 1.6 mm, yet the outer band shows."
        )


@pytest.mark.parametrize(
    ("coin", "region", "diameter", "thickness", "standing"),
    [("us_cent", "us", 19.05, 1.52, "published"), ("us_quarter", "us", 24.26, 1.75, "published"),
     ("euro_1", "fr", 23.25, 2.33, "published"), ("euro_2", "fr", 25.75, 2.20, "published"),
     ("uk_20p", "uk", 21.4, 1.7, "published, restated"), ("ca_2d", "ca", 28, 1.75, "published")],
)  # fmt: skip
def test_mint_dimensions(coin, region, diameter, thickness, standing):
    """US Mint table; Regulation (EU) 729/2014; Royal Canadian Mint; UK restated (handbook rows E203-E210)."""
    finding = found(6, region)[coin]
    assert (number(finding, "coin_diameter"), number(finding, "coin_thickness")) == (diameter, thickness)
    assert standing in {source.standing for source in finding.sources}


def test_newer_us_coins_are_warned_of_and_only_there():
    assert "quarters of 2022 to 2025" in " ".join(found(6)["us_quarter"].working).lower()
    assert "2022" not in " ".join(found(6, "de")["euro_1"].working)


@pytest.mark.parametrize(
    ("at_mm", "shows", "words"),
    [(1.3, "under", "down to them"), (1.6, "unsure", "perhaps level"), (2.2, "unsure", "perhaps level"),
     (2.4, "unsure", "perhaps level"), (2.5, "over", "stands about 0.9 mm above them"), (8.0, "over", "6.4 mm")],
)  # fmt: skip
def test_bars_of_1_6_mm_that_may_stand_2_2_mm_high(at_mm, shows, words):
    """49 CFR 571.139 S5.4: 1.6 mm; UN R30 in the French order: tolerance +0.60 / -0.00 mm."""
    finding = found(at_mm, "de", "metric", "mm")["bars"]
    assert finding.word("shows") == shows and words in finding.sentence
    assert (finding.limit, number(finding, "shown_to")) == (1.6, pytest.approx(2.2))
    assert {"49 CFR 571.139", "UN Regulation No. 30"} <= {source.title for source in finding.sources}


@pytest.mark.parametrize(("step", "half_mm"), [(depth(1, "32nds"), 0.596875), (depth(0.1, "mm"), 0.25)])
def test_how_sure_the_gauge_is(step, half_mm):
    """Half a step, and 0.2 mm by hand (common practice)."""
    finding = found(4, gauge=Gauge(name="dial", resolution=step))["gauge"]
    assert number(finding, "doubt") == pytest.approx(half_mm / 0.79375)
    assert ("In steps of" in " ".join(finding.would_change)) is (step.unit == "32nds")


def test_2_32_in_and_1_6_mm_are_not_told_apart_by_anything_here():
    """1 in = 25.4 mm exactly (NIST SP 811): 2/32 in is 1.5875 mm."""
    for finding in found(3).values():
        assert "2/32 in is 1.588 mm, 0.013 mm from 1.6 mm" in finding.working[-1]


def test_the_lowest_tire_on_the_car_governs_and_the_bench_only_without_one():
    on_car = (*four((8, 7, 5, 6)), tire("bench", flat(3), id="old"), tire("spare", flat(2), id="little"))
    whole = episode(*on_car)
    assert "rear left at 5/32 in" in decide(whole, TABLES).get("gauges.us_cent").sentence
    bench = episode(*on_car[4:5])
    assert "the lowest tire at 3/32 in" in decide(bench, TABLES).get("gauges.us_cent").sentence
    assert not decide(episode(tire("front_left")), TABLES).of("gauges")


@pytest.mark.parametrize("at", [1.0, 3.0, 4.4, 7.0])
def test_what_would_change_it_does(at):
    finding = found(at)["us_quarter"]
    less = finding.margin > 0
    assert ("less tread the top of the head shows" in finding.would_change[0]) is less
    moved = found(at - finding.margin + (-0.6 if less else 0.6))["us_quarter"]
    assert moved.word("shows") == ("under" if less else "over")


@given(
    at=st.floats(0, 12), region=st.sampled_from([*TABLES.regions, "zz"]), units=st.sampled_from(["us", "metric"]),
    place=st.sampled_from(["front_left", "bench"]), gauge=st.sampled_from([TENTHS, THIRTY_SECONDS]),
)  # fmt: skip
def test_every_finding_is_complete_and_more_tread_never_shows_less(at, region, units, place, gauge):
    order = ["under", "unsure", "between", "over"]
    shown = []
    for value in (at, at + 2):
        whole = episode(tire(place, reading(((value, value + 1),), gauge=gauge), name="n" * 60, id="it"), region=region)
        whole = msgspec.structs.replace(whole, units=units)
        findings = decide(whole, TABLES).of("gauges")
        for finding in findings:
            assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 111
            assert all(value_at(whole, path) is not None for path in finding.inputs if path != "region")
        shown.append([order.index(f.word("shows")) for f in findings if f.word("shows")])
    assert all(less <= more for less, more in zip(*shown, strict=True))
