"""The little car that says which wheels are meant, and the pillar behind the plate."""

import pytest

from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.door_pillar import door_pillar, plate_shadow, striker
from studio.graphics.parts.wheels_sign import wheels_sign

FRAME, LOOK = FRAMES["wide"], shipped_looks()["chalk"]


@pytest.mark.parametrize(("wheels", "count"), [(("front",), 2), (("rear",), 2), (("front", "rear"), 4)])
def test_the_wheels_meant_are_dark(wheels, count):
    marks = {mark.name: mark for mark in wheels_sign("row", wheels, (100.0, 50.0), 84.0, LOOK)}
    assert marks["row/wheels"].fill == LOOK.ink
    assert sum(command[0] == "M" for command in marks["row/wheels"].outline) == count
    assert ("row/other wheels" in marks) == (count == 2)
    assert all(bounds(mark.outline)[0] >= 100.0 - 1e-6 for mark in marks.values())
    assert all(bounds(mark.outline)[2] <= 184.0 + 1e-6 for mark in marks.values())


def test_a_spare_is_a_wheel_alone():
    (mark,) = wheels_sign("row", ("spare",), (100.0, 50.0), 84.0, LOOK)
    left, top, right, low = bounds(mark.outline)
    assert right - left == pytest.approx(low - top) and (top + low) / 2 == pytest.approx(50.0)


def test_the_body_is_cropped_to_its_window():
    window = Box(0.0, 100.0, 1200.0, 600.0)
    marks = door_pillar(window, 250.0, 950.0, FRAME, LOOK, step=0)
    clips = {mark.clip for mark in marks}
    assert len(clips) == 1 and bounds(clips.pop()) == (0.0, 100.0, 1200.0, 700.0)
    opening = next(mark for mark in marks if mark.name == "pillar/opening")
    assert bounds(opening.outline)[2] == pytest.approx(250.0, abs=0.04 * 600)


def test_the_shade_falls_to_the_lower_right():
    box = Box(300.0, 200.0, 400.0, 300.0)
    outermost = bounds(plate_shadow(box, 12.0, FRAME, LOOK)[0].outline)
    assert outermost[2] - box.right > box.left - outermost[0] and outermost[3] - box.bottom > box.top - outermost[1]
    plate = next(mark for mark in striker((500.0, 150.0), 80.0, LOOK) if mark.name == "striker/plate")
    assert bounds(plate.outline)[1:4:2] == pytest.approx((110.0, 190.0))
