"""The words of the size topic."""

from studio.decide.audience import Audience
from studio.decide.sizes import Against, Size
from studio.decide.wording import on_paper, plain
from studio.model.finding import Step, summed
from studio.model.quantity import Quantity, length
from studio.tires.units import MM_PER_INCH, MM_PER_KM, MM_PER_MILE


def unread(title: str, text: str) -> str:
    """The sentence on a tire whose marking is missing or is none."""
    return f"{title}: {plain(text)} is no tire marking." if text.strip() else f"{title} has no marking entered yet."


def sentence(title: str, audience: Audience, size: Size, against: Against | None) -> str:
    """The finding in plain speech."""
    if against is None:
        return f"{title} is {size.marking.size}: {audience.both(size.overall_diameter)} tall when new."
    if not against.same:
        return f"{title} is {size.marking.size}; the placard asks for {against.size.marking.size}. Have it confirmed."
    if against.shortfall:
        return f"{title} has {against.shortfall}. Have it confirmed."
    return f"{title} is {size.marking.size}, the size that the placard asks for."


def working(audience: Audience, size: Size, against: Against | None) -> tuple[str | Step, ...]:
    """The steps from the marking to every number."""
    return (
        f"Read: {size.marking}", *size.marking.assumed, *size.dimensions.notes, *_height_lines(size),
        *_circumference_lines(audience, size), *_rating_lines(audience, size), *_placard_lines(against, size),
    )  # fmt: skip


def _height_lines(size: Size) -> list[Step]:
    its = size.dimensions
    height, rim, diameter = length(its.section_height_mm), length(its.rim_in * MM_PER_INCH), size.overall_diameter
    if size.marking.kind == "flotation":
        inches = [on_paper(q.to("in")) for q in (diameter, length(its.rim_in, "in"), height)]
        return [summed("Overall diameter, by the designation", f"{inches[0]} = {on_paper(diameter)}"),
                summed("Section height", f"({inches[0]} − {inches[1]}) / 2 = {inches[2]} = {on_paper(height)}")]
    aspect = on_paper(Quantity(its.aspect_percent, "%"))
    lines = [
        summed("Section height", f"{on_paper(length(its.section_width_mm))} × {aspect} = {on_paper(height)}"),
        summed(
            "Overall diameter", f"{its.rim_in:g} × {on_paper(length(MM_PER_INCH))} + 2 × {on_paper(height)} = "
            f"{on_paper(rim)} + {on_paper(length(2 * height.value))} = {on_paper(diameter)} "
            f"({diameter.to('in').text()})",
        ),
    ]
    if its.standard_overall_diameter_mm is not None and its.rim_mm is not None:
        steps = f"{its.rim_mm} mm + 2 × {its.standard_section_height_mm} mm = {its.standard_overall_diameter_mm} mm"
        lines.append(summed("Design diameter, rounded as the standard does", steps))
    return lines


def _circumference_lines(audience: Audience, size: Size) -> list[str]:
    its, rolling = size.dimensions, size.rolling_circumference
    mile, km = on_paper(length(MM_PER_MILE)), on_paper(length(MM_PER_KM))
    per_mile = f"Turns: {mile} in a mile / {on_paper(rolling)} = {size.turns_per_mile.text()}"
    per_km = f"Turns: {km} in a kilometer / {on_paper(rolling)} = {size.turns_per_km.text()}"
    return [
        f"Circumference by tape: π × {on_paper(size.overall_diameter)} = {audience.both(size.circumference)}",
        f"Rolling circumference: {its.rolling_factor:g} × {on_paper(length(its.rolling_diameter_mm))} = "
        f"{on_paper(rolling)} ({its.rolling_basis})",
        *((per_mile, per_km) if audience.units == "us" else (per_km, per_mile)),
    ]


def _rating_lines(audience: Audience, size: Size) -> list[str]:
    lines = []
    if size.load:
        load = Quantity(size.load.load_kg, "kg")
        lines.append(f"Load index {size.load.load_index}: {audience.both(load)} for one tire at its reference pressure")
    if size.speed:
        faster = ", and faster as it stands in brackets" if size.marking.bracketed else ""
        speed = Quantity(size.speed.speed_kmh, "km/h")
        lines.append(f"Speed symbol {size.speed.symbol}: {audience.both(speed)} in the laboratory{faster}")
    return lines


def _placard_lines(against: Against | None, size: Size) -> list[str]:
    if against is None:
        return []
    if against.same:
        return [f"Placard at this place: {against.size.marking}, the same size"]
    mine, its = on_paper(size.overall_diameter), on_paper(against.size.overall_diameter)
    return [
        f"Placard at this place: {against.size.marking}, another size",
        f"Diameter against the placard's: {mine} / {its} − 1 = {against.diameter_change.text()}",
    ]


def would_change(title: str, against: Against) -> tuple[str, ...]:
    """What would make the tire the one that the placard asks for."""
    return (f"{title} would be what the placard asks for if it were marked {against.size.marking}.",)


def missing(size: Size) -> tuple[str, ...]:
    """What the marking leaves open."""
    absent = {"the load index": size.load, "the speed symbol": size.speed}
    return tuple(name for name, row in absent.items() if row is None)


def detail(size: Size, against: Against | None) -> tuple[tuple[str, str], ...]:
    """The words of a marking that pictures set beside its numbers."""
    marking = size.marking
    pairs = {
        "marking": str(marking), "size": marking.size, "service": marking.service,
        "construction": "radial, run-flat" if marking.run_flat else marking.construction,
        "load_index": "" if marking.load_index is None else str(marking.load_index),
        "load_index_dual": "" if marking.load_index_dual is None else str(marking.load_index_dual),
        "speed_symbol": marking.speed_symbol or "", "load_range": marking.load_range or "",
        "extra_load": "extra load" if marking.extra_load else "", "marks": " ".join(marking.marks),
        "assumed": "; ".join(marking.assumed), "rolling_basis": size.dimensions.rolling_basis,
        "placard": "" if against is None else "same" if against.same else "different",
        "placard_marking": "" if against is None else str(against.size.marking),
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
