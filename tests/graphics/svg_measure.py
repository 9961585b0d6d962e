"""Measuring in an exported SVG, as somebody would who opens it in a drawing program: boxes of paths by their ids."""

import math
import re

from lxml import etree

from studio.graphics.frame import Box
from studio.graphics.paint.svg import svg
from studio.graphics.scene import Scene

_COMMAND = re.compile(r"([MLCZ])([^MLCZ]*)")
_NS = "{http://www.w3.org/2000/svg}"


class Drawing:
    """An SVG document that can be asked for its paths and texts by id."""

    def __init__(self, scene: Scene) -> None:
        self.root = etree.fromstring(svg(scene).encode("utf-8"))
        self._paths = {path.get("id"): path.get("d") for path in self.root.iter(f"{_NS}path") if path.get("id")}
        self._texts = {text.get("id"): text for text in self.root.iter(f"{_NS}text")}

    def has(self, id_: str) -> bool:
        return id_ in self._paths or id_ in self._texts

    def ids(self, pattern: str) -> list[str]:
        """The ids of all paths and texts that match."""
        return [id_ for id_ in (*self._paths, *self._texts) if re.fullmatch(pattern, id_)]

    def points(self, id_: str) -> list[list[tuple[float, float]]]:
        """The points on the path, for each of its parts; curves by their ends."""
        parts: list[list[tuple[float, float]]] = []
        for letter, rest in _COMMAND.findall(self._paths[id_]):
            values = [float(value) for value in re.findall(r"-?\d+(?:\.\d+)?", rest)]
            if letter == "M":
                parts.append([])
            if values:
                parts[-1].append((values[-2], values[-1]))
        return parts

    def box(self, id_: str) -> Box:
        """The box of the path's points."""
        points = [point for part in self.points(id_) for point in part]
        left, top = min(x for x, _ in points), min(y for _, y in points)
        return Box(left, top, max(x for x, _ in points) - left, max(y for _, y in points) - top)

    def radius(self, id_: str, about: str) -> float:
        """How far the path's farthest point is from the middle of another path's box."""
        center = self.box(about).center
        return max(math.dist(center, point) for part in self.points(id_) for point in part)

    def text(self, id_: str) -> str:
        return "".join(self._texts[id_].itertext())

    def baseline(self, id_: str) -> float:
        """The y of a text's baseline in px."""
        return float(self._texts[id_].get("y"))
