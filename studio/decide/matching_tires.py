"""Tires that should match, each as it rolls today: its mean depth, its worn diameter, what it covers in one turn.

Mean depths are compared, as a tire rolls on its whole tread; the lowest readings are for the law of ``tread_left``.
"""

import math
from functools import cached_property

import msgspec

from studio.decide.measured import Measured
from studio.decide.sizes import Size
from studio.decide.subjects import Subject
from studio.model.quantity import Quantity
from studio.model.specimen import Season, TreadPattern
from studio.tires.geometry import (
    circumference_difference_mm,
    mismatch_percent,
    rolling_circumference_mm,
    turns_per_mile,
    worn_diameter_mm,
)


class Worn(msgspec.Struct, frozen=True, kw_only=True, cache_hash=True):
    """A tire at its place: what a comparison reads of it."""

    subject: Subject
    marking: str
    season: Season
    pattern: TreadPattern
    depth_new: Quantity | None
    tread: Measured | None


class Rolling(msgspec.Struct, frozen=True, kw_only=True):
    """A tire as it rolls today. Diameter and circumference are None where its size is not known."""

    worn: Worn
    tread: Measured
    size: Size | None
    mean_mm: float
    lowest_mm: float
    doubt_mm: float
    diameter_mm: float | None

    @property
    def circumference_mm(self) -> float | None:
        """What one turn covers on the road."""
        if self.size is None or self.diameter_mm is None:
            return None
        return rolling_circumference_mm(self.diameter_mm, self.size.dimensions.rolling_factor)


class Compared(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """Two or more tires side by side. ``assumed`` says what was taken for granted."""

    tires: tuple[Rolling, ...]
    assumed: str = ""

    @cached_property
    def deepest(self) -> Rolling:
        """The tire with the largest mean depth."""
        return max(self.tires, key=lambda tire: tire.mean_mm)

    @cached_property
    def shallowest(self) -> Rolling:
        """The tire with the smallest mean depth."""
        return min(self.tires, key=lambda tire: tire.mean_mm)

    @cached_property
    def depth_mm(self) -> float:
        """Difference of the mean depths, the largest within the group."""
        return self.deepest.mean_mm - self.shallowest.mean_mm

    @cached_property
    def lowest_mm(self) -> float:
        """Difference of the lowest readings, the largest within the group."""
        lowest = [tire.lowest_mm for tire in self.tires]
        return max(lowest) - min(lowest)

    @cached_property
    def doubt_mm(self) -> float:
        """Half width of a difference of two depths: the root of the sum of squares of the two readings' own.

        The two are read one after the other, so their errors do not add up in full; taking the mean of several spots is
        not counted in favor, as one hand with one gauge repeats its own error.
        """
        return max(math.hypot(one.doubt_mm, other.doubt_mm) for one, other in _pairs(self.tires))

    @cached_property
    def diameters_mm(self) -> tuple[float, float] | None:
        """The smallest and the largest worn diameter; None where a size is not known."""
        known = [tire.diameter_mm for tire in self.tires if tire.diameter_mm is not None]
        return (min(known), max(known)) if len(known) == len(self.tires) else None

    @cached_property
    def tape_mm(self) -> float:
        """Difference of circumference by tape; where a size is not known, what the depths alone make."""
        if self.diameters_mm is None:
            return circumference_difference_mm(self.depth_mm)
        return math.pi * (self.diameters_mm[1] - self.diameters_mm[0])

    @cached_property
    def circumferences_mm(self) -> tuple[float, float] | None:
        """The smallest and the largest rolling circumference; None where a size is not known."""
        known = [tire.circumference_mm for tire in self.tires if tire.circumference_mm is not None]
        return (min(known), max(known)) if len(known) == len(self.tires) else None

    @cached_property
    def percent(self) -> float | None:
        """How much the largest rolling circumference exceeds the smallest."""
        return mismatch_percent(*self.circumferences_mm) if self.circumferences_mm else None

    @cached_property
    def diameter_percent(self) -> float | None:
        """How much the largest diameter exceeds the smallest."""
        return mismatch_percent(*self.diameters_mm) if self.diameters_mm else None

    @cached_property
    def turns_a_mile(self) -> float | None:
        """How many turns the smallest tire makes more in a mile."""
        if self.circumferences_mm is None:
            return None
        small, large = self.circumferences_mm
        return turns_per_mile(small) - turns_per_mile(large)


def _pairs(tires: tuple[Rolling, ...]) -> list[tuple[Rolling, Rolling]]:
    return [(one, other) for i, one in enumerate(tires) for other in tires[i + 1 :]]


class Reading(msgspec.Struct, frozen=True, kw_only=True):
    """A tire with what was read of it, before its wear is known."""

    worn: Worn
    tread: Measured
    size: Size | None
    doubt_mm: float

    @property
    def mean_mm(self) -> float:
        """The mean depth."""
        return self.tread.mean().to("mm").value


def compared(readings: tuple[Reading, ...]) -> Compared:
    """The tires side by side. Where a depth when new is not known, all are taken to have been equally deep when new."""
    new = [r.worn.depth_new.to("mm").value if r.worn.depth_new else None for r in readings]
    known = [depth_mm for depth_mm in new if depth_mm is not None]
    deepest = max(r.mean_mm for r in readings)
    wears = [n - r.mean_mm for n, r in zip(known, readings, strict=True)] if len(known) == len(readings) else None
    tires = tuple(
        _rolling(reading, wears[i] if wears else deepest - reading.mean_mm) for i, reading in enumerate(readings)
    )
    return Compared(tires=tires, assumed="" if wears else "Depths when new are not all known: taken as equal")


def _rolling(reading: Reading, wear_mm: float) -> Rolling:
    diameter = reading.size.dimensions.rolling_diameter_mm if reading.size else None
    return Rolling(
        worn=reading.worn, tread=reading.tread, size=reading.size, doubt_mm=reading.doubt_mm, mean_mm=reading.mean_mm,
        lowest_mm=reading.tread.depth(reading.tread.lowest.value).to("mm").value,
        diameter_mm=None if diameter is None else worn_diameter_mm(diameter, wear_mm, 0.0),
    )  # fmt: skip
