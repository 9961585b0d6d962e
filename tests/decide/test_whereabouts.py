"""How far a tire rolled and where, from readings, rotations and what other tires' readings leave (worked by hand)."""

import datetime as dt

import pytest
from msgspec.structs import replace

from studio.decide.car_log import car_log
from studio.decide.pace import after, month_words, pace
from studio.decide.whereabouts import CHANGED_OVER, MOVED, NOT_SEEN, traced
from studio.model.car import Car, RotationDone
from studio.model.circumstances import Circumstances
from studio.model.quantity import Quantity, depth
from tests.decide.build import TABLES, episode, flat, tire

DAY = dt.date(2025, 1, 1)
FL, FR, RL, RR = "front_left", "front_right", "rear_left", "rear_right"


def on(day):
    return DAY + dt.timedelta(days=day)


def read(day, place, odometer, value=6):
    at = None if odometer is None else Quantity(odometer, "km")
    return flat(value, on=on(day), place=place, odometer=at)


def specimen(id_, place, *readings, **more):
    return replace(tire(place, id=id_, **more), readings=readings)


def rotated(day, odometer, pattern):
    return RotationDone(on=on(day), odometer=odometer and Quantity(odometer, "km"), pattern=pattern)


def ways(*specimens, rotations=()):
    whole = episode(*specimens, car=Car(rotations=tuple(rotations)))
    return {its.tire.specimen.id: its.way for its in traced(whole, TABLES)}


def places(its):
    return its.by_place()[-1]


def test_a_tire_that_stays_rolls_what_the_car_runs():
    its = ways(specimen("a", FL, read(0, FL, 1000), read(9, FL, 3500), read(20, FL, 9000)))["a"]
    assert (its.rolled, its.driven, places(its), its.assumed) == ((0, 2500, 8000), 8000, {FL: 8000}, ())


def test_rotations_say_where_it_stood_in_between():
    """Rearward cross takes rear left to front left, then front left to rear right (handbook, map of places)."""
    moves = [rotated(5, 2000, "rearward_cross"), rotated(10, 6000, "Rearward cross")]
    its = ways(specimen("a", RR, read(0, RL, 1000), read(20, RR, 9000)), rotations=moves)["a"]
    assert places(its) == {RL: 1000, FL: 4000, RR: 3000} and its.assumed == ()


def test_a_rotation_on_the_day_of_a_reading_comes_after_it_unless_the_places_say_otherwise():
    first = rotated(0, 1000, "x")
    after_it = ways(specimen("a", RR, read(0, FL, 1000), read(9, RR, 5000)), rotations=[first])["a"]
    before_it = ways(specimen("a", FL, read(0, FL, 1000), read(9, FL, 5000)), rotations=[first])["a"]
    assert (places(after_it), places(before_it)) == ({RR: 4000}, {FL: 4000})
    last = rotated(9, 5000, "x")
    assert places(ways(specimen("a", RR, read(0, FL, 1000), read(9, RR, 5000)), rotations=[last])["a"]) == {FL: 4000}


def test_a_wheel_that_spent_a_while_as_the_spare_did_not_roll_meanwhile():
    """Five-wheel forward cross takes rear right to the spare's place and the spare to the front left."""
    moves = [rotated(2, 3000, "five_wheel_forward_cross"), rotated(6, 8000, "five_wheel_forward_cross")]
    its = ways(specimen("a", FL, read(0, RR, 1000), read(9, FL, 9000)), rotations=moves)["a"]
    assert (its.rolled, places(its)) == ((0, 3000), {RR: 2000, FL: 1000})


def test_a_rotation_without_odometer_is_placed_by_its_date():
    its = ways(specimen("a", RL, read(0, FL, 1000), read(10, RL, 6000)), rotations=[rotated(4, None, "front_to_back")])
    assert places(its["a"]) == {FL: pytest.approx(2000), RL: pytest.approx(3000)}


def test_a_rotation_of_no_known_name_moves_it_to_where_it_was_seen_next():
    its = ways(specimen("a", RL, read(0, FL, 1000), read(10, RL, 6000)), rotations=[rotated(4, 2500, "our own way")])
    assert places(its["a"]) == {FL: 1500, RL: 3500}


def test_a_move_that_nobody_entered_is_taken_to_follow_the_reading_and_said_to_be():
    its = ways(specimen("a", RL, read(0, FL, 1000), read(10, RL, 6000)))["a"]
    assert (places(its), its.assumed) == ({RL: 5000}, (MOVED,))


