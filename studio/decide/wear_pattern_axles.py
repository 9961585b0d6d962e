"""One tire lower than its mate, one axle lower than the other: wear apart that the tires have not brought with them.

Tires that are known to have gone on at different times wore over different distances: then nothing is said here, and
``matching`` compares what is left of them.
"""

import math
from collections.abc import Iterator
from statistics import fmean

import msgspec

from studio.decide.audience import Audience, unique_sources
from studio.decide.gauge import doubt, fine
from studio.decide.measured import Measured, history
from studio.decide.subjects import Subject, Tire, tires
from studio.decide.wear_pattern_read import Limits, limits, read_as_new
from studio.decide.wording import on_paper, plain, upper_first
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, Verdict, as_steps
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import MINUS, Quantity, depth
from studio.reference.rows import WearPattern
from studio.reference.tables import Tables


class Mate(msgspec.Struct, frozen=True, kw_only=True):
    """One tire beside another: its last reading, and its first where that shows when it went on."""

    subject: Subject
    tread: Measured
    first: Measured
    depth_new: Quantity | None
    date_code: str
    mean_mm: float

    @property
    def worn_mm(self) -> float | None:
        """What it has lost since it was new."""
        return None if self.depth_new is None else self.depth_new.to("mm").value - self.mean_mm


class AxlePart(msgspec.Struct, frozen=True, kw_only=True):
    """An axle (two tires) or the set (four), whose wear lies apart."""

    audience: Audience
    name: str
    low: tuple[Mate, ...]
    high: tuple[Mate, ...]
    by_wear: bool


def parts(episode: Episode, tables: Tables) -> Iterator[AxlePart]:
    """Those of both axles and the set that wear apart by what is reported, or too close to that to call."""
    mates = {tire.subject.name: mate for tire in tires(episode) if (mate := _mate(tire, episode))}
    sides = {f"{axle}_axle": ((mates.get(one),), (mates.get(other),)) for axle, (one, other) in AXLES.items()}
    groups: dict[str, tuple[tuple[Mate | None, ...], tuple[Mate | None, ...]]] = dict(sides)
    front, rear = (tuple(mates.get(place) for place in AXLES[axle]) for axle in ("front", "rear"))
    groups["set"] = (front, rear)
    for name, (one, other) in groups.items():
        known_one, known_other = _known(one), _known(other)
        if known_one and known_other and not _went_on_apart((*known_one, *known_other), tables):
            part = _part(Audience.of(episode), name, known_one, known_other)
            if verdict(part, tables) != "keep":
                yield part


def _part(audience: Audience, name: str, one: tuple[Mate, ...], other: tuple[Mate, ...]) -> AxlePart:
    by_wear = all(mate.worn_mm is not None for mate in (*one, *other))
    low, high = (one, other) if kept_mm(one, by_wear) <= kept_mm(other, by_wear) else (other, one)
    return AxlePart(audience=audience, name=name, low=low, high=high, by_wear=by_wear)


def kept_mm(side: tuple[Mate, ...], by_wear: bool) -> float:
    """What a side has kept: less its wear where that is known of all, else what is left of it."""
    return fmean(-(mate.worn_mm or 0.0) if by_wear else mate.mean_mm for mate in side)


def _mate(tire: Tire, episode: Episode) -> Mate | None:
    held = history(tire.specimen, tire.subject.path, episode.on) if tire.specimen.place in CORNERS else ()
    if not held:
        return None
    return Mate(
        subject=tire.subject, tread=held[-1], first=held[0], depth_new=tire.specimen.depth_new,
        date_code=tire.specimen.date_code, mean_mm=held[-1].mean().to("mm").value,
    )  # fmt: skip


def _known(side: tuple[Mate | None, ...]) -> tuple[Mate, ...]:
    found = tuple(mate for mate in side if mate is not None)
    return found if len(found) == len(side) else ()


def _went_on_apart(mates: tuple[Mate, ...], tables: Tables) -> bool:
    """Whether first readings of new tires show that they went on at different times."""
    starts = set()
    for mate in mates:
        if mate.depth_new is not None and mate.first is not mate.tread:
            sure = doubt(mate.first.reading.gauge, tables).half_width.to("mm").value
            as_new = read_as_new(mate.first, mate.depth_new, math.hypot(sure, sure))
            starts |= {mate.first.reading.on} if as_new else set()
    return len(starts) > 1


def amount_mm(part: AxlePart) -> float:
    """How much more the low side has worn."""
    return kept_mm(part.high, part.by_wear) - kept_mm(part.low, part.by_wear)


def _limits(part: AxlePart, tables: Tables) -> Limits:
    halves = [doubt(mate.tread.reading.gauge, tables).half_width for mate in (*part.low, *part.high)]
    return limits(max(half.to("mm").value for half in halves), tables)


