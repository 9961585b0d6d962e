"""What does the placard ask for? Its sizes and cold pressures read out, with the certification label's axle ratings."""

from collections.abc import Iterator

import msgspec

from studio.decide.audience import Audience, unique_sources
from studio.decide.markings import read
from studio.decide.wording import joined, plain
from studio.model.car import Placard, PlacardTire
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, as_steps
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC, SUBJECT = "placard", "car"
LINES = ("front", "rear", "spare")
PLACARD = Source(title="the vehicle's placard", locator="as entered", standing="published, restated")
LABEL = Source(title="the vehicle's certification label", locator="axle ratings, as entered",
               standing="published, restated")  # fmt: skip


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """The placard's lines and the axle ratings."""

    audience: Audience
    placard: Placard
    front_rating: Quantity | None
    rear_rating: Quantity | None

    @property
    def lines(self) -> tuple[tuple[str, PlacardTire], ...]:
        """The lines that say something, by front, rear and spare."""
        all_ = ((name, getattr(self.placard, name)) for name in LINES)
        return tuple((name, line) for name, line in all_ if line.marking.strip() or line.pressure)


def parts(episode: Episode, _: Tables) -> Iterator[Part]:
    """One part where anything of the placard was entered."""
    car = episode.car
    part = Part(audience=Audience.of(episode), placard=car.placard, front_rating=car.front_axle_rating,
                rear_rating=car.rear_axle_rating)  # fmt: skip
    if part.lines:
        yield part


def conclude(part: Part, tables: Tables) -> Finding:
    """The placard, read out."""
    caution, cold, sidewall = (
        tables.cautions["inflating"], tables.pressure["cold_parked_hours"], tables.myths["sidewall_pressure"]
    )  # fmt: skip
    first = next((line.pressure for _, line in part.lines if line.pressure), None)
    rating = (LABEL,) if part.front_rating or part.rear_rating else ()
    return Finding(
        id=f"{TOPIC}.{SUBJECT}", topic=TOPIC, subject=SUBJECT, sentence=_sentence(part),
        value=first.value if first else None, unit=first.unit if first else None,
        steps=as_steps(_working(part, tables)),
        inputs=_inputs(part), sources=unique_sources(PLACARD, *rating, cold.source, sidewall.source, caution.source),
        warning=caution, missing=_missing(part), figures=_figures(part), detail=_detail(part, tables),
    )  # fmt: skip


def _sentence(part: Part) -> str:
    asked = {name: line.pressure for name, line in part.lines if line.pressure}
    front, rear, spare = (asked.get(name) for name in LINES)
    also = f"; {part.audience.own(spare)} in the spare" if spare else ""
    if front and rear and part.audience.own(front) == part.audience.own(rear):
        return f"The placard asks for {part.audience.both(front)} cold, front and rear{also}."
    if front or rear:
        said = [f"{part.audience.own(asked[name])} {name}" for name in ("front", "rear") if name in asked]
        return f"The placard asks for {joined(said)}, cold{also}."
    if spare:
        return f"The placard asks for {part.audience.both(spare)} cold in the spare; the other pressures are missing."
    sizes = dict.fromkeys(_size(line) for _, line in part.lines)
    return f"The placard asks for {joined(list(sizes)[:2])}; its cold pressures are not entered yet."


def _size(line: PlacardTire) -> str:
    """The designation; text that is none as a short line."""
    marking = read(line.marking)
    return marking.size if marking else plain(line.marking)


def _working(part: Part, tables: Tables) -> tuple[str, ...]:
    lines = []
    for name, line in part.lines:
        said = [plain(line.marking)] if line.marking.strip() else []
        said += [f"{part.audience.both(line.pressure)} cold"] if line.pressure else []
        lines.append(f"Placard, {name}: {', '.join(said)}")
    for name, rating in (("front", part.front_rating), ("rear", part.rear_rating)):
        lines += [f"Certification label, {name} axle: {part.audience.both(rating)}"] if rating else []
    cold, sidewall = tables.pressure["cold_parked_hours"], tables.myths["sidewall_pressure"]
    lines.append(f"Cold: parked {cold.value:g} hours or more ({cold.source.standing})")
    lines.append(f"The number on the sidewall: {sidewall.correct}")
    return tuple(lines)


def _inputs(part: Part) -> tuple[str, ...]:
    paths = []
    for name, line in part.lines:
        paths += [f"car.placard.{name}.marking"] if line.marking.strip() else []
        paths += [f"car.placard.{name}.pressure"] if line.pressure else []
    paths += ["car.front_axle_rating"] if part.front_rating else []
    paths += ["car.rear_axle_rating"] if part.rear_rating else []
    return tuple(paths)


def _missing(part: Part) -> tuple[str, ...]:
    """What front and rear lack; a placard need not tell of a spare."""
    found = []
    for name in ("front", "rear"):
        line = getattr(part.placard, name)
        found += [] if line.marking.strip() else [f"the placard's {name} size"]
        found += [] if line.pressure else [f"the placard's {name} cold pressure"]
    return tuple(found)


def _figures(part: Part) -> tuple[Figure, ...]:
    figures = [
        Figure(name=f"{name}_pressure", label=f"cold placard pressure, {name}", quantity=line.pressure)
        for name, line in part.lines
        if line.pressure
    ]
    for name, rating in (("front", part.front_rating), ("rear", part.rear_rating)):
        if rating:
            figures.append(Figure(name=f"{name}_axle_rating", label=f"{name} axle rating", quantity=rating))
    return tuple(figures)


def _detail(part: Part, tables: Tables) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    pairs = {f"{name}_size": _size(line) for name, line in part.lines}
    pairs |= {f"{name}_marking": plain(line.marking) for name, line in part.lines}
    hours = tables.pressure["cold_parked_hours"].value
    pairs |= {"cold": f"parked {hours:g} hours or more", "sidewall": tables.myths["sidewall_pressure"].correct}
    return tuple((name, text) for name, text in pairs.items() if text)
