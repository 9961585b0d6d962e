"""A logo from an SVG file: paths, rectangles, circles, polygons and their transforms as outlines of our own.

Element geometry after the W3C's Scalable Vector Graphics 1.1, chapters 7 to 9; path data is read by fontTools.
"""

import math
import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from fontTools.svgLib.path import parse_path
from msgspec.structs import replace

from studio.graphics.draw import bounds, ellipse, polyline, rectangle, transformed
from studio.graphics.logo.art import Art, LogoError, scaled
from studio.graphics.logo.style import Style, fill_of, hidden, number, read_rules, stroke_of, style_of
from studio.graphics.logo.tree import Node, Tree, read_tree
from studio.graphics.scene import Command, Outline, Shape

Matrix = tuple[float, float, float, float, float, float]
MOST_COMMANDS = 20_000
HEIGHT = 1000.0
"""A logo's outlines are kept at this height, at which two decimals of a coordinate are plenty."""
_SAME: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
_TRANSFORM = re.compile(r"([A-Za-z]+)\s*\(([^()]*)\)")
_NUMBERS = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?")
_SILENT = {"title", "desc", "metadata", "style", "defs"}


@lru_cache(maxsize=4)
def art_of_svg(content: bytes) -> Art:
    """The logo that an SVG file holds, as outlines. Raises LogoError naming what it may not hold."""
    tree = read_tree(content)
    try:
        return _art(tree)
    except (ValueError, ArithmeticError, LookupError, TypeError) as error:
        if isinstance(error, LogoError):
            raise
        raise LogoError(f"the logo's outlines cannot be read ({str(error)[:80]})") from error


def _art(tree: Tree) -> Art:
    rules = read_rules("".join(node.text for node in tree.root.walk() if node.tag == "style"))
    shapes = tuple(_shapes(tree.root, {}, _SAME, rules))
    if not shapes:
        raise LogoError("the logo shows nothing: no outline in it is filled or stroked")
    commands = sum(len(shape.outline) for shape in shapes)
    if commands > MOST_COMMANDS:
        raise LogoError(f"the logo has {commands} pieces of outline; expected at most {MOST_COMMANDS}")
    left, top, width, height = _view(tree.root, shapes)
    scale = HEIGHT / height
    if not 0.05 <= width / height <= 20:
        raise LogoError(f"the logo is {width:g} x {height:g}; expected no more than 20 times as long as wide")
    moved = tuple(
        replace(shape, outline=transformed(shape.outline, (scale, 0, 0, scale, -left * scale, -top * scale)),
                stroke=scaled(shape.stroke, scale))
        for shape in shapes
    )  # fmt: skip
    return Art(width=width * scale, height=HEIGHT, shapes=moved, notes=tree.notes)


def _view(root: Node, shapes: tuple[Shape, ...]) -> tuple[float, float, float, float]:
    """What is seen of the logo: the view box, else its size, else all that is drawn."""
    box = [float(value) for value in _NUMBERS.findall(root.attributes.get("viewBox", ""))]
    if len(box) == 4 and box[2] > 0 and box[3] > 0:
        return box[0], box[1], box[2], box[3]
    size = [number(root.attributes.get(name, ""), 0.0) for name in ("width", "height")]
    if min(size) > 0 and not root.attributes["width"].strip().endswith("%"):
        return 0.0, 0.0, size[0], size[1]
    sides = [bounds(shape.outline) for shape in shapes]
    left, top = min(side[0] for side in sides), min(side[1] for side in sides)
    right, bottom = max(side[2] for side in sides), max(side[3] for side in sides)
    if right <= left or bottom <= top:
        raise LogoError("the logo has no size")
    return left, top, right - left, bottom - top


def _shapes(node: Node, parent: Style, matrix: Matrix, rules: dict[str, Style]) -> Iterator[Shape]:
    style = style_of(node.attributes, parent, rules)
    if hidden(style) or node.tag in _SILENT:
        return
    matrix = _combined(matrix, read_transform(node.attributes.get("transform", "")))
    if node.tag in ("svg", "g"):
        for child in node.children:
            yield from _shapes(child, style, matrix, rules)
        return
    outline = _outline(node)
    fill = fill_of(style) if node.tag != "line" else None
    stroke = stroke_of(style, math.sqrt(abs(matrix[0] * matrix[3] - matrix[1] * matrix[2])))
    if outline and (fill or stroke):
        yield Shape(name=node.tag, outline=_finite(transformed(outline, matrix)), fill=fill, stroke=stroke,
                    even_odd=style.get("fill-rule") == "evenodd")  # fmt: skip


