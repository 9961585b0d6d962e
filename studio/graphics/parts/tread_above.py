"""A tire seen from above: the crest of its tread, foreshortened round the cylinder, in a pattern of its family.

The families are our own drawings of what the trade tells apart: all-season ribs, winter blocks with sipes, arrowed
directional, asymmetric, all-terrain, temporary spare. With wear the slots close, the sipes go, the edges soften and
the grooves grow pale, as they get shallow.
"""

import math
from typing import Literal

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import Box
from studio.graphics.look import Look
from studio.graphics.parts.tread_blocks import Family, Pattern, Rib, pattern_of, rounded
from studio.graphics.scene import Command, Linear, Outline, Paint, Point, Shape, Stroke

Turn = Literal["up", "across"]

_TREAD_SHARE = 0.86  # tread width over section width; 170-200 mm on a 225 tire is common practice, no source
_SEEN = math.radians(72)  # beyond this angle from the crest a block is too foreshortened to be drawn


class TreadView(msgspec.Struct, frozen=True, kw_only=True):
    """A tire to be drawn from above: ``diameter`` long, ``width`` (section width) wide, ``worn`` 0 (new) to 1 (done).

    ``outer_left`` says that the side marked outside, or the outer side of the car, lies at the left. ``arrow_up`` turns
    a directional tread; ``finest`` is the least period in px of anything drawn (finer patterns flicker in a video).
    """

    family: Family = "all_season"
    siped: bool = False
    studded: bool = False
    worn: float = 0.0
    outer_left: bool = True
    arrow_up: bool = True
    finest: float = 8.0


def tire_above(
    view: TreadView, center: Point, width: float, diameter: float, look: Look, name: str, *,
    turn: Turn = "up", step: int = 0,
) -> tuple[Shape, ...]:
    """The tire's shapes, ``width`` x ``diameter`` px about ``center``; ``turn`` "across" lays it sideways."""
    body = _Cylinder(view, center, width, diameter, turn)
    groove = mix(look.groove, look.rubber, 0.75 * view.worn)
    edge = Stroke(look.rubber_edge, max(view.finest / 5, width / 40)) if look.rubber_edge else None
    shapes = [
        Shape(name=f"{name}/tire", step=step, outline=body.silhouette(), fill=body.shade(look.rubber, look),
              stroke=edge),
        Shape(name=f"{name}/grooves", step=step, outline=body.band(), fill=body.shade(groove, look)),
    ]  # fmt: skip
    blocks = body.blocks()
    if blocks:
        light = body.shade(look.rubber_light, look)
        shapes.append(Shape(name=f"{name}/blocks", step=step, outline=blocks, fill=light, clip=body.band()))
    shapes += _details(body, view, groove, look, name, step)
    return tuple(shapes)


def _details(
    body: "_Cylinder", view: TreadView, groove: str, look: Look, name: str, step: int
) -> list[Shape]:
    shapes = []
    sipes = body.sipes() if view.siped and view.worn < 0.85 else ()
    if sipes:
        line = Stroke(mix(groove, look.rubber_light, 0.25 + 0.6 * view.worn), body.thin, cap="flat")
        shapes.append(Shape(name=f"{name}/sipes", step=step, outline=sipes, stroke=line))
    if view.studded and (studs := body.studs()):
        shapes.append(Shape(name=f"{name}/studs", step=step, outline=studs, fill=look.steel_light))
    return shapes


