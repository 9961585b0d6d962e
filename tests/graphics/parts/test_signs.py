"""The verdicts' signs as drawings: each in its box, told apart by shape, one meaning each."""

from typing import get_args

import pytest

from studio.graphics.draw import bounds
from studio.graphics.frame import Box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.signs import sign, verdict_word
from studio.graphics.scene import Shape
from studio.model.finding import Verdict

VERDICTS: tuple[Verdict, ...] = get_args(Verdict)
LOOKS = tuple(shipped_looks().values())
BOX = Box(30.0, 50.0, 40.0, 60.0)


def part(shapes: tuple[Shape, ...], name: str) -> Shape:
    return next(shape for shape in shapes if shape.name == f"s/{name}")


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.id)
@pytest.mark.parametrize("verdict", VERDICTS)
def test_a_sign_stays_in_its_box_with_its_line(verdict, look):
    for shape in sign(verdict, BOX, look, "s"):
        half = shape.stroke.width / 2 if shape.stroke else 0.0
        left, top, right, bottom = bounds(shape.clip or shape.outline)
        assert BOX.holds(Box(left - half, top - half, right - left + 2 * half, bottom - top + 2 * half))


def test_a_sign_grows_with_its_box_lines_and_dashes_too():
    for verdict in VERDICTS:
        small = sign(verdict, Box(0, 0, 20, 20), LOOKS[0], "s")
        large = sign(verdict, Box(0, 0, 60, 60), LOOKS[0], "s")
        for one, three in zip(small, large, strict=True):
            assert [3 * v for v in bounds(one.outline)] == pytest.approx(bounds(three.outline))
            if one.stroke:
                assert three.stroke.width == pytest.approx(3 * one.stroke.width)
                assert three.stroke.dash == pytest.approx([3 * length for length in one.stroke.dash])


def test_the_tread_sinks_from_keep_over_watch_to_replace_while_the_bar_stays():
    keep, watch, replace = (sign(v, Box(0, 0, 20, 20), LOOKS[0], "s") for v in ("keep", "watch", "replace"))
    tops = [bounds(part(shapes, "tread").outline)[1] for shapes in (keep, watch, replace)]
    assert tops == sorted(tops) and len(set(tops)) == 3
    bar = bounds(part(watch, "bar").outline)
    assert tops[1] < bar[1], "half worn: the bar still lies below the surface"
    assert bounds(part(replace, "bar").outline)[1] == pytest.approx(tops[2]), "done: the bar is flush with the surface"


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.id)
def test_fills_are_the_looks_own_and_unknown_has_none(look):
    for verdict in ("keep", "watch", "rotate", "replace"):
        assert part(sign(verdict, BOX, look, "s"), "tread").fill == getattr(look.verdicts, verdict)
    unknown = sign("unknown", BOX, look, "s")
    assert all(shape.fill is None for shape in unknown if shape.stroke)
    assert any(shape.stroke and shape.stroke.dash for shape in unknown)


def test_no_two_signs_have_the_same_outlines():
    drawn = [tuple(shape.outline for shape in sign(verdict, BOX, LOOKS[0], "s")) for verdict in VERDICTS]
    assert len(set(drawn)) == len(VERDICTS)


def test_a_plain_quantity_has_no_sign_and_no_word():
    assert sign(None, BOX, LOOKS[0], "s") == ()
    assert verdict_word(None) == ""
    assert len({verdict_word(verdict) for verdict in VERDICTS}) == len(VERDICTS)


def test_parts_carry_the_name_and_the_step_given():
    shapes = sign("watch", BOX, LOOKS[0], "row 1/sign", step=3)
    assert {shape.step for shape in shapes} == {3}
    assert all(shape.name.startswith("row 1/sign/") for shape in shapes)