def _outline(node: Node) -> Outline:
    def value(name: str, otherwise: float = 0.0) -> float:
        return number(node.attributes.get(name, ""), otherwise)

    if node.tag == "path":
        pen = _Pen()
        parse_path(node.attributes.get("d", ""), pen)
        return tuple(pen.commands)
    if node.tag == "rect":
        return _rect(value("x"), value("y"), value("width"), value("height"), value("rx", value("ry")))
    if node.tag in ("circle", "ellipse"):
        rx, ry = (value("r"), value("r")) if node.tag == "circle" else (value("rx"), value("ry"))
        return ellipse((value("cx"), value("cy")), rx, ry) if rx > 0 and ry > 0 else ()
    if node.tag == "line":
        return polyline(((value("x1"), value("y1")), (value("x2"), value("y2"))))
    if node.tag in ("polyline", "polygon"):
        numbers = [float(text) for text in _NUMBERS.findall(node.attributes.get("points", ""))]
        points = list(zip(numbers[::2], numbers[1::2], strict=False))
        return polyline(points, closed=node.tag == "polygon") if len(points) > 1 else ()
    raise LogoError(f"the logo holds {node.tag[:20]!r} (line {node.line}); expected paths and simple figures")


def _rect(left: float, top: float, width: float, height: float, radius: float) -> Outline:
    return rectangle(left, top, width, height, radius) if width > 0 and height > 0 else ()


def read_transform(text: str) -> Matrix:
    """The value of a transform attribute as one matrix. Raises LogoError for what is no transform."""
    matrix = _SAME
    if _TRANSFORM.sub("", text).strip(" \t\r\n,"):
        raise LogoError(f"{text[:30]!r} is not a transform; expected one such as translate(10, 20)")
    for name, arguments in _TRANSFORM.findall(text):
        matrix = _combined(matrix, _single(name, [float(value) for value in _NUMBERS.findall(arguments)]))
    return matrix


def _single(name: str, values: list[float]) -> Matrix:
    match name, values:
        case "matrix", [a, b, c, d, e, f]:
            return a, b, c, d, e, f
        case "translate", [x, *rest] if len(rest) < 2:
            return 1.0, 0.0, 0.0, 1.0, x, rest[0] if rest else 0.0
        case "scale", [x, *rest] if len(rest) < 2:
            return x, 0.0, 0.0, rest[0] if rest else x, 0.0, 0.0
        case "rotate", [angle]:
            turn = math.radians(angle)
            return math.cos(turn), math.sin(turn), -math.sin(turn), math.cos(turn), 0.0, 0.0
        case "rotate", [angle, x, y]:
            there = _combined((1.0, 0.0, 0.0, 1.0, x, y), _single("rotate", [angle]))
            return _combined(there, (1.0, 0.0, 0.0, 1.0, -x, -y))
        case "skewX", [angle]:
            return 1.0, 0.0, math.tan(math.radians(angle)), 1.0, 0.0, 0.0
        case "skewY", [angle]:
            return 1.0, math.tan(math.radians(angle)), 0.0, 1.0, 0.0, 0.0
    raise LogoError(f"{name[:20]!r} with {len(values)} numbers is not a transform")


def _combined(outer: Matrix, inner: Matrix) -> Matrix:
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f


def _finite(outline: Outline) -> Outline:
    values = [value for command in outline for value in (*command[1::2], *command[2::2])]
    if not all(math.isfinite(value) and abs(value) < 1e7 for value in values):
        raise LogoError("the logo has an outline that reaches beyond all measure")
    return outline


class _Pen:
    """Collects what fontTools reads of path data; a quadratic curve becomes a cubic one."""

    def __init__(self) -> None:
        self.commands: list[Command] = []
        self._last = (0.0, 0.0)

    def moveTo(self, point: tuple[float, float]) -> None:
        self._add("M", point)

    def lineTo(self, point: tuple[float, float]) -> None:
        self._add("L", point)

    def curveTo(self, *points: tuple[float, float]) -> None:
        self._add("C", *points)

    def qCurveTo(self, *points: tuple[float, float]) -> None:
        (x0, y0), (cx, cy), (x, y) = self._last, points[0], points[1]
        self._add("C", (x0 + 2 / 3 * (cx - x0), y0 + 2 / 3 * (cy - y0)), (x + 2 / 3 * (cx - x), y + 2 / 3 * (cy - y)),
                  (x, y))  # fmt: skip

    def closePath(self) -> None:
        self.commands.append(("Z",))

    def endPath(self) -> None:
        """An open part ends; nothing is drawn."""

    def _add(self, letter: str, *points: tuple[float, float]) -> None:
        self._last = points[-1]
        numbers: Any = [value for point in points for value in point]
        self.commands.append((letter, *numbers))
        if len(self.commands) > MOST_COMMANDS:
            raise LogoError(f"the logo has more than {MOST_COMMANDS} pieces of outline")
