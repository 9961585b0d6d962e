"""The way each tire takes to its next place, as a person would roll it: out along its tread, and in along it.

Tires that stay on their side pass outside the car, those that change sides cross in its middle.
"""

from collections.abc import Mapping

from studio.graphics.frame import Box
from studio.graphics.parts.arrows import Curve
from studio.graphics.parts.car_plan import PlacedCar
from studio.graphics.scene import Point
from studio.model.places import Place

Moves = tuple[tuple[Place, Place], ...]


def chain(moves: Mapping[Place, Place]) -> Moves:
    """The moves in speaking order: each tire goes where the next one makes room."""
    ordered: list[tuple[Place, Place]] = []
    for start in moves:
        here = start
        while here in moves and (here, moves[here]) not in ordered:
            ordered.append((here, moves[here]))
            here = moves[here]
    return tuple(ordered)


def paths(car: PlacedCar, moves: Moves, gap: float) -> tuple[Curve, ...]:
    """One curve for each move, in their order; ``gap`` px are left between a tire and its arrow."""
    return tuple(_path(car, here, there, moves, gap) for here, there in moves)


def _path(car: PlacedCar, here: Place, there: Place, moves: Moves, gap: float) -> Curve:
    start, end = _box(car, here), _box(car, there)
    if "spare" in (here, there):
        return _with_spare(here, there, start, end, gap)
    if _side(here) == _side(there):
        return _along(car, here, start, end, gap, inside=(there, here) in moves and here.startswith("rear"))
    if here.split("_")[0] == there.split("_")[0]:
        return _across(here, start, end, gap)
    return _cross(here, start, end, gap, crowded=any(to == here and _crosses(frm, to) for frm, to in moves))


def _box(car: PlacedCar, place: Place) -> Box:
    box = car.tire(place)
    if box is None:
        raise ValueError(f"no tire at {place} on the plan")
    return box


def _side(place: Place) -> str:
    return place.rpartition("_")[2]


def _crosses(here: Place, there: Place) -> bool:
    return "spare" not in (here, there) and _side(here) != _side(there)


def _along(car: PlacedCar, here: Place, start: Box, end: Box, gap: float, *, inside: bool) -> Curve:
    """On one side: a bow outside the car; the second of two that change places keeps inside."""
    sign = -1 if here.endswith("left") else 1
    sign = -sign if inside else sign
    down = 1 if here.startswith("front") else -1
    bow = 0.34 * car.body.width
    first = (_edge(start, sign, gap), start.center[1] + down * 0.22 * start.height)
    last = (_edge(end, sign, gap), end.center[1] - down * 0.22 * end.height)
    run = abs(last[1] - first[1])
    return (
        first, (first[0] + sign * bow, first[1] + down * 0.16 * run),
        (last[0] + sign * bow, last[1] - down * 0.16 * run), last,
    )  # fmt: skip


def _edge(box: Box, sign: int, gap: float) -> float:
    return box.left - gap if sign < 0 else box.right + gap


def _cross(here: Place, start: Box, end: Box, gap: float, *, crowded: bool) -> Curve:
    """From one corner to the one across: out along the tread, over the middle, in along the tread.

    ``crowded`` says that another tire comes in at the end where this one would leave: then it leaves by its inner side.
    """
    down = 1 if here.startswith("front") else -1
    last = _end(end, -down, gap)
    if crowded:
        inward = 1 if here.endswith("left") else -1
        first = (_edge(start, inward, gap), start.center[1] + down * 0.1 * start.height)
    else:
        first = _end(start, down, gap)
    run = abs(last[1] - first[1])
    return (first, (first[0], first[1] + down * 0.5 * run), (last[0], last[1] - down * 0.5 * run), last)


def _end(box: Box, down: int, gap: float) -> Point:
    return (box.center[0], box.bottom + gap if down > 0 else box.top - gap)


def _across(here: Place, start: Box, end: Box, gap: float) -> Curve:
    """From side to side on one axle: two bows one within the other, towards the car's middle."""
    inward = 1 if here.endswith("left") else -1
    down = 1 if here.startswith("front") else -1
    near = here.endswith("left")
    y = start.center[1] + down * (0.0 if near else 0.42) * start.height
    bulge = down * (0.15 if near else 0.75) * start.height
    first, last = (_edge(start, inward, gap), y), (_edge(end, -inward, gap), y)
    third = (last[0] - first[0]) / 3
    return (first, (first[0] + third, y + bulge), (last[0] - third, y + bulge), last)


def _with_spare(here: Place, there: Place, start: Box, end: Box, gap: float) -> Curve:
    """To or from the spare's place: round the tail from a rear wheel, through the car from a front one."""
    leaving = there == "spare"
    corner, wheel, spare = (here, start, end) if leaving else (there, end, start)
    sign = -1 if corner.endswith("left") else 1
    if corner.startswith("rear"):
        at, inner = _end(wheel, 1, gap), (_edge(spare, sign, gap), spare.center[1])
        drop = spare.center[1] - at[1]
        handle = (inner[0] + sign * 0.5 * abs(at[0] - inner[0]), inner[1])
        curve: Curve = (at, (at[0], at[1] + 0.8 * drop), handle, inner)
    else:
        at = _end(wheel, 1, gap)
        top = (spare.center[0] + sign * 0.25 * spare.width, spare.top - gap)
        run = top[1] - at[1]
        curve = (at, (at[0], at[1] + 0.34 * run), (top[0], top[1] - 0.5 * run), top)
    return curve if leaving else (curve[3], curve[2], curve[1], curve[0])
