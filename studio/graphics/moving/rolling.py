"""Tires roll side by side, turning as often as one another: the larger one gets further, so that they drift apart.

Works on any picture whose step shows two or more tires as ``NAME/tire/...``. What lies ``NAME/unrolled`` on the road is
one turn long and uncovered as its tire passes; what stands at the ``finish`` appears when both have arrived. Tires on
one road come by half a turn, from the side from which the larger one runs ahead of the other.
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
    turned = _turned(scene, step, bodies)
    movements: list[AnyMovement] = []
    for name, marks in bodies.items():
        movements += _rolls(scene, name, step, marks, (start, roll), turned)
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


def _turned(scene: Scene, step: int, bodies: dict[str, tuple[int, ...]]) -> float:
    """How often each tire turns, rolling to the right; less than nothing to the left."""
    if any(scene.marks[index].name.endswith("/unrolled") for index in indices(scene, step)):
        return 1.0
    measured = sorted(_measured(scene, marks) for marks in bodies.values())
    return 0.5 if measured[-1][1] >= measured[0][1] else -0.5


def _rolls(
    scene: Scene, name: str, step: int, marks: tuple[int, ...], when: tuple[int, int], turned: float
) -> list[AnyMovement]:
    """One tire: it appears some turns away from where it will stand, and rolls there."""
    (start, roll), (center, diameter) = when, _measured(scene, marks)
    far = turned * math.pi * diameter
    way = ((center[0] - far, center[1]), center)
    here = {index: plain_name(scene.marks[index].name) for index in indices(scene, step)}
    shadow = tuple(index for index, part in here.items() if part.startswith(f"{name}/shadow"))
    movements: list[AnyMovement] = [
        Fade(marks=(*shadow, *marks), start=0, frames=start),
        Travel(marks=marks, start=start, frames=roll, pace="rolling", center=center, way=way,
               turns=(-360.0 * turned, 0.0), lit=True),
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
