"""How sure a reading is: half the gauge's step, and how well a hand repeats itself."""

import msgspec

from studio.decide.audience import Audience
from studio.model.quantity import Quantity, depth, format_number
from studio.model.source import Source
from studio.model.specimen import Gauge
from studio.reference.tables import Tables

_REPEATABILITY = "repeatability_mm"


class Doubt(msgspec.Struct, frozen=True, kw_only=True):
    """The half width of a reading, in mm, with its two parts and where the second comes from.

    The two parts are added, not combined by squares: the step bounds the error, and with a handful of readings by one
    hand nothing says that the two cancel.
    """

    half_step_mm: float
    by_hand_mm: float
    source: Source

    @property
    def half_width(self) -> Quantity:
        """Half width of one reading."""
        return depth(self.half_step_mm + self.by_hand_mm, "mm")

    def working(self, audience: Audience) -> str:
        """The line of working that gives the half width."""
        step, hand = depth(self.half_step_mm, "mm"), depth(self.by_hand_mm, "mm")
        return (
            f"Gauge: half a step {fine(step, audience)} + {fine(hand, audience)} by hand = "
            f"±{fine(self.half_width, audience)}"
        )

    def finest_step_mm(self, margin_mm: float) -> float | None:
        """The gauge step with which a margin would be clear; None where the hand alone blurs it."""
        step = 2 * (margin_mm - self.by_hand_mm)
        return step if step > 0 else None


def fine(quantity: Quantity, audience: Audience) -> str:
    """A small depth in both units with one more digit than a gauge shows, as a doubt is smaller than a step."""
    mm = f"{format_number(quantity.to('mm').value, 2)} mm"
    inch = f"{format_number(quantity.to('32nds').value, 2)}/32 in"
    return f"{inch} ({mm})" if audience.units == "us" else f"{mm} ({inch})"


def doubt(gauge: Gauge, tables: Tables) -> Doubt:
    """How sure a reading with this gauge is; a step below 0 counts as none."""
    row = tables.measuring[_REPEATABILITY]
    return Doubt(
        half_step_mm=max(gauge.resolution.to("mm").value, 0.0) / 2, by_hand_mm=row.value, source=row.source
    )
