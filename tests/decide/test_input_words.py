"""Inputs of findings in words."""

import datetime as dt

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide.input_words import input_words, source_words
from studio.decide.subjects import tires
from studio.model.car import Car, Placard, PlacardTire, Tolerance
from studio.model.quantity import Quantity, depth
from studio.model.source import Source
from studio.model.specimen import Damage, PressureReading
from tests.window.findings_samples import sample_episode

CAR = Car(
    name="Our van", placard=Placard(front=PlacardTire(marking="225/60R17 99H", pressure=Quantity(35, "psi"))),
    tolerance=Tolerance(form="depth", limit=depth(3, "32nds")),
)  # fmt: skip


def episode():
    sample = sample_episode()
    first = sample.specimens[0]
    reading = msgspec.structs.replace(
        first.readings[0], odometer=Quantity(41200, "mi"),
        pressure=PressureReading(pressure=Quantity(33, "psi"), temperature=Quantity(68, "degF")),
        damage=(Damage(kind="flat_spot"),),
    )  # fmt: skip
    bench = msgspec.structs.replace(first, id="old", place="bench", name="Grandfather's spare", readings=())
    first = msgspec.structs.replace(first, readings=(reading,))
    return msgspec.structs.replace(sample, car=CAR, specimens=(first, *sample.specimens[1:], bench))


@pytest.mark.parametrize(
    "path,words",
    [
        ("specimens[0].readings[0].depths[2][1]", "front left, reading of 14 Nov 2026, inner groove, place 2: 7/32 in"),
        ("specimens[0].readings[0].depths[0]", "front left, reading of 14 Nov 2026, outer groove"),
        ("specimens[0].readings[0].depths", "front left, reading of 14 Nov 2026, depths"),
        ("specimens[0].readings[0].odometer", "front left, reading of 14 Nov 2026, odometer: 41,200 mi"),
        ("specimens[0].readings[0].pressure", "front left, reading of 14 Nov 2026, pressure: 33 psi"),
        (
            "specimens[0].readings[0].gauge.resolution",
            "front left, reading of 14 Nov 2026, gauge, smallest step: 1/32 in",
        ),
        ("specimens[0].readings[0].damage[0]", "front left, reading of 14 Nov 2026, damage 1: flat spot"),
        ("specimens[0].depth_new", "front left, depth when new: 10/32 in"),
        ("specimens[0].date_code", "front left, date code: not given"),
        ("specimens[0].season", "front left, season: all season"),
        ("specimens[0]", "front left"),
        ("car.placard.front.pressure", "placard, front, cold pressure: 35 psi"),
        ("car.placard.rear.marking", "placard, rear, marking: not given"),
        ("car.tolerance.limit", "manual's limit for unequal tires, how much: 3/32 in"),
        ("car.drivetrain", "driven wheels: not given"),
        ("car.name", "name: Our van"),
        ("on", "date of the episode: 20 Nov 2026"),
        ("region", "region whose limits apply: us"),
    ],
)
def test_an_input_says_where_it_stands_and_what_stands_there(path, words):
    assert input_words(episode(), path) == words


def test_a_tire_on_the_bench_is_named_as_its_findings_name_it():
    """The subject's words come from the decisions, so that list, sheet and sentence speak of one tire in one way."""
    subject = tires(episode())[4].subject
    assert "Grandfather's spare" in subject.words
    assert input_words(episode(), "specimens[4].depth_new") == f"{subject.words}, depth when new: 10/32 in"


@pytest.mark.parametrize("path", ["specimens[9].marking", "car.colour", "", "(((", "specimens[0].readings[4].on"])
def test_a_path_that_leads_nowhere_is_shown_as_it_is(path):
    assert input_words(episode(), path) == path


@given(st.text(max_size=60))
def test_any_text_in_a_name_stays_one_short_line(name):
    changed = msgspec.structs.replace(episode(), car=msgspec.structs.replace(CAR, name=name))
    words = input_words(changed, "car.name")
    assert words.startswith("name: ") and len(words) <= 70 and words.isprintable()


def test_a_source_says_its_standing_and_no_empty_locator():
    law = Source(title="49 CFR 570.9", locator="(a)", standing="published")
    habit = Source(title="trade practice, no source", locator="none", standing="common practice")
    assert source_words(law) == "49 CFR 570.9, (a): published"
    assert source_words(habit) == "trade practice, no source: common practice"


def test_a_date_is_the_same_in_every_language():
    assert input_words(msgspec.structs.replace(episode(), on=dt.date(2026, 3, 1)), "on").endswith("1 Mar 2026")
