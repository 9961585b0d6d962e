"""The car's plan: wheelbase, track and tires to one scale, the spare behind, the front up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.frame import Box
from studio.graphics.parts.car_plan import CarPlan, TirePlan, place_car
from studio.model.places import CORNERS

BOX = Box(100.0, 60.0, 900.0, 620.0)


def plan(wheelbase=2700.0, front=1550.0, rear=1530.0, width=225.0, diameter=700.0, spare=()) -> CarPlan:
    tires = [TirePlan(place=place, width_mm=width, diameter_mm=diameter) for place in CORNERS]
    if spare:
        tires.append(TirePlan(place="spare", width_mm=spare[0], diameter_mm=spare[1]))
    return CarPlan(wheelbase_mm=wheelbase, front_track_mm=front, rear_track_mm=rear, tires=tuple(tires))


def test_wheelbase_track_and_tires_are_to_one_scale():
    car = place_car(plan(), BOX)
    front_left, front_right, rear_left = (car.tire(p) for p in ("front_left", "front_right", "rear_left"))
    assert front_right.center[0] - front_left.center[0] == pytest.approx(1550 * car.scale)
    assert rear_left.center[1] - front_left.center[1] == pytest.approx(2700 * car.scale)
    assert (front_left.width, front_left.height) == pytest.approx((225 * car.scale, 700 * car.scale))


def test_the_front_is_up_and_left_is_left():
    car = place_car(plan(), BOX)
    assert car.tire("front_left").center[1] < car.tire("rear_left").center[1]
    assert car.tire("rear_left").center[0] < car.tire("rear_right").center[0]
    assert car.body.top < car.tire("front_left").top


def test_a_spare_lies_across_behind_the_car():
    car = place_car(plan(spare=(165.0, 696.0)), BOX)
    spare = car.tire("spare")
    assert (spare.width, spare.height) == pytest.approx((696 * car.scale, 165 * car.scale))
    assert spare.top > car.body.bottom and spare.center[0] == pytest.approx(car.body.center[0])
    assert place_car(plan(), BOX).tire("spare") is None


@given(
    wheelbase=st.floats(1800, 4000), track=st.floats(1200, 1900), width=st.floats(125, 335),
    diameter=st.floats(500, 900), high=st.floats(120, 2000), wide=st.floats(120, 2000),
)  # fmt: skip
def test_the_car_fills_its_box_and_never_leaves_it(wheelbase, track, width, diameter, high, wide):
    box = Box(10.0, 20.0, wide, high)
    car = place_car(plan(wheelbase, track, track, width, diameter, spare=(width, diameter)), box)
    assert box.holds(car.all, slack=0.01)
    assert car.all.width == pytest.approx(wide) or car.all.height == pytest.approx(high)
    for place in CORNERS:
        assert car.body.left < car.tire(place).left and car.tire(place).right < car.body.right
        assert car.body.top < car.tire(place).top and car.tire(place).bottom < car.body.bottom


def test_a_long_van_is_longer_for_its_width_than_a_short_car_on_the_same_track():
    long, short = (place_car(plan(wheelbase, 1600, 1600), BOX).body for wheelbase in (3100, 2500))
    assert long.height / long.width > short.height / short.width
