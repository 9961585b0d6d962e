"""The air in a tire and around it: temperatures and altitudes of the episode as the gas law needs them.

Dry gas in a constant volume, on absolute pressure. Temperatures are those of the air around a tire that has stood in it
long enough to be as cold or as warm.
"""

import math

import msgspec

from studio.decide.wording import on_paper, paper_number
from studio.model.episode import Episode
from studio.model.quantity import MINUS, Quantity, System, format_number
from studio.reference.tables import Tables
from studio.tires import gas
from studio.tires.units import kelvin_from_celsius

_SAME_M = 1e-6
_STEPS = {"us": Quantity(10.0, "degF"), "metric": Quantity(10.0, "degC")}


class Around(msgspec.Struct, frozen=True, kw_only=True):
    """Where a tire is filled and read, and where it is driven, as far as the episode says."""

    filling_temperature: Quantity | None = None
    driving_temperature: Quantity | None = None
    filling_altitude: Quantity | None = None
    driving_altitude: Quantity | None = None

    @classmethod
    def of(cls, episode: Episode) -> "Around":
        """The surroundings of an episode."""
        its = episode.circumstances
        return cls(
            filling_temperature=its.filling_temperature, driving_temperature=its.driving_temperature,
            filling_altitude=its.filling_altitude, driving_altitude=its.driving_altitude,
        )  # fmt: skip

    @property
    def filled_at(self) -> Quantity | None:
        """The altitude at which tires are filled and read; where only the other one is given, that one."""
        return self.filling_altitude or self.driving_altitude

    @property
    def driven_at(self) -> Quantity | None:
        """The altitude at which they are driven; where only the other one is given, that one."""
        return self.driving_altitude or self.filling_altitude

    @property
    def climbs(self) -> bool:
        """Whether they are driven at another altitude than they are filled at."""
        here, there = self.filled_at, self.driven_at
        return here is not None and there is not None and abs(here.to("m").value - there.to("m").value) > _SAME_M

    @property
    def given(self) -> tuple[str, ...]:
        """Paths to what the episode says."""
        names = ("filling_temperature", "driving_temperature", "filling_altitude", "driving_altitude")
        return tuple(f"circumstances.{name}" for name in names if getattr(self, name) is not None)

    def assumed(self) -> str:
        """What is taken for granted about the altitude."""
        if self.filled_at is None:
            return "Assumed: filled, read and driven at sea level"
        if self.filling_altitude and self.driving_altitude:
            return "Assumed: read at the altitude of filling"
        return f"Assumed: filled, read and driven at {on_paper(self.filled_at)}"


class State(msgspec.Struct, frozen=True, kw_only=True):
    """A tire's air: its gauge pressure at a temperature, within an atmosphere."""

    pressure: Quantity
    temperature: Quantity
    atmosphere: Quantity

    @property
    def kelvin(self) -> float:
        """The absolute temperature."""
        return kelvin(self.temperature)

    @property
    def atmosphere_there(self) -> Quantity:
        """The atmosphere in the pressure's own unit."""
        return self.atmosphere.to(self.pressure.unit)

    def elsewhere(self, temperature: Quantity, atmosphere: Quantity) -> "State":
        """The same air at another temperature and altitude; a gauge shows no less than nothing."""
        unit = self.pressure.unit
        value = gas.pressure_elsewhere(
            self.pressure.value, self.kelvin, kelvin(temperature), self.atmosphere_there.value,
            atmosphere.to(unit).value,
        )  # fmt: skip
        return State(pressure=Quantity(max(value, 0.0), unit), temperature=temperature, atmosphere=atmosphere)

    def change_for(self, kelvins: float) -> float:
        """How much the pressure changes for a small step of temperature, in its own unit."""
        return gas.pressure_slope(self.pressure.value, self.kelvin, kelvins, self.atmosphere_there.value)

    def steps_to(self, other: "State") -> str:
        """``(35 psi + 14.696 psi) × 263.15 K / 293.15 K − 14.696 psi = 29.914 psi``."""
        outside, there = on_paper(self.atmosphere_there), on_paper(other.atmosphere_there)
        return (
            f"({on_paper(self.pressure)} + {outside}) × {_kelvins(other)} / {_kelvins(self)} {MINUS} {there} = "
            f"{on_paper(other.pressure)}"
        )


def step(units: System) -> tuple[Quantity, float]:
    """A step of temperature that the audience thinks in, and the same in kelvin."""
    mine = _STEPS[units]
    zero = Quantity(0.0, mine.unit)
    return mine, kelvin(mine) - kelvin(zero)


def kelvin(temperature: Quantity) -> float:
    """An absolute temperature."""
    return kelvin_from_celsius(temperature.to("degC").value)


def _kelvins(state: State) -> str:
    return f"{paper_number(Quantity(state.kelvin, ''))} K"


def atmosphere(altitude: Quantity | None, tables: Tables) -> Quantity:
    """The pressure of the air at an altitude (U.S. Standard Atmosphere 1976); at sea level where none is given."""
    if altitude is None:
        return Quantity(tables.physics["atmosphere_kpa"].value, "kPa")
    row = tables.physics
    air = gas.Atmosphere(
        sea_level=row["atmosphere_kpa"].value, sea_level_k=row["atmosphere_sea_level_k"].value,
        lapse_k_per_m=row["atmosphere_lapse_k_per_m"].value, gravity_m_s2=row["gravity_m_s2"].value,
        molar_mass_kg_per_kmol=row["air_molar_mass_kg_per_kmol"].value,
        gas_constant_j_per_kmol_k=row["gas_constant_j_per_kmol_k"].value,
    )  # fmt: skip
    return Quantity(air.pressure_at(altitude.to("m").value), "kPa")


def doubt_of(gauge: float, change: float) -> float:
    """Half width of a computed pressure: gauge and temperature do not depend on each other, so by squares."""
    return math.hypot(gauge, change)


def whole_percent(share: float) -> str:
    """``55 %``."""
    return f"{format_number(100 * share, 0)} %"
