"""Wheels that turn unequally: what the differentials, the shaft and a bend of the road make of it. rpm, mm, m."""

from studio.tires.errors import require_at_least_zero, require_positive
from studio.tires.units import METERS_PER_KM, MM_PER_KM


def axle_rpm(left_rpm: float, right_rpm: float) -> float:
    """Turns a minute of an open differential's case: the mean of its two wheels."""
    require_at_least_zero(left_rpm=left_rpm, right_rpm=right_rpm)
    return (left_rpm + right_rpm) / 2


def against_case_rpm(left_rpm: float, right_rpm: float) -> float:
    """Turns a minute that each wheel makes against the case of its open differential: half the difference."""
    return abs(left_rpm - right_rpm) / 2


def shaft_rpm(axle_turns_rpm: float, final_drive: float) -> float:
    """Turns a minute of the shaft before a final drive, of an axle's turns or of a difference of them."""
    require_positive(final_drive=final_drive)
    return axle_turns_rpm * final_drive


def bend_radius_m(track_mm: float, larger_mm: float, smaller_mm: float) -> float | None:
    """Radius of the bend, at the middle of the track, in which equal wheels would differ as these two do straight on.

    The wheels of an axle roll on circles of radius R + t/2 and R - t/2, so R = t/2 (q + 1)/(q - 1) with q the larger
    circumference over the smaller. None where the two are equal: a straight road.
    """
    require_positive(track_mm=track_mm, larger_mm=larger_mm, smaller_mm=smaller_mm)
    ratio = max(larger_mm, smaller_mm) / min(larger_mm, smaller_mm)
    return None if ratio == 1 else track_mm / 2 * (ratio + 1) / (ratio - 1) * METERS_PER_KM / MM_PER_KM
