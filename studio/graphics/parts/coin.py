"""A coin standing on its edge, seen on its face: a plain disc of true diameter, a rim, an invented landmark.

What a viewer looks for stands at a stated distance from the rim that stands in the groove: the top of a head or of a
house, upside down, or the inner edge of an outer ring. Nothing here is a mint's design.
"""

from typing import Literal

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import circle, polyline, ring, transformed
from studio.graphics.look import Look
from studio.graphics.scene import Linear, Outline, Point, Shape, Stroke

Landmark = Literal["head", "house", "ring", "none"]

_RIM = 0.055  # the raised rim, as a share of the radius
_DIM = 0.72  # how much of the rubber's colour a covered part takes
_FAR = 0.22  # the landmark's foot keeps this share of the radius from the upper rim
# A head in profile, from the crown at 0 to the cut of the neck at 1; x from -0.5 to 0.5, looking to the left.
_HEAD: Outline = (
    ("M", 0.03, 0.0), ("C", -0.17, 0.0, -0.31, 0.10, -0.33, 0.25), ("C", -0.34, 0.31, -0.33, 0.34, -0.36, 0.39),
    ("L", -0.43, 0.485), ("C", -0.445, 0.51, -0.43, 0.52, -0.375, 0.525), ("L", -0.385, 0.57), ("L", -0.355, 0.595),
    ("L", -0.375, 0.63), ("C", -0.38, 0.70, -0.33, 0.735, -0.26, 0.735),
    ("C", -0.20, 0.735, -0.155, 0.725, -0.12, 0.72),
    ("C", -0.10, 0.80, -0.13, 0.87, -0.24, 0.93), ("C", -0.08, 1.0, 0.18, 1.02, 0.36, 0.94),
    ("C", 0.27, 0.82, 0.24, 0.72, 0.27, 0.62), ("C", 0.40, 0.48, 0.42, 0.30, 0.35, 0.16),
    ("C", 0.28, 0.05, 0.16, 0.0, 0.03, 0.0), ("Z",),
)  # fmt: skip
_HOUSE: Outline = (
    *polyline(((0.0, 0.0), (-0.44, 0.30), (0.44, 0.30)), closed=True),
    *(piece for left in (-0.40, -0.18, 0.04, 0.26)
      for piece in polyline(((left, 0.36), (left, 0.82), (left + 0.14, 0.82), (left + 0.14, 0.36)), closed=True)),
    *polyline(((-0.46, 0.87), (-0.46, 1.0), (0.46, 1.0), (0.46, 0.87)), closed=True),
)  # fmt: skip
_DRAWN: dict[Landmark, Outline] = {"head": _HEAD, "house": _HOUSE}


class Coin(msgspec.Struct, frozen=True, kw_only=True):
    """A coin whose lowest point is ``foot`` (px); ``reach`` px above it lies what is looked for."""

    foot: Point
    radius: float
    reach: float
    landmark: Landmark

    @property
    def center(self) -> Point:
        """Its middle in px."""
        return (self.foot[0], self.foot[1] - self.radius)

    @property
    def disc(self) -> Outline:
        """Its outline."""
        return circle(self.center, self.radius)


def coin(its: Coin, look: Look, name: str, step: int = 0, covered: Outline | None = None) -> tuple[Shape, ...]:
    """The coin in the light; ``covered`` (an outline) is what the rubber in front of it hides: there it is dim."""
    shapes = _drawn(its, look, name, step, 0.0, None)
    if covered is None:
        return shapes
    return (*shapes, *_drawn(its, look, f"{name}/behind the rib", step, _DIM, covered))


def _drawn(its: Coin, look: Look, name: str, step: int, dim: float, clip: Outline | None) -> tuple[Shape, ...]:
    def tone(color: str) -> str:
        return mix(color, look.rubber, dim)

    (x, y), r = its.center, its.radius
    pale, mid, dark = mix(look.steel_light, "#FFFFFF", 0.25), look.steel_light, mix(look.steel, look.steel_light, 0.35)
    light = Linear((x - 0.7 * r, y - 0.7 * r), (x + 0.7 * r, y + 0.7 * r),
                   ((0.0, tone(pale)), (0.5, tone(mid)), (1.0, tone(dark))))  # fmt: skip
    edge = Stroke(tone(mix(look.steel, look.groove, 0.45)), max(1.0, r / 110))
    shapes = [Shape(name=f"{name}/disc", step=step, outline=its.disc, fill=light, stroke=edge, clip=clip)]
    relief = tone(mix(look.steel, look.groove, 0.22))
    if its.landmark == "ring":
        inner = max(0.1 * r, r - its.reach)
        core = Linear((x, y - inner), (x, y + inner), ((0.0, tone(mix(mid, dark, 0.9))), (1.0, tone(look.steel))))
        shapes.append(Shape(name=f"{name}/core", step=step, outline=circle((x, y), inner), fill=core, stroke=edge,
                            clip=clip))  # fmt: skip
        relief = tone(mix(look.steel, look.steel_light, 0.75))
    drawn = landmark(its)
    if drawn:
        shapes.append(Shape(name=f"{name}/landmark", step=step, outline=drawn, fill=relief, clip=clip))
    shapes.append(Shape(name=f"{name}/rim", step=step, outline=ring((x, y), r, r * (1 - _RIM)),
                        fill=tone(mix(look.steel, look.steel_light, 0.25)), clip=clip))  # fmt: skip
    return tuple(shapes)


def landmark(its: Coin) -> Outline:
    """The head or the house, upside down, its top ``reach`` px above the foot; on a ringed coin a head in the core."""
    (x, y), r = its.center, its.radius
    if its.landmark == "ring":
        high = 1.3 * max(0.1 * r, r - its.reach)
        return transformed(_HEAD, (0.86 * high, 0.0, 0.0, high, x, y - high / 2))
    shape = _DRAWN.get(its.landmark)
    if shape is None:
        return ()
    high = 2 * r - its.reach - _FAR * r
    wide = 0.86 * high if its.landmark == "head" else 0.98 * r
    return transformed(shape, (wide, 0.0, 0.0, -high, x, its.foot[1] - its.reach))
