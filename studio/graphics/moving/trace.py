"""Outlines on the move: drawn up to a share of their length, between two of like build, points along a way."""

import math
from collections.abc import Sequence
from itertools import pairwise

from studio.graphics.parts.arrows import Curve, part, sampled
from studio.graphics.scene import Command, Outline, Point

_SAMPLES_LEAST = 1e-9
_SMOOTHING = 3


def trimmed(outline: Outline, start: float, end: float) -> Outline:
    """The part of an open line of one piece between two shares (0..1) of its length."""
    pieces = _pieces(outline)
    lengths = [_length(piece) for piece in pieces]
    whole = sum(lengths)
    if whole < _SAMPLES_LEAST or end <= start:
        return ()
    low, high, before = start * whole, end * whole, 0.0
    commands: list[Command] = []
    for piece, length in zip(pieces, lengths, strict=True):
        a, b = max(low - before, 0.0), min(high - before, length)
        before += length
        if b <= a or length < _SAMPLES_LEAST:
            continue
        cut = _cut(piece, a / length, b / length)
        commands += [] if commands else [("M", *cut[0])]
        commands.append(("L", *cut[3]) if len(piece) == 2 else ("C", *cut[1], *cut[2], *cut[3]))
    return tuple(commands)


def is_line(outline: Outline) -> bool:
    """Whether it is one open line, which can be drawn from end to end."""
    letters = [command[0] for command in outline]
    return len(letters) > 1 and letters[0] == "M" and "M" not in letters[1:] and "Z" not in letters


def ends(outline: Outline) -> tuple[Point, Point]:
    """Where an open line starts and ends."""
    first, last = outline[0], outline[-1]
    return (first[1], first[2]), (last[-2], last[-1])  # type: ignore[misc, return-value]


def between(begin: Outline, end: Outline, share: float) -> Outline:
    """The outline at ``share`` (0..1) of the way; raises ValueError where the two are not of like build."""
    if [command[0] for command in begin] != [command[0] for command in end]:
        raise ValueError("outlines change into each other only if their commands are the same")
    result: list[Command] = []
    for (letter, *here), (_, *there) in zip(begin, end, strict=True):
        result.append((letter, *(a + (b - a) * share for a, b in zip(here, there, strict=True))))  # type: ignore[arg-type]
    return tuple(result)


def way(points: Sequence[Point], count: int) -> tuple[Point, ...]:
    """``count`` + 1 points at even distances along a line through ``points``, its corners rounded."""
    even = _evenly(points, count)
    for _ in range(_SMOOTHING):
        inner = [_middle(a, b, c) for a, b, c in zip(even, even[1:], even[2:], strict=False)]
        even = [even[0], *inner, even[-1]]
    return tuple(_evenly(even, count))


def along(points: Sequence[Point], share: float) -> Point:
    """The point at ``share`` (0..1) of a way of even steps."""
    at = min(max(share, 0.0), 1.0) * (len(points) - 1)
    order = min(int(at), len(points) - 2)
    (x0, y0), (x1, y1) = points[order], points[order + 1]
    return (x0 + (x1 - x0) * (at - order), y0 + (y1 - y0) * (at - order))


def _middle(a: Point, b: Point, c: Point) -> Point:
    return ((a[0] + 2 * b[0] + c[0]) / 4, (a[1] + 2 * b[1] + c[1]) / 4)


def _evenly(points: Sequence[Point], count: int) -> list[Point]:
    reached = [0.0]
    for a, b in pairwise(points):
        reached.append(reached[-1] + math.dist(a, b))
    result, piece = [], 0
    for order in range(count + 1):
        wanted = reached[-1] * order / count
        while piece < len(points) - 2 and reached[piece + 1] < wanted:
            piece += 1
        span = reached[piece + 1] - reached[piece]
        share = (wanted - reached[piece]) / span if span else 0.0
        (x0, y0), (x1, y1) = points[piece], points[piece + 1]
        result.append((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share))
    return result


def _pieces(outline: Outline) -> list[tuple[Point, ...]]:
    """Each stretch as its two ends, or as a cubic's four points."""
    pieces: list[tuple[Point, ...]] = []
    here: Point = (0.0, 0.0)
    for command in outline:
        values = command[1:]
        points = list(zip(values[::2], values[1::2], strict=True))
        if command[0] in ("L", "C"):
            pieces.append((here, *points))
        if points:
            here = points[-1]
    return pieces


def _length(piece: tuple[Point, ...]) -> float:
    points = piece if len(piece) == 2 else sampled(piece)  # type: ignore[arg-type]
    return sum(math.dist(a, b) for a, b in pairwise(points))


def _cut(piece: tuple[Point, ...], start: float, end: float) -> Curve:
    if len(piece) == 2:
        (x0, y0), (x1, y1) = piece
        first = (x0 + (x1 - x0) * start, y0 + (y1 - y0) * start)
        last = (x0 + (x1 - x0) * end, y0 + (y1 - y0) * end)
        return (first, first, last, last)
    return part(piece, _even_t(piece, start), _even_t(piece, end))  # type: ignore[arg-type]


def _even_t(curve: tuple[Point, ...], share: float) -> float:
    """The value of t at which a share of the curve's length lies behind."""
    if share <= 0.0 or share >= 1.0:
        return share
    reached = [0.0]
    for a, b in pairwise(sampled(curve)):  # type: ignore[arg-type]
        reached.append(reached[-1] + math.dist(a, b))
    wanted = share * reached[-1]
    order = next(i for i in range(1, len(reached)) if reached[i] >= wanted)
    span = reached[order] - reached[order - 1]
    return (order - 1 + ((wanted - reached[order - 1]) / span if span else 0.0)) / (len(reached) - 1)
