"""The signs of the verdicts: a groove in section, one drawing for pictures, window, cards and brief.

Shape carries the meaning; the fill only repeats it, so a sign is read in grey and at 20 px too.
"""

from collections.abc import Callable

from studio.graphics.color import contrast
from studio.graphics.draw import circle, moved, polyline, rectangle, transformed
from studio.graphics.frame import Box
from studio.graphics.look import Look
from studio.graphics.scene import Outline, Paint, Point, Shape, Stroke
from studio.model.finding import Verdict

SIDE = 20.0  # the drawings below stand on a field of 20 by 20
_LINE = 1.5
_WORDS: dict[Verdict, str] = {
    "keep": "keep", "watch": "watch", "rotate": "rotate", "replace": "replace", "inspect": "have it inspected",
    "unknown": "not known yet",
}  # fmt: skip


def verdict_word(verdict: Verdict | None) -> str:
    """The word beside a verdict's sign; empty for a finding that only gives a quantity."""
    return _WORDS[verdict] if verdict else ""


def sign(verdict: Verdict | None, box: Box, look: Look, name: str, step: int = 0) -> tuple[Shape, ...]:
    """The sign of ``verdict`` in the middle of ``box`` (px); nothing for a finding without a verdict."""
    if verdict is None:
        return ()
    side = min(box.width, box.height)
    pen = _Pen(look, name, step, side / SIDE, (box.center[0] - side / 2, box.center[1] - side / 2))
    _DRAWINGS[verdict](pen, look.fill_of(verdict))
    return tuple(pen.shapes)


class _Pen:
    """Collects shapes drawn on the field of 20 by 20, moved to where the sign stands."""

    def __init__(self, look: Look, name: str, step: int, scale: float, at: Point) -> None:
        self.look = look
        self.shapes: list[Shape] = []
        self._name, self._step, self._scale, self._at = name, step, scale, at

    def add(
        self, part: str, outline: Outline, fill: Paint | None = None, line: float = _LINE,
        dash: tuple[float, ...] = (), clip: Outline | None = None,
    ) -> None:  # fmt: skip
        """One shape in ink; ``line`` 0 leaves the outline away."""
        dashes = tuple(length * self._scale for length in dash)
        stroke = Stroke(self.look.ink, line * self._scale, dashes) if line else None
        self.shapes.append(
            Shape(
                name=f"{self._name}/{part}", step=self._step, outline=self._placed(outline), fill=fill, stroke=stroke,
                clip=self._placed(clip) if clip else None,
            )
        )  # fmt: skip

    def _placed(self, outline: Outline) -> Outline:
        return moved(outline, *self._at, self._scale)


def _tread(top: float, floor: float, left: float = 1.0, right: float = 19.0, bottom: float = 18.5) -> Outline:
    """A piece of tread in section with one groove; ``top`` is its surface, ``floor`` the groove's bottom."""
    middle, mouth, foot = (left + right) / 2, 3.7, 2.5
    return polyline(
        (
            (left, top), (middle - mouth, top), (middle - foot, floor), (middle + foot, floor), (middle + mouth, top),
            (right, top), (right, bottom), (left, bottom),
        ),
        closed=True,
    )  # fmt: skip


def _keep(pen: _Pen, fill: str | None) -> None:
    pen.add("tread", _tread(top=2.0, floor=14.0), fill)


def _watch(pen: _Pen, fill: str | None) -> None:
    pen.add("tread", _tread(top=6.5, floor=14.0), fill)
    pen.add("bar", rectangle(7.5, 10.4, 5.0, 3.6), _clearest(pen.look, fill), line=1.2)


def _rotate(pen: _Pen, fill: str | None) -> None:
    pen.add("tread", _tread(top=6.2, floor=11.4, bottom=13.8), fill)
    pen.add("arrow out", _ARROW, pen.look.ink, line=0.0)
    pen.add("arrow back", transformed(_ARROW, (-1, 0, 0, -1, SIDE, SIDE)), pen.look.ink, line=0.0)


def _replace(pen: _Pen, fill: str | None) -> None:
    pen.add("tread", polyline(((1, 10.5), (19, 10.5), (19, 18.5), (1, 18.5)), closed=True), fill)
    pen.add("bar", rectangle(6.6, 10.5, 6.8, 3.8), _clearest(pen.look, fill), line=_LINE)


def _inspect(pen: _Pen, fill: str | None) -> None:
    glass = circle((8.3, 8.3), 6.9)
    pen.add("handle", polyline(((13.4, 13.4), (18.3, 18.3))), line=2.8)
    pen.add("glass", glass, pen.look.ground, line=0.0)
    seen = _tread(top=7.0, floor=11.6, left=-0.7, right=17.3, bottom=16.0)
    pen.add("tread", seen, pen.look.ink, line=0.0, clip=glass)
    pen.add("rim", glass, line=1.7)


def _unknown(pen: _Pen, fill: str | None) -> None:
    walls = (
        ((6.3, 2.0), (1.0, 2.0), (1.0, 18.5), (19.0, 18.5), (19.0, 2.0), (13.7, 2.0)),
        ((6.3, 2.0), (7.4, 11.6)), ((13.7, 2.0), (12.6, 11.6)),
    )  # fmt: skip
    for order, points in enumerate(walls, start=1):
        pen.add(f"wall {order}", polyline(points), line=1.2, dash=(2.3, 2.4))
    for x in (7.6, 10.0, 12.4):
        pen.add(f"floor {x:.1f}", circle((x, 13.8), 0.85), pen.look.ink, line=0.0)


def _clearest(look: Look, fill: str | None) -> str:
    """Ink or ground, whichever stands out from ``fill``."""
    return max((look.ground, look.ink), key=lambda color: contrast(color, fill or look.ground))


_ARROW = polyline(
    ((2.0, 1.6), (14.2, 1.6), (14.2, 0.0), (18.6, 2.5), (14.2, 5.0), (14.2, 3.4), (2.0, 3.4)), closed=True
)  # fmt: skip
_DRAWINGS: dict[Verdict, Callable[[_Pen, str | None], None]] = {
    "keep": _keep, "watch": _watch, "rotate": _rotate, "replace": _replace, "inspect": _inspect, "unknown": _unknown,
}  # fmt: skip
