"""What one visit with the gauge gave: the spots that were read, the lowest of them, the means."""

import datetime as dt
from functools import cached_property, lru_cache
from statistics import fmean

import msgspec

from studio.model.quantity import Quantity, depth
from studio.model.specimen import Reading, Specimen

_GROOVES = {1: ("only",), 2: ("outer", "inner"), 3: ("outer", "center", "inner")}
_ORDINALS = ("second", "third", "fourth", "fifth", "sixth", "seventh")


class Spot(msgspec.Struct, frozen=True):
    """One place in one groove, counted from 0, and what the gauge showed there, in the reading's own unit."""

    groove: int
    station: int
    value: float


class Measured(msgspec.Struct, frozen=True, kw_only=True, dict=True, cache_hash=True):
    """The depths of one reading; ``path`` leads to it. There is at least one spot."""

    path: str
    reading: Reading
    spots: tuple[Spot, ...]

    @cached_property
    def lowest(self) -> Spot:
        """The spot that governs: the minimum of all that were read (the first of equal ones)."""
        return min(self.spots, key=lambda spot: spot.value)

    def depth(self, value: float) -> Quantity:
        """A depth in the reading's own unit."""
        return depth(value, self.reading.unit)

    def groove_means(self) -> tuple[tuple[int, Quantity], ...]:
        """The mean of each groove that was read, with the groove's number."""
        by_groove = self._by_groove()
        return tuple((groove, self.depth(fmean(by_groove[groove]))) for groove in sorted(by_groove))

    def mean(self) -> Quantity:
        """The mean of the grooves' means, so that a groove read at more places counts no more than another."""
        return self._mean

    @cached_property
    def _mean(self) -> Quantity:
        return self.depth(fmean([fmean(values) for values in self._by_groove().values()]))

    def _by_groove(self) -> dict[int, list[float]]:
        values: dict[int, list[float]] = {}
        for spot in self.spots:
            values.setdefault(spot.groove, []).append(spot.value)
        return values

    def groove_name(self, groove: int) -> str:
        """``outer``, ``center``, ``inner``; with more than three grooves the ones between are counted inward."""
        count = len(self.reading.depths)
        if count in _GROOVES:
            return _GROOVES[count][groove]
        return "outer" if groove == 0 else "inner" if groove == count - 1 else _ORDINALS[groove - 1]

    def spot_words(self, spot: Spot) -> str:
        """``place 2 of the inner groove``."""
        return f"place {spot.station + 1} of the {self.groove_name(spot.groove)} groove"

    def spot_path(self, spot: Spot) -> str:
        """The path to the spot's depth."""
        return f"{self.path}.depths[{spot.groove}][{spot.station}]"


def known(specimen: Specimen, on: dt.date) -> tuple[tuple[int, Reading], ...]:
    """The readings taken up to ``on``, oldest first, each with its number in the specimen."""
    dated = [(i, reading) for i, reading in enumerate(specimen.readings) if reading.on <= on]
    return tuple(sorted(dated, key=lambda pair: pair[1].on))


@lru_cache(maxsize=512)
def measured(path: str, reading: Reading) -> Measured | None:
    """The reading's spots; None where it holds no depth."""
    spots = tuple(
        Spot(g, s, value)
        for g, groove in enumerate(reading.depths)
        for s, value in enumerate(groove)
        if value is not None
    )
    return Measured(path=path, reading=reading, spots=spots) if spots else None


@lru_cache(maxsize=128)
def history(specimen: Specimen, path: str, on: dt.date) -> tuple[Measured, ...]:
    """Every reading up to ``on`` that holds a depth, oldest first."""
    every = (measured(f"{path}.readings[{i}]", reading) for i, reading in known(specimen, on))
    return tuple(found for found in every if found is not None)


def latest(specimen: Specimen, path: str, on: dt.date) -> Measured | None:
    """The last reading up to ``on`` that holds a depth; of two on one day, the one entered last."""
    return next(reversed(history(specimen, path, on)), None)
