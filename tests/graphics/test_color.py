"""Colours against WCAG 2.2 and a general colour library."""

import warnings

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.color import contrast, faded, luminance, mix, rgba

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it says at import that it finds no SciPy, which nothing here needs
    import colour

HEX = st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06X}")


@pytest.mark.parametrize(
    ("text", "numbers"),
    [("#1A1D21", (26, 29, 33, 255)), ("#1a1d2180", (26, 29, 33, 128)), ("#00000000", (0, 0, 0, 0))],
)
def test_a_colour_is_read(text: str, numbers: tuple[int, ...]) -> None:
    assert rgba(text) == numbers


@pytest.mark.parametrize("text", ["", "1A1D21", "#1A1D2", "#1A1D211", "red", "#GGGGGG", "#1A1D21 ", "#１２３４５６"])
def test_what_is_no_colour_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(ValueError, match=r"expected #RRGGBB, such as #1A1D21"):
        rgba(text)


def test_black_on_white_is_21_to_1() -> None:
    """WCAG 2.2, definition of contrast ratio: 1 to 21."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#123456", "#123456") == 1


@pytest.mark.parametrize(
    ("fill", "ratio"),
    [("#E69F00", 2.25), ("#56B4E9", 2.31), ("#009E73", 3.42), ("#F0E442", 1.32), ("#0072B2", 5.19),
     ("#D55E00", 3.87), ("#CC79A7", 3.06), ("#9B2423", 7.9)],
)  # fmt: skip
def test_ratios_on_white_as_the_house_measured_them(fill: str, ratio: float) -> None:
    """The Okabe-Ito palette and the signal red of ANSI Z535.6 panels, as the conventions list them."""
    assert contrast(fill, "#FFFFFF") == pytest.approx(ratio, abs=0.05 if ratio > 7 else 0.006)


@given(HEX)
def test_luminance_is_that_of_the_standard(text: str) -> None:
    """IEC 61966-2-1 by colour-science: WCAG's coefficients are rounded, hence the tolerance."""
    linear = colour.models.RGB_COLOURSPACE_sRGB.cctf_decoding([value / 255 for value in rgba(text)[:3]])
    expected = colour.models.RGB_luminance(
        linear, colour.models.RGB_COLOURSPACE_sRGB.primaries, colour.models.RGB_COLOURSPACE_sRGB.whitepoint
    )
    assert luminance(text) == pytest.approx(float(expected), abs=2e-4)


@given(HEX, HEX)
def test_contrast_is_the_same_both_ways_and_between_1_and_21(one: str, other: str) -> None:
    assert 1 <= contrast(one, other) == contrast(other, one) <= 21.0000001


@given(HEX, HEX)
def test_a_mix_begins_and_ends_at_its_colours(one: str, other: str) -> None:
    assert (mix(one, other, 0), mix(one, other, 1)) == (one, other)


def test_half_way_and_half_opaque() -> None:
    assert mix("#000000", "#FF8000", 0.5) == "#804000"
    assert faded("#1A1D21", 0.5) == "#1A1D2180"
    assert faded("#1A1D21FF", 0) == "#1A1D2100"
