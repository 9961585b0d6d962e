"""The shipped tables hold what their sources say. Each test names the source; the figures were read there, not here."""

import pytest

from studio.reference import load_tables

TABLES = load_tables()


def standing(row) -> str:
    return row.source.standing


def test_french_order_of_24_october_1994_annex_ii_load_indices():
    """Spot values of the printed table; for 59 it misprints 240 and the R80 series gives 243."""
    printed = {50: 190, 60: 250, 75: 387, 87: 545, 91: 615, 94: 670, 95: 690, 98: 750, 99: 775, 100: 800, 102: 850,
               103: 875, 105: 925, 107: 975, 114: 1180, 116: 1250, 120: 1400, 121: 1450, 139: 2430,
               150: 3350}  # fmt: skip
    assert {index: TABLES.load_kg[index] for index in printed} == printed
    assert TABLES.load_kg[59] == 243
    assert TABLES.load_index[59].source.standing == "published, restated"
    assert sorted(TABLES.load_kg) == list(range(50, 151))


def test_french_order_of_24_october_1994_annex_i_speed_symbols():
    printed = {"F": 80, "G": 90, "J": 100, "K": 110, "L": 120, "M": 130, "N": 140, "P": 150, "Q": 160, "R": 170,
               "S": 180, "T": 190, "U": 200, "H": 210, "V": 240}  # fmt: skip
    assert {symbol: TABLES.speed_kmh[symbol] for symbol in printed} == printed
    assert (TABLES.speed_kmh["W"], TABLES.speed_kmh["Y"]) == (270, 300)
    assert {standing(TABLES.speed_symbol[symbol]) for symbol in "BCDE"} == {"published, restated"}
    assert standing(TABLES.speed_symbol["A1"]) == "from memory"


def test_the_mph_that_the_trade_prints():
    """Common practice, no source: 75, 81, 87, 93, 100, 106, 112, 118, 124, 130, 149, 168, 186."""
    printed = [TABLES.speed_symbol[symbol].conventional_mph for symbol in "LMNPQRSTUHVWY"]
    assert printed == [75, 81, 87, 93, 100, 106, 112, 118, 124, 130, 149, 168, 186]


@pytest.mark.parametrize(
    ("row", "value", "unit", "source", "standing"),
    [
        ("us_car", 2, "32nds", "49 CFR 570.9", "published"),
        ("us_heavy_front", 4, "32nds", "49 CFR 570.62", "published"),
        ("us_commercial_front", 4, "32nds", "49 CFR 393.75", "published"),
        ("us_commercial", 2, "32nds", "49 CFR 393.75", "published"),
        ("eu_car", 1.6, "mm", "Council Directive 89/459/EEC", "published"),
        ("uk_car", 1.6, "mm", "Road Vehicles (Construction and Use) Regulations 1986", "published"),
        ("de_car", 1.6, "mm", "StVZO", "published"),
        ("fr_car", 1.6, "mm", "French order of 29 July 1970 on tires", "published"),
        ("at_winter_radial", 4, "mm", "Austrian federal citizen portal", "published"),
        ("at_winter_diagonal", 5, "mm", "Austrian federal citizen portal", "published"),
        ("cz_winter", 4, "mm", "Czech act 361/2000", "published"),
        ("cz_winter_heavy", 6, "mm", "Czech act 361/2000", "published"),
        ("sk_winter", 3, "mm", "Slovak decree 134/2018; act 8/2009", "published"),
        ("fi_winter", 3, "mm", "Finnish act 729/2018", "published"),
        ("no_winter", 3, "mm", "Norwegian Public Roads Administration; rule of 25 January 1990 no. 92", "published"),
        ("se_winter", 3, "mm", "Swedish SFS 1998:1276", "published, restated"),
        ("lv_winter", 4, "mm", "Latvian road traffic safety directorate", "published, restated"),
        ("ee_winter", 3, "mm", "Estonian road rules", "from memory"),
        ("is_winter", 3, "mm", "Icelandic vehicle regulation", "from memory"),
        ("lt_winter", 3, "mm", "Lithuanian road rules", "from memory"),
        ("it_winter", 1.6, "mm", "Italian highway code", "from memory"),
        ("ca_qc_car", 1.6, "mm", "Government of Quebec", "published"),
        ("ca_bc_winter", 3.5, "mm", "British Columbia winter rule", "published"),
        ("au_car", 1.5, "mm", "Western Australia Road Traffic (Vehicles) Regulations 2014", "published"),
        ("nz_car", 1.5, "mm", "New Zealand Land Transport Rule 32013", "published, restated"),
        ("jp_car", 1.6, "mm", "Japanese detail notice 619 of 2002", "published, restated"),
    ],
)
def test_legal_minima(row, value, unit, source, standing):
    found = TABLES.tread_minimum[row]
    assert (found.value, found.unit) == (value, unit)
    assert (found.source.title, found.source.standing) == (source, standing)


