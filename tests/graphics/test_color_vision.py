"""Colour-vision deficiency and colour difference against published values and a general colour library."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.color_vision import MATRICES, apart, ciede2000, lab, lightness_apart
from tests.graphics.color_library import library, matrix

PUBLISHED = {"protan": "Protanomaly", "deutan": "Deuteranomaly", "tritan": "Tritanomaly"}
HEX = st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06X}")

# Sharma, Wu, Dalal, "The CIEDE2000 Color-Difference Formula" (Color Research and Application 30, 2005), table 1, pairs
# 1, 7, 9, 13, 16, 17, 25: blues, greys, hues on both sides of 0 degrees.
SHARMA = [
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    ((50.0, 2.4900, -0.0010), (50.0, -2.4900, 0.0009), 7.1792),
    ((50.0, -0.0010, 2.4900), (50.0, 0.0009, -2.4900), 4.8045),
    ((50.0, 2.5, 0.0), (50.0, 0.0, -2.5), 4.3065),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
]


@pytest.mark.parametrize(("one", "other", "distance"), SHARMA)
def test_the_published_test_pairs(one: tuple[float, ...], other: tuple[float, ...], distance: float) -> None:
    assert ciede2000(one, other) == pytest.approx(distance, abs=1e-4)  # type: ignore[arg-type]
    assert ciede2000(other, one) == pytest.approx(distance, abs=1e-4)  # type: ignore[arg-type]


@pytest.mark.parametrize("deficiency", MATRICES)
def test_the_matrices_are_those_of_the_paper(deficiency: str) -> None:
    assert np.allclose(MATRICES[deficiency], matrix(PUBLISHED[deficiency]), atol=1e-6)  # type: ignore[index]
    assert np.allclose(np.sum(MATRICES[deficiency], axis=1), 1.0, atol=2e-6)  # type: ignore[index]


@given(HEX, HEX, st.sampled_from([None, *MATRICES]))
def test_as_a_general_library_sees_it(one: str, other: str, deficiency: str | None) -> None:
    """IEC 61966-2-1, CIE 15 and ISO/CIE 11664-6 by colour-science; its sRGB matrix is rounded, hence the tolerance."""
    expected = [_library_lab(color, deficiency) for color in (one, other)]
    for color, its in zip((one, other), expected, strict=True):
        assert lab(color, deficiency) == pytest.approx(its, abs=0.06)  # type: ignore[arg-type]
    distance = library().difference.delta_E_CIE2000(*expected)
    assert apart(one, other, deficiency) == pytest.approx(float(distance), abs=0.1)  # type: ignore[arg-type]


@given(HEX, HEX)
def test_a_distance_is_the_same_both_ways_and_none_to_itself(one: str, other: str) -> None:
    assert apart(one, other) == pytest.approx(apart(other, one), abs=1e-9)
    assert apart(one, one, "deutan") == 0


def test_red_and_green_of_one_lightness_are_told_apart_by_few() -> None:
    """Common practice, no source: a brick red and a moss green are the usual example."""
    assert apart("#B3543E", "#6F7A2E") > 30
    assert apart("#B3543E", "#6F7A2E", "deutan") < 15


def test_grey_is_lightness_alone() -> None:
    assert lightness_apart("#000000", "#FFFFFF") == pytest.approx(100, abs=0.01)
    assert lightness_apart("#777777", "#777777") == 0


def _library_lab(color: str, deficiency: str | None) -> np.ndarray:
    rgb = np.array([int(color[start : start + 2], 16) / 255 for start in (1, 3, 5)])
    linear = library().models.RGB_COLOURSPACE_sRGB.cctf_decoding(rgb)
    if deficiency:
        linear = np.clip(matrix(PUBLISHED[deficiency]) @ linear, 0, 1)
    xyz = library().models.RGB_COLOURSPACE_sRGB.matrix_RGB_to_XYZ @ linear
    white = library().models.RGB_COLOURSPACE_sRGB.whitepoint
    return np.asarray(library().XYZ_to_Lab(xyz, white))
