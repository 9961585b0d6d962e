"""Exact conversion factors, NIST SP 811 Appendix B (inch 25.4 mm, pound 0.45359237 kg, gravity 9.80665 m/s2)."""

from typing import Final

from studio.model.quantity import UNITS

MM_PER_INCH: Final = UNITS["in"].factor
MM_PER_32ND: Final = UNITS["32nds"].factor
KM_PER_MILE: Final = UNITS["mi"].factor
KG_PER_POUND: Final = UNITS["lb"].factor
KPA_PER_PSI: Final = UNITS["psi"].factor
KPA_PER_BAR: Final = UNITS["bar"].factor
MM_PER_KM: Final = 1_000_000.0
MM_PER_MILE: Final = KM_PER_MILE * MM_PER_KM
METERS_PER_FOOT: Final = 0.3048
KM_PER_NAUTICAL_MILE: Final = 1.852
SECONDS_PER_HOUR: Final = 3600.0
MINUTES_PER_HOUR: Final = 60.0
METERS_PER_KM: Final = 1000.0
CELSIUS_ZERO_K: Final = 273.15
FAHRENHEIT_ZERO_R: Final = 459.67
RANKINE_PER_KELVIN: Final = 1.8


def mm_from_32nds(depth_32nds: float) -> float:
    """A depth in 32nds of an inch, in mm; 2 gives 1.5875, which is not 1.6."""
    return depth_32nds * MM_PER_32ND


def in_32nds_from_mm(depth_mm: float) -> float:
    """A depth in mm, in 32nds of an inch."""
    return depth_mm / MM_PER_32ND


def kelvin_from_celsius(temperature_c: float) -> float:
    """An absolute temperature from degrees Celsius."""
    return temperature_c + CELSIUS_ZERO_K


def kelvin_from_fahrenheit(temperature_f: float) -> float:
    """An absolute temperature from degrees Fahrenheit."""
    return (temperature_f + FAHRENHEIT_ZERO_R) / RANKINE_PER_KELVIN
