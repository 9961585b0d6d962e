"""Quantities: conversions against NIST SP 811 and a units library, and the one way they are written and said."""

import math
from contextlib import suppress
from typing import Any, get_args

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.model.quantity import (
    UNITS,
    Quantity,
    UnitError,
    UnitName,
    convert,
    depth,
    format_number,
    length,
)

REGISTRY: Any = pint.UnitRegistry()
PINT_NAMES = {
    "mm": "millimeter", "in": "inch", "kPa": "kilopascal", "psi": "pound_force_per_square_inch", "bar": "bar",
    "km": "kilometer", "mi": "mile", "kg": "kilogram", "lb": "pound", "km/h": "kilometer / hour", "mph": "mile / hour",
    "degC": "degC", "degF": "degF", "N m": "newton * meter", "lbf ft": "force_pound * foot",
    "rev/km": "turn / kilometer", "rev/mi": "turn / mile", "rpm": "turn / minute", "years": "year", "%": "percent",
    "m": "meter", "ft": "foot", "mm/h": "millimeter / hour", "in/h": "inch / hour", "L/s": "liter / second",
    "money": "dimensionless",
    "": "dimensionless",
}  # fmt: skip
PAIRS = [
    (unit, to)
    for unit in get_args(UnitName)
    for to in get_args(UnitName)
    if unit != to and Quantity(1.0, unit).measures == Quantity(1.0, to).measures
] + [("in", "mm"), ("mm", "in"), ("32nds", "in"), ("in", "32nds")]


def in_pint(value: float, unit: str) -> Any:
    if unit == "32nds":  # a thirty-second of an inch is no unit of any library
        return REGISTRY.Quantity(value / 32, "inch")
    return REGISTRY.Quantity(value, PINT_NAMES[unit])


def out_of_pint(quantity: Any, unit: str) -> float:
    if unit == "32nds":
        return float(quantity.to("inch").magnitude) * 32
    return float(quantity.to(PINT_NAMES[unit]).magnitude)


def test_every_unit_is_held_to_the_library() -> None:
    assert set(PINT_NAMES) | {"32nds"} == set(UNITS) == set(get_args(UnitName))


@pytest.mark.parametrize(("unit", "to"), PAIRS)
@pytest.mark.parametrize("value", [0.0, 1.0, 35.0, -4.0, 51480.0, 0.1])
def test_pint_converts_alike(unit: UnitName, to: UnitName, value: float) -> None:
    assert Quantity(value, unit).to(to).value == pytest.approx(out_of_pint(in_pint(value, unit), to), rel=1e-12)


# NIST Special Publication 811 (2008), Appendix B.8; the factors marked exact there are given in full.
@pytest.mark.parametrize(
    ("unit", "to", "factor"),
    [
        ("in", "mm", 25.4),  # inch: 2.54 E+01 mm, exact
        ("psi", "kPa", 6.894757),  # pound-force per square inch: 6.894 757 E+00 kPa
        ("bar", "kPa", 100.0),  # bar: 1.0 E+02 kPa, exact
        ("mi", "km", 1.609344),  # mile: 1.609 344 E+00 km, exact
        ("mph", "km/h", 1.609344),  # mile per hour: 1.609 344 E+00 km/h, exact
        ("lb", "kg", 0.45359237),  # pound (avoirdupois): 4.535 923 7 E-01 kg, exact
        ("lbf ft", "N m", 1.355818),  # foot pound-force (moment): 1.355 818 E+00 N m
    ],
)
def test_nist_sp_811_appendix_b(unit: UnitName, to: UnitName, factor: float) -> None:
    assert Quantity(1.0, unit).to(to).value == pytest.approx(factor, rel=1e-7)


def test_nist_sp_811_appendix_b_temperature() -> None:
    """t/°C = (t/°F - 32)/1.8, exact (SP 811, B.8)."""
    assert [Quantity(f, "degF").to("degC").value for f in (32.0, 212.0, -40.0)] == pytest.approx([0.0, 100.0, -40.0])


