"""Conversion factors against a general units library and the exact definitions of NIST SP 811, Appendix B."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.tires import units

UNITS = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@pytest.mark.parametrize(
    ("factor", "of", "to"),
    [(units.MM_PER_INCH, "inch", "mm"), (units.MM_PER_32ND, "inch / 32", "mm"), (units.KM_PER_MILE, "mile", "km"),
     (units.KG_PER_POUND, "pound", "kg"), (units.KPA_PER_PSI, "psi", "kPa"), (units.KPA_PER_BAR, "bar", "kPa"),
     (units.MM_PER_KM, "km", "mm"), (units.MM_PER_MILE, "mile", "mm"), (units.METERS_PER_FOOT, "foot", "m"),
     (units.KM_PER_NAUTICAL_MILE, "nautical_mile", "km"), (units.SECONDS_PER_HOUR, "hour", "s"),
     (units.MINUTES_PER_HOUR, "hour", "minute"), (units.METERS_PER_KM, "km", "m")],
)  # fmt: skip
def test_factors_agree_with_a_units_library(factor, of, to):
    assert factor == pytest.approx(UNITS(of).to(to).magnitude, rel=1e-9)


def test_nist_sp_811_exact_definitions():
    assert (units.MM_PER_INCH, units.KG_PER_POUND, units.KM_PER_MILE) == (25.4, 0.45359237, 1.609344)
    assert units.MM_PER_32ND == 0.79375
    assert pytest.approx(6.894757, abs=5e-7) == units.KPA_PER_PSI


@given(st.floats(-60, 150))
def test_kelvin_agrees_with_a_units_library(degrees):
    assert units.kelvin_from_fahrenheit(degrees) == pytest.approx(UNITS.Quantity(degrees, "degF").to("K").magnitude)
    assert units.kelvin_from_celsius(degrees) == pytest.approx(UNITS.Quantity(degrees, "degC").to("K").magnitude)
