"""Wheels that turn unequally, against the handbook's mismatch and the geometry of a bend."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.tires.driveline import against_case_rpm, axle_rpm, bend_radius_m, shaft_rpm


def test_handbook_mismatch_at_the_propshaft():
    """Physics 4, computed: 778.42 against 781.95 rpm, times 3.5 is 12.4 rpm."""
    assert shaft_rpm(781.95 - 778.42, 3.5) == pytest.approx(12.4, abs=0.05)


@given(left=st.floats(0, 3000), right=st.floats(0, 3000))
def test_the_two_wheels_of_an_open_differential_turn_about_their_mean(left, right):
    mean, apart = axle_rpm(left, right), against_case_rpm(left, right)
    assert sorted((left, right)) == pytest.approx([mean - apart, mean + apart])
    assert against_case_rpm(right, left) == apart


@given(radius=st.floats(3, 10_000), track=st.floats(900, 2300))
def test_the_bend_is_the_one_whose_outer_wheel_goes_so_much_farther(radius, track):
    """One round of the bend, computed: the outer wheel covers 2 pi (R + t/2), the inner 2 pi (R - t/2)."""
    outer, inner = (2 * math.pi * (radius * 1000 + sign * track / 2) for sign in (1, -1))
    assert bend_radius_m(track, outer, inner) == pytest.approx(radius, rel=1e-6)


def test_equal_wheels_go_straight_on():
    assert bend_radius_m(1650, 2141.1, 2141.1) is None
