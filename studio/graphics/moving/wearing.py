"""Tread wears from new to now: the rubber that has gone is there at first, and sinks to the surface that is read.

A likeness of the whole tread comes as one piece, new, and wears; when it has, the tread as it is takes its place. Works
on any picture that shows by ``.../worn away`` what has gone, over ``.../rubber``.
"""

import msgspec

from studio.graphics.draw import bounds, polyline
from studio.graphics.motion import Fade, Guest, Morph, Uncover
from studio.graphics.moving.build_up import plain_name
from studio.graphics.moving.cues import DRAWING_MS, LABEL_MS, Act, Clock, guest_index, indices, together
from studio.graphics.scene import Command, Outline, Point, Scene, Shape

WEAR_MS = 1600
_OVER = 0.45  # of what is left: so far the rubber on top reaches into that below, whose edges are rounded
_CORNERS = 5  # commands of one block: four corners and the way back


def act(scene: Scene, step: int, clock: Clock) -> Act:
    """All treads that a step shows wear at once; how sure a reading is shows when its surface is reached."""
    here = indices(scene, step)
    worn = [index for index in here if scene.marks[index].name.endswith("/worn away")]
    wears = together(*(_wear(scene, index, here, clock) for index in worn))
    doubts = tuple(index for index in here if "doubt" in plain_name(scene.marks[index].name).split("/")
                   and isinstance(scene.marks[index], Shape))  # fmt: skip
    if not wears.movements or not doubts:
        return wears
    late = Fade(marks=doubts, start=wears.frames, frames=clock.frames(LABEL_MS))
    return msgspec.structs.replace(wears, movements=(*wears.movements, late))


def _wear(scene: Scene, index: int, here: tuple[int, ...], clock: Clock) -> Act:
    gone = scene.marks[index]
    whole = gone.name.removesuffix("/worn away")
    rubber = next((i for i in here if scene.marks[i].name == f"{whole}/rubber"), None)
    below = scene.marks[rubber] if rubber is not None else None
    if not isinstance(gone, Shape) or not isinstance(below, Shape) or rubber is None or not _blocks(gone.outline):
        return Act()
    others = tuple(i for i in here if scene.marks[i].name == f"{whole}/wear bars")
    foot = bounds(below.outline)[3]
    top = msgspec.structs.replace(gone, name=f"{whole}/wearing", outline=_at(gone.outline, 0.0, foot),
                                  fill=below.fill, stroke=None)  # fmt: skip
    piece = (*(m for i in others if isinstance(m := scene.marks[i], Shape)), below, top)
    begins = (*(shape.outline for shape in piece[:-1]), _at(gone.outline, 1.0, foot))
    likeness = tuple(map(guest_index, range(len(piece))))
    ghost = tuple(i for i in here if plain_name(scene.marks[i].name) == gone.name)
    shown, wear = clock.frames(DRAWING_MS), clock.frames(WEAR_MS)
    left, upper, _, lower = bounds(gone.outline)
    edge = gone.stroke.width if gone.stroke else 0.0
    moves = (
        Fade(marks=likeness, start=0, frames=shown),
        Fade(marks=(*others, rubber), start=shown + wear - 1, frames=1),  # behind their likeness, which then goes
        Fade(marks=likeness, start=shown + wear, frames=clock.frames(LABEL_MS), away=True),
        Morph(marks=likeness, start=shown, frames=wear, begins=begins),
        Uncover(marks=ghost, start=shown, frames=wear, origin=(left, upper - edge), target=(left, lower)),
    )
    guests = tuple(Guest(shape, above=rubber) for shape in piece)
    return Act(movements=moves, guests=guests, frames=shown + wear)


def _blocks(outline: Outline) -> list[tuple[Point, Point, Point, Point]]:
    """Each block's corners: low left, high left, high right, low right; none where the outline is of another build."""
    if len(outline) % _CORNERS:
        return []
    found = []
    for start in range(0, len(outline), _CORNERS):
        corners = outline[start : start + _CORNERS]
        if [command[0] for command in corners] != ["M", "L", "L", "L", "Z"]:
            return []
        low_left, high_left, high_right, low_right = ((c[1], c[2]) for c in corners[:4])  # type: ignore[misc]
        found.append((low_left, high_left, high_right, low_right))
    return found


def _at(outline: Outline, share: float, foot: float) -> Outline:
    """The blocks with ``share`` of what has gone still there; ``foot`` is where the rubber below ends."""
    commands: list[Command] = []
    for low_left, high_left, high_right, low_right in _blocks(outline):
        left, right = (_over(low, high, foot) for low, high in ((low_left, high_left), (low_right, high_right)))
        corners = (_on(low_left, high_left, -left), _on(low_left, high_left, share),
                   _on(low_right, high_right, share), _on(low_right, high_right, -right))  # fmt: skip
        commands += polyline(corners, closed=True)
    return tuple(commands)


def _over(low: Point, high: Point, foot: float) -> float:
    """How far a side reaches down, as a share of what has gone there."""
    gone = low[1] - high[1]
    return _OVER * (foot - low[1]) / gone if gone > 0 else 0.0


def _on(low: Point, high: Point, share: float) -> Point:
    return (low[0] + (high[0] - low[0]) * share, low[1] + (high[1] - low[1]) * share)
