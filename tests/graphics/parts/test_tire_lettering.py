"""Lettering on the sidewall: its spans are those of the painted glyphs, what points at it is legible on rubber."""

import math

import pytest

from studio.graphics.color import contrast, mix
from studio.graphics.draw import bounds
from studio.graphics.layout.text import arc_glyphs, font_size, shape
from studio.graphics.look import shipped_looks
from studio.graphics.parts.lettering import Lettering, bracket, on_rubber, raised

LOOKS = tuple(shipped_looks().values())
LETTERING = Lettering(text="225/60R17 99H", center=(500.0, 600.0), radius=400.0, angle=20.0, cap_height=48.0)


def middles() -> list[float]:
    """The angle of the middle of each painted glyph."""
    mark = raised(LETTERING, LOOKS[0], "#000000", "marking")[1]
    glyphs = shape(mark.text, mark.weight)
    found = []
    for (_, _, _, _, _, tilt), _ in zip(arc_glyphs(mark), glyphs, strict=True):
        found.append(tilt)  # letters stand upright on the circle, so their tilt is their angle
    return found


@pytest.mark.parametrize(("start", "end"), [(0, 3), (4, 6), (6, 7), (7, 9), (10, 12), (12, 13)])
def test_a_span_holds_exactly_its_characters(start, end):
    low, high = LETTERING.span(start, end)
    inside = [order for order, angle in enumerate(middles()) if low < angle < high]
    assert inside == list(range(start, end))


def test_the_whole_span_is_the_spread_round_the_middle():
    low, high = LETTERING.span(0, len(LETTERING.text))
    assert (low + high) / 2 == pytest.approx(20.0)
    assert high - low == pytest.approx(LETTERING.spread)


def test_the_spread_is_that_of_the_glyphs_advances():
    size = font_size(48.0)
    glyphs = shape(LETTERING.text, "bold")
    along = sum(glyph.advance for glyph in glyphs) * size + LETTERING.spacing * size * (len(glyphs) - 1)
    assert LETTERING.spread == pytest.approx(math.degrees(along / 400.0))


def test_the_marking_is_painted_in_its_order_with_a_shade_under_it():
    shade, letters = raised(LETTERING, LOOKS[0], "#2C3036", "marking", step=1)
    assert (letters.name, letters.text, letters.step) == ("marking", "225/60R17 99H", 1)
    assert shade.text == letters.text and shade.center != letters.center and shade.name == "marking/shade"


def test_larger_letters_spread_further():
    assert LETTERING.at_cap_height(60.0).spread > LETTERING.spread


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.id)
def test_what_points_at_letters_is_legible_on_rubber(look):
    for rubber in (look.rubber, mix(look.rubber, look.rubber_light, 0.6)):
        assert contrast(on_rubber(look), rubber) >= 3.0  # WCAG 2.2, 1.4.11: graphics that matter


def test_a_bracket_spans_its_letters():
    outline = bracket((0.0, 0.0), 100.0, (-30.0, 30.0), 8.0)
    left, top, right, bottom = bounds(outline)
    assert top == pytest.approx(-100.0, abs=0.5)
    assert (left, right) == (pytest.approx(-50.0), pytest.approx(50.0))
    assert bottom == pytest.approx(-92.0 * math.cos(math.radians(30)))
