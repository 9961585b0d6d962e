"""The match of tires against published rules, worked examples of the handbook, and its own promises."""

import msgspec
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.decide import decide
from studio.decide import matching as topic
from studio.decide.matching_change import changes
from studio.model.car import Car, Tolerance
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Gauge
from tests.decide.build import TABLES, TENTHS, episode, flat, four, number, reading, tire

FINE = Gauge(resolution=depth(0.01, "mm"))
MAKER_DEPTH = Tolerance(form="depth", limit=depth(2, "32nds"))
QUARTER_INCH = Tolerance(form="circumference", limit=length(0.25, "in"))
HALF_PERCENT = Tolerance(form="percent", limit=Quantity(0.5, "%"))


def pair(left, right, unit="32nds", gauge=FINE, region="us", units="us", drive="front", **more):
    tires = tuple(
        tire(place, flat(value, unit=unit, gauge=gauge))
        for place, value in (("front_left", left), ("front_right", right))
    )
    whole = episode(*tires, region=region, units=units, car=Car(drivetrain=drive, **more))
    return decide(whole, TABLES).get("matching.front_axle")


def all_four(depths, drive="all", region="us", gauge=FINE, unit="32nds", **more):
    whole = episode(*four(depths, unit=unit, gauge=gauge), region=region, car=Car(drivetrain=drive, **more))
    return decide(whole, TABLES).get("matching.set")


def test_two_32nds_between_two_tires_in_every_form():
    """Handbook rows E125 to E127 and E129, computed: 225/60R17 new on one side, 2/32 in less on the other."""
    finding = pair(10, 8)
    assert number(finding, "difference") == pytest.approx(2)
    assert number(finding, "tape_difference") == pytest.approx(9.9746, abs=0.001)
    assert finding.figure("tape_difference").to("in").value == pytest.approx(0.3927, abs=0.0005)
    assert number(finding, "diameter_front_left") - number(finding, "diameter_front_right") == pytest.approx(3.175)
    assert number(finding, "circumference_percent") == pytest.approx(0.4543, abs=0.001)


def test_the_turns_of_a_mismatch():
    """Handbook, physics 4, computed: 702 mm against 2/32 in less tread is 2.12 turns in a kilometer."""
    finding = pair(10, 8)
    assert finding.figure("turns_difference").to("rev/km").value == pytest.approx(2.12, abs=0.005)
    one, other = (number(finding, f"rolling_circumference_{p}") for p in ("front_left", "front_right"))
    assert number(finding, "circumference_difference") == pytest.approx(one - other)


def test_a_quarter_inch_of_circumference_is_1_27_32nds_of_tread():
    """Handbook row E128, computed."""
    finding = pair(10, 10, tolerance=QUARTER_INCH)
    assert finding.figure("tolerance_depth").to("32nds").value == pytest.approx(1.2732, abs=0.001)
    assert number(finding, "tolerance_circumference") == pytest.approx(6.35)


def test_one_percent_of_a_702_mm_diameter_is_7_0_mm_or_4_42_32nds_of_tread():
    """Handbook, all-wheel-drive tolerance table, computed; here the percentage counts from the smaller tire."""
    finding = pair(10, 10, tolerance=Tolerance(form="percent", limit=Quantity(1, "%")))
    assert finding.figure("tolerance_depth").to("32nds").value == pytest.approx(4.42, abs=0.05)


@pytest.mark.parametrize(
    ("tolerance", "just_in", "just_over"),
    [(MAKER_DEPTH, 1.5, 2.5), (QUARTER_INCH, 0.8, 1.8), (HALF_PERCENT, 1.7, 2.7)],
)
def test_the_makers_own_form_binds_in_its_own_unit(tolerance, just_in, just_over):
    """2/32 in is 57 % more than a quarter inch of circumference; half a percent of 702 mm is 2.20/32 in (computed)."""
    inside, outside = (pair(10, 10 - apart, tolerance=tolerance) for apart in (just_in, just_over))
    assert (inside.verdict, outside.verdict) == ("keep", "replace")
    assert outside.unit == tolerance.limit.unit and outside.limit == tolerance.limit.value
    assert "the manual's" in outside.sentence and outside.limit_label == "maker's tolerance"
    assert outside.inputs[-3:] == ("car.tolerance.limit", "car.drivetrain", "region")


@pytest.mark.parametrize(
    ("region", "left", "right", "title"),
    [
        ("fr", 8.0, 2.9, "French order of 29 July 1970 on tires"),  # E124: 5.1 mm is refused
        ("sk", 8.0, 2.6, "Slovak decree 134/2018"),  # 1.5 % of 702 mm is 5.3 mm of tread (computed)
        ("cz", 8.0, 2.6, "Czech decree 341/2014"),
    ],
)
def test_the_law_of_the_region_binds_and_is_named(region, left, right, title):
    finding = pair(left, right, unit="mm", region=region, units="metric")
    assert finding.verdict == "replace" and finding.limit_label.startswith("law, ")
    assert finding.sources[0].title == title and "the legal" in finding.sentence
    assert pair(left, right, unit="mm", region="de").limit_label == "common practice"


