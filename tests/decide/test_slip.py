"""Unequal turning against the handbook's mismatch rows, the geometry of a bend, and its own promises."""

import re

import msgspec
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.decide import slip as topic
from studio.decide.topic import from_parts
from studio.model.car import Car
from studio.model.circumstances import Circumstances
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Gauge
from tests.decide.build import TABLES, episode, flat, four, number, tire

DECIDE = from_parts(topic.parts, topic.conclude)
FINE = Gauge(resolution=depth(0.01, "mm"))
HUNDRED = Circumstances(speed=Quantity(100, "km/h"))


def findings(depths, drive="all", speed=HUNDRED, region="de", units="metric", gauge=FINE, **car):
    whole = episode(
        *four(depths, gauge=gauge), region=region, units=units, circumstances=speed, car=Car(drivetrain=drive, **car)
    )
    return {finding.subject: finding for finding in DECIDE(whole, TABLES)}


def test_e130_a_702_mm_tire_turns_778_416_times_a_minute_at_100_km_h():
    assert number(findings((10, 10, 10, 10))["front_axle"], "wheel_front_left") == pytest.approx(778.416, abs=0.01)


def test_e129_e131_two_32nds_less_tread_on_one_side():
    """0.4543 %, 3.5366 rpm; 2.12 turns more in a kilometer (handbook, physics 4, computed)."""
    finding = findings((10, 8, 10, 10))["front_axle"]
    assert (finding.unit, finding.verdict) == ("rpm", None)
    assert finding.value == pytest.approx(3.5366, abs=0.001)
    assert number(finding, "circumference_percent") == pytest.approx(0.4543, abs=0.001)
    assert finding.figure("turns_difference").to("rev/km").value == pytest.approx(2.12, abs=0.005)
    assert finding.sentence == "At 100 km/h front right turns 3.5 rpm more than front left: 2.1 turns a kilometer."
    assert number(finding, "against_case") == pytest.approx(3.5366 / 2, abs=0.001)


@pytest.mark.parametrize(("apart", "percent", "rpm"), [(2, 0.454, 3.54), (4, 0.913, 7.11)])
def test_handbook_mismatches_between_the_axles_and_through_a_final_drive_of_3_5(apart, percent, rpm):
    """Physics 4, computed: 2/32 less is 3.54 rpm, at the propshaft 12.4; 4/32 less is 7.11."""
    finding = findings((10, 10, 10 - apart, 10 - apart), final_drive=3.5)["car"]
    assert finding.value == pytest.approx(rpm, abs=0.005)
    assert number(finding, "circumference_percent") == pytest.approx(percent, abs=0.001)
    assert number(finding, "shaft_difference") == pytest.approx(rpm * 3.5, abs=0.02)
    assert "car.final_drive" in finding.inputs and finding.missing == ()


def test_without_a_final_drive_the_shaft_is_not_guessed():
    finding = findings((10, 10, 8, 8))["car"]
    assert finding.figure("shaft_difference") is None and finding.missing == ("the final drive ratio",)


def test_the_axles_matter_where_all_wheels_are_driven_only():
    assert set(findings((10, 10, 8, 8), drive="front")) == {"front_axle", "rear_axle"}
    assert set(findings((10, 10, 8, 8), drive=None)) == {"front_axle", "rear_axle"}
    part_time = findings((10, 10, 8, 8), drive="part_time_four")["car"]
    assert any("nothing can take the difference up (common practice)" in line for line in part_time.working)


def test_wheels_that_are_not_driven_have_no_differential():
    rear = findings((10, 10, 10, 8), drive="front")["rear_axle"]
    assert any("nothing ties them together" in line for line in rear.working)
    assert rear.figure("against_case") is None
    assert not any("differential" in line for line in rear.working)


def test_the_bend_in_which_equal_wheels_would_differ_as_much():
    """Track 1650 mm, 0.4543 %: R = 825 x (2.004543 / 0.004543) mm = 364 m (computed from the two circles)."""
    finding = findings((10, 8, 10, 10), front_track=length(1650))["front_axle"]
    assert number(finding, "bend_radius") == pytest.approx(364, abs=0.5)
    assert "car.front_track" in finding.inputs


def test_what_the_gauge_cannot_tell_is_not_a_difference():
    coarse = Gauge(resolution=depth(1, "32nds"))
    finding = findings((10, 9.5, 10, 10), gauge=coarse)["front_axle"]
    assert finding.sentence == "At 100 km/h the front wheels turn alike, as far as this gauge can tell."
    assert finding.uncertainty > finding.value
    assert "mm" in finding.would_change[0] and "would show with this gauge" in finding.would_change[0]


