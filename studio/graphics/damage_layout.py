"""Where the parts of the picture of damage stand: a tire cropped to be near the place, a glass on it, the words."""

import math

import msgspec

from studio.graphics.draw import circle, polar, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import width
from studio.graphics.look import Look
from studio.graphics.parts.damage_marks import Glass, damage_marks, ends_of
from studio.graphics.parts.dimension import dimension_line
from studio.graphics.parts.lettering import on_rubber
from studio.graphics.parts.tire_face import Face, sidewall_of, tire_face
from studio.graphics.parts.tread_above import TreadView, tire_above
from studio.graphics.scene import Point, Shape, Stroke, Text
from studio.model.specimen import DamageKind, Zone

_SHARE = {"wide": 0.46, "square": 0.41, "tall": 1.0}  # of the width, for the drawing
_HIGH = {"wide": 1.0, "square": 1.0, "tall": 0.47}  # of the height
_TURN = {"wide": 50.0, "square": 50.0, "tall": 24.0}  # degrees from the top, where the glass lies on the sidewall
_FULL = 0.60  # of the glass' radius: half of a damage at its largest
_HOLE = 0.24  # the same of a puncture, which is never large


_AWAY = {"cut": 0.12, "cord": 0.62, "separation": 0.58, "flat_spot": 0.74, "chunking": 0.72, "puncture": 1.1}


class Hurt(msgspec.Struct, frozen=True, kw_only=True):
    """The tire and its damage: mm; ``size_mm`` None where it was not measured, ``to_scale`` if the tire's size is."""

    kind: DamageKind
    zone: Zone
    size_mm: float | None
    outer_mm: float
    rim_mm: float
    width_mm: float
    depth_mm: float
    worn: float
    view: TreadView
    to_scale: bool


class Placed(msgspec.Struct, frozen=True, kw_only=True):
    """The tire's shapes, the glass over the place, the scale there in px per mm."""

    tire: tuple[Shape, ...]
    center: Point
    radius: float
    scale: float


def boxes(body: Box, frame: Frame) -> tuple[Box, Box]:
    """The drawing's box and that of the words, side by side or one below the other."""
    gap = 3 * frame.grid
    if frame.shape == "tall":
        high = body.height * _HIGH["tall"]
        return (Box(body.left, body.top, body.width, high),
                Box(body.left, body.top + high + gap, body.width, body.height - high - gap))  # fmt: skip
    wide = body.width * _SHARE[frame.shape]
    return (Box(body.left, body.top, wide, body.height),
            Box(body.left + wide + gap, body.top, body.width - wide - gap, body.height))  # fmt: skip


def tire_with_glass(its: Hurt, drawing: Box, frame: Frame, look: Look) -> Placed:
    """The tire as it is seen where the damage is: from above for the crown, else from the side."""
    radius = min(0.165 * frame.short, 0.46 * drawing.width, 0.40 * drawing.height)
    if its.zone == "crown":
        return _from_above(its, drawing, radius, frame, look)
    return _from_the_side(its, drawing, radius, frame, look)


def _from_above(its: Hurt, drawing: Box, radius: float, frame: Frame, look: Look) -> Placed:
    """The tire lies across and runs off the frame at the left; the glass near its crest."""
    tall = frame.shape == "tall"
    highest = 0.86 * drawing.height * its.outer_mm / its.width_mm
    long = min(1.15 * frame.width if tall else 1.38 * drawing.width, highest)
    scale, x = long / its.outer_mm, drawing.center[0] if tall else drawing.right - long / 2
    center = (x, drawing.center[1])
    tire = tire_above(msgspec.structs.replace(its.view, finest=max(8.0, frame.short / 110)), center,
                      its.width_mm * scale, long, look, "tire", turn="across")  # fmt: skip
    place = (max(drawing.left + radius, min(x + 0.14 * long, drawing.right - radius)), center[1])
    return Placed(tire=tire, center=place, radius=radius, scale=scale)


def _from_the_side(its: Hurt, drawing: Box, radius: float, frame: Frame, look: Look) -> Placed:
    tall = frame.shape == "tall"
    size = 0.86 * drawing.width if tall else 1.12 * drawing.height
    face = Face(outer_mm=its.outer_mm, rim_mm=its.rim_mm, scale=2 * size / its.outer_mm, center=(0.0, 0.0))
    if its.zone == "unknown":
        return _place_not_known(its, face, drawing, radius, frame, look)
    place, turn = _reach(its.zone, face), math.radians(_TURN[frame.shape])
    x = drawing.left + 0.60 * drawing.width
    if not tall:
        x = max(drawing.right - max(size - place * math.sin(turn), radius), drawing.left + radius)
    top = max(radius, size - place * math.cos(turn)) + 0.6 * frame.grid
    at = (x, drawing.top + min(top, drawing.height - radius))
    ox, oy = polar((0.0, 0.0), place, _TURN[frame.shape])
    face = msgspec.structs.replace(face, center=(at[0] - ox, at[1] - oy))
    return Placed(tire=_face(its, face, drawing, frame, look), center=at, radius=radius, scale=face.scale)


