"""Damage drawn as it is seen on rubber, schematically: each kind a few shapes of our own within a round glass.

A drawing lies on a field about its middle, a little above the glass' own: ``reach`` px is half of the damage's length;
light falls from the upper left.
"""

import math
from collections.abc import Callable

import msgspec

from studio.graphics.color import faded, mix
from studio.graphics.draw import circle, ellipse, polyline, rectangle, transformed
from studio.graphics.look import Look
from studio.graphics.parts.outlines import rounded
from studio.graphics.scene import Outline, Paint, Point, Radial, Shape, Stroke
from studio.model.specimen import DamageKind

_TILT = -32.0  # degrees: how a long damage lies, so that it is not taken for part of the tire's own pattern


class Glass(msgspec.Struct, frozen=True, kw_only=True):
    """The round field in which a damage is drawn; ``on_tread`` with blocks and grooves behind it."""

    center: Point
    radius: float
    reach: float
    on_tread: bool
    step: int

    @property
    def middle(self) -> Point:
        """The middle of the damage: above that of the glass, as its size and its scale stand below it."""
        return (self.center[0], self.center[1] - 0.14 * self.radius)


def damage_marks(kind: DamageKind, glass: Glass, look: Look, name: str = "damage") -> tuple[Shape, ...]:
    """The rubber in the glass and the damage on it."""
    pen = _Pen(glass, look, name)
    _rubber(pen)
    _DRAWINGS[kind](pen)
    return tuple(pen.shapes)


def ends_of(kind: DamageKind, glass: Glass) -> tuple[Point, Point]:
    """The two ends between which the damage's size lies."""
    turn = math.radians(_TILT if kind in _TILTED else 0.0)
    (x, y), r = glass.middle, glass.reach
    return (x - r * math.cos(turn), y - r * math.sin(turn)), (x + r * math.cos(turn), y + r * math.sin(turn))


class _Pen:
    """Collects shapes drawn on a field on which the damage reaches from -1 to 1."""

    def __init__(self, glass: Glass, look: Look, name: str) -> None:
        self.glass, self.look, self.shapes = glass, look, list[Shape]()
        self._name, self._clip = name, circle(glass.center, glass.radius)
        self.dark = mix(look.groove, "#000000", 0.35)
        self.pale = mix(look.rubber_light, look.letter, 0.45)

    def add(
        self, part: str, outline: Outline, fill: Paint | None = None, line: str = "", wide: float = 0.03,
        tilt: float = 0.0, clip: Outline | None = None, dash: tuple[float, ...] = (),
    ) -> None:  # fmt: skip
        """One shape; ``wide`` is its line's width as a share of the reach."""
        stroke = Stroke(line, max(2.0, wide * self.glass.reach), dash) if line else None
        self.shapes.append(Shape(
            name=f"{self._name}/{part}", step=self.glass.step, outline=self.placed(outline, tilt), fill=fill,
            stroke=stroke, clip=self.placed(clip, tilt) if clip else self._clip,
        ))  # fmt: skip

    def placed(self, outline: Outline, tilt: float = 0.0) -> Outline:
        """From the field to px of the frame."""
        turn, r = math.radians(tilt), self.glass.reach
        a, b = r * math.cos(turn), r * math.sin(turn)
        return transformed(outline, (a, b, -b, a, *self.glass.middle))

    def whole(self, part: str, outline: Outline, fill: Paint) -> None:
        """A shape in px of the frame."""
        self.shapes.append(Shape(name=f"{self._name}/{part}", step=self.glass.step, outline=outline, fill=fill,
                                 clip=self._clip))  # fmt: skip


