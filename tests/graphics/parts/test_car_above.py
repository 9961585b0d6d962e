"""The car from above as it is drawn: quiet, named, its word for the front legible, no wider than its body."""

import pytest
from msgspec.structs import replace

from studio.graphics.color import contrast
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box, Frame
from studio.graphics.layout.text import box as text_box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.car_above import car_above
from studio.graphics.parts.car_body import Body, smooth
from studio.graphics.parts.car_plan import PlacedCar, place_car
from studio.graphics.scene import Shape, Text
from tests.graphics.parts.test_car_plan import plan

WIDE = FRAMES["wide"]
CAR = place_car(plan(spare=(165.0, 696.0)), Box(200.0, 150.0, 800.0, 700.0))
LOOKS = shipped_looks()


def named(name: str, look: str = "chalk", car: PlacedCar = CAR, frame: Frame = WIDE) -> Shape | Text:
    return next(mark for mark in car_above(car, frame, LOOKS[look]) if mark.name == name)


@pytest.mark.parametrize("look", LOOKS)
def test_the_front_is_said_in_legible_words_on_the_hood(look):
    word = named("front/word", look)
    assert isinstance(word, Text) and word.text == "front"
    assert word.cap_height >= WIDE.cap_height("incidental")
    assert contrast(word.fill, word.ground) >= 4.5
    box = text_box(word)
    assert CAR.body.left < box.left and box.right < CAR.body.right
    assert CAR.body.top < box.top and box.bottom < CAR.at(0, Body(CAR).cowl)[1]
    tip = bounds(named("front/arrow", look).outline)
    assert tip[3] < box.top, "the arrow points forward, ahead of the word"


def test_a_small_car_still_says_where_its_front_is_within_the_least_size():
    small = place_car(plan(), Box(0, 0, 200.0, 160.0))
    assert named("front/word", car=small).cap_height == pytest.approx(WIDE.cap_height("incidental"))


def test_the_body_is_as_large_as_the_plan_says():
    left, top, right, bottom = bounds(named("car/body").outline)
    assert (left, top, right, bottom) == pytest.approx(
        (CAR.body.left, CAR.body.top, CAR.body.right, CAR.body.bottom), abs=3.0
    )


def test_body_and_glass_are_the_same_on_both_sides():
    for outline in (Body(CAR).skin(), Body(CAR).glass(), Body(CAR).mirrors(), Body(CAR).lamps(), Body(CAR).lines()):
        left, _, right, _ = bounds(outline)
        assert (left + right) / 2 == pytest.approx(CAR.body.center[0], abs=0.01)


def test_glass_stays_within_the_body_and_the_windshield_lies_before_the_rear_window():
    for wheelbase in (2300, 2700, 3100, 3800):
        body = Body(place_car(plan(wheelbase, 1300 + wheelbase / 12, 1500), Box(0, 0, 500, 900)))
        assert body.nose < body.cowl < body.header < body.rear_top < body.rear_base < body.tail


def test_a_roomy_car_carries_its_cab_further_forward():
    van, estate = (Body(place_car(plan(base, track, track), Box(0, 0, 500, 900))) for base, track in
                   ((3050, 1720), (2680, 1540)))  # fmt: skip
    assert van.cowl / van.base < estate.cowl / estate.base


def test_a_dark_wheel_house_stands_behind_each_tire_on_the_car():
    left, top, right, bottom = bounds(named("car/wheel houses").outline)
    tires = [CAR.tire(place) for place in ("front_left", "rear_right")]
    assert left < tires[0].left and top < tires[0].top and right > tires[1].right and bottom > tires[1].bottom
    assert bottom < CAR.tire("spare").top, "the spare lies behind the car, in no wheel house"


def test_every_tire_is_drawn_with_its_place_in_its_name_in_the_step_given():
    marks = car_above(CAR, WIDE, LOOKS["chalk"], step=2)
    assert {mark.step for mark in marks} == {2}
    for place in ("front_left", "front_right", "rear_left", "rear_right", "spare"):
        assert any(mark.name == f"tires/{place}/tire" for mark in marks)


def test_a_smooth_curve_passes_through_its_points():
    points = ((0.0, 0.0), (10.0, 4.0), (20.0, -3.0), (31.0, 8.0))
    ends = [command[-2:] for command in smooth(points, closed=False)]
    assert ends == list(points)
    assert smooth(points)[-1] == ("Z",)


def test_an_unknown_place_has_no_box():
    bare = replace(CAR, plan=plan())
    assert bare.tire("spare") is None and bare.tire("bench") is None
