"""Tire dimensions from the size designation.

There are two overall diameters, and a name always says which is meant. *standard*: the design diameter of UN Regulation
30 section 6.1 and ISO 4000-1, from the section height rounded to whole mm and the conventional rim diameter.
*geometric*: unrounded, with the rim code times 25.4 mm. For 225/60R17 they are 702 mm and 701.8 mm.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from studio.tires.errors import RangeError, require_positive
from studio.tires.marking import Construction, Marking
from studio.tires.units import MM_PER_INCH, MM_PER_KM, MM_PER_MILE


def half_up(value: float) -> int:
    """The nearest whole number, halves upward as the standards round: 112.5 gives 113."""
    return math.floor(value + 0.5)


def section_height_mm(width_mm: float, aspect_percent: float) -> float:
    """Section height, unrounded: width times aspect ratio (the definition of the aspect ratio)."""
    return width_mm * aspect_percent / 100


def standard_section_height_mm(width_mm: int, aspect_percent: int) -> int:
    """Section height in whole mm, halves upward (UN R30 6.1.2; the tie rule is not in its text)."""
    return (width_mm * aspect_percent + 50) // 100


def standard_overall_diameter_mm(width_mm: int, aspect_percent: int, rim_mm: int) -> int:
    """Design overall diameter, ``rim_mm`` being the conventional diameter of the rim code (UN R30 6.1.2)."""
    return rim_mm + 2 * standard_section_height_mm(width_mm, aspect_percent)


def geometric_overall_diameter_mm(width_mm: float, aspect_percent: float, rim_in: float) -> float:
    """Overall diameter without any rounding: rim code times 25.4 mm plus two section heights."""
    return rim_in * MM_PER_INCH + 2 * section_height_mm(width_mm, aspect_percent)


def flotation_section_height_in(overall_diameter_in: float, rim_in: float) -> float:
    """Section height of a size such as 31x10.50R15LT, by its designation."""
    return (overall_diameter_in - rim_in) / 2


def equivalent_aspect_percent(section_height: float, section_width: float) -> float:
    """Aspect ratio of a size that prints none; both lengths in one unit."""
    require_positive(section_width=section_width)
    return section_height / section_width * 100


def least_permitted_diameter_mm(rim_mm: int, standard_height_mm: int, factor: float) -> float:
    """Smallest outer diameter of an approved tire (UN R30 6.1.5, factor 0.97)."""
    return rim_mm + 2 * standard_height_mm * factor


def largest_permitted_diameter_mm(rim_mm: int, standard_height_mm: int, factor: float) -> float:
    """Largest outer diameter of an approved normal radial tire (UN R30 6.1.5, factor 1.04)."""
    return rim_mm + 2 * standard_height_mm * factor


def theoretical_rim_width_mm(width_mm: float, rim_ratio: float) -> float:
    """Width of the theoretical rim, A1 in UN R30 6.1.1."""
    return width_mm * rim_ratio


def measuring_rim_in(width_mm: float, rim_ratio: float, step_in: float) -> float:
    """Width of the measuring rim: the theoretical one to the nearest step, half an inch."""
    require_positive(step_in=step_in)
    return half_up(theoretical_rim_width_mm(width_mm, rim_ratio) / MM_PER_INCH / step_in) * step_in


def section_width_on_rim_mm(width_mm: float, rim_width_in: float, rim_ratio: float, factor: float) -> int:
    """Section width on a rim of another width, in whole mm (UN R30 6.1.1.1, factor K 0.4)."""
    require_positive(rim_width_in=rim_width_in)
    rim_width_mm = rim_width_in * MM_PER_INCH
    return half_up(width_mm + factor * (rim_width_mm - theoretical_rim_width_mm(width_mm, rim_ratio)))


def section_width_change_mm(rim_width_change_in: float, factor: float) -> float:
    """How much the section width follows a change of rim width (UN R30 6.1.1.1)."""
    return factor * rim_width_change_in * MM_PER_INCH


def free_circumference_mm(overall_diameter_mm: float) -> float:
    """pi times the diameter: what a tape around the unloaded tire reads, never what it covers on the road."""
    require_positive(overall_diameter_mm=overall_diameter_mm)
    return math.pi * overall_diameter_mm


def rolling_circumference_mm(standard_diameter_mm: float, factor: float) -> float:
    """What the loaded tire covers in one turn at 60 km/h (ETRTO: 3.05, diagonal 2.99, times the design diameter)."""
    require_positive(standard_diameter_mm=standard_diameter_mm, factor=factor)
    return factor * standard_diameter_mm


def turns_per_km(circumference_mm: float) -> float:
    """Turns of the wheel in one kilometer."""
    require_positive(circumference_mm=circumference_mm)
    return MM_PER_KM / circumference_mm


def turns_per_mile(circumference_mm: float) -> float:
    """Turns of the wheel in one mile of 1609.344 m."""
    require_positive(circumference_mm=circumference_mm)
    return MM_PER_MILE / circumference_mm


def worn_diameter_mm(new_diameter_mm: float, new_depth_mm: float, depth_mm: float) -> float:
    """Diameter after the tread has worn from ``new_depth_mm`` to ``depth_mm``."""
    worn = new_diameter_mm - diameter_difference_mm(new_depth_mm - depth_mm)
    require_positive(worn_diameter_mm=worn)
    return worn


def diameter_difference_mm(depth_difference_mm: float) -> float:
    """Difference of diameter that a difference of tread depth makes: twice as much."""
    return 2 * depth_difference_mm


def circumference_difference_mm(depth_difference_mm: float) -> float:
    """Difference of free circumference that a difference of tread depth makes: 2 pi times as much."""
    return 2 * math.pi * depth_difference_mm


def depth_difference_for_circumference_mm(circumference_difference: float) -> float:
    """Difference of tread depth behind a difference of free circumference, in the unit of the argument."""
    return circumference_difference / (2 * math.pi)


def depth_difference_for_diameter_mm(diameter_difference: float) -> float:
    """Difference of tread depth behind a difference of diameter, in the unit of the argument."""
    return diameter_difference / 2


def change_percent(before: float, after: float) -> float:
    """How much larger ``after`` is than ``before``, in percent: of diameters, circumferences, or any two lengths."""
    require_positive(before=before)
    return (after / before - 1) * 100


def mismatch_percent(one: float, other: float) -> float:
    """How much faster the smaller of two tires turns, in percent: the larger length over the smaller one."""
    return change_percent(min(one, other), max(one, other))


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimensions:
    """The dimensions of one marked size. ``standard`` values are None where the standard's formula does not apply.

    ``rolling_diameter_mm`` is the diameter that the rolling circumference was taken from, ``rolling_basis`` says in
    words how, ``notes`` what was assumed.
    """

    section_width_mm: float
    aspect_percent: float
    section_height_mm: float
    standard_section_height_mm: int | None
    rim_in: float
    rim_mm: int | None
    standard_overall_diameter_mm: int | None
    geometric_overall_diameter_mm: float
    rolling_diameter_mm: float
    rolling_factor: float
    rolling_basis: str
    notes: tuple[str, ...] = ()

    @property
    def free_circumference_mm(self) -> float:
        """pi times the geometric diameter."""
        return free_circumference_mm(self.geometric_overall_diameter_mm)

    @property
    def rolling_circumference_mm(self) -> float:
        """What one turn covers on the road, by the rolling factor."""
        return rolling_circumference_mm(self.rolling_diameter_mm, self.rolling_factor)


def dimensions(
    marking: Marking,
    *,
    rim_mm: Mapping[float, int],
    rolling_factors: Mapping[Construction, float],
    full_profile_aspect_percent: int,
) -> Dimensions:
    """The dimensions of a marking.

    ``rim_mm`` gives the conventional diameter by rim code, ``rolling_factors`` the rolling factor by construction
    (tables ``rim_code`` and ``rolling``), ``full_profile_aspect_percent`` the aspect of sizes that print none.
    """
    factor = rolling_factors.get(marking.construction)
    if factor is None:
        raise RangeError(f"no rolling factor for a {marking.construction} tire, only for {', '.join(rolling_factors)}")
    if marking.kind == "flotation":
        return _flotation_dimensions(marking, rim_mm, factor)
    return _metric_dimensions(marking, rim_mm, factor, full_profile_aspect_percent)


def _metric_dimensions(
    marking: Marking, rims: Mapping[float, int], factor: float, full_profile_aspect_percent: int
) -> Dimensions:
    assert marking.width_mm is not None, "a metric marking has its width"
    full_profile = marking.aspect_percent is None
    aspect = full_profile_aspect_percent if marking.aspect_percent is None else marking.aspect_percent
    rim = rims.get(marking.rim_diameter_in)
    standard = None if rim is None or full_profile else standard_overall_diameter_mm(marking.width_mm, aspect, rim)
    geometric = geometric_overall_diameter_mm(marking.width_mm, aspect, marking.rim_diameter_in)
    notes = (f"no aspect ratio printed: about {aspect} % assumed",) if full_profile else ()
    return Dimensions(
        section_width_mm=marking.width_mm, aspect_percent=aspect,
        section_height_mm=section_height_mm(marking.width_mm, aspect),
        standard_section_height_mm=None if full_profile else standard_section_height_mm(marking.width_mm, aspect),
        rim_in=marking.rim_diameter_in, rim_mm=rim, standard_overall_diameter_mm=standard,
        geometric_overall_diameter_mm=geometric, rolling_diameter_mm=geometric if standard is None else standard,
        rolling_factor=factor, rolling_basis=_basis(factor, marking, "design" if standard is not None else "geometric"),
        notes=notes,
    )  # fmt: skip


def _flotation_dimensions(marking: Marking, rims: Mapping[float, int], factor: float) -> Dimensions:
    assert marking.overall_diameter_in is not None and marking.section_width_in is not None, (
        "a flotation marking has both"
    )
    height_in = flotation_section_height_in(marking.overall_diameter_in, marking.rim_diameter_in)
    diameter = marking.overall_diameter_in * MM_PER_INCH
    return Dimensions(
        section_width_mm=marking.section_width_in * MM_PER_INCH,
        aspect_percent=equivalent_aspect_percent(height_in, marking.section_width_in),
        section_height_mm=height_in * MM_PER_INCH, standard_section_height_mm=None, rim_in=marking.rim_diameter_in,
        rim_mm=rims.get(marking.rim_diameter_in), standard_overall_diameter_mm=None,
        geometric_overall_diameter_mm=diameter, rolling_diameter_mm=diameter, rolling_factor=factor,
        rolling_basis=_basis(factor, marking, "nominal"),
        notes=("dimensions by the designation; a year book's table sets the real ones",),
    )  # fmt: skip


def _basis(factor: float, marking: Marking, diameter: str) -> str:
    return f"{factor:g} x {diameter} diameter, {marking.construction} tire at 60 km/h"
