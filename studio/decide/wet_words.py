"""The words of the topic on water: always that grip goes before the computed speed."""

from studio.decide.wet_film import working as film_working
from studio.decide.wet_read import Beyond, Flow, Part, Wet
from studio.decide.wording import day_words, on_paper, paper_number, upper_first
from studio.model.quantity import Quantity, length
from studio.reference.tables import Tables

_OF = {"pressure": "", "tread depth": " of tread", "water": " of water", "texture": " of texture"}
NO_PRESSURE = "a cold pressure, read or from the placard"


def sentence(its: Wet) -> str:
    """The finding in plain speech."""
    title, both = its.part.subject.title, its.part.audience.both
    if its.mph is None:
        first = its.beyond[0]
        return f"{title}: no floating speed given; {both(first.value)}{_OF[first.name]} is outside the tests."
    speed = both(Quantity(its.mph, "mph"))
    if its.of_1979 is None:
        return f"{title} floats near {speed} in water deeper than its tread; grip goes before."
    return f"{title} floats near {speed} in {both(its.water)} of water; grip goes before."


def unread(part: Part) -> str:
    """The sentence on a tire whose pressure is not known."""
    return f"{part.subject.title} in water: no floating speed without its pressure."


def working(its: Wet, tables: Tables) -> tuple[str, ...]:
    """The steps from the readings to each speed that may be said, and what speaks against trusting it."""
    return (
        "No safe speed: by these relations the tire is off the road; grip is lost well before",
        *_given_lines(its, tables), *_of_1979_lines(its, tables), *_of_1963_lines(its, tables),
        *_doubt_lines(its, tables), *_worn_lines(its, tables),
        *(_flow_lines(its, its.flow, tables) if its.flow else ()),
    )  # fmt: skip


def _given_lines(its: Wet, tables: Tables) -> list[str]:
    audience, tread = its.part.audience, its.part.tread
    film = film_working(its.film, audience, tables) if its.film else ()
    filled = its.part.filled
    how = f"read cold on {day_words(filled.on)}" if filled else "assumed, as the placard asks; no cold reading"
    texture = "given" if its.part.road.texture else "assumed, dense asphalt"
    return [
        *film,
        f"Least tread on the car: {tread.spot_words(tread.lowest)}, {audience.both(its.depth)}",
        f"Pressure: {audience.both(its.pressure)}, {how}",
        f"Water above the texture: {audience.both(its.water)}; texture: {audience.both(its.texture)}, {texture}",
        its.speed.working(audience),
    ]


def _of_1979_lines(its: Wet, tables: Tables) -> list[str]:
    row, given = tables.hydroplaning, its.given
    name = f"Relation of 1979 (Gallaway, {row['gallaway_a1_scale'].source.standing})"
    if its.of_1979 is None:
        return [f"{name}: {_range(its, beyond)}; nothing is computed there" for beyond in its.beyond]
    number = {key: paper_number(Quantity(abs(value.value), "")) for key, value in row.items()}
    water, texture = f"{given.water_in:.4f}", f"{given.texture_in:.4f}"
    spin, psi, tread = number["onset_spin_down_percent"], f"{given.pressure_psi:.2f}", f"{given.depth_32nds:.2f}"
    thin = f"{water}^{number['gallaway_water_exponent']}"
    first, second = (f"{branch:.3f}" for branch in its.branches)
    return [
        f"First A: {number['gallaway_a1_scale']} / {thin} + {number['gallaway_a1_offset']} = {first} (water in inches)",
        f"Second A: ({number['gallaway_a2_scale']} / {thin} − {number['gallaway_a2_offset']}) × "
        f"{texture}^{number['gallaway_texture_exponent']} = {second} (texture in inches); the larger A counts",
        f"{name}, in mph: {spin}^{number['gallaway_spin_down_exponent']} × {psi}^{number['gallaway_pressure_exponent']}"
        f" × ({tread} + 1)^{number['gallaway_depth_exponent']} × {max(its.branches):.3f} = {its.of_1979:.2f} "
        "(psi, 32nds)",
    ]


def _range(its: Wet, beyond: Beyond) -> str:
    both = its.part.audience.both
    return f"{beyond.name} {both(beyond.value)} is outside {both(beyond.low)} to {both(beyond.high)}"


def _of_1963_lines(its: Wet, tables: Tables) -> list[str]:
    row, both = tables.hydroplaning["nasa_mph"], its.part.audience.both
    name = "Relation of 1963 (NASA; smooth tires, or water deeper than the tread)"
    tread, water = length(its.given.depth_in, "in"), length(its.given.water_in, "in")
    if its.of_1963 is None and water.value > tread.value:
        least = length(tables.hydroplaning["stated_water_least_in"].value, "in")
        return [f"{name}: {both(water)} of water is less than {both(least)}, the least that was tested"]
    if its.of_1963 is None:
        return [f"{name}: {both(water)} of water is not deeper than {both(tread)} of tread, so it says nothing here"]
    return [f"{name}, in mph: {row.value:g} × √{its.given.pressure_psi:.2f} = {its.of_1963:.2f} (psi)"]


