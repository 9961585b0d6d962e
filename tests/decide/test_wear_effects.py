"""Worn tread on speedometer, odometer and gearing: by hand, worked examples E130, E131, E191-E193, UN R39."""

import csv
from fractions import Fraction
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.car import Car
from studio.model.circumstances import Circumstances
from studio.model.paths import value_at
from studio.model.quantity import Quantity
from tests.decide.build import TABLES, TENTHS, episode, four, number, tire

EXAMPLES = Path(__file__).parents[1] / "published" / "data" / "worked_examples.csv"
ROWS = {
    row["id"]: float(row["expected"])
    for row in csv.DictReader(EXAMPLES.read_text(encoding="utf-8").splitlines())
    if row["id"] in ("E130", "E131", "E191", "E192", "E193")
}


def found(depths, region="us", units="us", speed=None, drivetrain="front", final_drive=None, **more):
    whole = episode(
        *four(depths, gauge=TENTHS, **more), car=Car(drivetrain=drivetrain, final_drive=final_drive), region=region,
        units=units, circumstances=Circumstances(speed=speed),
    )  # fmt: skip
    return decide(whole, TABLES).get("wear_effects.set")


def lines(finding):
    return " ".join(finding.working)


def test_225_60r17_worn_from_10_to_4_32nds_by_hand():
    """702 mm less 2 x 6/32 in (9.525 mm) is 692.475 mm: 692.475 / 702 = 0.986432; 60 mph shown is 59.186 mph."""
    finding = found((4, 4, 10, 10))
    assert finding.verdict is None and finding.unit == "%"
    assert finding.value == pytest.approx(-1.35684, abs=1e-4)
    assert number(finding, "true_speed") == pytest.approx(59.1859, abs=1e-3)
    assert number(finding, "trip_driven") == pytest.approx(986.43, abs=0.01)
    assert number(finding, "turns_per_mile_new") == pytest.approx(1609344 / (3.05 * 702), abs=1e-6)
    assert number(finding, "turns_per_mile") == pytest.approx(1609344 / (3.05 * 692.475), abs=1e-6)
    assert finding.sentence == "Driven tires 1.4 % smaller than new: at 60.0 mph shown, true is 59.2 mph."


@pytest.mark.parametrize("worn_32nds", [0, 2])
def test_worked_examples_e130_and_e131_turns_a_minute_at_100_kmh(worn_32nds):
    """702 mm x 3.05 at 100 km/h: 778.416 rpm; 2/32 in less tread: 3.5366 rpm more."""
    now = 10 - worn_32nds
    finding = found((now, now, 10, 10), region="de", units="metric", speed=Quantity(100, "km/h"))
    turns = ROWS["E130"] + (ROWS["E131"] if worn_32nds else 0)
    assert f"{turns:.1f} turns a minute, {ROWS['E130']:.1f} when new" in lines(finding)


@pytest.mark.parametrize(("row", "kmh"), [("E191", 40), ("E192", 80), ("E193", 120)])
def test_un_r39_5_3_a_worn_tires_high_reading_is_within_the_rule(row, kmh):
    finding = found((2, 2, 2, 2), region="de", units="metric", speed=Quantity(kmh, "km/h"))
    assert f"within the {ROWS[row]:.1f} km/h that the rule lets it show" in lines(finding)
    assert "UN Regulation No. 39" in {source.title for source in finding.sources}


def test_in_the_us_there_is_no_such_rule_for_cars():
    assert "no federal rule on a car's speedometer" in lines(found((4,) * 4)).lower()
    assert "lets it show" not in lines(found((4,) * 4))


@pytest.mark.parametrize(
    ("drivetrain", "worn"), [("front", 6), ("rear", 2), ("all", 4), ("part_time_four", 4), (None, 4)]
)
def test_the_driven_wheels_count(drivetrain, worn):
    """Fronts worn by 6/32, rears by 2/32 in; all four: the mean of the turns (harmonic mean of what a turn covers)."""
    finding = found((4, 4, 8, 8), drivetrain=drivetrain)
    front, rear = (Fraction(702) - 2 * Fraction(lost) * Fraction(79375, 100000) for lost in (6, 2))
    turn = {6: front, 2: rear, 4: 2 / (1 / front + 1 / rear)}[worn]
    assert finding.value == pytest.approx(float(turn / 702 - 1) * 100, abs=1e-9)
    assert finding.missing == (() if drivetrain else ("the drivetrain",))
    assert ("Assumed: the drivetrain is not given" in lines(finding)) is (drivetrain is None)


