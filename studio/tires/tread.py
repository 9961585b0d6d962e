"""Tread depth: what readings say, what is left, how fast it goes. Depths in one unit, mm or 32nds, unless named."""

import statistics
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from studio.tires.errors import RangeError, require_at_least_zero, require_positive
from studio.tires.units import in_32nds_from_mm, mm_from_32nds

__all__ = [
    "WearFit", "difference", "distance_to_limit", "fit_wear", "governing_depth", "in_32nds_from_mm", "mean_depth",
    "mm_from_32nds", "share_of_new_percent", "usable_percent", "wear_rate_per_1000",
]  # fmt: skip


def governing_depth(grooves: Iterable[Iterable[float | None]]) -> float:
    """The smallest reading of a tire, which the law looks at; readings not taken are None."""
    readings = [depth for groove in grooves for depth in groove if depth is not None]
    if not readings:
        raise RangeError("no depth was read, expected at least one reading such as 5/32 in")
    return min(readings)


def mean_depth(groove: Iterable[float | None]) -> float:
    """Mean of one groove's readings around the tire, which shows the wear pattern."""
    readings = [depth for depth in groove if depth is not None]
    if not readings:
        raise RangeError("no depth was read in this groove, expected at least one reading such as 5/32 in")
    return statistics.fmean(readings)


def difference(one: float, other: float) -> float:
    """How far two depths lie apart: across an axle, or the means of two grooves."""
    return abs(one - other)


def share_of_new_percent(new: float, depth: float) -> float:
    """Depth as a share of the depth when new; at the limit it is far from 0."""
    require_positive(new=new)
    require_at_least_zero(depth=depth)
    return depth / new * 100


def usable_percent(new: float, depth: float, limit: float) -> float:
    """Share of the tread above ``limit`` that is left: 0 at the limit, negative below it."""
    if not new > limit:
        raise RangeError(f"depth when new is {new:g}, expected more than the limit {limit:g}")
    return (depth - limit) / (new - limit) * 100


def wear_rate_per_1000(before: float, after: float, distance: float, least_wear: float = 0.0) -> float:
    """Depth lost over 1000 units of distance.

    Raises RangeError where the tread lost less than ``least_wear``: then the gauge, not the tire, would set the rate.
    """
    require_positive(distance=distance)
    lost = before - after
    if not lost > 0 or lost < least_wear:
        raise RangeError(f"the tread lost {lost:g}, too little to tell a rate; expected at least {least_wear:g}")
    return lost / distance * 1000


def distance_to_limit(depth: float, limit: float, rate_per_1000: float) -> float:
    """Distance until the depth reaches ``limit`` at a steady rate; 0 when it has already."""
    require_positive(rate_per_1000=rate_per_1000)
    return max(0.0, depth - limit) / rate_per_1000 * 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class WearFit:
    """A straight line through readings by least squares. ``scatter`` is the largest distance of a reading from it."""

    rate_per_1000: float
    depth_at_zero: float
    scatter: float
    readings: int


def fit_wear(distances: Sequence[float], depths: Sequence[float]) -> WearFit:
    """Fit a steady wear to readings (odometer, depth) by least squares. Raises RangeError where they show no wear."""
    if len(distances) != len(depths) or len(depths) < 2 or len(set(distances)) < 2:
        raise RangeError(f"{len(depths)} readings at {len(set(distances))} distances, expected at least two of each")
    slope, start = statistics.linear_regression(distances, depths)
    if not slope < 0:
        raise RangeError("the readings show no wear, expected depths that fall with distance")
    apart = (abs(depth - (start + slope * distance)) for distance, depth in zip(distances, depths, strict=True))
    return WearFit(rate_per_1000=-slope * 1000, depth_at_zero=start, scatter=max(apart), readings=len(depths))
