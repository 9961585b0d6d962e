"""Numbers as a person types them: ``5/32``, ``5``, ``4 mm``, ``0,16 in``, ``2.4 bar``."""

import re

from studio.model.quantity import _KIND_OF, Kind, Quantity, UnitName

MOST_CHARACTERS = 40
_NUMBER = r"(?P<number>[+-]?\d+(?:[.,]\d+)?|[.,]\d+)"
_FRACTION = re.compile(r"(?P<top>\d+(?:[.,]\d+)?)\s*/\s*(?P<bottom>32|64|16|8|4|2)(?:nds|ths)?\s*(?P<unit>.*)")
_VALUE = re.compile(rf"{_NUMBER}\s*(?P<unit>.*)")
_GROUPED = re.compile(r"[+-]?[1-9]\d{0,2}[.,]\d{3}")  # 41,200 is not 41.2
_SPELLINGS: dict[str, UnitName] = {
    "": "", "mm": "mm", "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
    "in": "in", "inch": "in", "inches": "in", '"': "in", "”": "in", "″": "in", "32nds": "32nds", "32nd": "32nds",
    "kpa": "kPa", "psi": "psi", "bar": "bar", "km": "km", "kilometers": "km", "kilometres": "km",
    "mi": "mi", "mile": "mi", "miles": "mi", "kg": "kg", "lb": "lb", "lbs": "lb", "km/h": "km/h", "kmh": "km/h",
    "kph": "km/h", "mph": "mph", "c": "degC", "°c": "degC", "degc": "degC", "f": "degF", "°f": "degF",
    "degf": "degF", "nm": "N m", "n m": "N m", "n·m": "N m", "lbf ft": "lbf ft", "lb ft": "lbf ft",
    "lb-ft": "lbf ft", "ft-lb": "lbf ft", "ft lb": "lbf ft", "ft-lbs": "lbf ft", "lbf·ft": "lbf ft",
    "%": "%", "percent": "%", "m": "m", "meters": "m", "metres": "m", "ft": "ft", "feet": "ft", "mm/h": "mm/h",
    "in/h": "in/h",
}  # fmt: skip
_EXAMPLES: dict[str, str] = {
    "depth": "5/32, 4 mm or 0.16 in", "length": "2900 mm or 114 in", "pressure": "35 psi, 240 kPa or 2.4 bar",
    "distance": "41200 mi or 66300 km", "load": "1250 kg or 2756 lb", "temperature": "20 C or 68 F",
    "torque": "110 N m or 80 lb ft", "share": "0.5 %", "speed": "100 km/h or 60 mph",
    "altitude": "1600 m or 5280 ft", "rain": "50 mm/h or 2 in/h", "money": "129.90",
}  # fmt: skip


class EntryError(ValueError):
    """What was typed is not the quantity asked for; the message says what was read, what was expected, an example."""


def read_quantity(typed: str, kind: Kind, default: UnitName, asked: str = "") -> Quantity:
    """Read ``typed`` as a quantity of ``kind``; a bare number is in ``default``. Raises EntryError.

    ``asked`` says in words what is asked for, with an example, where that is narrower than the kind.
    """
    text = " ".join(typed.replace(" ", " ").replace(" ", " ").replace(" ", " ").split())
    expected = f"expected {asked or f'a {kind}, such as ' + _EXAMPLES.get(kind, '12')}"
    if not text or len(text) > MOST_CHARACTERS:
        raise EntryError(f"{_shown(text)}: {expected}")
    if kind in ("depth", "length") and (found := _FRACTION.fullmatch(text.lower())):
        return _fraction(found, text, kind, expected)
    found = _VALUE.fullmatch(text.lower().replace("−", "-"))
    if not found or found["unit"] not in _SPELLINGS:
        raise EntryError(f"{_shown(text)} was read; {expected}; no thousands separators")
    unit = _SPELLINGS[found["unit"]] or default
    grouped = kind in ("distance", "load", "money") or (kind, unit) == ("length", "mm")
    if grouped and _GROUPED.fullmatch(found["number"]):
        raise EntryError(f"{_shown(text)} can be read in two ways; {expected}; no thousands separators")
    if not _fits(unit, kind):
        raise EntryError(f"{_shown(text)} {'was read' if asked else f'is not a {kind}'}; {expected}")
    return Quantity(float(found["number"].replace(",", ".")), unit, kind)


def _fraction(found: re.Match[str], text: str, kind: Kind, expected: str) -> Quantity:
    if found["unit"] not in ("", "in", "inch", "inches", '"', "”", "″"):
        raise EntryError(f"{_shown(text)} was read; {expected}")
    top, bottom = float(found["top"].replace(",", ".")), int(found["bottom"])
    return Quantity(top * 32 / bottom, "32nds", kind) if kind == "depth" else Quantity(top / bottom, "in", kind)


def _fits(unit: UnitName, kind: Kind) -> bool:
    if kind in ("depth", "length"):
        return unit in ("mm", "in", "32nds")
    return _KIND_OF[unit] == kind


def _shown(text: str) -> str:
    cut = text if len(text) <= MOST_CHARACTERS else text[:MOST_CHARACTERS] + "…"
    return repr(cut) if cut else "nothing"
