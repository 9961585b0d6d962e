"""A tire on its rim cut through above the axle, to scale from its dimensions.

Lengths are mm: x across the wheel from its middle plane, y up from the axle; ``SectionView`` turns them into px. The
outline follows the dimensions: section width at the widest place of the sidewalls, tread, beads on the rim's seats.
"""

from collections.abc import Sequence

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.look import Look
from studio.graphics.parts.groove_section import bar_color
from studio.graphics.parts.outlines import cubic, offset
from studio.graphics.parts.wheel import FLANGE_MM
from studio.graphics.scene import Outline, Point, Shape, Stroke

_GROOVE_SHARE = 0.052  # a main groove's width by the tread's
UNDER_MM = 9.5  # rubber, belts and carcass under the grooves
WALL_MM = 9.0  # the sidewall where it is thinnest
_USUAL_DEPTH_MM = 8.0


class SectionView(msgspec.Struct, frozen=True, kw_only=True):
    """What is cut and where it stands: mm, ``scale`` px per mm, the axle's middle at ``center`` (px).

    ``depths_mm`` are the grooves' depths now, from left to right; ``new_mm`` the depth when new, None if not known;
    ``bar_mm`` the height of the wear bars.
    """

    outer_mm: float
    rim_mm: float
    width_mm: float
    scale: float
    center: Point
    depths_mm: tuple[float, ...] = ()
    new_mm: float | None = None
    bar_mm: float = 0.0

    def at(self, x: float, y: float) -> Point:
        """A place in mm as a point of the frame."""
        return (self.center[0] + x * self.scale, self.center[1] - y * self.scale)

    @property
    def height_mm(self) -> float:
        """The section height."""
        return (self.outer_mm - self.rim_mm) / 2

    @property
    def rim_width_mm(self) -> float:
        """The rim drawn: narrower by the section width the taller the section is, as measuring rims are."""
        aspect = 100 * self.height_mm / self.width_mm
        return self.width_mm * min(0.90, max(0.70, 0.90 - 0.0057 * (aspect - 40)))

    @property
    def tread_mm(self) -> float:
        """The tread's width: less than the section's, and the more so the taller the section is."""
        aspect = 100 * self.height_mm / self.width_mm
        return self.width_mm * min(0.90, max(0.72, 0.92 - 0.0019 * aspect))

    @property
    def widest_mm(self) -> float:
        """How high above the axle the section is widest."""
        return self.rim_mm / 2 + 0.52 * self.height_mm

    @property
    def grooves_mm(self) -> tuple[float, ...]:
        """The middles of the main grooves."""
        count = len(self.depths) - 1
        reach = self.tread_mm * (0.30 if count >= 3 else 0.24)
        return tuple(reach * (2 * order / count - 1) for order in range(count + 1)) if count else (0.0,)

    @property
    def groove_mm(self) -> float:
        """The width of a main groove."""
        return self.tread_mm * _GROOVE_SHARE

    @property
    def depths(self) -> tuple[float, ...]:
        """The depths drawn; a usual new tread where none was read."""
        return self.depths_mm or (self.new_mm or _USUAL_DEPTH_MM,) * 4

    def new_surface(self, x: float) -> float:
        """The height of the tread when new: a flat arc across it."""
        return self.outer_mm / 2 - 0.034 * self.tread_mm * (2 * x / self.tread_mm) ** 2

    def floor(self, x: float) -> float:
        """The height of the grooves' floor."""
        return self.new_surface(x) - (self.new_mm or max(self.depths))

    def surface(self, x: float) -> float:
        """The height of the tread now, between the grooves as their depths say."""
        places = self.grooves_mm
        if x <= places[0]:
            return self.floor(x) + self.depths[0]
        for (a, low), (b, high) in zip(
            zip(places, self.depths, strict=True), zip(places[1:], self.depths[1:], strict=True), strict=False
        ):
            if x <= b:
                return self.floor(x) + low + (high - low) * (x - a) / (b - a)
        return self.floor(x) + self.depths[-1]


