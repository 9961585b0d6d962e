"""How far one tire rolled between its readings, and at which places: the car's odometer, less what it did not see."""

import itertools
from collections.abc import Iterator
from functools import cached_property

import msgspec

from studio.decide.car_log import CarLog, Move, Sighting, bare, car_log
from studio.decide.measured import Measured, history
from studio.decide.subjects import Tire, tires
from studio.decide.topic import remembered
from studio.model.episode import Episode
from studio.model.places import CORNERS, ON_CAR
from studio.model.quantity import UnitName
from studio.reference.tables import Tables

_SAME = 1e-6
CHANGED_OVER = "assumed: tires were changed over when they were measured, so only what it ran itself counts"
MOVED = "assumed: where no rotation is entered, a tire went to its next place right after its reading"
NOT_SEEN = "assumed: from a reading off the car to the next one on it, it had not rolled yet"


class Stretch(msgspec.Struct, frozen=True):
    """A distance rolled at one corner of the car; ``place`` is empty where it was not known which."""

    place: str
    distance: float


class Stage(msgspec.Struct, frozen=True, kw_only=True):
    """One reading with the car's odometer: its number in the tire's history, where it stood, where it had rolled."""

    number: int
    place: str
    odometer: float
    since: tuple[Stretch, ...] = ()


