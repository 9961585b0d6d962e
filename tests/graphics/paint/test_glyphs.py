"""Text as outlines."""

import pytest

from studio.graphics.draw import bounds
from studio.graphics.layout.text import box, glyph_outline, placed_glyphs
from studio.graphics.paint.glyphs import HALO_SHARE, arc_box, arc_outline, letter, text_outline
from tests.graphics.paint.samples import along, line


def test_a_lines_outline_lies_in_its_box() -> None:
    mark = line("Hxgy 5/32")
    left, top, right, bottom = bounds(text_outline(mark))
    measured = box(mark)
    assert left >= measured.left and right <= measured.right
    assert top == pytest.approx(measured.top, abs=2) and bottom <= measured.bottom + 1


def test_there_is_an_outline_for_each_letter_and_none_for_a_space() -> None:
    starts = sum(command[0] == "M" for command in text_outline(line("i i")))
    assert starts == 2 * sum(command[0] == "M" for command in letter(*placed_glyphs(line("i"))[0][:2]))
    assert text_outline(line("  ")) == ()


def test_a_missing_sign_is_a_box_with_a_hole_the_other_way_round() -> None:
    outline = letter("Inter-Regular.ttf", 0)
    rings = [index for index, command in enumerate(outline) if command[0] == "M"]
    parts = (outline[: rings[1]], outline[rings[1] :])
    areas = [_area([command[1:] for command in part if len(command) > 1]) for part in parts]
    assert areas[0] > 0 > areas[1]
    assert bounds(outline)[2] <= bounds(glyph_outline("Inter-Regular.ttf", 0))[2]


def _area(points: list[tuple[float, float]]) -> float:
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1], strict=True)) / 2


def test_the_box_of_an_arc_holds_its_letters() -> None:
    mark = along("OOO", angle=90.0)
    left, top, right, bottom = bounds(arc_outline(mark))
    around = arc_box(mark)
    assert (around.left, around.top, around.right, around.bottom) == pytest.approx((left, top, right, bottom))
    assert left == pytest.approx(240 + 90, abs=6) and (top + bottom) / 2 == pytest.approx(135, abs=1)


def test_text_of_nothing_along_an_arc_has_an_empty_box_in_its_middle() -> None:
    around = arc_box(along("", angle=90.0))
    assert (around.width, around.height) == (0, 0)
    assert (around.left, around.top) == pytest.approx((330, 135))


def test_the_halo_is_wide_enough() -> None:
    """At least 0.12 em, the house's convention for text over an unknown ground."""
    assert HALO_SHARE >= 0.12
