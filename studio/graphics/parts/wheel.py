"""A road wheel seen from the side: flange, barrel behind the spokes, spokes of our own pattern, nuts, cap, valve.

All lengths are mm of the wheel until they are drawn; ``Face`` turns them into px of the frame.
"""

from collections.abc import Sequence

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import circle, polar, ring, transformed
from studio.graphics.look import Look
from studio.graphics.parts.outlines import rounded
from studio.graphics.scene import Linear, Outline, Paint, Point, Radial, Shape, Stroke

FLANGE_MM = 17.3  # height of a J flange above the bead seat, from memory (ETRTO rim contours)
_FORKS = 6
_SMALL_RIM_MM = 365.0  # up to 14 inches cars mostly have four nuts, above five: common practice, no source


class Face(msgspec.Struct, frozen=True, kw_only=True):
    """A wheel with its tire as it stands in the frame: diameters in mm, ``scale`` in px per mm, ``center`` in px.

    ``nuts`` 0 lets the rim decide.
    """

    outer_mm: float
    rim_mm: float
    scale: float
    center: Point
    nuts: int = 0

    @property
    def radius(self) -> float:
        """The tire's outer radius in px."""
        return self.outer_mm / 2 * self.scale

    @property
    def flange(self) -> float:
        """The outer radius of the rim's flange in px: what of the rim is seen."""
        return (self.rim_mm / 2 + FLANGE_MM) * self.scale

    @property
    def section_height_mm(self) -> float:
        """From the rim's nominal diameter to the tread."""
        return (self.outer_mm - self.rim_mm) / 2

    def px(self, mm: float) -> float:
        """A length in px."""
        return mm * self.scale

    def lit(self, radius: float, light: str, dark: str) -> Linear:
        """Light from the upper left across a disc of ``radius`` px."""
        (x, y), reach = self.center, radius * 0.75
        return Linear((x - reach, y - reach), (x + reach, y + reach), ((0.0, light), (1.0, dark)))


def wheel(face: Face, look: Look, name: str = "wheel", step: int = 0, clip: Outline | None = None) -> tuple[Shape, ...]:
    """The wheel inside the tire's beads."""
    pen = _Pen(face, name, step, clip)
    _rim(pen, look)
    _barrel(pen, look)
    _spokes(pen, look)
    _hub(pen, look)
    return tuple(pen.shapes)


class _Pen:
    """Collects the wheel's shapes."""

    def __init__(self, face: Face, name: str, step: int, clip: Outline | None) -> None:
        self.face, self.shapes = face, list[Shape]()
        self._name, self._step, self._clip = name, step, clip

    def add(
        self, part: str, outline: Outline, fill: Paint, *, even_odd: bool = False, line: Stroke | None = None
    ) -> None:
        """One shape."""
        self.shapes.append(
            Shape(name=f"{self._name}/{part}", step=self._step, outline=outline, fill=fill, even_odd=even_odd,
                  stroke=line, clip=self._clip)
        )  # fmt: skip


def _rim(pen: _Pen, look: Look) -> None:
    """The flange is round in section: its outer half turns to the light, its inner half away from it."""
    face, center = pen.face, pen.face.center
    outer, middle, inner = face.flange, face.flange - face.px(5), face.flange - face.px(11)
    dark = mix(look.steel, look.groove, 0.55)
    bright = mix(look.steel_light, "#FFFFFF", 0.35)
    pen.add("flange", ring(center, outer, middle), face.lit(outer, bright, dark))
    pen.add("flange inside", ring(center, middle + 0.5, inner), face.lit(outer, mix(look.steel, dark, 0.4), bright))
    pen.add("well", circle(center, inner + 0.5), mix(look.groove, look.steel, 0.10))


def _barrel(pen: _Pen, look: Look) -> None:
    """What is seen between the spokes: the barrel in shade, a brake disc further in."""
    face, center = pen.face, pen.face.center
    deep = face.px(face.rim_mm / 2 - 12)
    disc = face.px(face.rim_mm / 2 - 44)
    shade = ((0.0, look.groove), (0.80, look.groove), (0.93, mix(look.groove, look.steel, 0.30)),
             (1.0, mix(look.groove, look.steel, 0.12)))  # fmt: skip
    pen.add("barrel", circle(center, deep), Radial(center, deep, shade))
    steel = mix(look.groove, look.steel, 0.42)
    pen.add("brake disc", ring(center, disc, disc * 0.55), face.lit(disc, steel, mix(look.groove, look.steel, 0.16)))