def test_49_cfr_571_139_s5_4_and_un_r30_wear_indicators():
    measuring = TABLES.measuring
    assert [measuring[f"indicator_{key}"].value for key in ("height_mm", "over_mm", "under_mm")] == [1.6, 0.6, 0.0]
    assert (measuring["indicator_count"].value, measuring["indicator_count_small_rim"].value) == (6, 3)
    assert standing(measuring["indicator_count_un"]) == "from memory"


def test_gauge_and_wear_thresholds_are_common_practice():
    wanted = {"repeatability_mm": 0.2, "projection_least_wear_mm": 0.3, "uneven_report_32nds": 2,
              "uneven_urgent_32nds": 3}  # fmt: skip
    assert {key: TABLES.measuring[key].value for key in wanted} == wanted
    assert {standing(TABLES.measuring[key]) for key in wanted} == {"common practice"}


def test_axle_rules_of_france_slovakia_czechia_and_maryland():
    """French order of 29 July 1970 art. 9.3; Slovak decree 134/2018 s. 14(12); Czech decree 341/2014; COMAR."""
    wanted = {"fr_axle_depth": (5, "mm"), "sk_axle_diameter": (1.5, "%"), "cz_axle_diameter": (1.5, "%"),
              "us_md_dual_diameter": (0.5, "in")}  # fmt: skip
    assert {key: (TABLES.matching[key].value, TABLES.matching[key].unit) for key in wanted} == wanted
    assert {TABLES.matching[key].level for key in wanted} == {"law"}
    assert {standing(TABLES.matching[key]) for key in wanted} == {"published"}


def test_axle_and_set_customs_are_common_practice():
    wanted = {"axle_note": 2, "axle_act_from": 3, "axle_act": 4, "awd_depth": 2, "awd_circumference": 0.25,
              "awd_diameter": 1, "awd_percent_tightest": 0.5, "awd_percent_loosest": 1}  # fmt: skip
    assert {key: TABLES.matching[key].value for key in wanted} == wanted
    assert {standing(TABLES.matching[key]) for key in wanted} == {"common practice"}


@pytest.mark.parametrize(
    ("table", "key", "value", "source", "standing"),
    [
        ("load_rules", "mpv_divisor", 1.10, "49 CFR 571.110", "published"),
        ("load_rules", "normal_load_share", 0.94, "49 CFR 571.110", "published"),
        ("load_rules", "exponent_etrto", 0.8, "ETRTO Standards Manual", "from memory"),
        ("load_rules", "exponent_p_metric", 0.5, "TRA Year Book", "from memory"),
        ("pressure", "euro_standard_kpa", 250, "ETRTO; ISO 4000-1", "from memory"),
        ("pressure", "euro_extra_load_kpa", 290, "ETRTO", "from memory"),
        ("pressure", "p_metric_standard_kpa", 240, "snow-test load rules naming TRA loads", "published, restated"),
        ("pressure", "temporary_spare_kpa", 420, "49 CFR 571.139", "published"),
        ("pressure", "lowest_kpa", 150, "ETRTO", "from memory"),
        ("pressure", "tpms_us_share", 0.75, "49 CFR 571.138", "published"),
        ("pressure", "tpms_us_floor_p_standard_kpa", 140, "49 CFR 571.138", "published, restated"),
        ("pressure", "fuel_percent_per_psi", 0.2, "US DOE/EPA fuel-economy guide", "published"),
        ("rolling", "radial_factor", 3.05, "ETRTO Standards Manual", "published, restated"),
        ("rolling", "diagonal_factor", 2.99, "ETRTO Standards Manual; DIN 7803", "from memory"),
        ("rolling", "tolerance_over_percent", 1.5, "ETRTO Standards Manual; DIN 7803", "from memory"),
        ("rolling", "tolerance_under_percent", 2.5, "ETRTO Standards Manual; DIN 7803", "from memory"),
        ("design", "least_diameter_factor", 0.97, "UN Regulation No. 30", "from memory"),
        ("design", "largest_diameter_factor", 1.04, "UN Regulation No. 30", "from memory"),
        ("design", "width_over_radial_percent", 4, "UN Regulation No. 30", "from memory"),
        ("design", "width_over_diagonal_percent", 6, "UN Regulation No. 30", "from memory"),
        ("design", "rim_width_factor", 0.4, "UN Regulation No. 30", "published"),
        ("hydroplaning", "nasa_kn", 9, "NASA TN D-2056, Horne and Dreher, November 1963", "published"),
        ("hydroplaning", "nasa_spin_up_kn", 7.7, "later NASA work", "from memory"),
        ("hydroplaning", "pavdrn_divisor", 36.1, "NCHRP project 1-29, PAVDRN", "from memory"),
        ("hydroplaning", "stated_water_most_in", 0.8, "TTI hydroplaning study, 1972", "published"),
        ("speedometer", "over_share", 0.1, "UN Regulation No. 39", "published"),
        ("speedometer", "over_kmh", 4, "UN Regulation No. 39", "published"),
        ("physics", "atmosphere_kpa", 101.325, "NIST SP 811", "published, restated"),
        ("physics", "gravity_m_s2", 9.80665, "NIST SP 811", "published, restated"),
    ],
)
def test_named_numbers(table, key, value, source, standing):
    row = getattr(TABLES, table)[key]
    assert row.value == value
    assert (row.source.title, row.source.standing) == (source, standing)


