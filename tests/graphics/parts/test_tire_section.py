"""The tire cut through: its outline has the dimensions that it is drawn from."""

import pytest

from studio.graphics.draw import bounds
from studio.graphics.look import shipped_looks
from studio.graphics.parts.tire_section import SectionView, tire_section
from studio.graphics.scene import Shape

LOOKS = tuple(shipped_looks().values())
# overall and rim diameter, section width in mm by UN R30 arithmetic: 225/60R17, 245/40R19, 155R13 (82 %), LT315/75R16
SIZES = ((701.8, 431.8, 225.0), (678.6, 482.6, 245.0), (584.4, 330.2, 155.0), (878.9, 406.4, 315.0))


def view(size: tuple[float, float, float], depths: tuple[float, ...] = (), new: float | None = None) -> SectionView:
    outer, rim, width = size
    return SectionView(outer_mm=outer, rim_mm=rim, width_mm=width, scale=2.0, center=(500.0, 900.0), depths_mm=depths,
                       new_mm=new)  # fmt: skip


def part(shapes: tuple[Shape, ...], name: str) -> Shape:
    return next(shape for shape in shapes if shape.name == f"section/{name}")


@pytest.mark.parametrize("size", SIZES)
def test_width_and_height_are_to_scale(size):
    outer, rim, width = size
    left, top, right, bottom = bounds(part(tire_section(view(size), LOOKS[0]), "rubber").outline)
    assert right - left == pytest.approx(2.0 * width, abs=0.5)
    assert 900.0 - top == pytest.approx(2.0 * outer / 2, abs=0.5)
    assert 900.0 - bottom == pytest.approx(2.0 * rim / 2, abs=4.0), "the bead's toe lies a little lower"


@pytest.mark.parametrize("size", SIZES)
def test_the_section_is_symmetrical_and_widest_in_the_sidewall(size):
    its = view(size)
    points = [command[-2:] for command in part(tire_section(its, LOOKS[0]), "rubber").outline if len(command) > 1]
    left, right = min(points), max(points)
    assert left[0] + right[0] == pytest.approx(2 * 500.0) and left[1] == pytest.approx(right[1])
    middle = 900.0 - 2.0 * (its.rim_mm / 2 + 0.5 * its.height_mm)
    assert abs(right[1] - middle) < 0.1 * its.height_mm * 2.0


@pytest.mark.parametrize("size", SIZES)
def test_the_tread_is_narrower_than_the_section_and_the_rim_narrower_still_or_alike(size):
    its = view(size)
    assert 0.7 * its.width_mm < its.tread_mm < its.width_mm
    assert 0.65 <= its.rim_width_mm / its.width_mm <= 0.9  # rims of 65 to 90 % of the width: common practice


def test_a_225_tire_has_a_usual_tread_width():
    assert 170 <= view(SIZES[0]).tread_mm <= 200  # common practice, no source


def test_grooves_are_as_many_and_as_deep_as_were_read():
    its = view(SIZES[0], depths=(4.0, 5.0, 6.0), new=8.0)
    assert len(its.grooves_mm) == 3
    for groove, depth in zip(its.grooves_mm, (4.0, 5.0, 6.0), strict=True):
        assert its.surface(groove) - its.floor(groove) == pytest.approx(depth)
        assert its.new_surface(groove) - its.floor(groove) == pytest.approx(8.0)


def test_a_worn_tread_lies_below_where_it_was_new():
    shapes = tire_section(view(SIZES[0], depths=(3.0,) * 4, new=8.0), LOOKS[0])
    _, worn, _, _ = bounds(part(shapes, "rubber").outline)
    _, new, _, _ = bounds(part(shapes, "when new").outline)
    assert worn - new == pytest.approx(2.0 * 5.0, abs=0.5)


def test_a_new_tread_has_no_line_above_it():
    names = {shape.name for shape in tire_section(view(SIZES[0], depths=(8.0,) * 4, new=8.0), LOOKS[0])}
    assert "section/when new" not in names and "section/carcass" in names


def test_one_groove_stands_in_the_middle():
    assert view(SIZES[0], depths=(5.0,)).grooves_mm == (0.0,)


def test_the_carcass_runs_inside_the_rubber_from_bead_to_bead():
    shapes = tire_section(view(SIZES[0]), LOOKS[0])
    left, top, right, bottom = bounds(part(shapes, "carcass").outline)
    outer = bounds(part(shapes, "rubber").outline)
    assert outer[0] < left and outer[1] < top and right < outer[2] and bottom < outer[3]