def _rubber(pen: _Pen) -> None:
    glass, look = pen.glass, pen.look
    (x, y), r = glass.center, glass.radius
    light, base = mix(look.rubber, look.rubber_light, 0.8), look.rubber
    shade = Radial((x - 0.35 * r, y - 0.4 * r), 1.7 * r, ((0.0, light), (1.0, base)))
    if not glass.on_tread:
        pen.whole("rubber", circle(glass.center, r), shade)
        return
    pen.whole("grooves", circle(glass.center, r), look.groove)
    blocks: Outline = ()
    for column, (left, wide) in enumerate(((-1.25, 0.62), (-0.5, 1.0), (0.63, 0.62))):
        for row in range(-2, 3):
            top = y + (row * 0.9 - 0.40 + (0.3 if column == 1 else 0.0)) * r
            blocks += rectangle(x + left * r, top, wide * r, 0.80 * r, 0.06 * r)
    pen.whole("blocks", blocks, shade)


def _ragged(points: int, high: float, seed: int, wide: float = 1.0) -> list[tuple[Point, float]]:
    """A torn outline about the middle, the same each time."""
    corners = []
    for order in range(points):
        turn = 2 * math.pi * order / points
        off = 1 - 0.22 * ((order * 7 + seed * 3) % 5) / 4
        corners.append(((wide * off * math.cos(turn), high * off * math.sin(turn)), 0.05))
    return corners


def _cut(pen: _Pen) -> None:
    lip = ((-1, 0.02), (-0.45, -0.10), (0.1, -0.07), (0.6, -0.11), (1, -0.02), (0.5, 0.09), (-0.2, 0.10))
    gap = ((-0.94, 0.01), (-0.42, -0.05), (0.1, -0.02), (0.58, -0.06), (0.93, -0.02), (0.48, 0.05), (-0.2, 0.06))
    pen.add("lip", polyline(lip, closed=True), pen.pale, tilt=_TILT)
    pen.add("gap", polyline(gap, closed=True), pen.dark, tilt=_TILT)


def _swelling(pen: _Pen, high: float) -> None:
    """Rubber that stands out: bright where it faces the light, dark where it turns away, a soft shade beyond."""
    (x, y), r = pen.glass.middle, pen.glass.reach
    look = pen.look
    for order in range(5):
        size = 1.22 - 0.05 * order
        fall = transformed(ellipse((0, 0), size, high * size), (1, 0, 0, 1, 0.10, 0.12))
        pen.add(f"shade {order + 1}", fall, faded(pen.dark, 0.16))
    dark = mix(look.rubber, look.groove, 0.55)
    stops = ((0.0, mix(look.rubber_light, look.letter, 0.20)), (0.30, mix(look.rubber_light, look.letter, 0.06)),
             (0.62, mix(look.rubber, look.rubber_light, 0.45)), (0.85, look.rubber), (1.0, dark))  # fmt: skip
    pen.add("swelling", ellipse((0, 0), 1.0, high), Radial((x - 0.30 * r, y - 0.34 * high * r), 1.45 * r, stops))


def _bulge(pen: _Pen) -> None:
    _swelling(pen, 0.86)


def _separation(pen: _Pen) -> None:
    """A long welt where layers part, split open at its foot."""
    _swelling(pen, 0.46)
    split = ((-0.86, 0.20), (-0.62, 0.33), (-0.30, 0.37), (-0.02, 0.43), (0.28, 0.38), (0.58, 0.35), (0.84, 0.22))
    lower = [(x, y + 0.09 * (1 - x * x)) for x, y in reversed(split)]
    pen.add("lip", polyline([(x, y + 0.06) for x, y in (*split, *lower)], closed=True), pen.pale)
    pen.add("split", polyline((*split, *lower), closed=True), pen.dark)


def _cord(pen: _Pen) -> None:
    patch = rounded(_ragged(13, 0.62, 1))
    pen.add("torn edge", patch, pen.dark, line=pen.pale, wide=0.06)
    threads: Outline = ()
    for order in range(-7, 8):
        x = order * 0.15
        threads += polyline(((x - 0.25, -0.75), (x + 0.25, 0.75)))
    pen.add("cords", threads, line=pen.look.steel_light, wide=0.07, clip=rounded(_ragged(13, 0.55, 1, 0.92)))
    pen.add("cords' shade", transformed(threads, (1, 0, 0, 1, 0.045, 0)), line=mix(pen.look.steel, pen.dark, 0.4),
            wide=0.025, clip=rounded(_ragged(13, 0.55, 1, 0.92)))  # fmt: skip