def test_the_french_rule_lets_4_9_mm_pass():
    held = topic.read_part(next(iter(topic.parts(episode(
        tire("front_left", flat(7.9, unit="mm", gauge=FINE)), tire("front_right", flat(3.0, unit="mm", gauge=FINE)),
        region="fr"), TABLES))), TABLES).held  # fmt: skip
    law = next(it for it in held if it.limit.level == "law")
    assert not law.over and law.margin == pytest.approx(0.1)


def test_the_tighter_of_law_and_maker_binds():
    loose = Tolerance(form="depth", limit=depth(8, "mm"))
    assert pair(8.0, 2.0, unit="mm", region="fr", tolerance=loose).limit_label == "law, France"
    tight = Tolerance(form="depth", limit=depth(1.5, "mm"))
    assert pair(8.0, 2.0, unit="mm", region="fr", tolerance=tight).limit_label == "maker's tolerance"


@pytest.mark.parametrize(("apart", "verdict"), [(1.9, "keep"), (2.0, "watch"), (2.9, "watch"), (3.0, "inspect")])
def test_without_a_makers_limit_common_practice_takes_note_at_2_and_acts_at_3_32nds(apart, verdict):
    finding = pair(10, 10 - apart)
    assert finding.verdict == verdict and finding.limit_label == "common practice"
    assert finding.sources[0].standing == "common practice"


def test_on_all_wheel_drive_the_set_is_held_to_the_usual_limit_on_two_wheel_drive_it_is_not():
    assert all_four((10, 10, 7, 7)).verdict == "inspect"
    assert all_four((10, 10, 9, 9)).verdict == "keep"
    two = all_four((10, 10, 7, 7), drive="front")
    assert two.verdict == "rotate" and "time to rotate" in two.sentence and two.limit is None
    assert all_four((10, 10, 9, 9), drive="rear").verdict == "keep"
    unknown = all_four((10, 10, 7, 7), drive=None)
    assert unknown.verdict == "unknown" and "the drivetrain" in unknown.missing


@pytest.mark.parametrize(
    ("apart", "gauge", "verdict", "close"),
    [
        (1.5, FINE, "keep", False),
        (1.5, TENTHS, "keep", False),
        (1.7, TENTHS, "inspect", True),
        (2.2, TENTHS, "replace", True),
        (2.6, TENTHS, "replace", False),
        (1.0, Gauge(resolution=depth(1, "32nds")), "inspect", True),
        (0.5, Gauge(resolution=depth(1, "32nds")), "keep", False),
    ],
)
def test_below_at_and_above_the_limit_as_far_as_the_gauge_can_tell(apart, gauge, verdict, close):
    """Root of the sum of squares of two readings' doubts: 0.35 mm for steps of 0.1 mm, 0.84 mm for 1/32 in."""
    finding = pair(10, 10 - apart, gauge=gauge, tolerance=MAKER_DEPTH)
    assert finding.verdict == verdict and ("oo close to call" in finding.sentence) is close


def test_the_mean_decides_and_the_lowest_reading_is_shown_beside_it():
    one = tire("front_left", reading(((8, 8, 8), (8, 8, 8), (8, 8, 8)), gauge=FINE))
    other = tire("front_right", reading(((8, 8, 8), (8, 8, 8), (8, 8, 5)), gauge=FINE))
    finding = decide(episode(one, other, car=Car(drivetrain="front")), TABLES).get("matching.front_axle")
    assert number(finding, "difference") == pytest.approx(3 / 9)
    assert finding.figure("difference_lowest").to("32nds").value == pytest.approx(3)
    assert any("rolls on its whole tread" in line for line in finding.working)


@pytest.mark.parametrize(
    ("changes_", "fields", "verdict"),
    [
        ({"marking": "215/65R17 99H"}, "size", "inspect"),
        ({"marking": "225/60D17 99H"}, "size and construction", "inspect"),
        ({"season": "winter"}, "season", "inspect"),
        ({"tread": "directional"}, "tread pattern", "inspect"),
        ({"marking": "225/60R17 98H"}, "load index", "watch"),
        ({"marking": "225/60R17 99V"}, "speed symbol", "watch"),
    ],
)
def test_49_cfr_570_9_b_tires_of_one_axle_must_be_alike(changes_, fields, verdict):
    whole = episode(tire("rear_left", flat(8)), tire("rear_right", flat(8), **changes_), car=Car(drivetrain="rear"))
    finding = decide(whole, TABLES).get("matching.rear_axle")
    assert finding.verdict == verdict and finding.sentence.startswith("Rear tires are not alike: they differ in")
    assert finding.word("unlike") == fields
    assert "49 CFR 570.9" in [source.title for source in finding.sources]