def test_a_thirty_second_of_an_inch() -> None:
    """By definition: 25.4 mm / 32 = 0.79375 mm; so 2/32 in is 1.5875 mm and 1.6 mm is more than 2/32 in."""
    assert depth(1.0, "32nds").to("mm").value == 0.79375
    assert depth(2.0, "32nds").to("mm").value == 1.5875
    assert depth(1.6, "mm").to("32nds").value == pytest.approx(2.016, abs=0.0005)


@given(st.sampled_from(PAIRS), st.floats(-1e6, 1e6))
def test_there_and_back_is_where_it_began(pair: tuple[UnitName, UnitName], value: float) -> None:
    unit, to = pair
    assert Quantity(value, unit).to(to).to(unit).value == pytest.approx(value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(("unit", "to"), [("mm", "psi"), ("psi", "mi"), ("kg", "km"), ("", "mm"), ("mm", "")])
def test_what_measures_another_thing_is_refused(unit: UnitName, to: UnitName) -> None:
    with pytest.raises(UnitError, match="cannot be given in"):
        Quantity(1.0, unit).to(to)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_finite_number_is_no_quantity(value: float) -> None:
    with pytest.raises(ValueError, match="not a finite number"):
        Quantity(value, "mm")


@pytest.mark.parametrize(
    ("quantity", "text"),
    [
        (depth(5.0, "32nds"), "5/32 in"),
        (depth(5.5, "32nds"), "5.5/32 in"),
        (depth(5.04, "32nds"), "5/32 in"),
        (depth(4.0, "mm"), "4.0 mm"),
        (depth(1.5875, "mm"), "1.6 mm"),
        (length(2680.0), "2680 mm"),
        (length(631.9), "631.9 mm"),
        (length(118.7, "in"), "118.70 in"),
        (Quantity(35.0, "psi"), "35 psi"),
        (Quantity(33.4, "psi"), "33.4 psi"),
        (Quantity(230.0, "kPa"), "230 kPa"),
        (Quantity(2.4, "bar"), "2.40 bar"),
        (Quantity(51480.0, "mi"), "51,480 mi"),
        (Quantity(9999.0, "km"), "9999 km"),
        (Quantity(-4.0, "degC"), "−4 °C"),
        (Quantity(-0.4, "degC"), "0 °C"),
        (Quantity(100.0, "lbf ft"), "100 lbf·ft"),
        (Quantity(120.0, "N m"), "120 N·m"),
        (Quantity(-5.9, "%"), "−5.9 %"),
        (Quantity(0.25, "%"), "0.25 %"),
        (Quantity(1.0, "years"), "1.0 year"),
        (Quantity(7.47, "years"), "7.5 years"),
        (Quantity(4.0, ""), "4"),
    ],
)
def test_how_a_screen_shows_it(quantity: Quantity, text: str) -> None:
    """Numbers and units apart, true minus, as many digits as a gauge gives: SI brochure 5.4.3, common practice."""
    assert quantity.text() == text
    assert quantity.text().startswith(quantity.number())


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [(0.5, 0, "1"), (1.5, 0, "2"), (2.5, 0, "3"), (-0.5, 0, "−1"), (0.05, 1, "0.1"), (0.15, 1, "0.2"),
     (2.675, 2, "2.68"), (9999.5, 0, "10,000"), (9999.4, 0, "9999"), (1234567.0, 0, "1,234,567"), (-0.04, 1, "0.0")],
)  # fmt: skip
def test_halves_are_rounded_away_from_nothing(value: float, decimals: int, text: str) -> None:
    assert format_number(value, decimals) == text


@given(st.floats(-1e5, 1e5), st.integers(0, 3))
def test_rounding_is_never_off_by_more_than_half_of_the_last_digit(value: float, decimals: int) -> None:
    shown = float(format_number(value, decimals).replace(",", "").replace("−", "-"))
    assert abs(shown - value) <= 0.5000001 * 10**-decimals


