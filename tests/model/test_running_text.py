"""Numbers and quantities in running text: read with span, unit and precision; names left alone; hostile text survived.

Values are worked by hand; 32nds and inches by the exact definition of the inch (NIST SP 811: 25.4 mm).
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.quantity import Quantity, UnitName
from studio.model.running_text import RunningNumber, numbers_in


def only(text: str) -> RunningNumber:
    found = numbers_in(text)
    assert len(found) == 1, found
    return found[0]


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("5/32", 5, "32nds"), ("5/32nds left", 5, "32nds"), ("5/32's", 5, "32nds"), ('10/32" new', 10, "32nds"),
        ("5 / 32 of an inch", 5, "32nds"), ("9/64 in", 4.5, "32nds"), ("ten 32nds", 10, "32nds"),
        ("4.5 mm", 4.5, "mm"), ("4,5 mm", 4.5, "mm"), ("4mm", 4, "mm"), ("4.5 Millimeter", 4.5, "mm"),
        ("10,992 km", 10_992, "km"), ("10 992 km", 10_992, "km"), ("40k miles", 40_000, "mi"),
        ("41 thousand miles", 41_000, "mi"), ("1.234,5 kg", 1234.5, "kg"), ("1.6", 1.6, None), ("35psi", 35, "psi"),
        ("2.4 bar", 2.4, "bar"), ("240 kPa", 240, "kPa"), ("-10 C", -10, "degC"), ("−4 °C", -4, "degC"),
        ("20F", 20, "degF"), ("55 %", 55, "%"), ("60 mph", 60, "mph"), ("100 km/h", 100, "km/h"),
        ("80 lb-ft", 80, "lbf ft"), ("110 N m", 110, "N m"), ("$129.90 each", 129.9, "money"), ("2½ mm", 2.5, "mm"),
        ("2 1/2 mm", 2.5, "mm"), ("1/8 inch", 0.125, "in"), ("a 17-inch rim", 17, "in"), ("0.16 in deep", 0.16, "in"),
        ("five thirty-seconds", 5, "32nds"), ("five thirty-seconds of an inch", 5, "32nds"),
        ("twenty-two thirty-seconds", 22, "32nds"), ("one thirty-second of an inch", 1, "32nds"),
        ("an eighth of an inch", 0.125, "in"), ("half an inch", 0.5, "in"), ("three-quarters of an inch", 0.75, "in"),
        ("fifty-five percent", 55, "%"), ("two and a half millimetres", 2.5, "mm"), ("ten thousand miles", 1e4, "mi"),
        ("one point six millimeters", 1.6, "mm"), ("minus ten degrees Celsius", -10, "degC"),
        ("two hundred and forty kilopascals", 240, "kPa"), ("one hundred twenty miles an hour", 120, "mph"),
        ("seven years old", 7, "years"), ("in twenty nineteen", 2019, None), ("the front is 4 in the rear", 4, None),
    ],
)  # fmt: skip
def test_values_and_units(text: str, value: float, unit: UnitName | None) -> None:
    found = only(text)
    assert (found.value, found.unit, found.until) == (pytest.approx(value), unit, None)


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("4 to 5 mm", 4, 5, "mm"), ("3-4mm", 3, 4, "mm"), ("between 4 and 5 mm", 4, 5, "mm"),
        ("5/32 to 7/32", 5, 7, "32nds"), ("4-5/32", 4, 5, "32nds"), ("from 35 to 30 psi", 35, 30, "psi"),
        ("two to three thirty-seconds", 2, 3, "32nds"), ("between five and six thirty-seconds", 5, 6, "32nds"),
        ("sixteen to twenty psi", 16, 20, "psi"),
    ],
)  # fmt: skip
def test_ranges(text: str, low: float, high: float, unit: UnitName) -> None:
    found = only(text)
    assert (found.value, found.until, found.unit) == (pytest.approx(low), pytest.approx(high), unit)


@pytest.mark.parametrize(
    "text",
    ["225/60R17 99H", "235/60/18", "LT245/75R16", "31x10.50R15", "DOT 2319", "DOT XJ4K 9B2R 2319", "2026-03-01", "5:30",
     "24/7", "6/6/7", "4x4", "99H", "R17", "the 2nd", "the new one", "take a quarter", "half a tank", "hundreds of km",
     "1" * 40],
)  # fmt: skip
def test_names_are_no_numbers(text: str) -> None:
    assert numbers_in(text) == ()


@pytest.mark.parametrize(
    ("text", "step", "in_words", "approximate"),
    [("4.0 mm", 0.1, False, False), ("about 4mm", 1, False, True), ("10,992 km", 1, False, False),
     ("ten thousand miles", 1000, True, False), ("40k miles", 1000, False, False), ("5/32", 1, False, False),
     ("an eighth of an inch", 0.125, True, False), ("roughly two and a half mm", 0.5, True, True)],
)  # fmt: skip
def test_precision_as_said(text: str, step: float, in_words: bool, approximate: bool) -> None:
    found = only(text)
    assert (found.step, found.in_words, found.approximate) == (pytest.approx(step), in_words, approximate)


def test_what_can_be_read_in_two_ways_says_so() -> None:
    assert (only("thirty-five pounds").unit, only("thirty-five pounds").other_unit) == ("psi", "lb")
    assert (only("1400 pounds").unit, only("1400 pounds").other_unit) == ("lb", "psi")
    assert (only("35 degrees").unit, only("35 degrees").other_unit) == ("degF", "degC")
    assert (only("41.200 km").value, only("41.200 km").otherwise) == (41.2, 41_200)
    assert (only("41,200 km").value, only("41,200 km").otherwise) == (41_200, 41.2)


@pytest.mark.parametrize("text", ["tire 1 4,5 km", "tire 1 4.5 km", "tire 1\x854,5km"])
def test_a_number_with_decimals_is_no_group_of_thousands(text: str) -> None:
    assert [(each.value, each.unit) for each in numbers_in(text)] == [(1, None), (4.5, "km")]


def test_several_in_a_sentence_with_their_spans() -> None:
    text = "7/32 on three and 10/32 on the new one, at 35 psi or 2.4 bar; wait thirty seconds"
    found = numbers_in(text)
    assert [number.text for number in found] == ["7/32", "three", "10/32", "35 psi", "2.4 bar", "thirty"]
    assert [text[number.start : number.end] for number in found] == [number.text for number in found]


SHOWN: list[UnitName] = ["mm", "32nds", "kPa", "psi", "bar", "km", "mi", "kg", "km/h", "mph", "degC", "%"]


@given(st.integers(1, 99_999), st.sampled_from(SHOWN))
def test_what_a_screen_shows_is_read_back(tenths: int, unit: UnitName) -> None:
    shown = Quantity(tenths / 10, unit).text()
    found = only(shown)
    assert (found.unit, found.text) == (unit, shown)
    assert abs(found.value - tenths / 10) <= found.step / 2 + 1e-9


@given(st.integers(2, 99_999), st.sampled_from(SHOWN))
def test_what_a_presenter_says_is_read_back(value: int, unit: UnitName) -> None:
    spoken = Quantity(float(value), unit).spoken()
    found = only(spoken)
    assert (found.value, found.unit, found.in_words) == (pytest.approx(value), unit, True)


FRAGMENTS = st.sampled_from(
    ["5", "/", "32", " ", "-", ".", ",", "1,000", "thirty", "seconds", "and", "a", "half", "of", "an", "inch",
     "between", "to", "mm", "°", "C", "x", "R17", "DOT", "½", "point", "hundred", "minus", "$", "\x00", "\u202e", "ß",
     "İ", "٣", "²"]
)  # fmt: skip


@given(st.lists(FRAGMENTS, max_size=40).map("".join) | st.lists(FRAGMENTS, max_size=40).map(" ".join) | st.text())
def test_any_text_gives_finite_numbers_in_order(text: str) -> None:
    end = 0
    for number in numbers_in(text):
        assert end <= number.start < number.end <= len(text)
        assert text[number.start : number.end] == number.text
        assert abs(number.value) < 1e22 and number.step > 0
        assert number.quantity is None or number.quantity.value == number.value
        end = number.end


@pytest.mark.parametrize(
    "part", ["9", "5/32 ", "1,000", "thirty ", "and a half ", "between 4 and ", "DOT A ", "1/", "225/6", "-", "a "]
)
def test_a_million_characters_end(part: str) -> None:
    assert isinstance(numbers_in(part * (1_000_000 // len(part))), tuple)
