"""Distances that were projected, said no finer than they can be known."""

from studio.model.quantity import Quantity, System, UnitName

STEP = 100
_SMALL, _SMALL_STEP = 1000, 10


def about(value: float, unit: UnitName, system: System) -> Quantity:
    """A projected distance to the hundred (below a thousand to the ten) in the units of ``system``."""
    quantity = Quantity(value, unit).in_system(system)
    step = STEP if quantity.value >= _SMALL else _SMALL_STEP
    return Quantity(round(quantity.value / step) * step, quantity.unit)


def about_both(value: float, unit: UnitName, first: System) -> str:
    """The same in both systems, each rounded by itself: ``8200 km (5100 mi)``."""
    other: System = "metric" if first == "us" else "us"
    return f"{about(value, unit, first).text()} ({about(value, unit, other).text()})"
