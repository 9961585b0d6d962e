"""Water on the road: when a tire floats, how deep the film is, how much water the tread meets.

No speed from here is a safe speed: grip is lost well below it, and each formula leaves out much of what matters.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import TypeVar

from studio.tires.errors import RangeError, require_at_least_zero, require_positive
from studio.tires.units import KPA_PER_PSI, METERS_PER_KM, SECONDS_PER_HOUR


def floating_speed(pressure_psi: float, factor: float) -> float:
    """``factor`` times the square root of the pressure (NASA TN D-2056: 9 for knots, 10.35 for mph; 7.7 kn standing).

    For a smooth tire, or water deeper than the tread: there is no tread depth, load or water depth in it.
    """
    require_positive(pressure_psi=pressure_psi, factor=factor)
    return factor * math.sqrt(pressure_psi)


def floating_speed_kmh(pressure_kpa: float, factor_kn: float, km_per_nautical_mile: float) -> float:
    """The same in kPa and km/h."""
    return floating_speed(pressure_kpa / KPA_PER_PSI, factor_kn) * km_per_nautical_mile


Numbers = TypeVar("Numbers", bound="_Named")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    """Coefficients that a table holds under the names of the fields, behind a prefix."""

    @classmethod
    def from_numbers(cls: type[Numbers], numbers: Mapping[str, float]) -> Numbers:
        """Take the coefficients from numbers by name, such as those of the table ``hydroplaning``."""
        return cls(**{field.name: numbers[field.name] for field in fields(cls)})


@dataclass(frozen=True, slots=True, kw_only=True)
class Gallaway(_Named):
    """Coefficients of the Gallaway formula, FHWA-RD-79-31 (1979) equation 16, and the ranges stated for it."""

    gallaway_spin_down_exponent: float
    gallaway_pressure_exponent: float
    gallaway_depth_exponent: float
    gallaway_a1_scale: float
    gallaway_a1_offset: float
    gallaway_a2_scale: float
    gallaway_a2_offset: float
    gallaway_water_exponent: float
    gallaway_texture_exponent: float
    stated_pressure_most_psi: float
    tested_pressure_least_psi: float
    tested_depth_most_32nds: float
    stated_water_least_in: float
    stated_water_most_in: float
    stated_texture_least_in: float
    stated_texture_most_in: float

    def branches(self, water_in: float, texture_in: float) -> tuple[float, float]:
        """The two candidates for the surface term A, of which the larger counts."""
        thinning = 1 / water_in**self.gallaway_water_exponent
        first = self.gallaway_a1_scale * thinning + self.gallaway_a1_offset
        rough = texture_in**self.gallaway_texture_exponent
        return first, (self.gallaway_a2_scale * thinning + self.gallaway_a2_offset) * rough

    def surface_term(self, water_in: float, texture_in: float) -> float:
        """The surface term A."""
        require_positive(water_in=water_in, texture_in=texture_in)
        return max(self.branches(water_in, texture_in))

    def speed_mph(
        self, *, spin_down_percent: float, pressure_psi: float, depth_32nds: float, water_in: float, texture_in: float
    ) -> float:
        """Speed at which the tire floats, in mph; 10 % spin-down is taken as the onset.

        ``water_in`` is the depth above the tips of the texture, ``texture_in`` the mean texture depth. Raises
        RangeError for water of no depth and other impossible numbers; ``beyond`` names those outside the tests.
        """
        require_positive(spin_down_percent=spin_down_percent, pressure_psi=pressure_psi)
        require_at_least_zero(depth_32nds=depth_32nds)
        surface = self.surface_term(water_in, texture_in)
        return float(
            spin_down_percent**self.gallaway_spin_down_exponent
            * pressure_psi**self.gallaway_pressure_exponent
            * (depth_32nds + 1) ** self.gallaway_depth_exponent
            * surface
        )

    def stated(self) -> tuple[tuple[str, float, float, str], ...]:
        """What the formula was stated for: name, lowest, highest, unit."""
        return (
            ("pressure", self.tested_pressure_least_psi, self.stated_pressure_most_psi, "psi"),
            ("tread depth", 0.0, self.tested_depth_most_32nds, "32nds of an inch"),
            ("water", self.stated_water_least_in, self.stated_water_most_in, "in"),
            ("texture", self.stated_texture_least_in, self.stated_texture_most_in, "in"),
        )

    def beyond(self, *, pressure_psi: float, depth_32nds: float, water_in: float, texture_in: float) -> tuple[str, ...]:
        """What lies outside the ranges stated for the formula, in words; empty where it may be shown as sure."""
        given = (pressure_psi, depth_32nds, water_in, texture_in)
        return tuple(
            f"{name} {value:g} {unit}, stated from {low:g} to {high:g}"
            for value, (name, low, high, unit) in zip(given, self.stated(), strict=True)
            if not low <= value <= high
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterFilm(_Named):
    """Coefficients of the Gallaway water film (FHWA-RD-79-31) and of the kinematic-wave form (NCHRP 1-29, PAVDRN)."""

    film_scale_in: float
    film_scale_mm: float
    film_texture_exponent: float
    film_length_exponent: float
    film_rain_exponent: float
    film_slope_exponent: float
    pavdrn_divisor: float
    pavdrn_exponent: float

    def above_texture_in(self, *, texture_in: float, path_ft: float, rain_in_per_h: float, slope: float) -> float:
        """Film above the texture in inches; below 0 the water stays within the texture."""
        return self._above(self.film_scale_in, texture_in, path_ft, rain_in_per_h, slope)

    def above_texture_mm(self, *, texture_mm: float, path_m: float, rain_mm_per_h: float, slope: float) -> float:
        """The same in mm, m and mm/h."""
        return self._above(self.film_scale_mm, texture_mm, path_m, rain_mm_per_h, slope)

    def _above(self, scale: float, texture: float, path: float, rain: float, slope: float) -> float:
        require_positive(texture=texture, path=path, slope=slope)
        require_at_least_zero(rain=rain)
        return float(
            scale
            * texture**self.film_texture_exponent
            * path**self.film_length_exponent
            * rain**self.film_rain_exponent
            * slope**self.film_slope_exponent
            - texture
        )

    def kinematic_mm(
        self, *, roughness: float, path_m: float, rain_mm_per_h: float, slope: float, texture_mm: float
    ) -> float:
        """Film above the texture in mm by the kinematic wave; ``roughness`` is Manning's n."""
        require_positive(roughness=roughness, path_m=path_m, slope=slope)
        require_at_least_zero(rain_mm_per_h=rain_mm_per_h, texture_mm=texture_mm)
        flow = roughness * path_m * rain_mm_per_h / (self.pavdrn_divisor * math.sqrt(slope))
        return float(flow**self.pavdrn_exponent - texture_mm)


