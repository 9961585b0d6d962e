"""Where on a tire in section a puncture may be repaired: crown left as it is, the rest struck out, a hole at its zone.

Lengths are mm of the section (``SectionView``) until they are drawn.
"""

import math

import msgspec

from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.parts.tire_section import SectionView, inner_wall, outer_wall
from studio.graphics.scene import Outline, Point, Shape, Stroke
from studio.model.specimen import Zone

_NEAR_THE_MIDDLE = 0.45  # of the crown's half: there a hole of the crown is drawn, as its distance is not recorded
_BEYOND = 0.40  # of what lies outside the crown: there one of the shoulder is drawn
_BEAD_MM = 26.0  # above the rim's diameter: clear of the flange


class Place(msgspec.Struct, frozen=True, kw_only=True):
    """A zone's place on the right half of the section: on the outside, inside behind it (mm), the way out (unit)."""

    outside: Point
    inside: Point
    out: Point


def place_of(view: SectionView, zone: Zone, half_mm: float) -> Place | None:
    """Where something in ``zone`` is drawn; ``half_mm`` is half of the crown. None where the zone is not known."""
    if zone == "unknown":
        return None
    outer = outer_wall(view)
    if zone == "crown":
        x = _NEAR_THE_MIDDLE * min(half_mm or view.width_mm, view.tread_mm / 2)
        x = _beside_groove(view, x)
        outside, out = (x, view.surface(x)), (0.12, 0.993)
    else:
        index = _index(view, outer, zone, half_mm)
        outside = outer[index]
        (ax, ay), (bx, by) = outer[max(0, index - 1)], outer[min(len(outer) - 1, index + 1)]
        long = math.hypot(bx - ax, by - ay) or 1.0
        out = (-(by - ay) / long, (bx - ax) / long)
    return Place(outside=outside, inside=min(inner_wall(view), key=lambda point: math.dist(point, outside)), out=out)


def _beside_groove(view: SectionView, x: float) -> float:
    """``x`` moved onto the rib next to it where it lies in a groove: a nail finds the rib."""
    for groove in view.grooves_mm:
        if abs(x - groove) < view.groove_mm:
            return groove + view.groove_mm * (1.3 if x >= groove else -1.3)
    return x


def _index(view: SectionView, outer: list[Point], zone: Zone, half_mm: float) -> int:
    every = range(1, len(outer) - 8)  # without heel and toe
    if zone == "shoulder":
        edge = half_mm + _BEYOND * (view.width_mm / 2 - half_mm)
        return next((i for i in every if outer[i][0] >= edge), 1)
    high = view.widest_mm if zone == "sidewall" else view.rim_mm / 2 + _BEAD_MM
    return min(every, key=lambda i: abs(outer[i][1] - high))


def struck_out(
    view: SectionView, half_mm: float, rubber: Outline, frame: Frame, look: Look, step: int
) -> tuple[Shape, ...]:  # fmt: skip
    """All of the ``rubber`` but the crown, which reaches ``half_mm`` to either side, filled and hatched."""
    wide, top, low = view.width_mm / 2 + 20, view.outer_mm / 2 + 5, view.rim_mm / 2 - 5
    under = view.rim_mm / 2 + 0.6 * view.height_mm if half_mm > 0 else top
    fields = [(-wide, top, -half_mm, low), (half_mm, top, wide, low)] if half_mm > 0 else []
    fields.append((-(half_mm or wide), under, half_mm or wide, low))
    filled: Outline = ()
    lines: Outline = ()
    for left, upper, right, lower in fields:
        (ax, ay), (bx, by) = view.at(left, upper), view.at(right, lower)
        filled += rectangle(ax, ay, bx - ax, by - ay)
        lines += _hatch(ax, ay, bx, by, 1.5 * frame.grid)
    fine = Stroke(look.letter, frame.short / 480, cap="flat")
    return (
        Shape(name="never/zone", step=step, outline=filled, fill=look.verdicts.replace, clip=rubber),
        Shape(name="never/hatch", step=step, outline=lines, stroke=fine, clip=rubber),
        Shape(name="never/edge", step=step, outline=rubber, stroke=Stroke(look.ink, frame.short / 540)),
    )


def _hatch(left: float, top: float, right: float, bottom: float, apart: float) -> Outline:
    """Lines at 45 degrees that fill a rectangle; those of neighbouring rectangles go on in one another."""
    lines: Outline = ()
    for order in range(math.ceil((left + top) / apart), math.floor((right + bottom) / apart) + 1):
        total = order * apart  # x + y along the line
        lines += polyline((
            (max(left, total - bottom), min(bottom, total - left)), (min(right, total - top), max(top, total - right)),
        ))  # fmt: skip
    return lines


def hole(
    view: SectionView, place: Place, size_mm: float | None, frame: Frame, look: Look, step: int
) -> tuple[tuple[Shape, ...], Point]:  # fmt: skip
    """A channel through the rubber, as wide as it was measured, a ring about its mouth, and where a leader meets it."""
    (ox, oy), (ix, iy) = view.at(*place.outside), view.at(*place.inside)
    long = math.dist((ox, oy), (ix, iy)) or 1.0
    ux, uy = (ix - ox) / long, (iy - oy) / long
    half = max((size_mm or 5.0) * view.scale, frame.short / 200) / 2
    out, deep = 0.5 * frame.grid, long + 0.4 * frame.grid
    corners = [(ox + side * -uy * half + along * ux, oy + side * ux * half + along * uy)
               for side, along in ((-1, -out), (1, -out), (1, deep), (-1, deep))]  # fmt: skip
    middle = ((ox + ix) / 2, (oy + iy) / 2)
    radius = long / 2 + 1.3 * frame.grid
    dash = () if size_mm else (0.9 * frame.grid, 0.7 * frame.grid)
    end = (middle[0] + place.out[0] * radius, middle[1] - place.out[1] * radius)
    ring = circle(middle, radius)
    width = frame.short / 270
    return (
        Shape(name="hole/channel", step=step, outline=polyline(corners, closed=True), fill=look.ground,
              stroke=Stroke(look.ink, frame.short / 540)),
        Shape(name="hole/casing", step=step, outline=ring, stroke=Stroke(look.ground, 2.2 * width)),
        Shape(name="hole/ring", step=step, outline=ring, stroke=Stroke(look.measure, width, dash)),
    ), end  # fmt: skip
