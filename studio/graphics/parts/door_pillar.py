"""A car's door pillar as it is seen with the door open: an invented body, cropped, where placards are stuck.

From left to right: the door opening with its seal, the pillar with the latch's striker, the rear door's edge.
"""

from studio.graphics.color import faded, mix
from studio.graphics.draw import circle, polyline, rectangle, transformed
from studio.graphics.frame import Box, Frame
from studio.graphics.look import Look
from studio.graphics.scene import Linear, Outline, Point, Shape, Stroke

_LEAN = 0.05  # of the height: how far the pillar leans to the right towards its top
_SHADOWS = 6


def door_pillar(
    window: Box, left: float, right: float, frame: Frame, look: Look, step: int = 0
) -> tuple[Shape, ...]:  # fmt: skip
    """The body in ``window``; the pillar's flat runs from ``left`` to ``right`` (px, at half height)."""
    clip = rectangle(window.left, window.top, window.width, window.height)
    pen = _Pen(window, clip, step)
    unit = frame.grid
    panel = ((0.0, mix(look.car, look.plate, 0.34)), (0.45, mix(look.car, look.plate, 0.10)),
             (1.0, mix(look.car, look.ink, 0.10)))  # fmt: skip
    pen.add("pillar", clip, Linear((left, window.top), (right, window.bottom), panel))
    _opening(pen, left, unit, look)
    _rear_door(pen, right, unit, look)
    return tuple(pen.shapes)


def striker(center: Point, size: float, look: Look, step: int = 0) -> tuple[Shape, ...]:
    """The loop on the pillar that the door's latch grips: a plate with two screws and a bar; ``size`` is its height."""
    x, y = center
    plate = rectangle(x - 0.30 * size, y - size / 2, 0.60 * size, size, 0.12 * size)
    light = Linear((x - size / 2, y - size / 2), (x + size / 2, y + size / 2),
                   ((0.0, look.steel_light), (1.0, mix(look.steel, look.groove, 0.25))))  # fmt: skip
    dark = mix(look.steel, look.groove, 0.55)
    screws: Outline = ()
    for dy in (-0.34, 0.34):
        screws += circle((x, y + dy * size), 0.085 * size)
    bar = rectangle(x - 0.075 * size, y - 0.20 * size, 0.15 * size, 0.40 * size, 0.07 * size)
    return (
        Shape(name="striker/shade", step=step, outline=transformed(plate, (1, 0, 0, 1, 0.05 * size, 0.06 * size)),
              fill=faded(look.shadow, 0.28)),
        Shape(name="striker/plate", step=step, outline=plate, fill=light, stroke=Stroke(dark, 0.02 * size)),
        Shape(name="striker/screws", step=step, outline=screws, fill=dark),
        Shape(name="striker/bar", step=step, outline=bar, fill=look.steel_light, stroke=Stroke(dark, 0.025 * size)),
    )  # fmt: skip


def plate_shadow(box: Box, radius: float, frame: Frame, look: Look, step: int = 0) -> tuple[Shape, ...]:
    """The soft shade of a thin plate stuck on, to its lower right."""
    layers = []
    for order in range(_SHADOWS):
        grow = (1 - order / _SHADOWS) * 0.8 * frame.grid
        off = 0.35 * frame.grid
        outline = rectangle(box.left - grow + off, box.top - grow + off, box.width + 2 * grow, box.height + 2 * grow,
                            radius + grow)  # fmt: skip
        layers.append(Shape(name=f"plate shadow/layer {order + 1}", step=step, outline=outline,
                            fill=faded(look.shadow, 0.07)))  # fmt: skip
    return tuple(layers)


class _Pen:
    """Collects shapes clipped to the window; x is leaned with the height."""

    def __init__(self, window: Box, clip: Outline, step: int) -> None:
        self.window, self.shapes = window, list[Shape]()
        self._clip, self._step = clip, step

    def add(self, part: str, outline: Outline, fill: str | Linear | None, line: Stroke | None = None) -> None:
        """One shape."""
        self.shapes.append(Shape(name=f"pillar/{part}", step=self._step, outline=outline, fill=fill, stroke=line,
                                 clip=self._clip))  # fmt: skip

    def edge(self, x: float) -> tuple[Point, Point]:
        """The top and the foot of an upright edge that passes ``x`` at half height."""
        window, lean = self.window, _LEAN * self.window.height
        over = 0.02 * window.height
        return (x + lean / 2, window.top - over), (x - lean / 2, window.bottom + over)

    def strip(self, one: float, other: float) -> Outline:
        """What lies between two such edges."""
        (a, b), (c, d) = self.edge(one), self.edge(other)
        return polyline((a, c, d, b), closed=True)


def _opening(pen: _Pen, left: float, unit: float, look: Look) -> None:
    """The dark of the car's inside, the seal round it and the lip on which it sits."""
    outside = pen.window.left - 0.2 * pen.window.height
    inside = mix(look.groove, look.rubber, 0.35)
    pen.add("opening", pen.strip(outside, left), inside)
    pen.add("lip", pen.strip(left - 2.2 * unit, left), mix(look.car, look.groove, 0.42))
    seal = Linear((left - 4.6 * unit, 0), (left - 1.6 * unit, 0),
                  ((0.0, look.groove), (0.45, look.rubber_light), (1.0, look.rubber)))  # fmt: skip
    pen.add("seal", pen.strip(left - 4.4 * unit, left - 1.8 * unit), seal)
    pen.add("lip light", polyline(pen.edge(left)), None, Stroke(mix(look.car, look.plate, 0.55), 0.35 * unit))


def _rear_door(pen: _Pen, right: float, unit: float, look: Look) -> None:
    """The gap beside the closed rear door, and that door's skin."""
    beyond = pen.window.right + 0.2 * pen.window.height
    gap = 1.1 * unit
    skin = Linear((right, pen.window.top), (right + 0.4 * pen.window.height, pen.window.bottom),
                  ((0.0, mix(look.car, look.plate, 0.42)), (1.0, mix(look.car, look.ink, 0.06))))  # fmt: skip
    pen.add("rear door", pen.strip(right, beyond), skin)
    pen.add("gap", pen.strip(right, right + gap), mix(look.car, look.groove, 0.72))
    light = Stroke(mix(look.car, look.plate, 0.75), 0.3 * unit)
    pen.add("rear door light", polyline(pen.edge(right + gap)), None, light)
