"""The set of comments of our own invention, and how an answer is held against what is expected of it.

Kinds and readings were written by hand beside each comment; numbers come from the formulas of the published sources
(49 CFR 574.5, NASA TN D-2056, the gas law, UN R30 tables, plain geometry), computed apart from the code under test.
"""

import csv
import datetime as dt
import json
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from studio.model.quantity import Quantity
from studio.questions.answer_values import Answer
from studio.questions.answering import answer
from studio.questions.facts import Fact
from studio.reference.tables import load_tables

ON = dt.date(2026, 3, 1)
FILE = Path(__file__).parent / "data" / "comments.csv"
_FIELDS = {
    "depth": "d",
    "depth_new": "e",
    "depth_before": "e",
    "difference": "diff",
    "pressure": "p",
    "pressure_before": "p",
    "placard_pressure": "p",
    "pressure_change": "p",
    "temperature": "t",
    "distance": "dist",
    "odometer": "dist",
    "rotation_interval": "dist",
    "size": "size",
    "service": "svc",
    "date_code": "dot",
    "drivetrain": "drive",
    "damage": "dmg",
    "zone": "zone",
    "season": "season",
    "tread": "tread",
    "load": "load",
}
_UNITS = {"degC": "C", "degF": "F"}
SAME = 1e-6


@dataclass(frozen=True)
class Case:
    """One comment with what is expected of its answer; ``readings`` None where nothing is asked of them."""

    id: str
    half: str
    level: str
    kind: str
    text: str
    readings: frozenset[str] | None
    numbers: Mapping[str, Any]
    also: str
    missing: str


def cases(half: str = "") -> list[Case]:
    """The comments of one half, or all."""
    with FILE.open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if half in ("", row["half"])]
    return [
        Case(
            id=row["id"],
            half=row["half"],
            level=row["level"],
            kind=row["kind"],
            text=row["text"],
            also=row["also"],
            readings=None if row["readings"] == "-" else frozenset(row["readings"].split()),
            missing=row["missing"],
            numbers=json.loads(row["numbers"]) if row["numbers"] else {},
        )
        for row in rows
    ]


def answered(case: Case) -> Answer:
    return answer(case.text, tables=load_tables(), on=ON)


def readings(found: Answer) -> frozenset[str]:
    """What was read, in the set's own short form."""
    return frozenset(_short(fact) for fact in found.read if fact.field in _FIELDS)


def _short(fact: Fact) -> str:
    name = _FIELDS[fact.field]
    if isinstance(fact.value, str):
        return f"{name}={fact.value.replace(' ', '_')}"
    value: Quantity = fact.value
    if value.unit == "32nds":
        return f"{name}={value.value:g}/32"
    return (
        f"{name}={value.value:g}{_UNITS.get(value.unit, value.unit)}"
        if value.value < 1e5
        else f"{name}={value.value:.0f}{value.unit}"
    )


def reading_score(case: Case, found: Answer) -> tuple[int, int]:
    """(right readings, all that were expected or read)."""
    if case.readings is None:
        return 0, 0
    wanted = {re.sub(r"=(\d+)e\+(\d+)", r"=\1", it) for it in case.readings}
    got = readings(found)
    return len(wanted & got), len(wanted | got)


def wrong_numbers(case: Case, found: Answer) -> list[str]:
    """Numbers that were stated and are not what is expected; a number that is not stated is not wrong but missing."""
    wrong = []
    for key, value in case.numbers.items():
        got = found.numbers.get(key)
        if got is None:
            continue
        if value is None or not _same(got, value):
            wrong.append(f"{key}: {got} instead of {value}")
    return wrong


def lacking_numbers(case: Case, found: Answer) -> list[str]:
    """Numbers that were expected and not stated."""
    return [key for key, value in case.numbers.items() if value is not None and found.numbers.get(key) is None]


def _same(got: object, value: object) -> bool:
    if isinstance(value, list):
        return isinstance(got, tuple) and list(got) == value
    return isinstance(got, (int, float)) and math.isclose(got, float(str(value)), rel_tol=SAME, abs_tol=SAME)
