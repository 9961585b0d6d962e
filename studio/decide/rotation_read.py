"""What a rotation depends on, read: the traits of car and tires, the patterns they leave, and how far it is since."""

import msgspec

from studio.decide.audience import Audience
from studio.decide.barriers import Barrier
from studio.decide.matching_limits import ALL_WHEELS
from studio.decide.matching_tires import Worn
from studio.decide.sizes import same_size, size_of
from studio.model.car import Drivetrain
from studio.model.finding import Verdict
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.rows import RotationRule
from studio.reference.tables import Tables
from studio.tires.rotation import PATTERNS, PatternChoice, choose_patterns

WORDS = {
    "front_to_back": "front to back", "forward_cross": "forward cross", "rearward_cross": "rearward cross",
    "x": "X pattern", "side_to_side": "side to side", "five_wheel_forward_cross": "five-wheel forward cross",
    "five_wheel_rearward_cross": "five-wheel rearward cross",
}  # fmt: skip
_BY_TREAD = {
    "directional": "directional", "asymmetric": "asymmetric", "asymmetric_directional": "asymmetric_directional",
}  # fmt: skip
_BY_BARRIER = {"different_sizes": "staggered", "different_wheels": "different_wheels"}
"""What keeps wheels on their axle; where both do, wheels of two widths go with tires of two sizes."""
Choice = PatternChoice[RotationRule]


