"""How sure a reading is: half the gauge's step, and how well a hand repeats itself."""

import msgspec

from studio.decide.audience import Audience
from studio.model.finding import Step, summed
from studio.model.quantity import Quantity, depth, format_number
from studio.model.source import Source
from studio.model.specimen import Gauge
from studio.reference.tables import Tables

_REPEATABILITY, _USUAL, _SHARE = "repeatability_mm", "gauge_step_mm", "reading_share_of_step"
_HAIR = 1e-6


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

    def working(self, audience: Audience) -> Step:
        """The line of working that gives the half width."""
        step, hand = depth(self.half_step_mm, "mm"), depth(self.by_hand_mm, "mm")
        return summed(
            "Gauge", f"half a step {fine(step, audience)} + {fine(hand, audience)} by hand = "
            f"±{fine(self.half_width, audience)}",
        )  # fmt: skip

    def finest_step_mm(self, margin_mm: float) -> float | None:
        """The gauge step with which a margin would be clear; None where the hand alone blurs it."""
        step = 2 * (margin_mm - self.by_hand_mm)
        return step if step > 0 else None


def fine(quantity: Quantity, audience: Audience) -> str:
    """A small depth in both units with one more digit than a gauge shows, as a doubt is smaller than a step."""
    mm = f"{format_number(quantity.to('mm').value, 2)} mm"
    inch = f"{format_number(quantity.to('32nds').value, 2)}/32 in"
    return f"{inch} ({mm})" if audience.units == "us" else f"{mm} ({inch})"


def finer_than_read(read: Quantity, gauge: Gauge, tables: Tables) -> str:
    """Says that a depth is given finer than the gauge can be read; empty where it is not.

    The gauge's step counts for what is read in its unit; in another unit, that of the usual gauge. Finer is what is
    no whole number of the least part of the step, and has digits below it: 3.3/32 from a gauge that shows 1/32.
    """
    row = tables.measuring[_SHARE]
    step = gauge.resolution if gauge.resolution.unit == read.unit else depth(tables.measuring[_USUAL].value, "mm")
    least = row.value * step.to(read.unit).value
    last_digit = 10.0 ** -len(read.digits().partition(".")[2].rstrip("0"))
    parts = read.value / least if least > 0 else 0.0
    if least <= 0 or last_digit >= least - _HAIR or abs(parts - round(parts)) < _HAIR:
        return ""
    return f"{entered(read)} is finer than a gauge with a step of {step.text()} can be read"


def entered(read: Quantity) -> str:
    """A depth with all its digits."""
    return f"{read.digits()}/32 in" if read.unit == "32nds" else f"{read.digits()} {read.unit}"


def doubt(gauge: Gauge, tables: Tables) -> Doubt:
    """How sure a reading with this gauge is; a step below 0 counts as none."""
    row = tables.measuring[_REPEATABILITY]
    return Doubt(
        half_step_mm=max(gauge.resolution.to("mm").value, 0.0) / 2, by_hand_mm=row.value, source=row.source
    )
