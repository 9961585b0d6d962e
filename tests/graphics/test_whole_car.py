"""The car plan from an episode: its own measures where they are known, neutral ones else, and what the treads show."""

import pytest

from studio.decide import decide
from studio.graphics.frame import FRAMES
from studio.graphics.layout.text import wrap
from studio.graphics.whole_car import car_plan, source_line
from studio.model.car import Car
from studio.model.quantity import Quantity, length
from studio.model.source import Source
from studio.reference.tables import load_tables
from tests.decide.build import episode, flat, four, tire

LONG = Source(title="Council Directive 89/459/EEC on the harmonization of tire tread depth", locator="article 1, "
              "as restated in the national road traffic licensing regulations, section 31d(4)", standing="published")
SHORT = Source(title="StVZO", locator="section 36(3)", standing="published")


def plan_of(*specimens, **car):
    its = episode(*specimens, car=Car(**car))
    return car_plan(its, decide(its, load_tables()))


def test_wheelbase_and_tracks_are_the_cars_own_in_any_unit():
    plan = plan_of(*four([6, 6, 6, 6]), wheelbase=length(118.7, "in"), front_track=length(67.6, "in"),
                   rear_track=length(1700))  # fmt: skip
    assert plan.wheelbase_mm == pytest.approx(118.7 * 25.4)
    assert (plan.front_track_mm, plan.rear_track_mm) == pytest.approx((67.6 * 25.4, 1700))


def test_one_known_track_serves_both_axles_and_nothing_known_gives_a_neutral_car():
    one = plan_of(*four([6, 6, 6, 6]), rear_track=length(1480))
    assert one.front_track_mm == one.rear_track_mm == 1480
    bare = plan_of()
    assert len(bare.tires) == 4 and 0.35 <= bare.front_track_mm / bare.wheelbase_mm <= 0.85


def test_an_impossible_measure_does_not_bend_the_drawing():
    plan = plan_of(wheelbase=length(3, "mm"), front_track=Quantity(5900, "mm", "length"))
    assert plan.wheelbase_mm > 2000 and plan.front_track_mm <= 0.85 * plan.wheelbase_mm


def test_tires_have_their_own_sizes_and_treads():
    plan = plan_of(
        tire("front_left", flat(6), marking="245/40R19 98Y", tread="directional"),
        tire("rear_right", flat(6), marking="225/60R17 99H", season="winter"),
        tire("spare", flat(4), marking="T145/80D17 107M"),
    )
    tires = {its.place: its for its in plan.tires}
    assert tires["front_left"].width_mm == 245 and tires["front_left"].view.family == "directional"
    # 17 x 25.4 + 2 x 0.6 x 225 = 701.8 mm (UN Regulation No. 30, 6.1)
    assert tires["rear_right"].diameter_mm == pytest.approx(701.8)
    assert tires["rear_right"].view.siped and tires["rear_right"].view.family == "winter"
    assert tires["spare"].view.family == "temporary" and plan.spare is tires["spare"]


def test_worn_treads_look_worn_and_an_unknown_one_new():
    plan = plan_of(tire("front_left", flat(10)), tire("front_right", flat(2)), tire("rear_left"))
    worn = {its.place: its.view.worn for its in plan.tires}
    assert worn["front_left"] == pytest.approx(0.0) and worn["front_right"] == pytest.approx(1.0)
    assert worn["rear_left"] == 0.0


def test_the_outer_side_lies_outside_on_both_sides():
    views = {its.place: its.view.outer_left for its in plan_of(*four([6, 6, 6, 6])).tires}
    assert views == {"front_left": True, "front_right": False, "rear_left": True, "rear_right": False}


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
def test_the_source_is_named_as_fully_as_the_foot_holds_it(frame):
    assert source_line([SHORT], frame) == "Source: StVZO, section 36(3)"
    assert source_line([], frame) == ""
    line = source_line([SHORT, LONG], frame)
    shown = wrap(line, frame.cap_height("small"), "regular", frame.content.width, 2 if frame.shape == "tall" else 1)
    assert not shown[-1].endswith("…") and "StVZO" in line


def test_a_source_without_a_place_in_it_is_named_alone_and_none_twice():
    practice = Source(title="trade practice, no source", locator="none", standing="common practice")
    assert source_line([practice, practice], FRAMES["wide"]) == "Source: trade practice, no source"
