"""The typed rows of the reference tables. Each is made from one row of text and keeps its source."""

from collections.abc import Mapping
from typing import Literal

import msgspec

from studio.model.finding import Verdict
from studio.model.quantity import UNITS, Kind, Quantity, System, UnitName
from studio.model.source import Source
from studio.reference.table import RawRow

CoinLandmark = Literal["head", "house", "ring", "none"]
Wear = Literal["low", "mid", "high", ""]


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """What every row has: where it comes from."""

    source: Source


class Value(Row, frozen=True, kw_only=True):
    """One named number. ``key`` ends in the unit where it has one."""

    key: str
    value: float
    unit: str
    means: str


class Rule(Row, frozen=True, kw_only=True):
    """One rule or piece of advice in words, for a region or ``any``; with a number where the rule has one."""

    id: str
    region: str
    value: float | None
    unit: str
    wording: str


class SpeedException(Rule, frozen=True, kw_only=True):
    """Where winter tires may have a lower speed symbol; ``mark`` is what they must bear for it, if anything."""

    mark: str


class LoadIndex(Row, frozen=True, kw_only=True):
    """The load of one tire, single fitment, at its reference pressure."""

    load_index: int
    load_kg: float


class SpeedSymbol(Row, frozen=True, kw_only=True):
    """A speed symbol. ``conventional_mph`` is the round figure that the trade prints."""

    symbol: str
    speed_kmh: float
    conventional_mph: int
    note: str


class RimCode(Row, frozen=True, kw_only=True):
    """A nominal rim diameter code (inches) and its conventional diameter."""

    code: float
    diameter_mm: int


class Region(Row, frozen=True, kw_only=True):
    """A place with rules of its own; what it lacks is looked up at ``parent``."""

    id: str
    name: str
    units: System
    spelling: Literal["tire", "tyre"]
    parent: str


class TreadMinimum(Row, frozen=True, kw_only=True):
    """A legal minimum depth. ``vehicle`` and ``tires`` say what it binds, the texts say it in words."""

    id: str
    region: str
    season: Literal["all", "winter"]
    value: float
    unit: UnitName
    vehicle: str
    tires: str
    applies_to: str
    condition: str
    since: str
    until: str

    @property
    def depth(self) -> Quantity:
        """The limit as a depth, in the unit of the rule."""
        return Quantity(self.value, self.unit, "depth")


class TreadAdvice(Row, frozen=True, kw_only=True):
    """An advised depth for one kind of use: advice, not law."""

    id: str
    region: str
    season: str
    value: float
    unit: UnitName
    wording: str

    @property
    def depth(self) -> Quantity:
        """The advised depth, in the unit of the advice."""
        return Quantity(self.value, self.unit, "depth")


class NewDepth(Row, frozen=True, kw_only=True):
    """The usual range of depths of one kind of new tire."""

    kind: str
    low: float
    high: float
    unit: UnitName
    wording: str


class MatchingRule(Rule, frozen=True, kw_only=True):
    """A rule on how alike tires must be. ``scope`` is axle, set, dual or car; ``level`` law, advice, typical ..."""

    scope: str
    measure: str
    level: str


class RotationRule(Row, frozen=True, kw_only=True):
    """The rotation patterns that a trait of tire or car leaves, and why (``brief``: in a few words)."""

    trait: str
    allows: tuple[str, ...]
    reason: str
    brief: str


class RotationOrder(Row, frozen=True, kw_only=True):
    """The patterns recommended for one drivetrain, best first."""

    drivetrain: str
    patterns: tuple[str, ...]


class RotationInterval(Row, frozen=True, kw_only=True):
    """How often to rotate."""

    id: str
    region: str
    low: float
    high: float
    unit: UnitName
    wording: str


class AgeAdvice(Row, frozen=True, kw_only=True):
    """Advice by age from manufacture; ``level`` is inspect, plan, replace or note."""

    id: str
    region: str
    level: str
    from_years: float | None
    to_years: float | None
    wording: str


class CoinFact(Row, frozen=True, kw_only=True):
    """One dimension of a coin, or the depth that the trade says it shows.

    ``over`` and ``under`` say what a tread shows on the coin above that depth, and at it or below; ``landmark`` is what
    of the coin shows it.
    """

    value: float
    unit: UnitName
    wording: str
    over: str
    under: str
    landmark: CoinLandmark

    @property
    def depth(self) -> Quantity:
        """The depth, in the unit of the custom."""
        return Quantity(self.value, self.unit, "depth")


class Coin(msgspec.Struct, frozen=True, kw_only=True):
    """A coin: two mint dimensions and, where the trade agrees on one, a depth test. Each has a source of its own.

    ``test_most`` is how deep the coin's feature really reaches where that is more than the depth it is used for.
    """

    id: str
    name: str
    region: str
    diameter: CoinFact
    thickness: CoinFact
    test: CoinFact | None
    test_most: CoinFact | None = None


class SpeedDerating(Row, frozen=True, kw_only=True):
    """Load against speed for one symbol: full up to one speed, ``percent`` at another, linear between."""

    symbol: str
    full_load_to_kmh: float
    at_kmh: float
    percent: float


class RimRatio(Row, frozen=True, kw_only=True):
    """Theoretical rim width over section width, for aspects from ``aspect_from`` to ``aspect_to`` percent."""

    aspect_from: int
    aspect_to: int
    ratio: float


class Myth(Row, frozen=True, kw_only=True):
    """Something often said wrongly, and what is right."""

    id: str
    said: str
    correct: str


class Bound(Row, frozen=True, kw_only=True):
    """What a quantity of an episode can be at all; outside it was misread or mistyped. ``expected`` gives examples."""

    quantity: str
    kind: Kind
    low: float
    high: float
    unit: UnitName
    expected: str


class WearPattern(Row, frozen=True, kw_only=True):
    """A wear pattern; inner, center and outer depth where they tell it, empty where only eye and hand do.

    ``verdict`` is what it calls for at least, ``brief`` names what to have checked, ``look`` who must look.
    """

    id: str
    name: str
    inner: Wear
    center: Wear
    outer: Wear
    verdict: Verdict
    brief: str
    cause: str
    check: str
    look: str


class DamageKind(Row, frozen=True, kw_only=True):
    """One kind of damage: what it calls for at least, what it means, what must not be done, who must look."""

    kind: str
    verdict: Verdict
    brief: str
    meaning: str
    brief_meaning: str
    """The meaning as a picture has room for it."""
    avoid: str
    look: str


def unit_of(row: RawRow) -> UnitName:
    """The row's unit, which must be one the program can convert."""
    row.one_of("unit", [name for name in UNITS if name])
    unit: UnitName = msgspec.convert(row.cells["unit"], UnitName)
    return unit


def numbers(values: Mapping[str, Value]) -> dict[str, float]:
    """The bare numbers of a table of named values, for the formulas that take many of them."""
    return {key: row.value for key, row in values.items()}
