"""An input of a finding in words: where it stands in the episode, and what stands there."""

import datetime as dt
from typing import Any

from studio.decide.measured import measured
from studio.decide.subjects import tires
from studio.decide.wording import day_words, plain
from studio.model.episode import Episode
from studio.model.paths import steps, value_at
from studio.model.quantity import Quantity, depth, format_number
from studio.model.source import Source
from studio.model.specimen import Damage, PressureReading, Reading

LONGEST_VALUE = 60
_PLACARD = {"front": "front", "rear": "rear", "spare": "spare"}
_FIELDS: dict[str, str] = {
    "on": "date of the episode", "region": "region whose limits apply", "units": "units", "title": "title",
    "car": "car", "name": "name", "drivetrain": "driven wheels", "certified_as": "kind of vehicle",
    "placard": "placard", "pressure": "cold pressure", "front_axle_rating": "front axle rating",
    "rear_axle_rating": "rear axle rating", "wheelbase": "wheelbase", "front_track": "front track",
    "rear_track": "rear track", "wheel_nut_torque": "wheel-nut torque",
    "tolerance": "manual's limit for unequal tires", "limit": "how much", "form": "stated as",
    "rotation_interval": "rotation interval", "rotations": "rotation", "odometer": "odometer", "pattern": "pattern",
    "marking": "marking", "date_code": "date code", "tread": "tread pattern", "season": "season",
    "depth_new": "depth when new", "max_pressure": "highest pressure on the sidewall",
    "place": "where it stands", "gauge": "gauge", "resolution": "smallest step",
    "unit": "unit", "note": "note", "damage": "damage", "kind": "kind", "zone": "where on the tire", "size": "size",
    "temperature": "air temperature", "readings": "readings", "depths": "depths", "specimens": "tires",
    "photos": "photos", "cold": "read cold", "front_rim_width": "front rim width", "rear_rim_width": "rear rim width",
    "ground_clearance": "ground clearance", "final_drive": "final drive ratio", "dual_rear_wheels": "dual rear wheels",
}  # fmt: skip
_AROUND: dict[str, str] = {
    "prices": "prices", "currency": "currency", "new_tire": "a new tire", "used_tire": "a used tire",
    "used_tire_depth": "tread on the used tire", "mounting": "mounting and balancing", "shaving": "shaving to match",
    "circumstances": "weather, road and driving", "filling_temperature": "air where tires are filled",
    "driving_temperature": "air where tires are driven", "filling_altitude": "height above sea where tires are filled",
    "driving_altitude": "height above sea where tires are driven", "speed": "speed spoken of",
    "water_depth": "water on the road", "texture_depth": "road's texture depth", "rain": "rain",
    "drainage_length": "water's way to the edge of the road", "road_slope": "slope across the road",
    "yearly_distance": "distance driven in a year", "sizes_wished": "size wished for",
}  # fmt: skip
Step = str | int


def input_words(episode: Episode, path: str) -> str:
    """``front left, reading of 14 Nov 2026, inner groove, place 2: 3/32 in``; the path itself if it leads nowhere."""
    try:
        found = value_at(episode, path)
    except (LookupError, ValueError):
        return path
    where = ", ".join(_where(episode, steps(path)))
    value = _depth_words(episode, path, found) if _is_depth(steps(path)) else value_words(found)
    if path.startswith("prices.") and isinstance(found, float):
        value = f"{value} {episode.prices.currency}"
    return f"{where}: {value}" if value else where


def source_words(source: Source) -> str:
    """A source with its standing: ``49 CFR 570.9, (a): published``."""
    where = "" if source.locator in ("", "none") else f", {source.locator}"
    return f"{source.title}{where}: {source.standing}"


def value_words(value: Any) -> str:
    """One value of an episode as a person reads it; empty for what is made of several values."""
    if isinstance(value, Quantity):
        return value.text()
    if isinstance(value, PressureReading):
        return value.pressure.text()
    if isinstance(value, Damage):
        return plain(value.kind.replace("_", " "))
    if isinstance(value, dt.date):
        return day_words(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return format_number(value, 2)
    if isinstance(value, str):
        return plain(value.replace("_", " "), LONGEST_VALUE) or "not given"
    return "not given" if value is None else ""


def _where(episode: Episode, path: tuple[Step, ...]) -> list[str]:
    if path[0] == "specimens" and len(path) > 1:
        subjects = {tire.subject.path: tire.subject.words for tire in tires(episode)}
        return [subjects[f"specimens[{path[1]}]"], *_in_specimen(episode, path)]
    if path[:2] == ("car", "placard"):
        return ["placard", *(_field(step) for step in path[2:] if step in _PLACARD), *_named(path[3:])]
    if path[0] in ("car", "prices", "circumstances") and len(path) > 1:
        return _named(path[1:])
    return _named(path)


def _in_specimen(episode: Episode, path: tuple[Step, ...]) -> list[str]:
    if len(path) < 4 or path[2] != "readings":
        return _named(path[2:])
    reading: Reading = value_at(episode, f"specimens[{path[1]}].readings[{path[3]}]")
    words = [f"reading of {day_words(reading.on)}"]
    rest = path[4:]
    if rest[:1] == ("depths",) and len(rest) > 1:
        return [*words, f"{_groove(reading, int(rest[1]))} groove", *(f"place {int(s) + 1}" for s in rest[2:3])]
    if rest[:1] == ("pressure",):  # one word for both a pressure and what was read with it; it need not be cold
        return [*words, *(["pressure"] if rest[1:] in ((), ("pressure",)) else _named(rest[1:]))]
    return [*words, *_named(rest)]


def _groove(reading: Reading, groove: int) -> str:
    held = measured("", reading)
    return held.groove_name(groove) if held else str(groove + 1)


def _named(path: tuple[Step, ...]) -> list[str]:
    """Fields by their words; a number counts the item of the list before it."""
    words: list[str] = []
    for step in path:
        if isinstance(step, int) and words:
            words[-1] = f"{words[-1]} {step + 1}"
        else:
            words.append(_field(step))
    return words


def _field(step: Step) -> str:
    return (_FIELDS | _AROUND).get(str(step), str(step).replace("_", " "))


def _is_depth(path: tuple[Step, ...]) -> bool:
    return len(path) == 7 and path[0] == "specimens" and path[4] == "depths"


def _depth_words(episode: Episode, path: str, value: float | None) -> str:
    reading: Reading = value_at(episode, path[: path.index(".depths")])
    return "not read" if value is None else depth(value, reading.unit).text()
