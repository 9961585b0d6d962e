"""A comment read: each way people write sizes, depths, codes, pressures, places and damage; nothing invented.

What is expected was written by hand from the words; sizes follow the grammar of UN R30 and 49 CFR 571.139, date codes
49 CFR 574.5.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.questions.facts import MOST_FACTS_SAID, MOST_READ, Reading
from studio.questions.reading import read


def said(text: str, *fields: str) -> list[str]:
    return [fact.said for fact in read(text).of(*fields)]


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("235/60R18", "235/60R18"),
        ("235 60 18", "235/60R18"),
        ("235/60/18", "235/60R18"),
        ("235-60-18", "235/60R18"),
        ("225 / 60 R 17", "225/60R17"),
        ("P215/65R17 98T", "P215/65R17 98T"),
        ("LT245/75R16 E", "LT245/75R16 E"),
        ("235/6OR18", "235/60R18"),
        ("215/55zr17", "215/55ZR17"),
        ("225/60HR17", "225/60R17 H"),
        ("185R14C", "185R14C"),
        ("31x10.50R15", "31x10.50R15"),
        ("t125/70d17", "T125/70D17"),
        ("R17 225/60", "225/60R17"),
        ("new 235/60R18s", "235/60R18"),
        ("heißt 225/45 R17 94Y", "225/45R17 94Y"),
    ],
)
def test_sizes(text: str, size: str) -> None:
    assert said(f"can I run {text} ?", "size") == [size]


@pytest.mark.parametrize("text", ["24/7", "10/32 6/32 8/32", "call 235 60 19 10", "30/40 people", "1/4 inch", "7/8/26"])
def test_what_is_no_size(text: str) -> None:
    assert said(text, "size") == []


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("5/32 left", "depth", "5/32 in"),
        ("5/32nds", "depth", "5/32 in"),
        ("five thirty-seconds", "depth", "5/32 in"),
        ("4mm", "depth", "4.0 mm"),
        ("4,5 mm", "depth", "4.5 mm"),
        ("4 mm left, was 8", "depth_before", "8.0 mm"),
        ("10/32 when new", "depth_new", "10/32 in"),
        ("started at 11/32", "depth_new", "11/32 in"),
        ("legal limit is 2/32", "limit", "2/32 in"),
        ("within 2/32 of each other", "difference", "2/32 in"),
        ("a 6mm hole in it", "damage_size", "6 mm"),
        ("screw 30 mm from the sidewall", "damage_place", "30.0 mm"),
        ("lost 3 mm of tread", "worn", "3.0 mm"),
        ("filled to 35 psi", "pressure_before", "35 psi"),
        ("placard says 33 psi", "placard_pressure", "33 psi"),
        ("now 2.4 bar", "pressure", "2.40 bar"),
        ("at 20 C", "temperature", "20 °C"),
        ("12,000 miles a year", "yearly_distance", "12,000 mi"),
        ("60,000 mile warranty", "warranty_distance", "60,000 mi"),
        ("41.200 km gefahren", "distance", "41,200 km"),
        ("odometer reads 41,200 miles", "odometer", "41,200 mi"),
        ("load index 104", "service", "104"),
    ],
)
def test_numbers_and_their_roles(text: str, field: str, value: str) -> None:
    assert said(text, field) == [value]


@pytest.mark.parametrize(
    ("text", "digits"),
    [
        ("DOT 2319", "2319"),
        ("week 23 of 2019", "2319"),
        ("date code 2319", "2319"),
        ("date code 318", "318"),
        ("DOT XJ4K 9B2R 2319", "2319"),
        ("KW 23/2019", "2319"),
        ("stamped 4718", "4718"),
        ("DOT 35/15", "3515"),
        ("the code reads 4714. replace?", "4714"),
        ("my tires say 2319 are they too old", "2319"),
    ],
)
def test_date_codes(text: str, digits: str) -> None:
    assert said(text, "date_code") == [digits]


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("left rear is 5/32", ("rear_left",)),
        ("5/32 on the driver side front", ("front_left",)),
        ("both fronts 5/32", ("front_left", "front_right")),
        ("RR: 5/32", ("rear_right",)),
        ("the new one is 5/32", ("new_one",)),
        ("others at 5/32", ("others",)),
        ("5/32 on the left", ("left",)),
        ("5/32 left", ()),
        ("5/32 right now", ()),
        ("hinten links 5/32", ("rear_left",)),
        ("arrière gauche 5/32", ("rear_left",)),
    ],
)
def test_places(text: str, where: tuple[str, ...]) -> None:
    assert [fact.where for fact in read(text).of("depth")] == [where]


@pytest.mark.parametrize(
    ("text", "placed"),
    [
        ("7/32 on three and 10/32 on the new one", {"7/32 in": "others", "10/32 in": "new_one"}),
        ("fronts 4/32 rears 7/32", {"4/32 in": "front_left", "7/32 in": "rear_left"}),
        ("10/32 rear and 4/32 front", {"10/32 in": "rear_left", "4/32 in": "front_left"}),
        (
            "LF 5/32, RF 6/32, LR 7/32, RR 8/32",
            {"5/32 in": "front_left", "6/32 in": "front_right", "7/32 in": "rear_left", "8/32 in": "rear_right"},
        ),
    ],
)
def test_each_depth_has_its_own_tire(text: str, placed: dict[str, str]) -> None:
    assert {fact.said: fact.where[0] for fact in read(text).of("depth")} == placed


@pytest.mark.parametrize(
    ("text", "damage"),
    [
        ("a bulge on the sidewall", ["bulge"]),
        ("no bulges or cracks", []),
        ("cords showing", ["cord"]),
        ("nail in it", ["puncture"]),
        ("hit a pothole", []),
        ("crack me up", []),
        ("nailed it", []),
        ("price cut", []),
        ("Beule in der Flanke", ["bulge"]),
        ("un clou", ["puncture"]),
        ("dry rot", ["cracks"]),
        ("run flat tires", []),
    ],
)
def test_damage_and_what_only_sounds_like_it(text: str, damage: list[str]) -> None:
    assert said(text, "damage") == damage


@pytest.mark.parametrize(
    ("text", "region"),
    [
        ("5/32 ok?", "us"),
        ("tyres 3 mm, MOT soon", "uk"),
        ("3 mm in Germany", "de"),
        ("Meine Reifen haben 3 mm", "de"),
        ("mes pneus ont 3 mm", "fr"),
        ("le mie gomme sono a 3 mm, posso", "it"),
        ("4 mm at 2.4 bar", "eu"),
        ("in Quebec with 5/32", "ca-qc"),
        ("rego in australia", "au"),
    ],
)
def test_regions(text: str, region: str) -> None:
    assert said(text, "region") == [region]


def test_no_hint_gives_no_region() -> None:
    assert said("is a bulge bad?", "region") == []


def test_a_bare_number_without_any_unit_is_not_given_one() -> None:
    found = read("tread depth is 5 on the left rear")
    assert found.of("depth") == () and [fact.said for fact in found.of("depth_without_unit")] == ["5"]


def test_less_sure_where_the_unit_was_taken_from_elsewhere() -> None:
    plain, taken = read("4 mm left, was 8").of("depth", "depth_before")
    assert plain.sure > taken.sure and "unit taken" in taken.how


def test_a_size_and_a_wheel_that_do_not_go_together_are_named() -> None:
    assert read("is 235/60R17 ok on an 18 inch rim").impossible == (
        "235/60R17 on an 18 inch rim: this tire is made for 17 inch rims only",
    )
    assert read("235/60R17 on 17 inch rims").impossible == ()


FRAGMENTS = st.sampled_from(
    "235/60R18 |5/32 |left rear |DOT 2319 |35 psi |at 70F |new |was |4 mm |the new one |bulge |no |nail |in |AWD "
    "|18 inch rims |week |of 2019 |20,000 miles |, |. |? |\x00|\u202e|{{7*7}}|<b>|=1+1|½|thirty-|seconds |and |8 "
    "|fronts |right ".split("|")
)  # fmt: skip


@given(st.lists(FRAGMENTS, max_size=40).map("".join) | st.text(max_size=300))
def test_every_fact_stands_in_the_text(text: str) -> None:
    found = read(text)
    assert isinstance(found, Reading)
    for fact in found.facts:
        assert 0 <= fact.start <= fact.end <= len(text)
        assert found.text[fact.start : fact.end] == fact.text
        assert 0 <= fact.sure <= 1 and fact.how


@pytest.mark.parametrize(
    "part",
    [
        "9",
        "5/32 ",
        "235/60",
        "DOT ",
        "front left ",
        "the new one ",
        "nail ",
        "was 5 ",
        "week ",
        "at 35 ",
        "no cracks or ",
        "235 60 ",
        "{{x}}",
        "no no ",
        "' ",
        "1/",
        "\x00",
    ],
)
def test_a_million_characters_are_read_as_far_as_is_said(part: str) -> None:
    found = read(part * (1_000_000 // len(part)))
    assert f"{MOST_READ:,}" in found.left_out and len(found.facts) <= MOST_FACTS_SAID
