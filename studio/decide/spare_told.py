"""The spare, judged: what rules it out, what it holds and carries, whether it matches, what the driveline allows."""

from collections.abc import Iterator

from studio.decide.carried import Carried
from studio.decide.filled import pressure_doubt
from studio.decide.gauge import doubt
from studio.decide.matching_limits import ALL_WHEELS, Held, gravest, hold, limits_for
from studio.decide.matching_tires import Reading, Worn, compared
from studio.decide.sizes import same_size, size_of
from studio.decide.spare_read import Beside, Spare
from studio.decide.swap_rules import swap
from studio.decide.told import Told, gravest_first
from studio.model.quantity import Quantity
from studio.reference.tables import Tables

_WHOSE = {"law": "the legal limit", "maker": "the manual's limit"}


def judged(its: Spare, held: Held | None, tables: Tables) -> tuple[Told, ...]:
    """Every judgement, the gravest first; of equal ones what must be done first. ``held`` is from ``held_tread``."""
    return gravest_first([
        *_out(its), *_pressure(its, tables), *_load(its), *_size(its, tables), *_tread(its, held), *_driveline(its),
    ])  # fmt: skip


def _out(its: Spare) -> Iterator[Told]:
    if out := its.part.out:
        end = "replace it, used or not." if out.verdict == "replace" else "do not drive on it."
        yield Told(about="condition", verdict=out.verdict, sentence=f"Spare {out.words}: {end}", text=out.words)


def _pressure(its: Spare, tables: Tables) -> Iterator[Told]:
    """Low by more than the gauge's doubt: to watch; as low as a warning lamp would have to report it: to be filled."""
    filled, asked = its.part.filled, its.asked
    if filled is None or asked is None:
        return
    own, doubt_kpa = its.part.audience.own, pressure_doubt(tables).kpa
    share = tables.pressure["tpms_us_share"]
    whose = "the placard's" if its.asked_source is None else "the usual"
    low = filled.kpa < asked.to("kPa").value - doubt_kpa
    held = f"holds {own(filled.pressure)}; {whose} is {own(asked)}"
    if not low:
        yield Told(about="pressure", verdict="keep", sentence="", text=held)
    elif filled.kpa <= share.value * asked.to("kPa").value:
        text = f"{held}: {share.value * 100:g} % of it or less, at which a warning lamp would have to light"
        size = f"is {_percent(its.worst)} and " if its.temporary and its.worst else ""
        sentence = f"Spare {size}{held}. Fill it now."
        yield Told(about="pressure", verdict="inspect", sentence=sentence, text=text)
    else:
        yield Told(about="pressure", verdict="watch", sentence=f"Spare {held}. Top it up.", text=held)


def _load(its: Spare) -> Iterator[Told]:
    needed_kg, load = its.share_kg, its.load
    if needed_kg is None or not isinstance(load, Carried):
        return
    both, own = its.part.audience.both, its.part.audience.own
    carries, needed = own(Quantity(load.each_kg, "kg")), own(Quantity(needed_kg, "kg"))
    if load.each_kg >= needed_kg - 1e-6:
        text = f"carries {carries} as filled; its share of the heavier axle's rating is {needed}"
        yield Told(about="load", verdict="keep", sentence="", text=text)
        return
    at, asked = load.pressure_for(needed_kg), its.asked
    enough = at is not None and asked is not None and at.value <= asked.to("kPa").value
    fill = f"Fill it to {own(asked)}." if enough and asked else f"It needs {both(at)}." if at else ""
    end = fill or "It cannot carry that."
    yield Told(about="load", verdict="inspect" if at else "replace",
               sentence=f"Spare carries {carries} as filled; its share of the axle is {needed}. {end}",
               text=f"carries {carries} as filled, under its share of the heavier axle's rating, {needed}")  # fmt: skip


def _size(its: Spare, tables: Tables) -> Iterator[Told]:
    """A full-size spare of another size, by the rules on sizes."""
    worst = its.worst
    if its.temporary or worst is None:
        return
    if its.alike:
        yield Told(about="size", verdict="keep", sentence="", text=f"the same size as {worst.mate.words}")
        for other in its.others:
            apart = f"{_percent(other)} than {other.mate.words}"
            sentence = f"Spare has the {worst.mate.axle} tires' size; it is {apart}: {worst.mate.axle} axle only."
            yield Told(about="axle", verdict="watch", sentence=sentence, text=f"{apart}, which has another size")
        return
    change = swap(worst.size, its.size, tables)
    graver = [reason for reason in change.reasons if reason.verdict != "keep"]
    sizes = f"{its.size.marking.size}; {worst.mate.words} is {worst.size.marking.size}"
    sentence = f"Spare is {sizes}. Have it confirmed before it is needed."
    yield Told(about="size", verdict="inspect", sentence=sentence, text="; ".join(reason.text for reason in graver))


def _tread(its: Spare, held: Held | None) -> Iterator[Told]:
    """A full-size spare of the same size against the limit for unequal tires, as it would stand beside the others."""
    if held is None:
        return
    own, both = its.part.audience.own, its.part.audience.both
    apart, limit = both(held.actual_quantity), own(held.limit.limit)
    whose = _WHOSE.get(held.limit.level, "the usual limit")
    text = f"{apart} apart from the tire it differs most from; {whose} is {limit}"
    if held.verdict == "keep":
        yield Told(about="tread", verdict="keep", sentence="", text=text)
    else:
        sentence = f"Spare is {own(held.actual_quantity)} off the others, {whose} {limit}: a short way only."
        yield Told(about="tread", verdict="inspect", sentence=sentence, text=text, close=held.close)


def held_tread(its: Spare, tables: Tables) -> Held | None:
    """The gravest limit for unequal tires over all tires that were read; None for other sizes or without a reading."""
    part = its.part
    if its.temporary or part.spare is None or (mine := _reading(part.spare, tables)) is None:
        return None
    read = [reading for mate in part.mates if mate.worn and (reading := _reading(mate.worn, tables))]
    others = [other for other in read if other.size and same_size(other.size.marking, its.size.marking)]
    limits = limits_for(part.audience, "axle", part.drivetrain, part.tolerance, tables)
    pairs = (compared((mine, other)) for other in others)
    return gravest(tuple(it for pair in pairs for limit in limits if (it := hold(pair, limit))))


def _percent(beside: Beside) -> str:
    """``5.4 % smaller``."""
    return f"{Quantity(abs(beside.change_percent), '%').text()} {'smaller' if beside.change_percent < 0 else 'larger'}"


def _reading(worn: Worn, tables: Tables) -> Reading | None:
    if worn.tread is None:
        return None
    half_width = doubt(worn.tread.reading.gauge, tables).half_width.to("mm").value
    return Reading(worn=worn, tread=worn.tread, size=size_of(worn.marking, tables), doubt_mm=half_width)


def _driveline(its: Spare) -> Iterator[Told]:
    """A wheel that turns otherwise, on a car that drives all four: the manual decides first."""
    worst = its.worst
    if worst is None or its.part.drivetrain not in ALL_WHEELS or not its.temporary:
        return
    sentence = f"Spare is {_percent(worst)}: on all-wheel drive ask the manual before driving on it."
    yield Told(about="driveline", verdict="watch", sentence=sentence, text="all wheels are driven")
