"""Hydroplaning formulas against the figures printed from their sources."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables, numbers
from studio.tires import water
from studio.tires.errors import RangeError

NUMBERS = numbers(load_tables().hydroplaning)
GALLAWAY = water.Gallaway.from_numbers(NUMBERS)
FILM = water.WaterFilm.from_numbers(NUMBERS)


@pytest.mark.parametrize(
    ("psi", "knots", "mph"),
    [(24, 44.09, 50.70), (26, 45.89, 52.77), (30, 49.30, 56.69), (32, 50.91, 58.55), (35, 53.24, 61.23),
     (40, 56.92, 65.46), (44, 59.70, 68.65), (60, 69.71, 80.17)],
)  # fmt: skip
def test_nasa_tn_d_2056(psi, knots, mph):
    assert water.floating_speed(psi, 9) == pytest.approx(knots, abs=0.006)
    assert water.floating_speed(psi, 10.35) == pytest.approx(mph, abs=0.006)


@given(st.floats(15, 80))
def test_nasa_in_kpa_is_6_35_times_the_root(psi):
    """9 kn x 1.852 / sqrt(6.894757) = 6.348."""
    kpa = psi * 6.894757293168361
    assert water.floating_speed_kmh(kpa, 9, 1.852) == pytest.approx(6.348 * math.sqrt(kpa), rel=2e-4)


@pytest.mark.parametrize(
    ("psi", "depth", "film", "texture", "a1", "a2", "mph"),
    [
        (32, 10, 0.10, 0.04, 15.458, 16.201, 58.02),
        (32, 6, 0.10, 0.04, 15.458, 16.201, 56.47),
        (32, 4, 0.10, 0.04, 15.458, 16.201, 55.34),
        (32, 2, 0.10, 0.04, 15.458, 16.201, 53.67),
        (32, 0, 0.10, 0.04, 15.458, 16.201, 50.24),
        (24, 2, 0.10, 0.04, 15.458, 16.201, 49.23),
        (24, 7, 0.10, 0.02, 15.458, 14.703, 49.82),
        (35, 8, 0.05, 0.04, 15.966, 17.100, 62.16),
        (35, 2, 0.30, 0.02, 14.696, 13.476, 50.01),
        (40, 8, 0.20, 0.06, 14.971, 16.234, 61.42),
    ],
)
def test_fhwa_rd_79_31_equation_16(psi, depth, film, texture, a1, a2, mph):
    assert GALLAWAY.branches(film, texture) == pytest.approx((a1, a2), abs=0.0006)
    speed = GALLAWAY.speed_mph(
        spin_down_percent=10, pressure_psi=psi, depth_32nds=depth, water_in=film, texture_in=texture
    )
    assert speed == pytest.approx(mph, abs=0.006)


def test_design_note_wet_roads_example():
    """220 kPa, 5 mm of tread, 2 mm of water, 0.7 mm of texture: 88 km/h (note restating FHWA-RD-79-31)."""
    mph = GALLAWAY.speed_mph(spin_down_percent=10, pressure_psi=220 / 6.894757, depth_32nds=5 / 25.4 * 32,
                             water_in=2 / 25.4, texture_in=0.7 / 25.4)  # fmt: skip
    assert mph * 1.609344 == pytest.approx(88, abs=0.5)


def test_florida_guidance_2014_shortcut():
    """10^0.04 x 24^0.3 x (3 + 1)^0.06 = 3.09, the factor of the shortcut at 24 psi and 3/32 in."""
    speed = GALLAWAY.speed_mph(spin_down_percent=10, pressure_psi=24, depth_32nds=3, water_in=0.1, texture_in=0.04)
    assert speed / GALLAWAY.surface_term(0.1, 0.04) == pytest.approx(3.0917, abs=0.0001)
    assert NUMBERS["pavdrn_a_scale"] == pytest.approx(3.0917, abs=0.002)


def test_tread_matters_little_in_the_formula():
    """10/32 to 2/32 lowers the speed by 7.5 %, to 0 by 13.4 %: so it is never shown as a safe speed."""
    full, worn, bald = (
        GALLAWAY.speed_mph(spin_down_percent=10, pressure_psi=32, depth_32nds=depth, water_in=0.1, texture_in=0.04)
        for depth in (10, 2, 0)
    )
    assert (1 - worn / full, 1 - bald / full) == pytest.approx((0.075, 0.134), abs=0.0006)


fair = {"pressure_psi": 32.0, "depth_32nds": 8.0, "water_in": 0.1, "texture_in": 0.04}


@given(st.floats(18, 40), st.floats(0, 10), st.floats(0.05, 0.8), st.floats(0.003, 0.16))
def test_within_the_stated_ranges_nothing_is_beyond(pressure_psi, depth_32nds, water_in, texture_in):
    assert GALLAWAY.beyond(
        pressure_psi=pressure_psi, depth_32nds=depth_32nds, water_in=water_in, texture_in=texture_in
    ) == ()  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "said"),
    [({"pressure_psi": 44.0}, "pressure 44 psi, stated from 18 to 40"), ({"pressure_psi": 17.0}, "pressure 17 psi"),
     ({"depth_32nds": 12.0}, "tread depth 12 32nds of an inch, stated from 0 to 10"),
     ({"water_in": 0.04}, "water 0.04 in, stated from 0.05 to 0.8"), ({"water_in": 1.0}, "water 1 in"),
     ({"texture_in": 0.2}, "texture 0.2 in, stated from 0.003 to 0.16")],
)  # fmt: skip
def test_what_lies_beyond_the_tests_is_named(changed, said):
    (text,) = GALLAWAY.beyond(**(fair | changed))
    assert text.startswith(said)


@pytest.mark.parametrize(
    "bad",
    [{"water_in": 0.0}, {"water_in": -0.1}, {"texture_in": 0.0}, {"pressure_psi": 0.0}, {"depth_32nds": -1.0},
     {"water_in": math.nan}, {"spin_down_percent": 0.0}],
)  # fmt: skip
def test_no_water_gives_no_speed(bad):
    with pytest.raises(RangeError, match="expected"):
        GALLAWAY.speed_mph(**({"spin_down_percent": 10.0} | fair | bad))


@pytest.mark.parametrize(
    ("texture", "path", "rain", "slope", "inches"),
    [(0.04, 24, 1, 0.02, 0.0081), (0.04, 24, 2, 0.02, 0.0324), (0.02, 24, 2, 0.02, 0.0471), (0.04, 36, 2, 0.01, 0.0753),
     (0.04, 48, 4, 0.02, 0.1069)],
)  # fmt: skip
def test_fhwa_rd_79_31_water_film_in_both_unit_systems(texture, path, rain, slope, inches):
    """The metric constant is printed as 0.01485; the exact conversion gives 0.014868, 0.1 % more."""
    film_in = FILM.above_texture_in(texture_in=texture, path_ft=path, rain_in_per_h=rain, slope=slope)
    assert film_in == pytest.approx(inches, abs=0.00006)
    film_mm = FILM.above_texture_mm(
        texture_mm=texture * 25.4, path_m=path * 0.3048, rain_mm_per_h=rain * 25.4, slope=slope
    )
    assert film_mm + texture * 25.4 == pytest.approx((film_in + texture) * 25.4, rel=0.0013)


@pytest.mark.parametrize(
    ("roughness", "path", "rain", "slope", "texture", "film"),
    [(0.0327, 7.3, 50, 0.02, 0.91, 0.754), (0.0327, 7.3, 100, 0.02, 0.91, 1.613), (0.0327, 14.6, 50, 0.02, 0.91, 1.613),
     (0.031, 11, 50, 0.02, 0.91, 1.152), (0.0355, 7.3, 50, 0.02, 1.5, 0.249)],
)  # fmt: skip
def test_nchrp_1_29_kinematic_wave(roughness, path, rain, slope, texture, film):
    ours = FILM.kinematic_mm(roughness=roughness, path_m=path, rain_mm_per_h=rain, slope=slope, texture_mm=texture)
    assert ours == pytest.approx(film, abs=0.001)


def test_the_divisor_of_the_kinematic_wave_follows_from_manning():
    """(y/1000)^(5/3) = n L I / (3.6e6 S^0.5) gives 36.0 where 36.1 is printed."""
    from_manning = 3.6e6 * 1000 ** (-5 / 3)
    assert from_manning == pytest.approx(36.0, abs=0.001)
    assert NUMBERS["pavdrn_divisor"] == pytest.approx(from_manning, abs=0.11)


def test_light_rain_stays_within_the_texture():
    film_mm = FILM.above_texture_mm(texture_mm=1, path_m=3.6, rain_mm_per_h=2, slope=0.02)
    assert -1 < film_mm < 0
    assert FILM.above_texture_mm(texture_mm=1, path_m=3.6, rain_mm_per_h=0, slope=0.02) == -1


@pytest.mark.parametrize(("film", "mph"), [(0.05, 56.57), (0.08, 50.09), (0.0999, 47.29)])
def test_thin_film(film, mph):
    assert water.thin_film_speed_mph(film, 26.04, -0.259, 0.1) == pytest.approx(mph, abs=0.01)


@pytest.mark.parametrize("film", [0, -0.1, 0.1, 0.2, math.nan])
def test_outside_its_range_the_thin_film_line_gives_nothing(film):
    with pytest.raises(RangeError):
        water.thin_film_speed_mph(film, 26.04, -0.259, 0.1)


@pytest.mark.parametrize(
    ("width", "film", "kmh", "liters"), [(185, 2, 100, 10.28), (205, 3, 80, 13.67), (185, 1, 120, 6.17)]
)
def test_water_met_is_width_times_depth_times_speed(width, film, kmh, liters):
    assert water.water_met_l_per_s(width, film, kmh) == pytest.approx(liters, abs=0.006)


@pytest.mark.parametrize(("depth", "liters"), [(8, 12.33), (3.175, 4.89), (1.5875, 2.45)])
def test_groove_throughput_with_30_percent_void(depth, liters):
    assert water.groove_throughput_l_per_s(185, depth, 0.30, 100) == pytest.approx(liters, abs=0.006)


@pytest.mark.parametrize("void", [-0.1, 1.1, 30, math.nan])
def test_a_void_ratio_is_a_share(void):
    with pytest.raises(RangeError, match=r"expected 0 to 1, such as 0\.3"):
        water.groove_throughput_l_per_s(185, 8, void, 100)


@pytest.mark.parametrize("bad", [(-1, 2, 100), (185, -2, 100), (185, 2, -100)])
def test_no_negative_water(bad):
    with pytest.raises(RangeError):
        water.water_met_l_per_s(*bad)


def test_no_pressure_floats_at_no_speed_that_is_known():
    with pytest.raises(RangeError):
        water.floating_speed(0, 9)
