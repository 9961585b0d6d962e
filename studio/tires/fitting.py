"""Which sizes fit a wheel: those of a rim diameter within a band of diameter, the load index they need, the rim width.

Sizes are found by arithmetic alone: whether anybody makes one, and with which load index, is another matter.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from studio.tires.errors import RangeError, require_at_least_zero, require_positive
from studio.tires.geometry import change_percent, geometric_overall_diameter_mm
from studio.tires.units import MM_PER_INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A metric size on a rim, its geometric overall diameter, and how far that is from the one asked for."""

    width_mm: int
    aspect_percent: int
    rim_in: float
    diameter_mm: float
    change_percent: float

    @property
    def size(self) -> str:
        """The size as a radial tire's sidewall prints it: ``225/55R18``."""
        return f"{self.width_mm}/{self.aspect_percent}R{self.rim_in:g}"


def sizes_within(
    diameter_mm: float, band_percent: float, *, rim_in: float, widths_mm: Iterable[int], aspects_percent: Iterable[int]
) -> tuple[Fit, ...]:
    """The sizes on a rim whose diameter is within ``band_percent`` of ``diameter_mm``, the nearest diameter first.

    Equally near ones stand in the order of their widths, the narrower first.
    """
    require_positive(diameter_mm=diameter_mm, rim_in=rim_in)
    require_at_least_zero(band_percent=band_percent)
    aspects = tuple(aspects_percent)
    every = (_fit(width, aspect, rim_in, diameter_mm) for width in widths_mm for aspect in aspects)
    within = [fit for fit in every if abs(fit.change_percent) <= band_percent]
    return tuple(sorted(within, key=lambda fit: (abs(fit.change_percent), fit.width_mm)))


def _fit(width_mm: int, aspect_percent: int, rim_in: float, wanted_mm: float) -> Fit:
    diameter_mm = geometric_overall_diameter_mm(width_mm, aspect_percent, rim_in)
    return Fit(
        width_mm=width_mm, aspect_percent=aspect_percent, rim_in=rim_in, diameter_mm=diameter_mm,
        change_percent=change_percent(wanted_mm, diameter_mm),
    )  # fmt: skip


def least_load_index(load_kg: float, table: Mapping[int, float]) -> int:
    """The lowest load index that carries ``load_kg``; ``table`` is kg by index. Raises RangeError beyond the table."""
    enough = [index for index, kg in table.items() if kg >= load_kg - 1e-9]
    if not enough:
        raise RangeError(f"load is {load_kg:g} kg, the table of load indices ends at {max(table.values()):g} kg")
    return min(enough)


def rim_fits(rim_in: float, narrowest_in: float, widest_in: float) -> bool:
    """Whether a rim is within a rule of thumb, which is no finer than a tenth of an inch."""
    return round(narrowest_in, 1) <= rim_in <= round(widest_in, 1)


def rim_widths_in(width_mm: float, least_share: float, most_share: float) -> tuple[float, float]:
    """Narrowest and widest rim of a section width, in inches, by the rule of thumb of a share of it (0.65 to 0.90)."""
    require_positive(width_mm=width_mm, least_share=least_share)
    return width_mm * least_share / MM_PER_INCH, width_mm * most_share / MM_PER_INCH
