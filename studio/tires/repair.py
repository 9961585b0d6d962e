"""Where a puncture can be repaired, and how long a cut may be. mm.

The crown is the central band of a tire, a share of its nominal section width that grows with the width (BS AU 159).
"""

from typing import NamedTuple

from studio.tires.errors import require_positive


class CrownShares(NamedTuple):
    """The shares of the section width, and the widths up to which the first two hold (mm)."""

    narrow: float
    middle: float
    wide: float
    narrow_to_mm: float
    middle_to_mm: float

    def share(self, section_width_mm: float) -> float:
        """The share that holds for a section width."""
        if section_width_mm <= self.narrow_to_mm:
            return self.narrow
        return self.middle if section_width_mm <= self.middle_to_mm else self.wide


def crown_width_mm(section_width_mm: float, shares: CrownShares) -> float:
    """Width of the crown, the whole band."""
    require_positive(section_width_mm=section_width_mm)
    return shares.share(section_width_mm) * section_width_mm


def crown_half_width_mm(section_width_mm: float, shares: CrownShares) -> float:
    """How far the crown reaches to either side of the tread's center line."""
    return crown_width_mm(section_width_mm, shares) / 2


def longest_cut_mm(section_width_mm: float | None, least_mm: float, share: float) -> float:
    """How long a cut may be: ``least_mm`` or ``share`` of the section width, whichever is more (UK C&U reg. 27)."""
    return least_mm if section_width_mm is None else max(least_mm, share * section_width_mm)
