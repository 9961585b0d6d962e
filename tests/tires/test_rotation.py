"""The laws of rotation patterns, and which patterns tires allow (common practice, no source; cycles computed)."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables
from studio.tires.rotation import FRONT, LEFT, PATTERNS, REAR, RIGHT, choose_patterns, share_of_distance

TABLES = load_tables()
CORNERS = (*FRONT, *REAR)
NAMES = ("front_to_back", "forward_cross", "rearward_cross", "x", "side_to_side", "five_wheel_forward_cross",
         "five_wheel_rearward_cross")  # fmt: skip


def places_of(name: str) -> tuple[str, ...]:
    return (*CORNERS, "spare") if name.startswith("five_wheel") else CORNERS


def test_the_patterns_of_the_trade_are_all_there():
    assert tuple(PATTERNS) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_a_pattern_is_a_permutation_of_its_places(name):
    moves = PATTERNS[name].moves
    assert sorted(moves) == sorted(moves.values()) == sorted(places_of(name))
    assert all(here != there for here, there in moves.items()), "every wheel moves"


@pytest.mark.parametrize(
    ("name", "moves"),
    [
        ("forward_cross", "front_left>rear_left front_right>rear_right rear_left>front_right rear_right>front_left"),
        ("rearward_cross", "rear_left>front_left rear_right>front_right front_left>rear_right front_right>rear_left"),
        ("x", "front_left>rear_right rear_right>front_left front_right>rear_left rear_left>front_right"),
        ("front_to_back", "front_left>rear_left rear_left>front_left front_right>rear_right rear_right>front_right"),
        ("side_to_side", "front_left>front_right front_right>front_left rear_left>rear_right rear_right>rear_left"),
        ("five_wheel_forward_cross", "front_left>rear_left rear_left>front_right front_right>rear_right "
                                     "rear_right>spare spare>front_left"),
        ("five_wheel_rearward_cross", "rear_left>front_left front_left>rear_right rear_right>front_right "
                                      "front_right>spare spare>rear_left"),
    ],
)  # fmt: skip
def test_the_maps(name, moves):
    """Forward cross: the map of the US treadwear course (49 CFR 575.104(e)); the others common practice, no source."""
    assert dict(PATTERNS[name].moves) == dict(move.split(">") for move in moves.split())


@pytest.mark.parametrize(
    ("name", "lengths"),
    [("forward_cross", [4]), ("rearward_cross", [4]), ("x", [2, 2]), ("front_to_back", [2, 2]),
     ("side_to_side", [2, 2]), ("five_wheel_forward_cross", [5]), ("five_wheel_rearward_cross", [5])],
)  # fmt: skip
def test_the_cycles(name, lengths):
    cycles = PATTERNS[name].cycles
    assert sorted(len(cycle) for cycle in cycles) == lengths
    assert sorted(itertools.chain.from_iterable(cycles)) == sorted(places_of(name))


@pytest.mark.parametrize("name", NAMES)
def test_a_cycle_brings_each_tire_home_having_served_its_places(name):
    pattern = PATTERNS[name]
    for cycle in pattern.cycles:
        place, served = cycle[0], []
        for _ in cycle:
            served.append(place)
            place = pattern.moves[place]
        assert place == cycle[0]
        assert tuple(served) == cycle


def test_rearward_cross_undoes_forward_cross():
    forward, rearward = PATTERNS["forward_cross"], PATTERNS["rearward_cross"]
    assert dict(rearward.moves) == dict(forward.inverse)
    tires = {place: f"tire of {place}" for place in CORNERS}
    assert rearward.apply(forward.apply(tires)) == tires


@pytest.mark.parametrize("name", ["x", "front_to_back", "side_to_side"])
def test_a_swap_undoes_itself(name):
    assert dict(PATTERNS[name].inverse) == dict(PATTERNS[name].moves)


@given(st.sampled_from(NAMES), st.dictionaries(st.sampled_from([*CORNERS, "spare"]), st.integers(), min_size=5))
def test_inverse_and_pattern_leave_all_where_it_was(name, at):
    moved = PATTERNS[name].apply(at)
    back = {PATTERNS[name].inverse.get(place, place): item for place, item in moved.items()}
    assert back == at
    assert sorted(moved.values()) == sorted(at.values())


@pytest.mark.parametrize(
    ("name", "crossing"),
    [("front_to_back", set()), ("forward_cross", set(REAR)), ("rearward_cross", set(FRONT)), ("x", set(CORNERS)),
     ("side_to_side", set(CORNERS)), ("five_wheel_forward_cross", {"rear_left"}),
     ("five_wheel_rearward_cross", {"front_left"})],
)  # fmt: skip
def test_which_wheels_cross_and_so_roll_the_other_way(name, crossing):
    assert set(PATTERNS[name].changing_sides) == crossing
    for here in crossing:
        there = PATTERNS[name].moves[here]
        assert (here in LEFT, there in RIGHT) in ((True, True), (False, False))


@pytest.mark.parametrize(("name", "count"), [("side_to_side", 0), ("front_to_back", 4), ("x", 4), ("forward_cross", 4),
                                             ("five_wheel_forward_cross", 3)])  # fmt: skip
def test_how_many_wheels_change_axle_directly(name, count):
    assert len(PATTERNS[name].changing_axles) == count


def test_with_the_spare_each_tire_rolls_four_fifths_of_the_distance():
    assert share_of_distance(PATTERNS["five_wheel_forward_cross"]) == 0.8
    assert share_of_distance(PATTERNS["forward_cross"]) == 1


def permitted(traits: str, drivetrain: str = "front") -> list[str]:
    advised = TABLES.rotation_order[drivetrain].patterns
    return [c.pattern.id for c in choose_patterns(traits.split(), TABLES.rotation_rule, advised) if c.permitted]


FOUR = {"front_to_back", "forward_cross", "rearward_cross", "x", "side_to_side"}


@pytest.mark.parametrize(
    ("traits", "patterns"),
    [
        ("no_spare", FOUR),
        ("temporary_spare", FOUR),
        ("other_spare", FOUR),
        ("matching_spare", set(NAMES)),
        ("no_spare asymmetric", FOUR),
        ("no_spare directional", {"front_to_back"}),
        ("no_spare asymmetric_directional", {"front_to_back"}),
        ("no_spare studded", {"front_to_back"}),
        ("no_spare staggered", {"side_to_side"}),
        ("no_spare different_wheels", {"side_to_side"}),
        ("no_spare staggered directional", set()),
        ("matching_spare directional", {"front_to_back"}),
        ("matching_spare staggered", {"side_to_side"}),
    ],
)
def test_what_the_tires_leave_of_the_patterns(traits, patterns):
    assert set(permitted(traits)) == patterns


@pytest.mark.parametrize(
    ("traits", "drivetrain", "best"),
    [("no_spare", "front", ["forward_cross", "x", "front_to_back"]), ("no_spare", "rear", ["rearward_cross"]),
     ("no_spare", "all", ["rearward_cross"]), ("no_spare", "part_time_four", ["rearward_cross"]),
     ("matching_spare", "front", ["five_wheel_forward_cross", "forward_cross"]),
     ("matching_spare", "all", ["five_wheel_rearward_cross", "rearward_cross"])],
)  # fmt: skip
def test_the_best_pattern_for_the_drivetrain_comes_first(traits, drivetrain, best):
    assert permitted(traits, drivetrain)[: len(best)] == best


def test_every_reason_against_a_pattern_is_given_with_its_source():
    choices = choose_patterns(["no_spare", "directional", "staggered"], TABLES.rotation_rule, ())
    against = {choice.pattern.id: [rule.trait for rule in choice.against] for choice in choices}
    assert against["x"] == ["directional", "staggered"]
    assert against["front_to_back"] == ["staggered"]
    assert against["side_to_side"] == ["directional"]
    assert against["five_wheel_forward_cross"] == ["directional", "staggered", "no_spare"]
    assert all(rule.reason and rule.source.standing == "common practice" for c in choices for rule in c.against)
    assert all(choice.permitted is (not choice.against) for choice in choices)


def test_the_table_names_only_patterns_that_exist():
    named = {name for rule in TABLES.rotation_rule for name in rule.allows}
    named |= {name for row in TABLES.rotation_order.values() for name in row.patterns}
    assert named == set(NAMES)


def test_an_unknown_trait_is_refused():
    with pytest.raises(ValueError, match="trait square is not known; expected one of directional"):
        choose_patterns(["square"], TABLES.rotation_rule, ())


@given(st.sets(st.sampled_from([rule.trait for rule in TABLES.rotation_rule])))
def test_more_traits_never_allow_more(traits):
    fewer = {c.pattern.id for c in choose_patterns(traits, TABLES.rotation_rule, ()) if c.permitted}
    for trait in traits:
        without = choose_patterns(traits - {trait}, TABLES.rotation_rule, ())
        assert fewer <= {c.pattern.id for c in without if c.permitted}


def test_patterns_cannot_be_changed():
    with pytest.raises(TypeError):
        PATTERNS["x"].moves["front_left"] = "front_left"


def test_permitted_patterns_come_before_those_ruled_out():
    advised = TABLES.rotation_order["front"].patterns
    choices = choose_patterns(["no_spare", "directional"], TABLES.rotation_rule, advised)
    assert [choice.permitted for choice in choices] == [True] + [False] * 6
    assert choices[0].pattern.id == "front_to_back"
    assert {choice.pattern.id for choice in choices if choice.advised} == set(advised)
