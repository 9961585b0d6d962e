"""Words of the grid: what each groove is called, the least depth in it, what stands over the grid."""

from studio.model.quantity import Quantity, System, depth
from studio.model.specimen import Reading

_NAMES: dict[int, tuple[str, ...]] = {
    1: ("only",), 2: ("outer", "inner"), 3: ("outer", "center", "inner"),
    4: ("outer", "outer center", "inner center", "inner"),
}  # fmt: skip


def groove_words(groove: int, grooves: int) -> str:
    """What a groove is called, counted from the car's outer side: ``outer``, ``center``, ``inner``."""
    if names := _NAMES.get(grooves):
        return names[groove]
    return "outer" if groove == 0 else "inner" if groove == grooves - 1 else f"groove {groove + 1}"


def lowest(reading: Reading, groove: int) -> Quantity | None:
    """The lowest depth of a groove: the one that counts. None where nothing was read."""
    held = [value for value in reading.depths[groove] if value is not None] if groove < len(reading.depths) else []
    return depth(min(held), reading.unit) if held else None


def head_words(reading: Reading) -> str:
    """What stands over the grid: the unit, and the least depth of all in both units."""
    unit = "32nds of an inch" if reading.unit == "32nds" else "millimeters"
    found = [value for groove in range(len(reading.depths)) if (value := lowest(reading, groove))]
    least = min(found, key=lambda quantity: quantity.value, default=None)
    system: System = "us" if reading.unit == "32nds" else "metric"
    return f"Tread depth in {unit}" + (f"; least {least.both(system)}" if least else "")
