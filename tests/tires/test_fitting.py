"""Sizes that fit a wheel: against brute force, the load table, and the handbook's rows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables
from studio.tires.errors import RangeError
from studio.tires.fitting import least_load_index, rim_widths_in, sizes_within

TABLES = load_tables()
WIDTHS, ASPECTS = range(145, 356, 10), range(25, 90, 5)


def found(diameter_mm, band, rim_in):
    return sizes_within(diameter_mm, band, rim_in=rim_in, widths_mm=WIDTHS, aspects_percent=ASPECTS)


def test_plus_one_of_the_handbook():
    """E068 and E069, geometry: 225/55R18 is 0.4132 % over 225/60R17, 225/45R17 0.3798 % over 205/55R16."""
    plus_one = {fit.size: fit.change_percent for fit in found(701.8, 3, 18)}
    assert plus_one["225/55R18"] == pytest.approx(0.4132, abs=0.001)
    assert {fit.size: fit.change_percent for fit in found(631.9, 3, 17)}["225/45R17"] == pytest.approx(0.3798, abs=1e-3)
    assert "225/65R17" not in {fit.size for fit in found(701.8, 3, 17)}  # 724.3 mm, +3.2 % (E056)


@given(diameter=st.floats(450, 900), band=st.floats(0, 10), rim=st.sampled_from([13, 15, 16.5, 17, 18, 20]))
def test_no_size_is_missed_and_none_is_too_many(diameter, band, rim):
    """Brute force over every size, the diameter written out: two sidewalls and the rim."""
    sizes = {f"{w}/{a}R{rim:g}": 2 * w * a / 100 + rim * 25.4 for w in WIDTHS for a in ASPECTS}
    listed = found(diameter, band, rim)
    inside = {name for name, d in sizes.items() if abs(d - diameter) * 100 <= band * diameter * (1 - 1e-12)}
    around = {name for name, d in sizes.items() if abs(d - diameter) * 100 <= band * diameter * (1 + 1e-12) + 1e-9}
    assert inside <= {fit.size for fit in listed} <= around
    nearness = [abs(fit.change_percent) for fit in listed]
    assert nearness == sorted(nearness)


@pytest.mark.parametrize(("load_kg", "index"), [(775, 99), (775.5, 100), (614, 91), (615, 91), (700, 96)])
def test_french_order_of_24_october_1994_annex_ii_the_least_index_that_carries(load_kg, index):
    """91 is 615 kg, 95 is 690, 96 is 710, 99 is 775, 100 is 800 kg."""
    assert least_load_index(load_kg, TABLES.load_kg) == index


def test_no_index_carries_more_than_the_table_holds():
    with pytest.raises(RangeError, match="3351 kg, the table of load indices ends at 3350 kg"):
        least_load_index(3351, TABLES.load_kg)


def test_65_to_90_percent_of_the_section_width_common_practice_no_source():
    low, high = rim_widths_in(225, 0.65, 0.90)
    assert (low, high) == (pytest.approx(146.25 / 25.4), pytest.approx(202.5 / 25.4))
