"""Raised lettering on a sidewall, and the marks that point at parts of it."""

import math

import msgspec

from studio.graphics.color import contrast, mix
from studio.graphics.draw import arc
from studio.graphics.face import current_face
from studio.graphics.layout.text import font_size, shape
from studio.graphics.look import Look
from studio.graphics.scene import ArcText, Outline, Point, Shape, Stroke, Weight

WEIGHT: Weight = "bold"
_LEGIBLE = 4.5


class Lettering(msgspec.Struct, frozen=True, kw_only=True):
    """Text along the sidewall: baseline ``radius`` and ``cap_height`` in px, its middle at ``angle`` degrees."""

    text: str
    center: Point
    radius: float
    angle: float
    cap_height: float
    spacing: float = 0.06

    @property
    def middle_radius(self) -> float:
        """The radius half way up the capitals."""
        return self.radius + self.cap_height / 2

    @property
    def spread(self) -> float:
        """The angle that the whole text takes, in degrees."""
        return math.degrees(self._width(len(self.text)) / self.radius)

    def span(self, start: int, end: int) -> tuple[float, float]:
        """Where the characters from ``start`` to ``end`` (not included) lie: two angles in degrees from the top."""
        begin = self.angle - self.spread / 2
        size = font_size(self.cap_height)
        last = self._width(end) - (self.spacing * size if end < len(self.text) else 0.0)
        return (begin + math.degrees(self._width(start) / self.radius), begin + math.degrees(last / self.radius))

    def _width(self, count: int) -> float:
        """The width in px of the first ``count`` characters, each followed by its spacing but the last of all."""
        glyphs = shape(self.text, WEIGHT, current_face())
        size = font_size(self.cap_height)
        advance = sum(glyph.advance for glyph in glyphs[:count]) * size
        return advance + self.spacing * size * min(count, len(glyphs) - 1)

    def at_cap_height(self, cap_height: float) -> "Lettering":
        """The same lettering in another size."""
        return msgspec.structs.replace(self, cap_height=cap_height)


def raised(lettering: Lettering, look: Look, ground: str, name: str, step: int = 0) -> tuple[ArcText, ...]:
    """The lettering with the shade it casts to the lower right."""
    x, y = lettering.center
    off = lettering.cap_height / 22
    shade = _arc_text(lettering, (x + off, y + off), look.groove, ground, f"{name}/shade", step)
    return shade, _arc_text(lettering, lettering.center, look.letter, ground, name, step)


def _arc_text(lettering: Lettering, center: Point, fill: str, ground: str, name: str, step: int) -> ArcText:
    return ArcText(
        name=name, step=step, text=lettering.text, center=center, radius=lettering.radius, angle=lettering.angle,
        cap_height=lettering.cap_height, fill=fill, ground=ground, weight=WEIGHT, spacing=lettering.spacing,
    )  # fmt: skip


def on_rubber(look: Look) -> str:
    """The measure colour, moved towards the letters' until it is legible on rubber."""
    darkest = mix(look.rubber, look.rubber_light, 0.6)
    share = 0.0
    while contrast(mix(look.measure, look.letter, share), darkest) < _LEGIBLE and share < 1.0:
        share += 0.05
    return mix(look.measure, look.letter, min(1.0, share))


def bracket(center: Point, radius: float, span: tuple[float, float], foot: float) -> Outline:
    """An arc over ``span`` with its ends bent inward by ``foot`` px: it holds the letters below it together."""
    start, end = span
    inner = radius - foot
    return (*arc(center, inner, start, start), *arc(center, radius, start, end, move=False),
            *arc(center, inner, end, end, move=False))  # fmt: skip


def bracket_mark(outline: Outline, color: str, width: float, name: str, step: int) -> Shape:
    """The bracket drawn."""
    return Shape(name=name, step=step, outline=outline, stroke=Stroke(color, width))
