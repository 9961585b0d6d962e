"""Dimension lines: arrows touch what is measured, half a diameter runs on past its axis."""

import pytest

from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES
from studio.graphics.look import shipped_looks
from studio.graphics.parts.dimension import dimension_line, extension_lines, half_dimension_line, inward_arrows

LOOK = shipped_looks()["chalk"]
WIDE = FRAMES["wide"]


def test_arrows_touch_both_ends():
    line, arrows = dimension_line((100.0, 50.0), (100.0, 350.0), WIDE, LOOK, "d")
    _, top, _, bottom = bounds(arrows.outline)
    assert (top, bottom) == (50.0, 350.0)
    assert line.stroke is not None and line.stroke.width >= WIDE.short / 270


@pytest.mark.parametrize("length", [0.0, 4.0, 20.0])
def test_a_short_line_has_short_arrows(length):
    _, arrows = dimension_line((0.0, 0.0), (length, 0.0), WIDE, LOOK, "d")
    left, _, right, _ = bounds(arrows.outline)
    assert left >= 0.0 and right <= max(length, 0.0)


def test_half_a_diameter_has_one_arrow_and_passes_its_axis():
    line, beyond, arrows = half_dimension_line((10.0, 100.0), (10.0, 400.0), WIDE, LOOK, "d")
    assert bounds(line.outline)[3] == 400.0 and bounds(beyond.outline)[3] > 400.0
    assert beyond.stroke is not None and beyond.stroke.dash
    assert bounds(arrows.outline)[1] == 100.0 and bounds(arrows.outline)[3] < 200.0


def test_arrows_from_outside_touch_what_is_between_them():
    tails, arrows = inward_arrows((100.0, 50.0), (300.0, 50.0), WIDE, LOOK, "d")
    outline = [command[1] for command in arrows.outline if len(command) > 1]
    assert max(x for x in outline if x < 200) == 100.0 and min(x for x in outline if x > 200) == 300.0
    assert bounds(tails.outline)[0] < 100.0 and bounds(tails.outline)[2] > 300.0


def test_extension_lines_leave_a_gap_and_pass_the_line():
    mark = extension_lines((((0.0, 0.0), (100.0, 0.0)),), WIDE, LOOK, "d")
    left, _, right, _ = bounds(mark.outline)
    assert left > 0.0 and right > 100.0