def thin_film_speed_mph(film_in: float, scale_mph: float, exponent: float, below_in: float) -> float:
    """Floating speed on a thin film (PAVDRN: 26.04 x film^-0.259, below 0.1 in). Raises RangeError from there on."""
    require_positive(film_in=film_in)
    if not film_in < below_in:
        raise RangeError(f"film is {film_in:g} in, the thin-film line holds below {below_in:g} in")
    return float(scale_mph * film_in**exponent)


def water_met_l_per_s(width_mm: float, water_mm: float, speed_kmh: float) -> float:
    """Water in the tire's way in liters a second: width times depth times speed. A picture, no predictor."""
    require_at_least_zero(width_mm=width_mm, water_mm=water_mm, speed_kmh=speed_kmh)
    speed_m_s = speed_kmh * METERS_PER_KM / SECONDS_PER_HOUR
    return width_mm / 1000 * (water_mm / 1000) * speed_m_s * 1000


def groove_throughput_l_per_s(width_mm: float, depth_mm: float, void_ratio: float, speed_kmh: float) -> float:
    """What the grooves hold in passing, in liters a second: width times tread depth times void ratio times speed."""
    if not 0 <= void_ratio <= 1:
        raise RangeError(f"void ratio is {void_ratio:g}, expected 0 to 1, such as 0.3")
    return water_met_l_per_s(width_mm, depth_mm, speed_kmh) * void_ratio
