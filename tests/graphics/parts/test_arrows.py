"""Curved arrows: they start and end where they should, and a gap parts one that crosses another."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.draw import bounds
from studio.graphics.parts.arrows import arrow, crossings, part, point_at, sampled

STRAIGHT = ((0.0, 0.0), (40.0, 0.0), (80.0, 0.0), (120.0, 0.0))
UPRIGHT = ((30.0, -60.0), (30.0, -20.0), (30.0, 20.0), (30.0, 60.0))
coordinates = st.tuples(st.floats(-500, 500), st.floats(-500, 500))
curves = st.tuples(coordinates, coordinates, coordinates, coordinates)


def test_a_quarter_along_an_even_line_two_curves_cross():
    (t,) = crossings(STRAIGHT, UPRIGHT)
    assert t == pytest.approx(0.25, abs=0.01)
    assert point_at(STRAIGHT, t) == pytest.approx((30.0, 0.0), abs=0.5)


def test_curves_that_stay_apart_do_not_cross():
    aside = tuple((x, y + 10) for x, y in STRAIGHT)
    assert crossings(STRAIGHT, aside) == ()


@given(curve=curves, start=st.floats(0, 0.9), share=st.floats(0.01, 1))
def test_a_part_of_a_curve_lies_on_it(curve, start, share):
    """De Casteljau: the piece from t0 to t1 at s is the whole at t0 + s (t1 - t0)."""
    end = start + (1 - start) * share
    piece = part(curve, start, end)
    for s in (0.0, 0.37, 1.0):
        assert point_at(piece, s) == pytest.approx(point_at(curve, start + s * (end - start)), abs=1e-6)


@given(curve=curves)
def test_sampling_begins_and_ends_with_the_curve(curve):
    points = sampled(curve)
    assert points[0] == pytest.approx(curve[0]) and points[-1] == pytest.approx(curve[3])


def test_the_head_points_along_the_way_in_and_its_tip_is_the_end():
    marks = {mark.name: mark for mark in arrow("a", STRAIGHT, "#00558C", 6.0)}
    left, top, right, bottom = bounds(marks["a/head"].outline)
    assert right == pytest.approx(120.0) and (top + bottom) / 2 == pytest.approx(0.0)
    assert bottom - top > 2 * 6.0, "the head is clearly wider than the shaft"
    shaft_end = marks["a/path"].outline[-1][-2:]
    assert left < shaft_end[0] < right, "the shaft ends under the head, not at its tip"
    start = bounds(marks["a/start"].outline)
    assert ((start[0] + start[2]) / 2, (start[1] + start[3]) / 2) == pytest.approx((0.0, 0.0))


def test_only_a_crossing_gets_a_gap_and_it_lies_below_the_arrow_that_passes_over():
    marks = arrow("a", STRAIGHT, "#00558C", 6.0, over=(UPRIGHT,), ground="#FFFFFF")
    names = [mark.name for mark in marks]
    assert names.index("a/gap") < names.index("a/path")
    gap = marks[names.index("a/gap")]
    left, _, right, _ = bounds(gap.outline)
    assert (left + right) / 2 == pytest.approx(30.0, abs=1.0)
    assert gap.stroke.width > 6.0 and gap.stroke.color == "#FFFFFF"
    assert "a/gap" not in [mark.name for mark in arrow("a", STRAIGHT, "#00558C", 6.0)]


def test_a_dashed_arrow_is_dashed_and_all_of_it_appears_in_one_step():
    marks = arrow("a", STRAIGHT, "#00558C", 6.0, dashed=True, step=3)
    path = next(mark for mark in marks if mark.name == "a/path")
    assert path.stroke.dash and {mark.step for mark in marks} == {3}
    assert math.isclose(path.stroke.width, 6.0)
