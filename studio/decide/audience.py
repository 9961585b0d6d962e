"""For whom the findings speak: the units they think in, the region whose rules hold."""

import msgspec

from studio.model.episode import Episode
from studio.model.quantity import Quantity, System
from studio.model.source import Source
from studio.reference.tables import Tables

UNKNOWN_REGION = "a region whose rules are known, such as us, de or ca-qc"


class Audience(msgspec.Struct, frozen=True, kw_only=True, cache_hash=True):
    """Units and region of the episode. Verdicts depend on the region, never on the units."""

    units: System
    region: str

    @classmethod
    def of(cls, episode: Episode) -> "Audience":
        """The audience of an episode."""
        return cls(units=episode.units, region=episode.region)

    def both(self, quantity: Quantity) -> str:
        """A quantity in the audience's units, the other in brackets."""
        return quantity.both(self.units)

    def own(self, quantity: Quantity) -> str:
        """A quantity in the audience's units alone."""
        return quantity.in_system(self.units).text()

    def region_name(self, tables: Tables) -> str:
        """The region's name; its code where it is not known."""
        row = tables.regions.get(self.region)
        return row.name if row else self.region


def unique_sources(*sources: Source) -> tuple[Source, ...]:
    """The sources in order, each once."""
    return tuple(dict.fromkeys(sources))