@pytest.mark.parametrize(
    ("coin", "diameter", "thickness"),
    [("us_cent", 19.05, 1.52), ("us_nickel", 21.21, 1.95), ("us_dime", 17.91, 1.35), ("us_quarter", 24.26, 1.75),
     ("us_dollar", 26.49, 2.00), ("euro_1", 23.25, 2.33), ("euro_2", 25.75, 2.20), ("uk_20p", 21.4, 1.7),
     ("ca_25c", 23.88, 1.58), ("ca_2d", 28, 1.75)],
)  # fmt: skip
def test_us_mint_and_eu_729_2014_coins(coin, diameter, thickness):
    """US Mint table; Regulation (EU) 729/2014, euro diameters; Royal Canadian Mint, 2 dollars; others restated."""
    its = TABLES.coins[coin]
    assert (its.diameter.value, its.thickness.value) == (diameter, thickness)


def test_what_a_coin_shows_is_never_a_published_figure():
    tests = [coin.test for coin in TABLES.coins.values() if coin.test]
    assert len(tests) == 7
    assert {standing(test) for test in tests} == {"common practice", "from memory"}


def test_bs_au_159g_crown_of_a_repair():
    """0.60 of the section width to 155 mm, 0.65 to 200 mm, 0.70 above; hole up to 6 mm (public summary)."""
    names = ("crown_share_narrow", "crown_share_middle", "crown_share_wide", "narrow_to", "middle_to", "hole_most")
    assert [TABLES.repair[name].value for name in names] == [0.60, 0.65, 0.70, 155, 200, 6]
    assert {standing(TABLES.repair[name]) for name in names} == {"published, restated"}


def test_temporary_spare_speeds_read_in_handbooks():
    assert (TABLES.spare["speed_usual"].value, TABLES.spare["speed_highest_seen"].value) == (80, 105)


def test_no_source_is_claimed_for_six_years():
    """Several makers' handbooks ask for it; the US agency has no age rule (decision of 2014)."""
    six = TABLES.age_advice["makers_six_years"]
    assert (six.from_years, six.to_years, six.level) == (6, 10, "plan")
    assert "no US age limit" in TABLES.age_advice["us_no_limit"].wording


def test_wear_patterns_of_the_handbook():
    assert {row.id: (row.inner, row.center, row.outer) for row in TABLES.wear_patterns.values() if row.center} == {
        "shoulder": ("low", "high", "low"),
        "center": ("high", "low", "high"),
        "inner_edge": ("low", "mid", "high"),
        "outer_edge": ("high", "mid", "low"),
    }
    assert len(TABLES.wear_patterns) == 14


def test_what_is_often_said_wrongly_is_set_right():
    assert len(TABLES.myths) == 23
    assert TABLES.myths["same_number"].correct == "2/32 in is 1.5875 mm"
    assert all(myth.said != myth.correct for myth in TABLES.myths.values())


def test_stvzo_36_5_french_order_art_3_and_slovak_decree_14_8_winter_tires_of_a_lower_speed_symbol():
    rules = TABLES.speed_exception
    assert {row.region: row.value for row in rules.values()} == {"de": None, "fr": 160, "sk": 160}
    assert "sticker" in rules["de_winter"].wording and "alpine" in rules["sk_winter"].wording
    assert {standing(row) for row in rules.values()} == {"published"}


def test_where_un_r39_holds_is_said_with_its_standing_and_the_us_has_no_rule_for_cars():
    rules = TABLES.speedometer_rule
    assert standing(rules["au"]) == "published" and standing(rules["eu"]) == "from memory"
    assert "no federal rule" in rules["us"].wording and standing(rules["us"]) == "from memory"
    assert "R39" not in rules["us"].wording.replace("Regulation No. 39", "R39")
