"""The whole tread cut across: surfaces at the grooves' depths, ribs straight between them, what has gone above."""

import pytest

from studio.graphics.draw import bounds
from studio.graphics.look import shipped_looks
from studio.graphics.parts.tread_across import TreadAcross, rubber, tread_across
from studio.graphics.scene import Shape

LOOK = shipped_looks()["night_bay"]


def its(*depths: float, new=8.0, bar=1.6) -> TreadAcross:
    places = tuple((200.0 + 200 * order, mm) for order, mm in enumerate(depths))
    return TreadAcross(left=100.0, right=100.0 + 200 * len(depths), floor=500.0, scale=30.0, grooves=places,
                       groove=40.0, base=24.0, new_mm=new, bar_mm=bar)  # fmt: skip


def part(tread: TreadAcross, name: str) -> Shape | None:
    return next((shape for shape in tread_across(tread, LOOK, "t", 2.0) if shape.name == f"t/{name}"), None)


def test_each_rib_runs_from_one_grooves_depth_to_the_next():
    assert list(its(5, 4, 3).ribs()) == [(100, 180, 5, 5), (220, 380, 5, 4), (420, 580, 4, 3), (620, 700, 3, 3)]


@pytest.mark.parametrize("depths", [(5.0, 4.0, 3.0), (2.0, 6.0, 2.0), (0.0, 0.0), (8.0,)])
def test_the_highest_surface_and_the_base_are_to_scale(depths):
    left, top, right, bottom = bounds(rubber(its(*depths)))
    assert top == pytest.approx(500 - 30 * max(depths), abs=1.0) and bottom == 524  # a peak is rounded off
    assert (left, right) == (100.0, 100.0 + 200 * len(depths))


def test_what_has_gone_reaches_up_to_the_new_surface_in_as_many_pieces_as_ribs():
    gone = part(its(5, 4, 3), "worn away")
    assert gone is not None and bounds(gone.outline)[1] == pytest.approx(500 - 30 * 8)
    assert sum(command[0] == "M" for command in gone.outline) == 4


@pytest.mark.parametrize("tread", [its(8, 8, 8), its(5, 4, 3, new=None)])
def test_nothing_has_gone_from_a_new_tread_or_where_the_depth_when_new_is_unknown(tread):
    assert part(tread, "worn away") is None


def test_a_bar_is_never_higher_than_its_groove():
    bars = part(its(5, 1, 3), "wear bars")
    assert bars is not None
    tops = sorted({command[2] for command in bars.outline if len(command) > 1})
    assert tops == pytest.approx([500 - 30 * 1.6, 500 - 30 * 1.0, 501.0])
    assert part(its(5, 4, bar=None), "wear bars") is None
