"""A marking with all that follows from it: dimensions, what it carries, how fast it may turn, and their sources."""

from functools import lru_cache

import msgspec

from studio.decide.markings import read
from studio.decide.topic import remembered
from studio.model.quantity import Quantity, length
from studio.model.source import Source
from studio.reference.rows import LoadIndex, SpeedSymbol
from studio.reference.tables import Tables
from studio.tires.geometry import Dimensions, change_percent, dimensions, turns_per_km, turns_per_mile
from studio.tires.marking import Marking


class Size(msgspec.Struct, frozen=True, kw_only=True):
    """One marked size. ``load`` and ``speed`` are None where the marking or the table does not give them."""

    marking: Marking
    dimensions: Dimensions
    load: LoadIndex | None
    load_dual: LoadIndex | None
    speed: SpeedSymbol | None
    sources: tuple[Source, ...]

    @property
    def overall_diameter(self) -> Quantity:
        """The geometric diameter: rim code x 25.4 mm and two section heights, unrounded."""
        return length(self.dimensions.geometric_overall_diameter_mm)

    @property
    def circumference(self) -> Quantity:
        """pi times the geometric diameter: what a tape around the unloaded tire reads."""
        return length(self.dimensions.free_circumference_mm)

    @property
    def rolling_circumference(self) -> Quantity:
        """What one turn covers on the road."""
        return length(self.dimensions.rolling_circumference_mm)

    @property
    def turns_per_mile(self) -> Quantity:
        """Turns in a mile, from the rolling circumference."""
        return Quantity(turns_per_mile(self.dimensions.rolling_circumference_mm), "rev/mi")

    @property
    def turns_per_km(self) -> Quantity:
        """Turns in a kilometer, from the rolling circumference."""
        return Quantity(turns_per_km(self.dimensions.rolling_circumference_mm), "rev/km")

    @property
    def temporary(self) -> bool:
        """Whether it is a temporary spare."""
        return self.marking.service == "temporary"


def size_of(text: str, tables: Tables) -> Size | None:
    """The size that ``text`` marks, the same text from memory; None where it is no marking."""
    return _remembered(text, tables)


def _size_of(text: str, tables: Tables) -> Size | None:
    marking = read(text)
    return measure(marking, tables) if marking else None


_remembered = remembered(_size_of, most=256)


def measure(marking: Marking, tables: Tables) -> Size:
    """A read marking with what follows from it."""
    radial, diagonal = tables.rolling["radial_factor"], tables.rolling["diagonal_factor"]
    factor = radial if marking.construction == "radial" else diagonal
    found = dimensions(
        marking, rim_mm=tables.rim_mm, rolling_factors={marking.construction: factor.value},
        full_profile_aspect_percent=round(tables.design["full_profile_aspect_percent"].value),
    )  # fmt: skip
    load = _load(marking.load_index, tables)
    speed = tables.speed_symbol.get(marking.speed_symbol) if marking.speed_symbol else None
    rim = tables.rim_code.get(marking.rim_diameter_in)
    rows = (rim, factor, load, speed)
    return Size(
        marking=marking, dimensions=found, load=load, load_dual=_load(marking.load_index_dual, tables), speed=speed,
        sources=tuple(row.source for row in rows if row),
    )  # fmt: skip


def _load(index: int | None, tables: Tables) -> LoadIndex | None:
    return tables.load_index.get(index) if index is not None else None


@lru_cache(maxsize=256)
def same_size(one: Marking, other: Marking) -> bool:
    """Whether two markings name one size; what the tire carries and how fast it may turn is another matter."""
    return _size_fields(one) == _size_fields(other)


def _size_fields(marking: Marking) -> tuple[object, ...]:
    return (
        marking.kind, marking.prefix, marking.width_mm, marking.aspect_percent, marking.overall_diameter_in,
        marking.section_width_in, marking.construction, marking.rim_diameter_in, marking.suffix,
    )  # fmt: skip


class Against(msgspec.Struct, frozen=True, kw_only=True):
    """The placard's size and how the tire's own differs from it; ``shortfall`` names a rating below the placard's."""

    size: Size
    same: bool
    shortfall: str
    diameter_change: Quantity

    @property
    def agrees(self) -> bool:
        """Whether the tire is what the placard asks for."""
        return self.same and not self.shortfall


def compare(size: Size, placard: Size) -> Against:
    """A size held against the placard's."""
    before, after = placard.overall_diameter.value, size.overall_diameter.value
    return Against(
        size=placard, same=same_size(size.marking, placard.marking), shortfall=_shortfall(size, placard),
        diameter_change=Quantity(change_percent(before, after), "%"),
    )  # fmt: skip


def _shortfall(size: Size, placard: Size) -> str:
    if size.load and placard.load and size.load.load_kg < placard.load.load_kg:
        return f"load index {size.load.load_index}; the placard asks for {placard.load.load_index}"
    if size.speed and placard.speed and size.speed.speed_kmh < placard.speed.speed_kmh:
        return f"speed symbol {size.speed.symbol}; the placard asks for {placard.speed.symbol}"
    return ""
