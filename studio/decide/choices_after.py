"""The car after a choice: where each tire goes, kept or bought, and how axles and set match then."""

import datetime as dt
from collections.abc import Iterator, Mapping

import msgspec
from msgspec.structs import replace

from studio.decide import matching
from studio.decide.choices_options import Change
from studio.decide.choices_read import Part, Stand
from studio.decide.matching_read import Match
from studio.decide.matching_read import Part as MatchPart
from studio.decide.matching_tires import Worn
from studio.decide.measured import Measured, Spot
from studio.decide.subjects import Subject
from studio.model.finding import SEVERITY, Verdict
from studio.model.places import AXLES, CORNERS, Place, place_words
from studio.model.quantity import depth
from studio.model.specimen import Gauge, Reading
from studio.reference.tables import Tables
from studio.tires.arrangement import arrange, axle_difference

_WITH_SIZE = ("size", "load index", "speed symbol")
_KNOWN = Gauge(resolution=depth(0.0, "mm"))
_NO_DAY = dt.date(1, 1, 1)
_SIDES: tuple[tuple[Place, ...], ...] = tuple(zip(AXLES["front"], AXLES["rear"], strict=True))
_GROUPS: tuple[tuple[str, tuple[Place, ...]], ...] = (
    ("front_axle", AXLES["front"]), ("rear_axle", AXLES["rear"]), ("set", CORNERS),
)  # fmt: skip


class Placed(msgspec.Struct, frozen=True, kw_only=True):
    """A tire after the choice: where it goes, where it stood (empty: bought), and its depths in mm."""

    place: Place
    origin: str
    worn: Worn
    mean_mm: float
    lowest_mm: float
    limit_mm: float
    half_mm: float = 0.0


class After(msgspec.Struct, frozen=True, kw_only=True):
    """The car after a change, its axles and the set held against the limits of the matching topic."""

    change: Change
    placed: tuple[Placed, ...]
    matches: tuple[Match, ...]

    @property
    def new_places(self) -> tuple[Place, ...]:
        """Where the bought tires go."""
        return tuple(tire.place for tire in self.placed if not tire.origin)

    def depths(self) -> dict[str, float]:
        """The mean depths by place."""
        return {tire.place: tire.mean_mm for tire in self.placed}


def match_verdict(match: Match) -> Verdict:
    """What limits and unlikeness come to; that front and rear call for a rotation is the rotation's matter."""
    found: list[Verdict] = [match.binding.verdict] if match.binding else []
    found += [match.unlike.verdict] if match.unlike.fields else []
    return max(found, default="keep", key=SEVERITY.index)


def best_after(part: Part, every: tuple[Stand, ...], changes: tuple[Change, ...], tables: Tables) -> After:
    """Of several changes the one that leaves the best match: across an axle first, then in the set; then the one that
    gives up the least tread.
    """
    laid = [(change, _lay_out(part, every, change)) for change in changes]

    def rank(it: tuple[Change, tuple[Placed, ...]]) -> tuple[float, float, float]:
        at: dict[str, float] = {tire.place: tire.mean_mm for tire in it[1]}
        spread, given_up = max(at.values()) - min(at.values()), sum(stand.usable_mm for stand in it[0].off)
        return axle_difference(at), spread, given_up

    change, placed = min(laid, key=rank)
    return After(change=change, placed=placed, matches=tuple(_matches(part, placed, tables)))


def _lay_out(part: Part, every: tuple[Stand, ...], change: Change) -> tuple[Placed, ...]:
    """Every tire at its place."""
    kept = {stand.name: stand for stand in every if stand not in change.off}
    mean = {name: change.shaved_mm if stand is change.shaved else stand.mean_mm for name, stand in kept.items()}
    mean |= {f"bought {stand.name}": change.bought_mm or 0.0 for stand in change.off}
    at = dict.fromkeys(mean, "")
    if change.stay or not kept:
        at = {name: name.removeprefix("bought ") for name in mean}
    else:
        may = {name: _may_stand(part, name, name in kept) for name in mean}
        at = arrange(mean, may, {name: name for name in kept}, _step(every)) or at
    return tuple(_placed(name, place, kept, change, every, at) for place, name in _by_place(at))


