"""What lies on what, against plain geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.draw import circle, polyline, rectangle, ring
from studio.graphics.layout.cover import inside, stands_on
from studio.graphics.scene import Linear, Shape, Stroke

coordinates = st.floats(-100, 100)


def line(*points: tuple[float, float], **how: object) -> Shape:
    return Shape(name="line", outline=polyline(points), stroke=Stroke("#000000", 2), **how)  # type: ignore[arg-type]


@given(coordinates, coordinates)
def test_a_point_is_in_a_ring_as_its_distance_says(x: float, y: float) -> None:
    away = math.hypot(x, y)
    if abs(away - 80) > 1 and abs(away - 40) > 1:
        assert inside(ring((0, 0), 80, 40), (x, y)) == (40 < away < 80)


@given(coordinates, coordinates)
def test_a_point_is_in_a_rectangle_as_its_sides_say(x: float, y: float) -> None:
    assert inside(rectangle(-50, -20, 100, 40), (x, y)) == (-50 <= x < 50 and -20 <= y < 20)


def test_the_two_rules_differ_where_outlines_of_one_sense_overlap() -> None:
    twice = rectangle(0, 0, 10, 10) + rectangle(2, 2, 6, 6)
    assert inside(twice, (5, 5)) and not inside(twice, (5, 5), even_odd=True)


@pytest.mark.parametrize(
    ("mark", "stands"),
    [
        (line((-30, 0), (30, 0)), True), (line((-30, 0), (200, 0)), False), (line((-75, -75), (-60, -75)), False),
        (line((0, -70), (0, -200), clip=circle((0, 0), 80)), True), (line((0, 0), (9, 9), step=1), True),
    ],
)  # fmt: skip
def test_a_line_stands_on_a_disc_or_leaves_it(mark: Shape, stands: bool) -> None:
    disc = Shape(name="disc", outline=circle((0, 0), 80), fill="#102030")
    assert stands_on(mark, [disc]) is stands


@pytest.mark.parametrize(
    "how",
    [
        {"fill": None},
        {"fill": "#10203080"},
        {"fill": "#102030", "step": 1},
        {"fill": "#102030", "clip": rectangle(0, 0, 500, 500)},
        {"fill": Linear((0, 0), (9, 9), ((0, "#102030"), (1, "#10203000")))},
    ],
)
def test_what_can_be_seen_through_is_no_body(how: dict[str, object]) -> None:
    disc = Shape(name="disc", outline=circle((0, 0), 80), **how)  # type: ignore[arg-type]
    assert not stands_on(line((-30, 0), (30, 0)), [disc])


def test_two_bodies_together_carry_a_line() -> None:
    left, right = (
        Shape(name=name, outline=rectangle(x, -9, 60, 18), fill="#102030") for name, x in (("l", -60), ("r", 0))
    )
    assert stands_on(line((-30, 0), (30, 0)), [left, right])
    assert not stands_on(line((-30, 0), (30, 0)), [left])
