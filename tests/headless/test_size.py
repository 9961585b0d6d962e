"""``size`` at the command line: the keys that scripts rely on, the handbook's numbers, one line for bad input."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.headless.main import main

KEYS = [
    "marking", "section_width_mm", "aspect_ratio_percent", "construction", "rim_diameter_in", "section_height_mm",
    "overall_diameter_mm", "circumference_mm", "rolling_circumference_mm", "rolling_circumference_basis",
    "revs_per_mile", "revs_per_km", "load_index", "load_kg", "speed_symbol", "speed_kmh", "service",
]  # fmt: skip
AGAINST_KEYS = [
    "against", "overall_diameter_change_percent", "true_speed_at_60", "load_index_change", "verdict", "reasons",
]  # fmt: skip


@pytest.fixture
def size(capsys):
    def run(*arguments):
        assert main(["size", *arguments, "--json"]) == 0
        said = capsys.readouterr()
        assert said.err == ""
        return json.loads(said.out)

    return run


def test_the_keys_are_those_of_the_agreement(size):
    assert list(size("225/60R17 99H")) == KEYS
    whole = size("225/60R17 99H", "--against", "225/65R17 102H")
    assert list(whole) == KEYS + AGAINST_KEYS and list(whole["against"]) == KEYS
    worn = size("225/60R17 99H", "--depth-new", "10")
    assert list(worn) == [*KEYS, "worn_overall_diameter_mm", "worn_rolling_circumference_mm"]


@pytest.mark.parametrize(
    ("marking", "key", "expected", "tolerance"),
    [
        ("205/55R16 91V", "overall_diameter_mm", 631.9, 0.01),  # E052, geometry
        ("225/65R17", "overall_diameter_mm", 724.3, 0.01),  # E056
        ("225/60R17", "section_height_mm", 135.0, 0.001),  # E060, definition of the aspect ratio
        ("T145/80D17 107M", "overall_diameter_mm", 663.8, 0.01),  # E061
        ("31x10.50R15LT 109Q", "section_height_mm", 203.2, 0.001),  # E062, 8 in
        ("31x10.50R15LT 109Q", "aspect_ratio_percent", 76.19, 0.01),  # E063
        ("205/55R16 91V", "rolling_circumference_mm", 1927.6, 0.01),  # E077, ETRTO 3.05
        ("205/55R16 91V", "revs_per_km", 518.78, 0.01),  # E078
        ("205/55R16 91V", "revs_per_mile", 834.895, 0.01),  # E079
        ("225/60R17 99H", "load_kg", 775, 0),  # E092
        ("225/60R17 99H", "speed_kmh", 210, 0),  # UN R30 speed categories
    ],
)
def test_the_numbers_are_the_handbooks_and_unrounded(size, marking, key, expected, tolerance):
    assert size(marking)[key] == pytest.approx(expected, abs=max(tolerance, 1e-9))


def test_the_circumference_is_pi_times_the_geometric_diameter(size):
    """E086: 729.937 turns in a mile by the free circumference of 225/60R17."""
    assert 1_609_344 / size("225/60R17")["circumference_mm"] == pytest.approx(729.937, abs=0.01)


@pytest.mark.parametrize(
    ("marking", "service", "construction"),
    [("225/60R17 99H", "passenger", "radial"), ("T145/80D17 107M", "temporary", "diagonal"),
     ("LT245/75R16 120/116S", "light truck", "radial"), ("205/65R16C 107/105T", "commercial", "radial")],
)  # fmt: skip
def test_service_and_construction_in_words(size, marking, service, construction):
    answer = size(marking)
    assert (answer["service"], answer["construction"]) == (service, construction)


def test_what_the_marking_leaves_open_is_null(size):
    answer = size("225/60 r17")
    assert [answer[key] for key in ("load_index", "load_kg", "speed_symbol", "speed_kmh")] == [None] * 4
    assert answer["marking"] == "225/60R17"
    assert size("225/60R17", "--against", "225/65R17 102H")["load_index_change"] is None


def test_another_size_against_the_first(size):
    """Handbook E068 and E069, geometry: +0.4132 % and +0.3798 %."""
    plus_one = size("225/60R17 99H", "--against", "225/55R18 98H")
    assert plus_one["overall_diameter_change_percent"] == pytest.approx(0.4132, abs=0.001)
    assert plus_one["true_speed_at_60"] == pytest.approx(60 * 704.7 / 701.8)
    assert plus_one["load_index_change"] == -1
    change = size("205/55R16 91V", "--against", "225/45R17 91V")
    assert change["overall_diameter_change_percent"] == pytest.approx(0.3798, abs=0.001)


@pytest.mark.parametrize(
    ("first", "second", "verdict", "reason"),
    [
        ("225/60R17 99H", "225/60R17 99H", "keep", "within the usual 3 % (common practice)"),
        ("225/60R17 99H", "225/60R17 99V", "keep", "speed symbol V is not below H"),
        ("225/60R17 99H", "225/60R17 103H XL", "inspect", "higher pressure"),
        ("225/60R17 99H", "225/60R17 99T", "inspect", "speed symbol T is below H"),
        ("225/60R17 99H", "225/55R18 99H", "inspect", "needs other wheels: rim 18 in place of 17 in"),
        ("225/60R17 99H", "235/60R17 102H", "inspect", "wheel's width must be approved"),
        ("225/60R17 99H", "225/60RF17 99H", "inspect", "run-flat"),
        ("225/60R17 99H", "P225/60R17 99H", "inspect", "different load rules"),
        ("225/60R17 99H", "225/60R17", "inspect", "load index is not known"),
        ("225/60R17 99H", "225/60R17 95H", "replace", "load index 95 carries less than 99"),
        ("225/60R17 99H", "225/65R17 102H", "replace", "beyond the usual 3 %"),
        ("225/60R17 99H", "T145/80D17 107M", "replace", "temporary spare"),
    ],
)  # fmt: skip
def test_the_verdict_on_another_size_has_its_reasons(size, first, second, verdict, reason):
    answer = size(first, "--against", second)
    assert answer["verdict"] == verdict
    assert any(reason in line for line in answer["reasons"])


def test_worn_to_the_bars(size):
    """10/32 in new, bars at 1.6 mm (49 CFR 571.139 S5.4): 6.3375 mm of tread go, twice that of diameter (computed)."""
    worn = size("225/60R17 99H", "--depth-new", "10")
    assert worn["worn_overall_diameter_mm"] == pytest.approx(701.8 - 2 * (7.9375 - 1.6))
    assert worn["worn_rolling_circumference_mm"] == pytest.approx(3.05 * (702 - 2 * (7.9375 - 1.6)))
    assert size("225/60R17", "--depth-new", "8 mm")["worn_overall_diameter_mm"] == pytest.approx(701.8 - 12.8)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["225/60R71"], "rim diameter 71"), (["winter tires"], "expected a tire size"), ([""], "expected a tire size"),
        (["225/60R17", "--against", "x"], "expected a tire size"), (["225/60R17", "--depth-new", "45"], "45/32 in"),
        (["225/60R17", "--depth-new", "deep"], "--depth-new"), (["225/60R17", "--depth-new", "35 psi"], "--depth-new"),
        (["225/60R17", "--depth-new", "-2"], "--depth-new"), (["225/60R17\x1b[2J\n"], "225/60"),
    ],
)  # fmt: skip
def test_what_it_cannot_take_is_one_line_and_exit_code_2(capsys, arguments, words):
    assert main(["size", *arguments]) == 2
    said = capsys.readouterr()
    assert said.out == "" and said.err.count("\n") == 1 and words in said.err


def test_the_text_is_aligned_and_gives_both_unit_systems(capsys):
    assert main(["size", "225/60R17 99H", "--against", "225/65R17 102T", "--depth-new", "10"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "225/60R17 99H"
    assert "  overall diameter       701.8 mm (27.63 in), unrounded" in lines
    assert "  load                   index 99: 775 kg (1709 lb)" in lines
    assert "  overall diameter       +3.21 %" in lines
    assert "  verdict                replace: choose another size" in lines
    assert "  worn diameter          689.1 mm (27.13 in), level with the wear bars" in lines


def test_help_has_an_example(capsys):
    assert main(["size", "--help"]) == 0
    assert 'python -m studio size "225/60R17 99H"' in capsys.readouterr().out


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(max_size=60))
def test_any_text_gives_json_or_one_line(capsys, text):
    code = main(["size", "--json", "--", text])
    said = capsys.readouterr()
    if code == 0:
        assert list(json.loads(said.out)) == KEYS
    else:
        assert code == 2 and said.out == "" and said.err.count("\n") == 1
