"""Tread wears from new to now: the rubber that has gone is there at first, and sinks to the surface that is read.

Works on any picture that shows by ``.../worn away`` what has gone, over ``.../rubber``.
"""

import msgspec

from studio.graphics.draw import bounds, polyline
from studio.graphics.motion import Fade, Morph, Uncover
from studio.graphics.moving.cues import DRAWING_MS, Act, Clock, guest_index, indices, together
from studio.graphics.scene import Command, Outline, Point, Scene, Shape

WEAR_MS = 1600
_OVER = 0.12  # of what has gone: by so much the rubber on top reaches into that below, whose edges are rounded
_CORNERS = 5  # commands of one block: four corners and the way back


def act(scene: Scene, step: int, clock: Clock) -> Act:
    """All treads that a step shows wear at once."""
    here = indices(scene, step)
    worn = [index for index in here if scene.marks[index].name.endswith("/worn away")]
    return together(*(_wear(scene, index, here, clock) for index in worn))


def _wear(scene: Scene, index: int, here: tuple[int, ...], clock: Clock) -> Act:
    gone = scene.marks[index]
    whole = gone.name.removesuffix("/worn away")
    rubber = next((i for i in here if scene.marks[i].name == f"{whole}/rubber"), None)
    below = scene.marks[rubber] if rubber is not None else None
    if not isinstance(gone, Shape) or not isinstance(below, Shape) or rubber is None or not _blocks(gone.outline):
        return Act()
    top = msgspec.structs.replace(gone, name=f"{whole}/wearing", outline=_at(gone.outline, 0.0),
                                  fill=below.fill, stroke=None)  # fmt: skip
    others = tuple(i for i in here if scene.marks[i].name == f"{whole}/wear bars")
    shown, wear = clock.frames(DRAWING_MS), clock.frames(WEAR_MS)
    left, upper, _, lower = bounds(gone.outline)
    edge = gone.stroke.width if gone.stroke else 0.0
    moves = (
        Fade(marks=(*others, rubber, guest_index(0)), start=0, frames=shown),
        Morph(marks=(guest_index(0),), start=shown, frames=wear, begins=(_at(gone.outline, 1.0),)),
        Uncover(marks=(index,), start=shown, frames=wear, origin=(left, upper - edge), target=(left, lower)),
    )
    return Act(movements=moves, guests=(top,), frames=shown + wear)


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


def _at(outline: Outline, share: float) -> Outline:
    """The blocks with ``share`` of what has gone still there."""
    commands: list[Command] = []
    for low_left, high_left, high_right, low_right in _blocks(outline):
        over = -_OVER * share
        corners = (_on(low_left, high_left, over), _on(low_left, high_left, share),
                   _on(low_right, high_right, share), _on(low_right, high_right, over))  # fmt: skip
        commands += polyline(corners, closed=True)
    return tuple(commands)


def _on(low: Point, high: Point, share: float) -> Point:
    return (low[0] + (high[0] - low[0]) * share, low[1] + (high[1] - low[1]) * share)
