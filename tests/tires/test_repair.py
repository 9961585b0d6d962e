"""The zone of repair against the widths that a public summary of BS AU 159 prints, and the UK's longest cut."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.tires.errors import RangeError
from studio.tires.repair import CrownShares, crown_half_width_mm, crown_width_mm, longest_cut_mm

SHARES = CrownShares(narrow=0.60, middle=0.65, wide=0.70, narrow_to_mm=155, middle_to_mm=200)


@pytest.mark.parametrize(
    ("section_mm", "crown_mm"),
    [(125, 75), (135, 81), (145, 87), (155, 93), (165, 107), (175, 114), (185, 120), (195, 127)],
)
def test_bs_au_159_its_own_table_of_the_repairable_band(section_mm, crown_mm):
    """British Standard BS AU 159, table "value T" in the public summary of the British tire makers, whole mm."""
    assert round(crown_width_mm(section_mm, SHARES)) == crown_mm


def test_the_handbooks_half_width_of_a_225():
    """Handbook, puncture repair: 225 mm gives 78.75 mm to each side (computed from the summary)."""
    assert crown_half_width_mm(225, SHARES) == pytest.approx(78.75)


@given(width=st.floats(100, 400), more=st.floats(0, 100))
def test_a_wider_tire_never_has_a_narrower_crown_within_it(width, more):
    assert crown_width_mm(width, SHARES) <= crown_width_mm(width + more, SHARES) + 1e-9
    assert crown_width_mm(width, SHARES) < width


def test_a_width_that_is_none_is_refused():
    with pytest.raises(RangeError):
        crown_width_mm(0, SHARES)


@pytest.mark.parametrize(("width", "longest"), [(None, 25), (205, 25), (250, 25), (255, 25.5), (315, 31.5)])
def test_uk_reg_27_25_mm_or_a_tenth_of_the_section_width_whichever_is_more(width, longest):
    """Road Vehicles (Construction and Use) Regulations 1986, reg. 27, in police advice Q405."""
    assert longest_cut_mm(width, 25, 0.1) == pytest.approx(longest)
