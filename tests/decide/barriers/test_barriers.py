"""What each fact of a car forbids, at, below and above where it begins to.

Where a barrier follows from a rule, its source is named beside it; the rest is common practice, no source.
"""

import datetime as dt

import msgspec
import pytest

from studio.decide.barriers import barriers, binding
from studio.model.car import Car, Tolerance
from studio.model.places import CORNERS
from studio.model.quantity import depth, length
from tests.decide.build import TABLES, damage, episode, flat, four, reading, tire

SPARE = "T155/80D17 104M"


def found(*tires, **more):
    return {it.id: it for it in barriers(episode(*tires, **more), TABLES)}


def at_corner(place, *readings, others=8, **more):
    """Four tires, the one at ``place`` as given."""
    rest = (tire(corner, flat(others)) for corner in CORNERS if corner != place)
    return (tire(place, *(readings or (flat(others),)), **more), *rest)


def test_four_sound_alike_tires_forbid_nothing():
    assert found(*four((8, 8, 8, 8)), car=Car(drivetrain="front")) == {}


def test_a_temporary_spare_bars_the_way_only_while_it_stands_at_a_corner():
    standing = found(*at_corner("front_right", marking=SPARE))
    assert set(standing) >= {"temporary_spare.front_right"}
    assert "rotate" in standing["temporary_spare.front_right"].forbids
    assert found(*four((8, 8, 8, 8)), tire("spare", flat(8), id="spare", marking=SPARE)) == {}


@pytest.mark.parametrize(("lowest", "barred"), [(1, True), (2, True), (3, False)])
def test_a_tire_at_or_under_the_legal_minimum_goes_nowhere(lowest, barred):
    """49 CFR 570.9(a): 2/32 in."""
    assert ("worn_out.rear_left" in found(*at_corner("rear_left", flat(lowest)))) is barred


@pytest.mark.parametrize(
    ("kind", "zone", "barrier"),
    [
        ("bulge", "sidewall", "condemned.front_left"),  # Illinois 92 Adm. Code 428.20(b)
        ("cord", "crown", "condemned.front_left"),  # Illinois 92 Adm. Code 428.20(a)
        ("cut", "shoulder", "open_damage.front_left"),
        ("puncture", "crown", "open_damage.front_left"),
        ("flat_spot", "crown", None),
    ],
)
def test_damage_bars_until_somebody_has_judged_it(kind, zone, barrier):
    its = found(*at_corner("front_left", flat(8, damage=(damage(kind, zone),))))
    assert set(its) == ({barrier} if barrier else set())


@pytest.mark.parametrize(("year", "barred"), [("15", True), ("18", False)])
def test_a_tire_past_the_age_of_replacing_bars(year, barred):
    """Ten years by the advice of the age table; the episode speaks for 1 March 2026."""
    assert ("over_age.front_left" in found(*at_corner("front_left", date_code=f"11{year}"))) is barred


@pytest.mark.parametrize(
    ("depths", "limit", "barred"),
    [((8, 8, 8, 6), 2, False), ((8, 8, 8, 5), 2, True), ((8, 8, 8, 5), 4, False)],
)
def test_a_set_over_the_manuals_limit_is_not_cured_by_moving_it(depths, limit, barred):
    car = Car(drivetrain="all", tolerance=Tolerance(form="depth", limit=depth(limit, "32nds")))
    its = found(*four(depths), car=car)
    assert ("over_manual.set" in its) is barred
    assert bool(binding(its.values(), "rotate")) is barred


def test_an_axle_over_the_legal_limit_bars():
    """French order of 29 July 1970, art. 9.3: 5 mm between the two tires of an axle."""
    assert "over_law.front_axle" in found(*four((8, 2.9, 8, 8), unit="mm"), region="fr")
    assert "over_law.front_axle" not in found(*four((8, 3.1, 8, 8), unit="mm"), region="fr")


def test_winter_tires_beside_others_bar_but_all_season_beside_summer_do_not():
    tires = four((8, 8, 8, 8))
    fitted = [msgspec.structs.replace(it, season="winter" if n < 2 else "summer") for n, it in enumerate(tires)]
    assert "mixed_season.set" in found(*fitted)
    mild = [msgspec.structs.replace(it, season="all_season" if n < 2 else "summer") for n, it in enumerate(tires)]
    assert "mixed_season.set" not in found(*mild)


def test_wheels_or_tires_of_two_widths_keep_their_axle():
    wheels = Car(front_rim_width=length(7.5, "in"), rear_rim_width=length(9, "in"))
    assert found(*four((8, 8, 8, 8)), car=wheels)["different_wheels.car"].forbids == ("change_axle",)
    sizes = {"front": "225/45R17 91W", "rear": "255/40R17 94W"}
    tires = [tire(place, flat(8), marking=sizes[place.split("_")[0]]) for place in CORNERS]
    assert "different_sizes.car" in found(*tires)


@pytest.mark.parametrize(
    ("depths", "barred"),
    [((3, 3, 8, 8), True), ((3, 3, 6, 6), True), ((3, 3, 5.5, 5.5), False), ((4, 4, 8, 8), False),
     ((8, 8, 3, 3), False)],
)
def test_a_pair_under_the_wet_advice_does_not_go_behind_a_deeper_one(depths, barred):
    """4/32 in for wet roads, and 3/32 in where shops act: common practice, no source."""
    assert ("deeper_to_rear.car" in found(*four(depths))) is barred


def test_the_gravest_comes_first_and_the_sentence_names_fact_and_remedy():
    tires = at_corner("front_left", flat(1, damage=(damage("cut", "shoulder"),)))
    first, second, *_ = binding(barriers(episode(*tires), TABLES), "rotate")
    assert (first.kind, second.kind) == ("worn_out", "open_damage")
    assert first.reason == "front left is worn to the legal minimum. Replace it first."


def test_an_advice_for_one_tire_is_bound_by_its_own_barriers_and_the_whole_cars():
    its = barriers(episode(*at_corner("front_left", flat(1))), TABLES)
    assert binding(its, "drive", "front_left") and binding(its, "drive", "front_axle")
    assert not binding(its, "drive", "rear_left")
    mixed = [msgspec.structs.replace(it, season="winter" if n < 2 else "summer")
             for n, it in enumerate(four((8, 8, 8, 8)))]  # fmt: skip
    assert binding(barriers(episode(*mixed), TABLES), "mix", "rear_left")


def test_what_lies_on_the_bench_binds_only_advice_about_itself():
    bench = tire("bench", flat(8, damage=(damage("bulge"),)), id="old_one")
    its = barriers(episode(*four((8, 8, 8, 8)), bench), TABLES)
    assert not binding(its, "rotate") and binding(its, "fit", "old_one")


def test_what_was_read_after_the_day_is_not_known_yet():
    tires = at_corner("front_left", flat(8), reading(((1,),), on=dt.date(2026, 4, 1)))
    assert found(*tires, on=dt.date(2026, 3, 1)) == {}
    assert "worn_out.front_left" in found(*tires, on=dt.date(2026, 4, 1))
