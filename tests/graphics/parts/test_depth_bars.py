"""Bars across the tread: to one scale, in true order, with limits and the gauge's doubt at their heights."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box
from studio.graphics.layout.notes import Note
from studio.graphics.look import shipped_looks
from studio.graphics.parts.depth_bars import Bars, bar_box, depth_bars
from studio.graphics.parts.scale_bar import key, key_height
from studio.graphics.scene import Shape

WIDE = FRAMES["wide"]
CHALK = shipped_looks()["chalk"]
BOX = Box(100.0, 200.0, 160.0, 240.0)
BARS = Bars(grooves=(6.0, 5.0, 2.5), verdict="watch", limit=1.6, advice=3.2, new=8.0, lowest=2.0, lowest_groove=2,
            doubt=0.3)  # fmt: skip
SCALE = 30.0


def drawn(bars: Bars = BARS) -> dict[str, Shape]:
    return {mark.name: mark for mark in depth_bars(bars, BOX, SCALE, WIDE, CHALK, "c", 1, 5)}


def test_each_bar_is_as_high_as_its_groove_is_deep():
    heights = [bar_box(BARS, groove, depth, BOX, SCALE).height for groove, depth in enumerate(BARS.grooves)]
    assert heights == pytest.approx([180.0, 150.0, 75.0], abs=0.5)
    left, top, right, bottom = bounds(drawn()["c/bars"].outline)
    assert bottom == pytest.approx(BOX.bottom) and top == pytest.approx(BOX.bottom - 180.0)
    assert BOX.left < left and right < BOX.right


def test_the_outer_groove_lies_at_the_outside_on_both_sides_of_the_car():
    on_left = [bar_box(BARS, groove, 1.0, BOX, SCALE).center[0] for groove in range(3)]
    mirrored = Bars(grooves=BARS.grooves, verdict=None, limit=1.6, outer_left=False)
    on_right = [bar_box(mirrored, groove, 1.0, BOX, SCALE).center[0] for groove in range(3)]
    assert on_left == sorted(on_left) and on_right == sorted(on_right, reverse=True)


def test_limits_stand_at_their_depths_and_only_the_law_is_a_full_line():
    marks = drawn()
    for name, depth in (("limit", 1.6), ("advice", 3.2)):
        assert bounds(marks[f"c/{name}"].outline)[1] == pytest.approx(BOX.bottom - depth * SCALE)
    assert marks["c/limit"].stroke.dash == () and marks["c/advice"].stroke.dash
    assert marks["c/limit"].stroke.width >= WIDE.short / 270
    assert "c/advice" not in drawn(Bars(grooves=(3.0,), verdict=None, limit=1.6))


def test_the_doubt_reaches_as_far_as_it_is_large_but_not_below_the_groove():
    _, top, _, bottom = bounds(drawn()["c/doubt"].outline)
    assert (top, bottom) == pytest.approx((BOX.bottom - 2.3 * SCALE, BOX.bottom - 1.7 * SCALE))
    shallow = Bars(grooves=(0.1,), verdict="replace", limit=1.6, lowest=0.1, doubt=0.3)
    assert bounds(drawn(shallow)["c/doubt"].outline)[3] == pytest.approx(BOX.bottom)
    assert "c/doubt" not in drawn(Bars(grooves=(3.0,), verdict=None, limit=1.6, lowest=3.0))


def test_limits_and_doubt_appear_in_a_step_of_their_own():
    steps = {name: mark.step for name, mark in drawn().items()}
    assert {steps["c/bars"], steps["c/worn"], steps["c/floor"]} == {1}
    assert {steps["c/limit"], steps["c/advice"], steps["c/doubt"]} == {5}


def test_what_has_worn_away_is_shown_up_to_the_depth_when_new():
    assert bounds(drawn()["c/worn"].outline)[1] == pytest.approx(BOX.bottom - 8.0 * SCALE)
    assert "c/worn" not in drawn(Bars(grooves=(3.0,), verdict=None, limit=1.6))


@given(count=st.integers(1, 8), outer_left=st.booleans())
def test_bars_of_any_count_stand_apart_within_the_chart(count, outer_left):
    bars = Bars(grooves=(4.0,) * count, verdict=None, limit=1.6, outer_left=outer_left)
    boxes = sorted((bar_box(bars, g, 4.0, BOX, SCALE) for g in range(count)), key=lambda box: box.left)
    assert boxes[0].left > BOX.left and boxes[-1].right < BOX.right
    assert all(one.right < other.left for one, other in pairwise(boxes))


def test_the_key_shows_each_line_as_it_is_drawn_and_is_as_high_as_it_says():
    entries = tuple(
        (Note(name=f"key/{kind}", value="1.6 mm", label=f"what {kind} is"), kind) for kind in ("law", "advice", "doubt")
    )
    marks = key(entries, BOX, WIDE, CHALK)
    samples = {mark.name: mark for mark in marks if isinstance(mark, Shape)}
    assert samples["key/law/sample"].stroke.dash == () and samples["key/advice/sample"].stroke.dash
    bottom = max(mark.at[1] for mark in marks if not isinstance(mark, Shape))
    assert bottom <= BOX.top + key_height(entries, WIDE, BOX.width)