def tire_section(view: SectionView, look: Look, name: str = "section", step: int = 0) -> tuple[Shape, ...]:
    """Rim and tire in section."""
    edge = Stroke(look.rubber_edge, max(1.0, view.scale)) if look.rubber_edge else None
    shapes = list(_rim(view, look, name, step))
    if view.new_mm is not None and view.new_mm > min(view.depths):
        ghost = [view.at(x, view.new_surface(x)) for x in _across(view)]
        line = Stroke(look.quiet, max(1.5, 0.9 * view.scale), (4 * view.scale, 3 * view.scale), cap="flat")
        shapes.append(Shape(name=f"{name}/when new", step=step, outline=polyline(ghost), stroke=line))
    shapes.append(
        Shape(name=f"{name}/wear bars", step=step, outline=_bars(view), fill=bar_color(look))
    )
    outline = polyline([view.at(*point) for point in _contour(view)], closed=True)
    shapes.append(Shape(name=f"{name}/rubber", step=step, outline=outline, fill=look.rubber, stroke=edge))
    return (*shapes, *_inside(view, look, name, step))


def _across(view: SectionView, pieces: int = 36) -> list[float]:
    half = view.tread_mm / 2
    return [half * (2 * piece / pieces - 1) for piece in range(pieces + 1)]


def _contour(view: SectionView) -> list[Point]:
    """The tire's outline: over the tread from left to right, down the right wall, inside back up and over."""
    right = outer_wall(view)
    inner = inner_wall(view)
    left = [(-x, y) for x, y in reversed(right)]
    return [*left, *_crown(view), *right, *reversed(inner), *((-x, y) for x, y in inner)]


def _crown(view: SectionView) -> list[Point]:
    """Across the tread from left to right, into each groove and out of it."""
    points: list[Point] = []
    half = view.groove_mm / 2
    for x in _across(view):
        if all(abs(x - groove) > half for groove in view.grooves_mm):
            points.append((x, view.surface(x)))
    for groove in view.grooves_mm:
        mouth, foot = half, half * 0.66
        walls = [(groove - mouth, view.surface(groove - mouth)), (groove - foot, view.floor(groove)),
                 (groove + foot, view.floor(groove)), (groove + mouth, view.surface(groove + mouth))]  # fmt: skip
        points += walls
    return sorted(points, key=lambda point: point[0])


def outer_wall(view: SectionView) -> list[Point]:
    """From the tread's right edge over the widest place down to the bead's toe."""
    half, edge, low = view.width_mm / 2, view.tread_mm / 2, view.rim_mm / 2
    top, rim, high, widest = view.surface(edge), view.rim_width_mm / 2, view.height_mm, view.widest_mm
    over = half - edge
    at_flange = (rim + 1.5, low + FLANGE_MM + 1.5)
    shoulder = cubic((edge, top), (edge + 0.55 * over, top - 0.03 * high), (half, widest + 0.27 * high), (half, widest))
    wall = cubic((half, widest), (half, widest - 0.22 * high),
                 (at_flange[0] + 0.25 * (half - rim), at_flange[1] + 0.13 * high), at_flange)  # fmt: skip
    heel = cubic((rim, low + 8), (rim, low + 2.5), (rim - 1.5, low), (rim - 6, low - 0.2), 6)
    return [*shoulder[1:], *wall[1:], *heel, (rim - 19, low - 1.2)]


def inner_wall(view: SectionView) -> list[Point]:
    """From the middle of the crown inside down to the bead's toe."""
    half, low, rim = view.width_mm / 2, view.rim_mm / 2, view.rim_width_mm / 2
    high, widest, inside = view.height_mm, view.widest_mm, view.width_mm / 2 - WALL_MM
    top = view.floor(0) - UNDER_MM
    crown = cubic((0, top), (view.tread_mm * 0.30, top), (inside, widest + 0.34 * high), (inside, widest))
    toe = (rim - 17, low + 9)
    bend = (rim - 9 + 0.12 * (half - rim), low + 0.30 * high)
    wall = cubic((inside, widest), (inside, widest - 0.24 * high), bend, toe)
    return [*crown, *wall[1:], (rim - 19.5, low + 2.5)]


def _bars(view: SectionView) -> Outline:
    outline: Outline = ()
    for groove, depth in zip(view.grooves_mm, view.depths, strict=True):
        foot, low = view.groove_mm * 0.42, view.floor(groove)
        high = min(view.bar_mm, depth)
        left, top = view.at(groove - foot, low + high)
        outline += rectangle(left, top, 2 * foot * view.scale, high * view.scale + 1)
    return outline


