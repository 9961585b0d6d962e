"""The tread as it is seen from the side: shoulder blocks in profile round the circumference, the crown behind them."""

import math
from collections.abc import Iterator

from studio.graphics.draw import arc, circle, polar
from studio.graphics.scene import Command, Outline, Point

# Pitches of three lengths in an order without a short period: it is what keeps a tread from humming one note.
_PITCHES = (1.0, 1.16, 0.88, 1.0, 0.88, 1.16, 1.16, 1.0, 0.88, 1.0, 1.16, 0.88, 0.88, 1.0, 1.16)
_PITCH_MM = 34.0
_SLOT_SHARE = 0.13
_FEWEST_PX = 11.0  # a pitch shorter than this flickers when the picture is shrunk


def pitch_edges(outer_mm: float, scale: float) -> list[tuple[float, float]]:
    """Start and end of each pitch in degrees clockwise from the top; fewer, longer ones where they would flicker."""
    pitch_mm = max(_PITCH_MM, _FEWEST_PX / scale)
    count = max(12, round(math.pi * outer_mm / pitch_mm))
    lengths = [_PITCHES[order % len(_PITCHES)] for order in range(count)]
    whole, at = sum(lengths), 0.0
    edges = []
    for length in lengths:
        edges.append((at, at + 360 * length / whole))
        at += 360 * length / whole
    return edges


def shoulder_blocks(
    center: Point, top: float, foot: float, edges: list[tuple[float, float]], softness: float = 0.0
) -> Outline:
    """All shoulder blocks as one outline: ``top`` and ``foot`` are radii in px, long and short blocks take turns.

    ``softness`` 0..1 rounds the blocks' edges as wear does.
    """
    commands: list[Command] = []
    for order, (start, end) in enumerate(edges):
        gap = (end - start) * _SLOT_SHARE
        reach = foot if order % 2 else foot + (top - foot) * 0.26
        commands += _block(center, top, reach, start + gap / 2, end - gap / 2, softness)
    return tuple(commands)


def _block(center: Point, top: float, foot: float, start: float, end: float, softness: float) -> Iterator[Command]:
    """One block: narrower at its foot, its upper corners broken."""
    wide, high = end - start, top - foot
    corner, drop = wide * (0.10 + 0.14 * softness), high * (0.07 + 0.10 * softness)
    inset = wide * 0.05
    yield ("M", *polar(center, foot, start + inset))
    yield ("L", *polar(center, top - drop, start))
    yield ("L", *polar(center, top, start + corner))
    yield from arc(center, top, start + corner, end - corner, move=False)
    yield ("L", *polar(center, top - drop, end))
    yield ("L", *polar(center, foot, end - inset))
    yield from arc(center, foot, end - inset, start + inset, move=False)
    yield ("Z",)


def block_sipes(center: Point, top: float, foot: float, edges: list[tuple[float, float]]) -> Outline:
    """A fine cut in the middle of each block, to be stroked."""
    commands: list[Command] = []
    for order, (start, end) in enumerate(edges):
        middle = (start + end) / 2
        reach = foot + (top - foot) * (0.36 if order % 2 else 0.52)
        commands += [("M", *polar(center, top, middle)), ("L", *polar(center, reach, middle + (end - start) * 0.05))]
    return tuple(commands)


def crown(center: Point, radius: float, depth: float, edges: list[tuple[float, float]]) -> Outline:
    """The middle of the tread behind the shoulder: nearly a full circle, notched where slots reach the next rib."""
    if depth <= 0:
        return circle(center, radius)
    commands: list[Command] = []
    for order, (start, end) in enumerate(edges):
        shift = (end - start) * 0.5
        notch = (end - start) * 0.10
        a, b = start + shift, end + shift - notch
        commands += arc(center, radius, a, b, move=order == 0)
        commands += arc(center, radius - depth, b + notch * 0.15, b + notch * 0.85, move=False)
    return (*commands, ("Z",))
