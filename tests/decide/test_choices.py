"""Keep or buy: match, outlay, tread and distance worked by hand, published limits, and what the findings promise."""

import datetime as dt

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from studio.decide import decide
from studio.decide.money import amount
from studio.model.car import Car, Tolerance
from studio.model.circumstances import Circumstances, Prices
from studio.model.finding import SEVERITY
from studio.model.paths import value_at
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Gauge
from tests.decide.build import TABLES, damage, episode, flat, number, tire

FINE = Gauge(resolution=depth(0.01, "mm"))
PRICES = Prices(
    currency="EUR", new_tire=100.0, used_tire=40.0, used_tire_depth=depth(5.6, "mm"), mounting=20.0, shaving=25.0
)
KINDS = ("keep", "one", "pair", "four", "shaved", "used_pair")
RATES = (0.1, 0.1, 0.05, 0.05)


def worn(place, now, rate, *, km=20.0, **more):
    """A tire that stood at its place for so many thousand km, worn to ``now`` mm at ``rate`` mm per 1000 km."""
    more.setdefault("depth_new", depth(8, "mm"))
    readings = [
        flat(value, unit="mm", gauge=FINE, place=place, on=on, odometer=Quantity(at, "km"))
        for value, on, at in (
            (now + rate * km, dt.date(2025, 1, 10), 1000.0), (now, dt.date(2026, 1, 10), 1000.0 + 1000 * km)
        )
    ]  # fmt: skip
    return replace(tire(place, **more), readings=tuple(readings))


def car(now, rates=RATES, *, prices=PRICES, drive="front", tolerance=None, region="de", units="metric", **more):
    tires = [worn(p, d, r, **more) for p, d, r in zip(CORNERS, now, rates, strict=True)]
    around = Circumstances(yearly_distance=Quantity(10_000, "km"))
    return episode(
        *tires, car=Car(drivetrain=drive, tolerance=tolerance), prices=prices, circumstances=around, region=region,
        units=units,
    )  # fmt: skip


def choices(whole):
    return {finding.subject: finding for finding in decide(whole, TABLES).of("choices")}


def test_each_choice_has_one_finding_and_none_is_ranked():
    found = choices(car((2.6, 2.6, 5.6, 5.6)))
    assert tuple(found) == KINDS
    assert [f"choices.{kind}" for kind in KINDS] == [finding.id for finding in found.values()]


def test_a_new_pair_worked_by_hand():
    """Front worn to 2.6 mm: new ones at the rear, today's rear tires at the front.

    Outlay 2 x (100 + 20) = 240. Bought 2 x (8 - 1.6) = 12.8 mm, given up 2 x 1.0 mm. A tire going round loses
    (0.1 + 0.1 + 0.05 + 0.05) / 4 = 0.075 mm per 1000 km, so one lasts 6.4 / 0.075 = 85,333 km: 120 / 85.33 = 1.40625.
    Next purchase: 5.6 mm at the front, (5.6 - 1.6) / 0.1 = 40,000 km, 240 / 40 = 6.00 per 1000 km until then.
    """
    finding = choices(car((2.6, 2.6, 5.6, 5.6)))["pair"]
    assert finding.word("off") == "front_left,front_right"
    assert {finding.word(f"at.{place}") for place in AXLES["rear"]} == {"new"}
    assert (finding.value, finding.unit, finding.verdict) == (240, "money", None)
    assert finding.word("state") == "keep" and not finding.word("ruled_out")
    assert number(finding, "tread_bought") == pytest.approx(12.8)
    assert number(finding, "tread_given_up") == pytest.approx(2.0)
    assert number(finding, "cost_per_1000") == pytest.approx(120 / (6.4 / 0.075))
    assert number(finding, "next") == pytest.approx(40_000) and finding.word("next.until") == "Jan 2030"
    assert number(finding, "cost_until_next") == pytest.approx(6.0)
    assert finding.sentence == "A new pair at the rear: 240.00 EUR, next purchase in about 40,000 km (24,900 mi)."


def test_every_other_choice_worked_by_hand():
    """The same car: keep 1.0 / 0.1 = 10,000 km; four 6.4 / 0.1 = 64,000 km; used 2 x 60, 4.0 mm each."""
    found = choices(car((2.6, 2.6, 5.6, 5.6)))
    assert {kind: f.value for kind, f in found.items()} == {
        "keep": 0, "one": 120, "pair": 240, "four": 480, "shaved": 145, "used_pair": 120,
    }  # fmt: skip
    assert number(found["keep"], "next") == pytest.approx(10_000)
    assert number(found["four"], "next") == pytest.approx(64_000)
    assert number(found["used_pair"], "tread_bought") == pytest.approx(8.0)
    assert number(found["used_pair"], "cost_per_1000") == pytest.approx(60 / (4.0 / 0.075))
    assert number(found["shaved"], "tread_bought") == pytest.approx(1.0)  # shaved to its mate's 2.6 mm
    assert number(found["shaved"], "cost_per_1000") == pytest.approx(145 / (1.0 / 0.075))
    assert found["keep"].figure("cost_per_1000") is None


