"""What an episode cannot hold is named with its path and one sentence; what is merely unusual is let in."""

import datetime as dt
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio import shipped
from studio.decide import admission, bounds, decide
from studio.decide.admission import problems
from studio.model.car import Car, Placard, PlacardTire, RotationDone, Tolerance
from studio.model.circumstances import Circumstances, Prices
from studio.model.episode import Episode
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth, length
from studio.model.question import Question
from studio.model.specimen import Damage, Gauge, PressureReading
from tests.decide.build import ON, TABLES, episode, flat, reading, tire


def only(whole):
    (problem,) = problems(whole, TABLES)
    assert value_at(whole, problem.path) is not None
    assert "\n" not in problem.message and problem.message
    return problem


@pytest.mark.parametrize("path", sorted(shipped.demos().glob("*.json")), ids=lambda path: path.stem)
def test_the_demo_episodes_hold_nothing_impossible(path: Path):
    assert problems(msgspec.json.decode(path.read_bytes(), type=Episode), TABLES) == ()


def test_an_ordinary_episode_holds_nothing_impossible():
    car = Car(
        placard=Placard(front=PlacardTire(marking="225/60R17 99H", pressure=Quantity(35, "psi"))),
        front_axle_rating=Quantity(2756, "lb"), wheelbase=length(118.7, "in"), front_track=length(1650),
        rear_track=Quantity(1650, "mm"), wheel_nut_torque=Quantity(100, "lbf ft"),
        tolerance=Tolerance(form="circumference", limit=length(0.25, "in")), rotation_interval=Quantity(6000, "mi"),
        rotations=(RotationDone(on=ON, odometer=Quantity(31120, "mi")),),
    )  # fmt: skip
    assert problems(episode(tire("front_left", flat(6)), car=car), TABLES) == ()


@pytest.mark.parametrize(
    ("value", "unit"),
    [(45, "32nds"), (-0.5, "32nds"), (30, "mm"), (-1, "mm"), (float("inf"), "mm"), (float("nan"), "mm")],
)
def test_a_depth_that_no_tread_has_is_refused_where_it_stands(value, unit):
    whole = episode(tire("front_left", reading(((6, 6), (6, value)), unit=unit)))
    assert only(whole).path == "specimens[0].readings[0].depths[1][1]"
    assert "expected a tread depth such as 5/32 in or 4 mm" in only(whole).message


@pytest.mark.parametrize("unit", ["mm", "32nds"])
@pytest.mark.parametrize("value", [1e308, -1e308, 1.7976931348623157e308])
def test_the_largest_numbers_of_a_hand_made_file_are_refused_in_one_short_line(value, unit):
    whole = episode(tire("front_left", reading(((6, 6), (6, value)), unit=unit)))
    assert len(only(whole).message) < 150
    car = Car(front_axle_rating=Quantity(value, "lb"), wheelbase=length(value), rotation_interval=Quantity(value, "mi"))
    found = problems(episode(tire("front_left", flat(6)), car=car), TABLES)
    assert [problem.path for problem in found] == ["car.front_axle_rating", "car.wheelbase", "car.rotation_interval"]
    assert all("e308" in problem.message and len(problem.message) < 150 for problem in found)


@pytest.mark.parametrize(
    ("marking", "words"),
    [("225/60R71", "rim diameter 71"), ("225/600R17", "aspect 600"), ("wide ones", "expected a tire size")],
)
def test_a_marking_that_cannot_be_is_refused_with_the_field_at_fault(marking, words):
    on_tire = only(episode(tire("front_left", marking=marking)))
    assert on_tire.path == "specimens[0].marking" and words in on_tire.message
    on_placard = only(episode(car=Car(placard=Placard(rear=PlacardTire(marking=marking)))))
    assert on_placard.path == "car.placard.rear.marking" and words in on_placard.message


@pytest.mark.parametrize(
    ("code", "words"),
    [("5418", "week 54"), ("0018", "week 00"), ("1126", "lies after"), ("ab", "expected four digits")],
)
def test_49_cfr_574_5_a_date_code_that_cannot_be_is_refused(code, words):
    problem = only(episode(tire("front_left", date_code=code)))
    assert problem.path == "specimens[0].date_code" and words in problem.message


