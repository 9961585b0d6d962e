"""Load and speed marks against placard and axle rating: the handbook's rows, the rules of 49 CFR, its own promises."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import ratings as topic
from studio.decide.topic import from_parts
from studio.model.car import Car, Placard, PlacardTire
from studio.model.paths import value_at
from studio.model.quantity import Quantity
from studio.model.specimen import PressureReading
from tests.decide.build import TABLES, damage, episode, flat, number, tire

DECIDE = from_parts(topic.parts, topic.conclude)
KPA = Quantity(250, "kPa")


def filled(pressure, cold=True, **more):
    return flat(8, pressure=None if pressure is None else PressureReading(pressure=pressure, cold=cold), **more)


def front(markings, pressure=KPA, placard="", asked=None, region="us", units="us", cold=True, **car):
    """Two front tires; ``markings`` is one for both or a pair, ``pressure`` what they hold."""
    pair = (markings, markings) if isinstance(markings, str) else markings
    season = car.pop("season", "all_season")
    tires = tuple(
        tire(place, filled(pressure, cold), marking=marking, season=season)
        for place, marking in zip(("front_left", "front_right"), pair, strict=True)
    )
    line = PlacardTire(marking=placard, pressure=asked)
    car.setdefault("certified_as", "passenger_car")
    return episode(*tires, region=region, units=units, car=Car(placard=Placard(front=line), **car))


def found(markings, pressure=KPA, rating=None, **more):
    axle = None if rating is None else Quantity(rating, "kg")
    (finding,) = DECIDE(front(markings, pressure, front_axle_rating=axle, **more), TABLES)
    return finding


def test_e100_two_tires_of_index_99_carry_1550_kg():
    finding = found("225/60R17 99H", rating=1250)
    assert (finding.value, finding.unit, finding.verdict) == (1550, "kg", "keep")
    assert finding.limit == 1250 and finding.margin == 300 and finding.limit_label == "front axle rating"


def test_e101_to_e103_on_an_mpv_a_passenger_tires_rating_is_divided_by_1_10():
    """49 CFR 571.110 S4.2.2.2: 704.545 kg each, 1409.091 kg together, 159.091 kg left of 1250."""
    finding = found("225/60R17 99H", rating=1250, certified_as="mpv")
    assert number(finding, "rating_each_divided") == pytest.approx(704.545, abs=0.01)
    assert finding.value == pytest.approx(1409.091, abs=0.01)
    assert finding.margin == pytest.approx(159.091, abs=0.01)
    assert any("775 kg / 1.1 = 704.545 kg" in line and "S4.2.2.2" in line for line in finding.working)
    assert "49 CFR 571.110" in [source.title for source in finding.sources]


def test_an_lt_tire_is_not_divided():
    """49 CFR 571.110 S4.2.2.2 speaks of passenger tires; LT range E at 550 kPa (from memory) carries its index."""
    finding = found("LT245/75R16 120/116S E", Quantity(550, "kPa"), rating=2000, certified_as="light_truck")
    assert finding.value == 2 * 1400 and "divided" not in dict(finding.detail)


def test_e104_normal_load_is_at_most_94_percent_of_the_rating_at_placard_pressure():
    """49 CFR 571.110 S4.2.1.2; on an MPV of the divided rating (S4.2.2.3): 658 of 700 kg."""
    car = found("225/60R17 99H", asked=KPA, placard="225/60R17 99H")
    assert number(car, "normal_load_limit") / 775 == pytest.approx(658 / 700)
    van = found("225/60R17 99H", asked=KPA, placard="225/60R17 99H", certified_as="mpv")
    assert number(van, "normal_load_limit") == pytest.approx(0.94 * 704.545, abs=0.01)
    assert found("225/60R17 99H", asked=KPA, region="de").figure("normal_load_limit") is None


@pytest.mark.parametrize(("kpa", "load"), [(220, 555.215), (200, 514.455), (250, 615), (300, 615)])
def test_e105_e106_load_below_the_reference_pressure_and_never_more_above_it(kpa, load):
    """ETRTO 0.8, 250 kPa (from memory)."""
    finding = found("205/55R16 91V", Quantity(kpa, "kPa"), region="de")
    assert number(finding, "load_each") == pytest.approx(load, abs=0.01)
    assert number(finding, "capacity") == pytest.approx(2 * load, abs=0.02)


def test_e107_the_pressure_that_a_load_needs():
    finding = found("205/55R16 91V", rating=1000, region="de")
    assert number(finding, "pressure_for_rating") == pytest.approx(193.001, abs=0.01)
    assert "Under 28 psi (193 kPa) they would no longer carry the axle rating" in finding.would_change[0]


def test_e109_a_p_metric_tire_goes_by_the_square_root():
    """635 kg at 240 kPa is 549.926 kg at 180 (TRA, exponent from memory); index 92 is 630 kg."""
    finding = found("P205/65R15 92S", Quantity(180, "kPa"))
    assert number(finding, "load_each") == pytest.approx(549.926 * 630 / 635, abs=0.01)
    assert finding.word("kind") == "P-metric standard"


@pytest.mark.parametrize(("marking", "load"), [("225/60R17 99V", 705.25), ("225/60R17 99W", 658.75)])
def test_e110_e112_load_at_the_symbols_own_speed(marking, load):
    """UN R30: V 91 % at 240 km/h, W 85 % at 270."""
    assert number(found(marking), "load_at_symbol_front_left") == pytest.approx(load, abs=0.01)
    assert found("225/60R17 99H").figure("load_at_symbol_front_left") is None


def test_extra_load_at_the_old_pressure_carries_no_more():
    """Handbook, computed: an XL 99 carries 621 kg at 220 kPa, a standard 95 carries 623."""
    whole = {"placard": "215/60R17 95H", "asked": Quantity(220, "kPa"), "region": "de", "units": "metric"}
    finding = found("215/60R17 99H XL", Quantity(220, "kPa"), **whole)
    assert number(finding, "load_each") == pytest.approx(621, abs=0.5)
    assert finding.verdict == "inspect" and "it needs 221 kPa" in finding.sentence
    assert found("215/60R17 101H XL", Quantity(220, "kPa"), **whole).verdict == "keep"


def test_below_150_kpa_nothing_is_computed():
    finding = found("205/55R16 91V", Quantity(149, "kPa"), rating=1000)
    assert finding.verdict == "inspect" and finding.value is None
    assert "too low for any load to be computed" in finding.sentence
    assert any("no load is computed below 21.8 psi (150 kPa)" in line for line in finding.working)


def test_a_warm_reading_says_nothing_about_the_fill():
    finding = found("205/55R16 91V", Quantity(280, "kPa"), rating=1000, cold=False, asked=Quantity(220, "kPa"))
    assert number(finding, "load_each") == pytest.approx(555.215, abs=0.01)
    assert any("assumed: filled to the placard's 220 kPa" in line for line in finding.working)
    assert finding.uncertainty is None


@pytest.mark.parametrize(
    ("kpa", "rating", "verdict", "words"),
    [
        (250, 1230, "inspect", "Too close to call"),  # just at it: the gauge cannot tell
        (250, 1195, "keep", "the axle rating is"),
        (220, 1150, "inspect", "Fill to 36"),
        (220, 1300, "replace", "at most, under the axle rating"),
    ],
)
def test_under_at_and_over_the_axle_rating(kpa, rating, verdict, words):
    """615 kg at 250 kPa, 555.2 at 220; a psi is 2.2 % of the load at 250 kPa (0.8 x 6.9 / 250, computed)."""
    finding = found("205/55R16 91V", Quantity(kpa, "kPa"), rating=rating, asked=Quantity(36, "psi"))
    assert finding.verdict == verdict and words in finding.sentence
    assert finding.margin == pytest.approx(finding.value - finding.limit)


def test_the_weaker_tire_counts_for_both():
    whole = front("205/55R16 91V", front_axle_rating=Quantity(1000, "kg"))
    low = msgspec.structs.replace(
        whole.specimens[1], readings=(filled(Quantity(200, "kPa"), place="front_right"),)
    )
    (finding,) = DECIDE(msgspec.structs.replace(whole, specimens=(whole.specimens[0], low)), TABLES)
    assert finding.value == pytest.approx(2 * 514.455, abs=0.02)
    assert any("the weaker one counted for each" in line for line in finding.working)


@pytest.mark.parametrize(
    ("marking", "verdict", "words"),
    [
        ("225/60R17 99H", "keep", "the load index and speed symbol that the placard asks for"),
        ("225/60R17 98H", "replace", "load index 98; the placard asks for 99"),
        ("225/60R17 99T", "inspect", "speed symbol T; the placard asks for H"),
        ("225/60R17", "inspect", "no load index on the tire to compare"),
    ],
)
def test_marks_against_the_placard(marking, verdict, words):
    finding = found(marking, placard="225/60R17 99H", asked=KPA)
    assert finding.verdict == verdict and words in finding.sentence


@pytest.mark.parametrize(
    ("region", "season", "marking", "verdict"),
    [
        ("de", "winter", "205/55R16 91H", "watch"),  # StVZO 36(5): with a sticker in view
        ("de", "summer", "205/55R16 91H", "inspect"),
        ("fr", "winter", "205/55R16 91Q", "watch"),  # order of 24 Oct 1994 art. 3: not below 160 km/h
        ("fr", "winter", "205/55R16 91P", "inspect"),
        ("sk", "winter", "205/55R16 91Q", "inspect"),  # decree 134/2018 s. 14(8): alpine symbol needed
        ("sk", "winter", "205/55R16 91Q 3PMSF", "watch"),
        ("us", "winter", "205/55R16 91H", "inspect"),
    ],
)
def test_a_slower_winter_tire_where_a_region_lets_it_be(region, season, marking, verdict):
    finding = found(marking, placard="205/55R16 91V", asked=KPA, region=region, season=season)
    assert finding.verdict == verdict
    assert ("allowed in winter" in finding.sentence) is (verdict == "watch")


def test_one_tire_alone_that_falls_short_is_named():
    finding = found(("225/60R17 99H", "225/60R17 98H"), placard="225/60R17 99H", asked=KPA)
    assert finding.sentence == "Front right has load index 98; the placard asks for 99."


def test_dual_rear_wheels_carry_with_their_dual_index():
    """Four tires at 1250 kg, index 116 (French order of 24 October 1994, annex II); LT range E."""
    tires = tuple(
        tire(place, filled(Quantity(550, "kPa")), marking="LT245/75R16 120/116S E")
        for place in ("rear_left", "rear_right")
    )
    car = Car(dual_rear_wheels=True, rear_axle_rating=Quantity(4000, "kg"), certified_as="light_truck")
    (finding,) = DECIDE(episode(*tires, car=car), TABLES)
    assert finding.value == 4 * 1250 and finding.verdict == "keep"
    single = msgspec.structs.replace(tires[0], marking="LT245/75R16 120S E")
    (unsure,) = DECIDE(episode(single, tires[1], car=car), TABLES)
    assert unsure.verdict == "unknown" and unsure.missing[0] == "the dual load index, rear left"


def test_a_kind_without_a_reference_pressure_in_the_tables_is_not_guessed():
    finding = found("205/65R16C 107/105T", Quantity(400, "kPa"), rating=1500)
    assert finding.verdict == "unknown" and finding.value is None
    assert "the reference pressure, front left" in finding.missing
    assert found("205/65R16C 107/105T", rating=2000).verdict == "replace"  # 2 x 975 kg at most
    lettered = found("LT245/75R16 120/116S", Quantity(400, "kPa"), rating=1500)
    assert lettered.missing == ("the load range letter, front left", "the load range letter, front right",
                                "the placard's front size with load index and speed symbol")  # fmt: skip


def test_the_certificate_is_asked_for_where_us_rules_hold_and_its_effect_is_computed():
    finding = found("225/60R17 99H", rating=1450, certified_as=None)
    assert "what the certification label calls the car" in finding.missing
    assert any("3107 lb (1409 kg) would count, under the axle rating" in line for line in finding.would_change)
    assert any(line.startswith("Assumed: certified as a passenger car") for line in finding.working)
    assert found("225/60R17 99H", rating=1450, certified_as=None, region="de").missing == (
        "the placard's front size with load index and speed symbol",
    )


def test_damage_or_age_leaves_no_rating_to_count_on():
    bulged = tire("front_left", filled(KPA, damage=(damage("bulge"),)))
    old = tire("front_right", filled(KPA), date_code="0512")
    car = Car(certified_as="passenger_car", front_axle_rating=Quantity(1000, "kg"))
    (finding,) = DECIDE(episode(bulged, tire("front_right", filled(KPA)), car=car), TABLES)
    assert finding.verdict == "inspect" and "its rating no longer counts" in finding.sentence
    assert finding.caution == TABLES.cautions["damage"].text
    (finding,) = DECIDE(episode(tire("front_left", filled(KPA)), old, car=car), TABLES)
    assert finding.verdict == "replace" and "Front right is 14.1 years old" in finding.sentence


def test_a_missing_tire_or_marking_is_named_and_no_tire_is_no_finding():
    (finding,) = DECIDE(episode(tire("front_left", filled(KPA))), TABLES)
    assert finding.verdict == "unknown" and finding.missing == ("the marking, front right",)
    assert DECIDE(episode(tire("bench", filled(KPA))), TABLES) == ()


markings = st.sampled_from([
    "225/60R17 99H", "225/60R17 99H XL", "P225/60R17 98T", "225/60R17", "LT245/75R16 120/116S E", "T145/80D17 107M",
    "205/65R16C 107/105T", "31x10.50R15LT 109Q", "155R13 78S", "275/35ZR20 (102Y)",
])  # fmt: skip
pressures = st.one_of(st.none(), st.floats(0, 600).map(lambda kpa: Quantity(kpa, "kPa")))


@given(
    one=markings, other=markings, placard=markings, pressure=pressures, asked=st.one_of(st.none(), st.just(KPA)),
    rating=st.one_of(st.none(), st.floats(300, 3000)), certified=st.sampled_from([None, "mpv", "passenger_car"]),
    region=st.sampled_from(["us", "de", "fr", "sk"]),
)  # fmt: skip
def test_every_finding_is_complete_and_swapping_sides_or_units_changes_no_verdict(
    one, other, placard, pressure, asked, rating, certified, region
):
    axle = None if rating is None else Quantity(rating, "kg")
    more = {"placard": placard, "asked": asked, "region": region, "certified_as": certified, "front_axle_rating": axle}
    whole = front((one, other), pressure, **more)
    ((finding,), (swapped,), (metric,)) = (
        DECIDE(e, TABLES)
        for e in (whole, front((other, one), pressure, **more), front((one, other), pressure, units="metric", **more))
    )
    assert (finding.verdict, finding.value) == (swapped.verdict, swapped.value) == (metric.verdict, metric.value)
    assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 111
    assert finding.missing or finding.verdict != "unknown"
    assert all(value_at(whole, path) is not None for path in finding.inputs)


@given(kpa=st.floats(150, 400), more=st.floats(0, 100), rating=st.floats(300, 3000), marking=markings)
def test_more_pressure_never_carries_less(kpa, more, rating, marking):
    less_, more_ = (found(marking, Quantity(p, "kPa"), rating=rating) for p in (kpa, kpa + more))
    if less_.value is not None:
        assert more_.value >= less_.value - 1e-9
        assert not (less_.verdict == "keep" and more_.verdict == "replace")


@given(kpa=st.floats(160, 249), rating=st.floats(700, 1229))
def test_the_pressure_named_is_the_one_at_which_it_turns(kpa, rating):
    finding = found("205/55R16 91V", Quantity(kpa, "kPa"), rating=rating)
    needed = number(finding, "pressure_for_rating")
    at = found("205/55R16 91V", Quantity(needed, "kPa"), rating=rating)
    assert at.margin == pytest.approx(0, abs=1e-6) or (needed == 150 and at.margin > 0)


def test_the_marks_are_spelled_out_beside_the_placards():
    """UN R30: 91 is 615 kg, V 240 km/h; half of the axle rating falls on each of two tires."""
    finding = found("205/55R16 91V", Quantity(250, "kPa"), rating=1050)
    place = finding.word("weakest")
    assert finding.word(f"service_{place}") == "91V" and finding.word(f"load_index_{place}") == "91"
    assert number(finding, f"index_load_{place}") == 615 and number(finding, f"symbol_speed_{place}") == 240
    assert number(finding, "axle_share") == 525
    assert found("155R13", Quantity(200, "kPa"), rating=800).word("service_front_left") == ""
