"""A tire on its wheel seen from the side: dimensions in, marks out.

From outside in: the crown's edge, shoulder blocks in profile, the shoulder, the sidewall between two fine ribs, the
bead, the rim's flange and the wheel. Shading shows roundness only: light falls from the upper left.
"""

import msgspec

from studio.graphics.color import faded, mix
from studio.graphics.draw import circle, ellipse, ring
from studio.graphics.look import Look
from studio.graphics.parts.tread_profile import block_sipes, crown, pitch_edges, shoulder_blocks
from studio.graphics.parts.wheel import Face, wheel
from studio.graphics.scene import Linear, Outline, Paint, Radial, Shape, Stroke

__all__ = ["Face", "Sidewall", "ground_shadow", "sidewall_ground", "sidewall_of", "small_tire_face", "tire_face"]

_DEFAULT_DEPTH_MM = 8.0
_SHADOW_LAYERS = 7
_CROWN_DROP_MM = 4.5  # how far the shoulder lies below the crown


class Sidewall(msgspec.Struct, frozen=True, kw_only=True):
    """Radii in px of what a sidewall shows, from the tread down to the flange."""

    crown: float
    shoulder: float
    block_foot: float
    upper_rib: float
    lower_rib: float
    flange: float

    @property
    def band(self) -> float:
        """The height in px of the band between the ribs, where lettering stands."""
        return self.upper_rib - self.lower_rib


def sidewall_of(face: Face) -> Sidewall:
    """Where the parts of the sidewall lie; a low sidewall keeps its lettering band longest."""
    seen = face.radius - face.flange
    px = face.px
    shoulder = face.radius - px(min(_CROWN_DROP_MM, 0.03 * face.outer_mm / 2))
    foot = face.radius - min(px(26.0), seen * 0.25)
    return Sidewall(
        crown=face.radius, shoulder=shoulder, block_foot=foot, upper_rib=foot - seen * 0.10,
        lower_rib=face.flange + seen * 0.17, flange=face.flange,
    )  # fmt: skip


def sidewall_ground(look: Look) -> str:
    """The colour behind the lettering: the lightest that the band's shading reaches."""
    return mix(look.rubber, look.rubber_light, 0.5)


def tire_face(
    face: Face, look: Look, *, depth_mm: float = _DEFAULT_DEPTH_MM, worn: float = 0.0, name: str = "tire",
    step: int = 0, clip: Outline | None = None,
) -> tuple[Shape, ...]:  # fmt: skip
    """The tire and its wheel. ``depth_mm`` is the tread's depth, ``worn`` from 0 to 1 how rounded its blocks are."""
    pen = _Pen(face, look, name, step, clip)
    _tread(pen, depth_mm, worn)
    _side(pen)
    return (*pen.shapes, *wheel(face, look, f"{name}/wheel", step, clip))


def small_tire_face(face: Face, look: Look, *, name: str = "tire", step: int = 0) -> tuple[Shape, ...]:
    """The same tire for a picture in which it is small: no ribs, no sipes, few blocks."""
    pen = _Pen(face, look, name, step, None)
    side = sidewall_of(face)
    edges = pitch_edges(face.outer_mm, face.scale)
    pen.add("tread", crown(face.center, side.crown, face.px(_DEFAULT_DEPTH_MM), edges), look.rubber, pen.edge())
    pen.add("sidewall", circle(face.center, side.block_foot), _roundness(face, side, look))
    return (*pen.shapes, *wheel(face, look, f"{name}/wheel", step))


def ground_shadow(face: Face, look: Look, *, name: str = "shadow", step: int = 0) -> tuple[Shape, ...]:
    """The one soft shadow, where the tire stands on the ground: flat rings that add up towards the middle."""
    x, y = face.center[0] + face.radius * 0.04, face.center[1] + face.radius * 0.985
    layers = []
    for order in range(_SHADOW_LAYERS):
        size = 1 - order / _SHADOW_LAYERS
        outline = ellipse((x, y), face.radius * (0.20 + 0.58 * size), face.radius * (0.012 + 0.058 * size))
        fill = faded(look.shadow, 0.09)
        layers.append(Shape(name=f"{name}/layer {order + 1}", step=step, outline=outline, fill=fill))
    return tuple(layers)


