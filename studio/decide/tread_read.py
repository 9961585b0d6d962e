"""One tire's tread, read and judged: what the finding, its words and its what-ifs are made from."""

import msgspec

from studio.decide import age
from studio.decide.audience import Audience
from studio.decide.condition_read import Part as ConditionPart
from studio.decide.damage import Seen
from studio.decide.gauge import Doubt
from studio.decide.measured import Measured
from studio.decide.objections import Objection
from studio.decide.subjects import Subject
from studio.decide.tread_limits import Judgement, Marks
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Quantity, depth
from studio.model.source import Source
from studio.model.specimen import Season


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the tread left of one tire depends on."""

    audience: Audience
    subject: Subject
    tread: Measured | None
    damage: tuple[Seen, ...]
    also_seen: tuple[str, ...]
    """Other damage, in words with its day: no verdict of this topic, but never passed over."""
    season: Season
    marking: str
    depth_new: Quantity | None
    age: age.Part
    condition: ConditionPart | None


class Read(msgspec.Struct, frozen=True, kw_only=True):
    """What the part gives once read: the governing depth in the unit of the law, its doubt, its verdict."""

    part: Part
    tread: Measured
    marks: Marks
    doubt: Doubt
    depth: Quantity
    judged: Judgement
    temporary: bool
    bar: Quantity
    """How high the wear bars in the grooves are molded."""
    bar_source: Source
    objections: tuple[Objection, ...]
    """What other topics hold against the tire, the gravest first."""

    @property
    def legal(self) -> Quantity:
        """The legal minimum."""
        return self.marks.legal.depth

    @property
    def above(self) -> Quantity:
        """How far the governing depth is above the legal minimum."""
        return depth(self.depth.value - self.legal.value, self.legal.unit)

    @property
    def depth_mm(self) -> float:
        """The governing depth in mm."""
        return self.depth.to("mm").value

    @property
    def usable_left(self) -> Quantity:
        """Usable tread left: (now - limit) / (new - limit), never below 0. Only where the depth when new is known."""
        new = self.depth_new or self.depth
        return Quantity(100 * max(0.0, self.above.value / (new.value - self.legal.value)), "%")

    @property
    def full_depth_share(self) -> Quantity:
        """Share of full depth: now / new. Only where the depth when new is known."""
        new = self.depth_new or self.depth
        return Quantity(100 * self.depth.value / new.value, "%")

    @property
    def depth_new(self) -> Quantity | None:
        """The depth when new in the unit of the law; None where unknown or not above the law."""
        new = self.part.depth_new.to(self.legal.unit) if self.part.depth_new else None
        return new if new and new.value > self.legal.value else None

    @property
    def verdict(self) -> Verdict:
        """The gravest of the verdict on the tread and of what other topics hold against the tire."""
        return max((self.judged.verdict, *(it.verdict for it in self.objections)), key=SEVERITY.index)

    @property
    def objection(self) -> Objection | None:
        """What weighs more than the tread; None where the tread alone decides."""
        gravest = next(iter(self.objections), None)
        weighs = gravest is not None and SEVERITY.index(gravest.verdict) > SEVERITY.index(self.judged.verdict)
        return gravest if weighs else None
