"""The facts in one row of a gauge session: dates, quantities, the gauge; each refusal names line and column."""

import datetime as dt
import re
from typing import NoReturn, cast

from studio.model.entry import EntryError, read_quantity
from studio.model.quantity import Kind, Quantity, UnitName
from studio.model.specimen import DepthUnit, Gauge, PressureReading, Reading
from studio.storage.csv_text import RUNS_AS_FORMULA, CsvError, Row, at

_BARE = re.compile(r"[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)")
_MINUS_NUMBER = re.compile(r"[-−]\d")
_DATES = (
    (re.compile(r"(?P<y>\d{4})-(?P<m>\d{1,2})-(?P<d>\d{1,2})"), "iso"),
    (re.compile(r"(?P<d>\d{1,2})\.(?P<m>\d{1,2})\.(?P<y>\d{4})"), "dots"),
    (re.compile(r"(?P<a>\d{1,2})/(?P<b>\d{1,2})/(?P<y>\d{4})"), "slashes"),
)
_DEPTH_UNITS: dict[str, DepthUnit] = {"32nds": "32nds", "32nd": "32nds", "/32": "32nds", "/32 in": "32nds", "mm": "mm"}
_EXAMPLES: dict[str, str] = {"odometer": "41200 mi or 66300 km", "pressure": "35 psi, 240 kPa or 2.4 bar"}
_EXAMPLES["temperature"] = "41 F or 5 C"


def refuse(row: Row, column: str, read: str, expected: str) -> NoReturn:
    """Raise CsvError for a cell: where, what was read, what was expected, an example."""
    what = f"{read[:40]!r} was read" if read else "nothing was read"
    raise CsvError(f"{at(row.line, column)}: {what}, expected {expected}")


def no_formula(row: Row, column: str, *, minus_is_a_sign: bool = False) -> str:
    """The cell; one that a spreadsheet would run is refused."""
    cell = row.cells.get(column, "")
    if cell[:1] in ("=", "+", "-", "@") and not (minus_is_a_sign and _MINUS_NUMBER.match(cell)):
        refuse(row, column, cell, "a value that does not begin with = + - @; write what the cell shows")
    return cell[1:] if cell[:1] == "'" and cell[1:2] in RUNS_AS_FORMULA else cell


def read_day(row: Row) -> dt.date:
    """The day of the reading."""
    cell = no_formula(row, "date")
    for pattern, form in _DATES:
        if found := pattern.fullmatch(cell):
            part = {name: int(digits) for name, digits in found.groupdict().items()}
            if form == "slashes":
                part = _month_and_day(row, cell, part)
            try:
                return dt.date(part["y"], part["m"], part["d"])
            except ValueError:
                break
    refuse(row, "date", cell, "a day of the calendar, such as 2026-11-14")


def _month_and_day(row: Row, cell: str, part: dict[str, int]) -> dict[str, int]:
    """``11/14/2026``: taken where only one order can be meant."""
    first, second = part["a"], part["b"]
    if first != second and first <= 12 and second <= 12:
        refuse(row, "date", cell, "a day that can be read in one way only, such as 2026-11-14")
    month, day = (second, first) if first > 12 else (first, second)
    return {"y": part["y"], "m": month, "d": day}


def read_fact(row: Row, column: str, kind: Kind) -> Quantity | None:
    """``odometer``, ``pressure`` or ``temperature``, its unit in the cell or in the column beside it; None if empty."""
    cell = no_formula(row, column, minus_is_a_sign=kind == "temperature")
    beside = no_formula(row, f"{column} unit")
    if not cell:
        return None
    example = _EXAMPLES[column]
    if _BARE.fullmatch(cell.replace("−", "-")):
        if not beside:
            refuse(row, column, cell, f"a unit with it, or in a column {column}_unit; for example {example}")
        return _quantity(row, f"{column} unit", f"{cell} {beside}", kind, beside)
    quantity = _quantity(row, column, cell, kind, cell)
    if beside and _quantity(row, f"{column} unit", f"1 {beside}", kind, beside).unit != quantity.unit:
        refuse(row, f"{column} unit", beside, f"the unit that {cell[:40]!r} has in the same row")
    return quantity


def _quantity(row: Row, column: str, text: str, kind: Kind, read: str, default: UnitName = "") -> Quantity:
    try:
        return read_quantity(text, kind, default)
    except EntryError as error:
        refuse(row, column, read, str(error).rpartition("expected ")[2])


def read_pressure(row: Row) -> PressureReading | None:
    """The pressure with its temperature; None if there is none."""
    pressure, temperature = read_fact(row, "pressure", "pressure"), read_fact(row, "temperature", "temperature")
    cold = no_formula(row, "cold").lower()
    if cold not in ("", "yes", "y", "no", "n"):
        refuse(row, "cold", cold, "yes or no; for example yes")
    if pressure is None:
        if temperature is not None:
            refuse(row, "pressure", "", "the pressure that belongs to the temperature, such as 35 psi")
        return None
    return PressureReading(pressure=pressure, temperature=temperature, cold=cold not in ("no", "n"))


def declared_unit(row: Row) -> DepthUnit | None:
    """The unit of the row's bare depths; None where the row does not say."""
    cell = no_formula(row, "unit").lower()
    if cell and cell not in _DEPTH_UNITS:
        refuse(row, "unit", cell, "32nds or mm; for example 32nds")
    return _DEPTH_UNITS.get(cell)


def read_depth(row: Row, column: str, cell: str, unit: DepthUnit | None) -> tuple[float, DepthUnit]:
    """One depth in the row's unit (``unit``, None as long as nothing gave one), and that unit."""
    if unit is None and _BARE.fullmatch(cell):
        refuse(row, column, cell, "a unit: 5/32, 4 mm, or a column unit that says 32nds or mm; for example 5/32")
    depth = _quantity(row, column, cell, "depth", cell, unit or "mm")
    mine: DepthUnit = "mm" if depth.unit == "mm" else "32nds"
    if unit is not None and mine != unit:
        refuse(row, column, cell, f"a depth in {unit}, as the rest of this reading; for example {_depth_example(unit)}")
    return depth.to(mine).value, mine


def _depth_example(unit: DepthUnit) -> str:
    return "5/32" if unit == "32nds" else "4 mm"


def read_gauge(row: Row, unit: DepthUnit, last: Reading | None) -> Gauge:
    """The gauge of the row, or that of the tire's last reading where the row names none."""
    name, cell = no_formula(row, "gauge"), no_formula(row, "resolution")
    if cell:
        step = _quantity(row, "resolution", cell, "depth", cell, unit)
        if step.value <= 0:
            refuse(row, "resolution", cell, "the gauge's smallest step, above nothing, such as 1/32 or 0.1 mm")
        return Gauge(name=name[:100], resolution=step)
    if last is not None and name in ("", last.gauge.name) and _in_family(last.gauge.resolution, unit):
        return last.gauge
    refuse(row, "resolution", "", "the gauge's smallest step, such as 1/32 or 0.1 mm")


def _in_family(resolution: Quantity, unit: DepthUnit) -> bool:
    return (cast(str, resolution.unit) == "mm") == (unit == "mm")
