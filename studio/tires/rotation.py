"""Rotation patterns as maps of places, and which of them a car and its tires allow.

The names are the trade's (common practice, no source). The forward cross is also the map of the US treadwear test
course (49 CFR 575.104(e)).
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Generic, Protocol, TypeVar

LEFT = ("front_left", "rear_left")
RIGHT = ("front_right", "rear_right")
FRONT = ("front_left", "front_right")
REAR = ("rear_left", "rear_right")
SPARE = "spare"

Item = TypeVar("Item")


@dataclass(frozen=True, slots=True)
class Pattern:
    """One pattern: ``moves[place]`` is where the wheel that stands at ``place`` goes."""

    id: str
    moves: Mapping[str, str]

    @property
    def inverse(self) -> Mapping[str, str]:
        """The map that undoes the pattern."""
        return MappingProxyType({there: here for here, there in self.moves.items()})

    @property
    def cycles(self) -> tuple[tuple[str, ...], ...]:
        """The closed rounds that wheels travel, each from its first place on."""
        rounds: list[tuple[str, ...]] = []
        for start in self.moves:
            if not any(start in known for known in rounds):
                rounds.append(_round(self.moves, start))
        return tuple(rounds)

    @property
    def changing_sides(self) -> tuple[str, ...]:
        """Places whose wheel crosses to the other side, so that it rolls the other way round."""
        return tuple(here for here, there in self.moves.items() if _side(here) and _side(there) == _other(_side(here)))

    @property
    def changing_axles(self) -> tuple[str, ...]:
        """Places whose wheel goes from one axle to the other."""
        return tuple(
            here for here, there in self.moves.items() if {here, there} & set(FRONT) and {here, there} & set(REAR)
        )

    @property
    def takes_spare(self) -> bool:
        """Whether the spare takes part."""
        return SPARE in self.moves

    def apply(self, at: Mapping[str, Item]) -> dict[str, Item]:
        """What stands where after the pattern; a place that the pattern does not name stays as it is."""
        return {self.moves.get(place, place): item for place, item in at.items()}


def _round(moves: Mapping[str, str], start: str) -> tuple[str, ...]:
    places = [start]
    while (following := moves[places[-1]]) != start:
        places.append(following)
    return tuple(places)


def _side(place: str) -> str:
    return "left" if place in LEFT else "right" if place in RIGHT else ""


def _other(side: str) -> str:
    return {"left": "right", "right": "left"}.get(side, "")


def _pattern(name: str, front_left: str, front_right: str, rear_left: str, rear_right: str, spare: str = "") -> Pattern:
    moves = {"front_left": front_left, "front_right": front_right, "rear_left": rear_left, "rear_right": rear_right}
    return Pattern(name, MappingProxyType(moves | ({SPARE: spare} if spare else {})))


PATTERNS: Mapping[str, Pattern] = MappingProxyType(
    {
        pattern.id: pattern
        for pattern in (
            _pattern("front_to_back", "rear_left", "rear_right", "front_left", "front_right"),
            _pattern("forward_cross", "rear_left", "rear_right", "front_right", "front_left"),
            _pattern("rearward_cross", "rear_right", "rear_left", "front_left", "front_right"),
            _pattern("x", "rear_right", "rear_left", "front_right", "front_left"),
            _pattern("side_to_side", "front_right", "front_left", "rear_right", "rear_left"),
            _pattern("five_wheel_forward_cross", "rear_left", "rear_right", "front_right", SPARE, "front_left"),
            _pattern("five_wheel_rearward_cross", "rear_right", SPARE, "front_left", "front_right", "rear_left"),
        )
    }
)


class TraitRule(Protocol):
    """What a trait of tire or car leaves: the patterns it allows, and the reason that rules out the others."""

    @property
    def trait(self) -> str: ...

    @property
    def allows(self) -> tuple[str, ...]: ...

    @property
    def reason(self) -> str: ...


Ruling = TypeVar("Ruling", bound=TraitRule)


@dataclass(frozen=True, slots=True)
class PatternChoice(Generic[Ruling]):
    """One pattern for one car: the rules that stand against it (none: it is permitted), and whether it is advised."""

    pattern: Pattern
    against: tuple[Ruling, ...]
    advised: bool

    @property
    def permitted(self) -> bool:
        """Whether no rule stands against the pattern."""
        return not self.against


def choose_patterns(
    traits: Iterable[str], rules: Sequence[Ruling], advised: Sequence[str]
) -> tuple[PatternChoice[Ruling], ...]:
    """Judge every pattern for a car with these traits, best first.

    ``traits`` name the tread, the sizes and the spare; without one of the spare's traits (``no_spare``,
    ``matching_spare`` ...) nothing stands against the patterns that take a spare in.
    ``rules`` are rows of the table ``rotation_rule``; ``advised`` are the patterns for the car's drivetrain, best first
    (table ``rotation_order``). Permitted ones come first, of these the advised. Raises ValueError for an unknown trait.
    """
    wanted = set(traits)
    if unknown := wanted - {rule.trait for rule in rules}:
        known = ", ".join(rule.trait for rule in rules)
        raise ValueError(f"trait {', '.join(sorted(unknown))} is not known; expected one of {known}")
    binding = [rule for rule in rules if rule.trait in wanted]
    choices = [
        PatternChoice(
            pattern, tuple(rule for rule in binding if pattern.id not in rule.allows), advised=pattern.id in advised
        )
        for pattern in PATTERNS.values()
    ]
    order = {name: rank for rank, name in enumerate(advised)}
    return tuple(sorted(choices, key=lambda choice: (not choice.permitted, order.get(choice.pattern.id, len(order)))))


def share_of_distance(pattern: Pattern) -> float:
    """Share of the car's distance that each tire rolls when the pattern is repeated: 4/5 with the spare taking part."""
    return 4 / len(pattern.moves)
