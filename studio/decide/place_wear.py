"""What each place on the car takes off a tire, from all readings of the tires that are like those on it."""

from collections.abc import Iterator, Mapping
from functools import cached_property
from statistics import fmean

import msgspec

from studio.decide.car_log import bare, car_log
from studio.decide.gauge import doubt
from studio.decide.measured import Measured
from studio.decide.sizes import same_size, size_of
from studio.decide.subjects import Tire
from studio.decide.topic import remembered
from studio.decide.whereabouts import Traced, Way, traced
from studio.model.episode import Episode
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import UnitName
from studio.reference.tables import Tables
from studio.tires.rotation_plan import Rates
from studio.tires.wear_rate import PlaceRates, Visit, rates_by_place

FEW = "two readings with odometer of tires that stood at the front, and of tires that stood at the rear"
LITTLE = "more wear at the front and at the rear than the gauge can blur"
Four = tuple[float, float, float, float]
_AXLE_OF: dict[str, str] = {place: axle for axle, places in AXLES.items() for place in places}


class Seen(msgspec.Struct, frozen=True, kw_only=True):
    """One reading of one tire, in mm, and how far it had rolled at each place by then."""

    mean_mm: float
    lowest_mm: float
    half_mm: float
    rolled: tuple[tuple[str, float], ...]


