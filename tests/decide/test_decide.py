"""All topics together: any episode that is let in is answered, completely, the same whatever its order and units."""

import dataclasses
import datetime as dt
import subprocess
import sys
from typing import get_args

import msgspec
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from studio.decide import TOPICS, decide
from studio.decide.admission import problems
from studio.model.car import Car, Placard, PlacardTire, RotationDone, Tolerance
from studio.model.circumstances import Circumstances
from studio.model.paths import value_at
from studio.model.places import ON_CAR
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Damage, DamageKind, Gauge, PressureReading, Reading, Specimen, Zone
from tests.decide.build import TABLES, episode, flat, four, tire

markings = st.sampled_from(
    ["", "225/60R17 99H", "P225/60R17 98T", "225/55R18", "T145/80D17 107M", "31x10.50R15LT 109Q", "155R13 78S",
     "LT245/75R16 120/116S E", "275/35ZR20 (102Y)", "205/60B15"]
)  # fmt: skip
codes = st.sampled_from(["", "0124", "3618", "5320", "317", "0005"])
days = st.dates(dt.date(2023, 1, 1), dt.date(2026, 3, 1))
odometers = st.one_of(st.none(), st.builds(Quantity, st.floats(0, 300_000), st.sampled_from(["mi", "km"])))
fills = st.builds(Quantity, st.floats(100, 420), st.just("kPa"))
pressures = st.one_of(
    st.none(), st.builds(PressureReading, pressure=fills, cold=st.booleans(),
                         temperature=st.sampled_from([None, Quantity(37, "degF"), Quantity(21, "degC")])),
)  # fmt: skip
gauges = st.sampled_from([Gauge(resolution=depth(s, u)) for s, u in ((1, "32nds"), (0.5, "32nds"), (0.1, "mm"))])


@st.composite
def readings(draw):
    grooves, stations = draw(st.integers(0, 5)), draw(st.integers(1, 4))
    cell = st.one_of(st.none(), st.floats(0, 11))
    grid = tuple(tuple(draw(cell) for _ in range(stations)) for _ in range(grooves))
    kinds = st.sampled_from(get_args(DamageKind))
    damage = st.builds(
        Damage, kind=kinds, zone=st.sampled_from(get_args(Zone)), note=st.sampled_from(["", "A screw.\x07"]),
        size=st.sampled_from([None, length(0.2, "in"), length(5), length(6.2), length(9), depth(3, "32nds")]),
    )  # fmt: skip
    return Reading(
        on=draw(days), place=draw(st.sampled_from([*ON_CAR, "bench"])), gauge=draw(gauges), depths=grid,
        unit=draw(st.sampled_from(["mm", "32nds"])), odometer=draw(odometers),
        damage=tuple(draw(st.lists(damage, max_size=2))), pressure=draw(pressures),
    )  # fmt: skip


@st.composite
def specimens(draw):
    places = draw(st.permutations([*ON_CAR, "bench", "bench"]))[: draw(st.integers(0, 7))]
    return tuple(
        Specimen(
            id=f"tire_{i}", place=place, name=draw(st.sampled_from(["", "Old one", "x" * 80])), marking=draw(markings),
            date_code=draw(codes), tread=draw(st.sampled_from(["plain", "directional", "asymmetric"])),
            season=draw(st.sampled_from(["summer", "all_season", "winter", "studded"])),
            depth_new=draw(st.sampled_from([None, depth(8, "mm"), depth(11, "32nds"), depth(3, "32nds")])),
            readings=tuple(draw(st.lists(readings(), max_size=3))),
        )
        for i, place in enumerate(places)
    )  # fmt: skip