@pytest.mark.parametrize("code", ["", "  ", "317", "5320", "0100", "DOT XXXXXXXXX 3618"])
def test_unusual_date_codes_are_taken(code):
    assert problems(episode(tire("bench", date_code=code)), TABLES) == ()


def test_two_tires_cannot_stand_at_one_place_nor_share_an_id():
    whole = episode(tire("front_left"), tire("front_left", id="front_left_too"))
    assert only(whole).path == "specimens[1].place" and "one tire at a place" in only(whole).message
    assert only(episode(tire("front_left", id="a"), tire("bench", id="a"))).path == "specimens[1].id"
    assert problems(episode(tire("bench", id="a"), tire("bench", id="b")), TABLES) == ()
    twice = episode(questions=(Question(id="q", text="?"), Question(id="q", text="?")))
    assert only(twice).path == "questions[1].id"


def test_a_grid_must_be_rectangular():
    problem = only(episode(tire("front_left", reading(((6, 6, 6), (6, 6), (6, 6, 6))))))
    assert problem.path == "specimens[0].readings[0].depths" and "3, 2, 3 places" in problem.message


def test_nothing_lies_after_the_day_for_which_the_episode_speaks():
    later = ON + dt.timedelta(days=1)
    assert only(episode(tire("front_left", flat(6, on=later)))).path == "specimens[0].readings[0].on"
    assert only(episode(car=Car(rotations=(RotationDone(on=later),)))).path == "car.rotations[0].on"


def test_an_unknown_region_is_refused_with_the_known_ones():
    problem = only(episode(region="zz"))
    assert problem.path == "region" and "us, us-md, eu" in problem.message


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("wheelbase", length(20000)), ("wheelbase", Quantity(240, "kPa")), ("front_track", Quantity(1, "kg")),
        ("front_axle_rating", Quantity(20, "kg")), ("rear_axle_rating", length(1250)),
        ("wheel_nut_torque", Quantity(5, "N m")), ("front_rim_width", length(40, "in")),
        ("ground_clearance", length(2)), ("rotation_interval", Quantity(10, "km")),
        ("rotation_interval", Quantity(100, "%")),
    ],
)  # fmt: skip
def test_wrong_kinds_and_impossible_sizes_of_the_car_are_refused(field, value):
    problem = only(episode(car=Car(**{field: value})))
    assert problem.path == f"car.{field}" and "was read" in problem.message and "such as" in problem.message


@pytest.mark.parametrize(
    ("form", "limit"),
    [("depth", Quantity(1, "%")), ("percent", depth(2, "32nds")), ("circumference", Quantity(0.5, "%")),
     ("depth", depth(0, "mm")), ("percent", Quantity(50, "%")), ("circumference", length(2000))],
)  # fmt: skip
def test_a_tolerance_has_the_unit_of_its_form(form, limit):
    assert only(episode(car=Car(tolerance=Tolerance(form=form, limit=limit)))).path == "car.tolerance.limit"


@pytest.mark.parametrize(
    ("changes", "path"),
    [
        ({"odometer": Quantity(-5, "mi")}, "odometer"),
        ({"odometer": Quantity(5, "psi")}, "odometer"),
        ({"gauge": Gauge(resolution=depth(0, "mm"))}, "gauge.resolution"),
        ({"gauge": Gauge(resolution=Quantity(1, "kPa"))}, "gauge.resolution"),
        ({"pressure": PressureReading(pressure=Quantity(3500, "psi"))}, "pressure.pressure"),
        ({"pressure": PressureReading(pressure=length(35))}, "pressure.pressure"),
        ({"pressure": PressureReading(pressure=Quantity(35, "psi"), temperature=Quantity(200, "degF"))},
         "pressure.temperature"),
        ({"damage": (Damage(kind="cut", size=Quantity(5, "kg")),)}, "damage[0].size"),
    ],
)  # fmt: skip
def test_each_part_of_a_reading_is_held_against_its_bounds(changes, path):
    assert only(episode(tire("front_left", flat(6, **changes)))).path == f"specimens[0].readings[0].{path}"


