"""Tires' air against CoolProp: real dry air and nitrogen at constant density, from published equations of state.

CoolProp takes dry air from Lemmon et al. (2000) and nitrogen from Span et al. (2000). A tire's volume is taken as
constant, so the gas keeps its density.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.quantity import Quantity
from studio.model.specimen import PressureReading
from studio.tires import gas
from tests.decide.build import TABLES
from tests.decide.pressures import around, found, warm_or_cold

ATMOSPHERE_PA = 101_325.0
LARGEST_GAP = 0.01  # of the absolute pressure, over 100 K


def real_kpa(gauge_kpa: float, from_k: float, to_k: float, outside_pa: float = ATMOSPHERE_PA, fluid: str = "Air"):
    """Gauge pressure of a real gas held at the density that it has at the start."""
    from CoolProp.CoolProp import PropsSI  # here, as it takes seconds to load

    density = PropsSI("D", "P", gauge_kpa * 1000 + ATMOSPHERE_PA, "T", from_k, fluid)
    return (PropsSI("P", "D", density, "T", to_k, fluid) - outside_pa) / 1000


@given(st.floats(150, 420), st.floats(-30, 50), st.floats(-30, 70))
def test_the_ideal_gas_is_good_enough_for_a_gauge(gauge_kpa, from_c, to_c):
    from_k, to_k = from_c + 273.15, to_c + 273.15
    ours = gas.pressure_at_temperature(gauge_kpa, from_k, to_k, 101.325)
    assert ours + 101.325 == pytest.approx(real_kpa(gauge_kpa, from_k, to_k) + 101.325, rel=LARGEST_GAP)
    if abs(to_c - from_c) <= 40:  # a winter's change: well inside the 6.9 kPa (1 psi) that a gauge may be off
        assert ours == pytest.approx(real_kpa(gauge_kpa, from_k, to_k), abs=2)


@pytest.mark.parametrize(("kpa", "from_c", "to_c"), [(240, 20, -10), (230, 20, 0), (250, 20, 60), (420, 21, -12)])
def test_nitrogen_changes_as_dry_air_does(kpa, from_c, to_c):
    """The handbook's 0.002 psi."""
    air, nitrogen = (real_kpa(kpa, from_c + 273.15, to_c + 273.15, fluid=fluid) for fluid in ("Air", "Nitrogen"))
    assert nitrogen == pytest.approx(air, abs=0.002 * 6.894757)


@pytest.mark.parametrize(
    ("gauge", "unit", "at", "there", "climbs_to_m", "outside_pa"),
    [
        (36, "psi", (70, "degF"), (20, "degF"), 0.0, ATMOSPHERE_PA),
        (2.3, "bar", (20, "degC"), (-8, "degC"), 0.0, ATMOSPHERE_PA),
        (250, "kPa", (5, "degC"), (35, "degC"), 0.0, ATMOSPHERE_PA),
        (240, "kPa", (20, "degC"), (-5, "degC"), 1000.0, 89_875.0),
    ],
)
def test_the_findings_pressure_where_it_is_driven(gauge, unit, at, there, climbs_to_m, outside_pa):
    """The air at 1000 m is the standard atmosphere's 898.75 hPa (table of the standard, from memory)."""
    heights = {"filling_altitude": Quantity(0.0, "m"), "driving_altitude": Quantity(climbs_to_m, "m")}
    circumstances = around(driving_temperature=Quantity(*there), **heights)
    read = PressureReading(pressure=Quantity(gauge, unit), temperature=Quantity(*at))
    finding = found(read, circumstances=circumstances)
    from_k, to_k = (Quantity(*t).to("degC").value + 273.15 for t in (at, there))
    expected = real_kpa(Quantity(gauge, unit).to("kPa").value, from_k, to_k, outside_pa)
    assert Quantity(finding.value, finding.unit).to("kPa").value == pytest.approx(expected, abs=0.7)


@pytest.mark.parametrize(("warm_c", "cold_c"), [(20, -10), (22, -25), (15, 5)])
def test_what_is_set_in_the_garage_is_right_in_the_street(warm_c, cold_c):
    """Filled to what the finding says and cooled by the real gas, it stands at the placard's 240 kPa."""
    finding = warm_or_cold(warm_c, cold_c, placard_kpa=240)
    there = real_kpa(finding.value, warm_c + 273.15, cold_c + 273.15)
    assert there == pytest.approx(240, abs=0.7)
    assert TABLES.physics["atmosphere_kpa"].value * 1000 == ATMOSPHERE_PA
