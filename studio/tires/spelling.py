"""Spell a marking out, field by field, in the order in which the sidewall prints it."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from studio.model.quantity import Quantity, format_number, length
from studio.tires.marking import Marking, Part, marking_parts
from studio.tires.units import MM_PER_INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingField:
    """One field of a marking: its characters, where they stand in ``format_marking``, and what they mean."""

    text: str
    key: str
    label: str
    meaning: str
    start: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ratings:
    load_kg: Mapping[int, float]
    speed_kmh: Mapping[str, float]


def spell_out(
    marking: Marking, *, load_kg: Mapping[int, float], speed_kmh: Mapping[str, float]
) -> tuple[MarkingField, ...]:
    """Every field of the marking with what it means in words and both units.

    ``load_kg`` gives kg by load index and ``speed_kmh`` km/h by speed symbol (tables ``load_index``, ``speed_symbol``).
    """
    ratings = _Ratings(load_kg=load_kg, speed_kmh=speed_kmh)
    fields, at = [], 0
    for part in marking_parts(marking):
        if part.key and part.key != "bracketed":
            label, meaning = _EXPLAIN[part.key](marking, part, ratings)
            fields.append(MarkingField(text=part.text, key=part.key, label=label, meaning=meaning, start=at,
                                       end=at + len(part.text)))  # fmt: skip
        at += len(part.text)
    return tuple(fields)


_PREFIXES = {
    "P": "passenger car tire under the US P-metric load rules",
    "T": "temporary spare: only to reach a repair, at the low speed on its sidewall",
    "LT": "light truck tire",
    "ST": "special trailer tire, not for a car's own wheels",
    "HL": "high load class, above extra load at the same reference pressure",
}
_SUFFIXES = {
    "C": "commercial (van) tire",
    "LT": "light truck tire",
    "CP": "camper tire",
}
_MARKS = {
    "M+S": "mud and snow: the maker's claim about the tread pattern, not a winter test",
    "3PMSF": "three-peak mountain snowflake: passed a measured snow test",
    "ICE": "ice grip: passed a measured ice test",
    "SL": "standard load",
    "LL": "light load",
    "TL": "tubeless",
    "ROTATION": "directional tread: the arrow shows the rolling direction",
    "OUTSIDE": "asymmetric tread: this side faces outward",
    "INSIDE": "asymmetric tread: this side faces the car",
    "STUDDED": "studded winter tire",
    "TEMPORARY USE ONLY": "temporary spare",
    "POR": "professional off-road tire",
    "MPT": "multi-purpose truck tire",
    "ET": "extra tread depth",
    "FRT": "free-rolling tire, for trailers and unpowered axles",
    "NHS": "not for highway service",
}


def _prefix(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "type", _PREFIXES[part.text]


def _width(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    inches = float(part.text) / MM_PER_INCH
    return "section width", f"{part.text} mm ({inches:.1f} in) from sidewall to sidewall on the measuring rim"


def _aspect(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    height = length((marking.width_mm or 0) * (marking.aspect_percent or 0) / 100)
    return "aspect ratio", f"sidewall height is {part.text} % of the width: {height.text()} ({height.to('in').text()})"


def _overall(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "overall diameter", f"{part.text} in ({float(part.text) * MM_PER_INCH:.0f} mm) nominal"


def _section(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "section width", f"{part.text} in ({float(part.text) * MM_PER_INCH:.0f} mm) nominal"


def _z_rated(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "speed class", "above 240 km/h (149 mph); the service description gives the limit"


def _construction(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    if marking.run_flat:
        return "construction", "radial, able to run flat for a short way"
    return "construction", {"radial": "radial: the cords run straight across, from bead to bead",
                            "diagonal": "diagonal (bias): the cords cross at an angle",
                            "bias-belted": "bias-belted: crossed cords under a belt"}[marking.construction]  # fmt: skip


def _rim(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "rim diameter", f"nominal rim diameter {part.text} in ({marking.rim_diameter_in * MM_PER_INCH:.0f} mm)"


def _suffix(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "type", _SUFFIXES[part.text]


def _load(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    what = "one tire, single fitment" if marking.load_index_dual is not None else "one tire at its reference pressure"
    return "load index", _load_text(int(part.text), what, ratings)


def _load_dual(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "dual load index", _load_text(int(part.text), "each tire of a dual pair", ratings)


def _load_text(index: int, what: str, ratings: _Ratings) -> str:
    load_kg = ratings.load_kg.get(index)
    if load_kg is None:
        return f"{what}; this load index is not in the table"
    return f"{what}: {load_kg:g} kg ({format_number(Quantity(load_kg, 'kg').to('lb').value, 0)} lb)"


def _speed(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    speed_kmh = ratings.speed_kmh.get(part.text)
    if speed_kmh is None:
        return "speed symbol", "this symbol is not in the table"
    mph = math.floor(Quantity(speed_kmh, "km/h").to("mph").value + 0.5)
    if marking.bracketed:
        return "speed symbol", f"above {speed_kmh:g} km/h ({mph} mph); the maker knows the limit"
    return "speed symbol", f"up to {speed_kmh:g} km/h ({mph} mph) in the laboratory, when new"


def _load_range(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "load range", f"load range {marking.load_range}: how strong the casing is, formerly counted in plies"


def _extra_load(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    return "extra load", "extra load: carries its load index only at a higher pressure than a standard tire"


def _mark(marking: Marking, part: Part, ratings: _Ratings) -> tuple[str, str]:
    if part.text.startswith("("):
        return "further service", "a second load index and speed symbol that the tire also meets"
    if part.text.endswith("PR"):
        return "ply rating", f"as strong as a tire of {part.text[:-2]} cotton plies, not a count of its plies"
    return "mark", _MARKS[part.text]


_EXPLAIN: dict[str, Callable[[Marking, Part, _Ratings], tuple[str, str]]] = {
    "prefix": _prefix, "width_mm": _width, "aspect_percent": _aspect, "overall_diameter_in": _overall,
    "section_width_in": _section, "z_rated": _z_rated, "construction": _construction, "rim_diameter_in": _rim,
    "suffix": _suffix, "load_index": _load, "load_index_dual": _load_dual, "speed_symbol": _speed,
    "load_range": _load_range, "extra_load": _extra_load, "mark": _mark,
}  # fmt: skip