def test_a_placard_pressure_in_millimeters_is_refused():
    whole = episode(car=Car(placard=Placard(spare=PlacardTire(pressure=length(240)))))
    assert only(whole).path == "car.placard.spare.pressure" and "which is a length" in only(whole).message


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("filling_temperature", Quantity(35, "psi")), ("driving_altitude", Quantity(90_000, "ft")),
        ("speed", Quantity(900, "km/h")), ("water_depth", Quantity(-1, "mm")), ("rain", Quantity(2, "m")),
        ("road_slope", Quantity(100, "%")), ("drainage_length", Quantity(0, "m")),
        ("yearly_distance", Quantity(-1, "km")), ("texture_depth", Quantity(50, "mm")),
    ],
)  # fmt: skip
def test_weather_and_road_are_held_against_their_bounds(field, value):
    whole = msgspec.structs.replace(episode(), circumstances=Circumstances(**{field: value}))
    assert only(whole).path == f"circumstances.{field}"


def test_a_wished_size_and_a_used_tires_depth_must_be_possible():
    wished = msgspec.structs.replace(episode(), circumstances=Circumstances(sizes_wished=("225/60R17", "225/60R71")))
    assert only(wished).path == "circumstances.sizes_wished[1]"
    used = msgspec.structs.replace(episode(), prices=Prices(used_tire_depth=depth(45, "32nds")))
    assert only(used).path == "prices.used_tire_depth"


def test_every_quantity_of_the_model_has_its_bounds():
    """A field that holds a quantity and is held against nothing would let an impossible value in."""
    for struct, names in ((Car, admission._CAR_FIELDS), (Circumstances, admission._CIRCUMSTANCES)):
        held = {field.name for field in msgspec.structs.fields(struct) if field.type == (Quantity | None)}
        assert held == set(names)


def test_single_checks_raise_for_the_window_what_admission_reports():
    for call in (
        lambda: bounds.check_depth(depth(45, "32nds"), TABLES),
        lambda: bounds.check_depth_new(depth(1, "32nds"), TABLES),
        lambda: bounds.check_resolution(depth(0, "mm"), TABLES),
        lambda: bounds.check_pressure(Quantity(-1, "psi"), TABLES),
        lambda: bounds.check_placard_pressure(Quantity(1, "psi"), TABLES),
        lambda: bounds.check_temperature(Quantity(99, "degC"), TABLES),
        lambda: bounds.check_odometer(Quantity(-1, "km"), TABLES),
        lambda: bounds.check_marking("225/60R71"),
        lambda: bounds.check_date_code("5418", ON),
    ):
        with pytest.raises(ValueError, match="expected"):
            call()
    bounds.check_marking("")
    bounds.check_date_code("", ON)


def test_every_bound_keeps_out_its_outside_and_lets_in_its_ends():
    for name, bound in TABLES.bounds.items():
        for value in (bound.low, bound.high):
            bounds.check(name, Quantity(value, bound.unit, bound.kind), TABLES)
        for value in (bound.low - 0.001 * bound.high, bound.high * 1.01):
            with pytest.raises(ValueError, match="was read"):
                bounds.check(name, Quantity(value, bound.unit, bound.kind), TABLES)


@given(
    grid=st.lists(st.lists(st.one_of(st.none(), st.floats()), max_size=4), max_size=4),
    marking=st.text(max_size=40), code=st.text(max_size=20), region=st.from_regex(r"[a-z]{2}", fullmatch=True),
)  # fmt: skip
def test_any_text_and_number_gives_problems_or_findings_and_never_an_error(grid, marking, code, region):
    whole = episode(tire("front_left", reading(grid), marking=marking, date_code=code), region=region)
    found = problems(whole, TABLES)
    assert all(problem.path and problem.message for problem in found)
    if not found:
        assert len(decide(whole, TABLES)) > 0