def test_the_doubt_is_that_of_the_difference_of_two_depths():
    """Half a step 0.005 mm and 0.2 mm by hand, both tires: 0.29 mm of tread, 0.58 of diameter, of 699 mm 0.083 %."""
    finding = findings((10, 8, 10, 10))["front_axle"]
    assert finding.uncertainty == pytest.approx(781.95 * 2 * 0.205 * 2**0.5 / 698.825, rel=1e-3)


def test_a_speed_that_is_not_given_is_assumed_and_said_so():
    us, metric = (findings((10, 8, 10, 10), speed=Circumstances(), region=r)["front_axle"] for r in ("us", "de"))
    assert us.working[0].startswith("Assumed speed: 97 km/h (60 mph)") and "At 97 km/h" in us.sentence
    assert metric.working[0].startswith("Assumed speed: 100 km/h")
    assert "circumstances.speed" not in us.inputs
    given_ = findings((10, 8, 10, 10))["front_axle"]
    assert given_.working[0].startswith("Speed: 100 km/h") and "circumstances.speed" in given_.inputs


def test_what_cannot_be_compared_is_left_to_the_match():
    whole = episode(tire("front_left", flat(8)), tire("front_right"), tire("rear_left", flat(8), marking=""))
    assert DECIDE(whole, TABLES) == ()


depths = st.floats(3, 12).map(lambda value: round(value, 3))
drives = st.sampled_from([None, "front", "rear", "all", "part_time_four"])


@given(values=st.tuples(depths, depths, depths, depths), drive=drives, ratio=st.sampled_from([None, 3.5]))
def test_swapping_the_sides_swaps_the_wheels_and_nothing_else(values, drive, ratio):
    a, b, c, d = values
    one, other = (findings(v, drive=drive, final_drive=ratio) for v in ((a, b, c, d), (b, a, d, c)))
    assert one.keys() == other.keys()
    for name, finding in one.items():
        assert finding.value == pytest.approx(other[name].value, abs=1e-9)
        assert number(finding, "speed") == number(other[name], "speed")
    left, right = number(one["front_axle"], "wheel_front_left"), number(other["front_axle"], "wheel_front_right")
    assert left == pytest.approx(right)


@given(values=st.tuples(depths, depths, depths, depths), drive=drives, units=st.sampled_from(["us", "metric"]))
def test_every_finding_is_complete_and_the_units_change_no_value(values, drive, units):
    found, us = findings(values, drive=drive, units=units), findings(values, drive=drive, units="us")
    for name, finding in found.items():
        assert finding.value == us[name].value and finding.uncertainty == us[name].uncertainty
        assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 111
    whole = episode(*four(values), car=Car(drivetrain=drive), circumstances=HUNDRED)
    for finding in DECIDE(whole, TABLES):
        assert all(value_at(whole, path) is not None for path in finding.inputs)


@given(left=depths, right=depths)
def test_with_the_tread_named_less_the_two_turn_alike(left, right):
    finding = findings((left, right, 8, 8))["front_axle"]
    assume(finding.value > finding.uncertainty)
    slow, fast = finding.word("slower"), finding.word("faster")
    moved = {"front_left": left, "front_right": right}
    moved[slow] = moved[fast]  # one size, one depth when new: alike when worn alike
    again = findings((moved["front_left"], moved["front_right"], 8, 8))["front_axle"]
    assert again.value == pytest.approx(0, abs=1e-9)
    named = float(re.search(r"with ([\d.]+) mm", finding.would_change[0])[1])
    assert named == pytest.approx(abs(left - right) * 25.4 / 32, abs=0.0051)


@given(kmh=st.floats(1, 300), values=st.tuples(depths, depths))
def test_the_difference_grows_with_speed_and_the_turns_over_a_distance_do_not(kmh, values):
    one, double = (
        findings((*values, 8, 8), speed=Circumstances(speed=Quantity(v, "km/h")))["front_axle"]
        for v in (kmh / 2, kmh)
    )
    assert double.value == pytest.approx(2 * one.value)
    assert double.figure("turns_difference") == one.figure("turns_difference")


def test_one_edit_leaves_the_other_axle_as_it_was():
    whole = episode(*four((8, 8, 8, 8)), car=Car(drivetrain="front"))
    edited = msgspec.structs.replace(whole, specimens=(*whole.specimens[:3], tire("rear_right", flat(6))))
    before, after = DECIDE(whole, TABLES), DECIDE(edited, TABLES)
    assert before[0] is after[0] and before[1] is not after[1]