def test_a_used_tire_is_even_with_a_new_one_at_the_price_that_is_said():
    """(100 + 20) x 4.0 / 6.4 - 20 = 55: at that price both cost the same per distance."""
    finding = choices(car((2.6, 2.6, 5.6, 5.6)))["used_pair"]
    assert any(line.startswith("At 55.00 EUR a tire") for line in finding.would_change)
    even = car((2.6, 2.6, 5.6, 5.6), prices=replace(PRICES, used_tire=55.0))
    found = choices(even)
    assert number(found["used_pair"], "cost_per_1000") == pytest.approx(number(found["pair"], "cost_per_1000"))


def test_one_new_tire_beside_a_worn_one_is_held_against_what_shops_take():
    """Common practice: note from 2/32 in, act from 3/32 in on an axle; here 8.0 against 5.0 mm, 3.8/32 in."""
    finding = choices(car((2.6, 5.0, 5.0, 5.0)))["one"]
    assert finding.word("state") == "inspect" and "shops act" in finding.sentence
    assert number(finding, "apart_rear") == pytest.approx(3.0) and number(finding, "apart_front") == 0
    assert finding.word("off") == "front_left"


def test_the_french_five_millimeters_rule_out_one_new_tire():
    """French order of 29 July 1970 on tires, art. 9.3: at most 5 mm between the tires of an axle."""
    here = ((2.4, 2.6, 2.6, 2.6), (0.1,) * 4)
    assert choices(car(*here, region="fr"))["one"].word("state") == "replace"
    assert choices(car(*here, region="de"))["one"].word("state") == "inspect"
    assert "over the legal 5.0 mm" in choices(car(*here, region="fr"))["one"].sentence


def test_all_wheel_drive_binds_the_whole_set():
    """A maker's tolerance of 1/4 in of circumference is 1.01 mm of tread (row E128): 3.0 mm is over, 0.6 mm is not."""
    limit = Tolerance(form="circumference", limit=length(0.25, "in"))
    found = choices(car((5, 5, 5, 5), (0.1,) * 4, drive="all", tolerance=limit))
    assert {kind: f.word("state") for kind, f in found.items()} == {
        "keep": "keep", "one": "replace", "pair": "replace", "four": "keep", "shaved": "keep", "used_pair": "keep",
    }  # fmt: skip
    assert "set" in found["pair"].sentence and "over the manual's" in found["pair"].sentence
    assert number(found["pair"], "limit_set") == 0.25


def test_a_tire_that_stands_out_is_shaved_where_none_must_go():
    limit = Tolerance(form="depth", limit=depth(1.5, "mm"))
    finding = choices(car((8, 5, 5.1, 5.2), (0.1,) * 4, drive="all", tolerance=limit))["shaved"]
    assert finding.word("shaved") == "front_left" and finding.word("off") == ""
    assert (finding.value, finding.word("state")) == (45, "keep")
    assert finding.sentence.startswith("Shaving front left: 45.00 EUR")
    assert number(finding, "tread_given_up") == pytest.approx(3.0)
    worn_out = choices(car((8, 1.5, 5.1, 5.2), (0.1,) * 4, drive="all", tolerance=limit))["shaved"]
    assert worn_out.word("off") == "front_right" and not worn_out.word("shaved")


def test_what_must_go_rules_out_what_leaves_it_on():
    found = choices(car((1.5, 1.6, 5.6, 5.6)))  # both at or under 1.6 mm, StVZO 36(3)
    verdicts = {kind: f.word("state") for kind, f in found.items()}
    assert found["keep"].verdict == "replace"
    assert (verdicts["keep"], verdicts["one"], verdicts["shaved"]) == ("replace",) * 3
    assert verdicts["pair"] == verdicts["four"] == "keep"
    assert found["keep"].caution == TABLES.cautions["worn_tire"].text
    assert number(found["pair"], "tread_given_up") == 0


