"""The whole tread cut across, laid flat: ribs between grooves, each groove as deep as it was read, what has gone above.

Heights are counted from the grooves' floor, as a gauge reads them. Between two grooves the surface runs straight from
one depth to the other; beyond the outermost ones it stays level.
"""

from collections.abc import Iterator

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline
from studio.graphics.look import Look
from studio.graphics.parts.groove_section import bar_color
from studio.graphics.parts.outlines import rounded
from studio.graphics.scene import Outline, Point, Shape, Stroke

_FOOT = 0.62  # a groove's width at its floor by that at its mouth
_SHOULDER = 0.5  # how far a shoulder is rounded off, by the tread's height


class TreadAcross(msgspec.Struct, frozen=True, kw_only=True):
    """A tread from ``left`` to ``right`` (px), outer side at the left, its grooves' floor at ``floor``.

    ``scale`` is px per mm of depth. ``grooves`` are (middle in px, depth in mm) from left to right, each ``groove`` px
    wide at its mouth. ``base`` is the rubber under the floor in px; ``new_mm`` None: the depth when new is not known.
    """

    left: float
    right: float
    floor: float
    scale: float
    grooves: tuple[tuple[float, float], ...]
    groove: float
    base: float
    new_mm: float | None = None
    bar_mm: float | None = None

    def height(self, mm: float) -> float:
        """Where a depth lies, in px of the frame."""
        return self.floor - mm * self.scale

    def ribs(self) -> Iterator[tuple[float, float, float, float]]:
        """Left and right end of each rib in px, and its depth at both in mm."""
        half = self.groove / 2
        starts = [(self.left, self.grooves[0][1]), *((x + half, mm) for x, mm in self.grooves)]
        ends = [*((x - half, mm) for x, mm in self.grooves), (self.right, self.grooves[-1][1])]
        for (start, low), (end, high) in zip(starts, ends, strict=True):
            yield start, end, low, high


def tread_across(its: TreadAcross, look: Look, name: str, line: float, step: int = 0) -> tuple[Shape, ...]:
    """What has worn away, the wear bars, the rubber; ``line`` px is a fine line."""
    edge = Stroke(look.rubber_edge, line) if look.rubber_edge else None
    bars = Shape(name=f"{name}/wear bars", step=step, outline=_bars(its), fill=bar_color(look))
    return (
        *_gone(its, look, name, line, step),
        *((bars,) if its.bar_mm else ()),
        Shape(name=f"{name}/rubber", step=step, outline=rubber(its), fill=look.rubber, stroke=edge),
    )


def rubber(its: TreadAcross) -> Outline:
    """The rubber's outline."""
    bottom, foot = its.floor + its.base, _FOOT * its.groove / 2
    high = max(mm for _, mm in its.grooves) * its.scale
    round_off = min(_SHOULDER * (high + its.base), 0.06 * (its.right - its.left))
    points: list[tuple[Point, float]] = [((its.left, bottom), 0.0)]
    soft = 0.08 * its.groove
    ribs = list(its.ribs())
    for order, (start, end, low, last) in enumerate(ribs):
        first, final = order == 0, order == len(ribs) - 1
        points.append(((start, its.height(low)), round_off if first else min(soft, 0.4 * low * its.scale)))
        points.append(((end, its.height(last)), round_off if final else min(soft, 0.4 * last * its.scale)))
        if not final:
            middle, depth_mm = its.grooves[order]
            inner = min(0.3 * foot, 0.4 * depth_mm * its.scale)
            points += [((middle - foot, its.floor), inner), ((middle + foot, its.floor), inner)]
    return rounded([*points, ((its.right, bottom), 0.0)])


def _bars(its: TreadAcross) -> Outline:
    outline: Outline = ()
    for middle, mm in its.grooves:
        top, half = its.height(min(its.bar_mm or 0.0, mm)), its.groove / 2
        corners = ((middle - half, its.floor + 1), (middle - half, top), (middle + half, top),
                   (middle + half, its.floor + 1))  # fmt: skip
        outline += polyline(corners, closed=True)
    return outline


def _gone(its: TreadAcross, look: Look, name: str, line: float, step: int) -> tuple[Shape, ...]:
    """The rubber between the surface now and the new one."""
    new = its.new_mm
    if new is None or all(mm >= new for _, mm in its.grooves):
        return ()
    outline: Outline = ()
    for start, end, low, high in its.ribs():
        corners = ((start, its.height(min(low, new))), (start, its.height(new)), (end, its.height(new)),
                   (end, its.height(min(high, new))))  # fmt: skip
        outline += polyline(corners, closed=True)
    dashed = Stroke(look.quiet, line, (5 * line, 4 * line), cap="flat")
    return (Shape(name=f"{name}/worn away", step=step, outline=outline, fill=mix(look.ground, look.ink, 0.10),
                  stroke=dashed),)  # fmt: skip
