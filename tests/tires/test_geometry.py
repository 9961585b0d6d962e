"""Dimensions against the handbook formulas, a general units library, and plain geometry."""

import math
from decimal import ROUND_HALF_UP, Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables
from studio.tires import geometry
from studio.tires.designation import parse_marking
from studio.tires.errors import RangeError

TABLES = load_tables()
UNITS = pint.UnitRegistry()
FACTORS = {"radial": 3.05, "diagonal": 2.99}  # ETRTO Standards Manual; 2.99 from memory

# Worked sizes: UN R30 6.1.2 for the standard diameter, geometry for the other. Columns: size, section height in whole
# mm, conventional rim diameter, standard and geometric diameter in mm, the latter in inches, 3.05 x D, turns.
WORKED = [
    ("155/80R13", 124, 330, 578, 578.2, 22.76, 1762.9, 567.2, 912.9),
    ("185/65R15", 120, 381, 621, 621.5, 24.47, 1894.1, 528.0, 849.7),
    ("195/65R15", 127, 381, 635, 634.5, 24.98, 1936.8, 516.3, 831.0),
    ("205/55R16", 113, 406, 632, 631.9, 24.88, 1927.6, 518.8, 834.9),
    ("215/70R15", 151, 381, 683, 682.0, 26.85, 2083.2, 480.0, 772.6),
    ("225/45R17", 101, 432, 634, 634.3, 24.97, 1933.7, 517.1, 832.3),
    ("225/50R17", 113, 432, 658, 656.8, 25.86, 2006.9, 498.3, 801.9),
    ("225/65R17", 146, 432, 724, 724.3, 28.52, 2208.2, 452.9, 728.8),
    ("225/60R17", 135, 432, 702, 701.8, 27.63, 2141.1, 467.0, 751.6),
    ("235/50R18", 118, 457, 693, 692.2, 27.25, 2113.7, 473.1, 761.4),
    ("235/60R18", 141, 457, 739, 739.2, 29.10, 2254.0, 443.7, 714.0),
    ("235/55R19", 129, 483, 741, 741.1, 29.18, 2260.1, 442.5, 712.1),
    ("245/45R18", 110, 457, 677, 677.7, 26.68, 2064.9, 484.3, 779.4),
    ("255/35R19", 89, 483, 661, 661.1, 26.03, 2016.1, 496.0, 798.3),
    ("LT245/75R16", 184, 406, 774, 773.9, 30.47, 2360.7, 423.6, 681.7),
]


def measure(text: str) -> geometry.Dimensions:
    return geometry.dimensions(
        parse_marking(text), rim_mm=TABLES.rim_mm, rolling_factors=FACTORS, full_profile_aspect_percent=82
    )


@pytest.mark.parametrize(
    ("size", "height", "rim", "standard", "geometric", "inches", "rolling", "per_km", "per_mile"), WORKED
)
def test_un_r30_6_1_2_worked_sizes(size, height, rim, standard, geometric, inches, rolling, per_km, per_mile):
    its = measure(size)
    assert (its.standard_section_height_mm, its.rim_mm, its.standard_overall_diameter_mm) == (height, rim, standard)
    assert its.geometric_overall_diameter_mm == pytest.approx(geometric, abs=0.05)
    assert its.geometric_overall_diameter_mm / 25.4 == pytest.approx(inches, abs=0.006)
    assert its.rolling_circumference_mm == pytest.approx(rolling, abs=0.051)
    assert geometry.turns_per_km(its.rolling_circumference_mm) == pytest.approx(per_km, abs=0.051)
    assert geometry.turns_per_mile(its.rolling_circumference_mm) == pytest.approx(per_mile, abs=0.051)
    assert its.rolling_basis == "3.05 x design diameter, radial tire at 60 km/h"


widths = st.integers(20, 90).map(lambda step: step * 5)
aspects = st.integers(4, 19).map(lambda step: step * 5)
rims = st.sampled_from([10, 12, 13, 14, 15, 16, 16.5, 17, 18, 19, 20, 21, 22, 23, 24])


