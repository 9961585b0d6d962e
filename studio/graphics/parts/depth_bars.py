"""One tire's readings as bars across its tread, on a scale with its limits: how much rubber stands above the groove."""

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.look import Look
from studio.graphics.parts.scale_bar import Line, doubt_mark, limit_line, line_width
from studio.graphics.scene import Command, Outline, Shape, Stroke
from studio.model.finding import Verdict

_GAP_SHARE = 0.16  # of a bar's pitch
_MARGIN_SHARE = 0.055  # of the chart: limit lines stand out beyond the bars


class Bars(msgspec.Struct, frozen=True, kw_only=True):
    """What is drawn, in mm: each groove's mean from the outer side inward, the lowest reading and in which groove.

    ``new`` is the depth when new, ``doubt`` the half width of a reading; None leaves a part away. ``rule`` says that
    the further limit, ``advice``, is law.
    """

    grooves: tuple[float, ...]
    verdict: Verdict | None
    limit: float
    advice: float | None = None
    rule: bool = False
    new: float | None = None
    lowest: float | None = None
    lowest_groove: int = 0
    doubt: float | None = None
    outer_left: bool = True

    @property
    def highest(self) -> float:
        """The greatest depth shown."""
        return max((*self.grooves, self.new or 0.0, self.limit))

    def slot(self, groove: int) -> int:
        """The groove's place from the left."""
        return groove if self.outer_left else len(self.grooves) - 1 - groove


def bar_box(bars: Bars, groove: int, depth: float, box: Box, scale: float) -> Box:
    """Where a bar of ``depth`` mm stands in ``box``; ``scale`` in px per mm."""
    margin = box.width * _MARGIN_SHARE
    pitch = (box.width - 2 * margin) / len(bars.grooves)
    gap = pitch * _GAP_SHARE
    high = depth * scale
    return Box(box.left + margin + bars.slot(groove) * pitch + gap / 2, box.bottom - high, pitch - gap, high)


def depth_bars(
    bars: Bars, box: Box, scale: float, frame: Frame, look: Look, name: str, step: int = 0, limits: int = 0
) -> tuple[Shape, ...]:
    """The bars from the bottom of ``box``; ``limits`` is the step in which the limit lines appear."""
    pen = Stroke(look.ink, max(1.5, frame.short / 480))
    fill = look.fill_of(bars.verdict) or look.steel
    solid: list[Command] = []
    ghost: list[Command] = []
    for groove, depth in enumerate(bars.grooves):
        solid += _outline(bar_box(bars, groove, depth, box, scale))
        if bars.new:
            ghost += _outline(bar_box(bars, groove, bars.new, box, scale))
    marks = []
    if ghost:
        worn = mix(look.ground, look.ink, 0.09)
        marks.append(Shape(name=f"{name}/worn", step=step, outline=tuple(ghost), fill=worn))
    marks.append(Shape(name=f"{name}/bars", step=step, outline=tuple(solid), fill=fill, stroke=pen))
    floor = polyline(((box.left, box.bottom), (box.right, box.bottom)))
    marks.append(Shape(name=f"{name}/floor", step=step, outline=floor, stroke=Stroke(look.ink, line_width(frame))))
    lines = _limits(bars, box, scale, frame, look, name, limits)
    return (*marks, *lines, *_doubt(bars, box, scale, frame, look, name, limits))


def _outline(box: Box) -> Outline:
    return rectangle(box.left, box.top, box.width, box.height)


def _limits(
    bars: Bars, box: Box, scale: float, frame: Frame, look: Look, name: str, step: int
) -> tuple[Shape, ...]:
    def across(part: str, kind: Line, depth: float) -> tuple[Shape, ...]:
        y = box.bottom - depth * scale
        return limit_line(f"{name}/{part}", kind, (box.left, y), (box.right, y), frame, look, step)

    further = across("advice", "law" if bars.rule else "advice", bars.advice) if bars.advice else ()
    return (*across("limit", "law", bars.limit), *further)


def _doubt(
    bars: Bars, box: Box, scale: float, frame: Frame, look: Look, name: str, step: int
) -> tuple[Shape, ...]:
    if bars.lowest is None or not bars.doubt:
        return ()
    bar = bar_box(bars, bars.lowest_groove, bars.lowest, box, scale)
    at = (bar.left + bar.width / 2, box.bottom - bars.lowest * scale)
    return doubt_mark(f"{name}/doubt", at, bars.doubt * scale, frame, look, step, box.bottom)