class _Pen:
    """Collects the tire's shapes."""

    def __init__(self, face: Face, look: Look, name: str, step: int, clip: Outline | None) -> None:
        self.face, self.look, self.shapes = face, look, list[Shape]()
        self._name, self._step, self._clip = name, step, clip

    def add(self, part: str, outline: Outline, fill: Paint | None, line: Stroke | None = None) -> None:
        """One shape."""
        self.shapes.append(
            Shape(name=f"{self._name}/{part}", step=self._step, outline=outline, fill=fill, stroke=line,
                  clip=self._clip)
        )  # fmt: skip

    def edge(self) -> Stroke | None:
        """The hairline that sets rubber off from a dark ground."""
        return Stroke(self.look.rubber_edge, max(1.0, self.face.radius / 260)) if self.look.rubber_edge else None


def _tread(pen: _Pen, depth_mm: float, worn: float) -> None:
    face, look = pen.face, pen.look
    side, edges = sidewall_of(face), pitch_edges(face.outer_mm, face.scale)
    center, depth = face.center, face.px(depth_mm)
    floor = mix(look.groove, look.rubber, 0.25)
    dark = mix(look.rubber, look.groove, 0.35)
    pen.add("tread/crown", crown(center, side.crown, depth * 0.55, edges), dark, pen.edge())
    pen.add("tread/grooves", circle(center, side.shoulder - depth * 0.5), floor)
    blocks = shoulder_blocks(center, side.shoulder, side.block_foot, edges, worn)
    pen.add("tread/blocks", blocks, face.lit(face.radius, mix(look.rubber_light, look.letter, 0.10),
                                             mix(look.rubber, look.groove, 0.25)))  # fmt: skip
    if depth_mm > 3 and face.px(1.0) > 0.9:
        sipes = block_sipes(center, side.shoulder, side.block_foot, edges)
        pen.add("tread/sipes", sipes, None, Stroke(floor, face.px(1.0), cap="flat"))


def _side(pen: _Pen) -> None:
    face, look, center = pen.face, pen.look, pen.face.center
    side = sidewall_of(face)
    pen.add("sidewall", circle(center, side.block_foot + face.px(1.0)), _roundness(face, side, look))
    glow = ((0.0, faded(look.letter, 0.13)), (0.45, faded(look.letter, 0.0)), (0.55, faded(look.groove, 0.0)),
            (1.0, faded(look.groove, 0.40)))  # fmt: skip
    (x, y), reach = center, side.block_foot * 0.75
    light = Linear((x - reach, y - reach), (x + reach, y + reach), glow)
    pen.add("sidewall light", ring(center, side.block_foot, side.flange), light)
    fine = max(1.0, face.px(1.1))
    bright, dark = mix(look.rubber_light, look.letter, 0.22), mix(look.rubber, look.groove, 0.6)
    for rib, radius in (("upper rib", side.upper_rib), ("lower rib", side.lower_rib)):
        pen.add(f"{rib} shade", ring(center, radius, radius - fine), dark)
        away = mix(look.rubber_light, look.rubber, 0.6)
        pen.add(rib, ring(center, radius + fine, radius), face.lit(radius, bright, away))
    bead = side.flange + min(face.px(6.0), (side.lower_rib - side.flange) * 0.45)
    tucked = face.lit(bead, mix(look.rubber, look.groove, 0.5), look.rubber_light)
    pen.add("bead", ring(center, bead, side.flange), tucked)
    pen.add("bead line", ring(center, side.flange + max(1.0, face.px(1.4)), side.flange - 1), look.groove)


def _roundness(face: Face, side: Sidewall, look: Look) -> Radial:
    """The sidewall's bulge. The gradient's centre lies towards the light, so that the bright line moves outward there
    and inward on the far side, as it does on a ring of round section."""
    shift = face.radius * 0.035
    reach = side.block_foot + 1.5 * shift

    def at(radius: float) -> float:
        return max(0.0, min(1.0, radius / reach))

    middle = (side.upper_rib + side.lower_rib) / 2
    stops = (
        (at(side.flange - shift), mix(look.rubber, look.groove, 0.75)),
        (at(side.lower_rib), look.rubber),
        (at(middle), mix(look.rubber, look.rubber_light, 0.5)),
        (at(side.upper_rib), mix(look.rubber, look.groove, 0.10)),
        (at(side.block_foot), mix(look.rubber, look.groove, 0.45)),
        (1.0, mix(look.rubber, look.groove, 0.7)),
    )
    return Radial((face.center[0] - shift, face.center[1] - shift), reach, stops)