def _cracks(pen: _Pen) -> None:
    lines: Outline = ()
    for row, (y, left, right) in enumerate(((-0.55, -0.7, 0.5), (-0.25, -1.0, 0.85), (0.08, -0.8, 1.0),
                                            (0.38, -1.0, 0.6), (0.66, -0.5, 0.75))):  # fmt: skip
        count = 9
        jags = [0.055 * ((step * 5 + row * 3) % 4 - 1.5) + 0.015 * (step - 4) for step in range(count + 1)]
        points = [(left + (right - left) * step / count, y + jag) for step, jag in enumerate(jags)]
        lines += polyline(points)
        fork = points[3 + row % 3]
        lines += polyline((fork, (fork[0] + 0.12, fork[1] + 0.13), (fork[0] + 0.26, fork[1] + 0.16)))
    pen.add("lips", transformed(lines, (1, 0, 0, 1, 0.02, 0.025)), line=pen.pale, wide=0.03)
    pen.add("lines", lines, line=pen.dark, wide=0.045)


def _puncture(pen: _Pen) -> None:
    splits: Outline = ()
    for turn in (20, 95, 150, 230, 310):
        a = math.radians(turn)
        ends = ((0.9, a), (1.55, a + 0.12))
        splits += polyline([(far * math.cos(turned), far * math.sin(turned)) for far, turned in ends])
    pen.add("splits", splits, line=pen.dark, wide=0.10)
    pen.add("rim", circle((0, 0), 1.18), pen.pale)
    pen.add("hole", circle((0, 0), 1.0), pen.dark)


def _flat_spot(pen: _Pen) -> None:
    look = pen.look
    patch = rectangle(-1.0, -0.72, 2.0, 1.44, 0.22)
    pen.add("flat", patch, mix(look.rubber_light, look.letter, 0.22), line=pen.pale, wide=0.035)
    scrubs: Outline = ()
    for order in range(-5, 6):
        x = order * 0.165
        scrubs += polyline(((x, -0.60 + 0.05 * (order % 3)), (x + 0.02, 0.60 - 0.06 * ((order + 1) % 3))))
    pen.add("scrub marks", scrubs, line=mix(look.rubber, look.rubber_light, 0.3), wide=0.03)


def _chunking(pen: _Pen) -> None:
    for order, (x, y, size) in enumerate(((-0.55, -0.22, 0.46), (0.42, 0.20, 0.56), (0.10, -0.62, 0.28))):
        place = (size, 0.0, 0.0, size, x, y)
        torn = transformed(rounded(_ragged(9, 0.8, order)), place)
        pen.add(f"torn {order + 1}", torn, pen.dark, line=pen.pale, wide=0.045)
        pen.add(f"torn {order + 1} floor", transformed(rounded(_ragged(8, 0.5, order + 2, 0.6)), place),
                mix(pen.look.rubber, pen.look.groove, 0.3))  # fmt: skip


def _other(pen: _Pen) -> None:
    """Of no kind that is known: only where it is can be shown."""
    dash = (0.16 * pen.glass.reach, 0.14 * pen.glass.reach)
    pen.add("not known", ellipse((0, 0), 1.0, 0.62), line=pen.look.letter, wide=0.05, tilt=_TILT, dash=dash)


_TILTED = ("cut",)
_DRAWINGS: dict[DamageKind, Callable[[_Pen], None]] = {
    "cut": _cut, "bulge": _bulge, "cord": _cord, "cracks": _cracks, "puncture": _puncture, "flat_spot": _flat_spot,
    "separation": _separation, "chunking": _chunking, "other": _other,
}  # fmt: skip