def test_assumptions_are_said():
    assumed = found((4,) * 4)
    assert "Assumed: the speedometer was exact on these tires when new" in assumed.working
    assert "Assumed speed: 60 mph (97 km/h)" in assumed.working and "circumstances.speed" not in assumed.inputs
    given_speed = found((4,) * 4, speed=Quantity(50, "mph"))
    assert "Speed: 50 mph (80 km/h)" in given_speed.working and "circumstances.speed" in given_speed.inputs
    assert "Assumed speed: 100 km/h (62 mph)" in found((4,) * 4, region="de", units="metric").working


def test_gearing_through_a_final_drive():
    """3.94 x 702 / 692.475 = 3.9942: as if geared so on new tires."""
    finding = found((4, 4, 4, 4), final_drive=3.94)
    assert finding.word("effective_final_drive") == "3.994" and "car.final_drive" in finding.inputs
    assert "= 3.994" in lines(finding)
    assert "shorter by the same share" in lines(found((4, 4, 4, 4)))


def test_down_to_the_bars_it_comes_to_this():
    """10/32 in is 7.9375 mm; down to 1.6 mm loses 6.3375 mm: 1 - 689.325 / 702 = 1.8056 %."""
    assert number(found((8, 8, 8, 8)), "change_at_bars") == pytest.approx(-1.80556, abs=1e-4)


def test_the_gauges_doubt_is_carried():
    """0.25 mm of depth is 0.5 mm of 702 mm: 0.0712 %; new tires cannot be told from new."""
    finding = found((10, 10, 10, 10))
    assert finding.uncertainty == pytest.approx(0.0712, abs=1e-4)
    assert "as good as new in size" in finding.sentence


def test_what_would_change_it_is_computed():
    finding = found((4, 4, 4, 4))
    true = number(found((3, 3, 3, 3)), "true_speed")
    assert f"true would be {true:.1f} mph" in finding.would_change[0]


def test_what_is_missing_is_named():
    whole = episode(tire("front_left", depth_new=None), *four((5, 5, 5, 5))[1:], car=Car(drivetrain="front"))
    finding = decide(whole, TABLES).get("wear_effects.set")
    assert finding.verdict == "unknown"
    assert finding.missing == ("a depth reading, front left", "the depth when new, front left")
    assert decide(episode(tire("front_left")), TABLES).get("wear_effects.set") is None
    assert decide(episode(tire("bench", id="it")), TABLES).get("wear_effects.set") is None
    unread = found((5,) * 4, marking="no size")
    assert unread.missing == ("a marking that can be read at each driven wheel",)


values = st.tuples(*[st.floats(1, 10)] * 4)


@given(depths=values, drivetrain=st.sampled_from(["front", "rear", "all", None]), more=st.floats(0.1, 0.9))
def test_left_for_right_units_and_more_wear(depths, drivetrain, more):
    mine = found(depths, drivetrain=drivetrain)
    swapped = found((depths[1], depths[0], depths[3], depths[2]), drivetrain=drivetrain)
    metric = found(depths, drivetrain=drivetrain, units="metric")
    worn = found(tuple(value - more for value in depths), drivetrain=drivetrain)
    assert mine.value == pytest.approx(swapped.value) and mine.value == metric.value
    assert worn.value < mine.value and number(worn, "true_speed") < number(mine, "true_speed")
    for finding in (mine, metric):
        assert len(finding.sentence) <= 90 and finding.sources and finding.caution


def test_every_input_resolves():
    whole = episode(*four((4, 4, 6, 6)), car=Car(drivetrain="all", final_drive=3.9))
    whole = msgspec.structs.replace(whole, circumstances=Circumstances(speed=Quantity(70, "mph")))
    finding = decide(whole, TABLES).get("wear_effects.set")
    assert all(value_at(whole, path) is not None for path in finding.inputs)
