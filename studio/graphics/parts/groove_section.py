"""A piece of tread in section: blocks, grooves between them, the wear bar in the groove, what has worn away above.

Heights are counted from the grooves' floor, as a gauge reads them.
"""

from collections.abc import Callable, Iterator

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline
from studio.graphics.look import Look
from studio.graphics.parts.outlines import rounded
from studio.graphics.scene import Outline, Point, Shape, Stroke

_FLOOR_SHARE = 0.62  # a groove's width at its floor by that at its mouth when new: walls lean out so that stones leave
_UNKNOWN_NEW_MM = 8.0


class TreadPiece(msgspec.Struct, frozen=True, kw_only=True):
    """A piece of tread from ``left`` to ``right`` (px), its grooves' floor at height ``floor`` (px of the frame).

    ``scale`` is in px per mm, both ways. ``grooves`` are the grooves' middles and ``groove`` their width at the mouth
    of the new tread, in px. ``new_mm`` None: the depth when new is not known. ``bar_mm`` is the wear bars' height, None
    for a cut between two bars.
    """

    left: float
    right: float
    floor: float
    scale: float
    depth_mm: float
    grooves: tuple[float, ...]
    groove: float
    base_mm: float
    new_mm: float | None = None
    bar_mm: float | None = None

    def height(self, depth_mm: float) -> float:
        """Where a depth lies, in px of the frame."""
        return self.floor - depth_mm * self.scale

    @property
    def _full_mm(self) -> float:
        return max(self.new_mm or 0.0, self.depth_mm, _UNKNOWN_NEW_MM if self.new_mm is None else 0.1)

    def half_width(self, depth_mm: float) -> float:
        """Half the width of a groove at a height above its floor, in px: a worn groove is narrower at its mouth."""
        share = _FLOOR_SHARE + (1 - _FLOOR_SHARE) * min(1.0, depth_mm / self._full_mm)
        return self.groove / 2 * share

    @property
    def rounding(self) -> float:
        """The rounding of the blocks' edges in px: sharp when new, softer as they wear."""
        worn = 1 - min(1.0, self.depth_mm / self._full_mm)
        return min((0.35 + 0.9 * worn) * self.scale, 0.25 * self.groove, 0.45 * self.depth_mm * self.scale)


def tread_piece(
    piece: TreadPiece, look: Look, name: str, step: int = 0, clip: Outline | None = None
) -> tuple[Shape, ...]:  # fmt: skip
    """The piece: what has worn away as a ghost, wear bars, rubber."""
    edge = Stroke(look.rubber_edge, max(1.0, piece.groove / 60)) if look.rubber_edge else None
    molded = Shape(name=f"{name}/wear bars", step=step, outline=bars(piece), fill=bar_color(look), clip=clip)
    return (
        *_ghost(piece, look, name, step, clip),
        *((molded,) if piece.bar_mm else ()),
        Shape(name=f"{name}/rubber", step=step, outline=rubber(piece), fill=look.rubber, stroke=edge, clip=clip),
    )  # fmt: skip


def bar_color(look: Look) -> str:
    """What wear bars are filled with: rubber further back, in more light."""
    return mix(look.rubber_light, look.steel, 0.55)


def rubber(piece: TreadPiece) -> Outline:
    """The rubber's outline, from the foot of its base to its surface."""
    top, bottom = piece.height(piece.depth_mm), piece.floor + piece.base_mm * piece.scale
    points: list[tuple[Point, float]] = [((piece.left, bottom), 0.0), ((piece.left, top), 0.0)]
    mouth, foot, soft = piece.half_width(piece.depth_mm), piece.half_width(0.0), piece.rounding
    inner = min(0.9 * piece.scale, foot * 0.4, 0.45 * piece.depth_mm * piece.scale)
    for middle in sorted(piece.grooves):
        if piece.depth_mm > 0:
            points += [((middle - mouth, top), soft), ((middle - foot, piece.floor), inner),
                       ((middle + foot, piece.floor), inner), ((middle + mouth, top), soft)]  # fmt: skip
    points += [((piece.right, top), 0.0), ((piece.right, bottom), 0.0)]
    return rounded(points)


def bars(piece: TreadPiece) -> Outline:
    """The wear bars in the grooves; where the tread is lower than they are, they have worn with it."""
    high = min(piece.bar_mm or 0.0, piece.depth_mm)
    foot = piece.half_width(0.0)
    top = piece.half_width(high) + piece.rounding  # into the blocks, whose rounded edges would part from it
    outline: Outline = ()
    for middle in piece.grooves:
        corners = ((middle - foot, piece.floor + 1), (middle - top, piece.height(high)),
                   (middle + top, piece.height(high)), (middle + foot, piece.floor + 1))  # fmt: skip
        outline += polyline(corners, closed=True)
    return outline


def _ghost(piece: TreadPiece, look: Look, name: str, step: int, clip: Outline | None) -> tuple[Shape, ...]:
    """The rubber that has gone: the blocks from the surface up to where it was when new."""
    if piece.new_mm is None or piece.new_mm <= piece.depth_mm:
        return ()
    outline: Outline = ()
    for left, right in _blocks(piece):
        low, high = piece.depth_mm, piece.new_mm
        corners = ((left(low), low), (left(high), high), (right(high), high), (right(low), low))
        outline += polyline(((x, piece.height(mm)) for x, mm in corners), closed=True)
    line = Stroke(look.quiet, max(1.0, piece.groove / 50), (piece.groove / 12, piece.groove / 12), cap="flat")
    fill = mix(look.ground, look.ink, 0.10)
    return (Shape(name=f"{name}/worn away", step=step, outline=outline, fill=fill, stroke=line, clip=clip),)


_Side = Callable[[float], float]


def _blocks(piece: TreadPiece) -> Iterator[tuple[_Side, _Side]]:
    """The left and the right side of each block: where they lie at a height above the grooves' floor."""

    def wall(middle: float, way: int) -> _Side:
        return lambda mm: middle + way * piece.half_width(mm)

    middles = sorted(piece.grooves)
    lefts: list[_Side] = [lambda _: piece.left, *(wall(middle, 1) for middle in middles)]
    rights: list[_Side] = [*(wall(middle, -1) for middle in middles), lambda _: piece.right]
    return zip(lefts, rights, strict=True)
