"""How a tire is cropped so that its marking is large: where it stands, where its lettering goes, where pointers end."""

import math
from collections.abc import Callable, Iterator, Sequence

import msgspec

from studio.graphics.draw import polar
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import badge_radius
from studio.graphics.parts.lettering import Lettering
from studio.graphics.parts.tire_face import Face, sidewall_of
from studio.graphics.scene import Point

_LARGEST = 15.0  # the lettering's cap height is at most S/15
_LEAST = 24.0  # and at least S/24
_AFTER_TOP = 4.0  # degrees: right of it a leader from the column of notes reaches the tread without passing over it
_LONG = 14  # characters: a longer marking is set closer
BRACKET = 1.38  # where a bracket stands above the baseline, in cap heights

Ends = Callable[[Lettering, Sequence[float]], tuple[Point, ...]]


class Crop(msgspec.Struct, frozen=True, kw_only=True):
    """The tire in the drawing. ``ends`` are where the pointers of the fields end; ``fits`` if the lettering did."""

    face: Face
    lettering: Lettering
    window: Box
    ends: tuple[Point, ...]
    fits: bool


class _Way(msgspec.Struct, frozen=True, kw_only=True):
    """One way to crop: the tire, between which angles lettering may stand, how far up its band (0..1), its pointers."""

    face: Face
    arc: tuple[float, float]
    high: float
    ends: Ends


def crop_for(
    drawing: Box, frame: Frame, diameters_mm: tuple[float, float], marking: str, spans: Sequence[tuple[int, int]],
    discs: bool,
) -> Crop:  # fmt: skip
    """The first way to crop in which the lettering has its least size, from the roundest to the flattest.

    ``diameters_mm`` are the tire's and the rim's, ``spans`` the fields' first and last characters; ``discs`` says that
    pointers end in numbered discs instead of leaders.
    """
    least = frame.short / _LEAST - 1e-6
    beside = _beside_with_discs if discs else _beside_with_leaders
    ways = (beside if frame.shape == "wide" else _above)(drawing, frame, diameters_mm)
    for way in ways:
        lettering = _lettering(frame, marking, way)
        if lettering.cap_height >= least:
            break
    fits = lettering.cap_height >= least
    lettering = lettering.at_cap_height(max(least, lettering.cap_height))
    ends = way.ends(lettering, [sum(lettering.span(*span)) / 2 for span in spans])
    window = Box(0, drawing.top, drawing.right + frame.grid if frame.shape == "wide" else frame.width, drawing.height)
    return Crop(face=way.face, lettering=lettering, window=window, ends=ends, fits=fits)


def _lettering(frame: Frame, text: str, way: _Way) -> Lettering:
    """As large as band and arc allow, at most S/15."""
    side, middle = sidewall_of(way.face), sum(way.arc) / 2
    cap = min(frame.short / _LARGEST, side.band * 0.56)
    spacing = 0.06 if len(text) <= _LONG else 0.02
    for _ in range(3):  # a smaller letter stands on a larger circle, so the size settles at once
        base = side.lower_rib + (side.band - cap * (BRACKET + 0.1)) * way.high
        lettering = Lettering(
            text=text, center=way.face.center, radius=base, angle=middle, cap_height=cap, spacing=spacing
        )
        cap *= min(1.0, max(1.0, way.arc[1] - way.arc[0]) / lettering.spread)
    return lettering


def _face(diameters_mm: tuple[float, float], radius: float, center: Point) -> Face:
    return Face(outer_mm=diameters_mm[0], rim_mm=diameters_mm[1], scale=2 * radius / diameters_mm[0], center=center)


def _beside_with_leaders(drawing: Box, frame: Frame, diameters_mm: tuple[float, float]) -> Iterator[_Way]:
    """The lettering begins right of the top, so that no leader passes over the tire on its way to the column."""
    gap = 1.4 * frame.grid

    def ends(lettering: Lettering, middles: Sequence[float]) -> tuple[Point, ...]:
        return tuple(polar(face.center, face.radius + gap, angle) for angle in middles)

    for size in (1.28, 1.45):
        face = _quarter(drawing, diameters_mm, size * drawing.height, gap, 1.2 * frame.grid)
        arc = (max(_left(face, frame), _AFTER_TOP), _low(face, drawing, frame))
        yield _Way(face=face, arc=arc, high=0.66, ends=ends)