def test_a_missing_tire_or_reading_is_named():
    findings = decide(episode(tire("front_left", flat(8)), tire("rear_left"), car=Car(drivetrain="all")), TABLES)
    assert findings.get("matching.front_axle").missing == ("a depth reading, front right",)
    assert findings.get("matching.rear_axle").missing == ("a depth reading, rear left", "a depth reading, rear right")
    assert all(f.verdict == "unknown" and f.value is None for f in findings.of("matching"))
    assert decide(episode(tire("bench", flat(8))), TABLES).of("matching") == ()


depths = st.floats(3, 12).map(lambda value: round(value, 3))
gauges = st.sampled_from([FINE, TENTHS, Gauge(resolution=depth(1, "32nds"))])
tolerances = st.sampled_from([None, MAKER_DEPTH, QUARTER_INCH, HALF_PERCENT])


@given(left=depths, right=depths, gauge=gauges, tolerance=tolerances, region=st.sampled_from(["us", "fr", "sk", "de"]))
def test_swapping_left_and_right_swaps_the_answer(left, right, gauge, tolerance, region):
    one = pair(left, right, gauge=gauge, tolerance=tolerance, region=region)
    other = pair(right, left, gauge=gauge, tolerance=tolerance, region=region)
    assert (one.verdict, one.value, one.limit) == (other.verdict, other.value, other.limit)
    assert one.sentence == other.sentence
    assert number(one, "diameter_front_left") == number(other, "diameter_front_right")
    swapped = one.sentence if left == right else (one.word("deepest"), one.word("shallowest"))
    assert swapped == (other.sentence if left == right else (other.word("shallowest"), other.word("deepest")))


@given(left=depths, right=depths, gauge=gauges, tolerance=tolerances, region=st.sampled_from(["us", "fr", "sk", "de"]))
def test_the_unit_system_changes_words_and_no_verdict(left, right, gauge, tolerance, region):
    us, metric = (
        pair(left, right, gauge=gauge, tolerance=tolerance, region=region, units=units) for units in ("us", "metric")
    )
    assert (us.verdict, us.value, us.margin, us.unit) == (metric.verdict, metric.value, metric.margin, metric.unit)


@given(left=depths, right=depths, gauge=gauges, tolerance=tolerances, region=st.sampled_from(["us", "fr", "cz"]))
def test_what_would_change_it_does_change_it(left, right, gauge, tolerance, region):
    tires = (tire("front_left", flat(left, unit="mm", gauge=gauge)),
             tire("front_right", flat(right, unit="mm", gauge=gauge)))  # fmt: skip
    whole = episode(*tires, region=region, car=Car(drivetrain="all", tolerance=tolerance))
    match = topic.read_part(next(iter(topic.parts(whole, TABLES))), TABLES)
    for change in changes(match):
        nudge = -1e-5 if change.more_mm <= 0 else 1e-5
        moved = {"front_left": left, "front_right": right}
        moved[change.tire.worn.subject.name] += change.more_mm + nudge
        assume(moved[change.tire.worn.subject.name] > 0)
        again = msgspec.structs.replace(
            whole,
            specimens=tuple(tire(place, flat(value, unit="mm", gauge=gauge)) for place, value in moved.items()),
        )
        assert decide(again, TABLES).get("matching.front_axle").verdict == change.verdict


@given(
    values=st.lists(st.floats(0, 14), min_size=4, max_size=4), drive=st.sampled_from(["front", "rear", "all", None]),
    marking=st.sampled_from(["225/60R17 99H", "31x10.50R15LT 109Q", "", "no size"]), tolerance=tolerances,
    region=st.sampled_from(sorted(TABLES.regions)), units=st.sampled_from(["us", "metric"]), gauge=gauges,
)  # fmt: skip
def test_every_finding_is_complete(values, drive, marking, tolerance, region, units, gauge):
    whole = episode(*four(values, gauge=gauge, marking=marking), region=region, units=units,
                    car=Car(drivetrain=drive, tolerance=tolerance))  # fmt: skip
    found = decide(whole, TABLES).of("matching")
    assert len(found) == 3
    for finding in found:
        assert finding.sources and finding.caution and finding.working
        assert all(value_at(whole, path) is not None for path in finding.inputs)
        assert len(finding.sentence) <= 111, finding.sentence
        assert "nan" not in " ".join(finding.working)
        if finding.limit is not None:
            assert finding.margin == pytest.approx(finding.limit - finding.value, abs=1e-9)
