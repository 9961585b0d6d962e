"""Speed: symbols, turns of a wheel, and what a speedometer shows after a change of tires. km/h and mm."""

from collections.abc import Mapping

from studio.tires.errors import RangeError, require_at_least_zero, require_positive
from studio.tires.units import MINUTES_PER_HOUR, MM_PER_KM


def speed_kmh(symbol: str, table: Mapping[str, float]) -> float:
    """Speed of a symbol; ``table`` is km/h by symbol. Raises RangeError for an unknown one."""
    if symbol not in table:
        raise RangeError(f"speed symbol {symbol!r} is not in the table, expected one such as H")
    return table[symbol]


def symbols_slowest_first(table: Mapping[str, float]) -> tuple[str, ...]:
    """The symbols in the order of their speeds, which is not the alphabet's: H lies between U and V."""
    return tuple(sorted(table, key=lambda symbol: table[symbol]))


def not_slower(symbol: str, than: str, table: Mapping[str, float]) -> bool:
    """Whether a symbol reaches at least the speed of another."""
    return speed_kmh(symbol, table) >= speed_kmh(than, table)


def wheel_rpm(speed_kmh: float, circumference_mm: float) -> float:
    """Turns of a wheel in a minute."""
    require_positive(circumference_mm=circumference_mm)
    require_at_least_zero(speed_kmh=speed_kmh)
    return speed_kmh * MM_PER_KM / MINUTES_PER_HOUR / circumference_mm


def wheel_rpm_difference(speed_kmh: float, one_mm: float, other_mm: float) -> float:
    """How many turns a minute the wheel with the smaller circumference makes more."""
    return abs(wheel_rpm(speed_kmh, one_mm) - wheel_rpm(speed_kmh, other_mm))


def highest_reading_kmh(true_kmh: float, over_share: float, over_kmh: float) -> float:
    """Highest permitted speedometer reading (UN R39 5.3: 10 % and 4 km/h above true)."""
    require_at_least_zero(true_kmh=true_kmh)
    return true_kmh + over_share * true_kmh + over_kmh


def reading_allowed(reading_kmh: float, true_kmh: float, over_share: float, over_kmh: float) -> bool:
    """Whether a speedometer may read so (UN R39 5.3): never low, and not above the highest permitted reading."""
    return true_kmh <= reading_kmh <= highest_reading_kmh(true_kmh, over_share, over_kmh)


def reading_after_change(reading: float, before: float, after: float) -> float:
    """What the speedometer shows at the same true speed after a change of tires.

    ``before`` and ``after`` are circumferences or diameters, in one unit; a larger tire makes it read lower.
    """
    require_positive(before=before, after=after)
    return reading * before / after


def true_speed_after_change(reading: float, before: float, after: float) -> float:
    """True speed at a reading of a speedometer that was exact before a change of tires."""
    require_positive(before=before, after=after)
    return reading * after / before
