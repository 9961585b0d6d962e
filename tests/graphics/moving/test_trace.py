"""Outlines on the move: lengths by plain geometry, ends kept."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.draw import arc, polyline, rectangle
from studio.graphics.moving.trace import along, between, ends, is_line, trimmed, way

CORNER = polyline(((0.0, 0.0), (30.0, 0.0), (30.0, 10.0)))  # 40 px long


def test_a_line_is_trimmed_by_its_length() -> None:
    assert trimmed(CORNER, 0.0, 0.5) == (("M", 0.0, 0.0), ("L", 20.0, 0.0))
    assert trimmed(CORNER, 0.5, 1.0) == (("M", 20.0, 0.0), ("L", 30.0, 0.0), ("L", 30.0, 10.0))
    assert trimmed(CORNER, 0.0, 1.0) == CORNER
    assert trimmed(CORNER, 0.7, 0.7) == ()


@given(share=st.floats(0.02, 1.0))
def test_a_curve_is_trimmed_by_its_length(share: float) -> None:
    quarter = arc((0.0, 0.0), 100.0, 0.0, 90.0)  # two cubics of one length
    x, y = ends(trimmed(quarter, 0.0, share))[1]
    assert math.degrees(math.atan2(x, -y)) == pytest.approx(90 * share, abs=0.2)


def test_what_is_a_line() -> None:
    assert is_line(CORNER) and is_line(arc((0.0, 0.0), 9.0, 0.0, 50.0))
    assert not is_line(rectangle(0, 0, 5, 5)) and not is_line(CORNER + CORNER) and not is_line(())


def test_half_way_between_two_outlines() -> None:
    low, high = rectangle(0, 10, 4, 2), rectangle(0, 0, 4, 12)
    assert between(high, low, 0.5) == rectangle(0, 5, 4, 7)
    assert between(high, low, 0.0) == high and between(high, low, 1.0) == low
    with pytest.raises(ValueError, match="commands are the same"):
        between(high, CORNER, 0.5)


def test_a_way_goes_in_even_steps_and_keeps_its_ends() -> None:
    points = way(((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (90.0, 10.0)), 40)
    steps = [math.dist(a, b) for a, b in itertools.pairwise(points)]
    assert points[0] == (0.0, 0.0) and points[-1] == pytest.approx((90.0, 10.0))
    assert max(steps) / min(steps) == pytest.approx(1.0, abs=0.06)
    assert along(points, 0.0) == points[0] and along(points, 1.0) == points[-1]
