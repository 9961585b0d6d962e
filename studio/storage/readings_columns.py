"""The columns of a gauge session in a spreadsheet: their names, and what each may hold."""

from typing import get_args

from studio.model.places import Place
from studio.storage.csv_text import CsvError, at

FACTS = (
    "tire", "place", "date", "unit", "gauge", "resolution", "odometer", "odometer unit", "pressure", "pressure unit",
    "temperature", "temperature unit", "cold", "note",
)  # fmt: skip
SINGLE = ("groove", "station", "depth")
GROOVES = ("outer", "outer center", "center", "inner center", "inner")
MOST_STATIONS = 24
MOST_GROOVES = 8
_SPELLINGS = {"centre": "center", "middle": "center"}
_PLACES = {
    "left front": "front_left", "right front": "front_right", "left rear": "rear_left", "right rear": "rear_right",
    "lf": "front_left", "rf": "front_right", "lr": "rear_left", "rr": "rear_right", "fl": "front_left",
    "fr": "front_right", "rl": "rear_left", "sp": "spare",
}  # fmt: skip

CONTRACT = """\
The first line names the columns, in any order. Two forms are read.

One row a tire:
  place,date,unit,resolution,odometer,pressure,temperature,outer 1,outer 2,center 1,center 2,inner 1,inner 2
  front left,2026-11-14,32nds,1/32,51600 mi,34 psi,41 F,9,10,10,10,9,9
One row a depth:
  place,date,odometer,odometer_unit,gauge,resolution,unit,groove,station,depth
  front left,2026-11-14,83000,km,pin gauge,0.1 mm,mm,outer,1,4.2

  place        front left, front right, rear left, rear right, spare or bench: where the tire stood that day; the tire
               that stands there now is meant, so after a rotation name the tire instead
  tire         the tire's id or name in the episode; needed on the bench if several tires lie there
  date         2026-11-14 (or 14.11.2026)
  unit         32nds or mm, for bare numbers in the row; may be left out if each depth has its own, as 5/32 or 4 mm
  resolution   the gauge's smallest step, as 1/32 or 0.1 mm; if left out, the gauge of the tire's last reading is taken
  gauge        its name
  odometer, pressure, temperature
               with their unit, as 41200 mi, 2.3 bar, 8 C, or bare beside odometer_unit, pressure_unit, temperature_unit
  cold         yes or no: whether the pressure was read on a cold tire (yes if left out)
  note         any text
  depths       a column for each groove and place round the tire: outer, outer center, center, inner center, inner
               (from the outer side of the car), then 1 to 24; or groove (those words, or 1 to 8), station and depth

Separated by commas, semicolons or tabs; UTF-8, UTF-16 or Windows-1252. Either every row is taken or none."""


def depth_column(name: str) -> tuple[int, int] | None:
    """The groove's rank in ``GROOVES`` and the station (from 0) of a column such as ``outer 1``; None if it is none."""
    words, _, number = name.rpartition(" ")
    words = " ".join(_SPELLINGS.get(word, word) for word in words.split())
    if words not in GROOVES or not (number.isascii() and number.isdigit() and 1 <= int(number) <= MOST_STATIONS):
        return None
    return GROOVES.index(words), int(number) - 1


def read_groove(cell: str, line: int) -> tuple[str, int]:
    """A groove as ("word", rank) or ("number", index)."""
    words = " ".join(_SPELLINGS.get(word, word) for word in cell.lower().replace("_", " ").replace("-", " ").split())
    if words in GROOVES:
        return "word", GROOVES.index(words)
    if len(cell) < 4 and cell.isascii() and cell.isdigit() and 1 <= int(cell) <= MOST_GROOVES:
        return "number", int(cell) - 1
    raise CsvError(
        f"{at(line, 'groove')}: {cell[:40]!r} was read, expected {', '.join(GROOVES)}, or 1 to {MOST_GROOVES}"
        f" from the outer side; for example outer"
    )


def read_station(cell: str, line: int) -> int:
    """A station, counted from 0."""
    if len(cell) < 4 and cell.isascii() and cell.isdigit() and 1 <= int(cell) <= MOST_STATIONS:
        return int(cell) - 1
    raise CsvError(
        f"{at(line, 'station')}: {cell[:40]!r} was read, expected the place round the tire, 1 to {MOST_STATIONS};"
        f" for example 1"
    )


def read_place(cell: str, line: int) -> Place:
    """A place as people and the trade write it: ``front left``, ``LF``, ``spare``."""
    words = " ".join(cell.lower().replace("_", " ").replace("-", " ").split())
    name = _PLACES.get(words, words.replace(" ", "_"))
    for place in get_args(Place):
        if place == name:
            return place  # type: ignore[no-any-return]
    raise CsvError(
        f"{at(line, 'place')}: {cell[:40]!r} was read, expected front left, front right, rear left, rear right,"
        f" spare or bench; for example front left"
    )
