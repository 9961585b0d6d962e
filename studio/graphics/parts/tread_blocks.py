"""Tread patterns as families of our own: ribs across the tread, each cut into blocks by slots.

A pattern lies on a field of u from -1 (outer edge) to 1 (inner edge); lengths along the tread are in pitches, the pitch
in tread widths. What is too fine for the drawing's size is drawn in a coarser version.
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Literal

import msgspec

from studio.graphics.scene import Command, Outline, Point
from studio.model.specimen import Season, TreadPattern

Family = Literal["all_season", "winter", "directional", "asymmetric", "all_terrain", "temporary"]


class Rib(msgspec.Struct, frozen=True):
    """A rib: ``edge`` gives (u, lean in pitches) along a slot across it; ``slot`` is its share of a pitch (0: none).

    ``shift`` moves its blocks along by a share of a pitch; above the wear ``closes`` the slots have worn away.
    """

    edge: tuple[tuple[float, float], ...]
    slot: float = 0.0
    shift: float = 0.0
    closes: float = 1.0


class Pattern(msgspec.Struct, frozen=True):
    """A family's ribs and its pitch in tread widths."""

    ribs: tuple[Rib, ...]
    pitch: float


def family_of(pattern: TreadPattern, season: Season, service: str = "passenger") -> Family:
    """The family that shows a specimen's kind of tread; ``service`` as the marking says it."""
    if service == "temporary":
        return "temporary"
    if pattern in ("directional", "asymmetric_directional"):
        return "directional"
    if pattern == "asymmetric":
        return "asymmetric"
    if service in ("light truck", "commercial"):
        return "all_terrain"
    return "winter" if season in ("winter", "studded") else "all_season"


def _straight(u0: float, u1: float, lean0: float = 0.0, lean1: float = 0.0) -> tuple[tuple[float, float], ...]:
    return ((u0, lean0), (u1, lean1))


