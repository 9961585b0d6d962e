"""Rotation: in each move's step a likeness of the tire rolls to its next place, and its arrow is drawn as it goes.

The likeness leaves the tire where it is, since the finished picture shows the tires in their present places. What is
held back (a dashed arrow) is drawn only, not acted out.
"""

import math

import msgspec

from studio.graphics.draw import bounds
from studio.graphics.motion import AnyMovement, Draw, Fade, Guest, Travel
from studio.graphics.moving.build_up import plain_name
from studio.graphics.moving.cues import LABEL_MS, Act, Clock, guest_index, indices
from studio.graphics.moving.trace import ends, way
from studio.graphics.parts.arrows import Curve, sampled
from studio.graphics.scene import Point, Scene, Shape, Stroke

ROLL_MS, APPEAR_MS, LEAVE_MS = 1400, 200, 250
_POINTS = 60
_WHEELS = 4  # a wheel turns as if by the way some points before and after it
_TURNS_IN = 0.28  # the share of the way on which a wheel turns into it, and out of it at its end


def act(scene: Scene, step: int, clock: Clock) -> Act:
    """The move that belongs to ``step``, if one does."""
    found = {plain_name(scene.marks[index].name): index for index in indices(scene, step)}
    name = next((name for name in found if name.startswith("moves/") and name.endswith("/path")), None)
    if name is None:
        return Act()
    move = name.removesuffix("/path")
    path = scene.named(name)
    assert isinstance(path, Shape)
    rolls = not (path.stroke and path.stroke.dash)
    start = clock.frames(APPEAR_MS) if rolls else 0
    arrow = _arrow(scene, step, move, start, clock)
    guests, movements = _likeness(scene, move, path, start, clock) if rolls else ((), ())
    return Act(movements=(*arrow, *movements), guests=guests, frames=start + clock.frames(ROLL_MS))


def _arrow(scene: Scene, step: int, move: str, start: int, clock: Clock) -> list[AnyMovement]:
    """The dot where it starts, the shaft drawn as the wheel rolls, the head when it arrives."""
    of: dict[str, list[int]] = {}
    for index in indices(scene, step):
        whole, _, part = plain_name(scene.marks[index].name).rpartition("/")
        if whole == move:
            of.setdefault(part, []).append(index)
    roll, short = clock.frames(ROLL_MS), clock.frames(LABEL_MS)
    movements: list[AnyMovement] = [
        Draw(marks=tuple(of.get("path", ())), start=start, frames=roll, pace="rolling"),
        Fade(marks=tuple(of.get("start", ())), start=start, frames=short),
        Fade(marks=tuple(of.get("head", ())), start=start + roll - short, frames=short),
        Fade(marks=tuple(of.get("gap", ())), start=start + roll // 4, frames=short),
    ]
    return [movement for movement in movements if movement.marks]


def _likeness(
    scene: Scene, move: str, path: Shape, start: int, clock: Clock
) -> tuple[tuple[Guest, ...], tuple[AnyMovement, ...]]:
    here, _, there = move.removeprefix("moves/").partition(" to ")
    tire = [mark for mark in scene.marks if isinstance(mark, Shape) and mark.name.startswith(f"tires/{here}/")]
    goal = next((mark for mark in scene.marks if mark.name == f"tires/{there}/tire"), None)
    if not tire or not isinstance(goal, Shape):
        return (), ()
    color = path.stroke.color if path.stroke else ""
    ring = Shape(name="rim", outline=tire[0].outline, stroke=Stroke(color, scene.frame.short / 270))
    guests = tuple(Guest(msgspec.structs.replace(mark, name=f"rolling/{mark.name}")) for mark in (*tire, ring))
    marks = tuple(guest_index(order) for order in range(len(guests)))
    points = _way(tire[0], goal, path)
    roll = clock.frames(ROLL_MS)
    movements: tuple[AnyMovement, ...] = (
        Fade(marks=marks, start=0, frames=start),
        Travel(marks=marks, start=start, frames=roll, pace="rolling", center=_middle(tire[0]), way=points,
               turns=turns(points, _lies(tire[0]), _lies(goal))),
        Fade(marks=marks, start=start + roll, frames=clock.frames(LEAVE_MS), away=True),
    )  # fmt: skip
    return guests, movements


def _way(tire: Shape, goal: Shape, path: Shape) -> tuple[Point, ...]:
    """From the tire's middle along its arrow to the middle of the place it goes to."""
    first, curve = path.outline[0], path.outline[1]
    cubic: Curve = ((first[1], first[2]), *zip(curve[1::2], curve[2::2], strict=True))  # type: ignore[assignment, misc]
    assert ends(path.outline)[1] == cubic[3]
    return way((_middle(tire), *sampled(cubic), _middle(goal)), _POINTS)


def _middle(shape: Shape) -> Point:
    left, top, right, bottom = bounds(shape.outline)
    return ((left + right) / 2, (top + bottom) / 2)


def _lies(shape: Shape) -> float:
    """The direction of a tire seen from above, in degrees clockwise from up: 0 along the car, 90 across it."""
    left, top, right, bottom = bounds(shape.outline)
    return 90.0 if right - left > bottom - top else 0.0


def turns(points: tuple[Point, ...], lies: float, goal: float) -> tuple[float, ...]:
    """By how many degrees the wheel has turned at each point: it stands along its way, and at both ends as it lies.

    A wheel looks the same from both ends of its way, so it turns by the lesser of two angles, and never jumps.
    """
    last = len(points) - 1
    headings: list[float] = []
    for order in range(len(points)):
        (x0, y0), (x1, y1) = points[max(0, order - 1)], points[min(last, order + 1)]
        heading = math.degrees(math.atan2(x1 - x0, y0 - y1))
        headings.append(_near(heading, headings[-1] if headings else lies))
    headings = [_mean(headings[max(0, order - _WHEELS) : order + _WHEELS + 1]) for order in range(len(headings))]
    final = _near(goal, headings[-1])
    found = []
    for order, heading in enumerate(headings):
        share = order / last
        into, out = _ease(share / _TURNS_IN), _ease((1 - share) / _TURNS_IN)
        middle = lies + (heading - lies) * into
        found.append(final + (middle - final) * out - lies)
    return tuple(found)


def _near(angle: float, to: float) -> float:
    """The angle, or one half turns away, nearest to another."""
    return angle - 180 * round((angle - to) / 180)


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)


def _ease(share: float) -> float:
    share = min(1.0, max(0.0, share))
    return share * share * (3 - 2 * share)