def _doubt_lines(its: Wet, tables: Tables) -> list[str]:
    row, both = tables.hydroplaning, its.part.audience.both
    least, gradual = row["water_least_for_treaded_mm"], row["gradual_loss_mph"]
    lines = [
        f"{upper_first(gradual.means)}: {both(Quantity(gradual.value, 'mph'))} ({gradual.source.standing})",
        f"{upper_first(least.means)}: {both(length(least.value))} ({least.source.standing})",
        "Measured on car tires of that time; load, width and tread pattern are in neither relation",
        "The placard sets the pressure, not a relation",
    ]
    if its.doubt_mph is not None:
        shown = f"±{on_paper(Quantity(its.doubt_mph, 'mph'))}"
        lines.insert(0, f"From the gauges {shown}; the relation's own error comes on top and is not stated")
    if its.near:
        lines.append("At the speed above control is going or gone in so much water")
    return lines


def _worn_lines(its: Wet, tables: Tables) -> list[str]:
    if its.advice is None or not its.worn:
        return []
    row, both = tables.hydroplaning["wet_friction_share_below_4_32nds"], its.part.audience.both
    return [
        f"{upper_first(its.advice.label)}: {both(its.advice.depth)}; the tire is under it",
        f"{upper_first(row.means)}: {100 * row.value:g} % ({row.source.title}, {row.source.standing})",
    ]


def _flow_lines(its: Wet, flow: Flow, tables: Tables) -> list[str]:
    audience, speed = its.part.audience, paper_number(its.speed.speed.to("km/h"))
    least, most = (tables.assumed[f"tread_width_share_{end}"].value for end in ("least", "most"))
    low, high = (tables.hydroplaning[f"void_ratio_{end}"].value for end in ("least", "most"))
    width = length(flow.tread_width_mm)
    meters = f"{paper_number(width)} mm × {{}} mm × {speed} km/h / 3600"
    met = meters.format(paper_number(its.water.to("mm")))
    held = meters.format(paper_number(its.depth.to("mm")))
    from_to = " to ".join(paper_number(Quantity(value, "")) for value in (flow.held_least, flow.held_most))
    return [
        f"A picture, no predictor. Assumed: tread {least:g} to {most:g} of the section width (common practice), "
        f"so about {audience.both(width)}",
        f"Water in its way: {met} = {paper_number(Quantity(flow.met, ''))} liters a second",
        f"Grooves are {low:g} to {high:g} of the tread (common practice), so they hold: {held} × that share = "
        f"{from_to} liters a second",
    ]


def would_change(its: Wet, more_tread: tuple[Quantity, float] | None, more_water: tuple[Quantity, float] | None
                 ) -> tuple[str, ...]:  # fmt: skip
    """What other tread and other water do, as computed; or within what the relation would answer."""
    both = its.part.audience.both
    lines = [
        f"The relation of 1979 answers for {both(it.low)} to {both(it.high)}{_OF[it.name]}." for it in its.beyond
    ]
    if more_tread:
        deep, mph = more_tread
        lines.append(f"With {both(deep)} of tread it would float near {both(Quantity(mph, 'mph'))}.")
    if more_water:
        water, mph = more_water
        lines.append(f"In twice the water, {both(water)}, near {both(Quantity(mph, 'mph'))}.")
    return tuple(lines)


def missing(its: Wet) -> tuple[str, ...]:
    """What would have to be otherwise for a speed, and what the picture of the flow lacks."""
    both = its.part.audience.both
    found = [] if its.mph else [f"{it.name} from {both(it.low)} to {both(it.high)}" for it in its.beyond]
    return (*found, *(() if its.flow else ("the marking, for the volume of water",)))


def _range_1963(its: Wet) -> str:
    if its.of_1963 is not None:
        return "inside"
    shallow = its.given.water_in <= its.given.depth_in
    return f"outside: the water is {'not deeper than the tread' if shallow else 'less than was tested'}"


def detail(its: Wet) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    pairs = {
        "relation": "1979" if its.of_1979 is not None else "1963" if its.of_1963 is not None else "none",
        "range_1979": "; ".join(_range(its, beyond) for beyond in its.beyond) or "inside",
        "range_1963": _range_1963(its),
        "water": "by rain" if its.film else "given", "speed": "assumed" if its.speed.assumed else "given",
    }  # fmt: skip
    return tuple(pairs.items())
