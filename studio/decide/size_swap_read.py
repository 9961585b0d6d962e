"""Another size in place of the placard's: which sizes are asked about, and all numbers that one of them changes."""

import re
from collections.abc import Iterator

import msgspec

from studio.decide.audience import Audience
from studio.decide.carried import Carried, Refusal, carried
from studio.decide.markings import read
from studio.decide.road_speed import RoadSpeed, road_speed
from studio.decide.sizes import Size, compare, same_size, size_of
from studio.decide.subjects import Tire, tires
from studio.model.car import Certified
from studio.model.episode import Episode
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import UNITS, Quantity, format_number
from studio.model.specimen import Season
from studio.reference.tables import Tables
from studio.tires.geometry import section_width_on_rim_mm
from studio.tires.speed import true_speed_after_change

LEAST_IN_A_SET = 2
_DUAL, _PAIR = 4, 2


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """What the car says of one axle: the placard's size and pressure, the wheels' width, the axle rating."""

    axle: str
    marking: str
    pressure: Quantity | None
    rim_width: Quantity | None
    rating: Quantity | None
    count: int

    @property
    def path(self) -> str:
        """The path to the placard's line."""
        return f"car.placard.{self.axle}"


class Candidate(msgspec.Struct, frozen=True, kw_only=True):
    """A size asked about. ``paths`` lead to where it is written, ``tires`` names those that have it, if any do.

    ``season`` is that of the tires; None for a size that is only wished for.
    """

    name: str
    marking: str
    paths: tuple[str, ...]
    tires: tuple[str, ...] = ()
    season: Season | None = None


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one other size depends on."""

    audience: Audience
    candidate: Candidate
    lines: tuple[Line, ...]
    clearance: Quantity | None
    certified: Certified | None
    speed: Quantity | None


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """One size in place of another on one axle. The loads are at the placard pressure, None without one."""

    part: Part
    line: Line
    before: Size
    after: Size
    at: RoadSpeed
    load_before: Carried | Refusal | None
    load_after: Carried | Refusal | None
    width_before_mm: float
    width_after_mm: float
    on_rim: bool
    """Whether the two widths are those on the car's own wheels; if not, each is on its own measuring rim."""
    placard: tuple[tuple[str, Size], ...]
    """All sizes of the placard, by axle."""

    @property
    def ratio(self) -> float:
        """The diameter after over the diameter before."""
        return self.after.overall_diameter.value / self.before.overall_diameter.value

    @property
    def percent(self) -> float:
        """How much larger the diameter becomes."""
        return 100 * (self.ratio - 1)

    @property
    def placard_mm(self) -> tuple[float, ...]:
        """The diameters of all sizes of the placard."""
        return tuple(size.overall_diameter.value for _, size in self.placard)

    @property
    def true_speed(self) -> Quantity:
        """True speed while a speedometer that was exact shows ``at``."""
        before, after = self.before.overall_diameter.value, self.after.overall_diameter.value
        return Quantity(true_speed_after_change(self.at.speed.value, before, after), self.at.speed.unit)

    @property
    def rise_mm(self) -> float:
        """How much the axle rises: half the change of diameter."""
        return (self.after.overall_diameter.value - self.before.overall_diameter.value) / 2

    @property
    def wider_mm(self) -> float:
        """How much wider the section becomes."""
        return self.width_after_mm - self.width_before_mm

    @property
    def same_rim(self) -> bool:
        """Whether both go on rims of one diameter."""
        return self.before.marking.rim_diameter_in == self.after.marking.rim_diameter_in


def tenths(speed: Quantity, audience: Audience) -> str:
    """A speed to one decimal, as another size changes it by a few units only."""
    own = speed.in_system(audience.units)
    return f"{format_number(own.value, 1)} {UNITS[own.unit].symbol}"


def lines(episode: Episode) -> tuple[Line, ...]:
    """The axles of which the placard gives a size; one line where both axles are alike in all that counts."""
    car, found = episode.car, []
    for axle in AXLES:
        placard = getattr(car.placard, axle)
        if placard.marking.strip():
            found.append(Line(
                axle=axle, marking=placard.marking, pressure=placard.pressure,
                rim_width=getattr(car, f"{axle}_rim_width"), rating=getattr(car, f"{axle}_axle_rating"),
                count=_DUAL if axle == "rear" and car.dual_rear_wheels else _PAIR,
            ))  # fmt: skip
    return tuple(found)


