"""Load by index, pressure, speed and axle."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables
from studio.tires import load
from studio.tires.errors import RangeError

TABLES = load_tables()
ETRTO = load.PressureLaw(name="ETRTO", exponent=0.8, lowest_kpa=150)
P_METRIC = load.PressureLaw(name="TRA P-metric", exponent=0.5, lowest_kpa=150)


@pytest.mark.parametrize("index", range(50, 151))
def test_the_table_follows_its_rule_of_thumb_within_its_stated_error(index):
    """45 x 10^(LI/80), worst error 1.8 % over 50 to 150 (computed from the table of UN R30)."""
    rule = 45 * 10 ** (index / 80)
    assert load.approximate_load_kg(index, 45, 80) == pytest.approx(rule)
    assert TABLES.load_kg[index] == pytest.approx(rule, rel=0.0181)


def test_the_rule_of_thumb_is_worst_at_118():
    errors = {index: abs(45 * 10 ** (index / 80) / kg - 1) for index, kg in TABLES.load_kg.items()}
    assert max(errors, key=errors.__getitem__) == 118


@pytest.mark.parametrize("index", range(50, 71))
def test_eighty_steps_multiply_the_load_by_ten(index):
    """61, 63 and 67 are rounded down by half a kilogram (French order of 24 October 1994, Annex II)."""
    assert TABLES.load_kg[index] * 10 == pytest.approx(TABLES.load_kg[index + 80], abs=5)


@pytest.mark.parametrize("index", range(50, 150))
def test_each_step_carries_more(index):
    assert 1.015 < TABLES.load_kg[index + 1] / TABLES.load_kg[index] < 1.045


@pytest.mark.parametrize("index", [49, 151, 0, -1, 999])
def test_an_index_outside_the_table_is_refused(index):
    with pytest.raises(RangeError, match=f"load index {index} is not in the table, which runs from 50 to 150"):
        load.load_kg(index, TABLES.load_kg)


def test_etrto_table_for_load_index_91_to_its_5_kg_step():
    """515 kg at 200 kPa and 475 kg at 180 kPa (ETRTO table, from memory)."""
    at_200 = load.load_at_pressure_kg(615, 250, 200, ETRTO)
    at_180 = load.load_at_pressure_kg(615, 250, 180, ETRTO)
    assert (5 * round(at_200 / 5), 5 * round(at_180 / 5)) == (515, 475)


def test_the_snow_test_tire_confirms_the_p_metric_exponent():
    """P195/75R14: 468 kg is 85 % of the load at 180 kPa; rated 1400 lb at 240 kPa (ASTM F1805 load rule, restated)."""
    at_180 = load.load_at_pressure_kg(1400 * 0.45359237, 240, 180, P_METRIC)
    assert at_180 * 0.85 == pytest.approx(468, abs=1)


def test_extra_load_at_an_unchanged_pressure_carries_no_more():
    """LI 99 XL (775 kg at 290 kPa) and LI 95 (690 kg at 250 kPa), both at 220 kPa."""
    extra = load.load_at_pressure_kg(775, 290, 220, ETRTO)
    standard = load.load_at_pressure_kg(690, 250, 220, ETRTO)
    assert (extra, standard) == pytest.approx((621, 623), abs=0.6)


@given(
    st.floats(200, 1500),
    st.sampled_from([240.0, 250.0, 280.0, 290.0]),
    st.floats(0.7, 1),
    st.sampled_from([ETRTO, P_METRIC]),
)
def test_pressure_for_a_load_is_the_way_back(reference_kg, reference_kpa, share, law):
    kg = load.load_at_pressure_kg(reference_kg, reference_kpa, share * reference_kpa, law)
    assert load.pressure_for_load_kpa(reference_kg, reference_kpa, kg, law) == pytest.approx(share * reference_kpa)


@given(st.floats(150, 250), st.floats(200, 1500))
def test_below_the_reference_pressure_the_higher_exponent_is_the_cautious_one(pressure_kpa, reference_kg):
    etrto = load.load_at_pressure_kg(reference_kg, 250, pressure_kpa, ETRTO)
    assert etrto <= load.load_at_pressure_kg(reference_kg, 250, pressure_kpa, P_METRIC) <= reference_kg


@given(st.floats(250, 5000))
def test_above_the_reference_pressure_the_load_does_not_grow(pressure_kpa):
    assert load.load_at_pressure_kg(615, 250, pressure_kpa, ETRTO) == 615


@pytest.mark.parametrize("pressure_kpa", [149.9, 0, -10, math.nan])
def test_below_150_kpa_no_load_is_computed(pressure_kpa):
    with pytest.raises(RangeError, match="no load is computed below 150 kPa"):
        load.load_at_pressure_kg(615, 250, pressure_kpa, ETRTO)


def test_a_small_load_still_needs_the_lowest_pressure():
    assert load.pressure_for_load_kpa(615, 250, 10, ETRTO) == 150


def test_more_than_the_rating_needs_another_tire_not_more_pressure():
    with pytest.raises(RangeError, match="load is 616 kg, the tire carries 615 kg at most"):
        load.pressure_for_load_kpa(615, 250, 616, ETRTO)


@pytest.mark.parametrize(
    ("symbol", "speed_kmh", "percent"),
    [("V", 100, 100), ("V", 210, 100), ("V", 220, 97), ("V", 240, 91), ("W", 240, 100), ("W", 250, 95), ("W", 270, 85),
     ("Y", 270, 100), ("Y", 285, 92.5), ("Y", 300, 85)],
)  # fmt: skip
def test_un_r30_load_against_speed(symbol, speed_kmh, percent):
    """V falls 0.3 % and W 0.5 % per km/h (UN R30, restated in a chassis textbook); Y from memory."""
    row = TABLES.speed_derating[symbol]
    carried = load.load_at_speed_kg(1000, speed_kmh, row.full_load_to_kmh, row.at_kmh, row.percent)
    assert carried == pytest.approx(10 * percent)


def test_beyond_its_symbol_a_tire_carries_nothing_that_is_known():
    with pytest.raises(RangeError, match="speed is 241 km/h, the symbol ends at 240 km/h"):
        load.load_at_speed_kg(775, 241, 210, 240, 91)


def test_49_cfr_571_110_the_divisor_leaves_91_percent():
    """1/1.10 = 0.909: "91 % of rated load" (NHTSA letter nht76-1.47)."""
    assert load.divided_load_kg(1000, 1.10) == pytest.approx(909, abs=0.1)
    assert load.axle_capacity_kg(load.divided_load_kg(775, 1.10)) == pytest.approx(1409.1, abs=0.01)


def test_49_cfr_571_110_normal_load_on_an_mpv_is_taken_of_the_divided_rating():
    divided = load.divided_load_kg(775, 1.10)
    assert load.normal_load_limit_kg(divided, 0.94) == pytest.approx(775 / 1.1 * 0.94)


@pytest.mark.parametrize(("kpa", "psi"), [(240, 35), (280, 41), (300, 44), (340, 50), (350, 51)])
def test_49_cfr_571_139_s5_5_4_a_sidewall_pressures(kpa, psi):
    assert load.sidewall_psi(kpa) == psi


@pytest.mark.parametrize(("kg", "lb"), [(615, 1356), (690, 1521), (775, 1709), (1400, 3086)])
def test_49_cfr_571_139_s5_5_4_b_sidewall_loads(kg, lb):
    assert load.sidewall_lb(kg) == lb


@pytest.mark.parametrize("bad", [0, -1, math.nan])
def test_no_divisor_and_no_tires_are_refused(bad):
    with pytest.raises(RangeError):
        load.divided_load_kg(775, bad)
    with pytest.raises(RangeError):
        load.axle_capacity_kg(775, bad)
