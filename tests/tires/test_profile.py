"""Wear across and round the tire: by hand, and against itself mirrored and turned."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.tires.errors import RangeError
from studio.tires.profile import across, around, even_out, level

depths = st.floats(0, 12)


@pytest.mark.parametrize(
    ("levels", "name", "spread"),
    [
        ((5, 6, 5), "shoulder", 1), ((6, 4, 6), "center", 2), ((6, 5, 3), "inner_edge", 3),
        ((3, 5, 6), "outer_edge", 3), ((6, 6, 4), "inner_edge", 2), ((6, 4), "inner_edge", 2),
        ((5, 5, 6, 4), "inner_edge", 1.5),
        ((5, 8, 8, 4), "shoulder", 4),
    ],
)  # fmt: skip
def test_the_handbooks_profiles_by_their_names(levels, name, spread):
    """Handbook, wear patterns: low/high/low shoulder, high/low/high center, low/mid/high the low edge."""
    found = across(levels)
    assert (found.name, found.spread) == (name, spread)


@given(levels=st.lists(depths, min_size=2, max_size=6))
def test_mirrored_it_is_the_mirrored_pattern(levels):
    mirror = {"inner_edge": "outer_edge", "outer_edge": "inner_edge", "shoulder": "shoulder", "center": "center"}
    mine, other = across(levels), across(levels[::-1])
    assert other.spread == pytest.approx(mine.spread)
    if abs(mine.outer - mine.inner) > 1e-6:
        assert other.name == mirror[mine.name]


@pytest.mark.parametrize(
    ("groove", "drop", "low", "stretches"),
    [
        ((6, 6, 6), 0, (), 0), ((6, 6, 2), 4, (2,), 1), ((2, 6, 6, 2), 4, (0, 3), 1), ((6, 2, 6, 2), 4, (1, 3), 2),
        ((6, 3, 3, 6, 6, 3), 3, (1, 2, 5), 2), ((6, None, 4), 2, (2,), 1),
    ],
)  # fmt: skip
def test_low_stretches_round_the_tire_where_the_last_place_is_next_to_the_first(groove, drop, low, stretches):
    found = around(groove, 2)
    assert (found.drop, found.low, found.stretches) == (drop, low, stretches)


@given(groove=st.lists(depths, min_size=2, max_size=8), turn=st.integers(0, 7))
def test_where_one_begins_to_measure_does_not_matter(groove, turn):
    turned = groove[turn % len(groove) :] + groove[: turn % len(groove)]
    mine, other = around(groove, 2), around(turned, 2)
    assert (mine.drop, len(mine.low), mine.stretches) == (other.drop, len(other.low), other.stretches)
    assert level(groove, 2) == level(turned, 2)


@pytest.mark.parametrize(
    ("groove", "expected"), [((6, 6, 2), 6), ((6, 2), 6), ((6, 2, 2), 2), ((5, 6, 5.5), 5.5), ((None, 4), 4)]
)
def test_one_low_place_is_left_out_of_a_grooves_level_and_a_low_groove_is_not(groove, expected):
    assert level(groove, 2) == expected


def test_a_groove_that_was_less_deep_when_new_is_held_against_its_own():
    """Handbook, measuring: compare each groove with its own new depth if known."""
    assert even_out((4, 5, 4), (8, 9, 8)) == (5, 5, 5)
    with pytest.raises(RangeError):
        even_out((4, 5), (8, 9, 8))


def test_too_little_to_compare():
    assert around((5, None), 2) is None
    with pytest.raises(RangeError):
        across((5,))
    with pytest.raises(RangeError):
        level((None, None), 2)
