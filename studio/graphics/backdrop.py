"""A picture over something else: what lies behind is not known, so letters and thin lines carry their own ground.

WCAG 2.2 asks for contrast with what is behind; over a film that can be anything. Each text that stood on the look's
ground gets a halo in that ground's colour, each line in a colour of text a casing: contrast holds against those.
"""

from collections.abc import Iterator
from itertools import groupby, takewhile

from msgspec.structs import replace

from studio.graphics.color import rgba
from studio.graphics.draw import bounds
from studio.graphics.frame import Box
from studio.graphics.layout.text import font_size
from studio.graphics.look import Look
from studio.graphics.paint.glyphs import HALO_STROKES, arc_outline
from studio.graphics.scene import ArcText, Scene, Shape, Stroke, Text

Mark = Shape | Text | ArcText

_CASING_SHARE = 1 / 270  # of the shorter side, on each edge: the least width of a line that carries meaning
_THIN_SHARE = 1 / 45  # what is wider in both directions is a body, not a line


def on_background(scene: Scene, look: Look, background: str | None) -> Scene:
    """``scene`` over ``background``: None is transparent, the look's own ground leaves the picture as it is."""
    if background is not None and _same(background, look.ground):
        return replace(scene, background=look.ground)
    marks: list[Mark] = []
    for cased, neighbours in groupby(scene.marks, key=lambda mark: _needs_casing(mark, look, scene)):
        run = tuple(neighbours)
        if cased:  # all casings of neighbours lie below all of their lines: no casing cuts another line
            marks += _casings(run, look.ground, scene.frame.short)
        for mark in run:
            marks += _with_halo(mark, look.ground)
    return replace(scene, background=background, marks=tuple(marks))


def _with_halo(mark: Mark, ground: str) -> Iterator[Mark]:
    if isinstance(mark, Text) and mark.halo is None and _same(mark.ground, ground):
        yield replace(mark, halo=ground)
        return
    if isinstance(mark, ArcText) and _same(mark.ground, ground):
        for share in HALO_STROKES:
            halo = Stroke(ground, share * font_size(mark.cap_height))
            yield Shape(name=f"{mark.name}/halo", step=mark.step, outline=arc_outline(mark), stroke=halo)
    yield mark


def _needs_casing(mark: Mark, look: Look, scene: Scene) -> bool:
    """Whether ``mark`` is a line, or a small filled sign such as an arrow's head, in a colour of text."""
    if not isinstance(mark, Shape) or not mark.outline:
        return False
    colors = (mark.fill, mark.stroke.color if mark.stroke else None)
    inks = (look.ink, look.quiet, look.measure)
    if not any(isinstance(color, str) and any(_same(color, ink) for ink in inks) for color in colors):
        return False
    return (mark.fill is None or _is_thin(mark, scene)) and not _on_a_plate(mark, look, scene)


def _same(one: str, other: str) -> bool:
    return rgba(one) == rgba(other)


def _is_thin(mark: Shape, scene: Scene) -> bool:
    box = _box(mark)
    return min(box.width, box.height) <= scene.frame.short * _THIN_SHARE


def _on_a_plate(mark: Shape, look: Look, scene: Scene) -> bool:
    """Whether an opaque plate that is painted before ``mark`` lies behind all of it."""
    box, grounds = _box(mark), (look.plate, look.ground)
    below = (other for other in takewhile(lambda other: other is not mark, scene.marks) if isinstance(other, Shape))
    plates = (other for other in below if other.fill in grounds and other.step <= mark.step and other.outline)
    return any(_box(plate).holds(box) for plate in plates)


def _casings(run: tuple[Mark, ...], color: str, short: int) -> Iterator[Shape]:
    for mark in run:
        if isinstance(mark, Shape):
            own = mark.stroke.width if mark.stroke else 0.0
            wide = Stroke(color, own + 2 * short * _CASING_SHARE)
            yield replace(mark, name=f"{mark.name}/casing", fill=None, stroke=wide)


def _box(mark: Shape) -> Box:
    left, top, right, bottom = bounds(mark.outline)
    return Box(left, top, right - left, bottom - top)
