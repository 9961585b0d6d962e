"""The depths that a tire's tread is held against, and the verdict that follows: law first, then advice.

Pure numbers in millimeters; the episode's words come from ``tread_left``.
"""

import datetime as dt

import msgspec

from studio.model.finding import Verdict
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.model.specimen import Season
from studio.reference.rows import TreadAdvice
from studio.reference.tables import Tables
from studio.tires.yearly import within

ANY_TIRE = "winter_minimum_any_tire"
WINTERLY: tuple[Season, ...] = ("winter", "studded")
_SAME_MM = 1e-9
"""Two depths closer than this are one: room for the rounding of binary fractions, nothing a gauge could see."""


class Mark(msgspec.Struct, frozen=True, kw_only=True):
    """One depth that the tread is held against.

    ``words`` name it within a sentence (``Austria's winter minimum``), ``label`` beside a number (``winter minimum,
    Austria``); ``law`` tells it from advice, ``in_force`` a law of the season that holds on the day; ``whose`` is the
    region whose law it is.
    """

    name: str
    words: str
    label: str
    depth: Quantity
    law: bool
    whose: str = ""
    in_force: bool = False
    condition: str = ""
    source: Source

    @property
    def brief(self) -> str:
        """The label as it stands beside a line in a picture, without its article."""
        return self.label.removeprefix("the ")

    @property
    def mm(self) -> float:
        """The depth in mm."""
        return self.depth.to("mm").value

    def stands_above(self, depth_mm: float) -> bool:
        """Whether the depth stays under the mark."""
        return depth_mm < self.mm - _SAME_MM

    def near(self, depth_mm: float, doubt_mm: float) -> bool:
        """Whether a reading with this doubt cannot be told from the mark."""
        return abs(depth_mm - self.mm) <= doubt_mm + _SAME_MM


class Marks(msgspec.Struct, frozen=True, kw_only=True):
    """The legal minimum, and what else the tread is held against, the gravest first."""

    legal: Mark
    others: tuple[Mark, ...] = ()

    @property
    def of_the_day(self) -> bool:
        """Whether a law of the season holds on the day."""
        return self.legal.in_force or any(mark.in_force for mark in self.others)

    def named(self, name: str) -> Mark | None:
        """The mark of that name, such as ``wet_advice``."""
        return next((mark for mark in self.others if mark.name == name), None)

    def not_cleared(self, depth_mm: float, doubt_mm: float) -> Mark | None:
        """The gravest of the others that the depth is under or cannot be told from: law first, then what is clear."""
        found = [it for it in self.others if it.stands_above(depth_mm) or it.near(depth_mm, doubt_mm)]
        return min(found, key=lambda mark: (not mark.law, mark.near(depth_mm, doubt_mm)), default=None)


class Judgement(msgspec.Struct, frozen=True, kw_only=True):
    """The verdict on a depth; ``close`` where the gauge cannot tell on which side of the law it is.

    ``under`` is the gravest other mark that the depth does not clear; ``unsure`` where the gauge cannot tell whether it
    is under that one.
    """

    verdict: Verdict
    close: bool = False
    under: Mark | None = None
    unsure: bool = False


def judge(depth_mm: float, doubt_mm: float, marks: Marks) -> Judgement:
    """At or under the law: replace. Above it by no more than the doubt: inspect. Not clear of another mark: watch.

    A law of the season that holds on the day weighs as the law all year does.
    """
    margin = depth_mm - marks.legal.mm
    close = abs(margin) <= doubt_mm + _SAME_MM
    if margin <= _SAME_MM:
        return Judgement(verdict="replace", close=close)
    seasonal = next((it for it in marks.others if it.in_force), None)
    if seasonal is not None and seasonal.stands_above(depth_mm):
        return Judgement(verdict="replace", close=seasonal.near(depth_mm, doubt_mm), under=seasonal)
    if close or (seasonal is not None and seasonal.near(depth_mm, doubt_mm)):
        return Judgement(verdict="inspect", close=True)
    under = marks.not_cleared(depth_mm, doubt_mm)
    unsure = under is not None and under.near(depth_mm, doubt_mm)
    return Judgement(verdict="watch" if under else "keep", under=under, unsure=unsure)


def marks_for(
    region: str, season: Season, construction: str, temporary: bool, tables: Tables, on: dt.date | None = None
) -> Marks | None:
    """What a tire is held against in a region; None where no legal minimum is known.

    With a day, a law of the season that binds any tire and holds on that day is the legal minimum. A temporary spare is
    held against the law alone: the advice is for tires that are driven on in all weathers.
    """
    row = tables.legal_minimum(region, construction=construction) if region in tables.regions else None
    if row is None:
        return None
    legal = Mark(
        name="legal_minimum", words="the legal minimum", label=f"legal minimum, {tables.regions[region].name}",
        depth=row.depth, law=True, whose=tables.regions[region].name,
        condition=_condition(row.applies_to, row.condition), source=row.source,
    )  # fmt: skip
    winter = _winter_law(region, season, construction, legal, tables, on)
    if winter is not None and winter.in_force and winter.name == ANY_TIRE:
        legal, winter = msgspec.structs.replace(winter, name="legal_minimum", words="the legal minimum"), None
    if temporary:
        return Marks(legal=legal)
    found = (winter, _wet(region, season, tables),
             _winter_advice(region, season, tables))  # fmt: skip
    return Marks(legal=legal, others=tuple(mark for mark in found if mark))


def _winter_law(
    region: str, season: Season, construction: str, legal: Mark, tables: Tables, on: dt.date | None
) -> Mark | None:
    """The winter minimum of any tire, or of those that go through a winter, where it asks for more than the rest."""
    row = tables.legal_minimum(region, "winter", construction=construction)
    if row is None or row.depth.to("mm").value <= legal.mm + _SAME_MM:
        return None
    if season == "summer" and row.binds != "any tire":
        return None
    name = tables.regions[row.region].name
    period = f"{row.since} to {row.until}" if row.since != row.until else row.since
    return Mark(
        name=ANY_TIRE if row.binds == "any tire" else "winter_minimum", words=f"{name}'s winter minimum",
        in_force=on is not None and within(on, row.starts, row.ends), label=f"winter minimum, {name}", depth=row.depth,
        law=True, condition=_condition(period, row.condition), source=row.source,
    )  # fmt: skip


def _wet(region: str, season: Season, tables: Tables) -> Mark | None:
    """The advice for wet roads; a summer tire has advice of its own where the region gives one."""
    row = tables.advised_depth(region, "summer") if season == "summer" else None
    row = row or tables.advised_depth(region, "wet")
    if row is None:
        return None
    label = "summer-tire advice" if row.season == "summer" else "wet-road advice"
    return _advice("wet_advice", label, row)


def _winter_advice(region: str, season: Season, tables: Tables) -> Mark | None:
    row = tables.advised_depth(region, "winter") if season in WINTERLY else None
    if row is None:
        return None
    return _advice("winter_advice", "winter-tire advice", row)


def _advice(name: str, label: str, row: TreadAdvice) -> Mark:
    return Mark(
        name=name, words=f"the {label}", label=label, depth=row.depth, law=False, condition=row.wording,
        source=row.source,
    )  # fmt: skip


def _condition(*parts: str) -> str:
    return "; ".join(part for part in parts if part)
