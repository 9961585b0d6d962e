"""What is known: every number of the findings and what the episode itself gives, with what it is about and of whom."""

from collections.abc import Iterable, Iterator, Mapping

import msgspec

from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import Quantity, System, UnitError, UnitName
from studio.script.aspects import DIMENSION_OF, Dimension, aspects_of
from studio.script.numbers import Number, numbers_of

_FAR = ("wet.at_", "wet.floating_at")


class Known(msgspec.Struct, frozen=True, kw_only=True):
    """A number that something backs. ``source`` is a finding's id or a path into the episode."""

    source: str
    topic: str
    name: str
    label: str
    dimension: Dimension
    quantity: Quantity
    subjects: frozenset[str]
    shown: str = ""
    aspects: tuple[str, ...] = ()

    def text(self, units: System) -> str:
        """As a screen shows it."""
        return self.shown or self.quantity.in_system(units).text()

    def in_unit(self, unit: UnitName) -> float | None:
        """The value in ``unit``; None where it measures something else."""
        try:
            return self.quantity.to(unit).value
        except UnitError:
            return None


def known_of(findings: Mapping[str, Finding]) -> Iterator[Known]:
    """The numbers of all findings that are known."""
    for finding in findings.values():
        if finding.verdict == "unknown":
            continue
        numbers = numbers_of(finding)
        for number in numbers.values():
            if not f"{finding.topic}.{number.name}".startswith(_FAR) and number.name[:4] not in ("1963", "1979"):
                yield _from_number(finding, number)
        yield from _codes(finding, numbers)
        if usable := numbers.get("usable_left"):
            yield from _used(finding, usable, numbers)
        yield from _said(finding)


def _from_number(finding: Finding, number: Number) -> Known:
    return Known(
        source=finding.id, topic=finding.topic, name=number.name, label=number.label,
        dimension=DIMENSION_OF[number.quantity.measures], quantity=number.quantity,
        subjects=_subjects(finding, number.name), shown=f"{number.quantity.number()} {number.currency}"
        if number.currency else "", aspects=aspects_of(finding.topic, number.name),
    )  # fmt: skip


def _subjects(finding: Finding, name: str) -> frozenset[str]:
    """Whom a number is about: the wheel or axle that its name ends with, else the finding's subject."""
    if finding.topic == "choices":
        return frozenset({f"choice:{finding.subject}"})
    wheel = next((place for place in CORNERS if name.endswith(place)), None)
    if wheel:
        return frozenset({wheel})
    if finding.topic == "placard" and name == "value":
        return frozenset({"front_axle"})  # its value is the front pressure
    if name == "spare_pressure":
        return frozenset({"spare"})
    axle = next((f"{end}_axle" for end in AXLES if name.endswith(f"_{end}") or name == f"{end}_pressure"), None)
    if axle and finding.topic != "size_swap":
        return frozenset({axle})
    beside = finding.subject
    return frozenset({beside, "spare"}) if finding.topic == "spare" else frozenset({beside})


def _codes(finding: Finding, numbers: Mapping[str, Number]) -> Iterator[Known]:
    """Week and year of manufacture, and the load index, which are counts by their unit."""
    kinds: tuple[tuple[str, Dimension], ...] = (("made_week", "week"), ("made_year", "year"))
    for name, dimension in kinds:
        if number := numbers.get(name):
            yield msgspec.structs.replace(_from_number(finding, number), dimension=dimension, aspects=(dimension,))
    index = finding.word("load_index").split("/")[0]
    if index.isdigit():
        yield Known(
            source=finding.id, topic=finding.topic, name="load_index", label="load index", dimension="index",
            quantity=Quantity(float(index), ""), subjects=frozenset({finding.subject}), aspects=("index",),
        )  # fmt: skip


def _used(finding: Finding, usable: Number, numbers: Mapping[str, Number]) -> Iterator[Known]:
    """The shares that are gone: what is left, taken from the whole."""
    for name, number in (("used_share", usable), ("used_full_share", numbers.get("full_depth_share"))):
        if number is not None:
            gone = Quantity(100.0 - number.quantity.value, "%")
            yield Known(
                source=finding.id, topic=finding.topic, name=name, label="share that is gone", dimension="share",
                quantity=gone, subjects=frozenset({finding.subject}), aspects=("used_share",),
            )  # fmt: skip


def _said(finding: Finding) -> Iterator[Known]:
    """Numbers that only the finding's sentence gives, such as a rounded distance or how much air is missing."""
    for quantity in finding.said:
        yield Known(
            source=finding.id, topic=finding.topic, name="told", label=finding.sentence,
            dimension=DIMENSION_OF[quantity.measures], quantity=quantity, subjects=_subjects(finding, "told"),
            aspects=aspects_of(finding.topic, "told"),
        )  # fmt: skip


def given_by(episode: Episode) -> Iterator[Known]:
    """What the presenter entered and the script may say: the car's figures, prices, circumstances, odometer."""
    car, air, prices = episode.car, episode.circumstances, episode.prices
    everything: Iterable[tuple[str, str, object]] = (
        *((f"car.{name}", name, getattr(car, name)) for name in (
            "front_axle_rating", "rear_axle_rating", "wheelbase", "front_track", "rear_track", "wheel_nut_torque",
            "rotation_interval", "ground_clearance", "front_rim_width", "rear_rim_width")),
        *((f"car.placard.{end}.pressure", f"placard_{end}", getattr(car.placard, end).pressure)
          for end in ("front", "rear", "spare")),
        *((f"circumstances.{name}", name, getattr(air, name)) for name in (
            "filling_temperature", "driving_temperature", "filling_altitude", "driving_altitude", "speed",
            "water_depth", "texture_depth", "rain", "yearly_distance")),
        ("prices.used_tire_depth", "used_tire_depth", prices.used_tire_depth),
        *((f"prices.{name}", f"price_{name}", None if value is None else Quantity(value, "money"))
          for name, value in (("new_tire", prices.new_tire), ("used_tire", prices.used_tire),
                              ("mounting", prices.mounting), ("shaving", prices.shaving))),
    )  # fmt: skip
    for path, name, value in everything:
        if isinstance(value, Quantity):
            yield _given(path, name, value)
    for number, tire in enumerate(episode.specimens[:200]):
        for place, reading in enumerate(tire.readings[-20:]):
            if reading.odometer is not None:
                yield _given(f"specimens[{number}].readings[{place}].odometer", "odometer", reading.odometer)


def _given(path: str, name: str, quantity: Quantity) -> Known:
    end = next((end for end in ("front", "rear", "spare") if end in name), "")
    subjects = frozenset({"spare" if end == "spare" else f"{end}_axle"}) if end else frozenset({"car"})
    return Known(
        source=path, topic="given", name=name, label=name.replace("_", " "), quantity=quantity, subjects=subjects,
        dimension=DIMENSION_OF[quantity.measures], aspects=aspects_of("given", name),
    )  # fmt: skip
