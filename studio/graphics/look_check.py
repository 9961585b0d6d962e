"""Whether a look can be read on a screen and told apart: each pair that matters, with what it has and what it needs.

Contrast by WCAG 2.2 (text 4.5, the deciding number 7, drawing 3); verdicts' fills by CIEDE2000 of at least 10 as seen
with each deficiency of Machado 2009. In grey the verdicts are told apart by their signs, so grey is only remarked on.
"""

import math
from collections.abc import Iterator
from itertools import combinations

import msgspec

from studio.graphics.color import contrast
from studio.graphics.color_vision import MATRICES, Deficiency, apart, lightness_apart
from studio.graphics.look_parts import VERDICTS, LookError, LookFile

TEXT, DECIDING, GRAPHIC, BODY = 4.5, 7.0, 3.0, 1.8
LEAST_APART = 10.0
LEAST_GREY = 10.0
SEEN: dict[Deficiency | None, str] = {
    None: "full colour vision", "protan": "red-blind (protan) vision", "deutan": "green-blind (deutan) vision",
    "tritan": "blue-blind (tritan) vision",
}  # fmt: skip


class Pair(msgspec.Struct, frozen=True):
    """A pair of colours by their names in the file, the contrast it has and the least it needs."""

    one: str
    other: str
    ratio: float
    least: float

    @property
    def holds(self) -> bool:
        return self.ratio >= self.least

    @property
    def words(self) -> str:
        return f"{self.one} on {self.other} has contrast {cut(self.ratio)}:1; at least {self.least:g}:1 is needed"


class Verdicts(msgspec.Struct, frozen=True):
    """Two verdicts' fills, how they are seen, and their distance then."""

    one: str
    other: str
    deficiency: Deficiency | None
    distance: float

    @property
    def holds(self) -> bool:
        return self.distance >= LEAST_APART

    @property
    def words(self) -> str:
        return (
            f"verdicts.{self.one} and verdicts.{self.other} are {cut(self.distance)} apart (CIEDE2000) with "
            f"{SEEN[self.deficiency]}; at least {LEAST_APART:g} is needed"
        )


def cut(value: float) -> str:
    """Two decimals, never rounded up: 4.499 is 4.49, which fails."""
    return f"{math.floor(value * 100 + 1e-9) / 100:.2f}"


def pairs(look: LookFile) -> tuple[Pair, ...]:
    """Every pair of colours whose contrast matters."""
    wanted = [(ink, ground, DECIDING if ink == "ink" else TEXT)
              for ink in ("ink", "quiet", "measure") for ground in ("ground", "plate")]  # fmt: skip
    wanted.append(("letter", "rubber", TEXT))
    wanted.append(("rubber_edge" if look.rubber_edge else "rubber", "ground", GRAPHIC))
    wanted.append(("steel", "ground", BODY))
    return tuple(
        Pair(one, other, contrast(getattr(look, one), getattr(look, other)), least) for one, other, least in wanted
    )


def verdicts(look: LookFile) -> tuple[Verdicts, ...]:
    """The closest look that each pair of verdicts has, over all ways of seeing."""
    seen: tuple[Deficiency | None, ...] = (None, *MATRICES)
    found = []
    for one, other in combinations(VERDICTS, 2):
        a, b = getattr(look.verdicts, one), getattr(look.verdicts, other)
        distances = {deficiency: apart(a, b, deficiency) for deficiency in seen}
        worst = min(seen, key=lambda deficiency: distances[deficiency])
        found.append(Verdicts(one, other, worst, distances[worst]))
    return tuple(found)


def faults(look: LookFile) -> tuple[str, ...]:
    """What speaks against the look's colours, each with its pair; empty where nothing does."""
    wrong = [its.words for its in pairs(look) if not its.holds]
    return (*wrong, *(its.words for its in verdicts(look) if not its.holds))


def remarks(look: LookFile) -> tuple[str, ...]:
    """What is worth knowing and does not stand in the way."""
    return tuple(_greys(look))


def check(look: LookFile) -> None:
    """Refuse a look whose texts, bodies or verdicts cannot be told apart. Raises LookError with the first pair."""
    for fault in faults(look):
        raise LookError(f"{look.name}: {fault}")


def _greys(look: LookFile) -> Iterator[str]:
    for one, other in combinations(VERDICTS, 2):
        distance = lightness_apart(getattr(look.verdicts, one), getattr(look.verdicts, other))
        if distance < LEAST_GREY:
            yield (
                f"In grey, verdicts.{one} and verdicts.{other} are {cut(distance)} apart in lightness: there only "
                "their signs tell them apart"
            )
