"""The episode's governing reading, and what one coin, the wear bars or the gauge itself make of it."""

from typing import Literal

import msgspec

from studio.decide.audience import Audience
from studio.decide.gauge import Doubt
from studio.decide.measured import Measured, latest
from studio.decide.subjects import Subject, tires
from studio.model.episode import Episode
from studio.model.places import CORNERS
from studio.model.quantity import Quantity, depth
from studio.reference.rows import Coin
from studio.reference.tables import Tables

Shows = Literal["over", "under", "between", "unsure"]
_SAME_MM = 1e-9


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one instrument's answer depends on: ``name`` is a coin's id, ``bars`` or ``gauge``."""

    audience: Audience
    name: str
    subject: Subject
    on_car: bool
    tread: Measured

    @property
    def depth(self) -> Quantity:
        """The governing reading."""
        return self.tread.depth(self.tread.lowest.value)

    @property
    def words(self) -> str:
        """The tire that governs, in few words."""
        return self.subject.words if self.on_car else "the lowest tire"

    @property
    def at(self) -> str:
        """``front right at 4/32 in (3.2 mm)``."""
        return f"{self.words} at {self.audience.both(self.depth)}"


class Held(msgspec.Struct, frozen=True, kw_only=True):
    """The governing reading held against a depth that an instrument shows, from ``low`` to ``high``."""

    part: Part
    low: Quantity
    high: Quantity
    doubt: Doubt
    coin: Coin | None = None

    @property
    def shows(self) -> Shows:
        """On which side the reading is, as far as gauge and instrument tell."""
        read, sure = self.part.depth.to("mm").value, self.doubt.half_width.to("mm").value
        low, high = self.low.to("mm").value, self.high.to("mm").value
        if read - sure > high + _SAME_MM:
            return "over"
        if read + sure <= low + _SAME_MM:
            return "under"
        return "between" if low + _SAME_MM < read - sure and read + sure <= high + _SAME_MM else "unsure"

    @property
    def above(self) -> Quantity:
        """How far the reading is above the lower depth; negative under it."""
        return depth(self.part.depth.to("mm").value - self.low.to("mm").value, "mm")


def governing(episode: Episode) -> tuple[Subject, bool, Measured] | None:
    """The tire with the lowest reading: of those at the corners of the car, else of all; None where none was read."""
    read = [(tire, held) for tire in tires(episode)
            if (held := latest(tire.specimen, tire.subject.path, episode.on))]  # fmt: skip
    on_car = [(tire, held) for tire, held in read if tire.specimen.place in CORNERS]
    chosen = min(on_car or read, key=lambda pair: _lowest_mm(pair[1]), default=None)
    return None if chosen is None else (chosen[0].subject, bool(on_car), chosen[1])


def _lowest_mm(held: Measured) -> float:
    return held.depth(held.lowest.value).to("mm").value


def coins_of(region: str, tables: Tables) -> tuple[Coin, ...]:
    """The coins of a region with which the trade tests tread."""
    chain = tables.region_chain(region) if region in tables.regions else ()
    return tuple(coin for coin in tables.coins.values() if coin.region in chain and coin.test)
