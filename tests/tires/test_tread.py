"""Depths, shares, rates and projections."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.tires import tread
from studio.tires.errors import RangeError

UNITS = pint.UnitRegistry()
depths = st.floats(0, 20)


@given(depths)
def test_32nds_and_mm_agree_with_a_units_library_and_return(depth):
    assert tread.mm_from_32nds(depth) == pytest.approx((depth / 32 * UNITS.inch).to("mm").magnitude, rel=1e-12)
    assert tread.in_32nds_from_mm(tread.mm_from_32nds(depth)) == pytest.approx(depth)


def test_nist_sp_811_two_32nds_are_not_1_6_mm():
    assert tread.mm_from_32nds(2) == 1.5875
    assert tread.in_32nds_from_mm(1.6) == pytest.approx(2.016, abs=0.0005)


@pytest.mark.parametrize(
    ("grooves", "depth"),
    [([[5, 5, 4], [7, 7, 7], [7, 6, 7]], 4), ([[5]], 5), ([[None, 6.5], [None]], 6.5), ([[0, 3]], 0)],
)
def test_the_law_looks_at_the_smallest_reading(grooves, depth):
    assert tread.governing_depth(grooves) == depth


def test_the_mean_of_a_groove_shows_its_wear():
    assert tread.mean_depth([5, None, 4]) == 4.5


@pytest.mark.parametrize("nothing", [[], [[]], [[None], [None, None]]])
def test_nothing_read_is_no_depth(nothing):
    with pytest.raises(RangeError, match="no depth was read, expected at least one reading"):
        tread.governing_depth(nothing)


def test_an_empty_groove_has_no_mean():
    with pytest.raises(RangeError, match="no depth was read in this groove"):
        tread.mean_depth([None])


def test_the_two_definitions_of_what_is_left_are_not_mixed():
    """10/32 new, 6/32 now: 60 % of the full depth, 50 % usable to 2/32, 33.3 % to 4/32; at 2/32 still 20 % of new."""
    assert tread.share_of_new_percent(10, 6) == pytest.approx(60)
    assert tread.usable_percent(10, 6, 2) == pytest.approx(50)
    assert tread.usable_percent(10, 6, 4) == pytest.approx(100 / 3)
    assert (tread.share_of_new_percent(10, 2), tread.usable_percent(10, 2, 2)) == (20, 0)


@given(st.floats(3, 20), st.integers(0, 200).map(lambda tenths: tenths / 10), st.integers(0, 25).map(lambda t: t / 10))
def test_usable_tread_is_negative_below_the_limit_and_100_when_new(new, depth, limit):
    usable = tread.usable_percent(new, depth, limit)
    assert (usable < 0) == (depth < limit)
    assert tread.usable_percent(new, new, limit) == pytest.approx(100)


@given(st.floats(4, 12), st.floats(0.5, 3.5), st.floats(1000, 100_000))
def test_rate_and_distance_are_ways_there_and_back(before, lost, distance):
    rate = tread.wear_rate_per_1000(before, before - lost, distance)
    assert tread.distance_to_limit(before, before - lost, rate) == pytest.approx(distance, rel=1e-6)


def test_a_tire_at_its_limit_goes_no_farther():
    assert tread.distance_to_limit(2, 2, 0.2) == 0
    assert tread.distance_to_limit(1, 2, 0.2) == 0


@pytest.mark.parametrize(("before", "after"), [(6, 6), (6, 7), (6, 5.8), (6, math.nan)])
def test_wear_below_what_the_gauge_can_tell_gives_no_rate(before, after):
    with pytest.raises(RangeError, match=r"too little to tell a rate; expected at least 0\.3"):
        tread.wear_rate_per_1000(before, after, 5000, least_wear=0.3)


def test_wear_of_just_enough_gives_a_rate():
    assert tread.wear_rate_per_1000(6, 5.5, 5000, least_wear=0.5) == pytest.approx(0.1)


@given(st.floats(0.05, 1), st.floats(6, 12), st.lists(st.integers(0, 60), min_size=2, max_size=8, unique=True))
def test_least_squares_finds_a_steady_wear(rate, new, thousands):
    fit = tread.fit_wear([1000 * t for t in thousands], [new - rate * t for t in thousands])
    assert (fit.rate_per_1000, fit.depth_at_zero) == pytest.approx((rate, new), rel=1e-6)
    assert fit.scatter == pytest.approx(0, abs=1e-6)
    assert fit.readings == len(thousands)


def test_least_squares_by_hand():
    """Depths 8, 7, 5 at 0, 1, 2 thousand: slope -1.5, start 49/6, largest residual 1/3."""
    fit = tread.fit_wear([0, 1000, 2000], [8, 7, 5])
    assert (fit.rate_per_1000, fit.depth_at_zero, fit.scatter) == pytest.approx((1.5, 49 / 6, 1 / 3))


@pytest.mark.parametrize(
    ("distances", "depths", "reason"),
    [([0], [8], "1 readings at 1 distances"), ([], [], "0 readings"), ([5, 5], [8, 7], "2 readings at 1 distances"),
     ([0, 1], [7, 7], "show no wear"), ([0, 1], [7, 8], "show no wear"), ([0, 1, 2], [8, 7], "2 readings")],
)  # fmt: skip
def test_what_shows_no_wear_is_not_fitted(distances, depths, reason):
    with pytest.raises(RangeError, match=reason):
        tread.fit_wear(distances, depths)


@given(depths, depths)
def test_a_difference_has_no_sign(one, other):
    assert tread.difference(one, other) == tread.difference(other, one) >= 0


@pytest.mark.parametrize(
    "call",
    [
        lambda: tread.share_of_new_percent(0, 1),
        lambda: tread.share_of_new_percent(8, -1),
        lambda: tread.usable_percent(2, 1, 2),
        lambda: tread.usable_percent(math.nan, 1, 2),
        lambda: tread.wear_rate_per_1000(8, 6, 0),
        lambda: tread.distance_to_limit(8, 2, 0),
    ],
)
def test_the_impossible_is_refused(call):
    with pytest.raises(RangeError, match="expected"):
        call()
