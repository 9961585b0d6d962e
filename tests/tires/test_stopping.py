"""Stopping by kinematics."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.tires import stopping
from studio.tires.errors import RangeError

G = 9.80665


@pytest.mark.parametrize(
    ("kmh", "seconds", "friction", "meters"),
    [(100, 1, 0.8, 77.0), (100, 1, 0.4, 126.1), (80, 1.5, 0.5, 83.7), (60 * 1.609344, 1.5, 0.7, 92.6),
     (60 * 1.609344, 1.5, 0.35, 145.0)],
)  # fmt: skip
def test_worked_stopping_distances(kmh, seconds, friction, meters):
    assert stopping.stopping_distance_m(kmh, friction, seconds, G) == pytest.approx(meters, abs=0.06)


def test_aashto_green_book_60_mph():
    """1.47 V t + 1.075 V^2 / a with 2.5 s and 11.2 ft/s2: 566 ft."""
    assert stopping.sight_distance_ft(60, 2.5, 11.2, 1.47, 1.075) == pytest.approx(566, abs=0.1)


@given(st.floats(10, 200), st.floats(0.1, 1), st.floats(0.1, 1))
def test_residual_speed_is_what_energy_leaves(kmh, one, other):
    good, worn = max(one, other), min(one, other)
    braking_m = stopping.stopping_distance_m(kmh, good, 0, G)
    left_ms2 = (kmh / 3.6) ** 2 - 2 * worn * G * braking_m
    assert stopping.residual_speed(kmh, good, worn) == pytest.approx(3.6 * math.sqrt(max(0, left_ms2)), abs=1e-4)


def test_half_the_friction_leaves_70_7_of_100():
    assert stopping.residual_speed(100, 0.8, 0.4) == pytest.approx(70.7, abs=0.02)


@pytest.mark.parametrize(
    "call",
    [
        lambda: stopping.stopping_distance_m(-1, 0.8, 1, G),
        lambda: stopping.stopping_distance_m(100, 0, 1, G),
        lambda: stopping.stopping_distance_m(100, 0.8, -1, G),
        lambda: stopping.residual_speed(100, 0.4, 0.8),
        lambda: stopping.residual_speed(100, 0.4, 0),
        lambda: stopping.sight_distance_ft(60, 2.5, 0, 1.47, 1.075),
    ],
)
def test_the_impossible_is_refused(call):
    with pytest.raises(RangeError, match="expected"):
        call()
