"""What surrounds the car: prices, weather and road, other sizes that are wished for."""

from typing import Annotated

import msgspec

from studio.model.car import ShortText
from studio.model.quantity import Quantity

Price = Annotated[float, msgspec.Meta(ge=0, le=1_000_000)]
Sizes = Annotated[tuple[ShortText, ...], msgspec.Meta(max_length=20)]
Currency = Annotated[str, msgspec.Meta(pattern=r"^[A-Z]{3}\Z")]


class Prices(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The presenter's own prices, each for one tire, in ``currency`` (three letters, ISO 4217)."""

    currency: Currency = "USD"
    new_tire: Price | None = None
    used_tire: Price | None = None
    used_tire_depth: Quantity | None = None
    mounting: Price | None = None
    shaving: Price | None = None


class Circumstances(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Weather, road and driving for which the episode computes; None where the presenter gave nothing."""

    filling_temperature: Quantity | None = None
    driving_temperature: Quantity | None = None
    filling_altitude: Quantity | None = None
    driving_altitude: Quantity | None = None
    speed: Quantity | None = None
    water_depth: Quantity | None = None
    texture_depth: Quantity | None = None
    rain: Quantity | None = None
    drainage_length: Quantity | None = None
    road_slope: Quantity | None = None
    yearly_distance: Quantity | None = None
    sizes_wished: Sizes = ()