def candidates(episode: Episode, tables: Tables) -> tuple[Candidate, ...]:
    """Every size wished for, then every set on hand that is not what the placard asks for; each once."""
    found: dict[str, Candidate] = {}
    for index, text in enumerate(episode.circumstances.sizes_wished):
        if text.strip():
            marking = read(text)
            name = _slug(str(marking)) if marking else f"wish_{index + 1}"
            path = f"circumstances.sizes_wished[{index}]"
            found.setdefault(name, Candidate(name=name, marking=text, paths=(path,)))
    for name, group in _sets(episode, tables):
        before = found.get(name)
        found[name] = Candidate(
            name=name, marking=group[0].specimen.marking, season=group[0].specimen.season,
            tires=tuple(tire.subject.words for tire in group),
            paths=(*(before.paths if before else ()), *(f"{tire.subject.path}.marking" for tire in group)),
        )  # fmt: skip
    return tuple(found.values())


def _slug(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")


def _sets(episode: Episode, tables: Tables) -> Iterator[tuple[str, list[Tire]]]:
    """Two or more tires of one marking, on the bench or at the corners, that no line of the placard asks for."""
    asked = [size for line in lines(episode) if (size := size_of(line.marking, tables))]
    groups: dict[str, list[Tire]] = {}
    for tire in tires(episode):
        marking = read(tire.specimen.marking)
        if marking and tire.specimen.place != "spare" and marking.service != "temporary":
            groups.setdefault(_slug(str(marking)), []).append(tire)
    for name, group in groups.items():
        size = size_of(group[0].specimen.marking, tables)
        if size and asked and len(group) >= LEAST_IN_A_SET and _unasked(size, asked, group):
            yield name, group


def _unasked(size: Size, asked: list[Size], group: list[Tire]) -> bool:
    """Of another size; a set on the bench also where a rating is below the placard's (on the car, ratings say it)."""
    if not any(same_size(size.marking, its.marking) for its in asked):
        return True
    fitted = any(tire.specimen.place in CORNERS for tire in group)
    return not fitted and not any(compare(size, its).agrees for its in asked)


def read_part(part: Part, tables: Tables) -> Change | None:
    """The change; None where the size or the placard's cannot be read."""
    after = size_of(part.candidate.marking, tables)
    known = [(line, size) for line in part.lines if (size := size_of(line.marking, tables))]
    if after is None or not known:
        return None
    line, before = min(_other_than(after, known), key=lambda pair: _apart(pair[1], after))
    same_rim = before.marking.rim_diameter_in == after.marking.rim_diameter_in
    rim_in = line.rim_width.to("in").value if line.rim_width and same_rim else None
    widths = [_width_mm(size, rim_in, tables) for size in (before, after)]
    both = None not in widths
    return Change(
        part=part, line=line, before=before, after=after, at=road_speed(part.speed, part.audience, tables),
        load_before=_load(part, line, before, tables), load_after=_load(part, line, after, tables), on_rim=both,
        placard=tuple((line.axle, size) for line, size in known),
        width_before_mm=widths[0] if both and widths[0] else before.dimensions.section_width_mm,
        width_after_mm=widths[1] if both and widths[1] else after.dimensions.section_width_mm,
    )  # fmt: skip


def _other_than(after: Size, known: list[tuple[Line, Size]]) -> list[tuple[Line, Size]]:
    """The lines of another size, where there are some: on a car with two sizes one of them is asked about the other."""
    others = [(line, size) for line, size in known if not same_size(size.marking, after.marking)]
    return others or known


def _apart(one: Size, other: Size) -> tuple[bool, float, float]:
    """How far two sizes are from each other: another rim first, then the section width, then the diameter."""
    widths = abs(one.dimensions.section_width_mm - other.dimensions.section_width_mm)
    rims = one.marking.rim_diameter_in != other.marking.rim_diameter_in
    return rims, widths, abs(one.overall_diameter.value - other.overall_diameter.value)


def _load(part: Part, line: Line, size: Size, tables: Tables) -> Carried | Refusal | None:
    if line.pressure is None:
        return None
    return carried(size, line.pressure, part.certified, part.audience, tables, dual=line.count == _DUAL)


def _width_mm(size: Size, rim_in: float | None, tables: Tables) -> float | None:
    """The section width on a rim of this width; None without the rim or for a size without a rim ratio."""
    row = tables.rim_ratio_for(size.dimensions.aspect_percent)
    if rim_in is None or row is None or size.marking.kind == "flotation":
        return None
    factor = tables.design["rim_width_factor"].value
    return section_width_on_rim_mm(size.dimensions.section_width_mm, rim_in, row.ratio, factor)
