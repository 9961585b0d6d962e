"""Speed symbols, wheel speeds and speedometers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables
from studio.tires import speed
from studio.tires.errors import RangeError

TABLES = load_tables()
lengths = st.floats(1200, 3000)


def test_the_order_of_the_symbols_is_that_of_their_speeds():
    """UN R30: H (210 km/h) lies between U and V."""
    order = speed.symbols_slowest_first(TABLES.speed_kmh)
    assert order[:8] == ("A1", "A2", "A3", "A4", "A5", "A6", "A7", "A8")
    assert "".join(order[8:]) == "BCDEFGJKLMNPQRSTUHVWY"


@pytest.mark.parametrize(("symbol", "than", "answer"), [("H", "U", True), ("H", "V", False), ("T", "T", True)])
def test_whether_a_symbol_is_fast_enough(symbol, than, answer):
    assert speed.not_slower(symbol, than, TABLES.speed_kmh) is answer


@pytest.mark.parametrize("symbol", ["I", "O", "X", "", "h", "ZZ"])
def test_an_unknown_symbol_is_refused(symbol):
    with pytest.raises(RangeError, match="is not in the table, expected one such as H"):
        speed.speed_kmh(symbol, TABLES.speed_kmh)


def test_french_order_of_1994_annex_1_speed_symbols():
    wanted = {"F": 80, "M": 130, "P": 150, "Q": 160, "R": 170, "S": 180, "T": 190, "U": 200, "H": 210, "V": 240}
    assert {symbol: TABLES.speed_kmh[symbol] for symbol in wanted} == wanted


@pytest.mark.parametrize(("depth_32nds", "diameter_mm", "rpm"), [(2, 702, 3.54), (4, 702, 7.11), (3, 724, 5.00)])
def test_worked_wheel_speed_differences_at_100_kmh(depth_32nds, diameter_mm, rpm):
    worn = diameter_mm - 2 * depth_32nds * 25.4 / 32
    assert speed.wheel_rpm_difference(100, 3.05 * diameter_mm, 3.05 * worn) == pytest.approx(rpm, abs=0.006)


@given(st.floats(0, 300), lengths, lengths)
def test_the_smaller_wheel_turns_faster_by_the_ratio(speed_kmh, one, other):
    assert speed.wheel_rpm(speed_kmh, one) * one == pytest.approx(speed.wheel_rpm(speed_kmh, other) * other)
    assert speed.wheel_rpm_difference(speed_kmh, one, other) >= 0


@pytest.mark.parametrize(("true_kmh", "most"), [(40, 48), (80, 92), (100, 114), (120, 136)])
def test_un_r39_5_3_highest_reading(true_kmh, most):
    assert speed.highest_reading_kmh(true_kmh, 0.1, 4) == pytest.approx(most)
    assert speed.reading_allowed(most - 0.01, true_kmh, 0.1, 4)
    assert not speed.reading_allowed(most + 0.01, true_kmh, 0.1, 4)


def test_un_r39_5_3_a_speedometer_never_reads_low():
    assert speed.reading_allowed(100, 100, 0.1, 4)
    assert not speed.reading_allowed(99.99, 100, 0.1, 4)


@given(st.floats(1, 200), lengths, lengths)
def test_true_speed_and_reading_are_ways_there_and_back(reading, before, after):
    true = speed.true_speed_after_change(reading, before, after)
    assert speed.reading_after_change(true, before, after) == pytest.approx(reading)


def test_larger_tires_make_the_speedometer_read_low():
    assert speed.reading_after_change(103, 702, 724) == pytest.approx(99.87, abs=0.005)
    assert speed.true_speed_after_change(60, 702, 724) == pytest.approx(61.88, abs=0.005)


@pytest.mark.parametrize("bad", [0, -1])
def test_no_circumference_is_refused(bad):
    with pytest.raises(RangeError):
        speed.wheel_rpm(100, bad)
    with pytest.raises(RangeError):
        speed.reading_after_change(100, 2000, bad)
    with pytest.raises(RangeError):
        speed.wheel_rpm(-1, 2000)
