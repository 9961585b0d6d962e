"""The rotation topic against the trade's tables of patterns and constraints, and its own promises."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.car import Car, RotationDone
from studio.model.paths import value_at
from studio.model.places import CORNERS
from studio.model.quantity import Quantity, length
from tests.decide.build import TABLES, damage, episode, flat, four, tire

ALL = ("front_to_back", "forward_cross", "rearward_cross", "x", "side_to_side", "five_wheel_forward_cross",
       "five_wheel_rearward_cross")  # fmt: skip


def found(*more_tires, drive="front", depths=(8, 8, 8, 8), region="us", units="us", car=None, **fields):
    car = car or {}
    whole = episode(*four(depths, **fields), *more_tires, region=region, units=units,
                    car=Car(drivetrain=drive, **car))  # fmt: skip
    return decide(whole, TABLES).get("rotation.car")


def permitted(finding):
    return tuple(filter(None, finding.word("permitted").split(",")))


@pytest.mark.parametrize(
    ("drive", "expected"),
    [
        ("front", ("forward_cross", "x", "front_to_back")),
        ("rear", ("rearward_cross", "front_to_back")),
        ("all", ("rearward_cross", "front_to_back")),
        ("part_time_four", ("rearward_cross", "front_to_back")),
    ],
)
def test_the_drive_gives_the_order_of_the_patterns(drive, expected):
    """Handbook, rotation patterns: common practice, no source."""
    assert permitted(found(drive=drive)) == expected


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({"tread": "directional"}, ("front_to_back",)),
        ({"tread": "asymmetric"}, ("forward_cross", "x", "front_to_back")),
        ({"tread": "asymmetric_directional"}, ("front_to_back",)),
        ({"season": "studded"}, ("front_to_back",)),
    ],
)
def test_a_trait_of_the_tread_leaves_only_its_patterns(fields, expected):
    """Handbook, rotation constraints: common practice, no source."""
    finding = found(**fields)
    assert permitted(finding) == expected
    for pattern in ALL:
        assert bool(finding.word(f"out.{pattern}")) is (pattern not in expected)


def staggered(**fields):
    sizes = {"front": "225/45R17 91W", "rear": "255/40R17 94W"}
    tires = [tire(place, flat(8), marking=sizes[place.split("_")[0]], **fields) for place in CORNERS]
    return decide(episode(*tires, car=Car(drivetrain="rear")), TABLES).get("rotation.car")


def test_staggered_sizes_leave_side_to_side_and_with_a_rolling_direction_nothing():
    assert permitted(staggered()) == ("side_to_side",)
    none = staggered(tread="directional")
    assert permitted(none) == () and none.verdict == "keep" and "stay where they are" in none.sentence
    assert "rolling direction" in none.word("out.side_to_side")


@pytest.mark.parametrize(
    ("marking", "fields", "trait", "five"),
    [
        ("T145/80D17 107M", {}, "temporary_spare", False),
        ("225/60R17 99H", {"season": "winter"}, "other_spare", False),
        ("215/65R17 99H", {}, "other_spare", False),
        ("225/60R17 99H", {}, "", True),
    ],
)
def test_only_a_matching_full_size_spare_takes_part(marking, fields, trait, five):
    finding = found(tire("spare", flat(8), marking=marking, **fields), drive="rear")
    assert finding.word("traits") == trait
    assert (permitted(finding)[0] == "five_wheel_rearward_cross") is five
    assert (finding.word("move.spare") == "rear_left") is five


def test_49_cfr_575_104_e_forward_cross_is_front_to_same_side_rear_and_rear_to_opposite_front():
    finding = found()
    assert [finding.word(f"move.{place}") for place in CORNERS] == [
        "rear_left", "rear_right", "front_right", "front_left",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("now", "interval", "drive", "region", "verdict", "limit"),
    [
        (35_999, Quantity(6000, "mi"), "front", "us", "keep", 6000),
        (36_000, Quantity(6000, "mi"), "front", "us", "rotate", 6000),
        (37_999, None, "front", "us", "keep", 8000),
        (38_000, None, "front", "us", "rotate", 8000),
        (35_000, None, "all", "us", "rotate", 5000),
        (34_900, None, "all", "de", "keep", 8000),
        (34_980, None, "all", "de", "rotate", 8000),
    ],
)
def test_it_is_due_by_the_manuals_interval_else_by_common_practice(now, interval, drive, region, verdict, limit):
    """Trade: 5,000 to 8,000 mi or 8,000 to 12,000 km, all-wheel drive at the short end (common practice, no source)."""
    done = RotationDone(on=dt.date(2025, 9, 1), odometer=Quantity(30_000, "mi"))
    tires = [tire(place, flat(8, odometer=Quantity(now, "mi"))) for place in CORNERS]
    car = Car(drivetrain=drive, rotation_interval=interval, rotations=(done,))
    finding = decide(episode(*tires, car=car, region=region), TABLES).get("rotation.car")
    assert (finding.verdict, finding.limit) == (verdict, limit)
    assert finding.margin == pytest.approx(finding.limit - finding.value)
    assert finding.limit_label == ("interval in the manual" if interval else "common practice")


def test_two_32nds_between_front_and_rear_make_it_due_sooner():
    """Handbook, intervals: sooner when front and rear differ by 2/32 (common practice, no source)."""
    assert found(depths=(6, 6, 8, 8)).verdict == "rotate"
    assert "2/32 in (1.6 mm) apart" in found(depths=(6, 6, 8, 8)).sentence
    assert found(depths=(6.1, 6.1, 8, 8)).verdict == "unknown"


def test_what_is_missing_is_named():
    assert found().missing == ("the odometer at the last rotation and today",)
    assert found(drive=None).missing[0] == "the drivetrain" and found(drive=None).verdict == "unknown"
    assert decide(episode(tire("front_left", flat(8))), TABLES).of("rotation") == ()


def test_without_a_rotation_on_record_the_first_readings_at_the_present_places_count():
    def at(place, *odometers):
        return tuple(
            flat(8, on=dt.date(2025, 1 + i, 1), odometer=Quantity(value, "km")) for i, value in enumerate(odometers)
        )

    tires = [tire(place, *at(place, 1000, 5000, 9500)) for place in CORNERS]
    finding = decide(episode(*tires, car=Car(drivetrain="front"), region="de"), TABLES).get("rotation.car")
    assert (finding.value, finding.unit) == (8500, "km")
    assert any("other tires in between" in line for line in finding.working)


def test_a_tire_that_must_be_looked_at_or_replaced_is_not_moved():
    tires = [tire(place, flat(8, damage=(damage("bulge"),) if place == "rear_left" else ())) for place in CORNERS]
    finding = decide(episode(*tires, car=Car(drivetrain="front")), TABLES).get("rotation.car")
    assert finding.verdict == "inspect" and finding.sentence.startswith("Don't rotate yet: rear left shows a bulge.")
    assert finding.caution == TABLES.cautions["damage"].text
    worn = found(depths=(8, 8, 2, 8))
    assert worn.verdict == "replace"
    assert worn.sentence == "Don't rotate yet: rear left is worn to the legal minimum. Replace it first."


def test_what_would_change_it_is_found_by_asking_again():
    finding = found(tread="directional")
    assert "Without a rolling direction, forward cross would be first choice." in finding.would_change
    spare = found()
    assert "With a matching full-size spare, five-wheel forward cross would be first choice." in spare.would_change
    assert permitted(found(tire("spare", flat(8))))[0] == "five_wheel_forward_cross"


@given(
    drive=st.sampled_from(["front", "rear", "all", "part_time_four", None]),
    tread=st.sampled_from(["plain", "directional", "asymmetric", "asymmetric_directional"]),
    season=st.sampled_from(["summer", "studded"]), spare=st.sampled_from(["", "T145/80D17", "225/60R17 99H"]),
    region=st.sampled_from(sorted(TABLES.regions)), units=st.sampled_from(["us", "metric"]),
)  # fmt: skip
def test_every_answer_is_complete_and_each_wheel_gets_a_place_of_its_own(drive, tread, season, spare, region, units):
    spares = [tire("spare", flat(8), marking=spare, tread=tread, season=season)] if spare else []
    whole = episode(*four((8, 8, 8, 8), tread=tread, season=season), *spares, region=region, units=units,
                    car=Car(drivetrain=drive))  # fmt: skip
    finding = decide(whole, TABLES).get("rotation.car")
    assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 111
    assert all(value_at(whole, path) is not None for path in finding.inputs)
    out = {name[4:] for name, _ in finding.detail if name.startswith("out.")}
    assert out | set(permitted(finding)) == set(ALL) and not out & set(permitted(finding))
    moves = {name[5:]: there for name, there in finding.detail if name.startswith("move.")}
    assert set(moves) == set(moves.values())
    assert ("spare" in moves) <= bool(spare)


@pytest.mark.parametrize(
    ("fact", "more", "words"),
    [
        ("temporary_spare", {"front_right": {"marking": "T155/80D17 104M"}}, "temporary spare"),
        ("mixed_season", {"front_left": {"season": "winter"}, "front_right": {"season": "winter"}}, "winter tires"),
    ],
)
def test_no_rotation_is_advised_over_a_fact_that_forbids_it(fact, more, words):
    tires = [tire(place, flat(8), **more.get(place, {})) for place in CORNERS]
    finding = decide(episode(*tires, car=Car(drivetrain="front")), TABLES).get("rotation.car")
    assert finding.held_by[0].startswith(fact) and finding.advises == () and words in finding.sentence


def test_wheels_of_two_widths_stay_on_their_axle():
    car = {"front_rim_width": length(7.5, "in"), "rear_rim_width": length(9, "in")}
    finding = found(drive="rear", car=car)
    assert permitted(finding) == ("side_to_side",) and "different_wheels.car" in finding.held_by


def test_a_worn_front_pair_is_not_put_behind_a_deeper_one():
    """Deeper tires to the rear, front-wheel drive included: common practice, no source."""
    finding = found(depths=(3, 3, 8, 8))
    assert finding.verdict == "watch" and "plan a new pair" in finding.sentence and "Rotate now" not in finding.sentence
