"""By which reference pressure and law a tire's load is computed: the handbook's table, and what is refused."""

import pytest

from studio.decide.audience import Audience
from studio.decide.carried import Carried, Refusal, carried
from studio.decide.sizes import size_of
from studio.model.quantity import Quantity
from tests.decide.build import TABLES

US = Audience(units="us", region="us")


def load(marking, kpa, certified=None, dual=False):
    return carried(size_of(marking, TABLES), Quantity(kpa, "kPa"), certified, US, TABLES, dual=dual)


@pytest.mark.parametrize(
    ("marking", "reference_kpa", "exponent", "standing"),
    [
        ("225/60R17 99H", 250, 0.8, "from memory"),  # Euro-metric standard, ETRTO and ISO 4000-1
        ("225/60R17 103H XL", 290, 0.8, "from memory"),
        ("HL245/40R19 101Y", 290, 0.8, "from memory"),  # high load: at the extra-load pressure
        ("P225/60R17 98T", 240, 0.5, "published, restated"),  # the snow test's load rules
        ("P225/60R17 102T XL", 280, 0.5, "published, restated"),
        ("LT225/75R16 110/107R C", 350, 0.8, "from memory"),
        ("LT225/75R16 112/109R D", 450, 0.8, "from memory"),
        ("LT225/75R16 115/112R E", 550, 0.8, "from memory"),
        ("T145/80D17 107M", 420, 0.8, "published"),  # 49 CFR 571.139 S5.5.5
    ],
)
def test_reference_pressures_of_the_handbook(marking, reference_kpa, exponent, standing):
    """Load by (P / Pref) to the power; at three quarters of the reference pressure, computed here."""
    its = load(marking, 0.75 * reference_kpa)
    assert isinstance(its, Carried)
    assert its.basis.reference.value == reference_kpa and its.basis.reference.source.standing == standing
    assert its.each_kg == pytest.approx(its.full_kg * 0.75**exponent)
    assert load(marking, reference_kpa).each_kg == its.full_kg == load(marking, 2 * reference_kpa).each_kg


@pytest.mark.parametrize("marking", ["LT225/75R16 115/112R E", "T145/80D17 107M"])
def test_where_a_kinds_own_law_is_not_known_the_lower_load_is_taken_and_said_so(marking):
    assert any("Assumed: exponent 0.8" in line for line in load(marking, 300).working())
    assert not any("Assumed" in line for line in load("225/60R17 99H", 200).working())


@pytest.mark.parametrize(
    ("marking", "missing"),
    [
        ("225/60R17", "the load index"), ("205/65R16C 107/105T", "the reference pressure"),
        ("31x10.50R15LT 109Q", "the reference pressure"), ("LT245/75R16 120/116S", "the load range letter"),
        ("LT245/75R16 120/116S B", "the reference pressure"), ("P225/60R17 95T LL", "the reference pressure"),
        ("185/65D15 88H", "the reference pressure"), ("ST225/75R15 113/108L D", "the reference pressure"),
    ],
)  # fmt: skip
def test_what_is_not_in_the_tables_is_refused_with_what_is_missing(marking, missing):
    its = load(marking, 300)
    assert isinstance(its, Refusal) and its.missing == missing and its.why


def test_below_150_kpa_it_is_refused_in_the_audiences_units():
    assert isinstance(load("225/60R17 99H", 150), Carried)
    its = load("225/60R17 99H", 149.9)
    assert isinstance(its, Refusal) and its.missing == "a pressure of at least 21.8 psi (150 kPa)"
    assert its.full_kg == 775


def test_the_divisor_is_for_passenger_tires_on_what_is_no_passenger_car():
    """49 CFR 571.110 S4.2.2.2: 1.10; LT tires count in full."""
    for certified in ("mpv", "light_truck"):
        assert load("225/60R17 99H", 250, certified).each_kg == pytest.approx(775 / 1.1)
        assert load("LT225/75R16 115/112R E", 550, certified).each_kg == 1215
    assert load("225/60R17 99H", 250, "passenger_car").each_kg == 775
    assert load("LT225/75R16 115/112R E", 550, dual=True).each_kg == 1120  # index 112, each of a pair


def test_the_pressure_for_a_load_turns_the_law_round():
    """E107: 500 kg on an index 91 at 193.001 kPa; on an MPV the divisor asks for 1.1 times the rating."""
    its = load("205/55R16 91V", 250)
    assert its.pressure_for(500).value == pytest.approx(193.001, abs=0.01)
    assert its.pressure_for(616) is None
    divided = load("205/55R16 91V", 250, "mpv")
    assert divided.pressure_for(500 / 1.1).value == pytest.approx(193.001, abs=0.01)
    assert its.pressure_for(100).value == 150  # nothing is computed below
