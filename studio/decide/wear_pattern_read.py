"""One tire's wear across the tread and round the tire, judged: what the finding and its words are made from."""

import math
import statistics
from collections import Counter
from collections.abc import Iterator
from typing import Literal

import msgspec

from studio.decide.audience import Audience
from studio.decide.gauge import Doubt, doubt
from studio.decide.measured import Measured
from studio.decide.subjects import Subject
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Quantity, depth
from studio.reference.rows import WearPattern
from studio.reference.tables import Tables
from studio.tires.profile import Across, Round, across, around, even_out, level

Direction = Literal["across", "round"]
_SAME_MM = 1e-9


class Pressure(msgspec.Struct, frozen=True, kw_only=True):
    """A cold pressure that was read, and the placard's, with the paths to both."""

    read: Quantity
    placard: Quantity
    paths: tuple[str, str]


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that the wear pattern of one tire depends on; ``history`` is every reading with a depth, oldest first."""

    audience: Audience
    subject: Subject
    history: tuple[Measured, ...]
    depth_new: Quantity | None
    pressure: Pressure | None


class Limits(msgspec.Struct, frozen=True, kw_only=True):
    """From which difference on wear is reported and urgent, and the doubt of a difference, in mm.

    From ``from_mm`` on a difference may be one to report: it is clear of nothing at all, and of the limit it is not.
    """

    report: Quantity
    urgent: Quantity
    doubt_mm: float
    report_mm: float
    urgent_mm: float
    from_mm: float

    def unsure(self, amount_mm: float) -> bool:
        """Whether the gauge cannot tell on which side of the reported difference an amount is."""
        return self.from_mm + _SAME_MM < amount_mm <= self.report_mm + self.doubt_mm + _SAME_MM

    def verdict(self, amount_mm: float, row: WearPattern) -> Verdict:
        """The verdict on one pattern of that amount."""
        if amount_mm <= self.from_mm + _SAME_MM:
            return "keep"
        if amount_mm < self.report_mm - _SAME_MM:
            return "watch"
        urgent: Verdict = "inspect" if amount_mm >= self.urgent_mm - _SAME_MM else "watch"
        return max(row.verdict, urgent, key=SEVERITY.index)


class Uneven(msgspec.Struct, frozen=True, kw_only=True):
    """One unevenness: the pattern nearest to it, by how much, and where it is low (grooves; one place where round)."""

    row: WearPattern
    direction: Direction
    amount_mm: float
    grooves: tuple[int, ...]
    station: int | None
    verdict: Verdict


class Wear(msgspec.Struct, frozen=True, kw_only=True):
    """The part read and judged. ``levels`` are the grooves' own in mm, None where a groove was not read."""

    part: Part
    tread: Measured
    doubt: Doubt
    limits: Limits
    levels: tuple[float | None, ...]
    new: tuple[float, ...]
    """The grooves' own depths when new, against which each is held, in mm; empty where they are not known."""
    three: Across | None
    uneven: tuple[Uneven, ...]
    """Every unevenness, whatever its verdict: the gravest first, of equal ones the largest."""

    @property
    def deciding(self) -> Uneven | None:
        """The unevenness that decides; None where nothing can be compared."""
        return self.uneven[0] if self.uneven else None

    @property
    def verdict(self) -> Verdict:
        """The gravest; unknown where the tread was not read across and nothing else is found."""
        verdict = self.uneven[0].verdict if self.uneven else "unknown"
        return "unknown" if verdict == "keep" and self.three is None else verdict

    @property
    def speaks_of_pressure(self) -> bool:
        """Whether a pattern was found that the cold pressure is the first thing to look at for."""
        return any(it.row.id in ("shoulder", "center") and it.verdict != "keep" for it in self.uneven)

    @property
    def unsure(self) -> bool:
        """Whether the deciding difference is too close to call."""
        return self.deciding is not None and self.limits.unsure(self.deciding.amount_mm)


def limits(half_width_mm: float, tables: Tables) -> Limits:
    """The limits of the table, and the doubt of a difference of two readings with one gauge."""
    report, urgent = (depth(tables.measuring[f"uneven_{name}_32nds"].value, "32nds") for name in ("report", "urgent"))
    doubt_mm, report_mm = math.hypot(half_width_mm, half_width_mm), report.to("mm").value
    return Limits(
        report=report, urgent=urgent, doubt_mm=doubt_mm, report_mm=report_mm, urgent_mm=urgent.to("mm").value,
        from_mm=max(doubt_mm, report_mm - doubt_mm),
    )  # fmt: skip


def judge(part: Part, tables: Tables) -> Wear | None:
    """The part read and judged; None without a reading."""
    if not part.history:
        return None
    tread = part.history[-1]
    sure = doubt(tread.reading.gauge, tables)
    held = limits(sure.half_width.to("mm").value, tables)
    return judge_reading(part, tread, sure, held, _new_levels(part, tread, held), tables)


