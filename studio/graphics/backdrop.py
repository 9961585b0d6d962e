"""A picture over something else: what lies behind is not known, so letters and thin lines carry their own ground.

WCAG 2.2 asks for contrast with what is behind; over a film that can be anything. Each text that stood on the look's
ground gets a halo in that ground's colour, each line in a colour of text a casing: contrast holds against those.
"""

from collections.abc import Iterator
from itertools import groupby

from msgspec.structs import replace

from studio.graphics.color import rgba
from studio.graphics.layout.cover import stands_on
from studio.graphics.layout.text import font_size
from studio.graphics.look import Look
from studio.graphics.paint.glyphs import HALO_STROKES, arc_outline
from studio.graphics.scene import AnyMark, ArcText, Scene, Shape, Stroke, Text

_CASING_SHARE = 1 / 270  # of the shorter side, on each edge: the least width of a line that carries meaning


def on_background(scene: Scene, look: Look, background: str | None) -> Scene:
    """``scene`` over ``background``: None is transparent, the look's own ground leaves the picture as it is.

    Texts with a halo are moved to the end, so that no casing and no other halo cuts their letters.
    """
    if background is not None and _same(background, look.ground):
        return replace(scene, background=look.ground)
    marks: list[AnyMark] = []
    texts: list[Text] = []
    for cased, run in _runs(scene, look):
        if cased:  # all casings of neighbours lie below all of their lines: no casing cuts another line
            marks += _casings(run, look.ground, scene.frame.short)
        for mark in run:
            if isinstance(mark, Text) and (mark.halo or _same(mark.ground, look.ground)):
                texts.append(replace(mark, halo=mark.halo or look.ground))
            else:
                marks += _with_halo(mark, look.ground)
    return replace(scene, background=background, marks=(*marks, *texts))


def _runs(scene: Scene, look: Look) -> Iterator[tuple[bool, list[AnyMark]]]:
    """Neighbouring marks that all need a casing, or that all need none."""
    named, below = {mark.name for mark in scene.marks}, list[Shape]()
    needs: list[tuple[bool, AnyMark]] = []
    for mark in scene.marks:
        cased = False
        if isinstance(mark, Shape):
            cased = f"{mark.name}/casing" not in named and _needs_casing(mark, look, below)
            below.append(mark)
        needs.append((cased, mark))
    for cased, run in groupby(needs, key=lambda need: need[0]):
        yield cased, [mark for _, mark in run]


def _with_halo(mark: AnyMark, ground: str) -> Iterator[AnyMark]:
    """A mark that is no text; along an arc, its halo goes before it."""
    if isinstance(mark, ArcText) and _same(mark.ground, ground):
        for share in HALO_STROKES:
            halo = Stroke(ground, share * font_size(mark.cap_height))
            yield Shape(name=f"{mark.name}/halo", step=mark.step, outline=arc_outline(mark), stroke=halo)
    yield mark


def _needs_casing(mark: Shape, look: Look, below: list[Shape]) -> bool:
    """Whether ``mark`` is drawn in a colour of text, has no edge in the ground's colour yet, and stands on no body."""
    edge = mark.stroke.color if mark.stroke else None
    if not mark.outline or (edge is not None and _same(edge, look.ground)):
        return False
    inks = (look.ink, look.quiet, look.measure)
    drawn = any(isinstance(color, str) and any(_same(color, ink) for ink in inks) for color in (mark.fill, edge))
    return drawn and not stands_on(mark, below)


def _same(one: str, other: str) -> bool:
    return rgba(one) == rgba(other)


def _casings(run: list[AnyMark], color: str, short: int) -> Iterator[Shape]:
    for mark in run:
        if isinstance(mark, Shape):
            own = mark.stroke.width if mark.stroke else 0.0
            wide = Stroke(color, own + 2 * short * _CASING_SHARE)
            yield replace(mark, name=f"{mark.name}/casing", fill=None, stroke=wide)
