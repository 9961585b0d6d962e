"""Would another size do? Each size wished for or on hand against the placard's, and what else would fit its rim."""

from collections.abc import Iterator

from studio.decide import size_search, size_swap_change, size_swap_words
from studio.decide.audience import Audience, unique_sources
from studio.decide.carried import Carried
from studio.decide.markings import read
from studio.decide.size_search import TOPIC, RimPart
from studio.decide.size_swap_car import must_have_read_kmh, reasons, rim_range_in, speedometer_rule
from studio.decide.size_swap_read import Change, Part, candidates, lines, read_part
from studio.decide.sizes import Size, size_of
from studio.decide.swap_rules import Reason, Swap, gravest, winter_rule
from studio.decide.wording import plain
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity, length
from studio.model.source import Source
from studio.reference.tables import Tables
from studio.tires.geometry import free_circumference_mm

_SHOWN = 1000.0


def parts(episode: Episode, tables: Tables) -> Iterator[Part | RimPart]:
    """One part for each size wished for or set on hand, then one for each rim diameter that a wish names."""
    known, audience, car = lines(episode), Audience.of(episode), episode.car
    for candidate in candidates(episode, tables):
        yield Part(
            audience=audience, candidate=candidate, lines=known, clearance=car.ground_clearance,
            certified=car.certified_as, speed=episode.circumstances.speed,
        )  # fmt: skip
    line = next((line for line in known if size_of(line.marking, tables)), None)
    rims: dict[float, str] = {}
    for index, text in enumerate(episode.circumstances.sizes_wished):
        if marking := read(text):
            rims.setdefault(marking.rim_diameter_in, f"circumstances.sizes_wished[{index}]")
    for rim_in, path in rims.items() if line else ():
        if line:
            yield RimPart(audience=audience, rim_in=rim_in, line=line, path=path)


def conclude(part: Part | RimPart, tables: Tables) -> Finding:
    """The finding on one size, or on one rim diameter."""
    if isinstance(part, RimPart):
        return size_search.conclude(part, tables)
    its = read_part(part, tables)
    return _finding(its, reasons(its, tables), tables) if its else _unknown(part, tables)


def _unknown(part: Part, tables: Tables) -> Finding:
    caution, name = tables.cautions["size_change"], part.candidate.name
    return Finding(
        id=f"{TOPIC}.{name}", topic=TOPIC, subject=name, verdict="unknown", sentence=size_swap_words.unread(part),
        missing=size_swap_words.unread_missing(part), warning=caution, sources=(caution.source,),
        inputs=(*part.candidate.paths, *(f"{line.path}.marking" for line in part.lines)),
        would_change=("A placard size such as 225/60R17 99H gives what another one is held against.",),
        detail=(("sizes", next(iter(plain(part.candidate.marking).split()), "")),),
    )  # fmt: skip


def _finding(its: Change, why: tuple[Reason, ...], tables: Tables) -> Finding:
    name, bound = its.part.candidate.name, tables.design["substitute_diameter_percent"]
    return Finding(
        id=f"{TOPIC}.{name}", topic=TOPIC, subject=name, sentence=size_swap_words.sentence(its, why, tables),
        verdict=gravest(why), value=abs(its.percent), unit="%", limit=bound.value,
        limit_label=f"usual change of diameter, {bound.source.standing}", margin=bound.value - abs(its.percent),
        steps=as_steps(size_swap_words.working(its, why, tables)), inputs=_inputs(its), sources=_sources(its, tables),
        warning=tables.cautions[_caution(its)], would_change=size_swap_change.texts(its, tables),
        missing=size_swap_words.missing(its), figures=_figures(its, tables), detail=size_swap_words.detail(its, why),
    )  # fmt: skip


def _caution(its: Change) -> str:
    return "temporary_spare" if its.after.temporary else "size_change"


def _inputs(its: Change) -> tuple[str, ...]:
    part, line = its.part, its.line
    paths = [*part.candidate.paths, f"{line.path}.marking"]
    paths += [f"{line.path}.pressure"] if line.pressure else []
    paths += [f"car.{line.axle}_rim_width"] if line.rim_width and its.same_rim else []
    paths += [f"car.{line.axle}_axle_rating"] if line.rating else []
    paths += ["car.ground_clearance"] if part.clearance else []
    paths += ["car.certified_as"] if part.certified else []
    return (*paths, *its.at.inputs, "region")