class Mileage(msgspec.Struct, frozen=True, kw_only=True):
    """An odometer value with the path to it."""

    odometer: Quantity
    path: str


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the next rotation depends on. ``since`` is the last rotation, ``now`` the latest odometer reading.

    ``held`` bar any rotation, ``kept`` only that wheels change axle; the gravest come first.
    """

    audience: Audience
    corners: tuple[Worn, ...]
    spare: Worn | None
    held: tuple[Barrier, ...]
    kept: tuple[Barrier, ...]
    drivetrain: Drivetrain | None
    interval: Quantity | None
    since: Mileage | None
    since_event: str
    since_day: str
    rotated: bool
    """Whether a rotation is entered; if not, ``since`` is the first reading at the present places."""
    now: Mileage | None

    @property
    def since_words(self) -> str:
        """What happened then and when; empty where it is not known."""
        return f"{self.since_event} on {self.since_day}" if self.since_event else ""


class Due(msgspec.Struct, frozen=True, kw_only=True):
    """The interval that counts, whose it is, and the distance since the last rotation in its unit (None: not known)."""

    interval: Quantity
    label: str
    source: Source
    since: Quantity | None

    @property
    def left(self) -> Quantity | None:
        """What is left of the interval; negative when it is over."""
        if self.since is None:
            return None
        return Quantity(self.interval.value - self.since.value, self.interval.unit)


def traits(part: Part, tables: Tables) -> tuple[str, ...]:
    """What of car and tires bears on the patterns, in the words of the table ``rotation_rule``."""
    treads = {tire.pattern for tire in part.corners}
    found = [trait for tread, trait in _BY_TREAD.items() if tread in treads]
    found += ["studded"] if any(tire.season == "studded" for tire in part.corners) else []
    found += [_BY_BARRIER[it.kind] for it in part.kept if it.kind in _BY_BARRIER][:1]
    return (*found, *_spare_trait(part, tables))


def _spare_trait(part: Part, tables: Tables) -> tuple[str, ...]:
    if part.spare is None:
        return ("no_spare",)
    size = size_of(part.spare.marking, tables)
    if size is not None and size.temporary:
        return ("temporary_spare",)
    return () if all(_matches(part.spare, tire, tables) for tire in part.corners) else ("other_spare",)


def _matches(spare: Worn, tire: Worn, tables: Tables) -> bool:
    one, other = size_of(spare.marking, tables), size_of(tire.marking, tables)
    alike = (spare.season, spare.pattern) == (tire.season, tire.pattern)
    return alike and one is not None and other is not None and same_size(one.marking, other.marking)


def choices(part: Part, binding: tuple[str, ...], tables: Tables) -> tuple[Choice, ...]:
    """Every pattern judged for these traits, best first."""
    order = tables.rotation_order.get(part.drivetrain or "")
    return choose_patterns(binding, tables.rotation_rule, order.patterns if order else ())


def permitted(found: tuple[Choice, ...]) -> tuple[str, ...]:
    """The patterns to choose from, best first: those usual for the drive, any other only where none of them is left."""
    usual = tuple(choice.pattern.id for choice in found if choice.permitted and choice.advised)
    return usual or tuple(choice.pattern.id for choice in found if choice.permitted)


def reasons(part: Part, found: tuple[Choice, ...]) -> dict[str, str]:
    """Why each pattern that is not to be chosen is out."""
    chosen = permitted(found)
    why = {choice.pattern.id: "; ".join(rule.reason for rule in choice.against) for choice in found}
    return {id_: why.get(id_) or _unusual(part) for id_ in PATTERNS if id_ not in chosen}


def briefly(part: Part, found: tuple[Choice, ...]) -> dict[str, str]:
    """The first reason against each pattern that is not to be chosen, in a few words."""
    against = {choice.pattern.id: choice.against for choice in found}
    return {id_: against[id_][0].brief if against.get(id_) else _unusual(part) for id_ in reasons(part, found)}


def _unusual(part: Part) -> str:
    drive = {"front": "front-wheel drive", "rear": "rear-wheel drive"}.get(part.drivetrain or "", "all-wheel drive")
    return f"not the usual pattern for {drive}"


def due(part: Part, tables: Tables) -> Due:
    """The interval that counts: the maker's if entered, else common practice in the region's unit."""
    if part.interval is not None:
        source = Source(
            title="the vehicle's manual", locator="rotation interval, as entered", standing="published, restated"
        )
        return _due(part, part.interval, "interval in the manual", source)
    row = tables.regions.get(part.audience.region)
    rule = tables.rotation_interval["trade_miles" if row is not None and row.units == "us" else "trade_km"]
    at = rule.low if part.drivetrain in ALL_WHEELS else rule.high
    return _due(part, Quantity(at, rule.unit), "common practice", rule.source)


def _due(part: Part, interval: Quantity, label: str, source: Source) -> Due:
    since = None
    if part.now is not None and part.since is not None:
        unit = interval.unit
        since = Quantity(part.now.odometer.to(unit).value - part.since.odometer.to(unit).value, unit)
    return Due(interval=interval, label=label, source=source, since=since if since and since.value >= 0 else None)


class Rotation(msgspec.Struct, frozen=True, kw_only=True):
    """The part read and judged. ``apart`` is how far the mean depths of front and rear are from each other."""

    part: Part
    traits: tuple[str, ...]
    choices: tuple[Choice, ...]
    due: Due
    apart: Quantity | None
    apart_from: Quantity

    @property
    def next(self) -> str:
        """The pattern to use next; empty where every one is out."""
        return next(iter(permitted(self.choices)), "")

    @property
    def far_apart(self) -> bool:
        """Whether front and rear differ so much that the trade rotates sooner."""
        return self.apart is not None and self.apart.to("mm").value >= self.apart_from.to("mm").value - 1e-9

    @property
    def overdue(self) -> bool:
        """Whether the interval is over."""
        return self.due.left is not None and self.due.left.value <= 0

    @property
    def verdict(self) -> Verdict:
        """What the gravest of what bars it calls for; else rotate, keep, or unknown."""
        if self.part.held:
            return self.part.held[0].verdict
        if not self.next:
            return "keep"
        if self.part.drivetrain is None:
            return "unknown"
        if self.overdue or self.far_apart:
            return "rotate"
        return "unknown" if self.due.left is None else "keep"
