"""An episode's readings as a table for a spreadsheet: one row a depth, the same columns as are read."""

import csv
import io

from studio.model.episode import Episode
from studio.model.quantity import Quantity
from studio.model.specimen import Reading, Specimen
from studio.storage.csv_text import RUNS_AS_FORMULA

COLUMNS = (
    "tire", "place", "date", "odometer", "odometer_unit", "pressure", "pressure_unit", "temperature",
    "temperature_unit", "cold", "gauge", "resolution", "unit", "groove", "station", "depth", "note",
)  # fmt: skip
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"


def write_readings(episode: Episode, *, byte_order_mark: bool = False) -> bytes:
    """All readings as comma-separated text in UTF-8, numbers in C form; grooves are numbered from the outer side.

    No cell runs in a spreadsheet: a text that would has an apostrophe before it. ``byte_order_mark`` is what some
    spreadsheets need to see UTF-8.
    """
    out = io.StringIO(newline="")
    table = csv.writer(out, lineterminator="\r\n")
    table.writerow(COLUMNS)
    for specimen in episode.specimens:
        for reading in specimen.readings:
            table.writerows(_rows(specimen, reading))
    content = out.getvalue().encode("utf-8")
    return _BYTE_ORDER_MARK + content if byte_order_mark else content


def safe_text(text: str) -> str:
    """``text`` on one line, without signs that cannot be seen, and so that no spreadsheet runs it."""
    line = " ".join("".join(sign for sign in text if sign.isprintable() or sign.isspace()).split())
    return f"'{line}" if line.startswith(RUNS_AS_FORMULA) else line


def _rows(specimen: Specimen, reading: Reading) -> list[list[str]]:
    before = _facts(specimen, reading)
    spots = [
        [str(groove), str(station), "" if depth is None else _number(depth)]
        for groove, depths in enumerate(reading.depths, start=1)
        for station, depth in enumerate(depths, start=1)
    ]
    return [[*before, *spot, safe_text(reading.note)] for spot in spots or [["", "", ""]]]


def _facts(specimen: Specimen, reading: Reading) -> list[str]:
    pressure = reading.pressure
    step = reading.gauge.resolution
    return [
        specimen.id,
        reading.place,
        reading.on.isoformat(),
        *_pair(reading.odometer),
        *_pair(pressure.pressure if pressure else None),
        *_pair(pressure.temperature if pressure else None),
        "" if pressure is None else ("yes" if pressure.cold else "no"),
        safe_text(reading.gauge.name),
        f"{_number(step.value)}/32" if step.unit == "32nds" else f"{_number(step.value)} {step.unit}",
        reading.unit,
    ]


def _pair(quantity: Quantity | None) -> list[str]:
    return ["", ""] if quantity is None else [_number(quantity.value), quantity.unit]


def _number(value: float) -> str:
    """In C form; never with just three decimals, which could be read as thousands."""
    text = f"{value:.10f}".rstrip("0").rstrip(".")
    if text in ("-0", ""):
        return "0"
    return f"{text}0" if len(text.partition(".")[2]) == 3 else text