@given(widths, aspects, rims)
def test_geometric_diameter_agrees_with_a_units_library(width_mm, aspect_percent, rim_in):
    by_library = rim_in * UNITS.inch + 2 * (width_mm * UNITS.mm) * (aspect_percent * UNITS.percent)
    ours = geometry.geometric_overall_diameter_mm(width_mm, aspect_percent, rim_in)
    assert ours == pytest.approx(by_library.to("mm").magnitude, rel=1e-12)


@given(widths, aspects)
def test_standard_section_height_rounds_halves_up_in_exact_decimals(width_mm, aspect_percent):
    exact = Decimal(width_mm) * Decimal(aspect_percent) / 100
    rounded = exact.quantize(Decimal(1), rounding=ROUND_HALF_UP)
    assert geometry.standard_section_height_mm(width_mm, aspect_percent) == rounded


@given(widths, aspects, rims)
def test_the_two_diameters_are_at_most_a_rounding_apart(width_mm, aspect_percent, rim_in):
    standard = geometry.standard_overall_diameter_mm(width_mm, aspect_percent, TABLES.rim_mm[rim_in])
    exact = geometry.geometric_overall_diameter_mm(width_mm, aspect_percent, rim_in)
    assert abs(standard - exact) <= 1.5


@pytest.mark.parametrize(("value", "whole"), [(112.5, 113), (113.5, 114), (112.49, 112), (-0.5, 0), (0, 0)])
def test_half_up_is_not_half_to_even(value, whole):
    assert geometry.half_up(value) == whole


@pytest.mark.parametrize("code", sorted(TABLES.rim_mm))
def test_a_conventional_rim_diameter_is_the_code_in_whole_mm(code):
    assert TABLES.rim_mm[code] == int(Decimal(str(code)) * Decimal("25.4") + Decimal("0.5"))


@pytest.mark.parametrize(("size", "least", "largest"), [("205/55R16", 625.22, 641.04), ("225/60R17", 693.9, 712.8)])
def test_un_r30_6_1_5_band_of_outer_diameters(size, least, largest):
    its = measure(size)
    band = (
        geometry.least_permitted_diameter_mm(its.rim_mm, its.standard_section_height_mm, 0.97),
        geometry.largest_permitted_diameter_mm(its.rim_mm, its.standard_section_height_mm, 1.04),
    )
    assert band == pytest.approx((least, largest), abs=0.005)
    assert geometry.mismatch_percent(*band) == pytest.approx(2.6, abs=0.15), "about 2.5 % between two of one size"


@pytest.mark.parametrize(("width", "ratio", "rim"), [(225, 0.75, 6.5), (205, 0.80, 6.5), (225, 0.85, 7.5)])
def test_iso_4000_1_measuring_rims(width, ratio, rim):
    assert geometry.measuring_rim_in(width, ratio, 0.5) == rim


@given(widths, st.floats(4, 14), st.sampled_from([0.7, 0.75, 0.8, 0.85, 0.9]))
def test_a_wider_rim_makes_a_wider_tire(width_mm, rim_width_in, ratio):
    narrow = geometry.section_width_on_rim_mm(width_mm, rim_width_in, ratio, 0.4)
    wide = geometry.section_width_on_rim_mm(width_mm, rim_width_in + 0.5, ratio, 0.4)
    assert wide - narrow in (5, 6), "0.4 x 12.7 mm, rounded at both ends"


def test_a_temporary_spare_of_diagonal_construction_rolls_by_the_diagonal_factor():
    spare = measure("T145/80D17")
    assert spare.geometric_overall_diameter_mm == pytest.approx(663.8)
    assert spare.rolling_circumference_mm == pytest.approx(2.99 * 664)
    change = geometry.change_percent(measure("225/60R17").geometric_overall_diameter_mm, 663.8)
    assert change == pytest.approx(-5.4, abs=0.05)


