"""The car from above: tags in true order, to scale, apart from each other, reachable by key."""

import itertools

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from studio.graphics.frame import Box
from studio.graphics.parts.car_plan import CarPlan, TirePlan
from studio.model.places import CORNERS
from studio.window.document import Document
from studio.window.plan_layout import lay_out, least_height, wheel_center
from studio.window.plan_sizes import least_width
from studio.window.tire_state import states
from tests.window.helpers import five_tires, focused, press, reading, tire, with_reading

CAR = CarPlan(
    wheelbase_mm=2750.0, front_track_mm=1570.0, rear_track_mm=1575.0,
    tires=tuple(TirePlan(place=place, width_mm=225.0, diameter_mm=701.8) for place in CORNERS),
)  # fmt: skip


def apart(one: Box, other: Box) -> bool:
    return (
        one.left + one.width <= other.left or other.left + other.width <= one.left
        or one.top + one.height <= other.top or other.top + other.height <= one.top
    )  # fmt: skip


@pytest.mark.parametrize("percent", [100, 125, 150, 200])
@pytest.mark.parametrize("below", [1, 4, 9])
@pytest.mark.parametrize("more", [(0, 0), (300, 0), (0, 300), (400, 500)])
def test_no_tag_overlaps_another_or_the_car_in_any_size(percent, below, more):
    width = least_width(percent) + more[0]
    height = least_height(below, width, percent) + more[1]
    laid = lay_out(CAR, below, width, height, percent)
    boxes = [*laid.corners.values(), *laid.below]
    for one, other in itertools.combinations(boxes, 2):
        assert apart(one, other), (one, other)
    for box in boxes:
        assert apart(box, laid.car.all), box
        assert box.left >= 0 and box.left + box.width <= width
        assert box.top >= 0 and box.top + box.height <= laid.height + 1


def test_the_car_is_to_scale():
    laid = lay_out(CAR, 1, 800.0, 700.0, 100)
    (fx, fy), (rx, ry) = wheel_center(laid.car, "front_left"), wheel_center(laid.car, "rear_right")
    tire_box = laid.car.tire("front_left")
    scale = (ry - fy) / 2750.0
    assert (rx - fx) / scale == pytest.approx((1570.0 + 1575.0) / 2)
    assert tire_box.width / scale == pytest.approx(225.0)
    assert tire_box.height / scale == pytest.approx(701.8)


def test_the_fronts_are_above_the_rears_and_left_is_left():
    laid = lay_out(CAR, 1, 800.0, 700.0, 100)
    corners = laid.corners
    assert corners["front_left"].top < corners["rear_left"].top
    assert corners["front_left"].left < corners["front_right"].left


def test_bars_run_from_the_cars_outer_side_and_are_mirrored_on_its_right(window_of):
    episode = five_tires()
    for index in range(2):
        episode = with_reading(episode, index, reading((8.0, 7.0), (6.0, 7.0), (4.0, 3.0)))
    plan = window_of(episode).places["car"].plan
    left, right = plan.tag_at("front_left"), plan.tag_at("front_right")
    assert [(bar.groove, bar.text) for bar in left.bars_left_to_right] == [
        ("outer", "7"), ("center", "6"), ("inner", "3"),
    ]  # fmt: skip
    assert [bar.groove for bar in right.bars_left_to_right] == ["inner", "center", "outer"]


def test_a_bar_shows_the_lowest_depth_of_its_groove_in_the_audiences_units(qapp):
    episode = with_reading(five_tires(units="metric"), 0, reading((8.0, None, 4.0), (None, None, None)))
    first = states(Document(episode))[0]
    assert first.bars[0].text == "3.2"  # 4 x 25.4 / 32 = 3.175 mm: NIST SP 811
    assert first.bars[0].depth_mm == pytest.approx(3.175)
    assert (first.bars[1].depth_mm, first.bars[1].text) == (None, "")


def test_the_tag_says_it_all_in_words(qapp):
    episode = with_reading(five_tires(), 0, reading((2.0, 2.0)))
    first = states(Document(episode))[0]
    assert first.spoken.startswith("Front left. 225/60R17 99H. 2.7 years. only 2.")
    assert first.verdict == "replace"


def test_a_place_without_a_tire_says_so(qapp):
    episode = replace(five_tires(), specimens=five_tires().specimens[:1])
    every = states(Document(episode))
    assert [state.index for state in every] == [0, None, None, None, None]
    assert every[4].spoken == "Spare: no tire entered"


def test_coming_to_a_wheel_by_key_opens_its_sheet(window_of):
    window = window_of(five_tires())
    place = window.places["car"]
    place.take_focus()
    press(Qt.Key.Key_Right)
    assert place.sheet.title.text() == "Front right"
    press(Qt.Key.Key_Down)
    assert place.sheet.title.text() == "Rear right"
    assert focused() is place.plan.tag_at("rear_right")
    press(Qt.Key.Key_Return)
    assert focused() is place.sheet.sidewall.marking
    press(Qt.Key.Key_Escape)
    assert focused() is place.plan.tag_at("rear_right")


def test_a_click_opens_a_tire_or_the_car(window_of, qtbot):
    window = window_of(with_reading(five_tires(), 0, reading((2.0,))))
    place = window.places["car"]
    qtbot.mouseClick(place.plan.tag_at("rear_left"), Qt.MouseButton.LeftButton)
    assert place.sheet.title.text() == "Rear left"
    x, y = place.plan._laid.car.body.center
    qtbot.mouseClick(place.plan, Qt.MouseButton.LeftButton, pos=QPoint(round(x), round(y)))
    assert place.form.isVisible()


def test_the_bench_grows_and_shrinks_with_the_episode(window_of):
    window = window_of(five_tires())
    plan = window.places["car"].plan
    bench = tuple(tire(f"bench_{number}", "bench") for number in range(12))
    window.document.edit("Add", replace(five_tires(), specimens=(*five_tires().specimens, *bench)))
    QApplication.processEvents()
    assert len(plan.tags) == 17
    assert plan.tags[-1].geometry().bottom() <= plan.height()
    window.document.undo_stack.undo()
    assert len(plan.tags) == 5
