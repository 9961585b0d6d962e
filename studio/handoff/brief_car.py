"""The brief's sheets of the car and of each tire: what was brought, as it was brought."""

from collections.abc import Iterator
from typing import Any

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether

from studio.decide.input_words import value_words
from studio.decide.subjects import tires
from studio.decide.wording import day_words
from studio.handoff.material import Material
from studio.handoff.printed import BOLD, SEMIBOLD, Heading, paragraph, style, table
from studio.model.quantity import format_number
from studio.model.specimen import Reading, Specimen

_LABEL = 150.0
_CAR = (
    ("Driven wheels", "drivetrain"), ("Certified as", "certified_as"), ("Front axle rating", "front_axle_rating"),
    ("Rear axle rating", "rear_axle_rating"), ("Wheelbase", "wheelbase"), ("Front track", "front_track"),
    ("Rear track", "rear_track"), ("Wheel-nut torque", "wheel_nut_torque"), ("Rotation interval", "rotation_interval"),
)  # fmt: skip
_TIRE = (
    ("Marking", "marking"), ("Date code", "date_code"), ("Tread", "tread"), ("Season", "season"),
    ("Depth when new", "depth_new"), ("Note", "note"),
)  # fmt: skip
_SAID = {
    "front": "front-wheel drive", "rear": "rear-wheel drive", "all": "all-wheel drive",
    "part_time_four": "part-time four-wheel drive", "passenger_car": "passenger car", "mpv": "multipurpose vehicle",
    "light_truck": "light truck",
}  # fmt: skip


def car_sheet(material: Material, width: float) -> Iterator[Flowable]:
    """The car and its placard."""
    car = material.episode.car
    yield Heading("The car", 0, "car", style(18, BOLD))
    if car.name:
        yield paragraph(car.name, style(12, SEMIBOLD, before=2))
    rows = [*_pairs(car, _CAR), *_placard(material)]
    if car.tolerance is not None:
        rows.append(("Manual's limit for unequal tires", f"{car.tolerance.limit.text()} of {car.tolerance.form}"))
    yield _two_columns(rows, width) if rows else paragraph("Nothing is entered about the car.", style(10))


def specimen_sheets(material: Material, width: float) -> Iterator[Flowable]:
    """Each tire on hand, with its readings."""
    yield Heading("The tires", 0, "tires", style(18, BOLD, before=14))
    held = tires(material.episode)
    if not held:
        yield paragraph("No tire is entered.", style(10))
    for tire in held:
        specimen = tire.specimen
        head = Heading(tire.subject.title, 1, f"specimen_{specimen.id}", style(12, SEMIBOLD, before=8))
        yield CondPageBreak(110)
        rows = _pairs(specimen, _TIRE)
        yield KeepTogether([head, _two_columns(rows, width)]) if rows else head
        yield from _readings(specimen, width)


def _readings(specimen: Specimen, width: float) -> Iterator[Flowable]:
    if not specimen.readings:
        yield paragraph("Not read yet.", style(9, tint="quiet"))
        return
    head = ("Read on", "Depths, outer to inner, round the tire", "Odometer", "Pressure")
    small, bold = style(9), style(9, SEMIBOLD)
    rows = [[paragraph(text, bold) for text in head]]
    rows += [[paragraph(text, small) for text in _reading(each)] for each in specimen.readings]
    yield table(rows, (70, width - 210, 65, 75), head=True)


def _reading(reading: Reading) -> tuple[str, str, str, str]:
    grooves = (" ".join("–" if d is None else _short(d) for d in groove) for groove in reading.depths)
    unit = "/32 in" if reading.unit == "32nds" else "mm"
    depths = f"{'   |   '.join(grooves)}  ({unit})" if reading.depths else ""
    seen = ", ".join(" ".join((d.kind.replace("_", " "), "in the", d.zone)) for d in reading.damage)
    pressure = ""
    if reading.pressure is not None:
        air = reading.pressure.temperature
        pressure = reading.pressure.pressure.text() + (f" at {air.text()}" if air else "")
    odometer = reading.odometer.text() if reading.odometer else ""
    return day_words(reading.on), "; ".join(filter(None, (depths, seen))), odometer, pressure


def _short(value: float) -> str:
    return format_number(value, 0 if value == int(value) else 1)


def _placard(material: Material) -> list[tuple[str, str]]:
    placard = material.episode.car.placard
    lines = (("Placard, front", placard.front), ("Placard, rear", placard.rear), ("Placard, spare", placard.spare))
    rows = []
    for label, its in lines:
        parts = [its.marking, f"{its.pressure.text()} cold" if its.pressure else ""] if its else []
        if text := ", ".join(filter(None, parts)):
            rows.append((label, text))
    return rows


def _pairs(held: Any, fields: tuple[tuple[str, str], ...]) -> list[tuple[str, str]]:
    values = ((label, getattr(held, field)) for label, field in fields)
    return [(label, _SAID.get(str(value)) or value_words(value)) for label, value in values if value not in (None, "")]


def _two_columns(rows: list[tuple[str, str]], width: float) -> Flowable:
    label, text = style(10, tint="quiet"), style(10)
    return table([(paragraph(a, label), paragraph(b, text)) for a, b in rows], (_LABEL, width - _LABEL))
