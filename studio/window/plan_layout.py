"""Where everything stands on the plan: the car, the tag beside each wheel, spare and bench below. Plain px."""

from dataclasses import dataclass

from studio.graphics.frame import Box
from studio.graphics.parts.car_plan import CarPlan, PlacedCar, place_car
from studio.model.places import CORNERS, Place
from studio.window.plan_sizes import CAR_WIDTH, CLOSE, GAP, MARGIN, SIDE_TAG, TAG

MOST_TAG_HEIGHT, _TAG_SHARE = 220.0, 0.75  # tags grow with the car: their bars are read more easily
_LENGTH_SHARE = 0.49  # what the wheels lie apart, of the height left to the car, less what the upper tags need


@dataclass(frozen=True)
class PlanLayout:
    """The boxes of the car and of its corners' tags, then those of spare and bench; the height that all of it needs."""

    car: PlacedCar
    corners: dict[Place, Box]
    below: tuple[Box, ...]
    height: float


def least_height(below: int, width: float, percent: int) -> float:
    """The height that the plan needs with so many tires below the car."""
    scale = percent / 100
    rows = _rows(below, width, scale)
    return (TAG[1] * scale + GAP) / _LENGTH_SHARE + MARGIN + rows * (SIDE_TAG[1] * scale + MARGIN)


def lay_out(plan: CarPlan, below: int, width: float, height: float, percent: int) -> PlanLayout:
    """Everything in ``width`` x ``height`` px with text at ``percent`` of its usual size."""
    scale = percent / 100
    tag = (TAG[0] * scale, TAG[1] * scale)
    rows = _rows(below, width, scale)
    high = max(height, least_height(below, width, percent)) - rows * (SIDE_TAG[1] * scale + MARGIN)
    reach = MARGIN + tag[0] + GAP
    car = place_car(plan, Box(reach, MARGIN / 2, max(CAR_WIDTH, width - 2 * reach), high - MARGIN))
    room = plan.wheelbase_mm * car.scale - GAP
    tag = (tag[0], min(max(tag[1], _TAG_SHARE * room), MOST_TAG_HEIGHT * scale, max(room, tag[1])))
    corners = {place: _tag_box(place, car, tag, width) for place in CORNERS}
    for front, rear in (CORNERS[0::2], CORNERS[1::2]):
        corners[front], corners[rear] = _apart(corners[front], corners[rear])
    return PlanLayout(car, corners, _below(below, width, high, scale), high + rows * (SIDE_TAG[1] * scale + MARGIN))


def wheel_center(car: PlacedCar, place: Place) -> tuple[float, float]:
    """The middle of a corner's wheel, a tire standing there or not."""
    plan = car.plan
    front = place.startswith("front")
    half = (plan.front_track_mm if front else plan.rear_track_mm) / 2
    return car.at(-half if place.endswith("left") else half, 0.0 if front else plan.wheelbase_mm)


def _tag_box(place: Place, car: PlacedCar, tag: tuple[float, float], width: float) -> Box:
    """Beside its wheel, at the same distance from the body for all."""
    whole, (_, y) = car.all, wheel_center(car, place)
    left = whole.left - CLOSE - tag[0] if place.endswith("left") else whole.left + whole.width + CLOSE
    left = min(max(left, 0.0), width - tag[0])
    return Box(left, max(0.0, y - tag[1] / 2), *tag)


def _apart(upper: Box, lower: Box) -> tuple[Box, Box]:
    """Two tags of one side, moved away from each other where the wheels stand closer than the tags are high."""
    over = max(0.0, upper.top + upper.height + CLOSE - lower.top)
    top = max(0.0, upper.top - over / 2)
    below = max(lower.top + over / 2, top + upper.height + CLOSE) if over else lower.top
    return Box(upper.left, top, upper.width, upper.height), Box(lower.left, below, lower.width, lower.height)


def _columns(width: float, scale: float) -> int:
    return max(1, int((width - MARGIN) // (SIDE_TAG[0] * scale + MARGIN)))


def _rows(below: int, width: float, scale: float) -> int:
    return -(-below // _columns(width, scale))


def _below(count: int, width: float, top: float, scale: float) -> tuple[Box, ...]:
    columns = _columns(width, scale)
    wide, high = SIDE_TAG[0] * scale, SIDE_TAG[1] * scale
    left = max(MARGIN, (width - columns * wide - (columns - 1) * MARGIN) / 2) if count >= columns else MARGIN
    return tuple(
        Box(left + (index % columns) * (wide + MARGIN), top + (index // columns) * (high + MARGIN), wide, high)
        for index in range(count)
    )
