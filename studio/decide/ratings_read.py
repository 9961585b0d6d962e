"""One axle's tires read against placard and axle rating: what each carries as filled, and all of them together."""

import msgspec

from studio.decide.audience import Audience
from studio.decide.carried import Carried, Refusal, carried
from studio.decide.filled import Filled, pressure_doubt
from studio.decide.ruled_out import RuledOut
from studio.decide.sizes import Size, size_of
from studio.decide.subjects import Subject
from studio.model.car import Certified, PlacardTire
from studio.model.places import Place
from studio.model.quantity import Quantity, UnitName
from studio.model.source import Source
from studio.model.specimen import Season
from studio.reference.tables import Tables

TITLES = {"front_axle": "Front tires", "rear_axle": "Rear tires"}
LABEL = Source(
    title="the vehicle's certification label", locator="axle rating, as entered", standing="published, restated"
)
_PAIR, _DUAL = 2, 4


class Fitted(msgspec.Struct, frozen=True, kw_only=True):
    """A tire at its place on the axle: what its ratings are read from."""

    subject: Subject
    marking: str
    season: Season
    filled: Filled | None
    out: RuledOut | None


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the ratings of one axle depend on; ``axle`` is front or rear."""

    audience: Audience
    name: str
    axle: str
    places: tuple[Place, ...]
    tires: tuple[Fitted, ...]
    placard: PlacardTire
    rating: Quantity | None
    certified: Certified | None
    dual: bool

    @property
    def title(self) -> str:
        """The tires as a sentence begins with them."""
        return TITLES[self.name]


class Wheel(msgspec.Struct, frozen=True, kw_only=True):
    """One tire with what it carries as filled, and what it would carry at the placard's pressure."""

    fitted: Fitted
    size: Size
    load: Carried | Refusal
    at_placard: Carried | Refusal | None

    @property
    def words(self) -> str:
        """The place in words."""
        return self.fitted.subject.words


class Axle(msgspec.Struct, frozen=True, kw_only=True):
    """The axle read: its wheels, the placard's size, and what the weaker wheel's load makes of them all.

    ``weakest`` is what the weaker tire carries, which is what each can be counted for; None where one is refused.
    ``doubt_kg`` is the half width of the capacity by the pressure gauge; None where the pressure was not read.
    """

    part: Part
    wheels: tuple[Wheel, ...]
    weakest: Carried | None
    placard: Size | None
    placard_load: Carried | None
    doubt_kg: float | None

    @property
    def count(self) -> int:
        """How many tires carry the axle."""
        return _DUAL if self.part.dual else _PAIR

    @property
    def refused(self) -> tuple[tuple[Wheel, Refusal], ...]:
        """The wheels for which no load is computed."""
        return tuple((wheel, wheel.load) for wheel in self.wheels if isinstance(wheel.load, Refusal))

    @property
    def capacity_kg(self) -> float | None:
        """What the axle's tires carry together as filled."""
        return self.count * self.weakest.each_kg if self.weakest else None

    @property
    def most_kg(self) -> float | None:
        """What they carry together at their reference pressures; None where an index is not known."""
        full = [_most(wheel.load) for wheel in self.wheels]
        known = [kg for kg in full if kg is not None]
        return self.count * min(known) if len(known) == len(full) else None

    @property
    def at_placard_kg(self) -> float | None:
        """What they would carry together at the placard's pressure."""
        loads = [wheel.at_placard for wheel in self.wheels if isinstance(wheel.at_placard, Carried)]
        if len(loads) < len(self.wheels):
            return None
        return self.count * min(load.each_kg for load in loads)

    @property
    def rating_kg(self) -> float | None:
        """The axle rating."""
        return self.part.rating.to("kg").value if self.part.rating else None

    @property
    def unit(self) -> UnitName:
        """The unit of the finding: that of the axle rating."""
        return self.part.rating.unit if self.part.rating else "kg"

    def load(self, load_kg: float) -> Quantity:
        """A load in the unit of the finding."""
        return Quantity(load_kg, "kg").to(self.unit)

    @property
    def read(self) -> bool:
        """Whether every tire's pressure was read, not taken from the placard."""
        return all(wheel.fitted.filled for wheel in self.wheels)


def _most(load: Carried | Refusal) -> float | None:
    return load.most_kg if isinstance(load, Carried) else load.full_kg


def read_part(part: Part, tables: Tables) -> Axle | None:
    """The axle; None while a tire or its marking is missing."""
    sizes = [(fitted, size) for fitted in part.tires if (size := size_of(fitted.marking, tables))]
    if len(sizes) < len(part.places):
        return None
    wheels = tuple(_wheel(part, fitted, size, tables) for fitted, size in sizes)
    placard = size_of(part.placard.marking, tables)
    asked = _carried(part, placard, part.placard.pressure, tables) if placard and part.placard.pressure else None
    loads = [wheel.load for wheel in wheels if isinstance(wheel.load, Carried)]
    weakest = min(loads, key=lambda load: load.each_kg) if len(loads) == len(wheels) else None
    return Axle(
        part=part, wheels=wheels, placard=placard, weakest=weakest, doubt_kg=_doubt_kg(part, wheels, tables),
        placard_load=asked if isinstance(asked, Carried) else None,
    )  # fmt: skip


def _wheel(part: Part, fitted: Fitted, size: Size, tables: Tables) -> Wheel:
    asked = part.placard.pressure
    at_placard = _carried(part, size, asked, tables) if asked else None
    if fitted.filled is not None:
        return Wheel(fitted=fitted, size=size, load=_carried(part, size, fitted.filled.pressure, tables),
                     at_placard=at_placard)  # fmt: skip
    load = at_placard or _not_filled(part, size, tables)
    return Wheel(fitted=fitted, size=size, load=load, at_placard=at_placard)


def _not_filled(part: Part, size: Size, tables: Tables) -> Refusal:
    """Without any pressure only the rating itself is known."""
    full = _carried(part, size, Quantity(tables.pressure["lowest_kpa"].value, "kPa"), tables)
    return Refusal(missing="a cold pressure", why="No cold pressure is known, nor the placard's", full_kg=_most(full))


def _carried(part: Part, size: Size, pressure: Quantity, tables: Tables) -> Carried | Refusal:
    return carried(size, pressure, part.certified, part.audience, tables, dual=part.dual)


def _doubt_kg(part: Part, wheels: tuple[Wheel, ...], tables: Tables) -> float | None:
    """How much less the axle would carry if the gauge read high by its doubt."""
    doubt, count = pressure_doubt(tables), _DUAL if part.dual else _PAIR
    found = []
    for wheel in wheels:
        if not isinstance(wheel.load, Carried) or wheel.fitted.filled is None:
            return None
        lower = Quantity(max(wheel.fitted.filled.kpa - doubt.kpa, wheel.load.basis.lowest.value), "kPa")
        less = _carried(part, wheel.size, lower, tables)
        found.append(wheel.load.each_kg - (less.each_kg if isinstance(less, Carried) else 0.0))
    return count * max(found)