def _place_not_known(its: Hurt, face: Face, drawing: Box, radius: float, frame: Frame, look: Look) -> Placed:
    """The glass beside the tire: it lies on no part of it."""
    size = 0.62 * (drawing.width if frame.shape == "tall" else drawing.height)
    low = (drawing.left + 0.24 * drawing.width, drawing.bottom - 0.1 * size)
    face = msgspec.structs.replace(face, scale=2 * size / its.outer_mm, center=low)
    at = (drawing.right - radius - frame.grid, drawing.top + radius + frame.grid)
    return Placed(tire=_face(its, face, drawing, frame, look), center=at, radius=radius, scale=face.scale)


def _reach(zone: Zone, face: Face) -> float:
    side = sidewall_of(face)
    if zone == "shoulder":
        return (side.shoulder + side.block_foot) / 2
    return side.flange + face.px(9.0) if zone == "bead" else (side.upper_rib + side.lower_rib) / 2


def _face(its: Hurt, face: Face, drawing: Box, frame: Frame, look: Look) -> tuple[Shape, ...]:
    right = frame.width if frame.shape == "tall" else drawing.right + frame.grid
    window = rectangle(0.0, drawing.top, right, drawing.height)
    return tire_face(face, look, depth_mm=its.depth_mm, worn=its.worn, clip=window)


def glass_marks(its: Hurt, placed: Placed, frame: Frame, look: Look, step: int) -> tuple[Shape | Text, ...]:
    """The damage in its glass, its length between arrows, how much larger than the tire it is drawn."""
    times, reach = _enlarged(its, placed)
    on_tread = its.zone in ("crown",) or its.kind in ("flat_spot", "chunking")
    glass = Glass(center=placed.center, radius=placed.radius, reach=reach, on_tread=on_tread, step=step)
    line, rim = frame.short / 216, circle(placed.center, placed.radius)
    marks: list[Shape | Text] = [
        Shape(name="glass/casing", step=step, outline=rim, fill=look.ground, stroke=Stroke(look.ground, 2.6 * line)),
        *damage_marks(its.kind, glass, look),
        Shape(name="glass/rim", step=step, outline=rim, stroke=Stroke(look.ink, line)),
    ]
    if times is not None and its.size_mm:
        marks += _measured(its, glass, frame, look, step + 1)
    return (*marks, *_scale_words(times, glass, frame, look))


def _enlarged(its: Hurt, placed: Placed) -> tuple[int | None, float]:
    """How many times larger than the tire, and half of the damage's length in px; None where it is not to scale."""
    full = (_HOLE if its.kind == "puncture" else _FULL) * placed.radius
    half = (its.size_mm or 0.0) / 2 * placed.scale
    if not its.to_scale or half <= 0 or half > 0.9 * placed.radius:
        return None, full
    times = max(1, math.floor(full / half))
    return times, half * times


def _measured(its: Hurt, glass: Glass, frame: Frame, look: Look, step: int) -> tuple[Shape, ...]:
    """The length of the damage below it, between arrows that can be seen on rubber."""
    (ax, ay), (bx, by) = ends_of(its.kind, glass)
    away = _AWAY.get(its.kind, 0.9) * glass.reach + 1.6 * frame.grid
    long = math.hypot(bx - ax, by - ay) or 1.0
    nx, ny = -(by - ay) / long * away, (bx - ax) / long * away
    pale = msgspec.structs.replace(look, measure=on_rubber(look))
    return dimension_line((ax + nx, ay + ny), (bx + nx, by + ny), frame, pale, "size", step)


def _scale_words(times: int | None, glass: Glass, frame: Frame, look: Look) -> tuple[Text, ...]:
    """What is said of the scale, as low in the glass as its words are held by it."""
    cap, rim = frame.cap_height("small"), 0.9 * frame.grid
    whole = "not to scale" if times is None else "to scale" if times == 1 else f"{times} × larger"
    for said in (whole, whole.removesuffix(" larger")):
        half = width(said, cap) / 2 + rim
        low = math.sqrt(max(0.0, (glass.radius - rim) ** 2 - half**2))
        if low > 0.5 * glass.radius:
            break
    else:
        return ()
    at = (glass.center[0], glass.center[1] + min(low, 0.8 * glass.radius))
    return (Text(name="scale/glass", step=glass.step, text=said, at=at, cap_height=cap, fill=look.letter,
                 ground=look.rubber, role="small", anchor="middle", halo=look.rubber),)  # fmt: skip