def _sources(its: Change, tables: Tables) -> tuple[Source, ...]:
    rules = (speedometer_rule(its, tables), winter_rule(its.part.audience.region, tables))
    ratio = tables.rim_ratio_for(its.after.dimensions.aspect_percent)
    design = [tables.design[name].source for name in ("substitute_diameter_percent", "rim_width_factor")]
    both = (its.load_before, its.load_after)
    loads = [source for load in both if isinstance(load, Carried) for source in load.sources]
    rows = (*(rule.source for rule in rules if rule), *((ratio.source,) if ratio else ()))
    return unique_sources(*design, *its.before.sources, *its.after.sources, *loads, *rows, *its.at.sources)


def _around(size: Size) -> float:
    """The circumference by the overall diameter, in mm: of one basis with the diameters beside it."""
    return free_circumference_mm(size.overall_diameter.to("mm").value)


def _figures(its: Change, tables: Tables) -> tuple[Figure, ...]:
    """Every number that a picture or a script shows of the change."""
    swap = Swap(before=its.before, after=its.after, reasons=())
    low, high = rim_range_in(its, tables)
    found = {
        "diameter_apart": ("change of diameter", Quantity(abs(its.percent), "%")),
        "diameter_change": ("overall diameter against the placard's", Quantity(its.percent, "%")),
        "diameter_before": ("overall diameter of the placard's size", its.before.overall_diameter),
        "diameter_after": ("overall diameter of the other size", its.after.overall_diameter),
        "diameter_difference": ("difference of the diameters",
                                length(abs(its.after.overall_diameter.value - its.before.overall_diameter.value))),
        "circumference_difference": ("difference of the circumferences, by the diameters",
                                     length(abs(_around(its.after) - _around(its.before)))),
        "rim_before": ("rim diameter, placard's", length(its.before.dimensions.rim_in, "in")),
        "rim_after": ("rim diameter, other size", length(its.after.dimensions.rim_in, "in")),
        "rolling_circumference_before": ("rolling circumference, placard's", its.before.rolling_circumference),
        "rolling_circumference_after": ("rolling circumference, other size", its.after.rolling_circumference),
        "rolling_difference": ("difference of the rolling circumferences",
                               length(abs(its.after.rolling_circumference.value
                                          - its.before.rolling_circumference.value))),
        "speed_shown": ("speed shown", its.at.speed), "true_speed": ("true speed then", its.true_speed),
        "true_at_60": ("true speed when 60 is shown", Quantity(swap.true_speed_at_60, "")),
        "must_have_read": ("must have read at that true speed, so as not to read low",
                           Quantity(must_have_read_kmh(its, its.at.kmh), "km/h")),
        "distance_of_1000": ("distance rolled when 1000 are shown", Quantity(_SHOWN * its.ratio, "")),
        "rise": ("how much higher the axle sits", length(its.rise_mm)),
        "section_width_before": ("section width, placard's", length(its.width_before_mm)),
        "section_width": ("section width, other size", length(its.width_after_mm)),
        "wider": ("how much wider", length(its.wider_mm)),
        "rim_least": ("narrowest rim by rule of thumb", length(low, "in")),
        "rim_most": ("widest rim by rule of thumb", length(high, "in")),
    }  # fmt: skip
    found |= _optional(its, swap, tables)
    return tuple(Figure(name=name, label=label, quantity=quantity) for name, (label, quantity) in found.items())


def _optional(its: Change, swap: Swap, tables: Tables) -> dict[str, tuple[str, Quantity]]:
    """The figures that need more than the two sizes."""
    found: dict[str, tuple[str, Quantity]] = {}
    if its.part.clearance is not None:
        after = length(its.part.clearance.to("mm").value + its.rise_mm)
        found["ground_clearance"] = ("ground clearance", its.part.clearance)
        found["ground_clearance_after"] = ("ground clearance with the other size", after)
    if swap.load_index_change is not None:
        found["load_index_change"] = ("steps of load index", Quantity(float(swap.load_index_change), ""))
    for name, load in (("before", its.load_before), ("after", its.load_after)):
        if isinstance(load, Carried):
            found[f"load_{name}"] = (f"carried at the placard pressure, {name}", Quantity(load.each_kg, "kg"))
    if isinstance(its.load_before, Carried) and isinstance(its.load_after, Carried):
        needed = its.load_after.pressure_for(its.load_before.each_kg)
        if needed is not None:
            found["pressure_for_as_much"] = ("pressure at which it carries as much", needed)
    if (index := size_swap_change.least_index(its, tables)) is not None:
        found["load_index_needed"] = ("load index that carries as much", Quantity(float(index), ""))
    return found
