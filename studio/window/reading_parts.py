"""Parts of a reading as the sheet shows them: read out of it, and put into it. Pure functions."""

from msgspec.structs import replace

from studio.decide.wording import day_words
from studio.model.quantity import Quantity, depth
from studio.model.specimen import DepthUnit, PressureReading, Reading
from studio.window.grid_words import lowest
from studio.window.reading_subject import resized


def pressure_of(reading: Reading) -> Quantity | None:
    """The pressure that was read."""
    return reading.pressure.pressure if reading.pressure else None


def with_pressure(reading: Reading, pressure: Quantity | None) -> Reading:
    """The reading with this pressure; temperature and cold stay as they are."""
    if pressure is None:
        return replace(reading, pressure=None)
    held = reading.pressure or PressureReading(pressure=pressure)
    return replace(reading, pressure=replace(held, pressure=pressure))


def temperature_of(reading: Reading) -> Quantity | None:
    """The temperature at which the pressure was read."""
    return reading.pressure.temperature if reading.pressure else None


def with_temperature(reading: Reading, temperature: Quantity | None) -> Reading:
    """The reading with this temperature; raises ValueError where no pressure was read."""
    if reading.pressure is None:
        if temperature is None:
            return reading
        raise ValueError(f"{temperature.text()} was read; expected the pressure first, such as 35 psi")
    return replace(reading, pressure=replace(reading.pressure, temperature=temperature))


def is_cold(reading: Reading) -> bool:
    """Whether the pressure was read cold."""
    return reading.pressure is None or reading.pressure.cold


def with_cold(reading: Reading, cold: bool) -> Reading:
    """The reading with its pressure read cold or warm."""
    return replace(reading, pressure=replace(reading.pressure, cold=cold)) if reading.pressure else reading


def grooves_of(reading: Reading) -> int:
    """How many grooves the grid has."""
    return len(reading.depths)


def stations_of(reading: Reading) -> int:
    """How many places round the tire the grid has."""
    return max((len(groove) for groove in reading.depths), default=0)


def with_grooves(reading: Reading, count: int) -> Reading:
    """The reading with so many grooves."""
    return replace(reading, depths=resized(reading.depths, count, stations_of(reading) or 1))


def with_stations(reading: Reading, count: int) -> Reading:
    """The reading with so many places round the tire."""
    return replace(reading, depths=resized(reading.depths, grooves_of(reading) or 1, count))


def in_unit(reading: Reading, unit: DepthUnit) -> Reading:
    """The reading with its depths kept in another unit."""
    depths = tuple(
        tuple(None if d is None else depth(d, reading.unit).to(unit).value for d in groove) for groove in reading.depths
    )
    return replace(reading, unit=unit, depths=depths)


def reading_words(reading: Reading) -> str:
    """A reading in a list: its day and its least depth."""
    found = [value for groove in range(len(reading.depths)) if (value := lowest(reading, groove))]
    least = min(found, key=lambda quantity: quantity.value, default=None)
    return f"{day_words(reading.on)}, least {least.text()}" if least else f"{day_words(reading.on)}, no depths"
