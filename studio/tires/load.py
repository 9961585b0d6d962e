"""Load: by index, by pressure, by speed, on an axle, and as a sidewall prints it. kg and kPa throughout."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from studio.tires.errors import RangeError, require_at_least_zero, require_positive
from studio.tires.geometry import half_up
from studio.tires.units import KG_PER_POUND, KPA_PER_PSI


def load_kg(load_index: int, table: Mapping[int, float]) -> float:
    """Load of one tire by its index; ``table`` is kg by index. Raises RangeError for an index not in the table."""
    if load_index not in table:
        raise RangeError(f"load index {load_index} is not in the table, which runs from {min(table)} to {max(table)}")
    return table[load_index]


def approximate_load_kg(load_index: float, base_kg: float, steps: float) -> float:
    """The table's rule of thumb, ``base_kg`` x 10^(index / ``steps``): 45 and 80. Never instead of the table."""
    return float(base_kg * 10 ** (load_index / steps))


def axle_capacity_kg(load_kg: float, tires: int = 2) -> float:
    """What the tires of one axle carry together."""
    require_positive(tires=tires)
    return load_kg * tires


def divided_load_kg(load_kg: float, divisor: float) -> float:
    """Rating of a passenger tire on an MPV, truck, bus or trailer (49 CFR 571.110 S4.2.2.2, divisor 1.10)."""
    require_positive(divisor=divisor)
    return load_kg / divisor


def normal_load_limit_kg(load_kg: float, share: float) -> float:
    """Largest normal load on one tire (49 CFR 571.110 S4.2.1.2, 94 % of the rating at placard pressure)."""
    return load_kg * share


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureLaw:
    """Load goes with pressure to the power ``exponent``: 0.8 (ETRTO radial) or 0.5 (TRA P-metric).

    Below ``lowest_kpa`` nothing is computed; above the reference pressure the load stays what the index says.
    """

    name: str
    exponent: float
    lowest_kpa: float


def load_at_pressure_kg(reference_load_kg: float, reference_kpa: float, pressure_kpa: float, law: PressureLaw) -> float:
    """Load at a pressure; never more than at the reference pressure. Raises RangeError below ``law.lowest_kpa``."""
    require_positive(reference_load_kg=reference_load_kg, reference_kpa=reference_kpa)
    if not pressure_kpa >= law.lowest_kpa:
        raise RangeError(f"pressure is {pressure_kpa:g} kPa, no load is computed below {law.lowest_kpa:g} kPa")
    return float(reference_load_kg * min(1.0, pressure_kpa / reference_kpa) ** law.exponent)


def pressure_for_load_kpa(reference_load_kg: float, reference_kpa: float, load_kg: float, law: PressureLaw) -> float:
    """Least pressure that carries a load, at least ``law.lowest_kpa``. Raises RangeError for more than the rating."""
    require_positive(reference_load_kg=reference_load_kg, reference_kpa=reference_kpa)
    require_at_least_zero(load_kg=load_kg)
    if load_kg > reference_load_kg:
        raise RangeError(f"load is {load_kg:g} kg, the tire carries {reference_load_kg:g} kg at most")
    return max(law.lowest_kpa, float(reference_kpa * (load_kg / reference_load_kg) ** (1 / law.exponent)))


def load_at_speed_kg(load_kg: float, speed_kmh: float, full_load_to_kmh: float, at_kmh: float, percent: float) -> float:
    """Load at a speed (UN R30): full to one speed, ``percent`` at ``at_kmh``, linear between, nothing beyond."""
    if speed_kmh > at_kmh:
        raise RangeError(f"speed is {speed_kmh:g} km/h, the symbol ends at {at_kmh:g} km/h")
    if speed_kmh <= full_load_to_kmh:
        return load_kg
    fall = (100 - percent) * (speed_kmh - full_load_to_kmh) / (at_kmh - full_load_to_kmh)
    return load_kg * (1 - fall / 100)


def sidewall_psi(pressure_kpa: float) -> int:
    """A pressure as a sidewall prints it in psi: rounded up (49 CFR 571.139 S5.5.4(a))."""
    return math.ceil(pressure_kpa / KPA_PER_PSI)


def sidewall_lb(load_kg: float) -> int:
    """A load as a sidewall prints it in pounds: the nearest one (49 CFR 571.139 S5.5.4(b))."""
    return half_up(load_kg / KG_PER_POUND)
