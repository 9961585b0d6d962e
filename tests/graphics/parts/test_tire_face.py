"""The tire from the side: drawn to scale from its dimensions, each part where a tire has it."""

import math
from itertools import pairwise

import pytest

from studio.graphics.color import contrast
from studio.graphics.draw import bounds, rectangle
from studio.graphics.look import shipped_looks
from studio.graphics.parts.tire_face import (
    Face,
    ground_shadow,
    sidewall_ground,
    sidewall_of,
    small_tire_face,
    tire_face,
)
from studio.graphics.parts.tread_profile import pitch_edges
from studio.graphics.parts.wheel import FLANGE_MM
from studio.graphics.scene import Shape

LOOKS = tuple(shipped_looks().values())
# (overall diameter, rim) in mm: 225/60R17, 245/40R19, 155/80R13, LT245/75R16 by UN R30 arithmetic, geometric diameters
SIZES = ((701.8, 431.8), (678.6, 482.6), (578.2, 330.2), (773.9, 406.4))
CENTER = (900.0, 700.0)


def face(outer_mm: float, rim_mm: float, scale: float = 1.5) -> Face:
    return Face(outer_mm=outer_mm, rim_mm=rim_mm, scale=scale, center=CENTER)


def part(shapes: tuple[Shape, ...], name: str) -> Shape:
    return next(shape for shape in shapes if shape.name == name)


def diameter(shape: Shape) -> float:
    left, top, right, bottom = bounds(shape.outline)
    assert right - left == pytest.approx(bottom - top, abs=2.0)
    return right - left


def radii(shape: Shape) -> list[float]:
    """How far the ends of the outline's pieces lie from the centre."""
    ends = [(float(command[-2]), float(command[-1])) for command in shape.outline if len(command) > 1]
    return [math.dist(end, CENTER) for end in ends]


@pytest.mark.parametrize(("outer_mm", "rim_mm"), SIZES)
def test_diameters_are_to_scale(outer_mm, rim_mm):
    drawn = tire_face(face(outer_mm, rim_mm), LOOKS[0])
    tire, flange = part(drawn, "tire/tread/crown"), part(drawn, "tire/wheel/flange")
    assert max(radii(tire)) == pytest.approx(1.5 * outer_mm / 2, abs=0.5)
    assert diameter(flange) == pytest.approx(1.5 * (rim_mm + 2 * FLANGE_MM), abs=0.5)


def test_two_sizes_keep_the_ratio_of_their_diameters():
    drawn = (tire_face(face(*size), LOOKS[0]) for size in (SIZES[2], SIZES[3]))
    small, large = (max(radii(part(shapes, "tire/tread/crown"))) for shapes in drawn)
    assert large / small == pytest.approx(773.9 / 578.2, abs=0.001)


@pytest.mark.parametrize(("outer_mm", "rim_mm"), SIZES)
def test_the_parts_lie_in_the_order_of_a_tire(outer_mm, rim_mm):
    its = face(outer_mm, rim_mm)
    side = sidewall_of(its)
    order = [side.crown, side.shoulder, side.block_foot, side.upper_rib, side.lower_rib, side.flange]
    assert order == sorted(order, reverse=True)
    assert side.band > 0.4 * (its.radius - its.flange), "lettering needs the larger part of the sidewall"


def test_a_low_profile_has_a_lower_sidewall():
    assert face(678.6, 482.6).section_height_mm == pytest.approx(98.0)  # 245 x 0.40
    assert sidewall_of(face(678.6, 482.6)).band < sidewall_of(face(773.9, 406.4)).band


def test_the_blocks_stay_inside_the_tread():
    drawn = tire_face(face(*SIZES[0]), LOOKS[0])
    side = sidewall_of(face(*SIZES[0]))
    found = radii(part(drawn, "tire/tread/blocks"))
    assert max(found) <= side.shoulder + 0.5 and min(found) >= side.block_foot - 0.5


def test_a_worn_tread_is_notched_less():
    new, worn = (
        part(tire_face(face(*SIZES[0]), LOOKS[0], depth_mm=depth), "tire/tread/crown") for depth in (8.0, 2.0)
    )
    assert min(radii(new)) < min(radii(worn)) < max(radii(worn))
    bald = part(tire_face(face(*SIZES[0]), LOOKS[0], depth_mm=0.0), "tire/tread/crown")
    assert min(radii(bald)) == pytest.approx(max(radii(bald)))


@pytest.mark.parametrize("scale", [0.15, 0.4, 1.5, 3.2])
def test_pitches_close_the_circle_and_none_is_too_fine_to_survive_scaling(scale):
    edges = pitch_edges(701.8, scale)
    assert edges[0][0] == 0 and edges[-1][1] == pytest.approx(360)
    assert all(a[1] == pytest.approx(b[0]) for a, b in pairwise(edges))
    shortest = min(math.radians(end - start) for start, end in edges) * 701.8 / 2 * scale
    assert shortest >= 8, "no pattern finer than 8 px"


@pytest.mark.parametrize(("rim_mm", "nuts"), [(330.2, 4), (431.8, 5)])
def test_small_wheels_have_four_nuts_others_five(rim_mm, nuts):
    drawn = part(tire_face(face(660, rim_mm), LOOKS[0]), "tire/wheel/nuts")
    assert sum(command[0] == "M" for command in drawn.outline) == nuts


def test_the_small_version_leaves_out_what_would_flicker():
    names = {shape.name for shape in small_tire_face(face(701.8, 431.8, 0.3), LOOKS[0])}
    assert {"tire/tread", "tire/sidewall", "tire/wheel/spokes"} <= names
    assert not any("rib" in name or "sipe" in name for name in names)


def test_a_crop_bounds_every_shape():
    window = rectangle(0, 0, 500, 500)
    assert {shape.clip for shape in tire_face(face(*SIZES[0]), LOOKS[0], clip=window)} == {window}


def test_names_and_step_are_those_given():
    its = face(*SIZES[0])
    drawn = (*tire_face(its, LOOKS[0], name="left", step=2), *ground_shadow(its, LOOKS[0], step=2))
    assert {shape.step for shape in drawn} == {2}
    assert all(shape.name.startswith(("left/", "shadow/")) for shape in drawn)


def test_the_shadow_lies_on_the_ground_under_the_tire():
    its = face(*SIZES[0])
    for layer in ground_shadow(its, LOOKS[0]):
        left, top, right, bottom = bounds(layer.outline)
        assert top < CENTER[1] + its.radius < bottom + 0.1 * its.radius
        assert left < CENTER[0] < right


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.id)
def test_lettering_is_legible_on_the_sidewall(look):
    assert contrast(look.letter, sidewall_ground(look)) >= 4.5  # WCAG 2.2, 1.4.3
