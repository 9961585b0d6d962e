"""A matplotlib renderer that draws nothing: each drawing call becomes a mark, so charts share look, steps and checks.

A figure is made at 72 dots an inch, so that matplotlib's points are the frame's pixels. Artists that mean something
carry a gid: it becomes the mark's name, and the step is looked up by it.
"""

from collections.abc import Mapping
from typing import Any

from matplotlib.backend_bases import RendererBase
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex
from matplotlib.figure import Figure
from matplotlib.path import Path
from matplotlib.transforms import Affine2D

from studio.graphics.draw import rectangle
from studio.graphics.frame import Box
from studio.graphics.scene import Command, Outline, Shape, Stroke

_LETTERS = {Path.MOVETO: "M", Path.LINETO: "L", Path.CURVE4: "C", Path.CLOSEPOLY: "Z"}


def new_figure(box: Box) -> Figure:
    """An empty figure that covers ``box`` of the frame, one point to the pixel."""
    figure = Figure(figsize=(box.width / 72, box.height / 72), dpi=72, facecolor="none")
    FigureCanvasAgg(figure)
    return figure


def to_marks(figure: Figure, box: Box, steps: Mapping[str, int]) -> tuple[Shape, ...]:
    """What ``figure`` draws, as marks placed in ``box``. ``steps`` says by gid when a mark appears (else 0)."""
    renderer = MarkRenderer(box, steps)
    figure.draw(renderer)
    return tuple(renderer.marks)


class MarkRenderer(RendererBase):
    """Collects marks. Coordinates come in with y upward from the figure's lower left corner."""

    def __init__(self, box: Box, steps: Mapping[str, int]) -> None:
        super().__init__()
        self.marks: list[Shape] = []
        self._box, self._steps = box, steps
        self._groups: list[str] = []
        self._flip = Affine2D().scale(1, -1).translate(box.left, box.top + box.height)

    def open_group(self, s: str, gid: str | None = None) -> None:
        self._groups.append(gid or "")

    def close_group(self, s: str) -> None:
        self._groups.pop()

    def get_canvas_width_height(self) -> tuple[float, float]:
        return self._box.width, self._box.height

    def points_to_pixels(self, points: Any) -> Any:
        return points

    def draw_path(self, gc: Any, path: Any, transform: Any, rgbFace: Any = None) -> None:
        outline = self._outline(path, transform)
        fill = _color(rgbFace, gc) if rgbFace is not None else None
        stroke = self._stroke(gc)
        if outline and (fill or stroke):
            name, step = self._name()
            clip = self._clip(gc)
            self.marks.append(Shape(name=name, step=step, outline=outline, fill=fill, stroke=stroke, clip=clip))

    def draw_text(
        self, gc: Any, x: float, y: float, s: str, prop: Any, angle: float, ismath: Any = False, mtext: Any = None
    ) -> None:
        raise NotImplementedError("the words of charts are our own texts")

    def flipy(self) -> bool:
        return True

    def draw_image(self, gc: Any, x: float, y: float, im: Any, transform: Any = None) -> None:
        raise NotImplementedError("charts for the screen hold no pixel images")

    def _name(self) -> tuple[str, int]:
        gid = next((group for group in reversed(self._groups) if group), "chart")
        return f"{gid}/{len(self.marks)}", self._steps.get(gid, 0)

    def _outline(self, path: Any, transform: Any) -> Outline:
        commands: list[Command] = []
        clean = path.cleaned(transform=transform + self._flip, curves=True, simplify=False)
        for values, code in path.__class__(clean.vertices, clean.codes).iter_segments(curves=True, simplify=False):
            commands += _commands(code, values, commands)
        return tuple(commands)

    def _clip(self, gc: Any) -> Outline | None:
        bounds = gc.get_clip_rectangle()
        if bounds is None:
            return None
        return rectangle(
            self._box.left + float(bounds.x0), self._box.top + self._box.height - float(bounds.y1),
            float(bounds.width), float(bounds.height),
        )  # fmt: skip

    def _stroke(self, gc: Any) -> Stroke | None:
        rgb = gc.get_rgb()
        if gc.get_linewidth() <= 0 or rgb[3] == 0:
            return None
        _, dashes = gc.get_dashes()
        dash = tuple(float(length) for length in dashes) if dashes is not None else ()
        flat = gc.get_capstyle() in ("butt", "projecting")
        return Stroke(_color(rgb, gc), float(gc.get_linewidth()), dash, "flat" if flat or dash else "round")


def _commands(code: Any, values: Any, before: list[Command]) -> list[Command]:
    numbers = [float(value) for value in values]
    if code == Path.CURVE3:
        x0, y0 = (float(value) for value in before[-1][1:][-2:])
        cx, cy, x, y = numbers
        handles = (x0 + 2 / 3 * (cx - x0), y0 + 2 / 3 * (cy - y0), x + 2 / 3 * (cx - x), y + 2 / 3 * (cy - y))
        return [("C", *handles, x, y)]
    letter = _LETTERS.get(code)
    if letter is None:
        return []
    return [("Z",)] if letter == "Z" else [(letter, *numbers)]  # type: ignore[list-item]


def _color(rgb: Any, gc: Any) -> str:
    alpha = rgb[3] if len(rgb) == 4 else 1.0
    if gc.get_forced_alpha():
        alpha = gc.get_alpha()
    text = to_hex((*rgb[:3], alpha), keep_alpha=alpha < 1).upper()
    return str(text)
