"""Which sizes on a rim diameter stay within the usual band of diameter, and the load index each would need."""

import msgspec

from studio.decide.audience import Audience, unique_sources
from studio.decide.carried import Carried, carried
from studio.decide.size_swap_change import aspects, named
from studio.decide.size_swap_read import Line
from studio.decide.sizes import Size, size_of
from studio.decide.wording import joined, on_paper, signed
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity, UnitName, length
from studio.reference.tables import Tables
from studio.tires.errors import RangeError
from studio.tires.fitting import Fit, least_load_index, rim_fits, rim_widths_in, sizes_within

TOPIC = "size_swap"
SPOKEN, LISTED = 3, 8


class RimPart(msgspec.Struct, frozen=True, kw_only=True):
    """All that the search on one rim diameter depends on; ``path`` leads to the size that asked for it."""

    audience: Audience
    rim_in: float
    line: Line
    path: str

    @property
    def name(self) -> str:
        """The subject: ``rim_18``."""
        return f"rim_{self.rim_in:g}".replace(".", "_")


class Search(msgspec.Struct, frozen=True, kw_only=True):
    """The sizes found, the nearest diameter first; ``standard`` and ``extra`` are the least load indices they need."""

    part: RimPart
    before: Size
    found: tuple[Fit, ...]
    passenger: bool
    load: Carried | None
    standard: int | None
    extra: int | None


def search(part: RimPart, tables: Tables) -> Search | None:
    """The sizes on the rim; None where the placard's size cannot be read or is no metric one."""
    before = size_of(part.line.marking, tables)
    if before is None or before.marking.width_mm is None:
        return None
    fits = sizes_within(
        before.overall_diameter.value, tables.design["substitute_diameter_percent"].value, rim_in=part.rim_in,
        widths_mm=_widths(before.marking.width_mm, tables), aspects_percent=aspects(tables),
    )  # fmt: skip
    asked = part.line.pressure
    load = carried(before, asked, None, part.audience, tables) if asked else None
    held = load if isinstance(load, Carried) else None
    passenger = before.marking.service == "passenger"
    return Search(
        part=part, before=before, load=held, passenger=passenger,
        standard=_index(before, held if passenger else None, "euro_standard_kpa", tables),
        extra=_index(before, held, "euro_extra_load_kpa", tables) if held and passenger else None,
        found=tuple(fit for fit in fits if _on_rim(fit, before, part, tables) and not _is(fit, before)),
    )  # fmt: skip