_ALL_SEASON = Pattern(
    (
        Rib(_straight(-1.0, -0.62, 0.10, 0.0), 0.16),
        Rib(_straight(-0.50, -0.20, 0.0, 0.34), 0.14, 0.2, 0.8),
        Rib(_straight(-0.09, 0.09)),
        Rib(_straight(0.20, 0.50, 0.34, 0.0), 0.14, 0.7, 0.8),
        Rib(_straight(0.62, 1.0, 0.0, 0.10), 0.16, 0.5),
    ),
    0.20,
)
_WINTER = Pattern(
    (
        Rib(_straight(-1.0, -0.60, -0.05, 0.05), 0.20),
        Rib(_straight(-0.50, -0.24, 0.20, -0.1), 0.20, 0.4),
        Rib(_straight(-0.14, 0.14, -0.15, 0.15), 0.18, 0.1),
        Rib(_straight(0.24, 0.50, 0.1, -0.20), 0.20, 0.6),
        Rib(_straight(0.60, 1.0, -0.05, 0.05), 0.20, 0.3),
    ),
    0.30,
)
_DIRECTIONAL = Pattern(
    (
        Rib(((-1.0, -1.05), (-0.78, -0.86), (-0.56, -0.55)), 0.22),
        Rib(((-0.46, -0.40), (-0.30, -0.12), (-0.14, 0.32)), 0.22),
        Rib(_straight(-0.055, 0.055)),
        Rib(((0.14, 0.32), (0.30, -0.12), (0.46, -0.40)), 0.22),
        Rib(((0.56, -0.55), (0.78, -0.86), (1.0, -1.05)), 0.22),
    ),
    0.32,
)
_ASYMMETRIC = Pattern(
    (
        Rib(_straight(-1.0, -0.52, 0.16, 0.0), 0.12, 0.0, 0.9),
        Rib(_straight(-0.42, -0.06)),
        Rib(_straight(0.06, 0.30, 0.0, 0.22), 0.12, 0.35, 0.75),
        Rib(_straight(0.42, 0.62, 0.0, 0.16), 0.16, 0.6, 0.85),
        Rib(_straight(0.72, 1.0, 0.0, 0.10), 0.18, 0.2),
    ),
    0.24,
)
_ALL_TERRAIN = Pattern(
    (
        Rib(((-1.0, 0.0), (-0.74, 0.10), (-0.58, -0.04)), 0.30),
        Rib(((-0.44, 0.10), (-0.26, -0.10), (-0.07, 0.16)), 0.28, 0.5),
        Rib(((0.07, -0.16), (0.26, 0.10), (0.44, -0.10)), 0.28, 0.0),
        Rib(((0.58, 0.04), (0.74, -0.10), (1.0, 0.0)), 0.30, 0.5),
    ),
    0.36,
)
_TEMPORARY = Pattern(
    (
        Rib(_straight(-1.0, -0.42), 0.10, 0.0, 0.7),
        Rib(_straight(-0.28, 0.28)),
        Rib(_straight(0.42, 1.0), 0.10, 0.0, 0.7),
    ),
    0.30,
)
_COARSE: dict[Family, Pattern] = {
    "all_season": Pattern(
        (Rib(_straight(-1.0, -0.46, 0.12, 0.0), 0.22), Rib(_straight(-0.26, 0.26)),
         Rib(_straight(0.46, 1.0, 0.0, 0.12), 0.22, 0.5)), 0.30),
    "winter": Pattern(
        (Rib(_straight(-1.0, -0.46), 0.24), Rib(_straight(-0.26, 0.26, -0.15, 0.15), 0.22, 0.5),
         Rib(_straight(0.46, 1.0), 0.24)), 0.34),
    "directional": Pattern(
        (Rib(((-1.0, -0.75), (-0.12, 0.0)), 0.30), Rib(((0.12, 0.0), (1.0, -0.75)), 0.30)), 0.42),
    "asymmetric": Pattern(
        (Rib(_straight(-1.0, -0.20, 0.14, 0.0), 0.18), Rib(_straight(0.0, 0.36)),
         Rib(_straight(0.56, 1.0, 0.0, 0.1), 0.22, 0.4)), 0.32),
    "all_terrain": Pattern(
        (Rib(_straight(-1.0, -0.46), 0.30), Rib(_straight(-0.24, 0.24, 0.18, -0.18), 0.30, 0.5),
         Rib(_straight(0.46, 1.0), 0.30)), 0.44),
    "temporary": Pattern((Rib(_straight(-1.0, -0.14)), Rib(_straight(0.14, 1.0))), 0.4),
}  # fmt: skip
_FINE: dict[Family, Pattern] = {
    "all_season": _ALL_SEASON, "winter": _WINTER, "directional": _DIRECTIONAL, "asymmetric": _ASYMMETRIC,
    "all_terrain": _ALL_TERRAIN, "temporary": _TEMPORARY,
}  # fmt: skip


def pattern_of(family: Family, tread_width: float, finest: float) -> Pattern:
    """The family's pattern for a tread ``tread_width`` px wide in which nothing may repeat finer than ``finest`` px."""
    fine = _FINE[family]
    return fine if _finest_period(fine) * tread_width / 2 >= finest else _COARSE[family]


@lru_cache(maxsize=32)
def _finest_period(pattern: Pattern) -> float:
    """The least distance from one rib's edge to the next rib's, in u."""
    starts = [rib.edge[0][0] for rib in pattern.ribs]
    return min(b - a for a, b in pairwise(starts))


def rounded(points: Sequence[Point], radius: float) -> Outline:
    """A closed polygon whose corners are rounded by ``radius``, or by half of the shorter side at a corner."""
    commands: list[Command] = []
    count = len(points)
    for order, (x, y) in enumerate(points):
        before, after = points[order - 1], points[(order + 1) % count]
        start, end = _towards((x, y), before, radius), _towards((x, y), after, radius)
        commands.append(("L" if order else "M", *start))
        third = 0.45
        commands.append(
            ("C", start[0] + (x - start[0]) * (1 - third), start[1] + (y - start[1]) * (1 - third),
             end[0] + (x - end[0]) * (1 - third), end[1] + (y - end[1]) * (1 - third), *end)
        )  # fmt: skip
    return (*commands, ("Z",))


def _towards(point: Point, other: Point, distance: float) -> Point:
    length = math.dist(point, other)
    share = min(0.5, distance / length) if length > 1e-9 else 0.0
    return (point[0] + (other[0] - point[0]) * share, point[1] + (other[1] - point[1]) * share)