class _Cylinder:
    """Maps a pattern (u across -1..1, s along in tread widths) onto the tire as it is seen from above."""

    def __init__(self, view: TreadView, center: Point, width: float, diameter: float, turn: Turn) -> None:
        self.view, self.center, self.turn = view, center, turn
        self.width, self.diameter = width, diameter
        self.half_tread = width * _TREAD_SHARE / 2
        self.radius = diameter / 2
        self.thin = max(view.finest / 5, width / 110)
        self.pattern: Pattern = pattern_of(view.family, 2 * self.half_tread, view.finest)
        self.pitch = self._pitch()

    def _pitch(self) -> float:
        """The pattern's pitch in px along the crest: a whole number round the tire, never finer than it may be."""
        round_it = 2 * math.pi * self.radius
        wanted = max(self.pattern.pitch * 2 * self.half_tread, 1.6 * self.view.finest)
        return round_it / max(6, round(round_it / wanted))

    def at(self, u: float, s: float) -> Point:
        """The place of a point of the pattern in px of the frame; ``s`` in px along the tread, 0 at the crest."""
        across = u * self.half_tread * (1 if self.view.outer_left else -1)
        along = -self.radius * math.sin(s / self.radius) * (1 if self.view.arrow_up else -1)
        if self.turn == "across":
            return (self.center[0] + along, self.center[1] + across)
        return (self.center[0] + across, self.center[1] + along)

    def _upright(self, half_width: float, half_length: float, radius: float) -> Outline:
        x, y = self.center
        wide, high = (half_width, half_length) if self.turn == "up" else (half_length, half_width)
        return rectangle(x - wide, y - high, 2 * wide, 2 * high, radius)

    def silhouette(self) -> Outline:
        return self._upright(self.width / 2, self.radius, self.width * 0.26)

    def band(self) -> Outline:
        return self._upright(self.half_tread, self.radius * 0.985, self.width * 0.2)

    def shade(self, color: str, look: Look) -> Paint:
        """The colour along the roll of the tire: light a little ahead of the crest, dark where it turns away."""
        dark, pale = mix(color, look.groove, 0.62), mix(color, look.steel, 0.10)
        stops = ((0.0, dark), (0.16, mix(color, dark, 0.4)), (0.40, pale), (0.58, color),
                 (0.84, mix(color, dark, 0.55)), (1.0, dark))  # fmt: skip
        x, y = self.center
        if self.turn == "across":
            return Linear((x - self.radius, y), (x + self.radius, y), stops)
        return Linear((x, y - self.radius), (x, y + self.radius), stops)

    def blocks(self) -> Outline:
        """All blocks and ribs as one outline of many pieces."""
        commands: list[Command] = []
        for rib in self.pattern.ribs:
            commands += self._rib(rib)
        return tuple(commands)

    def _rib(self, rib: Rib) -> list[Command]:
        soften = 0.05 + 0.11 * self.view.worn
        if not rib.slot or self.view.worn > rib.closes:
            return list(self._block(rib, -_SEEN * self.radius, _SEEN * self.radius, 0.0, whole=True))
        slot = rib.slot * self.pitch * (1 - 0.55 * self.view.worn)
        commands: list[Command] = []
        for start in self._starts(rib):
            commands += self._block(rib, start + slot / 2, start + self.pitch - slot / 2, soften)
        return commands

    def _starts(self, rib: Rib) -> list[float]:
        count = math.ceil(_SEEN * self.radius / self.pitch) + 2
        return [(order + rib.shift) * self.pitch for order in range(-count, count)]

    def _block(self, rib: Rib, low: float, high: float, soften: float, whole: bool = False) -> Outline:
        """One block between two slots; its ends follow the rib's slant."""
        most = _SEEN * self.radius
        ends = [(u, 0.0 if whole else lean * self.pitch) for u, lean in rib.edge]
        points = [(u, min(most, max(-most, high + lean))) for u, lean in ends]
        points += [(u, min(most, max(-most, low + lean))) for u, lean in reversed(ends)]
        if max(s for _, s in points) - min(s for _, s in points) < 0.5:
            return ()
        placed = [self.at(u, s) for u, s in points]
        corner = soften * min(self.pitch, (ends[-1][0] - ends[0][0]) * self.half_tread)
        return rounded(placed, corner) if corner > 0.4 else polyline(placed, closed=True)

    def sipes(self) -> Outline:
        """Fine zigzag cuts across each block, as many as may be told apart."""
        commands: list[Command] = []
        for rib in self.pattern.ribs:
            (u0, lean0), (u1, lean1) = rib.edge[0], rib.edge[-1]
            count = int(self.pitch * (1 - rib.slot) / self.view.finest) - 1
            for start in self._starts(rib):
                for order in range(min(count, 3)):
                    share = rib.slot / 2 + (1 - rib.slot) * (order + 1) / (min(count, 3) + 1)
                    commands += self._zigzag((u0, lean0), (u1, lean1), start + share * self.pitch)
        return tuple(commands)

    def _zigzag(self, start: Point, end: Point, s: float) -> Outline:
        (u0, lean0), (u1, lean1) = start, end
        inset, swing = 0.14 * (u1 - u0), 0.05 * self.pitch
        points = []
        for order in range(5):
            share = order / 4
            u = u0 + inset + (u1 - u0 - 2 * inset) * share
            along = s + (lean0 + (lean1 - lean0) * share) * self.pitch + swing * (-1, 1)[order % 2]
            points.append((u, along))
        if any(abs(along) > 0.82 * _SEEN * self.radius for _, along in points):
            return ()
        return polyline([self.at(u, along) for u, along in points])

    def studs(self) -> Outline:
        """Studs in the outer blocks, every other pitch."""
        commands: list[Command] = []
        for rib in (self.pattern.ribs[0], self.pattern.ribs[-1]):
            middle = (rib.edge[0][0] + rib.edge[-1][0]) / 2
            for order, start in enumerate(self._starts(rib)):
                s = start + self.pitch * 0.5
                if order % 2 or abs(s) > 0.8 * _SEEN * self.radius:
                    continue
                commands += circle(self.at(middle, s), max(1.2, self.half_tread * 0.04))
        return tuple(commands)


def box_of(center: Point, width: float, diameter: float, turn: Turn = "up") -> Box:
    """The box of the tire in px."""
    wide, high = (width, diameter) if turn == "up" else (diameter, width)
    return Box(center[0] - wide / 2, center[1] - high / 2, wide, high)
