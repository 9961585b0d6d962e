"""The invented, neutral body: outlines of its parts, in px, from the car's measures in mm."""

from collections.abc import Sequence

from studio.graphics.color import mix
from studio.graphics.draw import polyline, transformed
from studio.graphics.look import Look
from studio.graphics.parts.car_plan import MIRROR_MM, PlacedCar
from studio.graphics.parts.tread_blocks import rounded
from studio.graphics.scene import Command, Linear, Outline, Paint, Point


class Body:
    """The invented body: the outlines of its parts in px."""

    def __init__(self, car: PlacedCar) -> None:
        self.car, self.plan = car, car.plan
        self.half = car.plan.half_width
        self.nose, self.tail, self.base = car.plan.nose, car.plan.tail, car.plan.wheelbase_mm
        # a wide, long car carries its cab further forward, as a van does
        roomy = min(1.0, max(0.0, (self.base - 2650) / 400)) * min(1.0, max(0.0, (2 * self.half - 1750) / 200))
        self.cowl = self.base * (0.175 - 0.115 * roomy)
        self.header = self.cowl + self.base * (0.20 + 0.03 * roomy)
        self.rear_top = self.tail - self.base * (0.135 - 0.035 * roomy)
        self.rear_base = self.tail - self.base * 0.052

    def _px(self, outline: Outline) -> Outline:
        s, (x, y) = self.car.scale, self.car.origin
        return transformed(outline, (s, 0.0, 0.0, s, x, y))

    def skin(self, grow: float = 0.0, shift: Point = (0.0, 0.0)) -> Outline:
        """The body's outline; ``grow`` mm larger and moved for its shadow."""
        nose, tail, half, base = self.nose, self.tail, self.half, self.base
        right = [
            (0.0, nose), (0.42 * half, nose + 0.010 * base), (0.72 * half, nose + 0.040 * base),
            (0.90 * half, nose + 0.115 * base), (0.985 * half, nose + 0.27 * base), (half, 0.02 * base),
            (0.985 * half, 0.30 * base), (0.98 * half, 0.60 * base), (half, 0.98 * base),
            (0.985 * half, tail - 0.22 * base), (0.945 * half, tail - 0.085 * base),
            (0.80 * half, tail - 0.020 * base), (0.45 * half, tail - 0.003 * base), (0.0, tail),
        ]  # fmt: skip
        sx, sy = 1 + grow / half, 1 + grow / ((tail - nose) / 2)
        middle = (nose + tail) / 2
        grown = [(x * sx + shift[0], middle + (y - middle) * sy + shift[1]) for x, y in right]
        left = [(2 * shift[0] - x, y) for x, y in reversed(grown[1:-1])]
        return self._px(smooth((*grown, *left)))

    def light(self, look: Look) -> Paint:
        """The body's colour, lit from the left."""
        left, right = self.car.body.left, self.car.body.right
        y = self.car.body.top
        stops = ((0.0, mix(look.car, look.ink, 0.10)), (0.10, mix(look.car, look.plate, 0.30)),
                 (0.45, mix(look.car, look.plate, 0.12)), (0.88, look.car),
                 (1.0, mix(look.car, look.ink, 0.14)))  # fmt: skip
        return Linear((left, y), (right, y), stops)

    def mirrors(self) -> Outline:
        y = self.cowl + 0.075 * self.base
        commands: list[Command] = []
        for side in (-1, 1):
            inner, outer = side * self.half * 0.95, side * (self.half + MIRROR_MM)
            commands += smooth(
                ((inner, y - 10), (outer - side * 40, y - 35), (outer, y + 20), (outer - side * 10, y + 95),
                 (inner, y + 110))
            )  # fmt: skip
        return self._px(tuple(commands))

    def lamps(self) -> Outline:
        commands: list[Command] = []
        half, base = self.half, self.base
        for side in (-1, 1):
            commands += polyline(
                [(side * x * half, self.nose + y * base) for x, y in
                 ((0.70, 0.046), (0.86, 0.108), (0.93, 0.185), (0.80, 0.150), (0.62, 0.070))], closed=True)  # fmt: skip
            commands += polyline(
                [(side * x * half, self.tail - y * base) for x, y in
                 ((0.66, 0.018), (0.80, 0.026), (0.93, 0.090), (0.88, 0.105), (0.70, 0.042))], closed=True)  # fmt: skip
        return self._px(tuple(commands))

    def glass(self) -> Outline:
        """Windshield, rear window and side windows."""
        half, base = self.half, self.base
        cowl = [(x * half, self.cowl + y * base) for x, y in (
            (-0.81, 0.062), (-0.66, 0.030), (-0.36, 0.006), (0.0, 0.0), (0.36, 0.006), (0.66, 0.030), (0.81, 0.062))]
        header = [(x * half, self.header + y * base) for x, y in (
            (0.645, 0.0), (0.40, -0.018), (0.0, -0.026), (-0.40, -0.018), (-0.645, 0.0))]
        top = [(x * half, self.rear_top + y * base) for x, y in ((-0.62, 0.0), (0.0, 0.010), (0.62, 0.0))]
        bottom = [(x * half, self.rear_base + y * base) for x, y in (
            (0.74, -0.016), (0.40, -0.003), (0.0, 0.0), (-0.40, -0.003), (-0.74, -0.016))]  # fmt: skip
        commands = [*_pane(cowl, header), *_pane(top, bottom)]
        for side in (-1, 1):
            commands += rounded(self._side_window(side), 0.02 * base)
        return self._px(tuple(commands))

    def _side_window(self, side: int) -> Sequence[Point]:
        half, base = self.half, self.base
        points = (
            (0.845, self.cowl + 0.090 * base), (0.885, self.header), (0.885, self.rear_top - 0.10 * base),
            (0.80, self.rear_top), (0.70, self.rear_top - 0.008 * base), (0.695, self.header + 0.02 * base),
        )  # fmt: skip
        return [(side * x * half, y) for x, y in points]

    def lines(self) -> Outline:
        """Few fine strokes: hood, doors, the pillars between the side windows."""
        half, base = self.half, self.base
        commands: list[Command] = []
        doors = (self.header - 0.02 * base, self.header + 0.27 * base, min(self.header + 0.54 * base, 0.93 * base))
        for side in (-1, 1):
            hood = ((0.80, self.cowl + 0.055 * base), (0.74, self.nose * 0.45), (0.60, self.nose + 0.075 * base))
            commands += smooth([(side * x * half, y) for x, y in hood], closed=False)
            for y in doors[1:]:
                commands += polyline(((side * 0.70 * half, y), (side * 0.98 * half, y)))
        return self._px(tuple(commands))


def _pane(first: Sequence[Point], back: Sequence[Point]) -> Outline:
    """A pane between two smooth edges, the second run the other way."""
    last = smooth(back, closed=False)
    return (*smooth(first, closed=False), ("L", *back[0]), *last[1:], ("Z",))


def smooth(points: Sequence[Point], closed: bool = True) -> Outline:
    """A smooth curve through ``points``: each piece a cubic whose handles follow the neighbours (Catmull and Rom)."""
    count = len(points)
    commands: list[Command] = [("M", *points[0])]
    for order in range(count if closed else count - 1):
        before, start, end, after = (_point(points, order + shift, closed) for shift in (-1, 0, 1, 2))
        commands.append(
            ("C", start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6,
             end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6, *end)
        )  # fmt: skip
    return (*commands, ("Z",)) if closed else tuple(commands)


def _point(points: Sequence[Point], order: int, closed: bool) -> Point:
    return points[order % len(points)] if closed else points[min(max(order, 0), len(points) - 1)]
