"""What an episode cannot hold: values that are physically impossible, or contradict each other, each with its path.

What is merely unusual (a tire of 1997, a reading above the depth when new) is no problem: findings remark on it.
"""

import datetime as dt
from collections.abc import Callable, Iterable, Iterator

from studio.decide import bounds
from studio.decide.wording import day_words, plain
from studio.model.car import Car, Placard
from studio.model.episode import Episode
from studio.model.places import place_words
from studio.model.problem import Problem
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Reading, Specimen
from studio.reference.tables import Tables

_CAR_FIELDS = {
    "front_axle_rating": "axle_rating", "rear_axle_rating": "axle_rating", "wheelbase": "wheelbase",
    "front_track": "track", "rear_track": "track", "wheel_nut_torque": "wheel_nut_torque",
    "rotation_interval": "rotation_interval", "front_rim_width": "rim_width", "rear_rim_width": "rim_width",
    "ground_clearance": "ground_clearance",
}  # fmt: skip
_CIRCUMSTANCES = {
    "filling_temperature": "temperature", "driving_temperature": "temperature", "filling_altitude": "altitude",
    "driving_altitude": "altitude", "speed": "speed", "water_depth": "water_depth", "texture_depth": "texture_depth",
    "rain": "rain", "drainage_length": "drainage_length", "road_slope": "road_slope",
    "yearly_distance": "yearly_distance",
}  # fmt: skip
Found = Iterator[Problem]


def problems(episode: Episode, tables: Tables) -> tuple[Problem, ...]:
    """All problems of an episode, in its own order; empty where it holds nothing impossible."""
    return tuple(_all(episode, tables))


def _all(episode: Episode, tables: Tables) -> Found:
    if episode.region not in tables.regions:
        yield Problem("region", f"{episode.region!r} was read; expected one of {', '.join(tables.regions)}")
    yield from _car(episode.car, episode.on, tables)
    yield from _circumstances(episode, tables)
    yield from _twice("specimens", (specimen.id for specimen in episode.specimens))
    yield from _one_at_a_place(episode.specimens)
    for index, specimen in enumerate(episode.specimens):
        yield from _specimen(f"specimens[{index}]", specimen, episode.on, tables)
    yield from _twice("rundown.segments", (segment.id for segment in episode.rundown.segments))
    yield from _twice("questions", (question.id for question in episode.questions))


def _try(path: str, check: Callable[[], None]) -> Found:
    try:
        check()
    except ValueError as error:
        yield Problem(path, str(error))


def _bounded(path: str, name: str, quantity: Quantity | None, tables: Tables) -> Found:
    if quantity is not None:
        yield from _try(path, lambda: bounds.check(name, quantity, tables))


def _car(car: Car, on: dt.date, tables: Tables) -> Found:
    yield from _placard(car.placard, tables)
    for field, name in _CAR_FIELDS.items():
        yield from _bounded(f"car.{field}", name, getattr(car, field), tables)
    if car.tolerance is not None:
        tolerance = car.tolerance
        yield from _try("car.tolerance.limit", lambda: bounds.check_tolerance(tolerance, tables))
    for index, done in enumerate(car.rotations):
        path = f"car.rotations[{index}]"
        yield from _not_after(f"{path}.on", "rotation", done.on, on)
        yield from _bounded(f"{path}.odometer", "odometer", done.odometer, tables)


def _circumstances(episode: Episode, tables: Tables) -> Found:
    around = episode.circumstances
    for field, name in _CIRCUMSTANCES.items():
        yield from _bounded(f"circumstances.{field}", name, getattr(around, field), tables)
    for index, size in enumerate(around.sizes_wished):
        yield from _marking(f"circumstances.sizes_wished[{index}]", size)
    yield from _bounded("prices.used_tire_depth", "depth", episode.prices.used_tire_depth, tables)


def _placard(placard: Placard, tables: Tables) -> Found:
    for field in ("front", "rear", "spare"):
        line, path = getattr(placard, field), f"car.placard.{field}"
        yield from _marking(f"{path}.marking", line.marking)
        yield from _bounded(f"{path}.pressure", "pressure_placard", line.pressure, tables)


def _marking(path: str, text: str) -> Found:
    yield from _try(path, lambda: bounds.check_marking(text))


def _twice(path: str, ids: Iterable[str]) -> Found:
    seen: set[str] = set()
    for index, id_ in enumerate(ids):
        if id_ in seen:
            yield Problem(f"{path}[{index}].id", f"{id_!r} was read, which another one has; expected an id of its own")
        seen.add(id_)


def _one_at_a_place(specimens: tuple[Specimen, ...]) -> Found:
    first: dict[str, Specimen] = {}
    for index, specimen in enumerate(specimens):
        if specimen.place == "bench":
            continue
        other = first.setdefault(specimen.place, specimen)
        if other is not specimen:
            where = place_words(specimen.place)
            yield Problem(
                f"specimens[{index}].place",
                f"{where} was read, where tire {plain(other.name or other.id)} stands; expected one tire at a place",
            )


def _specimen(path: str, specimen: Specimen, on: dt.date, tables: Tables) -> Found:
    yield from _marking(f"{path}.marking", specimen.marking)
    yield from _try(f"{path}.date_code", lambda: bounds.check_date_code(specimen.date_code, on))
    yield from _bounded(f"{path}.depth_new", "depth_new", specimen.depth_new, tables)
    yield from _bounded(f"{path}.max_pressure", "max_pressure", specimen.max_pressure, tables)
    for index, reading in enumerate(specimen.readings):
        yield from _reading(f"{path}.readings[{index}]", reading, on, tables)


def _reading(path: str, reading: Reading, on: dt.date, tables: Tables) -> Found:
    yield from _not_after(f"{path}.on", "reading", reading.on, on)
    yield from _bounded(f"{path}.gauge.resolution", "resolution", reading.gauge.resolution, tables)
    yield from _grid(path, reading, tables)
    yield from _bounded(f"{path}.odometer", "odometer", reading.odometer, tables)
    if reading.pressure is not None:
        yield from _bounded(f"{path}.pressure.pressure", "pressure_read", reading.pressure.pressure, tables)
        yield from _bounded(f"{path}.pressure.temperature", "temperature", reading.pressure.temperature, tables)
    for index, damage in enumerate(reading.damage):
        yield from _bounded(f"{path}.damage[{index}].size", "damage_size", damage.size, tables)


def _grid(path: str, reading: Reading, tables: Tables) -> Found:
    lengths = {len(groove) for groove in reading.depths}
    if len(lengths) > 1:
        counts = ", ".join(str(len(groove)) for groove in reading.depths)
        yield Problem(f"{path}.depths", f"{counts} places were read in the grooves; expected the same number in each")
    bound = tables.bounds["depth"]
    low, high = bounds.depth_bounds(reading.unit, bound)
    for g, groove in enumerate(reading.depths):
        for s, value in enumerate(groove):
            if value is not None and not low <= value <= high:
                yield Problem(f"{path}.depths[{g}][{s}]", _deep(value, reading, tables))


def _deep(value: float, reading: Reading, tables: Tables) -> str:
    if value != value or value in (float("inf"), float("-inf")):
        return f"{value} was read; expected {tables.bounds['depth'].expected}"
    return bounds.outside(depth(value, reading.unit), tables.bounds["depth"])


def _not_after(path: str, what: str, day: dt.date, on: dt.date) -> Found:
    if day > on:
        yield Problem(
            path, f"{day_words(day)} was read; expected a {what} on or before the episode's date, {day_words(on)}"
        )
