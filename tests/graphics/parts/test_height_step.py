"""A step in height: arrows that touch both levels, from inside or from outside."""

import pytest

from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES
from studio.graphics.look import shipped_looks
from studio.graphics.parts.height_step import carried_level, height_step, step_reach

FRAME, LOOK = FRAMES["wide"], shipped_looks()["chalk"]


@pytest.mark.parametrize("apart", [0.0, 3.0, 45.0, 200.0])
def test_the_tips_touch_both_levels(apart):
    shaft, heads = height_step(500.0, (300.0 + apart, 300.0), FRAME, LOOK, "step")
    tips = sorted(y for (letter, x, y) in (c for c in heads.outline if c[0] == "M"))
    assert tips == pytest.approx([300.0, 300.0 + apart])
    _, top, _, low = bounds(heads.outline + shaft.outline)
    assert top == pytest.approx(300.0 - step_reach((300.0, 300.0 + apart), FRAME))
    assert (top < 300.0) == (low > 300.0 + apart) == (apart < 48.0)


def test_a_level_runs_straight_across():
    line = carried_level((100.0, 300.0), 700.0, FRAME, LOOK, "step", step=2)
    assert bounds(line.outline) == (100.0, 300.0, 700.0, 300.0)
    assert line.step == 2 and line.stroke is not None and line.stroke.width >= FRAME.short / 270
