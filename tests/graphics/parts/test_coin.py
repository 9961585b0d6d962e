"""A coin: a true disc; what is looked for begins at its stated distance from the rim in the groove."""

import math

import pytest

from studio.graphics.draw import bounds
from studio.graphics.look import shipped_looks
from studio.graphics.parts.coin import Coin, coin, landmark
from studio.graphics.scene import Shape

LOOK = shipped_looks()["chalk"]


def its(kind, reach=32.0, radius=190.5):
    return Coin(foot=(500.0, 800.0), radius=radius, reach=reach, landmark=kind)


def named(shapes, name) -> Shape:
    return next(shape for shape in shapes if shape.name == name)


def test_the_disc_stands_on_its_foot_and_has_its_diameter():
    left, top, right, bottom = bounds(named(coin(its("head"), LOOK, "c"), "c/disc").outline)
    assert (right - left, bottom - top, bottom) == pytest.approx((381.0, 381.0, 800.0))


@pytest.mark.parametrize("kind", ["head", "house"])
@pytest.mark.parametrize("reach", [16.0, 32.0, 63.5])
def test_the_landmarks_top_lies_at_its_distance_from_the_rim_in_the_groove(kind, reach):
    points = [(c[-2], c[-1]) for c in landmark(its(kind, reach)) if len(c) > 1]
    assert max(y for _, y in points) == pytest.approx(800.0 - reach)


@pytest.mark.parametrize("reach", [30.0, 60.0])
def test_a_rings_inner_edge_lies_at_its_distance_from_the_rim(reach):
    _, _, _, bottom = bounds(named(coin(its("ring", reach), LOOK, "c"), "c/core").outline)
    assert bottom == pytest.approx(800.0 - reach)


@pytest.mark.parametrize("kind", ["head", "house", "ring"])
def test_the_landmark_stays_on_the_disc(kind):
    one = its(kind)
    for command in landmark(one):
        for x, y in zip(command[1::2], command[2::2], strict=True):
            assert math.dist((x, y), one.center) < one.radius


def test_what_is_covered_is_drawn_again_dimmer_and_only_there():
    cover = (("M", 0.0, 768.0), ("L", 900.0, 768.0), ("L", 900.0, 800.0), ("L", 0.0, 800.0), ("Z",))
    shapes = coin(its("head"), LOOK, "c", covered=cover)
    behind = [shape for shape in shapes if shape.name.startswith("c/behind the rib")]
    assert len(behind) == len(shapes) / 2 and all(shape.clip == cover for shape in behind)
    assert named(shapes, "c/landmark").fill != named(shapes, "c/behind the rib/landmark").fill


def test_a_coin_of_no_known_landmark_is_a_plain_disc():
    assert landmark(its("none")) == ()
