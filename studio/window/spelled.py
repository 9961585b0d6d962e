"""What is typed from a sidewall, spelled out while it is typed: the marking, the date code."""

import datetime as dt
from dataclasses import dataclass

from studio.decide.wording import day_words
from studio.reference.tables import Tables
from studio.tires.datecode import DateCode, parse_date_code
from studio.tires.designation import MarkingError, parse_marking, spell_out


@dataclass(frozen=True)
class Spelled:
    """A text spelled out in lines, or what speaks against it."""

    lines: tuple[tuple[str, str], ...] = ()
    """What is written, what it means."""
    problem: str = ""
    remark: str = ""


def spell_marking(text: str, tables: Tables) -> Spelled:
    """A sidewall marking, field by field in its own order; nothing for an empty text."""
    if not text.strip():
        return Spelled()
    try:
        marking = parse_marking(text)
    except MarkingError as error:
        return Spelled(problem=str(error))
    fields = spell_out(marking, load_kg=tables.load_kg, speed_kmh=tables.speed_kmh)
    return Spelled(tuple((field.text, field.meaning) for field in fields), remark="; ".join(marking.assumed))


def spell_date_code(text: str, on: dt.date) -> Spelled:
    """A date code: the week of manufacture and what it is in days; nothing for an empty text."""
    if not text.strip():
        return Spelled()
    try:
        code = parse_date_code(text, on)
    except ValueError as error:
        return Spelled(problem=str(error))
    return Spelled(((code.digits, _week_words(code)),), remark=code.remark)


def _week_words(code: DateCode) -> str:
    return f"made in week {code.week} of {code.year}: {day_words(code.first_day)} to {day_words(code.last_day)}"
