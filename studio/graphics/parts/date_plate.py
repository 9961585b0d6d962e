"""The date code as it stands on a sidewall: raised digits on a plate, held together in two groups, week and year."""

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import arc, polar, polyline, rectangle
from studio.graphics.frame import Box
from studio.graphics.layout.text import width
from studio.graphics.look import Look
from studio.graphics.parts.lettering import WEIGHT, Lettering, bracket, on_rubber, raised
from studio.graphics.scene import ArcText, Linear, Outline, Point, Shape, Stroke

_CURVE = 5.0  # the radius of the sidewall shown, in widths of the piece
_WEEK = 2  # digits of the code that give the week
_SPACING = 0.10


class DatePlate(msgspec.Struct, frozen=True, kw_only=True):
    """A piece of sidewall that fills ``box`` (px), with the code's ``digits`` in its middle."""

    box: Box
    digits: str

    @property
    def lettering(self) -> Lettering:
        """The digits, as large as the piece holds."""
        one = width(self.digits, 1.0, WEIGHT) + 1.4 * _SPACING * len(self.digits)
        cap = min(0.42 * self.box.height, 0.62 * self.box.width / one)
        radius = _CURVE * self.box.width
        x, y = self.box.center
        return Lettering(text=self.digits, center=(x, y + cap / 2 - 0.04 * self.box.height + radius), radius=radius,
                         angle=0.0, cap_height=cap, spacing=_SPACING)  # fmt: skip

    def groups(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """The angles over which the week's and the year's digits lie."""
        its = self.lettering
        return its.span(0, _WEEK), its.span(_WEEK, len(self.digits))

    def foot(self, group: int) -> Point:
        """Where a line to a group's words leaves its bracket."""
        its = self.lettering
        middle = sum(self.groups()[group]) / 2
        return polar(its.center, its.radius - 0.24 * its.cap_height, middle)


def date_plate(its: DatePlate, look: Look, name: str, line: float, step: int = 0) -> tuple[Shape | ArcText, ...]:
    """The piece of sidewall, its plate, the digits; ``line`` px is a line that carries meaning."""
    box, letters = its.box, its.lettering
    window = rectangle(box.left, box.top, box.width, box.height, 0.06 * box.height)
    dark, darker = mix(look.rubber, look.groove, 0.3), mix(look.rubber, look.groove, 0.4)
    wall = Linear((0.0, box.top), (0.0, box.bottom), ((0.0, darker), (0.35, look.rubber), (1.0, dark)))
    edge = Stroke(look.rubber_edge, line / 2) if look.rubber_edge else None
    plate = _plate(its)
    ground = mix(look.rubber, look.rubber_light, 0.45)
    ribs: Outline = ()
    for share in (0.09, 0.91):
        y = box.top + share * box.height
        ribs += arc((box.center[0], y + letters.radius), letters.radius, -8.0, 8.0)
    fine = Stroke(mix(look.rubber, look.rubber_light, 0.8), line)
    return (
        Shape(name=f"{name}/sidewall", step=step, outline=window, fill=wall, stroke=edge),
        Shape(name=f"{name}/ribs", step=step, outline=ribs, stroke=fine, clip=window),
        Shape(name=f"{name}/plate", step=step, outline=plate, fill=ground, stroke=Stroke(look.groove, line / 2)),
        *raised(letters, look, ground, f"{name}/digits", step),
    )


def _plate(its: DatePlate) -> Outline:
    """The plate round the digits: a piece of a ring, with room for the brackets under them."""
    letters = its.lettering
    cap, half = letters.cap_height, letters.spread / 2
    over = half + 0.55 * half / max(2, len(its.digits)) * 2
    top, low = letters.radius + 1.34 * cap, letters.radius - 0.52 * cap
    return (*arc(letters.center, top, -over, over), *arc(letters.center, low, over, -over, move=False), ("Z",))


def group_bracket(its: DatePlate, group: int, look: Look, name: str, line: float, step: int = 0) -> tuple[Shape, Shape]:
    """A bracket under a group's digits, and a line from it to the foot of the piece."""
    letters = its.lettering
    cap = letters.cap_height
    start, end = its.groups()[group]
    held = bracket(letters.center, letters.radius - 0.24 * cap, (start, end), -0.12 * cap)
    x, y = its.foot(group)
    return (
        Shape(name=f"{name}/bracket", step=step, outline=held, stroke=Stroke(on_rubber(look), line)),
        Shape(name=f"{name}/pointer", step=step, outline=polyline(((x, y), (x, its.box.bottom))),
              stroke=Stroke(on_rubber(look), 0.75 * line)),
    )  # fmt: skip
