"""A piece of tread in section: heights to scale, the wear bar where a new tire has it, what has gone as a ghost."""

import msgspec
import pytest

from studio.graphics.draw import bounds
from studio.graphics.look import shipped_looks
from studio.graphics.parts.groove_section import TreadPiece, rubber, tread_piece
from studio.graphics.scene import Shape

LOOKS = tuple(shipped_looks().values())


def piece(depth_mm: float, new_mm: float | None = 8.0, grooves: tuple[float, ...] = (200.0,)) -> TreadPiece:
    return TreadPiece(left=50.0, right=350.0, floor=400.0, scale=20.0, depth_mm=depth_mm, grooves=grooves, groove=120.0,
                      base_mm=3.0, new_mm=new_mm, bar_mm=1.6)  # fmt: skip


def part(shapes: tuple[Shape, ...], name: str) -> Shape:
    return next(shape for shape in shapes if shape.name == f"t/{name}")


@pytest.mark.parametrize("depth_mm", [0.0, 0.4, 1.6, 3.2, 8.0, 9.525])
def test_the_surface_stands_at_its_depth_above_the_floor(depth_mm):
    left, top, right, bottom = bounds(rubber(piece(depth_mm)))
    assert top == pytest.approx(400.0 - 20.0 * depth_mm)
    assert bottom == pytest.approx(400.0 + 20.0 * 3.0)
    assert (left, right) == (50.0, 350.0)


def test_the_wear_bar_is_as_high_as_it_is_told():
    # 49 CFR 571.139 S5.4: the indicators show 1.6 mm
    _, top, _, _ = bounds(part(tread_piece(piece(5.0), LOOKS[0], "t"), "wear bars").outline)
    assert top == pytest.approx(400.0 - 20.0 * 1.6)


def test_a_tread_below_the_bar_has_worn_it_too():
    shapes = tread_piece(piece(1.0), LOOKS[0], "t")
    _, bar, _, _ = bounds(part(shapes, "wear bars").outline)
    _, surface, _, _ = bounds(part(shapes, "rubber").outline)
    assert bar == pytest.approx(surface)


def test_what_has_gone_reaches_from_the_surface_to_where_it_was_new():
    _, top, _, bottom = bounds(part(tread_piece(piece(3.0), LOOKS[0], "t"), "worn away").outline)
    assert top == pytest.approx(400.0 - 20.0 * 8.0) and bottom == pytest.approx(400.0 - 20.0 * 3.0)


@pytest.mark.parametrize("new_mm", [8.0, None])
def test_nothing_has_gone_from_a_new_tire_or_one_whose_depth_is_unknown(new_mm):
    names = {shape.name for shape in tread_piece(piece(8.0, new_mm), LOOKS[0], "t")}
    assert "t/worn away" not in names


def test_a_worn_groove_is_narrower_at_its_mouth_and_its_edges_softer():
    assert piece(2.0).half_width(2.0) < piece(8.0).half_width(8.0) == 60.0
    assert piece(6.0).rounding > piece(8.0).rounding


def test_each_groove_parts_the_ghost():
    shape = part(tread_piece(piece(3.0, grooves=(120.0, 280.0)), LOOKS[0], "t"), "worn away")
    assert sum(command[0] == "M" for command in shape.outline) == 3


def test_a_cut_between_two_bars_shows_none():
    between = msgspec.structs.replace(piece(5.0), bar_mm=None)
    assert "t/wear bars" not in {shape.name for shape in tread_piece(between, LOOKS[0], "t")}