def _by_place(at: Mapping[str, str]) -> Iterator[tuple[Place, str]]:
    name_at = {place: name for name, place in at.items()}
    for place in CORNERS:
        yield place, name_at[place]


def _step(every: tuple[Stand, ...]) -> float:
    return max(stand.half_mm for stand in every)


def _may_stand(part: Part, name: str, on_car: bool) -> tuple[str, ...]:
    """Where a tire may go: one on the car keeps its side or axle where its tread or size asks for that."""
    place = name.removeprefix("bought ")
    axle = next(places for places in AXLES.values() if place in places)
    side = next(places for places in _SIDES if place in places)
    return tuple(
        p for p in CORNERS if (p in axle or not part.axle_bound) and (p in side or not (part.side_bound and on_car))
    )


def _placed(
    name: str, place: Place, kept: Mapping[str, Stand], change: Change, every: tuple[Stand, ...], at: Mapping[str, str]
) -> Placed:
    if name in kept:
        stand, shaved = kept[name], kept[name] is change.shaved
        words = place_words(name) if name == place else f"today's {place_words(name)}"
        subject = Subject(name=place, words=words, path=stand.worn.subject.path)
        lowest = min(change.shaved_mm, stand.lowest_mm) if shaved else stand.lowest_mm
        mean = change.shaved_mm if shaved else stand.mean_mm
        worn = replace(stand.worn, subject=subject, tread=_flat(mean, None if shaved else stand.worn.tread))
        return Placed(
            place=place, origin=name, worn=worn, mean_mm=mean, lowest_mm=lowest, limit_mm=stand.limit_mm,
            half_mm=stand.half_mm,
        )  # fmt: skip
    model, deep = _model(name, place, kept, every, at), change.bought_mm or 0.0
    subject = Subject(name=place, words=f"the {change.bought} tire {place_words(place)}", path=model.worn.subject.path)
    worn = replace(model.worn, subject=subject, tread=_flat(deep, None))
    if not kept:  # four that are bought together are of one kind, whatever kinds stand on the car today
        kind = every[0].worn
        worn = replace(worn, season=kind.season, pattern=kind.pattern)
    return Placed(place=place, origin="", worn=worn, mean_mm=deep, lowest_mm=deep, limit_mm=model.limit_mm)


def _model(
    name: str, place: Place, kept: Mapping[str, Stand], every: tuple[Stand, ...], at: Mapping[str, str]
) -> Stand:
    """The tire that a bought one is like: its mate on the axle, else the one it replaces; four are alike."""
    axle = next(places for places in AXLES.values() if place in places)
    mate = next((kept[n] for n, p in at.items() if n in kept and p in axle), None)
    own = next(stand for stand in every if stand.name == name.removeprefix("bought "))
    return mate or (own if kept else next(stand for stand in every if stand.name == axle[0]))


def _flat(depth_mm: float, read: Measured | None) -> Measured:
    """A tire by its mean depth, as a match compares it: as sure as its gauge, or known and not measured."""
    gauge = read.reading.gauge if read else _KNOWN
    reading = Reading(on=_NO_DAY, place="bench", gauge=gauge, unit="mm", depths=((depth_mm,),))
    return Measured(path="", reading=reading, spots=(Spot(0, 0, depth_mm),))


def _matches(part: Part, placed: tuple[Placed, ...], tables: Tables) -> Iterator[Match]:
    """Front, rear and set as the matching topic judges them."""
    worn = {tire.place: tire.worn for tire in placed}
    for name, places in _GROUPS:
        its = MatchPart(
            audience=part.audience, name=name, scope="set" if name == "set" else "axle", places=places,
            tires=tuple(worn[place] for place in places), drivetrain=part.drivetrain, tolerance=part.tolerance,
        )  # fmt: skip
        match = matching.read_part(its, tables)
        if match is not None:
            yield _by_design(match) if name == "set" and part.axle_bound else match


def _by_design(match: Match) -> Match:
    """A set whose front and rear sizes differ is unlike by design in what goes with the size."""
    fields = tuple(field for field in match.unlike.fields if field not in _WITH_SIZE)
    return replace(match, unlike=replace(match.unlike, fields=fields))
