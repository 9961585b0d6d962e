"""A lens over a groove: what is too small to read at the drawing's scale, enlarged by a whole number that is stated."""

import math

import msgspec

from studio.graphics.draw import circle, polyline
from studio.graphics.frame import Frame
from studio.graphics.layout.text import width
from studio.graphics.look import Look
from studio.graphics.parts.dimension import dimension_line
from studio.graphics.parts.groove_section import TreadPiece, tread_piece
from studio.graphics.scene import Outline, Point, Shape, Stroke, Text


class Lens(msgspec.Struct, frozen=True, kw_only=True):
    """A lens at ``center`` over what lies at ``source`` (px); depths in mm.

    ``scale`` is the drawing's in px per mm, ``times`` how much larger the lens shows it. ``step`` is that of the lens,
    the depth's own line comes one later.
    """

    center: Point
    radius: float
    source: Point
    scale: float
    times: int
    depth_mm: float
    new_mm: float | None
    bar_mm: float | None
    groove_mm: float
    step: int

    @property
    def piece(self) -> TreadPiece:
        """What is seen through the lens."""
        px = self.scale * self.times
        (x, y), reach = self.center, self.radius
        return TreadPiece(
            left=x - reach, right=x + reach, floor=y + 0.42 * reach, scale=px, depth_mm=self.depth_mm,
            new_mm=self.new_mm, bar_mm=self.bar_mm, grooves=(x,), groove=self.groove_mm * px, base_mm=2 * reach / px,
        )  # fmt: skip


def magnification(radius: float, scale: float, full_mm: float) -> int:
    """The largest whole number of times at which ``full_mm`` of depth fills no more than the lens holds well."""
    return max(2, math.floor(0.98 * radius / (max(full_mm, 1.0) * scale)))


def groove_lens(lens: Lens, frame: Frame, look: Look, name: str = "lens") -> tuple[Shape | Text, ...]:
    """The lens, the place it looks at, the groove through it with its depth, how many times larger."""
    glass = circle(lens.center, lens.radius)
    line, fine = Stroke(look.ink, frame.short / 300), Stroke(look.ink, frame.short / 400)
    seen = lens.radius / lens.times
    piece, step = lens.piece, lens.step
    x = lens.center[0]
    marks: list[Shape | Text] = [
        Shape(name=f"{name}/sight", step=step, outline=_sight(lens, seen), stroke=fine),
        Shape(name=f"{name}/place", step=step, outline=circle(lens.source, seen), stroke=fine),
        Shape(name=f"{name}/ground", step=step, outline=glass, fill=look.ground),
        *tread_piece(piece, look, f"{name}/tread", step, glass),
        Shape(name=f"{name}/rim", step=step, outline=glass, stroke=line),
        _stated(lens, frame, look, name),
    ]
    if lens.depth_mm > 0:
        ends = (x, piece.height(lens.depth_mm)), (x, piece.floor)
        marks += dimension_line(*ends, frame, look, f"{name}/depth", step + 1)
    return tuple(marks)


def _sight(lens: Lens, seen: float) -> Outline:
    """A line from the place to the lens: along the upper tangent where the lens is beside it, else straight."""
    (ax, ay), (bx, by) = lens.source, lens.center
    distance = math.dist(lens.source, lens.center) or 1.0
    toward = math.atan2(by - ay, bx - ax)
    beside = abs(bx - ax) > abs(by - ay)
    turn = math.acos(max(-1.0, min(1.0, (seen - lens.radius) / distance))) if beside else 0.0
    ux, uy = math.cos(toward - turn), math.sin(toward - turn)
    end = (bx + ux * lens.radius, by + uy * lens.radius) if beside else (bx - ux * lens.radius, by - uy * lens.radius)
    return polyline(((ax + ux * seen, ay + uy * seen), end))


def _stated(lens: Lens, frame: Frame, look: Look, name: str) -> Text:
    """How many times larger, on the rubber at the foot of the lens."""
    cap = frame.cap_height("small")
    at = (lens.center[0], lens.center[1] + 0.78 * lens.radius)
    said = f"{lens.times} × larger"
    if width(said, cap) > 1.1 * lens.radius:  # the chord at the baseline is 1.25 radii long
        said = f"{lens.times} ×"
    return Text(name=f"scale/{name}", step=lens.step, text=said, at=at, cap_height=cap,
                fill=look.letter, ground=look.rubber, role="small", anchor="middle")  # fmt: skip
