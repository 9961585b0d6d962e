"""The scale of depths: whole units from the floor, labels that do not crowd, ticks that do not flicker."""

from itertools import pairwise

import pytest

from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES
from studio.graphics.layout.text import box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.depth_axis import axis_width, depth_axis, last_tick
from studio.graphics.scene import Shape, Text

LOOK = shipped_looks()["chalk"]
WIDE = FRAMES["wide"]


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("scale", [0.5, 4.0, 12.0, 35.0, 90.0])
def test_labels_stand_at_their_depths_and_apart(units, scale):
    marks = depth_axis(200.0, 800.0, scale, 9.0, units, WIDE, LOOK)
    one = 25.4 / 32 if units == "us" else 1.0
    labels = [mark for mark in marks if isinstance(mark, Text) and mark.name != "axis/unit"]
    for mark in labels:
        assert mark.at[1] - mark.cap_height / 2 == pytest.approx(800.0 - int(mark.text) * one * scale)
    texts = [box(mark) for mark in marks if isinstance(mark, Text)]
    assert not any(a.meets(b, gap=-0.5) for order, a in enumerate(texts) for b in texts[order + 1 :])
    assert all(text.left >= 200.0 - axis_width(9.0, units, WIDE) for text in texts)


@pytest.mark.parametrize("scale", [0.8, 4.0, 35.0])
def test_ticks_reach_the_highest_depth_and_are_no_finer_than_8_px(scale):
    ticks = depth_axis(200.0, 800.0, scale, 9.0, "us", WIDE, LOOK)[0]
    assert isinstance(ticks, Shape)
    assert 800.0 - bounds(ticks.outline)[1] >= 9.0 * scale
    heights = sorted({float(command[-1]) for command in ticks.outline[2:] if len(command) > 1})
    assert all(b - a >= 8.0 - 1e-6 for a, b in pairwise(heights))


@pytest.mark.parametrize(
    ("mm", "units", "ticks"), [(8.7, "metric", 8), (8.0, "metric", 8), (7.9375, "us", 10), (0.2, "us", 1)]
)
def test_the_last_tick_is_never_above_the_depth_but_there_is_one(mm, units, ticks):
    last = last_tick(mm, units)
    assert last / (25.4 / 32 if units == "us" else 1.0) == pytest.approx(ticks, abs=1e-5)