def _beside_with_discs(drawing: Box, frame: Frame, diameters_mm: tuple[float, float]) -> Iterator[_Way]:
    """A long marking may begin left of the top: its discs stand round the tread."""
    room = badge_radius(frame) + 0.6 * frame.grid

    def ends(lettering: Lettering, middles: Sequence[float]) -> tuple[Point, ...]:
        return tuple(polar(face.center, face.radius + room, angle) for angle in middles)

    for size in (1.28, 1.45, 1.65):
        face = _quarter(drawing, diameters_mm, size * drawing.height, room, badge_radius(frame) + 0.4 * frame.grid)
        low, reach = _low(face, drawing, frame), face.radius + room
        disc = frame.titles.left + badge_radius(frame) - face.center[0]
        start = max(_left(face, frame), math.degrees(math.asin(_bounded(disc / reach))), -low)
        yield _Way(face=face, arc=(start, low), high=1.0, ends=ends)


def _quarter(drawing: Box, diameters_mm: tuple[float, float], radius: float, room: float, above: float) -> Face:
    """The upper right quarter, running off the frame at the left; ``room`` px free round it, ``above`` more on top."""
    y = drawing.top + room + above + radius
    half_chord = math.sqrt(max(0.0, (radius + room + above) ** 2 - max(0.0, y - drawing.bottom) ** 2))
    return _face(diameters_mm, radius, (drawing.right - half_chord, y))


def _above(drawing: Box, frame: Frame, diameters_mm: tuple[float, float]) -> Iterator[_Way]:
    """Above the notes: the upper part in the middle; where the drawing is low, a strip of the sidewall alone."""

    def fan(face: Face) -> Ends:
        return lambda lettering, middles: _fan(face.radius + 0.6 * frame.grid, lettering, middles, frame)

    def close(lettering: Lettering, middles: Sequence[float]) -> tuple[Point, ...]:
        return _fan(lettering.radius + (BRACKET + 0.3) * lettering.cap_height, lettering, middles, frame)

    disc = 2 * badge_radius(frame)
    for size in (1.28, 1.5):
        radius = size * 0.54 * drawing.width
        face = _face(diameters_mm, radius, (drawing.center[0], drawing.top + disc + frame.grid + radius))
        reach = min(_low(face, drawing, frame), -_left(face, frame))
        yield _Way(face=face, arc=(-reach, reach), high=0.66, ends=fan(face))
    for size in (2.0, 2.6):
        radius = size * 0.54 * drawing.width
        face = _face(diameters_mm, radius, (0.0, 0.0))
        top = sidewall_of(face).upper_rib + disc + 0.5 * frame.grid + 0.3 * frame.short / _LEAST
        face = msgspec.structs.replace(face, center=(drawing.center[0], drawing.top + top))
        reach = min(_low(face, drawing, frame), -_left(face, frame))
        yield _Way(face=face, arc=(-reach, reach), high=1.0, ends=close)


def _left(face: Face, frame: Frame) -> float:
    """At which angle lettering meets the left edge of the title-safe area."""
    return math.degrees(math.asin(_bounded((frame.titles.left - face.center[0]) / sidewall_of(face).upper_rib)))


def _low(face: Face, drawing: Box, frame: Frame) -> float:
    """At which angle lettering meets the lower edge of the crop."""
    side = sidewall_of(face)
    room = face.center[1] - drawing.bottom + 2 * frame.grid
    return math.degrees(math.acos(_bounded(room / (side.lower_rib + 0.66 * (side.band - frame.short / _LEAST)))))


def _bounded(value: float) -> float:
    return max(-1.0, min(1.0, value))


def _fan(foot: float, lettering: Lettering, middles: Sequence[float], frame: Frame) -> tuple[Point, ...]:
    """Discs in a fan on a circle of radius ``foot``, drawn together where they would leave the title-safe area."""
    radius = foot + badge_radius(frame)
    room = frame.titles.width / 2 - badge_radius(frame) - 0.4 * frame.grid
    widest = max((abs(angle) for angle in middles), default=0.0)
    together = min(1.0, math.degrees(math.asin(_bounded(room / radius))) / max(widest, 1e-6))
    return tuple(polar(lettering.center, radius, angle * together) for angle in middles)
