"""A piece of tread from above: one bar across each groove, in one row, and a mark on the shoulder that points at it."""

import pytest

from studio.graphics.draw import bounds
from studio.graphics.frame import Box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.bar_patch import BarPatch, bar_patch
from studio.graphics.scene import Shape

LOOK = shipped_looks()["chalk"]
BOX = Box(100.0, 50.0, 400.0, 500.0)


def named(shapes, name) -> Shape:
    return next(shape for shape in shapes if shape.name == name)


def test_a_bar_crosses_each_groove_from_edge_to_edge_in_one_row():
    patch = BarPatch(box=BOX)
    assert len(patch.grooves) == 3
    for number, (left, right) in enumerate(patch.grooves):
        bar = patch.bar(number)
        assert (bar.left, bar.right) == pytest.approx((left, right)) and bar.center[1] == pytest.approx(300.0)
    assert sum(c[0] == "M" for c in named(bar_patch(patch, LOOK, "p", 2), "p/bars").outline) == 3


def test_the_marks_tip_lies_on_the_shoulder_at_the_bars_row():
    patch = BarPatch(box=BOX)
    left, top, right, bottom = bounds(named(bar_patch(patch, LOOK, "p", 2), "p/mark").outline)
    assert patch.box.left + patch.tread < left == patch.mark[0] < right < BOX.right
    assert (top + bottom) / 2 == pytest.approx(patch.level)


@pytest.mark.parametrize("box", [BOX, Box(0, 0, 300, 120), Box(0, 0, 200, 700)])
def test_blocks_fill_the_piece_from_top_to_bottom(box):
    _, top, _, bottom = bounds(named(bar_patch(BarPatch(box=box), LOOK, "p", 2), "p/blocks").outline)
    assert top <= box.top and bottom >= box.bottom
