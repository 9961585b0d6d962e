"""One comparison, read and judged: what the finding on an axle or the set, and its words, are made from."""

from typing import Literal

import msgspec

from studio.decide.alike import Unlike
from studio.decide.audience import Audience
from studio.decide.matching_limits import Held
from studio.decide.matching_tires import Compared, Worn
from studio.model.car import Drivetrain, Tolerance
from studio.model.finding import SEVERITY, Verdict
from studio.model.places import Place
from studio.model.quantity import Quantity

Scope = Literal["axle", "set"]
TITLES = {"front_axle": "Front tires", "rear_axle": "Rear tires", "set": "The tires"}


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the match of one axle or the set depends on."""

    audience: Audience
    name: str
    scope: Scope
    places: tuple[Place, ...]
    tires: tuple[Worn, ...]
    drivetrain: Drivetrain | None
    tolerance: Tolerance | None

    @property
    def title(self) -> str:
        """The tires as a sentence begins with them."""
        return TITLES[self.name]


class Match(msgspec.Struct, frozen=True, kw_only=True):
    """The tires side by side, every limit they are held against, and the one that binds (None: there is none)."""

    part: Part
    compared: Compared
    unlike: Unlike
    held: tuple[Held, ...]
    binding: Held | None
    rotate_from: Quantity | None
    axles_apart: Quantity | None

    @property
    def wants_rotation(self) -> bool:
        """Whether the two axles are so far apart that the trade would rotate sooner, and nothing graver binds."""
        if self.rotate_from is None or self.axles_apart is None:
            return False
        return self.axles_apart.to("mm").value >= self.rotate_from.to("mm").value - 1e-9

    @property
    def verdict(self) -> Verdict | None:
        """The gravest of limits, unlikeness and rotation; None where the tires are held against nothing."""
        found: list[Verdict] = [self.unlike.verdict] if self.unlike.fields else []
        found += [self.binding.verdict] if self.binding else []
        found += ["rotate"] if self.wants_rotation else []
        if not found and self.rotate_from is not None:
            return "keep"
        return max(found, default=None, key=SEVERITY.index)

    @property
    def unlike_rules(self) -> bool:
        """Whether the unlikeness is graver than any limit, so that the sentence must speak of it."""
        binding = SEVERITY.index(self.binding.verdict) if self.binding else -1
        return bool(self.unlike.fields) and SEVERITY.index(self.unlike.verdict) >= binding