@pytest.mark.parametrize(
    ("change", "verdict", "caution"),
    [
        (lambda s: replace(s, readings=(*s.readings[:-1], replace(s.readings[-1], damage=(damage("bulge"),)))),
         "inspect", "damage"),
        (lambda s: replace(s, date_code="1012"), "replace", "over_age"),
    ],
)  # fmt: skip
def test_damage_and_age_go_first_whatever_the_tread(change, verdict, caution):
    whole = car((6, 5, 5, 5), (0.1,) * 4)
    hurt = replace(whole, specimens=(change(whole.specimens[0]), *whole.specimens[1:]))
    found = choices(hurt)
    assert found["keep"].verdict == verdict and found["keep"].caution == TABLES.cautions[caution].text
    assert "front_left" in found["one"].word("off") and "front_left" in found["pair"].word("off").split(",")
    assert found["four"].word("state") == "keep"


def test_without_prices_match_and_tread_are_still_there():
    found = choices(car((2.6, 2.6, 5.6, 5.6), prices=Prices(used_tire_depth=depth(5.6, "mm"))))
    for kind in KINDS[1:]:
        finding = found[kind]
        assert finding.value is None and finding.missing and number(finding, "tread_bought") > 0
        assert finding.figure("apart_set") and finding.figure("next") and finding.figure("outlay") is None
    assert found["pair"].verdict == "unknown" and "not entered yet" in found["pair"].sentence
    assert found["keep"].verdict != "unknown" and found["keep"].value == 0
    assert set(found["pair"].missing) == {"the price of a new tire", "the price of mounting and balancing"}


def test_what_is_too_unequal_stays_so_without_a_price():
    limit = Tolerance(form="depth", limit=depth(1.0, "mm"))
    finding = choices(car((3, 3, 3, 3), (0.1,) * 4, drive="all", tolerance=limit, prices=Prices()))["pair"]
    assert (finding.verdict, finding.word("state"), finding.word("ruled_out")) == (None, "replace", "yes")
    assert finding.missing and "is out" in finding.sentence


def test_a_depth_that_nobody_gave_is_asked_for():
    whole = car((2.6, 2.6, 5.6, 5.6), prices=replace(PRICES, used_tire_depth=None), depth_new=None)
    found = choices(whole)
    assert found["used_pair"].missing == ("the depth of the used tires",)
    assert found["pair"].missing == found["four"].missing == ("the depth when new of the tires",)
    assert all(found[kind].verdict == "unknown" and found[kind].value is None for kind in ("pair", "four", "used_pair"))
    assert found["keep"].verdict != "unknown"


def test_what_is_bought_must_be_legal_and_should_clear_the_advice():
    """1.6 mm is the law in Germany (StVZO 36(3)); 3 mm the usual European advice for summer tires."""
    used = {
        mm: choices(car((2.6, 2.6, 5.6, 5.6), prices=replace(PRICES, used_tire_depth=depth(mm, "mm")), season="summer"))
        for mm in (1.6, 2.9, 3.1)
    }
    assert [found["used_pair"].word("state") for found in used.values()] == ["replace", "watch", "keep"]
    assert used[1.6]["used_pair"].sentence.startswith("A used pair is out: used tread of 1.6 mm is at or under")
    assert used[1.6]["used_pair"].figure("cost_per_1000") is None


def test_without_wear_only_the_distance_is_missing():
    whole = car((5, 5, 5, 5), (0.001,) * 4)
    finding = choices(whole)["four"]
    assert finding.value == 480 and finding.figure("next") is None and finding.figure("cost_per_1000") is None
    assert any("wear" in text for text in finding.missing) and "not known yet" in finding.sentence


@pytest.mark.parametrize(
    ("change", "missing"),
    [
        (lambda w: replace(w, specimens=(tire("front_left"), *w.specimens[1:])), "a depth reading, front left"),
        (lambda w: replace(w, car=replace(w.car, dual_rear_wheels=True)), "all six tires"),
    ],
)
def test_where_nothing_can_be_computed_one_finding_says_what_is_missing(change, missing):
    found = choices(change(car((5, 5, 5, 5))))
    assert tuple(found) == ("keep",) and found["keep"].verdict == "unknown"
    assert found["keep"].missing[0].startswith(missing)
    assert choices(episode(tire("front_left", flat(5)))) == {}


def test_directional_tires_stay_on_their_side_and_staggered_ones_on_their_axle():
    directional = choices(car((2.6, 2.6, 5.6, 5.6), tread="directional"))["pair"]
    moved = {p: directional.word(f"at.{p}") for p in CORNERS}
    assert moved["front_left"] == "rear_left" and moved["front_right"] == "rear_right"
    whole = car((2.6, 2.6, 5.6, 5.6))
    wide = tuple(replace(s, marking="255/55R17 98H") if s.place.startswith("rear") else s for s in whole.specimens)
    staggered = choices(replace(whole, specimens=wide))["pair"]
    assert {staggered.word(f"at.{p}") for p in AXLES["front"]} == {"new"} and staggered.word("state") == "keep"
    assert any("no tire changes its axle" in line for line in staggered.working)


