"""A measured bar: lengths to its scale, round ticks, numbers clear of each other."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box
from studio.graphics.layout.text import box as box_of
from studio.graphics.look import shipped_looks
from studio.graphics.parts.measure_bar import Limit, MeasureBar, bar_height, bar_marks, bar_scale, tick_step
from studio.graphics.scene import Text

FRAME, LOOK = FRAMES["wide"], shipped_looks()["chalk"]
BOX = Box(100.0, 200.0, 900.0, 130.0)


def test_lengths_are_to_scale():
    limit = Limit(name="asked", kind="law", value=700.0)
    bar = MeasureBar(name="load", unit="kg", full=600.0, now=450.0, limits=(limit,))
    marks = {mark.name: mark for mark in bar_marks(bar, BOX, FRAME, LOOK, LOOK.steel)}
    full, now = (bounds(marks[f"load/{name}"].outline) for name in ("full", "now"))
    line = bounds(marks["load/asked"].outline)
    assert (now[2] - now[0]) / (full[2] - full[0]) == pytest.approx(450 / 600)
    assert (line[0] - BOX.left) / (full[2] - full[0]) == pytest.approx(700 / 600)
    assert line[1] < full[1] and line[3] > full[3]
    assert max(bounds(mark.outline)[2] for name, mark in marks.items() if "axis" not in name) <= BOX.right + 1e-6


@given(st.floats(min_value=1e-3, max_value=1e5))
def test_ticks_stand_at_round_values_at_most_six(highest):
    step = tick_step(highest)
    mantissa = step / 10 ** math.floor(math.log10(step) + 1e-9)
    assert any(mantissa == pytest.approx(round_) for round_ in (1, 2, 2.5, 5, 10))
    assert highest / step <= 6 + 1e-6


@given(st.floats(min_value=1, max_value=9000))
def test_numbers_stay_clear_of_each_other_and_within_the_box(full):
    bar = MeasureBar(name="load", unit="km/h", full=full, now=full / 2)
    texts = [mark for mark in bar_marks(bar, BOX, FRAME, LOOK, LOOK.steel) if isinstance(mark, Text)]
    boxes = [box_of(mark) for mark in texts]
    assert boxes and boxes[-1].right <= BOX.right
    assert all(a.right < b.left for a, b in pairwise(boxes))
    assert max(box.bottom for box in boxes) <= BOX.top + bar_height(FRAME, numbered=True) + 0.5
    assert bar_scale(bar, BOX.width) * bar.highest <= BOX.width