def _inside(view: SectionView, look: Look, name: str, step: int) -> tuple[Shape, ...]:
    """The carcass as one clean band from bead to bead, a belt under the tread, the bead cores."""
    rim, low = view.rim_width_mm / 2, view.rim_mm / 2
    right = offset(inner_wall(view)[:-2], 3.6)
    right[0] = (0.0, right[0][1])
    band = [*((-x, y) for x, y in reversed(right)), *right[1:]]
    reach = 0.45 * view.tread_mm
    belt = [(x, view.floor(x) - 3.4) for x in _across(view) if abs(x) <= reach]
    pale = mix(look.rubber_light, look.letter, 0.5)
    cores: Outline = ()
    for side in (-1, 1):
        left, top = view.at(side * (rim - 10.5) - 4.5, low + 14.5)
        cores += rectangle(left, top, 9 * view.scale, 8.5 * view.scale, 2.0 * view.scale)
    return (
        _line(view, band, pale, 2.4, f"{name}/carcass", step),
        _line(view, belt, mix(look.steel, look.steel_light, 0.5), 1.7, f"{name}/belt", step),
        Shape(name=f"{name}/bead cores", step=step, outline=cores, fill=mix(look.steel, look.steel_light, 0.5)),
    )


def _line(view: SectionView, points: Sequence[Point], color: str, width_mm: float, name: str, step: int) -> Shape:
    outline = polyline([view.at(*point) for point in points])
    return Shape(name=name, step=step, outline=outline, stroke=Stroke(color, width_mm * view.scale))


def _rim(view: SectionView, look: Look, name: str, step: int) -> tuple[Shape, ...]:
    """The rim's contour as one steel band: flange, seat, hump, well; a quiet disc from it down to the hub."""
    rim, low = view.rim_width_mm / 2, view.rim_mm / 2
    well = [(0.0, low - 22), (0.34 * rim, low - 22), (0.46 * rim, low - 19), (0.62 * rim, low - 4.2)]
    seat = [(0.72 * rim, low - 3.8), (rim - 6, low - 3.0)]
    corner = cubic((rim - 4, low - 3.0), (rim + 1, low - 2.6), (rim + 2.6, low), (rim + 2.6, low + 6), 6)
    flange = cubic((rim + 2.6, low + 12), (rim + 3.6, low + 16), (rim + 7, low + 17.0), (rim + 12, low + 13.5), 6)
    right = [*well, *seat, *corner, *flange]
    path = [*((-x, y) for x, y in reversed(right)), *right[1:]]
    steel, light = mix(look.steel, look.groove, 0.1), mix(look.steel, look.steel_light, 0.8)
    return (
        *_disc(view, look, name, step),
        _line(view, path, steel, 5.2, f"{name}/rim", step),
        _line(view, [(x, y + 0.9) for x, y in path], light, 1.6, f"{name}/rim light", step),
    )


def _disc(view: SectionView, look: Look, name: str, step: int) -> tuple[Shape, ...]:
    """Disc and hub, only hinted at: the picture is about the tire. The wheel's outer side is at the left."""
    low = view.rim_mm / 2
    far = low - 20 - 78
    front = cubic((-27.0, low - 20), (-27.0, low - 20 - 0.4 * far), (-38.0, 78 + 0.35 * far), (-22.0, 78.0), 10)
    back = cubic((-11.0, 86.0), (-27.0, 84 + 0.35 * far), (-14.0, low - 20 - 0.4 * far), (-15.0, low - 20), 10)
    disc = [*front, (-22.0, 33.0), (-11.0, 33.0), *back]
    axle = [(-22.0, 30.0), (-22.0, 0.0), (40.0, 0.0), (40.0, 14.0), (6.0, 19.0), (2.0, 52.0), (-3.0, 62.0),
            (-11.0, 64.0), (-11.0, 30.0)]  # fmt: skip
    return (
        _filled(view, axle, mix(look.ground, look.steel, 0.12), f"{name}/axle", step),
        _filled(view, disc, mix(look.ground, look.steel, 0.34), f"{name}/disc", step),
    )


def _filled(view: SectionView, points: Sequence[Point], color: str, name: str, step: int) -> Shape:
    outline = polyline([view.at(*point) for point in points], closed=True)
    return Shape(name=name, step=step, outline=outline, fill=color)