def test_money_carries_its_currency():
    assert amount(348, "EUR") == "348.00 EUR" and amount(1250.5, "USD") == "1250.50 USD"
    dollars = choices(car((2.6, 2.6, 5.6, 5.6), prices=replace(PRICES, currency="USD"), units="us", region="us"))
    assert "240.00 USD" in dollars["pair"].sentence and dollars["pair"].word("currency") == "USD"
    assert dollars["pair"].figure("next").unit == "mi"
    euros = choices(car((2.6, 2.6, 5.6, 5.6)))
    assert number(dollars["four"], "next") == pytest.approx((8 - 1.5875) / 0.1 * 1000 / 1.609344)
    assert number(euros["four"], "cost_until_next") == pytest.approx(480 / 64)


depths = st.lists(st.floats(1.0, 7.9), min_size=4, max_size=4)


@settings(max_examples=40)
@given(depths, st.sampled_from(["front", "rear", "all"]), st.sampled_from(["de", "us", "fr", "sk"]), st.booleans())
def test_every_choice_is_complete_and_never_keeps_what_must_go(now, drive, region, imperial):
    whole = car(now, (0.12, 0.11, 0.06, 0.07), drive=drive, region=region, units="us" if imperial else "metric")
    law = TABLES.legal_minimum(region).depth.to("mm").value
    for kind, finding in choices(whole).items():
        assert len(finding.sentence) <= 111 and finding.working and finding.sources and finding.caution
        assert all(value_at(whole, path) is not None for path in finding.inputs)
        stays = [d for p, d in zip(CORNERS, now, strict=True) if p not in finding.word("off").split(",")]
        if any(d <= law for d in stays):
            assert finding.word("state") == "replace" and finding.word("ruled_out"), kind
        assert kind == "keep" or finding.verdict is None
        assert msgspec.json.encode(finding)
    four = choices(whole)["four"]
    assert four.word("state") == "keep" and number(four, "apart_set") == 0


@settings(max_examples=30)
@given(depths)
def test_units_never_change_a_verdict_and_swapping_left_and_right_changes_no_number(now):
    mirrored = [now[1], now[0], now[3], now[2]]
    one, two, other = (choices(car(d, units=u)) for d, u in ((now, "metric"), (now, "us"), (mirrored, "metric")))
    for kind in KINDS:
        assert one[kind].verdict == two[kind].verdict == other[kind].verdict
        assert one[kind].word("state") == two[kind].word("state") == other[kind].word("state")
        assert one[kind].value == two[kind].value == other[kind].value
        assert number(one[kind], "next") == pytest.approx(number(two[kind], "next") * 1.609344)


@settings(max_examples=30)
@given(depths, st.floats(0.05, 2))
def test_more_tread_all_round_never_makes_keeping_worse(now, more):
    less, deeper = (choices(car(d))["keep"] for d in (now, [d + more for d in now]))
    assert SEVERITY.index(deeper.verdict) <= SEVERITY.index(less.verdict)
    assert number(deeper, "next") >= number(less, "next") - 1e-6


def test_what_speaks_against_a_choice_is_said_in_few_words_too():
    """StVZO 36(3): 1.6 mm; common practice: shops act from 3/32 in on; the manual's 1/4 in of circumference."""
    assert choices(car((1.0, 5, 5, 5)))["keep"].word("reason") == "front left 1.0 mm, legal minimum 1.6 mm"
    assert choices(car((2.6, 5.0, 5.0, 5.0)))["one"].word("reason") == "rear pair 3.0 mm apart, shops act at 2.4 mm"
    limit = Tolerance(form="circumference", limit=length(0.25, "in"))
    found = choices(car((5, 5, 5, 5), (0.1,) * 4, drive="all", tolerance=limit))
    assert found["pair"].word("reason") == "set 18.8 mm apart, manual's 6.4 mm"
    assert found["four"].word("reason") == ""


def test_four_new_tires_are_alike_whatever_stands_on_the_car():
    """A winter pair in front and a summer pair behind is the very case for four new ones."""
    whole = car((2.6, 2.6, 5.6, 5.6))
    mixed = tuple(replace(s, season="winter" if s.place.startswith("front") else "summer") for s in whole.specimens)
    finding = choices(replace(whole, specimens=mixed))["four"]
    assert finding.sentence.startswith("Four new tires: 480.00 EUR") and " out" not in finding.sentence
