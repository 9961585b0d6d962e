"""What does the sidewall say? A tire's size in numbers, and whether it is the one that the placard asks for."""

from collections.abc import Iterator

import msgspec

from studio.decide import size_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.sizes import Against, Size, compare, size_of
from studio.decide.subjects import Subject, tires
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity, depth, length
from studio.reference.tables import Tables
from studio.tires.geometry import (
    free_circumference_mm,
    largest_permitted_diameter_mm,
    least_permitted_diameter_mm,
)

TOPIC = "size"


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """All that one tire's size depends on; ``placard`` is the placard's marking for its place, with its path.

    ``across`` is the placard's marking for the front axle, for a tire at the rear.
    """

    audience: Audience
    subject: Subject
    marking: str
    depth_new: Quantity | None
    placard: str
    placard_path: str
    across: str = ""


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part for each tire."""
    for tire in tires(episode):
        line = {"front": "front", "rear": "rear", "spare": "spare"}.get(tire.specimen.place.split("_")[0], "")
        yield Part(
            audience=Audience.of(episode), subject=tire.subject, marking=tire.specimen.marking,
            depth_new=tire.specimen.depth_new, placard_path=f"car.placard.{line}.marking" if line else "",
            placard=getattr(episode.car.placard, line).marking if line else "",
            across=episode.car.placard.front.marking if line == "rear" else "",
        )  # fmt: skip


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one tire."""
    size = size_of(part.marking, tables)
    if size is None:
        return _unknown(part, tables)
    placard = size_of(part.placard, tables)
    return _finding(part, size, compare(size, placard) if placard else None, tables)


def _unknown(part: Part, tables: Tables) -> Finding:
    caution = tables.cautions["estimate"]
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name, verdict="unknown",
        sentence=size_words.unread(part.subject.title, part.marking), missing=("the marking on the sidewall",),
        inputs=(f"{part.subject.path}.marking",), warning=caution, sources=(caution.source,),
        would_change=("A marking such as 225/60R17 99H gives all its dimensions and ratings.",),
    )  # fmt: skip


def _finding(part: Part, size: Size, against: Against | None, tables: Tables) -> Finding:
    agrees = against is None or against.agrees
    caution = "temporary_spare" if size.temporary else "estimate" if agrees else "size_change"
    placard = [part.placard_path] if against else []
    placard += ["car.placard.front.marking"] if against and against.same and part.across.strip() else []
    return Finding(
        id=f"{TOPIC}.{part.subject.name}", topic=TOPIC, subject=part.subject.name,
        sentence=size_words.sentence(part.subject.title, part.audience, size, against),
        verdict=None if agrees else "inspect", value=size.overall_diameter.value, unit="mm",
        steps=as_steps(size_words.working(part.audience, size, against)),
        inputs=(f"{part.subject.path}.marking", *placard), warning=tables.cautions[caution],
        sources=unique_sources(*size.sources),
        would_change=() if agrees or against is None else size_words.would_change(part.subject.title, against),
        missing=size_words.missing(size), figures=_figures(part, size, against, tables),
        detail=size_words.detail(size, against),
    )  # fmt: skip


def _figures(part: Part, size: Size, against: Against | None, tables: Tables) -> tuple[Figure, ...]:
    """Every number that a picture or a script shows of a size."""
    its = size.dimensions
    figures = {
        "section_width": ("section width, sidewall to sidewall", length(its.section_width_mm)),
        "aspect_ratio": ("aspect ratio, height over width", Quantity(its.aspect_percent, "%")),
        "rim_diameter": ("rim diameter", length(its.rim_in, "in")),
        "section_height": ("section height", length(its.section_height_mm)),
        "overall_diameter": ("overall diameter, unrounded", size.overall_diameter),
        "circumference": ("circumference by tape", size.circumference),
        "rolling_circumference": (f"rolling circumference, {its.rolling_basis}", size.rolling_circumference),
        "revs_per_mile": ("turns in a mile", size.turns_per_mile),
        "revs_per_km": ("turns in a kilometer", size.turns_per_km),
    }
    if its.standard_overall_diameter_mm is not None:
        figures["design_diameter"] = ("design diameter, rounded as the standard does",
                                      length(its.standard_overall_diameter_mm))  # fmt: skip
        figures |= _permitted(size, tables)
    if size.load:
        figures["load"] = ("load of one tire at its reference pressure", Quantity(size.load.load_kg, "kg"))
    if size.load_dual:
        figures["load_dual"] = ("load of each tire of a dual pair", Quantity(size.load_dual.load_kg, "kg"))
    if size.speed:
        figures["speed"] = ("speed of the symbol", Quantity(size.speed.speed_kmh, "km/h"))
    if part.depth_new:
        figures["tread_depth_new"] = ("tread depth when new", depth(part.depth_new.value, part.depth_new.unit))
    if against:
        figures["placard_diameter"] = ("overall diameter of the placard's size", against.size.overall_diameter)
        figures["diameter_change"] = ("overall diameter against the placard's", against.diameter_change)
    if against and against.same and (front := size_of(part.across, tables)):
        figures |= _across(size, front)
    return tuple(Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in figures.items())


def _across(size: Size, front: Size) -> dict[str, tuple[str, Quantity]]:
    """How a rear tire of the placard's size differs from the placard's front size, where the two are different."""
    against = compare(size, front)
    if against.same:
        return {}
    apart = {
        "diameter_difference": (size.overall_diameter, front.overall_diameter),
        "circumference_difference": (_circumference(size), _circumference(front)),
        "rolling_difference": (size.rolling_circumference, front.rolling_circumference),
    }
    found = {
        name: (f"{name.replace('_', ' ')} from the front tires", length(abs(mine.value - its.value)))
        for name, (mine, its) in apart.items()
    }
    share = Quantity(abs(against.diameter_change.value), "%")
    return {"across_apart": ("diameter apart from the front tires", share), **found}


def _circumference(size: Size) -> Quantity:
    """By the overall diameter, so that the two differences shown together are of one basis."""
    return length(free_circumference_mm(size.overall_diameter.to("mm").value))


def _permitted(size: Size, tables: Tables) -> dict[str, tuple[str, Quantity]]:
    """How far two tires of one marking may differ (UN R30 6.1.5), where its formula covers the size."""
    its = size.dimensions
    if its.rim_mm is None or its.standard_section_height_mm is None or size.marking.construction != "radial":
        return {}
    least, most = tables.design["least_diameter_factor"].value, tables.design["largest_diameter_factor"].value
    return {
        "least_diameter": ("smallest diameter that the standard lets through",
                           length(least_permitted_diameter_mm(its.rim_mm, its.standard_section_height_mm, least))),
        "largest_diameter": ("largest diameter that the standard lets through",
                             length(largest_permitted_diameter_mm(its.rim_mm, its.standard_section_height_mm, most))),
    }  # fmt: skip
