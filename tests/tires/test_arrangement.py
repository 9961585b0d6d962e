"""Where four tires go, against trying every arrangement by hand (common practice, no source)."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from studio.tires.arrangement import arrange, axle_difference
from studio.tires.rotation import FRONT, REAR

CORNERS = (*FRONT, *REAR)
ANYWHERE = dict.fromkeys("abcd", CORNERS)


def test_a_new_pair_goes_to_the_rear_and_the_others_to_the_front():
    at = arrange({"a": 8, "b": 8, "c": 5.3, "d": 5.2}, ANYWHERE, {"c": "rear_left", "d": "rear_right"}, 0.2)
    assert {at["a"], at["b"]} == set(REAR) and {at["c"], at["d"]} == set(FRONT)


def test_one_new_tire_stands_beside_the_deepest_of_the_others():
    now = {"b": "front_right", "c": "rear_left", "d": "rear_right"}
    at = arrange({"a": 8, "b": 3, "c": 6, "d": 3}, ANYWHERE, now, 0.2)
    assert {at["a"], at["c"]} == set(REAR) and at["b"] == "front_right" and at["c"] == "rear_left"


def test_nothing_moves_for_what_no_gauge_can_tell():
    now = dict(zip("abcd", CORNERS, strict=True))
    assert arrange({"a": 6.05, "b": 5.95, "c": 6.0, "d": 5.9}, ANYWHERE, now, 0.5) == now


def test_tires_bound_to_their_places_stay_or_have_no_arrangement():
    now = dict(zip("abcd", CORNERS, strict=True))
    bound = {name: (place,) for name, place in now.items()}
    depths = {"a": 8, "b": 3, "c": 6, "d": 3}
    assert arrange(depths, bound, now, 0.2) == now
    assert arrange(depths, dict.fromkeys("abcd", FRONT), now, 0.2) is None


depth = st.floats(1.6, 12)


@given(st.lists(depth, min_size=4, max_size=4), st.permutations(CORNERS), st.sampled_from([0.1, 0.25, 0.6]))
def test_no_arrangement_is_better(depths, places, step):
    named, now = dict(zip("abcd", depths, strict=True)), dict(zip("abcd", places, strict=True))
    at = arrange(named, ANYWHERE, now, step)

    def key(order):
        stands = {place: named[name] for name, place in order.items()}
        front, rear = (sum(stands[p] for p in pair) / 2 for pair in (FRONT, REAR))
        moved = sum(1 for name, place in order.items() if now[name] != place)
        return round(axle_difference(stands) / step), round(max(0, front - rear) / step), moved

    assert key(at) == min(key(dict(zip("abcd", order, strict=True))) for order in itertools.permutations(CORNERS))
