"""Markings as people write them, markings that cannot be, and the way back.

The grammar is that of UN Regulations 30, 54 and 64 and of 49 CFR 571.139.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.reference import load_tables
from studio.tires.description import SPEED_SYMBOLS
from studio.tires.designation import Marking, MarkingError, format_marking, parse_marking
from tests.tires.made_up import markings

TABLES = load_tables()


@pytest.mark.parametrize(
    ("text", "normalised"),
    [
        ("225/60R17 99H", "225/60R17 99H"),
        ("225/60 R17", "225/60R17"),
        ("225-60-17", "225/60R17"),
        ("225 60 17", "225/60R17"),
        ("225/60/17", "225/60R17"),
        ("22560R17", "225/60R17"),
        ("225/60r17 99h xl", "225/60R17 99H XL"),
        ("225/60R17 XL 99H", "225/60R17 99H XL"),
        ("225/60R17 99HXL", "225/60R17 99H XL"),
        ("225/60R17 99H EXTRA LOAD", "225/60R17 99H XL"),
        ("225/60R17 99H REINF", "225/60R17 99H XL"),
        ("225/60R17 Reinforced 99H", "225/60R17 99H XL"),
        ("P225/60R17 98T", "P225/60R17 98T"),
        ("p 225/60 r 17 98 t", "P225/60R17 98T"),
        ("LT245/75R16 120/116S", "LT245/75R16 120/116S"),
        ("LT245/75R16 E", "LT245/75R16 E"),
        ("LT245/75R16E", "LT245/75R16 E"),
        ("LT245/75R16C", "LT245/75R16 C"),
        ("LT245/75R16/E 120/116S", "LT245/75R16 120/116S E"),
        ("LT245/75R16 load range E", "LT245/75R16 E"),
        ("LT245/75R16 LRE", "LT245/75R16 E"),
        ("205/65R16C 107/105T", "205/65R16C 107/105T"),
        ("205/65 R16 C 107 / 105 T", "205/65R16C 107/105T"),
        ("225/70R15CP 112R", "225/70R15CP 112R"),
        ("275/35ZR20 (102Y)", "275/35ZR20 (102Y)"),
        ("275/35ZR20 102 (Y)", "275/35ZR20 (102Y)"),
        ("225/60ZR17 (99W)", "225/60ZR17 (99W)"),
        ("225/60ZRF17", "225/60ZRF17"),
        ("225/60RF17 99V", "225/60RF17 99V"),
        ("225/60R17 99V run-flat", "225/60RF17 99V"),
        ("T145/80D17 107M", "T145/80D17 107M"),
        ("t145/80r17", "T145/80R17"),
        ("T145/80-17", "T145/80D17"),
        ("145/80-13", "145/80D13"),
        ("225/60-17", "225/60R17"),
        ("33x12.50-15", "33x12.50D15"),
        ("LT245/75R16 120/116S (E)", "LT245/75R16 120/116S E"),
        ("225/60R17 99H DOT XXXX XXXX 3618", "225/60R17 99H"),
        ("225/60R17 DOT 99H", "225/60R17 99H"),
        ("HL245/40R19 101Y XL", "HL245/40R19 101Y XL"),
        ("ST205/75R15 D 107/102M", "ST205/75R15 107/102M D"),
        ("31x10.50R15LT 109Q", "31x10.50R15LT 109Q"),
        ("31X10.5 R15 LT", "31x10.50R15LT"),
        ("31x10,50R15LT", "31x10.50R15LT"),
        ("31 × 10.50 R 15 LT", "31x10.50R15LT"),
        ("LT31x10.50R15 C", "LT31x10.50R15 C"),
        ("155R13", "155R13"),
        ("155 R 13 78S", "155R13 78S"),
        ("225/60HR17", "225/60R17 H"),
        ("225/60R17H", "225/60R17 H"),
        ("245/70R19.5", "245/70R19.5"),
        ("225/60R17 99H M+S 3PMSF DOT", "225/60R17 99H M+S 3PMSF"),
        ("225/60R17 99 M+S", "225/60R17 99 M+S"),
        ("225/60R17 99H M&S", "225/60R17 99H M+S"),
        ("225/60R17 99H M/S", "225/60R17 99H M+S"),
        ("215/65R16C 109/107T (106T) 8PR", "215/65R16C 109/107T (106T) 8PR"),
        ("\t225/60R17\u00a099H \n", "225/60R17 99H"),
        ("２２５／６０Ｒ１７ ９９Ｈ", "225/60R17 99H"),
        ("225\u204460R17", "225/60R17"),
        ("225\u201360\u201317", "225/60R17"),
        ('"225/60R17 99H".', "225/60R17 99H"),
    ],
)
def test_what_people_write_is_read_and_normalised(text, normalised):
    assert str(parse_marking(text)) == normalised


def test_every_field_of_a_passenger_marking():
    assert parse_marking("225/60R17 99H XL M+S") == Marking(
        width_mm=225, aspect_percent=60, rim_diameter_in=17.0, load_index=99, speed_symbol="H", extra_load=True,
        marks=("M+S",),
    )  # fmt: skip


def test_every_field_of_a_flotation_marking():
    assert parse_marking("31x10.50R15LT 109Q") == Marking(
        kind="flotation", overall_diameter_in=31.0, section_width_in=10.5, rim_diameter_in=15.0, suffix="LT",
        load_index=109, speed_symbol="Q",
    )  # fmt: skip


def test_the_prefix_t_is_not_the_speed_symbol_t():
    spare, main = parse_marking("T145/80R17 107M"), parse_marking("145/80R17 107T")
    assert (spare.prefix, spare.speed_symbol, spare.service) == ("T", "M", "temporary")
    assert (main.prefix, main.speed_symbol, main.service) == ("", "T", "passenger")


def test_d_inside_is_diagonal_and_d_behind_is_a_load_range():
    diagonal, ranged = parse_marking("LT245/75D16"), parse_marking("LT245/75R16 D")
    assert (diagonal.construction, diagonal.load_range) == ("diagonal", None)
    assert (ranged.construction, ranged.load_range) == ("radial", "D")


def test_c_behind_the_rim_is_commercial_but_on_lt_a_load_range():
    assert parse_marking("205/65R16C").suffix == "C"
    light_truck = parse_marking("LT205/65R16C")
    assert (light_truck.suffix, light_truck.load_range) == ("", "C")


def test_an_old_size_states_no_aspect():
    assert parse_marking("155R13").aspect_percent is None


@pytest.mark.parametrize(
    ("text", "service"),
    [("225/60R17", "passenger"), ("P225/60R17", "passenger"), ("HL245/40R19", "passenger"), ("T145/80D17", "temporary"),
     ("LT245/75R16", "light truck"), ("31x10.50R15LT", "light truck"), ("205/65R16C", "commercial"),
     ("ST205/75R15", "trailer"), ("225/70R15CP", "camper")],
)  # fmt: skip
def test_what_the_tire_is_made_for(text, service):
    assert parse_marking(text).service == service


@pytest.mark.parametrize(
    ("text", "assumed"),
    [
        ("225/60R17", ()),
        ("225-60-17", ("no construction letter: read as radial",)),
        ("145/80-13", ("no construction letter: read as diagonal, as a sidewall prints the sign -",)),
        ("215/65-16", ("no construction letter: read as radial",)),
        ("33x12.50-15", ("no construction letter: read as diagonal, as a sidewall prints the sign -",)),
        ("226/60R17", ("width 226 mm: metric widths end in 5 or 0",)),
    ],
)
def test_what_was_assumed_is_said(text, assumed):
    assert parse_marking(text).assumed == assumed


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "expected a tire size, such as 225/60R17 99H"),
        ("hello", "expected a tire size"),
        ("99H", "expected a tire size"),
        ("2256017", "expected a tire size"),
        ("225", "expected a tire size"),
        ("225/60R", "expected a tire size"),
        ("6.00-16", "expected a tire size"),
        ("225/60R71", "rim diameter 71, expected 8 to 30 inches"),
        ("225/60R7", "rim diameter 7, expected 8 to 30 inches"),
        ("225/60R17.3", "rim diameter 17.3, expected 8 to 30 inches in whole or half inches"),
        ("225/55R390", "rim diameter 390"),
        ("999/60R17", "width 999, expected 100 to 455 mm"),
        ("095/60R17", "width 95"),
        ("225/5R17", "aspect 5, expected 20 to 95 percent"),
        ("225/600R17", "aspect 600"),
        ("225/60R17 400H", "load index 400, expected 20 to 200"),
        ("225/60R17 9H", "load index 9"),
        ("225/60R17 99I", "speed symbol I, which is not used as it looks like a digit"),
        ("225/60R17 99O", "speed symbol O, which is not used"),
        ("225/60R17 99X", "speed symbol X, expected one of A1 to A8"),
        ("225/60R17 99A9", "speed symbol A9"),
        ("225/60R17 99H 98T", "two load indices, 99 and 98"),
        ("LT245/75R16 116/120S", "dual load index 120 above the single one 116"),
        ("225/60HR17 99V", "speed symbols H and V"),
        ("LT245/75R16 E D", "load ranges E and D"),
        ("LT245/75R16 load range K", "load range K, expected a letter from A to G"),
        ("225/60R17 99V RF", "RF behind the size means reinforced or run-flat"),
        ("145/80D13 run flat", "run-flat on a tire that is not radial"),
        ("225/60R17 99H soft", "'SOFT' after the size is not understood"),
        ("31x10.50R29LT", "a 31 in tire leaves no sidewall on a 29 in rim"),
        ("99x10.50R15LT", "overall diameter 99, expected 20 to 54 inches"),
        ("31x2R15LT", "section width 2, expected 4 to 20 inches"),
        ("225/60R17" + " " * 200, "read 209 characters"),
        ("225/60R17 99H " + "M" * 90, "after the size is not understood"),
        ("225/60R17\u202e 99H", "after the size is not understood"),
    ],
)
def test_the_impossible_is_refused_with_its_reason(text, reason):
    with pytest.raises(MarkingError) as error:
        parse_marking(text)
    assert reason in str(error.value)
    assert str(error.value).isprintable(), "one line, and nothing that turns the text around"
    assert len(str(error.value)) < 240


@given(st.text(max_size=130))
def test_any_text_is_read_or_refused(text):
    try:
        marking = parse_marking(text)
    except MarkingError as error:
        assert str(error).isprintable()
    else:
        assert parse_marking(str(marking)) == marking


PIECES = [
    "225",
    "/",
    "60",
    "R",
    "17",
    "99",
    "H",
    "LT",
    "T",
    "D",
    "C",
    "-",
    "(",
    ")",
    " ",
    "Z",
    "XL",
    "x",
    "31",
    "10.5",
    "E",
]


@given(st.lists(st.sampled_from(PIECES), max_size=14).map("".join))
def test_any_heap_of_pieces_is_read_or_refused(text):
    try:
        marking = parse_marking(text)
    except MarkingError:
        return
    assert parse_marking(str(marking)) == marking


@given(markings())
def test_what_is_written_is_read_back(marking):
    text = format_marking(marking)
    assert parse_marking(text) == marking
    assert parse_marking(f"  {text.lower()} ") == marking


def test_the_symbols_of_the_grammar_are_those_of_the_table():
    assert set(SPEED_SYMBOLS) == set(TABLES.speed_symbol)


@pytest.mark.parametrize(
    "given",
    [{}, {"aspect_percent": 60}, {"kind": "flotation"}, {"kind": "flotation", "overall_diameter_in": 31.0},
     {"kind": "flotation", "width_mm": 225}],
)  # fmt: skip
def test_a_marking_has_the_dimensions_of_its_kind(given):
    with pytest.raises(MarkingError, match="marking without its dimensions, expected one such as 225/60R17"):
        Marking(rim_diameter_in=17.0, **given)
