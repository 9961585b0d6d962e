"""Coins as feelers."""

import pytest

from studio.tires import coins
from studio.tires.errors import RangeError


def test_us_mint_nickel_as_a_feeler():
    assert coins.feeler_depth_32nds(1.95) == pytest.approx(2.46, abs=0.005)


@pytest.mark.parametrize(("thickness", "groove", "enters"), [(1.52, 8, True), (1.52, 1.52, False), (2.33, 2, False)])
def test_a_coin_enters_only_a_groove_that_is_wider(thickness, groove, enters):
    assert coins.enters_groove(thickness, groove) is enters


@pytest.mark.parametrize("bad", [0, -1, float("nan")])
def test_a_coin_has_a_thickness(bad):
    with pytest.raises(RangeError, match="expected a number above 0"):
        coins.feeler_depth_32nds(bad)
    with pytest.raises(RangeError, match="expected a number above 0"):
        coins.enters_groove(1.5, bad)
