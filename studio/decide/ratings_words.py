"""The words of the ratings topic."""

from studio.decide.carried import CERTIFIED_WORDS, Carried
from studio.decide.ratings_read import Axle, Part, Wheel
from studio.decide.told import Told
from studio.decide.wording import day_words, joined, on_paper, upper_first
from studio.model.places import place_words
from studio.model.quantity import MINUS, Quantity
from studio.reference.tables import Tables
from studio.tires.load import load_at_speed_kg, normal_load_limit_kg

CERTIFICATION = "what the certification label calls the car"
_COUNT = {2: "Two", 4: "Four"}


def unread(part: Part) -> str:
    """The sentence on an axle with a tire or a marking missing."""
    return f"{part.title} cannot be rated yet: no marking of {joined(_unmarked(part))}."


def _unmarked(part: Part) -> list[str]:
    marked = {fitted.subject.name for fitted in part.tires if fitted.marking.strip()}
    return [place_words(place) for place in part.places if place not in marked] or ["a tire that can be read"]


def unmarked(part: Part) -> tuple[str, ...]:
    """The markings that are missing."""
    return tuple(f"the marking, {words}" for words in _unmarked(part))


def missing(axle: Axle, us_rules: bool) -> tuple[str, ...]:
    """What keeps the load from being computed or compared."""
    part = axle.part
    found = [f"{refusal.missing}, {wheel.words}" for wheel, refusal in axle.refused]
    found += [] if axle.rating_kg is not None else [f"the {part.axle} axle rating"]
    found += [] if axle.placard else [f"the placard's {part.axle} size with load index and speed symbol"]
    found += [CERTIFICATION] if us_rules and part.certified is None else []
    return tuple(dict.fromkeys(found))


def sentence(axle: Axle, held: tuple[Told, ...]) -> str:
    """The finding in plain speech: the gravest judgement that has a sentence."""
    if spoken := next((its for its in held if its.sentence), None):
        return spoken.sentence
    title = axle.part.title
    if axle.refused:
        return f"{title}: what they carry as filled is not known; {axle.refused[0][1].missing} is missing."
    if axle.placard is None:
        return f"{title} have nothing to be held against: neither placard size nor axle rating."
    return f"{title} have the load index and speed symbol that the placard asks for."


def working(axle: Axle, held: tuple[Told, ...], us_rules: bool, tables: Tables) -> tuple[str, ...]:
    """The steps from the markings to the load of the axle and each judgement."""
    lines = [_certified(axle.part)] if us_rules or axle.part.certified else []
    lines += _wheel_lines(axle)
    lines += _sum_lines(axle)
    lines += [f"{upper_first(its.text)}: {its.verdict}" for its in held]
    return (*lines, *_normal_load(axle, us_rules, tables), *_at_speed(axle, tables))


def _certified(part: Part) -> str:
    if part.certified is None:
        return "Assumed: certified as a passenger car, for which ratings count in full"
    return f"Certified as {CERTIFIED_WORDS[part.certified]}"


def _wheel_lines(axle: Axle) -> list[str]:
    """Each tire's steps; tires that are alike in all of them share theirs."""
    groups: dict[tuple[str, ...], list[Wheel]] = {}
    for wheel in axle.wheels:
        steps = wheel.load.working() if isinstance(wheel.load, Carried) else (wheel.load.why,)
        groups.setdefault((_filled(axle, wheel), *steps), []).append(wheel)
    lines = []
    for steps, wheels in groups.items():
        who = upper_first(joined([wheel.words for wheel in wheels]))
        lines += [f"{who}: {steps[0]}", *steps[1:]]
    return lines


def _filled(axle: Axle, wheel: Wheel) -> str:
    filled, asked = wheel.fitted.filled, axle.part.placard.pressure
    if filled is not None:
        return f"{filled.pressure.text()} cold on {day_words(filled.on)}"
    return f"assumed: filled to the placard's {asked.text()}" if asked else "no cold pressure read"


def _sum_lines(axle: Axle) -> list[str]:
    lines = []
    if axle.part.dual:
        lines.append("Dual rear wheels: four tires, each with its dual index; those not entered taken to be alike")
    if axle.weakest is None or axle.capacity_kg is None:
        return lines
    each, all_of_them = on_paper(Quantity(axle.weakest.each_kg, "kg")), Quantity(axle.capacity_kg, "kg")
    count, weaker = _COUNT[axle.count], "" if _alike(axle) else ", the weaker one counted for each"
    lines.append(
        f"{count} tires{weaker}: {axle.count} × {each} = {on_paper(all_of_them)} ({on_paper(all_of_them.to('lb'))})"
    )
    if axle.rating_kg is not None:
        rating, left = Quantity(axle.rating_kg, "kg"), Quantity(axle.capacity_kg - axle.rating_kg, "kg")
        lines.append(f"Less the axle rating: {on_paper(all_of_them)} {MINUS} {on_paper(rating)} = {on_paper(left)}")
    if axle.doubt_kg is not None:
        lines.append(f"A gauge that reads 1 psi high would take {on_paper(Quantity(axle.doubt_kg, 'kg'))} off that")
    return lines


def _alike(axle: Axle) -> bool:
    loads = [wheel.load.each_kg for wheel in axle.wheels if isinstance(wheel.load, Carried)]
    return max(loads) - min(loads) < 1e-9


def normal_load_kg(axle: Axle, tables: Tables) -> float | None:
    """Largest normal load on one tire at the placard pressure, by the share of its rating that is allowed."""
    loads = [wheel.at_placard for wheel in axle.wheels if isinstance(wheel.at_placard, Carried)]
    share = tables.load_rules["normal_load_share"].value
    return normal_load_limit_kg(min(load.each_kg for load in loads), share) if len(loads) == len(axle.wheels) else None


def _normal_load(axle: Axle, us_rules: bool, tables: Tables) -> list[str]:
    limit_kg, row = normal_load_kg(axle, tables), tables.load_rules["normal_load_share"]
    if limit_kg is None or not us_rules:
        return []
    full = on_paper(Quantity(limit_kg / row.value, "kg"))
    return [
        f"Normal load, a few occupants: at most {row.value:g} × {full} = {on_paper(Quantity(limit_kg, 'kg'))} a tire "
        f"at the placard pressure ({row.source.title}); the car's own is not known here"
    ]


def load_at_symbol(wheel: Wheel, tables: Tables) -> tuple[Quantity, Quantity, float] | None:
    """The speed of a tire's symbol, the load it carries there, and the percentage; None where it is the full load."""
    speed, load = wheel.size.speed, wheel.size.load
    row = tables.speed_derating.get(speed.symbol) if speed else None
    if row is None or speed is None or load is None or wheel.size.marking.bracketed:
        return None
    at_kg = load_at_speed_kg(load.load_kg, speed.speed_kmh, row.full_load_to_kmh, row.at_kmh, row.percent)
    return Quantity(speed.speed_kmh, "km/h"), Quantity(at_kg, "kg"), row.percent


def _at_speed(axle: Axle, tables: Tables) -> list[str]:
    lines = {}
    for wheel in axle.wheels:
        found = load_at_symbol(wheel, tables)
        if found and wheel.size.load and wheel.size.speed:
            speed, load, percent = found
            full = on_paper(Quantity(wheel.size.load.load_kg, "kg"))
            lines[wheel.size.speed.symbol] = (
                f"At the symbol's own speed, {axle.part.audience.both(speed)}, a {wheel.size.speed.symbol} tire "
                f"carries {percent:g} %: {full} × {percent / 100:g} = {on_paper(load)}; for choosing, not for driving"
            )
    return list(lines.values())
