"""The facts of a comment in words: what each is called, what may be typed for it, how it is read back."""

from dataclasses import dataclass
from typing import Any

from studio.model.entry import read_quantity
from studio.model.quantity import Kind, Quantity, System, UnitName
from studio.questions.facts import LIKELY, Fact
from studio.tires.designation import parse_marking
from studio.window.value_fields import default_unit, entry_text, other_unit

_LONGEST_WORD = 100


@dataclass(frozen=True)
class FactKind:
    """A field of a comment: its name in words; its kind of quantity or the words it may hold; an example."""

    words: str
    kind: Kind | None = None
    choices: tuple[str, ...] = ()
    example: str = ""


_DAMAGE = ("cut", "bulge", "cord", "cracks", "puncture", "flat_spot", "separation", "chunking", "other")
FACTS: dict[str, FactKind] = {
    "depth": FactKind("depth", "depth", example="5/32"),
    "depth_new": FactKind("depth when new", "depth", example="10/32"),
    "depth_before": FactKind("earlier depth", "depth", example="8 mm"),
    "difference": FactKind("difference of depth", "depth", example="2/32"),
    "limit": FactKind("limit named", "depth", example="2/32"),
    "size": FactKind("size", example="225/60R17 99H"),
    "service": FactKind("load index and speed symbol", example="99H"),
    "date_code": FactKind("date code", example="2321"),
    "pressure": FactKind("pressure", "pressure", example="33 psi"),
    "pressure_before": FactKind("earlier pressure", "pressure", example="35 psi"),
    "placard_pressure": FactKind("placard's pressure", "pressure", example="35 psi"),
    "temperature": FactKind("temperature", "temperature", example="40 F"),
    "distance": FactKind("distance", "distance", example="12000 mi"),
    "odometer": FactKind("odometer", "distance", example="41200 mi"),
    "drivetrain": FactKind("drivetrain", choices=("front", "rear", "all", "part_time_four"), example="all"),
    "tread": FactKind("tread", choices=("plain", "directional", "asymmetric"), example="directional"),
    "season": FactKind("season", choices=("summer", "all_season", "winter", "studded"), example="winter"),
    "damage": FactKind("damage", choices=_DAMAGE, example="puncture"),
    "zone": FactKind("where on the tire", choices=("crown", "shoulder", "sidewall", "bead"), example="sidewall"),
    "damage_size": FactKind("size of the damage", "length", example="5 mm"),
    "load": FactKind("load", "load", example="900 kg"),
    "speed": FactKind("speed", "speed", example="60 mph"),
    "rim": FactKind("rim", "length", example="17 in"),
    "units": FactKind("units", choices=("us", "metric"), example="metric"),
    "region": FactKind("region", example="us"),
}
"""What can be set right or added, in the order in which it is offered."""


def field_of(name: str) -> str:
    """The field of a fact's name: ``depth_2`` speaks of a depth."""
    head, _, tail = name.rpartition("_")
    return head if head and tail.isdigit() else name


def words_of(name: str) -> str:
    """A fact's name in words: ``depth``, ``depth, no. 2``."""
    field = field_of(name)
    kind = FACTS.get(field)
    plain = kind.words if kind else field.replace("_", " ")
    return plain if field == name else f"{plain}, no. {name.rpartition('_')[2]}"


def can_be_typed(field: str) -> bool:
    """Whether a fact of this field can be set right; what follows from others can only be dropped."""
    return field in FACTS


def shown(fact: Fact) -> str:
    """A fact's value as a person would type it."""
    return entry_text(fact.value) if isinstance(fact.value, Quantity) else fact.value


def checked(field: str, text: str, system: System, tables: Any) -> str:
    """``text`` as it is kept; raises ValueError with what was read, what was expected, and an example."""
    typed, kind = " ".join(text.split())[:_LONGEST_WORD], FACTS[field]
    if kind.kind is not None:
        read_quantity(typed, kind.kind, _bare_unit(kind.kind, system))
        return typed if any(char.isalpha() or char == "/" for char in typed) else _with_unit(typed, kind.kind, system)
    if field == "size":
        parse_marking(typed)
        return typed.upper()
    choices = tuple(tables.regions) if field == "region" else kind.choices
    word = typed.lower().replace(" ", "_").replace("-", "_" if field != "region" else "-")
    if choices and word not in choices:
        listed = ", ".join(choices[:6])
        raise ValueError(f"{typed[:30]!r} was read; expected one of {listed}, such as {kind.example}")
    if field == "date_code" and not (typed.isascii() and typed.isdigit() and len(typed) in (3, 4)):
        raise ValueError(f"{typed[:30]!r} was read; expected week and year of the date code, such as {kind.example}")
    return word if choices else typed


def _bare_unit(kind: Kind, system: System) -> UnitName:
    """What a number without a unit means."""
    if kind == "speed":
        return "mph" if system == "us" else "km/h"
    return default_unit(kind, system)


def _with_unit(typed: str, kind: Kind, system: System) -> str:
    return entry_text(read_quantity(typed, kind, _bare_unit(kind, system)))


def aside(field: str, text: str, system: System) -> str:
    """The other unit of a typed quantity."""
    kind = FACTS[field].kind if field in FACTS else None
    if kind is None or not text:
        return ""
    try:
        return other_unit(read_quantity(text, kind, _bare_unit(kind, system)))
    except ValueError:
        return ""


def quoted(fact: Fact) -> str:
    """The words from which a fact was read, of which tires it speaks, and whether that is not sure."""
    words = f"“{fact.text}”" if fact.text else fact.how
    where = f" ({', '.join(place.replace('_', ' ') for place in fact.where)})" if fact.where else ""
    return f"{words}{where}" if fact.sure >= LIKELY else f"{words}{where}, not sure"


def how_read(fact: Fact) -> str:
    """From which words a fact was read, and how sure that is."""
    return f"{quoted(fact)}: {fact.how}" if fact.text else quoted(fact)
