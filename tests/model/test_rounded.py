"""Quantities as people say them, from plain arithmetic: 1/8 in = 4/32 in, a year has 12 months; steps are the custom
of speech, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.quantity import UNITS, Quantity, System, depth, length
from studio.model.spoken import spell_fraction, spell_mixed, spell_money


@pytest.mark.parametrize(
    ("quantity", "system", "words"),
    [
        (depth(4, "32nds"), "us", "about an eighth of an inch"),
        (depth(6, "32nds"), "us", "about three sixteenths of an inch"),
        (depth(5, "32nds"), "us", "about five thirty-seconds of an inch"),
        (depth(16, "32nds"), "us", "about half an inch"),
        (depth(8, "32nds"), "us", "about a quarter of an inch"),
        (depth(0.3, "32nds"), "us", "less than a thirty-second of an inch"),
        (depth(32, "32nds"), "us", "about one inch"),
        (depth(40, "32nds"), "us", "about one and a quarter inches"),
        (depth(5, "32nds"), "metric", "about four millimeters"),  # 3.97 mm
        (depth(4.6, "mm"), "metric", "about four and a half millimeters"),
        (depth(0.8, "mm"), "metric", "about eight tenths of a millimeter"),
        (depth(0.02, "mm"), "metric", "less than a tenth of a millimeter"),
        (length(0.93, "in"), "us", "about fifteen sixteenths of an inch"),  # 15/16 = 0.9375
        (length(29.1, "in"), "us", "about twenty-nine inches"),
        (length(739.2), "metric", "about seven hundred forty millimeters"),
        (Quantity(278, "kPa"), "metric", "about two hundred eighty kilopascals"),
        (Quantity(2.43, "bar"), "metric", "about two point four bar"),
        (Quantity(30.9, "psi"), "us", "about thirty-one psi"),
        (Quantity(8060, "mi"), "us", "about eight thousand one hundred miles"),
        (Quantity(28_953, "mi"), "us", "about twenty-nine thousand miles"),
        (Quantity(-5.6, "%"), "us", "about minus five and a half percent"),
        (Quantity(0.49, "%"), "us", "about half a percent"),
        (Quantity(0.67, "years"), "us", "about eight months"),
        (Quantity(0.01, "years"), "us", "less than a month"),
        (Quantity(29.3, "years"), "us", "about twenty-nine years"),
        (Quantity(53.2, "mph"), "us", "about fifty-three miles per hour"),
        (Quantity(4, ""), "us", "about four"),
    ],
)
def test_as_people_say_it(quantity: Quantity, system: System, words: str) -> None:
    assert quantity.rounded(system) == words


@given(st.floats(-1e6, 1e6), st.sampled_from(sorted(UNITS)), st.sampled_from(["us", "metric"]))
def test_it_is_always_words(value: float, unit: str, system: System) -> None:
    said = Quantity(value, unit).rounded(system)  # type: ignore[arg-type]
    assert said.startswith(("about ", "less than "))
    assert not any(c.isdigit() for c in said) and "  " not in said and said == said.strip()


def test_fractions_mixed_numbers_and_money() -> None:
    assert [spell_fraction(1, 8), spell_fraction(3, 4), spell_fraction(1, 2)] == ["an eighth", "three quarters", "half"]
    assert spell_mixed(2, 1, 2) == "two and a half" and spell_mixed(0, 1, 2) == "half"
    assert spell_money("196.00", "USD") == "one hundred ninety-six dollars"
    assert spell_money("1.00", "EUR") == "one euro"
    assert spell_money("12.50", "XYZ") == "twelve point five XYZ"