class Way(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """A tire's way through its readings, distances in ``unit``. ``assumed`` says what was taken for granted."""

    unit: UnitName
    stages: tuple[Stage, ...] = ()
    assumed: tuple[str, ...] = ()
    backward: bool = False
    """Whether an odometer reading is below an earlier one, so that no distance can be told."""

    @cached_property
    def rolled(self) -> tuple[float, ...]:
        """The distance rolled by each stage, from the first on."""
        steps = (sum(stretch.distance for stretch in stage.since) for stage in self.stages)
        return tuple(itertools.accumulate(steps))

    @cached_property
    def driven(self) -> float:
        """What the car ran from the first to the last stage on the car: the tire's own distance is part of it."""
        on_car = [stage.odometer for stage in self.stages if stage.place in CORNERS]
        return on_car[-1] - on_car[0] if on_car else 0.0

    def by_place(self) -> tuple[dict[str, float], ...]:
        """For each stage, how far it had rolled at each place since the first."""
        total: dict[str, float] = {}
        found = []
        for stage in self.stages:
            for stretch in stage.since:
                total[stretch.place] = total.get(stretch.place, 0.0) + stretch.distance
            found.append(dict(total))
        return tuple(found)


class Traced(msgspec.Struct, frozen=True, kw_only=True):
    """A tire with its readings that hold a depth, oldest first, and its way through them."""

    tire: Tire
    history: tuple[Measured, ...]
    way: Way


def traced(episode: Episode, tables: Tables) -> tuple[Traced, ...]:
    """All tires of the episode with their ways; for the same readings and rotations from memory."""
    return _remembered(bare(episode), tables)


def _traced(episode: Episode, tables: Tables) -> tuple[Traced, ...]:
    log, found = car_log(episode, tables), []
    for tire in tires(episode):
        treads = history(tire.specimen, tire.subject.path, episode.on)
        found.append(Traced(tire=tire, history=treads, way=_way(tire, treads, log)))
    return tuple(found)


_remembered = remembered(_traced, most=8)


def _way(tire: Tire, treads: tuple[Measured, ...], log: CarLog) -> Way:
    """The way of one tire; of two readings on one day the one entered last counts."""
    me = int(tire.subject.path.removeprefix("specimens[").removesuffix("]"))
    last_of_day = {tread.reading.on: (number, tread) for number, tread in enumerate(treads)}
    dated = [(n, tread, at) for n, tread in last_of_day.values() if (at := log.odometer(tread.reading)) is not None]
    if any(b < a - _SAME for (*_, a), (*_, b) in itertools.pairwise(dated)):
        return Way(unit=log.unit, backward=True)
    stages = [Stage(number=n, place=tread.reading.place, odometer=at) for n, tread, at in dated[:1]]
    assumed: dict[str, None] = {}
    for (_, before, start), (n, after, end) in itertools.pairwise(dated):
        between = _Between(log, me, before, after, start, end)
        since = tuple(between.stretches())
        stages.append(Stage(number=n, place=after.reading.place, odometer=end, since=since))
        assumed |= dict.fromkeys(between.assumed)
    return Way(unit=log.unit, stages=tuple(stages), assumed=tuple(assumed))


Span = tuple[str, float, float]


class _Between:
    """What a tire did between two of its readings."""

    def __init__(self, log: CarLog, me: int, before: Measured, after: Measured, start: float, end: float) -> None:
        self.log, self.me, self.start, self.end = log, me, start, end
        self.here, self.there = before.reading.place, after.reading.place
        self.days = (before.reading.on, after.reading.on)
        self.moves = tuple((at, move) for move in log.moves if (at := self._when(move)) is not None)
        self.assumed: list[str] = []

    def stretches(self) -> Iterator[Stretch]:
        """The distances at the corners, in order."""
        for place, start, end in self._spans():
            if place not in ("spare", "bench") and end - start > _SAME:
                yield Stretch(place, end - start)

    def _spans(self) -> list[Span]:
        if self.here in ON_CAR and (path := self._path()) is not None:
            return self._without(path, self._seen_instead(path))
        if self.here in CORNERS and self.there in CORNERS:
            return self._moved()
        if self.here in ON_CAR:
            return self._taken_off()
        return self._put_on() if self.there in CORNERS else []

    def _when(self, move: Move) -> float | None:
        """The odometer of a rotation between the two readings, by its date where none is entered; None for another."""
        first, last = self.days
        if not first <= move.on <= last:
            return None
        if move.odometer is None:
            share = (move.on - first) / (last - first) if last > first else 0.0
            return self.start + share * (self.end - self.start)
        return move.odometer if self.start - _SAME <= move.odometer <= self.end + _SAME else None

    def _path(self) -> list[Span] | None:
        """Its places by the rotations in between, if they lead from the one reading to the other.

        A rotation at a reading's own odometer is tried as done after the first and before the second one, then the
        other ways.
        """
        for early, late in ((True, False), (True, True), (False, False), (False, True)):
            low, high = self.start + (-_SAME if early else _SAME), self.end + (_SAME if late else -_SAME)
            spans = self._follow([(at, move) for at, move in self.moves if low <= at <= high])
            if spans[-1][0] == self.there:
                return spans
        return None

    def _follow(self, moves: list[tuple[float, Move]]) -> list[Span]:
        place, since, spans = str(self.here), self.start, []
        for at, move in moves:
            spans.append((place, since, at))
            since = at
            if place and move.pattern is not None:
                place = move.pattern.moves.get(place, place)
            else:
                place = self.there if at == moves[-1][0] else ""
        return [*spans, (place, since, self.end)]

    def _seen_instead(self, spans: list[Span]) -> list[Sighting]:
        """Other tires that were seen where this one should have stood, between the two readings, in order."""
        return sorted(
            sighting
            for place, start, end in spans
            if place in CORNERS
            for sighting in self.log.others_at(place, self.me, start, end)
            if self.start + _SAME < sighting.odometer < self.end - _SAME
        )

    def _without(self, spans: list[Span], seen: list[Sighting]) -> list[Span]:
        """The spans less the time in which others stood there: from the reading before to the last of them."""
        if not seen:
            return spans
        self.assumed.append(CHANGED_OVER)
        off = seen[0].odometer if seen[0].new else self.start
        back = seen[-1].odometer
        return [*((p, a, min(b, off)) for p, a, b in spans), *((p, max(a, back), b) for p, a, b in spans)]

    def _moved(self) -> list[Span]:
        """From one corner to another by no rotation that is entered; off the car where others stood at both."""
        here, there = (self._seen_instead([(place, self.start, self.end)]) for place in (self.here, self.there))
        both = {sighting.odometer for sighting in here}
        self.assumed.append(MOVED)
        return self._without(
            [(self.there, self.start, self.end)], [sighting for sighting in there if sighting.odometer in both]
        )

    def _taken_off(self) -> list[Span]:
        """On the car until another tire is seen in its place, else until it was read off the car."""
        spans = self._follow([(at, move) for at, move in self.moves if at < self.end - _SAME])
        if not any(place in CORNERS for place, _, _ in spans):
            return []
        place, last = spans[-1][0], self.end
        found = [*self._seen_instead(spans), *self.log.others_at(place, self.me, self.end, self.end)]
        if spans[0][1] == self.start:
            found = [*self.log.others_at(spans[0][0], self.me, self.start, self.start), *found]
        if found:
            self.assumed.append(CHANGED_OVER)
            last = found[0].odometer if found[0].new else self.start
        return [(place, start, min(end, last)) for place, start, end in spans]

    def _put_on(self) -> list[Span]:
        """On the car from where another tire was last seen in its place; else not before it was seen there itself."""
        seen = [s for s in self.log.others_at(self.there, self.me, self.start, self.end) if s.odometer < self.end]
        self.assumed.append(CHANGED_OVER if seen else NOT_SEEN)
        return [(self.there, seen[-1].odometer if seen else self.end, self.end)]