@pytest.mark.parametrize(
    ("quantity", "system", "text"),
    [
        (depth(5.0, "32nds"), "us", "5/32 in (4.0 mm)"),
        (depth(5.0, "32nds"), "metric", "4.0 mm (5/32 in)"),
        (depth(4.0, "mm"), "us", "5/32 in (4.0 mm)"),
        (Quantity(35.0, "psi"), "metric", "241 kPa (35 psi)"),
        (Quantity(2.4, "bar"), "metric", "2.40 bar (34.8 psi)"),
        (Quantity(2.4, "bar"), "us", "34.8 psi (2.40 bar)"),
        (length(118.7, "in"), "us", "118.70 in (3015 mm)"),
        (Quantity(0.5, "%"), "us", "0.50 %"),
        (Quantity(41.0, "degF"), "metric", "5 °C (41 °F)"),
    ],
)
def test_both_unit_systems_the_audiences_first(quantity: Quantity, system: str, text: str) -> None:
    assert quantity.both(system) == text  # type: ignore[arg-type]


def test_a_depth_in_millimeters_is_no_length_in_millimeters() -> None:
    assert depth(4.0, "mm").in_system("us").unit == "32nds"
    assert length(4.0, "mm").in_system("us").unit == "in"
    assert Quantity(4.0, "mm").measures == "depth"


@pytest.mark.parametrize(
    ("quantity", "words"),
    [
        (depth(2.0, "32nds"), "two thirty-seconds of an inch"),
        (depth(1.0, "32nds"), "one thirty-second of an inch"),
        (depth(5.5, "32nds"), "five point five thirty-seconds of an inch"),
        (depth(1.6, "mm"), "one point six millimeters"),
        (depth(1.0, "mm"), "one millimeter"),
        (Quantity(35.0, "psi"), "thirty-five psi"),
        (Quantity(1.0, "psi"), "one pound per square inch"),
        (Quantity(51480.0, "mi"), "fifty-one thousand four hundred eighty miles"),
        (Quantity(-4.0, "degC"), "minus four degrees Celsius"),
        (Quantity(240.0, "kPa"), "two hundred forty kilopascals"),
        (Quantity(0.5, "%"), "zero point five percent"),
        (Quantity(4.0, ""), "four"),
    ],
)
def test_how_a_presenter_says_it(quantity: Quantity, words: str) -> None:
    """American English number words; "thirty-seconds" as the trade says them: common practice, no source."""
    assert quantity.spoken() == words


@given(st.floats(-1e4, 1e4), st.sampled_from(get_args(UnitName)))
def test_spoken_text_holds_no_digit_and_no_symbol(value: float, unit: UnitName) -> None:
    words = Quantity(value, unit).spoken()
    assume(unit != "psi")
    assert not any(character.isdigit() for character in words)
    assert not set(words) & set("/°·%,−")


@pytest.mark.parametrize(
    ("value", "text", "words"),
    [
        (1e308, "1e308 mm", "one times ten to the power of three hundred eight millimeters"),
        (-1.5e300, "−1.5e300 mm", "minus one point five times ten to the power of three hundred millimeters"),
        (1e15, "1e15 mm", "one times ten to the power of fifteen millimeters"),
        (999_999_999_999_999.0, "999,999,999,999,999.0 mm", None),
    ],
)
def test_what_is_no_reading_is_written_by_its_power_of_ten(value: float, text: str, words: str | None) -> None:
    """Past 2**53 / 10 a double holds no tenth of a millimeter (IEEE 754): further digits would be made up."""
    assert depth(value, "mm").text() == text
    if words is not None:
        assert depth(value, "mm").spoken() == words
        assert depth(value, "mm").rounded("metric") == f"about {words}"


@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(get_args(UnitName)))
def test_any_number_a_computer_holds_can_be_written_and_said(value: float, unit: UnitName) -> None:
    quantity = Quantity(value, unit)
    assert 0 < len(quantity.text()) < 40
    assert quantity.spoken()
    for system in ("us", "metric"):
        with suppress(ValueError):  # what overflows in the other unit is no quantity there
            assert quantity.in_system(system).rounded(system)


def test_the_same_unit_converts_to_itself_exactly() -> None:
    assert convert(0.1 + 0.2, "mm", "mm") == 0.1 + 0.2
    here = depth(5.0, "32nds")
    assert here.to("32nds") is here


@pytest.mark.parametrize(("value", "shown"), [(1e308, "1e308 mm"), (-1e308, "−1e308 mm"), (1e15, "1e15 mm")])
def test_what_nothing_on_earth_measures_is_written_short(value: float, shown: str) -> None:
    assert Quantity(value, "mm").text() == shown
