"""What lies on what: whether a point is inside an outline, whether a mark stands wholly on opaque bodies."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise

from studio.graphics.color import rgba
from studio.graphics.draw import bounds
from studio.graphics.scene import Outline, Paint, Point, Shape

_PIECES = 6  # straight pieces in place of a curve: half a px at the size of a tire
_SAMPLES = 12
_MOST_COMMANDS = 400  # what is more intricate is a texture, not a body


def inside(outline: Outline, point: Point, even_odd: bool = False) -> bool:
    """Whether ``point`` is in the filled part of ``outline``, by the winding or the even-odd rule."""
    x, y = point
    winding = crossings = 0
    for ring in _rings(outline):
        for (x1, y1), (x2, y2) in pairwise((*ring, ring[0])):
            if (y1 <= y) != (y2 <= y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
                crossings += 1
                winding += 1 if y2 > y1 else -1
    return crossings % 2 == 1 if even_odd else winding != 0


def stands_on(mark: Shape, below: Iterable[Shape]) -> bool:
    """Whether all of ``mark`` lies on opaque bodies among ``below``: then nothing else can be behind it."""
    bodies = [shape for shape in below if _is_body(shape) and shape.step <= mark.step]
    return all(any(_covers(body, point) for body in bodies) for point in _samples(mark))


def _is_body(shape: Shape) -> bool:
    return bool(shape.outline) and len(shape.outline) <= _MOST_COMMANDS and _is_opaque(shape.fill)


def _is_opaque(fill: Paint | None) -> bool:
    if fill is None or isinstance(fill, str):
        return fill is not None and rgba(fill)[3] == 255
    return all(rgba(color)[3] == 255 for _, color in fill.stops)


def _covers(body: Shape, point: Point) -> bool:
    left, top, right, bottom = _bounds(body.outline)
    if not (left <= point[0] <= right and top <= point[1] <= bottom):
        return False
    return inside(body.outline, point, body.even_odd) and (body.clip is None or inside(body.clip, point))


@lru_cache(maxsize=512)
def _bounds(outline: Outline) -> tuple[float, float, float, float]:
    return bounds(outline)


def _samples(mark: Shape) -> list[Point]:
    """Corners and the middles between them as far as the mark shows, about a dozen."""
    corners = [point for ring in _rings(mark.outline) for point in ring]
    middles = [((ax + bx) / 2, (ay + by) / 2) for (ax, ay), (bx, by) in pairwise(corners)]
    points = [*corners, *middles]
    shown = points if mark.clip is None else [point for point in points if inside(mark.clip, point)]
    return shown[:: max(1, len(shown) // _SAMPLES)]


@lru_cache(maxsize=512)
def _rings(outline: Outline) -> tuple[tuple[Point, ...], ...]:
    """The outline's parts as corners, curves in straight pieces."""
    rings: list[list[Point]] = []
    for letter, *values in outline:
        if letter == "M":
            rings.append([])
        if letter == "C":
            rings[-1] += _pieces(rings[-1][-1], values)
        elif values:
            rings[-1].append((values[0], values[1]))
    return tuple(tuple(ring) for ring in rings)


def _pieces(start: Point, curve: list[float]) -> Iterator[Point]:
    (x0, y0), (x1, y1, x2, y2, x3, y3) = start, curve
    for piece in range(1, _PIECES + 1):
        t = piece / _PIECES
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        yield a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3