def test_two_sets_each_roll_their_own_season():
    summer = specimen("s", FL, read(0, FL, 1000), read(180, FL, 9000), read(360, FL, 20_000))
    winter = specimen("w", "bench", read(300, FL, 13_000), read(390, "bench", None))
    found = ways(summer, winter)
    assert (found["s"].rolled, found["s"].assumed) == ((0, 8000, 15_000), (CHANGED_OVER,))
    assert found["w"].rolled == (0,)


def test_a_set_put_on_at_the_other_axle_next_season_is_known_to_have_been_off():
    summer = [
        specimen("a", RL, read(0, FL, 1000), read(360, RL, 20_000)),
        specimen("b", FL, read(0, RL, 1000), read(360, FL, 20_000)),
    ]
    winter = [specimen(f"w{p}", "bench", read(200, p, 8000, 4)) for p in (FL, RL)]
    found = ways(*summer, *winter)
    assert found["a"].rolled == found["b"].rolled == (0, 12_000)
    assert set(found["a"].assumed) == {MOVED, CHANGED_OVER}


def test_a_tire_replaced_by_a_new_one_ran_until_that_one_came():
    old = specimen("old", "bench", read(0, FL, 1000), read(40, "bench", 9000, 5))
    new = specimen("new", FL, read(30, FL, 7000, 10), read(40, FL, 9000, 10), depth_new=depth(10, "32nds"))
    assert ways(old, new)["old"].rolled == (0, 6000)
    used = specimen("used", FL, read(30, FL, 7000, 6), read(40, FL, 9000, 6), depth_new=depth(10, "32nds"))
    assert ways(old, used)["old"].rolled == (0, 0), "a worn one: changed over at the reading before"
    assert ways(old)["old"].rolled == (0, 8000), "nobody seen in its place: until it was read off the car"


def test_a_tire_put_on_ran_from_when_another_was_last_seen_in_its_place():
    on_again = specimen("a", FL, read(0, "bench", 1000), read(40, FL, 9000))
    other = specimen("b", "bench", read(10, FL, 4000))
    assert ways(on_again, other)["a"].rolled == (0, 5000)
    alone = ways(on_again)["a"]
    assert (alone.rolled, alone.assumed) == ((0, 0), (NOT_SEEN,))


def test_a_reading_without_odometer_takes_that_of_the_same_day():
    its = specimen("a", "bench", read(0, FL, 1000), read(20, FL, 5000), read(60, "bench", None))
    other = specimen("b", FL, read(0, FR, 1000), read(60, FL, 9000))
    found = ways(its, other)["a"]
    assert [stage.odometer for stage in found.stages] == [1000, 5000, 9000] and found.rolled == (0, 4000, 4000)


def test_of_two_readings_on_one_day_the_one_entered_last_counts():
    its = ways(specimen("a", FL, read(0, FL, 1000), read(9, FL, 5000, 7), read(9, FL, 5200, 6)))["a"]
    assert (its.rolled, its.stages[-1].number) == ((0, 4200), 2)


def test_an_odometer_that_falls_gives_no_way():
    its = ways(specimen("a", FL, read(0, FL, 5000), read(9, FL, 4000)))["a"]
    assert its.backward and its.rolled == ()


def test_units_of_the_odometer_do_not_matter():
    miles = flat(6, on=on(9), place=FL, odometer=Quantity(5000 / 1.609344, "mi"))
    its = ways(specimen("a", FL, read(0, FL, 1000), miles))["a"]
    assert Quantity(its.rolled[-1], its.unit).to("km").value == pytest.approx(4000)


def of_the_car(*readings, yearly=None):
    whole = episode(specimen("a", FL, *readings), circumstances=Circumstances(yearly_distance=yearly))
    return pace(whole, car_log(whole, TABLES), TABLES)


def test_the_yearly_distance_is_the_presenters_own_or_the_odometers():
    readings = (read(0, FL, 1000), read(100, FL, 6000))
    assert of_the_car(*readings, yearly=Quantity(12_000, "mi")).yearly == Quantity(12_000, "mi")
    found = of_the_car(*readings)
    assert found.yearly.value == pytest.approx(50 * 365.2425) and not found.path
    assert of_the_car(read(0, FL, 1000), read(60, FL, 6000)) is None, "too short a time"
    assert of_the_car(read(0, FL, 1000)) is None
    assert of_the_car(*readings, yearly=Quantity(0, "km")).words.startswith("from the odometer")


def test_a_distance_has_its_day():
    assert after(dt.date(2026, 1, 1), 5000, 10_000, 365.2425) == dt.date(2026, 7, 3)
    assert after(dt.date(2026, 1, 1), 1e9, 10, 365.2425) is None and after(dt.date(2026, 1, 1), 5, 0, 365.0) is None
    assert (month_words(dt.date(2026, 7, 3)), month_words(None)) == ("Jul 2026", "")