def pattern(part: AxlePart, tables: Tables) -> WearPattern:
    """The row of the table: side against side, or the axle that is lower."""
    if part.name != "set":
        return tables.wear_patterns["side_difference"]
    front_low = part.low[0].subject.name in AXLES["front"]
    return tables.wear_patterns["axle_difference" if front_low else "axle_difference_rear"]


def verdict(part: AxlePart, tables: Tables) -> Verdict:
    """As on one tire; two axles apart are rotated, however far apart they are."""
    held, row = _limits(part, tables), pattern(part, tables)
    found = held.verdict(amount_mm(part), row)
    return row.verdict if part.name == "set" and found == "inspect" else found


def conclude(part: AxlePart, tables: Tables) -> Finding:
    """The finding on one axle or the set."""
    held, row, limit = _limits(part, tables), pattern(part, tables), tables.measuring["uneven_report_32nds"]
    value = depth(amount_mm(part), "mm").to("32nds")
    mates = (*part.low, *part.high)
    return Finding(
        id=f"wear_pattern.{part.name}", topic="wear_pattern", subject=part.name, sentence=_sentence(part, held, row),
        verdict=verdict(part, tables), value=value.value, unit="32nds", limit=limit.value,
        limit_label=f"reported difference, {limit.source.standing}", margin=limit.value - value.value,
        uncertainty=depth(held.doubt_mm, "mm").to("32nds").value, steps=as_steps(_working(part, held, row)),
        inputs=tuple(path for mate in mates for path in _inputs(mate)),
        sources=unique_sources(limit.source, row.source), warning=tables.cautions["uneven_wear"],
        would_change=_would_change(part, held),
        figures=(Figure(name="difference", label="wear apart", quantity=value),),
        detail=tuple((name, getattr(row, name)) for name in ("id", "name", "cause", "check", "look")),
    )  # fmt: skip


def _inputs(mate: Mate) -> tuple[str, ...]:
    path = mate.subject.path
    new = (f"{path}.depth_new",) if mate.depth_new else ()
    return (f"{mate.tread.path}.depths", f"{mate.tread.path}.gauge.resolution", *new, f"{path}.date_code")


def _words(part: AxlePart, side: tuple[Mate, ...]) -> str:
    if part.name != "set":
        return side[0].subject.words
    return "the front tires" if side[0].subject.name in AXLES["front"] else "the rear tires"


def _sentence(part: AxlePart, held: Limits, row: WearPattern) -> str:
    low, high, amount = _words(part, part.low), _words(part, part.high), depth(amount_mm(part), "mm")
    calls = "Time to rotate." if part.name == "set" else f"Check {row.brief}."
    end = "Too close to call." if held.unsure(amount.value) else calls
    return f"{upper_first(low)} wore {part.audience.both(amount)} more than {high}. {end}"


def _working(part: AxlePart, held: Limits, row: WearPattern) -> tuple[str, ...]:
    kept = [depth(kept_mm(side, part.by_wear), "mm") for side in (part.high, part.low)]
    apart = depth(amount_mm(part), "mm")
    how = "Wear since new" if part.by_wear else "Depths when new are not all known: taken as equal"
    first, second = (kept[1], kept[0]) if part.by_wear else (kept[0], kept[1])
    sum_ = f"{_plain_mm(first)} {MINUS} {_plain_mm(second)} = {on_paper(apart)} ({apart.to('32nds').text()})"
    codes = {plain(mate.date_code) for mate in (*part.low, *part.high) if mate.date_code.strip()}
    apart_made = f"Date codes {', '.join(sorted(codes))}: if they went on apart, that alone explains it"
    return (
        *(f"Mean depth {m.subject.words}: {fine(depth(m.mean_mm, 'mm'), part.audience)}" for m in part.high + part.low),
        f"{how}: {sum_}",
        f"Reported from {part.audience.both(held.report)} (common practice)",
        f"Doubt of a difference, root of the sum of squares: ±{fine(depth(held.doubt_mm, 'mm'), part.audience)}",
        *([apart_made] if len(codes) > 1 else []),
        f"Usual causes: {row.cause}", f"What to check: {row.check}", f"Who must look: {row.look}",
    )  # fmt: skip


def _plain_mm(quantity: Quantity) -> str:
    return on_paper(depth(abs(quantity.value), "mm"))


def _would_change(part: AxlePart, held: Limits) -> tuple[str, ...]:
    less = depth(amount_mm(part) - held.from_mm, "mm")
    return (f"If {_words(part, part.low)} had worn {fine(less, part.audience)} less, nothing would be reported.",)