def _widths(width_mm: int, tables: Tables) -> range:
    """The widths that are gone through: the placard's, and those some steps wider and narrower."""
    reach, step = (round(tables.assumed[f"search_width_{name}"].value) for name in ("mm", "step_mm"))
    return range(width_mm - reach // step * step, width_mm + reach + 1, step)


def _on_rim(fit: Fit, before: Size, part: RimPart, tables: Tables) -> bool:
    """Whether the car's own rim is of a width for the size, by the rule of thumb; other rims can be bought to fit."""
    if part.line.rim_width is None or before.marking.rim_diameter_in != part.rim_in:
        return True
    low, high = rim_widths_in(
        fit.width_mm, tables.design["rim_share_least"].value, tables.design["rim_share_most"].value
    )
    return rim_fits(part.line.rim_width.to("in").value, low, high)


def _is(fit: Fit, before: Size) -> bool:
    marking = before.marking
    return (fit.width_mm, fit.aspect_percent, fit.rim_in) == (
        marking.width_mm, marking.aspect_percent, marking.rim_diameter_in
    )  # fmt: skip


def _index(before: Size, load: Carried | None, reference: str, tables: Tables) -> int | None:
    """The least index at that reference pressure that carries what the placard's tire does at the placard pressure."""
    if load is None:
        return before.load.load_index if before.load else None
    share = min(1.0, load.pressure.to("kPa").value / tables.pressure[reference].value)
    exponent = tables.load_rules["exponent_etrto"].value
    try:
        needed = least_load_index(load.undivided_kg / share**exponent, tables.load_kg)
    except RangeError:
        return None
    return max(needed, load.row.load_index)


def conclude(part: RimPart, tables: Tables) -> Finding:
    """The finding on one rim diameter."""
    its = search(part, tables)
    caution = tables.cautions["size_change"]
    paths = (part.path, f"{part.line.path}.marking", *((f"{part.line.path}.pressure",) if part.line.pressure else ()))
    if its is None:
        return Finding(
            id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name, verdict="unknown", inputs=paths, warning=caution,
            sentence=f"On {part.rim_in:g} in rims nothing is searched: the placard's size is no metric one.",
            missing=("a metric placard size such as 225/60R17",), sources=(tables.cautions["size_change"].source,),
        )  # fmt: skip
    bound = tables.design["substitute_diameter_percent"]
    return Finding(
        id=f"{TOPIC}.{part.name}", topic=TOPIC, subject=part.name, sentence=_sentence(its, bound.value),
        value=float(len(its.found)), unit="",
        steps=as_steps(_working(its, tables)), warning=caution, figures=_figures(its),
        inputs=(*paths, *((f"car.{part.line.axle}_rim_width",) if part.line.rim_width else ())),
        sources=unique_sources(bound.source, *its.before.sources, *(its.load.sources if its.load else ())),
        detail=_detail(its),
    )  # fmt: skip


def _sentence(its: Search, band: float) -> str:
    rim = f"{its.part.rim_in:g} in"
    if not its.found:
        return f"On {rim} rims no usual width near the placard's stays within {band:g} % of its diameter."
    sizes = joined([_spoken(fit) for fit in its.found[:SPOKEN]])
    fit = "comes nearest" if len(its.found) == 1 else "come nearest"
    ask = f"; ask for load index {its.standard} or more" if its.standard is not None else ""
    return f"On {rim} rims {sizes} {fit}{ask}."


def _spoken(fit: Fit) -> str:
    """A size as a sentence about one rim names it: ``235/60``."""
    return f"{fit.width_mm}/{fit.aspect_percent}"


def _working(its: Search, tables: Tables) -> tuple[str, ...]:
    wanted, bound = its.before.overall_diameter, tables.design["substitute_diameter_percent"]
    low, high = (on_paper(length(wanted.value * (1 + sign * bound.value / 100))) for sign in (-1, 1))
    widths = _widths(its.before.marking.width_mm or 0, tables)
    band = f"within {bound.value:g} % ({bound.source.standing})"
    lines = [
        f"{its.before.marking.size}: {on_paper(wanted)}; {band} is {low} to {high}",
        f"Gone through: widths {widths[0]} to {widths[-1]} mm, aspect ratios {aspects(tables)[0]} to "
        f"{aspects(tables)[-1]} %; the nearest diameter first",
    ]
    if its.part.line.rim_width is not None and its.before.marking.rim_diameter_in == its.part.rim_in:
        lines.append("Left out: sizes for which the car's rim is too narrow or too wide by the rule of thumb")
    listed = its.found[:LISTED]
    lines += [f"{named(fit, its.before.marking)}: {on_paper(length(fit.diameter_mm))}, "
              f"{signed(fit.change_percent)} %" for fit in listed]  # fmt: skip
    more = len(its.found) - LISTED
    lines += [f"And {more} more"] if more > 0 else []
    return (*lines, *_index_lines(its), "Sizes by arithmetic: whether one is made, and with which index, a shop knows")


def _index_lines(its: Search) -> list[str]:
    if its.standard is None:
        return []
    if its.load is None or not its.passenger:
        return [f"Load index to ask for: {its.standard} or more, as on the placard, with its load range if it has one"]
    pressure, load = its.part.audience.own(its.load.pressure), on_paper(Quantity(its.load.undivided_kg, "kg"))
    extra = f", extra load {its.extra} or more" if its.extra is not None else ""
    return [f"To carry the {load} of the placard's tire at {pressure}: load index {its.standard} or more{extra}"]


def _figures(its: Search) -> tuple[Figure, ...]:
    found: list[tuple[str, str, float, UnitName]] = [("count", "sizes found", float(len(its.found)), "")]
    for number, fit in enumerate(its.found[:LISTED], start=1):
        name = named(fit, its.before.marking)
        found.append((f"fit_{number}_diameter", f"diameter, {name}", fit.diameter_mm, "mm"))
        found.append((f"fit_{number}_change", f"against the placard's, {name}", fit.change_percent, "%"))
    if its.standard is not None:
        found.append(("load_index", "load index to ask for", float(its.standard), ""))
    if its.extra is not None:
        found.append(("load_index_extra", "load index to ask for, extra load", float(its.extra), ""))
    return tuple(
        Figure(name=name, label=label, quantity=Quantity(value, unit, "length" if unit == "mm" else None))
        for name, label, value, unit in found
    )


def _detail(its: Search) -> tuple[tuple[str, str], ...]:
    """The sizes in words, for pictures."""
    sizes = (named(fit, its.before.marking) for fit in its.found[:LISTED])
    spoken = " ".join(map(_spoken, its.found[:SPOKEN]))
    sized = (("sizes", spoken),) if spoken else ()
    return (("rim", f"{its.part.rim_in:g}"), *sized, *((f"fit_{n}", size) for n, size in enumerate(sizes, start=1)))
