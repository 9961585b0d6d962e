"""What is typed from a sidewall, spelled out while it is typed: the marking, the date code."""

import datetime as dt
from dataclasses import dataclass

from studio.decide.wording import day_words
from studio.model.quantity import Quantity, System
from studio.reference.tables import Tables
from studio.tires.datecode import DateCode, parse_date_code
from studio.tires.designation import Marking, MarkingError, parse_marking, spell_out


@dataclass(frozen=True)
class Spelled:
    """A text spelled out in lines, or what speaks against it."""

    lines: tuple[tuple[str, str], ...] = ()
    """What is written, what it means."""
    short: str = ""
    """All of it on one line."""
    problem: str = ""
    remark: str = ""


def spell_marking(text: str, tables: Tables, first: System) -> Spelled:
    """A sidewall marking, field by field in its own order; nothing for an empty text.

    ``first`` is the unit system that comes first on the short line.
    """
    if not text.strip():
        return Spelled()
    try:
        marking = parse_marking(text)
    except MarkingError as error:
        return Spelled(problem=str(error))
    fields = spell_out(marking, load_kg=tables.load_kg, speed_kmh=tables.speed_kmh)
    lines = tuple((field.text, field.meaning) for field in fields)
    return Spelled(lines, short=_service_words(marking, tables, first), remark="; ".join(marking.assumed))


def spell_date_code(text: str, on: dt.date) -> Spelled:
    """A date code: the week of manufacture and what it is in days; nothing for an empty text."""
    if not text.strip():
        return Spelled()
    try:
        code = parse_date_code(text, on)
    except ValueError as error:
        return Spelled(problem=str(error))
    week = _week_words(code)
    return Spelled(((code.digits, week),), short=week, remark=code.remark)


def _service_words(marking: Marking, tables: Tables, first: System) -> str:
    """What the service description promises, which is what a viewer asks for."""
    load = tables.load_kg.get(marking.load_index) if marking.load_index is not None else None
    speed = tables.speed_kmh.get(marking.speed_symbol) if marking.speed_symbol else None
    words = [f"{marking.service} tire"]
    words += [f"carries {Quantity(load, 'kg').both(first)} at its reference pressure"] if load else []
    words += [f"up to {Quantity(speed, 'km/h').both(first)}"] if speed and not marking.bracketed else []
    return ", ".join(words) if load or speed else f"{words[0]}, no load index and speed symbol read"


def _week_words(code: DateCode) -> str:
    return f"made in week {code.week} of {code.year}: {day_words(code.first_day)} to {day_words(code.last_day)}"