def test_a_flotation_size_is_what_its_designation_says():
    its = measure("31x10.50R15LT")
    assert its.geometric_overall_diameter_mm == pytest.approx(787.4)
    assert its.section_height_mm == pytest.approx(8 * 25.4)
    assert its.aspect_percent == pytest.approx(76.19, abs=0.005)
    assert its.standard_overall_diameter_mm is None
    assert its.rolling_basis.startswith("3.05 x nominal diameter")
    assert its.notes


def test_an_old_size_assumes_its_aspect_and_says_so():
    its = measure("155R13")
    assert (its.aspect_percent, its.standard_overall_diameter_mm) == (82, None)
    assert its.notes == ("no aspect ratio printed: about 82 % assumed",)
    assert its.rolling_basis.startswith("3.05 x geometric diameter")


def test_a_rim_that_is_not_in_the_table_leaves_only_the_geometric_diameter():
    its = measure("225/60R20.5")
    assert (its.rim_mm, its.standard_overall_diameter_mm) == (None, None)
    assert its.geometric_overall_diameter_mm == pytest.approx(20.5 * 25.4 + 270)


def test_without_a_rolling_factor_nothing_is_made_up():
    with pytest.raises(RangeError, match="no rolling factor for a bias-belted tire, only for radial, diagonal"):
        measure("225/60B17")


depths = st.floats(0.1, 10)


@given(st.floats(500, 900), depths)
def test_a_depth_difference_is_twice_in_diameter_and_two_pi_in_circumference(diameter_mm, lost_mm):
    worn = geometry.worn_diameter_mm(diameter_mm, 10, 10 - lost_mm)
    assert diameter_mm - worn == pytest.approx(geometry.diameter_difference_mm(lost_mm))
    tape = geometry.free_circumference_mm(diameter_mm) - geometry.free_circumference_mm(worn)
    assert tape == pytest.approx(geometry.circumference_difference_mm(lost_mm))
    assert geometry.depth_difference_for_circumference_mm(tape) == pytest.approx(lost_mm)
    assert geometry.depth_difference_for_diameter_mm(diameter_mm - worn) == pytest.approx(lost_mm)


@given(st.floats(500, 900), st.floats(500, 900))
def test_mismatch_does_not_ask_which_tire_comes_first(one, other):
    assert geometry.mismatch_percent(one, other) == geometry.mismatch_percent(other, one) >= 0


def test_wear_of_a_tire_from_10_to_2_32nds_makes_the_odometer_run_1_84_percent_ahead():
    worn = geometry.worn_diameter_mm(702, 10 * 25.4 / 32, 2 * 25.4 / 32)
    assert 702 - worn == pytest.approx(12.7)
    assert geometry.mismatch_percent(702, worn) == pytest.approx(1.84, abs=0.005)


def test_un_r39_rolling_and_free_circumference_differ_by_the_factor():
    assert 3.05 / math.pi == pytest.approx(0.971, abs=0.0005)
    its = measure("225/60R17")
    assert its.rolling_circumference_mm < its.free_circumference_mm


@pytest.mark.parametrize(
    "call",
    [
        lambda: geometry.turns_per_km(0),
        lambda: geometry.turns_per_mile(-1),
        lambda: geometry.free_circumference_mm(math.nan),
        lambda: geometry.rolling_circumference_mm(700, 0),
        lambda: geometry.change_percent(0, 5),
        lambda: geometry.worn_diameter_mm(10, 10, 0),
        lambda: geometry.equivalent_aspect_percent(8, 0),
        lambda: geometry.measuring_rim_in(225, 0.75, 0),
        lambda: geometry.section_width_on_rim_mm(225, 0, 0.75, 0.4),
    ],
)
def test_the_impossible_is_refused_in_one_line(call):
    with pytest.raises(RangeError, match=r"is -?[\dna.]+, expected a number above 0"):
        call()