lines = st.builds(PlacardTire, marking=markings, pressure=st.one_of(st.none(), fills))
cars = st.builds(
    Car,
    drivetrain=st.sampled_from([None, "front", "rear", "all", "part_time_four"]),
    placard=st.builds(Placard, front=lines, rear=lines, spare=lines),
    certified_as=st.sampled_from([None, "passenger_car", "mpv", "light_truck"]),
    front_axle_rating=st.sampled_from([None, Quantity(3050, "lb"), Quantity(1250, "kg")]),
    rear_axle_rating=st.sampled_from([None, Quantity(2200, "kg")]), dual_rear_wheels=st.booleans(),
    front_rim_width=st.sampled_from([None, length(6.5, "in")]), final_drive=st.sampled_from([None, 3.5]),
    ground_clearance=st.sampled_from([None, length(150)]), rear_track=st.sampled_from([None, length(65, "in")]),
    tolerance=st.sampled_from([
        None, Tolerance(form="depth", limit=depth(2, "32nds")), Tolerance(form="percent", limit=Quantity(0.5, "%")),
        Tolerance(form="circumference", limit=length(0.25, "in")), Tolerance(form="depth", limit=length(0.1, "in")),
    ]),
    rotation_interval=st.sampled_from([None, Quantity(5000, "mi"), Quantity(10_000, "km")]),
    rotations=st.lists(st.builds(RotationDone, on=days, odometer=odometers), max_size=2).map(tuple),
)  # fmt: skip
arounds = st.builds(
    Circumstances, sizes_wished=st.lists(markings, max_size=3).map(tuple),
    speed=st.sampled_from([None, Quantity(0, "mph"), Quantity(70, "mph")]),
)  # fmt: skip
any_episode = st.builds(
    lambda tires, car, around, region, units: episode(
        *tires, car=car, circumstances=around, region=region, units=units
    ),
    specimens(), cars, arounds, st.sampled_from(sorted(TABLES.regions)), st.sampled_from(["us", "metric"]),
)  # fmt: skip


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(whole=any_episode)
def test_every_episode_that_is_let_in_is_answered_completely(whole):
    assume(not problems(whole, TABLES))
    findings = decide(whole, TABLES)
    assert len({finding.id for finding in findings}) == len(findings)
    for finding in findings:
        assert finding.id == f"{finding.topic}.{finding.subject}"
        assert finding.sentence and len(finding.sentence) <= 111, finding.sentence
        assert finding.sources and finding.caution
        assert finding.missing or finding.verdict != "unknown", finding.id
        assert finding.working or finding.verdict == "unknown"
        for path in finding.inputs:
            value_at(whole, path)
        if None not in (finding.value, finding.limit, finding.margin):
            assert abs(finding.margin) == pytest.approx(abs(finding.value - finding.limit), abs=1e-9)
        text = " ".join((finding.sentence, *finding.working, *finding.would_change)).lower().split()
        assert not {"nan", "inf", "-inf"} & {word.strip(".,;:()%") for word in text}
    assert msgspec.json.decode(msgspec.json.encode(findings))


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(whole=any_episode, data=st.data())
def test_neither_units_nor_the_order_of_the_tires_change_a_verdict(whole, data):
    assume(not problems(whole, TABLES))
    order = data.draw(st.permutations(whole.specimens))
    units = "metric" if whole.units == "us" else "us"
    other = msgspec.structs.replace(whole, specimens=tuple(order), units=units)
    mine, its = ({f.id: f for f in decide(e, TABLES)} for e in (whole, other))
    assert mine.keys() == its.keys()
    for id_, finding in mine.items():
        assert finding.verdict == its[id_].verdict, id_
        assert finding.value == (None if finding.value is None else pytest.approx(its[id_].value))


def test_the_topics_answer_in_the_viewers_order_each_under_a_question():
    order = [topic.id for topic in TOPICS]
    assert order[0] == "tread_left" and len(set(order)) == len(order)
    assert all(topic.question.endswith("?") for topic in TOPICS)
    found = [finding.topic for finding in decide(episode(*four((8, 8, 8, 8))), TABLES)]
    answered = list(dict.fromkeys(found))
    assert answered == [id_ for id_ in order if id_ in answered]
    assert {"tread_left", "size", "matching", "rotation", "age", "life"} <= set(answered)


def test_an_empty_episode_has_no_findings():
    assert len(decide(episode(), TABLES)) == 0


def changed(table, key, **values):
    rows = dict(getattr(TABLES, table))
    rows[key] = msgspec.structs.replace(rows[key], **values)
    return dataclasses.replace(TABLES, **{table: rows})


@pytest.mark.parametrize(
    ("table", "key", "values", "finding", "limit"),
    [
        ("tread_minimum", "us_car", {"value": 3.0}, "tread_left.front_left", 3.0),
        ("matching", "awd_depth", {"value": 1.0}, "matching.set", 1.0),
        ("rotation_interval", "trade_miles", {"low": 4000.0}, "rotation.car", 4000.0),
        ("age_advice", "makers_six_years", {"from_years": 7.0}, "age.front_left", 7.0),
    ],
)
def test_every_limit_comes_from_the_tables(table, key, values, finding, limit):
    whole = episode(*four((8, 8, 8, 8), date_code="3621"), car=Car(drivetrain="all"))
    assert decide(whole, TABLES).get(finding).limit not in (None, limit)
    assert decide(whole, changed(table, key, **values)).get(finding).limit == limit


def test_an_edit_recomputes_only_what_depends_on_it():
    whole = episode(*four((8, 8, 8, 8)), car=Car(drivetrain="all"))
    edited = msgspec.structs.replace(whole, specimens=(*whole.specimens[:3], tire("rear_right", flat(6))))
    before, after = decide(whole, TABLES), decide(edited, TABLES)
    same = {f.id for f in before if after.get(f.id) is f}
    assert {"tread_left.rear_right", "matching.rear_axle", "matching.set", "rotation.car"}.isdisjoint(same)
    assert {"tread_left.front_left", "size.rear_right", "matching.front_axle", "age.rear_right"} <= same


def test_the_decisions_import_no_toolkit_and_no_chart():
    code = "import sys, studio.decide, studio.decide.admission; print([m for m in sys.modules if m.startswith(%r)])"
    for name in ("PySide6", "matplotlib", "reportlab"):
        done = subprocess.run([sys.executable, "-c", code % name], capture_output=True, text=True, check=True)
        assert done.stdout.strip() == "[]"
