"""Wear rates against a statistics library (scipy 1.x, numpy) and against wear that was put in on purpose."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.tires.errors import RangeError
from studio.tires.wear_rate import Visit, median_rate, rates_by_place, wear_line

SUMMER = ([0, 10.6, 21.3, 31.7, 42.0], [8.0, 6.4, 5.1, 3.7, 2.3])
FL, FR, RL, RR = "front_left", "front_right", "rear_left", "rear_right"


@st.composite
def series(draw, least=3):
    count = draw(st.integers(least, 10))
    xs = np.cumsum(draw(st.lists(st.floats(0.5, 20), min_size=count, max_size=count)))
    ys = draw(st.lists(st.floats(0, 12), min_size=count, max_size=count))
    return [float(x) for x in xs], ys


@given(series())
def test_the_line_and_its_scatter_are_those_of_scipys_linregress(points):
    """With equal half widths: slope, intercept, and the standard error of the slope."""
    from scipy import stats

    xs, ys = points
    assume(len(set(ys)) > 1)  # scipy gives no standard error for a constant
    line, theirs = wear_line(xs, ys, [0.25] * len(xs)), stats.linregress(xs, ys)
    assert line.rate == pytest.approx(-theirs.slope, rel=1e-6, abs=1e-9)
    assert line.depth_at_zero == pytest.approx(theirs.intercept, rel=1e-6, abs=1e-6)
    assert line.unit_half * line.scatter == pytest.approx(theirs.stderr, rel=1e-5, abs=1e-7)


@given(series(), st.lists(st.floats(0.05, 1), min_size=10, max_size=10))
def test_readings_of_several_gauges_weigh_as_in_numpys_polyfit(points, halves):
    """``cov="unscaled"`` is the covariance from the known doubts alone."""
    xs, ys = points
    halves = halves[: len(xs)]
    line = wear_line(xs, ys, halves)
    (slope, start), covariance = np.polyfit(xs, ys, 1, w=1 / np.array(halves), cov="unscaled")
    assert line.rate == pytest.approx(-slope, rel=1e-6, abs=1e-8)
    assert line.depth_at_zero == pytest.approx(start, rel=1e-6, abs=1e-6)
    assert line.unit_half == pytest.approx(covariance[0, 0] ** 0.5, rel=1e-6)


@given(series(least=2))
def test_the_median_of_all_pairs_is_scipys_theil_sen_slope(points):
    from scipy import stats

    assert median_rate(*points) == pytest.approx(-stats.theilslopes(points[1], points[0]).slope, abs=1e-9)


def test_one_bad_reading_moves_the_line_and_hardly_the_median():
    xs, ys = SUMMER
    bad = [*ys[:2], ys[2] + 2, *ys[3:]]
    assert abs(wear_line(xs, bad, [1] * 5).depth_at_zero - wear_line(xs, ys, [1] * 5).depth_at_zero) > 0.3
    assert median_rate(xs, bad) == pytest.approx(median_rate(xs, ys), rel=0.02)


def test_two_readings_have_no_scatter_and_the_half_width_of_their_difference():
    """Two readings each ±0.25 mm, 20 apart: the root of the sum of squares over the distance."""
    line = wear_line([10, 30], [8, 6], [0.25, 0.25])
    assert (line.rate, line.scatter) == (pytest.approx(0.1), 0)
    assert line.half(2) == line.unit_half == pytest.approx((0.25**2 + 0.25**2) ** 0.5 / 20)
    assert line.at(20) == pytest.approx(7)


def test_scatter_counts_where_it_is_more_than_the_gauge():
    from scipy import stats

    line = wear_line([0, 1, 2, 3], [8, 8.5, 6.2, 6.0], [0.01] * 4)
    error = stats.linregress([0, 1, 2, 3], [8, 8.5, 6.2, 6.0]).stderr
    assert line.half(2) == pytest.approx(2 * error)


@pytest.mark.parametrize(
    ("xs", "ys", "halves"),
    [([], [], []), ([1], [8], [1]), ([1, 1], [8, 7], [1, 1]), ([1, 2], [8], [1, 1]), ([1, 2], [8, 7], [1, 0])],
)
def test_what_gives_no_line_is_refused(xs, ys, halves):
    with pytest.raises(RangeError, match="expected"):
        wear_line(xs, ys, halves)


def test_a_median_needs_two_distances():
    with pytest.raises(RangeError, match="at one distance"):
        median_rate([3, 3], [8, 7])


def visits(start, legs, rates, half=0.2):
    """A tire's readings after each leg (place, distance), worn exactly by ``rates``."""
    rolled, depth, found = {}, start, [Visit(depth=start, half=half, rolled={})]
    for place, distance in legs:
        rolled = rolled | {place: rolled.get(place, 0.0) + distance}
        depth -= rates[place] * distance
        found.append(Visit(depth=depth, half=half, rolled=rolled))
    return found


