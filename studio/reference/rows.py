"""The typed rows of the reference tables: a class a kind of table, a field a column.

A class says all there is to say about its table: the columns are its fields (``rename`` where a column has a name that
is no good name for a field), the first of them tells the rows apart, and its types say what a cell may hold.
"""

from collections.abc import Mapping
from typing import Annotated, Literal

import msgspec
from msgspec import Meta

from studio.model import specimen
from studio.model.finding import Act
from studio.model.quantity import Kind, Quantity, System, UnitName
from studio.model.source import Source

CoinLandmark = Literal["head", "house", "ring", "none"]
Wear = Literal["low", "mid", "high", ""]
Calling = Literal["watch", "rotate", "inspect", "replace"]
"""A verdict that a table may call for: that a tire can be kept, or that nobody can tell, follows from readings only."""
Text = Annotated[str, Meta(min_length=1)]
Whole = Annotated[int, Meta(ge=0)]


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """What every row has: where it comes from."""

    source: Source


class Value(Row, frozen=True, kw_only=True):
    """One named number. ``key`` ends in the unit where it has one."""

    key: Text
    value: float
    unit: str
    means: Text


class Rule(Row, frozen=True, kw_only=True):
    """One rule or piece of advice in words, for a region or ``any``; with a number where the rule has one."""

    id: Text
    region: Text
    value: float | None
    unit: str
    wording: Text


class SpeedException(Rule, frozen=True, kw_only=True):
    """Where winter tires may have a lower speed symbol; ``mark`` is what they must bear for it, if anything."""

    mark: str


class LoadIndex(Row, frozen=True, kw_only=True):
    """The load of one tire, single fitment, at its reference pressure."""

    load_index: Whole
    load_kg: Annotated[float, Meta(gt=0)]


class SpeedSymbol(Row, frozen=True, kw_only=True):
    """A speed symbol. ``conventional_mph`` is the round figure that the trade prints."""

    symbol: Text
    speed_kmh: float
    conventional_mph: Whole
    note: str


class RimCode(Row, frozen=True, kw_only=True):
    """A nominal rim diameter code (inches) and its conventional diameter."""

    code: float
    diameter_mm: Whole


class Region(Row, frozen=True, kw_only=True, rename={"id": "region"}):
    """A place with rules of its own; what it lacks is looked up at ``parent``."""

    id: Text
    name: Text
    units: System
    spelling: Literal["tire", "tyre"]
    parent: str


class TreadMinimum(Row, frozen=True, kw_only=True, rename={"since": "from"}):
    """A legal minimum depth. ``vehicle``, ``tires`` and ``binds`` say what it is for, the texts say it in words.

    ``starts`` and ``ends`` are its first and last day in a year, as month and day (``11-01``) or counted from Easter
    Sunday (``easter+7``); empty where it has no fixed days.
    """

    id: Text
    region: Text
    season: Literal["all", "winter"]
    value: float
    unit: UnitName
    vehicle: Text
    tires: Text
    applies_to: Text
    condition: str
    since: str
    until: str
    binds: Literal["any tire", "winter tires"]
    starts: str
    ends: str

    @property
    def depth(self) -> Quantity:
        """The limit as a depth, in the unit of the rule."""
        return Quantity(self.value, self.unit, "depth")


class TreadAdvice(Row, frozen=True, kw_only=True):
    """An advised depth for one kind of use: advice, not law."""

    id: Text
    region: Text
    season: Text
    value: float
    unit: UnitName
    wording: Text

    @property
    def depth(self) -> Quantity:
        """The advised depth, in the unit of the advice."""
        return Quantity(self.value, self.unit, "depth")


class NewDepth(Row, frozen=True, kw_only=True):
    """The usual range of depths of one kind of new tire."""

    kind: Text
    low: float
    high: float
    unit: UnitName
    wording: Text

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise ValueError(f"low {self.low:g} is above high {self.high:g}")


