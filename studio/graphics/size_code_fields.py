"""The fields of a marking as the picture names them: letters, value, plain words.

Each number is a figure of the ``size`` finding; the words say what the field is, not what people take it for.
"""

from collections.abc import Callable, Mapping

import msgspec

from studio.graphics.layout.notes import Note
from studio.model.finding import Finding
from studio.model.finding_names import FigureName
from studio.model.quantity import System
from studio.tires.designation import MarkingField, parse_marking, spell_out

_PREFIXES = {"P": "passenger car", "T": "temporary spare", "LT": "light truck", "ST": "trailer", "HL": "high load"}
_SUFFIXES = {"C": "van", "LT": "light truck", "CP": "camper"}


class Field(msgspec.Struct, frozen=True, kw_only=True):
    """One field: where its characters stand in the marking, its value as written, what that is."""

    name: str
    text: str
    start: int
    end: int
    value: str
    label: str
    brief: str
    other: str = ""
    priority: int = 1

    def note(self, step: int) -> Note:
        """The field as a note beside the drawing."""
        return Note(name=self.name, value=self.value, label=self.label, other=self.other, brief=self.brief, step=step,
                    priority=self.priority)  # fmt: skip


class _Said(msgspec.Struct, frozen=True):
    """What is said of a field."""

    value: str
    label: str
    brief: str
    other: str = ""
    priority: int = 1


def fields_of(finding: Finding, units: System) -> tuple[Field, ...]:
    """The fields of the marking that a ``size`` finding is about, in the marking's order."""
    marking = parse_marking(finding.word("marking"))
    fields: list[Field] = []
    for field in spell_out(marking, load_kg={}, speed_kmh={}):
        said = _SAY[field.key](finding, field, units) if field.key in _SAY else _other(field)
        again = sum(other.name.startswith(field.key) for other in fields)
        fields.append(
            Field(name=f"{field.key}{again or ''}", text=field.text, start=field.start, end=field.end,
                  value=said.value, label=said.label, brief=said.brief, other=said.other, priority=said.priority)
        )  # fmt: skip
    return tuple(fields)


def _pair(finding: Finding, name: FigureName, first: System) -> tuple[str, str]:
    """A figure's text in the system in which it is to be read first, and in the other one."""
    quantity = finding.figure(name)
    if quantity is None:
        return "", ""
    mine, other = quantity.in_system(first), quantity.in_system("metric" if first == "us" else "us")
    return mine.text(), "" if other.unit == mine.unit else other.text()


def _width(finding: Finding, field: MarkingField, units: System) -> _Said:
    value, other = _pair(finding, "section_width", "us" if field.key == "section_width_in" else "metric")
    return _Said(value, "section width", "wide", other, 0)


def _aspect(finding: Finding, field: MarkingField, units: System) -> _Said:
    value, _ = _pair(finding, "aspect_ratio", units)
    height, _ = _pair(finding, "section_height", units)
    return _Said(value, "height to width", "as high", height, 0)


def _overall(finding: Finding, field: MarkingField, units: System) -> _Said:
    value, other = _pair(finding, "overall_diameter", "us")
    return _Said(value, "overall diameter", "tall", other, 0)


def _construction(finding: Finding, field: MarkingField, units: System) -> _Said:
    return _Said(finding.word("construction"), "construction", "cords")


def _rim(finding: Finding, field: MarkingField, units: System) -> _Said:
    value, _ = _pair(finding, "rim_diameter", "us")  # a code: its inches are nominal, so no mm stand beside them
    return _Said(value, "rim diameter", "rim", priority=0)


def _load(finding: Finding, field: MarkingField, units: System) -> _Said:
    value, other = _pair(finding, "load", units)
    return _Said(value or field.text, "load of one tire", "load", other)


def _load_dual(finding: Finding, field: MarkingField, units: System) -> _Said:
    value, other = _pair(finding, "load_dual", units)
    return _Said(value or field.text, "load of one in a pair", "in a pair", other, 2)


def _speed(finding: Finding, field: MarkingField, units: System) -> _Said:
    value, other = _pair(finding, "speed", units)
    bracketed = f"({field.text}" in finding.word("marking") or f"{field.text})" in finding.word("marking")
    if value and bracketed:
        return _Said(f"over {value}", "ask its maker", "speed", other)
    return _Said(value or field.text, "top speed", "speed", other)


def _z_rated(finding: Finding, field: MarkingField, units: System) -> _Said:
    return _Said("high speed", "speed class", "class", priority=3)


def _prefix(finding: Finding, field: MarkingField, units: System) -> _Said:
    return _Said(_PREFIXES.get(field.text, field.text), "kind of tire", "tire", priority=2)


def _suffix(finding: Finding, field: MarkingField, units: System) -> _Said:
    return _Said(_SUFFIXES.get(field.text, field.text), "kind of tire", "tire", priority=2)


def _load_range(finding: Finding, field: MarkingField, units: System) -> _Said:
    return _Said(f"load range {field.text}", "casing strength", "casing", priority=3)


def _extra_load(finding: Finding, field: MarkingField, units: System) -> _Said:
    return _Said("extra load", "at higher pressure", "class", priority=3)


def _other(field: MarkingField) -> _Said:
    """A mark: the short words of its meaning, the letters themselves where there are none."""
    words, colon, _ = field.meaning.partition(":")
    return _Said(words if colon else field.text, field.label, field.label, priority=3)


_SAY: Mapping[str, Callable[[Finding, MarkingField, System], _Said]] = {
    "prefix": _prefix, "width_mm": _width, "section_width_in": _width, "aspect_percent": _aspect,
    "overall_diameter_in": _overall, "z_rated": _z_rated, "construction": _construction, "rim_diameter_in": _rim,
    "suffix": _suffix, "load_index": _load, "load_index_dual": _load_dual, "speed_symbol": _speed,
    "load_range": _load_range, "extra_load": _extra_load,
}  # fmt: skip