class PlaceWear(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """Wear in mm for one unit of distance, of the mean depth and of the lowest spot, with half widths.

    The four numbers of each are in the order of ``CORNERS``. ``by_axle`` says that left and right of an axle were taken
    to wear alike, as the readings cannot tell them apart.
    """

    unit: UnitName
    means: Four
    lowests: Four
    mean_halves: Four
    lowest_halves: Four
    by_axle: bool

    @cached_property
    def mean(self) -> Mapping[str, float]:
        """What each place takes off the mean depth."""
        return dict(zip(CORNERS, self.means, strict=True))

    @cached_property
    def lowest(self) -> Mapping[str, float]:
        """What each place takes off the lowest spot."""
        return dict(zip(CORNERS, self.lowests, strict=True))

    @cached_property
    def mean_half(self) -> Mapping[str, float]:
        """The half widths of ``mean``."""
        return dict(zip(CORNERS, self.mean_halves, strict=True))

    def rates(self, factor: float = 1.0) -> Rates:
        """The rates for a plan, for a unit of distance that is ``factor`` of this one's."""
        return self.shifted(0.0, 0.0, factor)

    def shifted(self, front: float, rear: float, factor: float = 1.0) -> Rates:
        """The rates with the front and the rear moved by so many of their half widths, never below 0."""
        by = (front, front, rear, rear)
        mean, lowest = (
            [max(0.0, rate + n * half) * factor for rate, n, half in zip(rates, by, halves, strict=True)]
            for rates, halves in ((self.means, self.mean_halves), (self.lowests, self.lowest_halves))
        )
        return Rates(mean=dict(zip(CORNERS, mean, strict=True)), lowest=dict(zip(CORNERS, lowest, strict=True)))

    @property
    def whole(self) -> float:
        """The mean over the four corners of what the lowest spot loses: what a tire loses that goes round the car."""
        return sum(self.lowests) / len(CORNERS)


class Grounds(msgspec.Struct, frozen=True, kw_only=True, cache_hash=True):
    """The wear by place, or in words what keeps it from being known, and what it was found from.

    ``words`` and ``paths`` are the tires and their readings, ``assumed`` what was taken for granted, ``share`` how much
    of what the car runs the tires on it now have run themselves.
    """

    wear: PlaceWear | str
    words: tuple[str, ...]
    paths: tuple[str, ...]
    assumed: tuple[str, ...]
    share: float


def grounds(episode: Episode, tables: Tables) -> Grounds:
    """The wear by place from the tires that stood on the car and are of the size, season and tread of those on it now.

    For the same readings and rotations from memory.
    """
    return _remembered(bare(episode), tables)


def _grounds(episode: Episode, tables: Tables) -> Grounds:
    every = traced(episode, tables)
    on_car = [its.tire for its in every if its.tire.specimen.place in CORNERS]
    rolled = [its for its in every if len(its.way.stages) > 1 and its.way.rolled[-1] > 0]
    found = [its for its in rolled if any(_alike(its.tire, other, tables) for other in on_car)]
    seen = tuple(run for its in found for run in _unbroken(its.way, its.history, tables))
    return Grounds(
        wear=_fitted(seen, car_log(episode, tables).unit, tables), share=_share(every),
        words=tuple(its.tire.subject.words for its in found),
        paths=tuple(f"{its.history[stage.number].path}.depths" for its in found for stage in its.way.stages),
        assumed=tuple(dict.fromkeys(text for its in found for text in its.way.assumed)),
    )  # fmt: skip


def _share(every: tuple[Traced, ...]) -> float:
    """The mean share of the car's distance over the tires at the corners that rolled at all."""
    ways = [its.way for its in every if its.tire.specimen.place in CORNERS and its.way.driven > 0]
    return min(1.0, fmean(way.rolled[-1] / way.driven for way in ways)) if ways else 1.0


_remembered = remembered(_grounds, most=8)


def _alike(tire: Tire, other: Tire, tables: Tables) -> bool:
    one, two = size_of(tire.specimen.marking, tables), size_of(other.specimen.marking, tables)
    if tire is other:
        return True
    kinds = [(t.specimen.season, t.specimen.tread) for t in (tire, other)]
    return kinds[0] == kinds[1] and one is not None and two is not None and same_size(one.marking, two.marking)


def _unbroken(its: Way, treads: tuple[Measured, ...], tables: Tables) -> Iterator[tuple[Seen, ...]]:
    """The readings in runs in between which the places are known; each run counts as a tire of its own."""
    run: list[Seen] = []
    for stage, rolled in zip(its.stages, its.by_place(), strict=True):
        if run and any(not stretch.place for stretch in stage.since):
            yield tuple(run)
            run = []
        tread = treads[stage.number]
        run.append(
            Seen(
                mean_mm=tread.mean().to("mm").value, lowest_mm=tread.depth(tread.lowest.value).to("mm").value,
                half_mm=doubt(tread.reading.gauge, tables).half_width.to("mm").value,
                rolled=tuple((place, far) for place, far in rolled.items() if place),
            )
        )  # fmt: skip
    yield tuple(run)


def _fitted(seen: tuple[tuple[Seen, ...], ...], unit: UnitName, tables: Tables) -> PlaceWear | str:
    """The wear by place, by axle where the places cannot be told apart; or in words what keeps it from being known."""
    coverage = tables.measuring["coverage_factor"].value
    by_place = _fit(seen, unit, CORNERS, {place: place for place in CORNERS}, coverage)
    return by_place if isinstance(by_place, PlaceWear) else _fit(seen, unit, tuple(AXLES), _AXLE_OF, coverage)


def _fit(
    tires: tuple[tuple[Seen, ...], ...], unit: UnitName, names: tuple[str, ...], name_of: Mapping[str, str],
    coverage: float,
) -> PlaceWear | str:  # fmt: skip
    """Both fits with the corners under the names that ``name_of`` gives them."""
    mean, lowest = (
        rates_by_place([[_visit(seen, depth, name_of) for seen in tire] for tire in tires], names)
        for depth in ("mean_mm", "lowest_mm")
    )
    if mean is None or lowest is None:
        return FEW
    if any(fit.rate[name] <= fit.half(name, coverage) for fit in (mean, lowest) for name in names):
        return LITTLE
    return PlaceWear(
        unit=unit, by_axle=len(names) < len(CORNERS), means=_four(mean.rate, name_of),
        lowests=_four(lowest.rate, name_of), mean_halves=_halves(mean, name_of, coverage),
        lowest_halves=_halves(lowest, name_of, coverage),
    )  # fmt: skip


def _visit(seen: Seen, depth: str, name_of: Mapping[str, str]) -> Visit:
    rolled: dict[str, float] = {}
    for place, far in seen.rolled:
        rolled[name_of[place]] = rolled.get(name_of[place], 0.0) + far
    return Visit(depth=getattr(seen, depth), half=seen.half_mm, rolled=rolled)


def _four(by_name: Mapping[str, float], name_of: Mapping[str, str]) -> Four:
    left, right, rear_left, rear_right = (by_name[name_of[place]] for place in CORNERS)
    return left, right, rear_left, rear_right


def _halves(fit: PlaceRates, name_of: Mapping[str, str], coverage: float) -> Four:
    return _four({name: fit.half(name, coverage) for name in fit.rate}, name_of)
