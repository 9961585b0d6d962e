"""The car: what its placard, manual and type plate say."""

import datetime as dt
from typing import Annotated, Literal

import msgspec

from studio.model.quantity import Quantity

Name = Annotated[str, msgspec.Meta(max_length=200)]
ShortText = Annotated[str, msgspec.Meta(max_length=100)]
LongText = Annotated[str, msgspec.Meta(max_length=10_000)]

Drivetrain = Literal["front", "rear", "all", "part_time_four"]
Certified = Literal["passenger_car", "mpv", "light_truck"]
Ratio = Annotated[float, msgspec.Meta(gt=0, le=20)]
ToleranceForm = Literal["depth", "circumference", "percent"]


class PlacardTire(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """One line of the placard: the size and its cold pressure."""

    marking: ShortText = ""
    pressure: Quantity | None = None


class Placard(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """The tire placard: front, rear and spare."""

    front: PlacardTire = PlacardTire()
    rear: PlacardTire = PlacardTire()
    spare: PlacardTire = PlacardTire()


class Tolerance(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """How unequal the manual lets the tires of the set be, in the manual's own form.

    ``limit`` is a depth (32nds, mm), a circumference (mm, in) or a percentage of circumference, as ``form`` says.
    """

    form: ToleranceForm
    limit: Quantity


class RotationDone(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """A rotation that was carried out."""

    on: dt.date
    odometer: Quantity | None = None
    pattern: ShortText = ""


class Car(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, cache_hash=True):
    """The episode's car."""

    name: Name = ""
    drivetrain: Drivetrain | None = None
    certified_as: Certified | None = None
    placard: Placard = Placard()
    front_axle_rating: Quantity | None = None
    rear_axle_rating: Quantity | None = None
    wheelbase: Quantity | None = None
    front_track: Quantity | None = None
    rear_track: Quantity | None = None
    wheel_nut_torque: Quantity | None = None
    tolerance: Tolerance | None = None
    rotation_interval: Quantity | None = None
    rotations: tuple[RotationDone, ...] = ()
    front_rim_width: Quantity | None = None
    rear_rim_width: Quantity | None = None
    ground_clearance: Quantity | None = None
    final_drive: Ratio | None = None
    dual_rear_wheels: bool = False
