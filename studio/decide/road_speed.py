"""The speed for which a finding computes: the episode's own, else a usual one of the region, said to be assumed."""

import msgspec

from studio.decide.audience import Audience
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.tables import Tables

PATH = "circumstances.speed"


class RoadSpeed(msgspec.Struct, frozen=True, kw_only=True):
    """A speed; ``assumed`` has the source of the one taken where the episode gives none, and is None otherwise."""

    speed: Quantity
    assumed: Source | None

    @property
    def kmh(self) -> float:
        """The speed in km/h."""
        return self.speed.to("km/h").value

    @property
    def inputs(self) -> tuple[str, ...]:
        """The path to it, where the episode gives it."""
        return () if self.assumed else (PATH,)

    @property
    def sources(self) -> tuple[Source, ...]:
        """Whose assumption it is, where it is one."""
        return (self.assumed,) if self.assumed else ()

    def working(self, audience: Audience) -> str:
        """The line of working that says which speed."""
        return f"{'Assumed speed' if self.assumed else 'Speed'}: {audience.both(self.speed)}"


def road_speed(given: Quantity | None, audience: Audience, tables: Tables) -> RoadSpeed:
    """The speed given, else the usual round one in the units of the region, so that no verdict hangs on the units."""
    if given is not None and given.value > 0:
        return RoadSpeed(speed=given, assumed=None)
    region = tables.regions.get(audience.region)
    if region is not None and region.units == "us":
        row = tables.assumed["speed_us_mph"]
        return RoadSpeed(speed=Quantity(row.value, "mph"), assumed=row.source)
    row = tables.assumed["speed_metric_kmh"]
    return RoadSpeed(speed=Quantity(row.value, "km/h"), assumed=row.source)