class MatchingRule(Rule, frozen=True, kw_only=True):
    """A rule on how alike tires must be. ``scope`` is axle, set, dual or car; ``level`` law, advice, typical ..."""

    scope: Text
    measure: Text
    level: Text


class RotationRule(Row, frozen=True, kw_only=True):
    """The rotation patterns that a trait of tire or car leaves, and why (``brief``: in a few words)."""

    trait: Text
    allows: tuple[str, ...]
    reason: Text
    brief: Text


class RotationOrder(Row, frozen=True, kw_only=True):
    """The patterns recommended for one drivetrain, best first."""

    drivetrain: Text
    patterns: tuple[str, ...]


class RotationInterval(Row, frozen=True, kw_only=True):
    """How often to rotate."""

    id: Text
    region: Text
    low: float
    high: float
    unit: UnitName
    wording: Text


class AgeAdvice(Row, frozen=True, kw_only=True):
    """Advice by age from manufacture; ``level`` is inspect, plan, replace or note."""

    id: Text
    region: Text
    level: Literal["inspect", "plan", "replace", "note"]
    from_years: float | None
    to_years: float | None
    wording: Text


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


class CoinRow(Row, frozen=True, kw_only=True):
    """One row of the table of coins: one fact of one coin, so that each has its own source."""

    coin: Text
    name: Text
    region: Text
    fact: Literal["diameter", "thickness", "test", "test_most"]
    value: float
    unit: UnitName
    wording: str
    over: str
    under: str
    landmark: Literal[CoinLandmark, ""]

    def __post_init__(self) -> None:
        if self.fact == "test" and not (self.over and self.under and self.landmark):
            raise ValueError("over, under and landmark must say what a test shows above and below its depth")


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

    symbol: Text
    full_load_to_kmh: float
    at_kmh: float
    percent: float


class RimRatio(Row, frozen=True, kw_only=True):
    """Theoretical rim width over section width, for aspects from ``aspect_from`` to ``aspect_to`` percent."""

    aspect_from: Whole
    aspect_to: Whole
    ratio: float


class Myth(Row, frozen=True, kw_only=True):
    """Something often said wrongly, and what is right."""

    id: Text
    said: Text
    correct: Text


class Bound(Row, frozen=True, kw_only=True):
    """What a quantity of an episode can be at all; outside it was misread or mistyped. ``expected`` gives examples."""

    quantity: Text
    kind: Kind
    low: float
    high: float
    unit: UnitName
    expected: Text

    def __post_init__(self) -> None:
        if self.low >= self.high:
            raise ValueError(f"low {self.low:g} is not below high {self.high:g}")


class BarrierKind(Row, frozen=True, kw_only=True):
    """A kind of fact that forbids acts. ``words`` name it (``{who}``, ``{what}`` filled in), ``remedy`` a sentence."""

    id: Text
    forbids: tuple[Act, ...]
    verdict: Calling
    words: Text
    remedy: Text
    caution: Text


class WearPattern(Row, frozen=True, kw_only=True):
    """A wear pattern; inner, center and outer depth where they tell it, empty where only eye and hand do.

    ``verdict`` is what it calls for at least, ``brief`` names what to have checked, ``look`` who must look.
    """

    id: Text
    name: Text
    inner: Wear
    center: Wear
    outer: Wear
    verdict: Calling
    brief: Text
    cause: Text
    check: Text
    look: Text


class DamageKind(Row, frozen=True, kw_only=True):
    """One kind of damage: what it calls for at least, what it means, what must not be done, who must look."""

    kind: specimen.DamageKind
    verdict: Calling
    brief: Text
    meaning: Text
    brief_meaning: Text
    """The meaning as a picture has room for it."""
    avoid: Text
    look: Text


def numbers(values: Mapping[str, Value]) -> dict[str, float]:
    """The bare numbers of a table of named values, for the formulas that take many of them."""
    return {key: row.value for key, row in values.items()}
