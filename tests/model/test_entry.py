"""What a person types is read, or refused with what was read, what was expected and an example; never guessed."""

from typing import get_args

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from studio.model.entry import MOST_CHARACTERS, EntryError, read_quantity
from studio.model.quantity import Kind, Quantity, UnitName, depth

KINDS: dict[Kind, tuple[UnitName, ...]] = {
    "depth": ("32nds", "mm", "in"), "length": ("mm", "in"), "pressure": ("psi", "kPa", "bar"),
    "distance": ("mi", "km"), "load": ("lb", "kg"), "temperature": ("degF", "degC"), "torque": ("lbf ft", "N m"),
    "share": ("%",), "speed": ("mph", "km/h"),
}  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "kind", "default", "value", "unit"),
    [
        ("5/32", "depth", "mm", 5.0, "32nds"),
        ("5 / 32", "depth", "mm", 5.0, "32nds"),
        ("5/32 in", "depth", "mm", 5.0, "32nds"),
        ('5/32"', "depth", "mm", 5.0, "32nds"),
        ("5/32nds", "depth", "mm", 5.0, "32nds"),
        ("4.5/32", "depth", "mm", 4.5, "32nds"),
        ("1/8", "depth", "mm", 4.0, "32nds"),
        ("3/16 in", "depth", "mm", 6.0, "32nds"),
        ("5", "depth", "32nds", 5.0, "32nds"),
        ("5", "depth", "mm", 5.0, "mm"),
        ("4 mm", "depth", "32nds", 4.0, "mm"),
        ("4mm", "depth", "32nds", 4.0, "mm"),
        ("0,16 in", "depth", "mm", 0.16, "in"),
        (".16 in", "depth", "mm", 0.16, "in"),
        (" 4,5\u00a0mm ", "depth", "32nds", 4.5, "mm"),
        ("35", "pressure", "psi", 35.0, "psi"),
        ("2.4 bar", "pressure", "psi", 2.4, "bar"),
        ("240 KPA", "pressure", "psi", 240.0, "kPa"),
        ("41200", "distance", "mi", 41200.0, "mi"),
        ("66300 km", "distance", "mi", 66300.0, "km"),
        ("−4 °C", "temperature", "degF", -4.0, "degC"),
        ("-4", "temperature", "degC", -4.0, "degC"),
        ("68 F", "temperature", "degC", 68.0, "degF"),
        ("110 N·m", "torque", "lbf ft", 110.0, "N m"),
        ("80 lb ft", "torque", "N m", 80.0, "lbf ft"),
        ("0.5 %", "share", "%", 0.5, "%"),
        ("2680", "length", "mm", 2680.0, "mm"),
        ("2680.5 mm", "length", "in", 2680.5, "mm"),
        ("1/2 in", "length", "mm", 0.5, "in"),
        ("105.5 in", "length", "mm", 105.5, "in"),
    ],
)
def test_what_people_type(typed: str, kind: Kind, default: UnitName, value: float, unit: UnitName) -> None:
    assert read_quantity(typed, kind, default) == Quantity(value, unit, kind)


@pytest.mark.parametrize(
    ("typed", "kind", "default"),
    [
        ("", "depth", "mm"), ("   ", "depth", "mm"), ("five", "depth", "mm"), ("5//32", "depth", "mm"),
        ("5/30", "depth", "mm"), ("5/0", "depth", "mm"), ("5/32 mm", "depth", "mm"), ("5 psi", "depth", "mm"),
        ("1.2.3", "depth", "mm"), ("1e5", "depth", "mm"), ("nan", "depth", "mm"), ("inf", "depth", "mm"),
        ("225/45", "depth", "mm"), ("225/60R17", "length", "mm"), ("68 farad", "temperature", "degC"),
        ("41,200", "distance", "mi"), ("41.200 km", "distance", "mi"), ("41,200,000", "distance", "mi"),
        ("41 200", "distance", "mi"), ("2,756 lb", "load", "kg"), ("1.250", "load", "kg"), ("2,680 mm", "length", "in"),
        ("35 km", "pressure", "psi"), ("4 mm", "distance", "km"), ("1" * 41, "depth", "mm"), ("=1", "depth", "mm"),
        ("<b>5</b>", "depth", "mm"), ("5\n6", "depth", "mm"), ("--4", "temperature", "degC"),
    ],
)  # fmt: skip
def test_what_is_refused_with_an_example(typed: str, kind: Kind, default: UnitName) -> None:
    with pytest.raises(EntryError) as caught:
        read_quantity(typed, kind, default)
    message = str(caught.value)
    assert f"expected a {kind}, such as " in message
    assert message.isprintable() and len(message) < 200
    assert (typed.strip()[:5] or "nothing") in message or "\n" in typed


@given(st.text(max_size=60), st.sampled_from(get_args(Kind)), st.sampled_from(get_args(UnitName)))
@example("²/32", "depth", "mm")
@example("٣/32", "depth", "mm")
@example("9" * MOST_CHARACTERS, "distance", "km")
@example("1/2", "length", "mm")
def test_any_text_is_read_or_refused_in_one_line(typed: str, kind: Kind, default: UnitName) -> None:
    try:
        assert read_quantity(typed, kind, default).measures == kind
    except EntryError as error:
        assert "\n" not in str(error) and "\r" not in str(error)


@given(st.sampled_from(sorted(KINDS)), st.data())
def test_what_a_screen_shows_can_be_typed(kind: Kind, data: st.DataObject) -> None:
    """parse(format(x)) = x, up to 10,000, from where a screen sets thousands apart, which an entry refuses."""
    unit = data.draw(st.sampled_from(KINDS[kind]))
    value = data.draw(st.integers(0, 9_999)) / 10
    quantity = Quantity(value, unit, kind)
    again = read_quantity(quantity.text(), kind, "")
    assert again.text() == quantity.text()
    assert again.unit == unit


@given(st.integers(0, 40))
def test_thirty_seconds_and_their_inches_are_one_depth(count: int) -> None:
    assert read_quantity(f"{count}/32", "depth", "mm") == depth(float(count), "32nds")
    inches = read_quantity(f"{count / 32} in", "depth", "mm")
    assert inches.to("32nds").value == pytest.approx(count)
