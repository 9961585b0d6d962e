"""Outlines of simple figures against plain geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics import draw
from studio.graphics.scene import Outline, Point

angles = st.floats(-720, 720)


def points(outline: Outline, steps: int = 20) -> list[Point]:
    """Points on the outline, curves by de Casteljau's cubic in Bernstein form."""
    found: list[Point] = []
    here: Point = (0.0, 0.0)
    for command in outline:
        if command[0] == "C":
            _, x1, y1, x2, y2, x, y = command
            for step in range(1, steps + 1):
                t, u = step / steps, 1 - step / steps
                weights = (u**3, 3 * u * u * t, 3 * u * t * t, t**3)
                xs, ys = (here[0], x1, x2, x), (here[1], y1, y2, y)
                found.append(tuple(sum(w * v for w, v in zip(weights, axis, strict=True)) for axis in (xs, ys)))  # type: ignore[arg-type]
        if len(command) > 1:
            here = (float(command[-2]), float(command[-1]))
            found.append(here)
    return found


def area(outline: Outline) -> float:
    """Signed area by the shoelace formula; positive is clockwise, as y runs down."""
    ring = points(outline, 200)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1], strict=True)) / 2


@pytest.mark.parametrize("clockwise", [True, False])
def test_a_circle_is_round_to_three_parts_in_ten_thousand(clockwise: bool) -> None:
    for x, y in points(draw.circle((50, 60), 40, clockwise)):
        assert math.dist((x, y), (50, 60)) == pytest.approx(40, rel=3e-4)
    assert area(draw.circle((50, 60), 40, clockwise)) == pytest.approx(
        (1 if clockwise else -1) * math.pi * 1600, rel=1e-3
    )


def test_an_ellipse_has_its_own_two_radii() -> None:
    assert draw.bounds(draw.ellipse((50, 60), 40, 20)) == pytest.approx((10, 40, 90, 80))
    assert area(draw.ellipse((50, 60), 40, 20)) == pytest.approx(math.pi * 800, rel=1e-3)


def test_a_ring_is_the_difference_of_its_circles() -> None:
    circles = draw.ring((0, 0), 40, 30)
    assert area(circles[:6]) + area(circles[6:]) == pytest.approx(math.pi * 700, rel=1e-3)


@given(angles, angles)
def test_an_arc_starts_and_ends_at_its_angles_and_stays_on_its_circle(start: float, end: float) -> None:
    outline = points(draw.arc((5, 6), 40, start, end))
    assert outline[0] == pytest.approx(draw.polar((5, 6), 40, start), abs=1e-6)
    assert outline[-1] == pytest.approx(draw.polar((5, 6), 40, end), abs=1e-6)
    assert all(math.dist(point, (5, 6)) == pytest.approx(40, rel=1e-4) for point in outline)


@pytest.mark.parametrize(("angle", "point"), [(0, (5, -34)), (90, (45, 6)), (180, (5, 46)), (270, (-35, 6))])
def test_angles_run_clockwise_from_the_top(angle: float, point: Point) -> None:
    assert draw.polar((5, 6), 40, angle) == pytest.approx(point)


def test_a_sector_is_its_share_of_the_ring() -> None:
    piece = draw.sector((0, 0), 40, 30, 10, 100)
    assert piece[-1] == ("Z",)
    assert abs(area(piece)) == pytest.approx(math.pi * 700 / 4, rel=1e-3)


@given(st.floats(0, 200))
def test_a_rounded_rectangle_keeps_its_size_whatever_the_radius(radius: float) -> None:
    outline = draw.rectangle(10, 20, 100, 60, radius)
    assert draw.bounds(outline) == pytest.approx((10, 20, 110, 80))
    corner = min(radius, 30)
    assert abs(area(outline)) == pytest.approx(6000 - (4 - math.pi) * corner**2, rel=2e-3)


def test_lines_open_and_closed() -> None:
    assert draw.polyline(((1, 2), (3, 4))) == (("M", 1, 2), ("L", 3, 4))
    assert draw.polyline(((1, 2), (3, 4)), closed=True)[-1] == ("Z",)


def test_moving_and_turning() -> None:
    square = draw.rectangle(0, 0, 10, 10)
    assert draw.bounds(draw.moved(square, 5, 7, scale=2)) == (5, 7, 25, 27)
    quarter = draw.transformed(square, (0, 1, -1, 0, 0, 0))  # x' = -y, y' = x
    assert draw.bounds(quarter) == (-10, 0, 0, 10)
