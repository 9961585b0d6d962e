"""Tires roll side by side, one turn each at one pace: the larger one gets further, so that they drift apart.

Works on any picture whose step shows two or more tires as ``NAME/tire/...``; what lies ``NAME/unrolled`` on the road is
uncovered as its tire passes, and what stands at the ``finish`` appears when both have arrived.
"""

import math

from studio.graphics.draw import bounds
from studio.graphics.motion import AnyMovement, Fade, Travel, Uncover
from studio.graphics.moving.build_up import plain_name
from studio.graphics.moving.cues import DRAWING_MS, LINE_MS, Act, Clock, indices
from studio.graphics.scene import Point, Scene, Shape

ROLL_MS = 2000
_LYING = ("unrolled", "notches")


def act(scene: Scene, step: int, clock: Clock) -> Act:
    """One turn of all tires that appear in ``step``, where there are two or more."""
    bodies = _bodies(scene, step)
    if len(bodies) < 2:
        return Act()
    start, roll = clock.frames(DRAWING_MS), clock.frames(ROLL_MS)
    movements: list[AnyMovement] = []
    for name, marks in bodies.items():
        movements += _rolls(scene, name, step, marks, start, roll)
    finish = tuple(index for index in indices(scene, step) if scene.marks[index].name.startswith("finish/"))
    last = start + roll
    if finish:
        movements.append(Fade(marks=finish, start=last, frames=clock.frames(LINE_MS)))
        last += clock.frames(LINE_MS)
    return Act(movements=tuple(movements), frames=last)


def _bodies(scene: Scene, step: int) -> dict[str, tuple[int, ...]]:
    """The marks of each tire; its valve and the chalk on it follow it in painting order."""
    found: dict[str, list[int]] = {}
    latest = ""
    for index in indices(scene, step):
        name = plain_name(scene.marks[index].name)
        whole, parted, _ = name.partition("/tire/")
        if parted:
            latest = whole
            found.setdefault(whole, []).append(index)
        elif latest and (name.endswith("/valve") or name == f"{latest}/chalk"):
            found[latest].append(index)
    return {name: tuple(marks) for name, marks in found.items()}


def _rolls(
    scene: Scene, name: str, step: int, marks: tuple[int, ...], start: int, roll: int
) -> list[AnyMovement]:
    """One tire: it appears a turn away from where it will stand, and rolls there."""
    center, diameter = _measured(scene, marks)
    far = math.pi * diameter
    way = ((center[0] - far, center[1]), center)
    here = {index: plain_name(scene.marks[index].name) for index in indices(scene, step)}
    shadow = tuple(index for index, part in here.items() if part.startswith(f"{name}/shadow"))
    movements: list[AnyMovement] = [
        Fade(marks=(*shadow, *marks), start=0, frames=start),
        Travel(marks=marks, start=start, frames=roll, pace="rolling", center=center, way=way, turns=(-360.0, 0.0),
               lit=True),
    ]  # fmt: skip
    if shadow:
        movements.append(Travel(marks=shadow, start=start, frames=roll, pace="rolling", center=center, way=way,
                                turns=(0.0, 0.0)))  # fmt: skip
    lying = tuple(index for index, part in here.items() if part in {f"{name}/{what}" for what in _LYING})
    if lying:
        movements.append(Uncover(marks=lying, start=start, frames=roll, pace="rolling", origin=way[0], target=way[1]))
    return movements


def _measured(scene: Scene, marks: tuple[int, ...]) -> tuple[Point, float]:
    """The tire's middle and its diameter in px, as drawn."""
    shapes = [mark for index in marks if isinstance(mark := scene.marks[index], Shape)]
    boxes = [bounds(shape.outline) for shape in shapes]
    left, top, right, bottom = max(boxes, key=lambda box: box[2] - box[0])
    return ((left + right) / 2, (top + bottom) / 2), right - left