def _spokes(pen: _Pen, look: Look) -> None:
    face, center = pen.face, pen.face.center
    outer = face.flange - face.px(10)
    holes = tuple(command for hole in _windows(face) for command in hole)
    plate = circle(center, outer) + holes
    depth = face.px(3.2)
    thick = transformed(plate, (1.0, 0.0, 0.0, 1.0, depth, depth * 1.1))
    inside = circle(center, outer)
    dark = mix(look.steel, look.groove, 0.45)
    pen.add("spokes side", thick, face.lit(outer, dark, mix(look.steel, look.groove, 0.7)), even_odd=True)
    pen.shapes[-1] = msgspec.structs.replace(pen.shapes[-1], clip=pen.shapes[-1].clip or inside)
    face_fill = face.lit(outer, look.steel_light, mix(look.steel, look.groove, 0.12))
    edge = Stroke(mix(look.steel_light, "#FFFFFF", 0.4), max(0.6, face.px(0.7)))
    pen.add("spokes", plate, face_fill, even_odd=True, line=edge)


def _windows(face: Face) -> list[Outline]:
    """The holes of the face: a slim one inside each forked spoke, a wide one between two of them."""
    rim = face.rim_mm / 2
    outer, hub = rim - 15, max(58.0, rim * 0.30)
    turn = 360 / _FORKS
    holes = []
    for fork in range(_FORKS):
        middle = fork * turn
        slim = ((outer, middle - 9.4), (outer, middle + 9.4), (hub + 0.34 * (outer - hub), middle))
        wide = ((outer, middle + 15.6), (outer, middle + turn - 15.6), (hub + 6, middle + turn / 2 + 13),
                (hub + 6, middle + turn / 2 - 13))  # fmt: skip
        holes.append(_rounded(face, slim, 7.0))
        holes.append(_rounded(face, wide, 12.0))
    return holes


def _rounded(face: Face, corners: Sequence[tuple[float, float]], radius_mm: float) -> Outline:
    """A closed figure through polar ``corners`` (mm, degrees); its first side, the outermost, follows the circle."""
    (outer, start), (_, end) = corners[:2]
    bow = [(outer, start + (end - start) * step / 6) for step in range(1, 6)]
    path = [corners[0], *bow, *corners[1:]]
    return rounded([(polar(face.center, face.px(radius), angle), face.px(radius_mm)) for radius, angle in path])


def _hub(pen: _Pen, look: Look) -> None:
    face, center = pen.face, pen.face.center
    count = face.nuts or (4 if face.rim_mm < _SMALL_RIM_MM else 5)
    bolt_circle = 50.0 if count == 4 else 57.0 if count == 5 else 70.0
    dark, light = mix(look.steel, look.groove, 0.6), mix(look.steel_light, "#FFFFFF", 0.3)
    seats: Outline = ()
    nuts: Outline = ()
    for nut in range(count):
        at = polar(center, face.px(bolt_circle), nut * 360 / count)
        seats += circle(at, face.px(13.5))
        nuts += _hexagon(at, face.px(10.0), nut * 360 / count)
    pen.add("nut seats", seats, face.lit(face.px(90), mix(look.groove, look.steel, 0.2), dark))
    pen.add("nuts", nuts, face.lit(face.px(90), light, look.steel), line=Stroke(dark, max(0.5, face.px(1.0))))
    cap = face.px(32 if count <= 5 else 44)
    pen.add("cap edge", circle(center, cap), face.lit(cap, dark, light))
    pen.add("cap", circle(center, cap * 0.90), face.lit(cap, look.steel_light, look.steel))
    _valve(pen, look)


def _hexagon(at: Point, radius: float, turn: float) -> Outline:
    return rounded([(polar(at, radius, turn + corner * 60), radius * 0.2) for corner in range(6)])


def _valve(pen: _Pen, look: Look) -> None:
    """The valve stands in a wide window, near the flange."""
    face = pen.face
    base = polar(face.center, face.px(face.rim_mm / 2 - 26), 30.0 + 360 / _FORKS * 2)
    tip = polar(face.center, face.px(face.rim_mm / 2 - 47), 30.0 + 360 / _FORKS * 2)
    rubber = Stroke(mix(look.rubber, look.rubber_light, 0.5), face.px(8.5))
    stem: Outline = (("M", *base), ("L", *tip))
    pen.shapes.append(
        Shape(name=f"{pen.shapes[0].name.split('/')[0]}/valve", step=pen.shapes[0].step, outline=stem, stroke=rubber,
              clip=pen.shapes[0].clip)
    )  # fmt: skip
