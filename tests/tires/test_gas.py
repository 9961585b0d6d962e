"""Air in a tire against textbook relations and worked values of a real-gas library."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables, numbers
from studio.tires import gas, units
from studio.tires.errors import RangeError

PHYSICS = numbers(load_tables().physics)
PSI_ATMOSPHERE = 101.325 / 6.894757293168361
AIR = gas.Atmosphere(
    sea_level=101.325, sea_level_k=PHYSICS["atmosphere_sea_level_k"], lapse_k_per_m=PHYSICS["atmosphere_lapse_k_per_m"],
    molar_mass_kg_per_kmol=PHYSICS["air_molar_mass_kg_per_kmol"], gravity_m_s2=PHYSICS["gravity_m_s2"],
    gas_constant_j_per_kmol_k=PHYSICS["gas_constant_j_per_kmol_k"],
)  # fmt: skip


def fahrenheit(*degrees: float) -> tuple[float, ...]:
    return tuple(units.kelvin_from_fahrenheit(d) for d in degrees)


def celsius(*degrees: float) -> tuple[float, ...]:
    return tuple(units.kelvin_from_celsius(d) for d in degrees)


@pytest.mark.parametrize(
    ("start", "temperatures", "ideal", "real"),
    [(35, celsius(20, -10), 29.91, 29.87), (33, fahrenheit(70, 20), 28.50, 28.46),
     (32, fahrenheit(100, 0), 23.66, 23.60), (36, celsius(20, 50), 41.19, 41.23),
     (60, fahrenheit(70, 10), 51.54, 51.43)],
)  # fmt: skip
def test_ideal_gas_stays_close_to_real_air(start, temperatures, ideal, real):
    """``real`` is dry air at constant density from CoolProp 8.0.0, computed apart from this program."""
    ours = gas.pressure_at_temperature(start, *temperatures, PSI_ATMOSPHERE)
    assert ours == pytest.approx(ideal, abs=0.006)
    assert ours == pytest.approx(real, abs=0.12)


@given(st.floats(150, 400), st.floats(-40, 60), st.floats(-40, 60))
def test_absolute_pressure_over_temperature_is_kept(gauge_kpa, from_c, to_c):
    from_k, to_k = celsius(from_c, to_c)
    after = gas.pressure_at_temperature(gauge_kpa, from_k, to_k, 101.325)
    assert (after + 101.325) / to_k == pytest.approx((gauge_kpa + 101.325) / from_k)
    assert gas.pressure_at_temperature(after, to_k, from_k, 101.325) == pytest.approx(gauge_kpa)


@given(st.floats(20, 60), st.floats(-40, 140), st.floats(-40, 140))
def test_the_unit_does_not_matter(psi, from_f, to_f):
    kelvins = fahrenheit(from_f, to_f)
    in_kpa = gas.pressure_at_temperature(psi * units.KPA_PER_PSI, *kelvins, 101.325)
    assert gas.pressure_at_temperature(psi, *kelvins, PSI_ATMOSPHERE) * units.KPA_PER_PSI == pytest.approx(in_kpa)


@pytest.mark.parametrize(("psi", "slope"), [(30, 0.847), (32, 0.885), (35, 0.942), (44, 1.112), (60, 1.416)])
def test_the_rule_of_1_psi_per_10_f_holds_at_38_psi_only(psi, slope):
    at_68 = units.kelvin_from_fahrenheit(68)
    assert gas.pressure_slope(psi, at_68, 10 / 1.8, PSI_ATMOSPHERE) == pytest.approx(slope, abs=0.0006)
    assert gas.pressure_with_slope(1, at_68, 10 / 1.8, PSI_ATMOSPHERE) == pytest.approx(38.07, abs=0.005)


@pytest.mark.parametrize(("kpa", "slope"), [(220, 10.96), (250, 11.98), (290, 13.35)])
def test_the_slope_in_kpa_per_10_c(kpa, slope):
    assert gas.pressure_slope(kpa, 293.15, 10, 101.325) == pytest.approx(slope, abs=0.006)


def test_liquid_water_inside_raises_a_hot_tire_by_17_kpa():
    """250 kPa at 20 C: 315.2 kPa at 60 C wet, 297.9 kPa dry; saturation 2.34 and 19.95 kPa."""
    vapor = PHYSICS["water_vapor_20c_kpa"], PHYSICS["water_vapor_60c_kpa"]
    wet = gas.wet_pressure_at_temperature(250, *celsius(20, 60), 101.325, *vapor)
    dry = gas.pressure_at_temperature(250, *celsius(20, 60), 101.325)
    assert (wet, dry) == pytest.approx((315.2, 297.9), abs=0.06)


@pytest.mark.parametrize(("feet", "psi"), [(2000, 1.03), (5280, 2.60), (10_000, 4.59)])
def test_us_standard_atmosphere_1976_gauge_gain(feet, psi):
    gain = gas.gauge_gain_from_altitude(0, feet * 0.3048, AIR) / units.KPA_PER_PSI
    assert gain == pytest.approx(psi, abs=0.006)


@pytest.mark.parametrize(("meters", "kpa"), [(0, 101.325), (1000, 89.875), (5000, 54.020), (11_000, 22.632)])
def test_us_standard_atmosphere_1976_pressures_at_geopotential_heights(meters, kpa):
    """Tabulated pressures of the standard, recalled (from memory)."""
    assert AIR.pressure_at(meters) == pytest.approx(kpa, rel=2e-4)


@pytest.mark.parametrize("meters", [-1001, 11_001, float("nan")])
def test_outside_the_lowest_layer_no_pressure_is_given(meters):
    with pytest.raises(RangeError, match="expected -1000 to 11000 m"):
        AIR.pressure_at(meters)


@pytest.mark.parametrize(("placard", "floor", "lamp"), [(35, 20, 26.25), (26, 20, 20), (26, 0, 19.5)])
def test_49_cfr_571_138_s4_2_lamp(placard, floor, lamp):
    assert gas.lamp_pressure(placard, 0.75, floor) == lamp


@pytest.mark.parametrize(
    "call",
    [
        lambda: gas.pressure_at_temperature(35, 0, 300, 14.7),
        lambda: gas.pressure_at_temperature(35, 300, -1, 14.7),
        lambda: gas.pressure_at_temperature(-1, 300, 300, 14.7),
        lambda: gas.pressure_at_temperature(float("nan"), 300, 300, 14.7),
        lambda: gas.pressure_slope(35, 0, 5, 14.7),
        lambda: gas.pressure_with_slope(1, 293, 0, 14.7),
        lambda: gas.lamp_pressure(0, 0.75),
        lambda: gas.fuel_loss_percent(-1, 0.2),
    ],
)
def test_the_impossible_is_refused(call):
    with pytest.raises(RangeError, match="expected"):
        call()


@given(st.floats(150, 400), st.floats(-40, 60), st.floats(-40, 60), st.floats(50, 102), st.floats(50, 102))
def test_elsewhere_the_absolute_pressure_is_kept_whatever_the_air_outside(gauge_kpa, from_c, to_c, here, there):
    from_k, to_k = celsius(from_c, to_c)
    after = gas.pressure_elsewhere(gauge_kpa, from_k, to_k, here, there)
    assert (after + there) * from_k == pytest.approx((gauge_kpa + here) * to_k)


@given(st.floats(150, 400), st.floats(-40, 60), st.floats(150, 400))
def test_the_temperature_for_a_pressure_gives_that_pressure(gauge_kpa, at_c, wanted):
    (at_k,) = celsius(at_c)
    there = gas.temperature_for_pressure(gauge_kpa, at_k, wanted, 101.325)
    assert gas.pressure_at_temperature(gauge_kpa, at_k, there, 101.325) == pytest.approx(wanted)
