"""Tread families: what a specimen's tread is drawn as, and patterns that never get finer than a video bears."""

from itertools import pairwise
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.draw import bounds
from studio.graphics.parts.tread_blocks import Family, family_of, pattern_of, rounded

FAMILIES = get_args(Family)


@pytest.mark.parametrize(
    ("pattern", "season", "service", "family"),
    [
        ("plain", "all_season", "passenger", "all_season"), ("plain", "summer", "passenger", "all_season"),
        ("plain", "winter", "passenger", "winter"), ("plain", "studded", "passenger", "winter"),
        ("directional", "winter", "passenger", "directional"), ("asymmetric", "summer", "passenger", "asymmetric"),
        ("asymmetric_directional", "summer", "passenger", "directional"),
        ("plain", "all_season", "light truck", "all_terrain"), ("plain", "all_season", "temporary", "temporary"),
    ],
)  # fmt: skip
def test_a_specimens_kind_of_tread_chooses_the_family(pattern, season, service, family):
    assert family_of(pattern, season, service) == family


@pytest.mark.parametrize("family", FAMILIES)
def test_ribs_lie_side_by_side_from_edge_to_edge_with_a_groove_between(family):
    for tread_width in (16.0, 200.0):
        ribs = pattern_of(family, tread_width, 8.0).ribs
        assert ribs[0].edge[0][0] == -1.0 and ribs[-1].edge[-1][0] == 1.0
        for one, other in pairwise(ribs):
            assert one.edge[-1][0] < other.edge[0][0]


@pytest.mark.parametrize("family", FAMILIES)
@given(tread_width=st.floats(30, 600))
def test_a_pattern_is_no_finer_than_8_px_where_a_coarser_one_is_to_be_had(family, tread_width):
    """The house's convention: no pattern finer than 8 px period, it flickers after scaling."""
    ribs = pattern_of(family, tread_width, 8.0).ribs
    period = min(b.edge[0][0] - a.edge[0][0] for a, b in pairwise(ribs)) * tread_width / 2
    coarsest = len(ribs) <= 3
    assert period >= 8.0 or coarsest


def test_a_large_tread_shows_more_ribs_than_a_small_one():
    assert len(pattern_of("all_season", 200, 8).ribs) > len(pattern_of("all_season", 25, 8).ribs)


@given(radius=st.floats(0.1, 60))
def test_rounding_corners_keeps_a_block_within_its_corners(radius):
    block = ((10.0, 20.0), (60.0, 24.0), (60.0, 50.0), (10.0, 46.0))
    left, top, right, bottom = bounds(rounded(block, radius))
    assert left >= 10.0 - 1e-9 and top >= 20.0 - 1e-9
    assert right <= 60.0 + 1e-9 and bottom <= 50.0 + 1e-9
