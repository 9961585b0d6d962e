"""The air in a tire: pressure against temperature and altitude, and when a warning lamp must light.

Constant volume and dry gas, in absolute quantities (Gay-Lussac). Pressures are gauge pressures, in the same unit as the
``atmosphere`` given (101.325 kPa or 14.696 psi at sea level); temperatures are absolute, in kelvin.
"""

from dataclasses import dataclass

from studio.tires.errors import RangeError, require_at_least_zero, require_positive


def pressure_at_temperature(pressure: float, from_k: float, to_k: float, atmosphere: float) -> float:
    """Gauge pressure after a change of temperature: the absolute pressure is what goes with the temperature."""
    return pressure_elsewhere(pressure, from_k, to_k, atmosphere, atmosphere)


def pressure_elsewhere(
    pressure: float, from_k: float, to_k: float, from_atmosphere: float, to_atmosphere: float
) -> float:
    """Gauge pressure after a change of temperature and of the air around; below 0 where less is inside than outside."""
    require_positive(from_k=from_k, to_k=to_k, from_atmosphere=from_atmosphere, to_atmosphere=to_atmosphere)
    require_at_least_zero(pressure=pressure)
    return (pressure + from_atmosphere) * to_k / from_k - to_atmosphere


def temperature_for_pressure(pressure: float, at_k: float, wanted: float, atmosphere: float) -> float:
    """Temperature in kelvin at which the same air shows ``wanted``."""
    require_positive(at_k=at_k, atmosphere=atmosphere)
    require_at_least_zero(pressure=pressure, wanted=wanted)
    return at_k * (wanted + atmosphere) / (pressure + atmosphere)


def wet_pressure_at_temperature(
    pressure: float, from_k: float, to_k: float, atmosphere: float, vapor_from: float, vapor_to: float
) -> float:
    """Gauge pressure after a change of temperature with liquid water inside; ``vapor`` is its saturation pressure."""
    return pressure_at_temperature(pressure - vapor_from, from_k, to_k, atmosphere) + vapor_to


def pressure_slope(pressure: float, at_k: float, step_k: float, atmosphere: float) -> float:
    """Change of gauge pressure for a small step of temperature: 10 F are 5.556 K."""
    require_positive(at_k=at_k, atmosphere=atmosphere)
    return (pressure + atmosphere) / at_k * step_k


def pressure_with_slope(slope: float, at_k: float, step_k: float, atmosphere: float) -> float:
    """Gauge pressure at which a step of temperature changes it by exactly ``slope``."""
    require_positive(at_k=at_k, step_k=step_k, atmosphere=atmosphere)
    return slope * at_k / step_k - atmosphere


@dataclass(frozen=True, slots=True, kw_only=True)
class Atmosphere:
    """A standard atmosphere below 11 km (U.S. Standard Atmosphere 1976)."""

    sea_level: float
    sea_level_k: float
    lapse_k_per_m: float
    molar_mass_kg_per_kmol: float
    gas_constant_j_per_kmol_k: float
    gravity_m_s2: float

    def pressure_at(self, altitude_m: float) -> float:
        """Pressure of the air at an altitude, in the unit of ``sea_level``. Raises RangeError above 11 km."""
        if not -1000 <= altitude_m <= 11_000:
            raise RangeError(f"altitude is {altitude_m:g} m, expected -1000 to 11000 m")
        exponent = (
            self.gravity_m_s2 * self.molar_mass_kg_per_kmol / (self.gas_constant_j_per_kmol_k * self.lapse_k_per_m)
        )
        ratio = 1 - self.lapse_k_per_m * altitude_m / self.sea_level_k
        return float(self.sea_level * ratio**exponent)


def gauge_gain_from_altitude(from_m: float, to_m: float, air: Atmosphere) -> float:
    """How much more a gauge shows at ``to_m`` than at ``from_m`` for the same tire at equal temperature."""
    return air.pressure_at(from_m) - air.pressure_at(to_m)


def lamp_pressure(placard: float, share: float, floor: float = 0.0) -> float:
    """Pressure at which the lamp must light: a share of the placard, or the floor if that is higher (FMVSS 138)."""
    require_positive(placard=placard)
    return max(placard * share, floor)


def fuel_loss_percent(mean_drop_psi: float, percent_per_psi: float) -> float:
    """Fuel economy lost when all four tires together are low by ``mean_drop_psi`` on average (US DOE/EPA guide)."""
    require_at_least_zero(mean_drop_psi=mean_drop_psi)
    return mean_drop_psi * percent_per_psi
