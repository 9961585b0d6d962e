"""One tire's pressure read and held against the placard: what the finding, its words and its what-ifs are made from."""

import datetime as dt
from typing import Literal

import msgspec

from studio.decide.air import Around, State, atmosphere, doubt_of
from studio.decide.audience import Audience
from studio.decide.filled import pressure_doubt
from studio.decide.lamp import Lamp, lamp_for
from studio.decide.pressure_drop import Drop, drop_from
from studio.decide.ruled_out import RuledOut
from studio.decide.subjects import Subject
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import Quantity, UnitName
from studio.model.source import Source
from studio.model.specimen import PressureReading
from studio.reference.tables import Tables

Standing = Literal["right", "under", "over", "low", "warm", "warm_under", "unasked"]
VERDICTS: dict[Standing, Verdict] = {
    "right": "keep", "under": "watch", "over": "watch", "low": "inspect", "warm": "unknown", "warm_under": "watch",
    "unasked": "unknown",
}  # fmt: skip
_SAME = 1e-9


class Taken(msgspec.Struct, frozen=True, kw_only=True):
    """A pressure that was read: when, and the path to it."""

    read: PressureReading
    on: dt.date
    path: str


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """The cold pressure that the tire should have, who asks for it, and the path to it where the episode gives it."""

    pressure: Quantity
    label: str
    path: str = ""
    source: Source | None = None


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one tire's pressure depends on; ``taken`` is what was read of it, oldest first."""

    audience: Audience
    subject: Subject
    spare: bool
    marking: str
    asked: Asked | None
    taken: tuple[Taken, ...]
    around: Around
    dual: bool
    out: RuledOut | None


class Read(msgspec.Struct, frozen=True, kw_only=True):
    """What the part gives once read; numbers are in the unit of the last reading.

    ``now`` is the last reading as a state, where its temperature is known; ``street`` the same air where it is driven,
    where that is another temperature or altitude.
    """

    part: Part
    last: Taken
    now: State | None
    street: State | None
    gauge: float
    doubt: float
    low_share: float
    drop: Drop | None
    lamp: Lamp | None = None

    @property
    def unit(self) -> UnitName:
        """The unit of the last reading."""
        return self.last.read.pressure.unit

    @property
    def held(self) -> Quantity:
        """What was read."""
        return self.last.read.pressure

    @property
    def value(self) -> Quantity:
        """The cold pressure in the street where that is known, else as read."""
        return self.street.pressure if self.street else self.held

    @property
    def judged(self) -> Quantity:
        """What is compared with the placard: the value, but as read where the street is only warmer.

        The placard's figure is for a tire as cold as the day's air: a warm afternoon is no reason to let air out.
        """
        if self.street is None or self.now is None:
            return self.held
        warmer = self.street.kelvin > self.now.kelvin and not self.part.around.climbs
        return self.held if warmer else self.street.pressure

    @property
    def asked(self) -> Quantity | None:
        """The cold pressure asked for, in the unit of the reading."""
        return self.part.asked.pressure.to(self.unit) if self.part.asked else None

    @property
    def above(self) -> float | None:
        """How much it is above what is asked; below 0 where it is under."""
        return self.judged.value - self.asked.value if self.asked else None

    @property
    def standing(self) -> Standing:
        """Where the pressure stands."""
        return standing(self.judged.value, self.held.value, self)

    @property
    def leaks(self) -> bool:
        """Whether more air went than weather and the usual loss explain."""
        return self.drop is not None and self.drop.cause == "leak"

    @property
    def verdict(self) -> Verdict:
        """The verdict on the pressure, never milder than a leak or what rules the tire out."""
        found: list[Verdict] = [verdict_of(self.standing, self.part.spare)]
        found += ["inspect"] if self.leaks else []
        found += [self.part.out.verdict] if self.part.out else []
        ranked = [verdict for verdict in found if verdict != "unknown"]
        return max(ranked, key=SEVERITY.index) if ranked else "unknown"


def verdict_of(standing: Standing, spare: bool) -> Verdict:
    """The verdict on where a pressure stands; a spare that is low was not driven on, so it is only to be filled."""
    return "watch" if spare and standing == "low" else VERDICTS[standing]


def standing(value: float, held: float, its: Read) -> Standing:
    """Where a pressure stands: ``value`` against what is asked; low where neither it nor ``held`` is enough."""
    if its.asked is None:
        return "unasked"
    asked = its.asked.value
    if max(value, held) <= its.low_share * asked + _SAME:
        return "low"
    if not its.last.read.cold:
        return "warm_under" if held < asked - its.gauge - _SAME else "warm"
    if abs(value - asked) <= its.doubt + _SAME:
        return "right"
    return "under" if value < asked else "over"


def read_part(part: Part, tables: Tables) -> Read:
    """The part read, with what the warning lamp must do. It holds at least one reading."""
    its = judge_part(part, tables)
    if part.spare or part.asked is None:
        return its
    lamp = lamp_for(part.marking, part.asked.pressure.to(its.unit), part.dual, part.audience, tables)
    return msgspec.structs.replace(its, lamp=lamp)


def judge_part(part: Part, tables: Tables) -> Read:
    """The part read as far as its verdict needs it, for asking that again with another pressure."""
    last = part.taken[-1]
    unit = last.read.pressure.unit
    gauge = pressure_doubt(tables).half_width.to(unit).value
    now = _state(last.read, part.around, tables) if last.read.cold else None
    street = _street(now, part.around, tables) if now else None
    return Read(
        part=part, last=last, now=now, street=street, gauge=gauge, low_share=tables.pressure["run_low_share"].value,
        doubt=_street_doubt(now, street, gauge, tables) if now and street else gauge,
        drop=_drop(part, now, last.on, tables) if now else None,
    )  # fmt: skip


def _state(read: PressureReading, around: Around, tables: Tables) -> State | None:
    if read.temperature is None:
        return None
    outside = atmosphere(around.filled_at, tables)
    return State(pressure=read.pressure, temperature=read.temperature, atmosphere=outside)


def _street(now: State, around: Around, tables: Tables) -> State | None:
    """The same air where the car is driven; None where nothing says that this is elsewhere."""
    if around.driving_temperature is None and not around.climbs:
        return None
    return now.elsewhere(around.driving_temperature or now.temperature, atmosphere(around.driven_at, tables))


def _street_doubt(now: State, street: State, gauge: float, tables: Tables) -> float:
    change = street.change_for(tables.assumed["tire_temperature_c"].value)
    return doubt_of(gauge * street.kelvin / now.kelvin, change)


def _drop(part: Part, now: State, on: dt.date, tables: Tables) -> Drop | None:
    """Since the reading before, else since the placard's pressure was set at the temperature of filling."""
    for earlier in reversed(part.taken[:-1]):
        base = _state(earlier.read, part.around, tables) if earlier.read.cold else None
        if base is not None and earlier.on < on:
            return drop_from(base, earlier.on, now, on, tables)
    if part.asked is None or part.around.filling_temperature is None:
        return None
    set_to = State(
        pressure=part.asked.pressure, temperature=part.around.filling_temperature, atmosphere=now.atmosphere
    )
    return drop_from(set_to, None, now, on, tables)
