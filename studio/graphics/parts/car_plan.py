"""The car's plan: wheelbase, track and tires in mm, and where they lie in a picture.

In the plan x is 0 on the car's middle line and grows to the right, y is 0 at the front axle and grows to the rear; the
front is up.
"""

import msgspec

from studio.graphics.frame import Box
from studio.graphics.parts.tread_above import TreadView
from studio.graphics.scene import Point
from studio.model.places import Place

_SKIN_MM = 25.0  # the body stands this far outside the tires
_FRONT_SHARE, _REAR_SHARE = 0.335, 0.375  # overhangs as shares of the wheelbase
MIRROR_MM = 105.0
_SPARE_GAP_MM = 130.0


class TirePlan(msgspec.Struct, frozen=True, kw_only=True):
    """One tire on the plan: where it stands, its section width and overall diameter in mm, what its tread shows."""

    place: Place
    width_mm: float
    diameter_mm: float
    view: TreadView = TreadView()


class CarPlan(msgspec.Struct, frozen=True, kw_only=True):
    """The car's measures in mm and its tires; a spare is drawn behind the car."""

    wheelbase_mm: float
    front_track_mm: float
    rear_track_mm: float
    tires: tuple[TirePlan, ...]

    @property
    def half_width(self) -> float:
        """Half of the body's width."""
        reach = max(self._outer("front", self.front_track_mm), self._outer("rear", self.rear_track_mm))
        return reach + _SKIN_MM

    def _outer(self, axle: str, track: float) -> float:
        widths = [tire.width_mm for tire in self.tires if tire.place.startswith(axle)]
        return track / 2 + max(widths, default=205.0) / 2

    @property
    def nose(self) -> float:
        """The front end's y."""
        return -_FRONT_SHARE * self.wheelbase_mm

    @property
    def tail(self) -> float:
        """The rear end's y."""
        return (1 + _REAR_SHARE) * self.wheelbase_mm

    @property
    def spare(self) -> TirePlan | None:
        """The tire in the spare's place."""
        return next((tire for tire in self.tires if tire.place == "spare"), None)

    @property
    def end(self) -> float:
        """The y at which the drawing ends: the tail, or the spare behind it."""
        return self.tail + (_SPARE_GAP_MM + self.spare.width_mm if self.spare else 0.0)

    def center_mm(self, tire: TirePlan) -> Point:
        """Where the tire's middle lies."""
        if tire.place == "spare":
            return (0.0, self.tail + _SPARE_GAP_MM + tire.width_mm / 2)
        side = -1 if tire.place.endswith("left") else 1
        if tire.place.startswith("front"):
            return (side * self.front_track_mm / 2, 0.0)
        return (side * self.rear_track_mm / 2, self.wheelbase_mm)


class PlacedCar(msgspec.Struct, frozen=True, kw_only=True):
    """A plan on a picture: px per mm, and where its origin (middle of the front axle) lies."""

    plan: CarPlan
    scale: float
    origin: Point

    def at(self, x_mm: float, y_mm: float) -> Point:
        """A point of the plan in px."""
        return (self.origin[0] + x_mm * self.scale, self.origin[1] + y_mm * self.scale)

    def tire(self, place: Place) -> Box | None:
        """The box of the tire at ``place`` in px; None where none stands."""
        for tire in self.plan.tires:
            if tire.place == place:
                wide, high = tire.width_mm * self.scale, tire.diameter_mm * self.scale
                wide, high = (high, wide) if place == "spare" else (wide, high)
                x, y = self.at(*self.plan.center_mm(tire))
                return Box(x - wide / 2, y - high / 2, wide, high)
        return None

    @property
    def body(self) -> Box:
        """The box of the body in px, mirrors left out."""
        left, top = self.at(-self.plan.half_width, self.plan.nose)
        return Box(left, top, 2 * self.plan.half_width * self.scale, (self.plan.tail - self.plan.nose) * self.scale)

    @property
    def all(self) -> Box:
        """The box of everything drawn, mirrors and spare included."""
        body, mirror = self.body, MIRROR_MM * self.scale
        high = (self.plan.end - self.plan.nose) * self.scale
        return Box(body.left - mirror, body.top, body.width + 2 * mirror, high)


def place_car(plan: CarPlan, box: Box) -> PlacedCar:
    """The car as large as ``box`` allows, in its middle."""
    wide, high = 2 * (plan.half_width + MIRROR_MM), plan.end - plan.nose
    scale = min(box.width / wide, box.height / high)
    x, y = box.center
    return PlacedCar(plan=plan, scale=scale, origin=(x, y - high * scale / 2 - plan.nose * scale))