rates = st.fixed_dictionaries({place: st.floats(0.01, 0.5) for place in (FL, FR, RL, RR)})


@given(rates, st.floats(6, 12))
def test_tires_that_went_round_the_car_tell_each_places_wear(true, start):
    rounds = [(FL, RR, FR, RL), (FR, RL, FL, RR), (RL, FL, RR, FR), (RR, FR, RL, FL)]
    tires = [visits(start, [(place, 6.0 + i) for i, place in enumerate(one)], true) for one in rounds]
    found = rates_by_place(tires, (FL, FR, RL, RR))
    assert found is not None and found.scatter == pytest.approx(0, abs=1e-6)
    assert found.rate == pytest.approx(true, rel=1e-6)


@given(st.lists(st.lists(st.floats(2, 12), min_size=4, max_size=4), min_size=2, max_size=4))
def test_it_is_the_least_squares_of_scipy_with_a_depth_of_its_own_for_each_tire(depths):
    """The full system with an unknown start for each tire, solved with no rate below 0 (scipy.optimize.nnls)."""
    from scipy.optimize import nnls

    legs = [
        ({FL: 0.0}, {FL: 5.0}, {FL: 5.0, RL: 7.0}, {FL: 9.0, RL: 7.0}),
        ({}, {RL: 6.0}, {RL: 9.0}, {RL: 9.0, FL: 8.0}),
    ]
    tires = [
        [Visit(depth=d, half=0.2, rolled=r) for d, r in zip(its, legs[i % 2], strict=True)]
        for i, its in enumerate(depths)
    ]
    found = rates_by_place(tires, (FL, RL))
    rows, right = [], []
    for i, tire in enumerate(tires):
        for visit in tire:
            own = [1.0 if j == i else 0.0 for j in range(len(tires))]
            rows.append([*own, *(-one for one in own), -visit.rolled.get(FL, 0.0), -visit.rolled.get(RL, 0.0)])
            right.append(visit.depth)
    theirs, _ = nnls(np.array(rows), np.array(right))
    assert found is not None
    assert [found.rate[FL], found.rate[RL]] == pytest.approx(list(theirs[-2:]), abs=1e-7)


@given(series())
def test_a_tire_that_never_moved_gives_the_line_of_its_readings(points):
    xs, ys = points
    line = wear_line(xs, ys, [0.25] * len(xs))
    assume(line.rate > 1e-6)
    found = rates_by_place(
        [[Visit(depth=y, half=0.25, rolled={FL: x}) for x, y in zip(xs, ys, strict=True)]], (FL,)
    )
    assert found is not None and found.rate[FL] == pytest.approx(line.rate, rel=1e-6)
    assert found.half(FL, 2) == pytest.approx(line.half(2), rel=1e-6)


def test_places_that_cannot_be_told_apart_are_refused():
    together = [Visit(depth=8 - i, half=0.2, rolled={FL: 5.0 * i, RL: 5.0 * i}) for i in range(3)]
    assert rates_by_place([together], (FL, RL)) is None
    assert rates_by_place([together], (FL, RR)) is None
    assert rates_by_place([], (FL,)) is None
    assert rates_by_place([together[:1]], (FL,)) is None
