"""The spare against the handbook's temporary one, the limits as published, and its own promises."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import spare as topic
from studio.decide.topic import from_parts
from studio.model.car import Car, Placard, PlacardTire, Tolerance
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Gauge, PressureReading
from tests.decide.build import TABLES, damage, episode, flat, four, number, tire

DECIDE = from_parts(topic.parts, topic.conclude)
FINE = Gauge(resolution=depth(0.01, "mm"))
SMALL, MAIN = "T145/80D17 107M", "225/60R17 99H"
SIXTY = Quantity(60, "psi")


def spare_tire(marking=SMALL, pressure=SIXTY, value=4, cold=True, **more):
    held = None if pressure is None else PressureReading(pressure=pressure, cold=cold)
    more.setdefault("depth_new", depth(value, "32nds"))
    return tire("spare", flat(value, gauge=FINE, pressure=held, **more.pop("seen", {})), marking=marking, **more)


def found(spare=None, depths=(10, 10, 10, 10), marking=MAIN, region="us", units="us", asked=SIXTY, **car):
    car.setdefault("placard", Placard(spare=PlacardTire(marking=SMALL, pressure=asked)))
    mains = four(depths, gauge=FINE, marking=marking) if depths else ()
    whole = episode(*mains, *((spare,) if spare else ()), region=region, units=units, car=Car(**car))
    (finding,) = DECIDE(whole, TABLES)
    return finding


def test_e061_a_t145_80d17_is_663_8_mm_5_4_percent_smaller_and_its_wheel_turns_5_7_percent_more():
    """Handbook, temporary spare, computed: 663.8 against 701.8 mm."""
    finding = found(spare_tire(), drivetrain="front")
    assert number(finding, "diameter_spare") == pytest.approx(663.8, abs=0.01)
    assert number(finding, "diameter_change") == pytest.approx(-5.4, abs=0.05)
    assert number(finding, "turning_more") == pytest.approx(5.7, abs=0.05)
    assert finding.value == pytest.approx(100 * (1 - 663.8 / 701.8))
    assert finding.verdict == "keep" and finding.caution == TABLES.cautions["temporary_spare"].text
    assert finding.sentence == "Spare is 5.4 % smaller: its wheel turns 5.7 % more. 50 mph at most, most handbooks say."


def test_the_turns_and_the_driveline_at_the_handbooks_speed():
    """E082: 751.644 turns a mile of 225/60R17; 80 km/h is 622.73 rpm (computed), 701.8/663.8 of it for the spare."""
    finding = found(spare_tire(), drivetrain="all", final_drive=3.5)
    assert number(finding, "turns_main") == pytest.approx(751.644, abs=0.01)
    assert number(finding, "turns_spare") == pytest.approx(751.644 * 701.8 / 663.8, abs=0.01)
    rpm = 80e6 / 60 / 2141.1
    apart = rpm * (701.8 / 663.8 - 1)
    assert number(finding, "wheel_difference") == pytest.approx(apart)
    assert number(finding, "axle_difference") == pytest.approx(apart / 2)
    assert number(finding, "shaft_difference") == pytest.approx(apart / 2 * 3.5)
    assert "car.final_drive" in finding.inputs


def test_on_all_wheel_drive_the_manual_comes_first():
    finding = found(spare_tire(), drivetrain="all")
    assert finding.verdict == "watch" and "ask the manual before driving on it" in finding.sentence
    assert any("a fuse or a drive mode may be needed" in line for line in finding.working)
    assert "the final drive ratio" in finding.missing
    assert found(spare_tire(), drivetrain="rear").verdict == "keep"


def test_every_limit_says_whose_it_is():
    """80 km/h in most handbooks, 105 in one; 50 miles is common practice; UN R64 is from memory."""
    lines = found(spare_tire()).working
    for words, whose in [
        ("80 km/h (50 mph) in most handbooks", "published, restated"), ("105 km/h", "published, restated"),
        ("about 50 miles", "common practice"), ("UN Regulation No. 64", "from memory"), ("One at a time", "restated"),
    ]:  # fmt: skip
        (line,) = [line for line in lines if words in line]
        assert whose in line


@pytest.mark.parametrize(("region", "title"), [("sk", "134/2018"), ("cz", "341/2014"), ("ch", "VTS"), ("de", "")])
def test_where_an_approval_is_asked_for_it_is_said(region, title):
    lines = [line for line in found(spare_tire(), region=region).working if line.startswith("Approval")]
    assert bool(lines) is bool(title) and all(title in line for line in lines)


@pytest.mark.parametrize(
    ("psi", "verdict", "words"),
    [
        (60, "keep", "smaller"), (59, "keep", "smaller"),  # a hand-held gauge may be 1 psi off: common practice
        (55, "watch", "Top it up"), (45, "inspect", "Fill it now"), (41, "inspect", "Fill it now"), (63, "keep", ""),
    ],
)  # fmt: skip
def test_its_pressure_against_the_placard(psi, verdict, words):
    """Three quarters of it is where 49 CFR 571.138 S4.2(a) makes a warning lamp light: 45 of 60 psi."""
    finding = found(spare_tire(pressure=Quantity(psi, "psi")), drivetrain="front")
    assert finding.verdict == verdict and words in finding.sentence
    if psi < 60:
        assert f"With {60 - psi} psi" in finding.would_change[0]


def test_without_a_placard_pressure_a_temporary_spare_is_filled_to_420_kpa():
    """49 CFR 571.139 S5.5.5."""
    finding = found(spare_tire(pressure=Quantity(420, "kPa")), asked=None)
    assert number(finding, "pressure_asked") == 420
    assert any(line.startswith("Assumed: filled to 60.9 psi (420 kPa)") for line in finding.working)
    assert "the usual is" in found(spare_tire(pressure=Quantity(300, "kPa")), asked=None).sentence


def test_what_it_carries_as_filled_against_half_the_heavier_axle():
    """975 kg (index 107) at 420 kPa; at 300 kPa 975 x (300/420)^0.8 = 744.9 kg (lower law assumed, computed)."""
    ratings = {"front_axle_rating": Quantity(1300, "kg"), "rear_axle_rating": Quantity(1500, "kg")}
    finding = found(spare_tire(pressure=Quantity(380, "kPa")), asked=Quantity(400, "kPa"), **ratings)
    assert number(finding, "axle_share") == 750
    low = found(spare_tire(pressure=Quantity(300, "kPa")), asked=Quantity(305, "kPa"), **ratings)
    assert number(low, "load") == pytest.approx(744.9, abs=0.1)
    assert low.verdict == "inspect" and "Fill it to 44.2 psi" in low.sentence
    assert any("exponent 0.8, the law that gives the lower load" in line for line in low.working)


def test_a_full_size_spare_beside_worn_tires_is_held_to_the_limit_for_unequal_ones():
    """3/32 less tread is 4.7625 mm of diameter, 14.96 mm of circumference, over a quarter inch (handbook, computed)."""
    limit = Tolerance(form="circumference", limit=length(0.25, "in"))
    full = spare_tire(MAIN, Quantity(35, "psi"), value=10)
    placard = Placard(spare=PlacardTire(marking=MAIN, pressure=Quantity(35, "psi")))
    worn = found(full, depths=(7, 7, 7, 7), placard=placard, drivetrain="all", tolerance=limit)
    assert worn.verdict == "inspect" and "a short way only" in worn.sentence
    assert number(worn, "diameter_change") == pytest.approx(100 * (701.8 / (701.8 - 4.7625) - 1))
    assert "would turn as front left does" in worn.would_change[0]
    alike = found(full, depths=(10, 10, 10, 10), placard=placard, drivetrain="all", tolerance=limit)
    assert alike.verdict == "keep" and alike.sentence == "Spare is 225/60R17 and turns as the others do."


def test_a_full_size_spare_of_another_size_must_be_confirmed():
    other = spare_tire("215/65R16 98H", Quantity(35, "psi"), value=10)
    placard = Placard(spare=PlacardTire(pressure=Quantity(35, "psi")))
    finding = found(other, placard=placard)
    assert finding.verdict == "inspect" and finding.sentence.startswith("Spare is 215/65R16; front left is 225/60R17")


def test_on_a_car_with_two_sizes_a_spare_goes_to_the_axle_of_its_size_only():
    """LT245/75R16 is 773.9 mm, LT225/75R16 743.9 mm, both new: 4.0 % larger (geometry)."""
    small, large = "LT225/75R16 115/112R E", "LT245/75R16 120/116R E"
    places = ("front_left", "front_right", "rear_left", "rear_right")
    mains = [tire(p, flat(10, gauge=FINE), marking=small if p.startswith("front") else large) for p in places]
    spare = spare_tire(large, Quantity(450, "kPa"), value=10)
    car = Car(
        placard=Placard(spare=PlacardTire(pressure=Quantity(450, "kPa"))), front_axle_rating=Quantity(3000, "kg"),
        rear_axle_rating=Quantity(2250, "kg"), certified_as="light_truck",
    )  # fmt: skip
    (finding,) = DECIDE(episode(*mains, spare, car=car), TABLES)
    assert finding.verdict == "watch" and finding.value == 0
    assert finding.sentence == (
        "Spare has the rear tires' size; it is 4.0 % larger than front left: rear axle only."
    )
    assert number(finding, "axle_share") == 1125  # half of the rear axle, not of the front one
    dual = msgspec.structs.replace(car, dual_rear_wheels=True)
    (four_behind,) = DECIDE(episode(*mains, spare, car=dual), TABLES)
    assert number(four_behind, "axle_share") == 2250 / 4


def test_damage_and_age_rule_it_out():
    bulged = found(spare_tire(seen={"damage": (damage("bulge"),)}))
    assert bulged.verdict == "inspect" and bulged.caution == TABLES.cautions["damage"].text
    old = found(spare_tire(date_code="0512"))
    assert old.verdict == "replace" and old.sentence == "Spare is 14.1 years old: replace it, used or not."


def test_a_pressure_that_was_not_read_is_asked_for():
    finding = found(spare_tire(pressure=None), drivetrain="front")
    assert finding.verdict == "unknown" and finding.missing == ("the spare's cold pressure",)
    warm = found(spare_tire(cold=False), drivetrain="front")
    assert warm.verdict == "unknown"


def test_the_placard_alone_tells_of_a_spare():
    placard = Placard(front=PlacardTire(marking=MAIN), spare=PlacardTire(marking=SMALL, pressure=SIXTY))
    finding = found(None, depths=(), placard=placard)
    assert finding.value == pytest.approx(5.4, abs=0.05) and finding.verdict == "unknown"
    assert "car.placard.spare.marking" in finding.inputs and "car.placard.front.marking" in finding.inputs
    assert any("Turning beside the placard's front tire" in line for line in finding.working)


def test_no_spare_is_no_finding_and_one_without_a_marking_is_asked_for():
    assert DECIDE(episode(*four((8, 8, 8, 8))), TABLES) == ()
    finding = found(spare_tire(marking=""), placard=Placard())
    assert finding.verdict == "unknown" and finding.missing == ("the marking on the spare's sidewall",)


markings = st.sampled_from([SMALL, MAIN, "215/65R16 98H", "LT245/75R16 120/116S E", "155R13", "", "T125/70D15"])
depths = st.floats(3, 12).map(lambda value: round(value, 3))


@given(
    marking=markings, value=depths, main=st.tuples(depths, depths, depths, depths),
    psi=st.one_of(st.none(), st.floats(5, 80)), drive=st.sampled_from([None, "front", "all"]),
    region=st.sampled_from(["us", "de", "sk", "ch"]),
    rating=st.one_of(st.none(), st.floats(500, 2500).map(lambda kg: Quantity(kg, "kg"))),
)  # fmt: skip
def test_every_finding_is_complete_whatever_the_side_and_units(marking, value, main, psi, drive, region, rating):
    spare = spare_tire(marking, None if psi is None else Quantity(psi, "psi"), value)
    a, b, c, d = main
    more = {"region": region, "drivetrain": drive, "rear_axle_rating": rating}
    one, swapped, metric = (
        found(spare, depths=v, units=u, **more) for v, u in ((main, "us"), ((b, a, d, c), "us"), (main, "metric"))
    )
    assert one.verdict == swapped.verdict == metric.verdict
    assert one.value == metric.value == (None if one.value is None else pytest.approx(swapped.value))
    assert one.sources and one.caution and one.working and len(one.sentence) <= 111
    assert one.missing or one.verdict != "unknown"
    placard = Placard(spare=PlacardTire(marking=SMALL, pressure=SIXTY))
    car = Car(drivetrain=drive, rear_axle_rating=rating, placard=placard)
    whole = episode(*four(main, gauge=FINE, marking=MAIN), spare, region=region, car=car)
    assert all(value_at(whole, path) is not None for path in one.inputs)


@given(less=st.floats(5, 80), more=st.floats(0, 20))
def test_more_pressure_is_never_worse(less, more):
    order = ("keep", "watch", "inspect", "replace")
    low, high = (
        found(spare_tire(pressure=Quantity(psi, "psi")), drivetrain="front", rear_axle_rating=Quantity(1500, "kg"))
        for psi in (less, less + more)
    )
    assert order.index(high.verdict) <= order.index(low.verdict)