def judge_reading(
    part: Part, tread: Measured, sure: Doubt, held: Limits, new: tuple[float, ...], tables: Tables
) -> Wear:
    """One reading judged, each groove against its own depth in ``new``, where that is known."""
    grid = in_mm(tread)
    levels = tuple(_level(groove, held.from_mm) for groove in grid)
    read = [mm for mm in levels if mm is not None]
    if new:
        read = list(even_out(read, new))
    edges = levels and levels[0] is not None and levels[-1] is not None
    three = across(read) if len(read) > 1 and edges else None
    found = [*_across(levels, read, three, held, tables), *_round(grid, held, tables)]
    found.sort(key=lambda it: (-SEVERITY.index(it.verdict), -it.amount_mm))
    return Wear(
        part=part, tread=tread, doubt=sure, limits=held, levels=levels, new=new, three=three,
        uneven=tuple(found),
    )  # fmt: skip


def in_mm(tread: Measured) -> tuple[tuple[float | None, ...], ...]:
    """The reading's depths in mm."""
    step = tread.depth(1.0).to("mm").value
    return tuple(tuple(None if value is None else value * step for value in groove) for groove in tread.reading.depths)


def _level(groove: tuple[float | None, ...], low_from: float) -> float | None:
    return level(groove, low_from) if any(value is not None for value in groove) else None


def _new_levels(part: Part, tread: Measured, held: Limits) -> tuple[float, ...]:
    """The grooves' own depths when new, where the first reading is of the new tire; empty otherwise."""
    first = part.history[0]
    if first is tread or part.depth_new is None or len(first.reading.depths) != len(tread.reading.depths):
        return ()
    levels = [_level(groove, held.from_mm) for groove in in_mm(first)]
    whole = [mm for mm in levels if mm is not None]
    complete = len(whole) == len(levels) == _grooves_read(tread)
    return tuple(whole) if complete and read_as_new(first, part.depth_new, held.doubt_mm) else ()


def read_as_new(first: Measured, depth_new: Quantity, doubt_mm: float) -> bool:
    """Whether a reading is of the new tire: its deepest groove is as deep as that, as far as the gauge can tell."""
    deepest = max(mean.to("mm").value for _, mean in first.groove_means())
    return depth_new.to("mm").value - deepest <= doubt_mm


def _grooves_read(tread: Measured) -> int:
    return len({spot.groove for spot in tread.spots})


def _across(
    levels: tuple[float | None, ...], read: list[float], three: Across | None, held: Limits, tables: Tables
) -> Iterator[Uneven]:
    if three is None:
        return
    grooves = [groove for groove, mm in enumerate(levels) if mm is not None]
    row = tables.wear_patterns[three.name]
    low = {
        "inner_edge": (grooves[-1],), "outer_edge": (grooves[0],), "shoulder": (grooves[0], grooves[-1]),
        "center": tuple(grooves[1:-1]),
    }[three.name]  # fmt: skip
    named = _uneven(row, "across", three.spread, low, None, held)
    yield named
    usual = statistics.median(read)
    odd = max(range(len(read)), key=lambda i: abs(read[i] - usual))
    if named.verdict == "keep" and abs(read[odd] - usual) > three.spread + _SAME_MM:
        row = tables.wear_patterns["one_groove"]
        yield _uneven(row, "across", abs(read[odd] - usual), (grooves[odd],), None, held)


def _round(grid: tuple[tuple[float | None, ...], ...], held: Limits, tables: Tables) -> Iterator[Uneven]:
    """The groove with the largest drop round the tire, under the name that all grooves together give it."""
    found = {groove: its for groove, row in enumerate(grid) if (its := around(row, held.from_mm))}
    if not found:
        return
    worst = max(found, key=lambda groove: found[groove].drop)
    low_from = found[worst].drop - held.doubt_mm  # as low as the lowest, as far as the gauge can tell
    if low_from > held.from_mm:
        found = {groove: its for groove in found if (its := around(grid[groove], low_from))}
    name, place = _round_name(found)
    station = found[worst].lowest if place is None else place
    yield _uneven(tables.wear_patterns[name], "round", found[worst].drop, (worst,), station, held)


def _round_name(found: dict[int, Round]) -> tuple[str, int | None]:
    """Two low stretches: cupping. One that most grooves share: a flat spot, and its place. Else: one low place."""
    if any(its.stretches > 1 for its in found.values()):
        return "cupping", None
    sharing = Counter(place for its in found.values() for place in its.low)
    place, grooves = min(sharing.items(), key=lambda pair: (-pair[1], pair[0]), default=(None, 0))
    return ("flat_spot", place) if len(found) > 1 and 2 * grooves > len(found) else ("worn_spot", None)


def _uneven(
    row: WearPattern, direction: Direction, amount_mm: float, grooves: tuple[int, ...], station: int | None,
    held: Limits,
) -> Uneven:  # fmt: skip
    return Uneven(
        row=row, direction=direction, amount_mm=amount_mm, grooves=grooves, station=station,
        verdict=held.verdict(amount_mm, row),
    )  # fmt: skip
