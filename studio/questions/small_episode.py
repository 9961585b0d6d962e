"""Facts of a comment as a small episode, for the same decisions as the presenter's own; and their findings."""

import datetime as dt
import re

import msgspec

from studio.decide import TOPICS
from studio.decide.bounds import check
from studio.model.car import Car, Drivetrain, Placard, PlacardTire
from studio.model.circumstances import Circumstances
from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.model.places import AXLES, ON_CAR, Place
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Damage, DepthUnit, Gauge, PressureReading, Season, Specimen, TreadPattern
from studio.model.specimen import Reading as GaugeReading
from studio.questions.answer_values import Viewer
from studio.questions.facts import Fact

YOUR_TIRE = "your tire"
DEFAULT: DepthUnit = "mm"
_NAMED = re.compile(r"“((?:your|each|the) [a-z ]+)”")
_SENTENCES = ("undated", "unplaced")
_ONE_OF: dict[str, str] = {
    "new_one": "the new tire",
    "others": "each of the others",
    "left": "the left tire",
    "right": "the right tire",
    "all": "each tire",
}


def episode_of(
    viewer: Viewer, specimens: tuple[Specimen, ...] = (), car: Car | None = None, around: Circumstances | None = None
) -> Episode:
    """An episode that holds no more than the viewer said."""
    return Episode(
        title="a viewer's question",
        on=viewer.on,
        region=viewer.region,
        units=viewer.units,
        car=car or car_of(viewer),
        specimens=specimens,
        circumstances=around or Circumstances(),
    )


def conclude(episode: Episode, topic: str, viewer: Viewer) -> tuple[Finding, ...]:
    """The findings of one topic on the episode, in words for a viewer."""
    decide = next(each for each in TOPICS if each.id == topic).decide
    return tuple(_for_viewer(finding) for finding in decide(episode, viewer.tables))


def name_of(fact: Fact) -> str:
    """How a sentence names the tire that a fact speaks of."""
    for axle in ("front", "rear"):
        if set(AXLES[axle]) == set(fact.where) & set(AXLES[axle]) and len(fact.where) == 2:
            return f"each {axle} tire"
    return next((_ONE_OF[word] for word in fact.where if word in _ONE_OF), YOUR_TIRE)


def _for_viewer(finding: Finding) -> Finding:
    return msgspec.structs.replace(
        finding,
        sentence=_plain(finding.sentence),
        steps=tuple(
            msgspec.structs.replace(step, text=_plain(step.text), sum=_unquoted(step.sum)) for step in finding.steps
        ),
        would_change=tuple(_plain(line) for line in finding.would_change),
        detail=tuple((name, _plain(text) if name in _SENTENCES else text) for name, text in finding.detail),
    )


def _plain(line: str) -> str:
    text = _unquoted(line)
    return text[:1].upper() + text[1:]


def _unquoted(text: str) -> str:
    """Without the quotes that a tire's own name has: the viewer's tire has none."""
    return _NAMED.sub(r"\1", text)


def car_of(viewer: Viewer, **placard: PlacardTire) -> Car:
    """The car as far as the comment tells of it; else the episode's where the comment is about that car."""
    own = viewer.episode.car if viewer.episode else Car()
    car = msgspec.structs.replace(own, drivetrain=drivetrain_of(viewer) or own.drivetrain)
    if not placard:
        return car
    lines = {line: placard.get(line, getattr(own.placard, line)) for line in ("front", "rear", "spare")}
    return msgspec.structs.replace(car, placard=Placard(**lines))


def drivetrain_of(viewer: Viewer) -> Drivetrain | None:
    """The drivetrain that the comment names."""
    words = viewer.reading.words("drivetrain")
    return msgspec.convert(words[0], Drivetrain) if words else None


def season_of(viewer: Viewer) -> Season:
    """What the tires are made for; a comment that asks about winter is held against winter's marks."""
    words = viewer.reading.words("season")
    if words:
        season: Season = msgspec.convert(words[0], Season)
        return season
    return "winter" if viewer.reading.first("use") else "all_season"


def tread_of(viewer: Viewer) -> TreadPattern:
    """The kind of tread."""
    words = viewer.reading.words("tread")
    if {"directional", "asymmetric"} <= set(words):
        return "asymmetric_directional"
    return msgspec.convert(words[0], TreadPattern) if words else "plain"


def marking_of(viewer: Viewer) -> str:
    """The one size that the comment names; empty where it names none or several."""
    words = [word for word in viewer.reading.words("size") if not word.startswith("T")]
    return words[0] if len(words) == 1 else ""


def code_of(viewer: Viewer) -> str:
    """The one date code that the comment names."""
    words = viewer.reading.words("date_code")
    return words[0] if len(words) == 1 else ""


def gauge_for(value: Quantity) -> Gauge:
    """The precision with which a depth was said: whole 32nds or millimeters, or a tenth."""
    whole = abs(value.value - round(value.value)) < 1e-9
    step = 1.0 if whole else 0.5 if value.unit == "32nds" else 0.1
    return Gauge(name="as said", resolution=depth(step, "32nds" if value.unit == "32nds" else "mm"))


def in_depth_unit(value: Quantity) -> tuple[float, DepthUnit]:
    """A depth in the unit of a reading."""
    if value.unit == "32nds":
        return value.value, "32nds"
    return (value.value, "mm") if value.unit == "mm" else (value.to("32nds").value, "32nds")


def tire(
    viewer: Viewer,
    *,
    name: str = YOUR_TIRE,
    place: Place = "bench",
    at: Quantity | None = None,
    air: PressureReading | None = None,
    odometer: Quantity | None = None,
    damage: tuple[Damage, ...] = (),
    earlier: tuple[GaugeReading, ...] = (),
    depth_new: Quantity | None = None,
    marking: str = "",
    date_code: str = "",
) -> Specimen:
    """One tire of the viewer's."""
    reading = reading_of(viewer.on, place, at, air=air, odometer=odometer, damage=damage)
    return Specimen(
        id=place if place != "bench" else "tire",
        place=place,
        name=name,
        marking=marking,
        date_code=date_code,
        tread=tread_of(viewer),
        season=season_of(viewer),
        depth_new=depth_new,
        readings=(*earlier, *((reading,) if reading else ())),
    )


def reading_of(
    on: dt.date,
    place: Place,
    at: Quantity | None,
    *,
    air: PressureReading | None = None,
    odometer: Quantity | None = None,
    damage: tuple[Damage, ...] = (),
) -> GaugeReading | None:
    """One reading; None where nothing was read."""
    if at is None and air is None and not damage:
        return None
    value, unit = in_depth_unit(at) if at is not None else (None, DEFAULT)
    return GaugeReading(
        on=on,
        place=place,
        gauge=gauge_for(at or depth(1.0, "mm")),
        unit=unit,
        odometer=odometer,
        pressure=air,
        damage=damage,
        depths=((value,),) if value is not None else (),
    )


def place_of(fact: Fact) -> Place | None:
    """The one place of the car that the fact speaks of."""
    places = [word for word in fact.where if word in ON_CAR]
    return msgspec.convert(places[0], Place) if len(places) == 1 else None


def possible(viewer: Viewer, facts: tuple[Fact, ...], bound: str) -> tuple[tuple[Fact, ...], tuple[str, ...]]:
    """(the facts that can be, sentences on those that cannot)."""
    kept, wrong = [], []
    for fact in facts:
        try:
            check(bound, fact.quantity, viewer.tables)
            kept.append(fact)
        except ValueError as error:
            wrong.append(str(error))
    return tuple(kept), tuple(wrong)
