"""A coin lying flat in a groove is a feeler of known thickness; what a portrait shows is only custom."""

from studio.tires.errors import require_positive
from studio.tires.units import in_32nds_from_mm


def feeler_depth_32nds(thickness_mm: float) -> float:
    """The depth that a coin shows when it lies flat in a groove, level with the tread."""
    require_positive(thickness_mm=thickness_mm)
    return in_32nds_from_mm(thickness_mm)


def enters_groove(thickness_mm: float, groove_width_mm: float) -> bool:
    """Whether a coin on edge enters a groove at all: only one that is wider than the coin is thick."""
    require_positive(thickness_mm=thickness_mm, groove_width_mm=groove_width_mm)
    return groove_width_mm > thickness_mm
