"""What a sidewall says about a tire's size and service, as a value, and how it is written."""

from dataclasses import dataclass, field
from typing import Literal

Kind = Literal["metric", "flotation"]
Prefix = Literal["", "P", "T", "LT", "ST", "HL"]
Suffix = Literal["", "C", "LT", "CP"]
Construction = Literal["radial", "diagonal", "bias-belted"]
Service = Literal["passenger", "temporary", "light truck", "commercial", "trailer", "camper"]

_LETTER: dict[Construction, str] = {"radial": "R", "diagonal": "D", "bias-belted": "B"}


class MarkingError(ValueError):
    """A text is no tire marking. One line: what was read, what was expected, an example."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marking:
    """A size designation with its service description.

    ``width_mm`` and ``aspect_percent`` are None on flotation sizes, which give ``overall_diameter_in`` and
    ``section_width_in`` instead; ``aspect_percent`` is None too on old full-profile sizes such as 155R13.
    ``bracketed`` means that the service description stands in brackets: faster than its symbol. ``assumed`` lists what
    the text left open and how it was read; it does not count when two markings are compared.
    """

    kind: Kind = "metric"
    prefix: Prefix = ""
    width_mm: int | None = None
    aspect_percent: int | None = None
    overall_diameter_in: float | None = None
    section_width_in: float | None = None
    construction: Construction = "radial"
    run_flat: bool = False
    z_rated: bool = False
    rim_diameter_in: float
    suffix: Suffix = ""
    load_index: int | None = None
    load_index_dual: int | None = None
    speed_symbol: str | None = None
    bracketed: bool = False
    extra_load: bool = False
    load_range: str | None = None
    marks: tuple[str, ...] = ()
    assumed: tuple[str, ...] = field(default=(), compare=False)

    def __post_init__(self) -> None:
        given = self.width_mm if self.kind == "metric" else self.overall_diameter_in and self.section_width_in
        if not given:
            raise MarkingError(f"a {self.kind} marking without its dimensions, expected one such as "
                               "225/60R17 or 31x10.50R15LT")  # fmt: skip

    def __str__(self) -> str:
        return format_marking(self)

    @property
    def size(self) -> str:
        """The size alone, without service description and marks: ``225/60R17``."""
        return "".join(part.text for part in size_parts(self))

    @property
    def service(self) -> Service:
        """What the tire is made for."""
        return service(self)


@dataclass(frozen=True, slots=True)
class Part:
    """A run of characters of a marking; ``key`` names the field it states, and is empty for what only separates."""

    key: str
    text: str


def format_marking(marking: Marking) -> str:
    """The marking as a sidewall prints it: ``225/60R17 99H XL``. ``parse_marking`` reads it back."""
    return "".join(part.text for part in marking_parts(marking))


def marking_parts(marking: Marking) -> tuple[Part, ...]:
    """The normalised marking in runs of characters, in its order; joined they are ``format_marking``."""
    groups = [size_parts(marking), service_parts(marking), *_mark_parts(marking)]
    parts: list[Part] = []
    for group in groups:
        if group:
            parts += [Part("", " ")] if parts else []
            parts += group
    return tuple(parts)


def size_parts(marking: Marking) -> list[Part]:
    """Prefix, width, aspect, construction, rim and suffix."""
    parts = [Part("prefix", marking.prefix), *_dimension_parts(marking)]
    parts.append(Part("z_rated", "Z" if marking.z_rated else ""))
    parts.append(Part("construction", "RF" if marking.run_flat else _LETTER[marking.construction]))
    parts.append(Part("rim_diameter_in", f"{marking.rim_diameter_in:g}"))
    parts.append(Part("suffix", marking.suffix))
    return [part for part in parts if part.text]


def _dimension_parts(marking: Marking) -> list[Part]:
    if marking.kind == "flotation":
        width = f"{marking.section_width_in:.2f}"
        return [Part("overall_diameter_in", f"{marking.overall_diameter_in:g}"), Part("", "x"),
                Part("section_width_in", width)]  # fmt: skip
    parts = [Part("width_mm", f"{marking.width_mm}")]
    if marking.aspect_percent is not None:
        parts += [Part("", "/"), Part("aspect_percent", f"{marking.aspect_percent}")]
    return parts


def service_parts(marking: Marking) -> list[Part]:
    """Load index, dual load index and speed symbol, with brackets where they stand in brackets."""
    parts = []
    if marking.load_index is not None:
        parts.append(Part("load_index", f"{marking.load_index}"))
    if marking.load_index_dual is not None:
        parts += [Part("", "/"), Part("load_index_dual", f"{marking.load_index_dual}")]
    if marking.speed_symbol is not None:
        parts.append(Part("speed_symbol", marking.speed_symbol))
    return [Part("bracketed", "("), *parts, Part("", ")")] if marking.bracketed else parts


def _mark_parts(marking: Marking) -> list[list[Part]]:
    words = [Part("load_range", _load_range(marking)), Part("extra_load", "XL" if marking.extra_load else "")]
    words += [Part("mark", mark) for mark in marking.marks]
    return [[word] for word in words if word.text]


def _load_range(marking: Marking) -> str:
    """The letter alone on light-truck and trailer sizes; in full where a letter alone would be read otherwise."""
    if marking.load_range is None or marking.prefix in ("LT", "ST") or marking.suffix == "LT":
        return marking.load_range or ""
    return f"LOAD RANGE {marking.load_range}"


def service(marking: Marking) -> Service:
    """What the tire is made for, by its prefix and suffix."""
    if marking.prefix == "T":
        return "temporary"
    if marking.prefix == "ST":
        return "trailer"
    if marking.suffix == "CP":
        return "camper"
    if marking.suffix == "C":
        return "commercial"
    return "light truck" if "LT" in (marking.prefix, marking.suffix) else "passenger"
