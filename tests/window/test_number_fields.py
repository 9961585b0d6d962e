"""Fields narrower than their kind: bare numbers, both unit systems, and what is refused with the reason."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from studio.decide.admission import _CIRCUMSTANCES
from studio.model.circumstances import Circumstances
from studio.model.quantity import Quantity
from studio.window.around_form import costs_words, driving_words, sizes_words
from studio.window.document import Document
from studio.window.number_fields import BARE_UNITS, BoundedField, CurrencyField, PriceField, RatioField, SizesField
from studio.window.subject import PathSubject
from tests.window.helpers import five_tires, press, type_keys


@pytest.fixture
def document(qapp):
    return Document(five_tires())


@pytest.fixture
def enter(qtbot, appearance):
    """Type into a field as a person does, and leave it by Enter."""

    def typed_into(field, text):
        qtbot.addWidget(field)
        field.show()
        field.activateWindow()
        QApplication.processEvents()
        field.setFocus()
        field.clear()
        type_keys(text)
        press(Qt.Key.Key_Return)
        return field

    return typed_into


def around(document, part):
    return BoundedField(PathSubject(document, "circumstances"), part, part.replace("_", " "), _CIRCUMSTANCES[part])


@pytest.mark.parametrize(
    ("part", "units", "typed", "value", "unit", "shown", "aside"),
    [
        ("rain", "us", "2", 2.0, "in/h", "2 in/h", "51 mm/h"),
        ("rain", "metric", "50", 50.0, "mm/h", "50 mm/h", "2.0 in/h"),
        ("speed", "metric", "60 mph", 60.0, "mph", "60 mph", "97 km/h"),
        ("driving_altitude", "us", "1600 m", 1600.0, "m", "1600 m", "5249 ft"),
        ("drainage_length", "metric", "7.3", 7.3, "m", "7.3 m", "24 ft"),
        ("texture_depth", "us", "0.03", 0.03, "in", "0.03 in", "0.8 mm"),
        ("water_depth", "metric", "2,5", 2.5, "mm", "2.5 mm", "0.10 in"),
        ("driving_temperature", "metric", "-6", -6.0, "degC", "−6 °C", "21 °F"),
        ("road_slope", "us", "2 %", 2.0, "%", "2 %", ""),
        ("yearly_distance", "us", "12000", 12000.0, "mi", "12000 mi", "19,312 km"),
    ],
)  # fmt: skip
def test_circumstances_are_read_in_both_systems(document, enter, part, units, typed, value, unit, shown, aside):
    """Expected conversions: NIST SP 811, Appendix B, worked by hand."""
    document.edit("Units", replace(document.episode, units=units))
    field = enter(around(document, part), typed)
    held = getattr(document.episode.circumstances, part)
    assert (held.value, held.unit, field.problem) == (value, unit, "")
    assert (field.text(), field.accessibleDescription()) == (shown, aside)
    document.undo_stack.undo()
    assert getattr(document.episode.circumstances, part) is None and field.text() == ""


@pytest.mark.parametrize(
    ("part", "typed", "reason"),
    [
        ("rain", "900 mm/h", "900 mm/h was read; expected a rainfall such as 50 mm/h or 2 in/h, from 0 mm/h to 500"),
        ("rain", "heavy", "'heavy' was read; expected a rainfall such as 50 mm/h or 2 in/h"),
        ("drainage_length", "20 in", "'20 in' was read; expected a drainage length such as 7.3 m or 24 ft"),
        ("speed", "-5", "expected a speed such as 100 km/h or 60 mph, from 0 mph"),
        ("yearly_distance", "12,000", "'12,000' can be read in two ways; expected a yearly distance"),
    ],
)
def test_what_cannot_be_is_refused_and_stays_to_be_mended(document, enter, part, typed, reason):
    field = enter(around(document, part), typed)
    assert reason in field.problem and field.text() == typed
    assert getattr(document.episode.circumstances, part) is None and document.undo_stack.count() == 0


def test_every_quantity_of_the_circumstances_says_what_a_bare_number_of_it_means():
    quantities = set(Circumstances.__struct_fields__) - {"sizes_wished"}
    assert quantities == set(_CIRCUMSTANCES)
    assert set(_CIRCUMSTANCES.values()) <= set(BARE_UNITS)


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_rim_width_without_a_unit_is_in_inches(document, enter, units):
    """Rims are named in inches everywhere (common practice, no source)."""
    document.edit("Units", replace(document.episode, units=units))
    enter(BoundedField(PathSubject(document, "car", "car's"), "front_rim_width", "rim width", "rim_width"), "6.5")
    assert document.episode.car.front_rim_width == Quantity(6.5, "in", "length")
    assert document.undo_stack.undoText() == "Change car's rim width"


@pytest.mark.parametrize(("typed", "value"), [("3.73", 3.73), ("3,73", 3.73), ("3.73:1", 3.73), ("4", 4.0)])
def test_a_final_drive_is_read_as_a_ratio(document, enter, typed, value):
    enter(RatioField(PathSubject(document, "car", "car's"), "final_drive", "final drive ratio"), typed)
    assert document.episode.car.final_drive == value


@pytest.mark.parametrize("typed", ["0", "-3", "20.1", "short", "3.73 mm"])
def test_any_other_ratio_is_refused(document, enter, typed):
    field = enter(RatioField(PathSubject(document, "car", "car's"), "final_drive", "final drive ratio"), typed)
    assert "expected a ratio above 0 and up to 20, such as 3.73" in field.problem and field.text() == typed
    assert document.episode.car.final_drive is None


@pytest.mark.parametrize(
    ("typed", "value"), [("129.90", 129.9), ("129,90", 129.9), ("129 USD", 129.0), ("usd 129", 129.0), ("0", 0.0)]
)
def test_a_price_is_read_with_or_without_its_currency(document, enter, typed, value):
    field = enter(PriceField(PathSubject(document, "prices"), "new_tire", "price of a new tire"), typed)
    assert document.episode.prices.new_tire == value and field.accessibleDescription() == "USD"
    assert document.undo_stack.undoText() == "Change price of a new tire"


@pytest.mark.parametrize("typed", ["-1", "1000001", "1,299", "129 EUR", "cheap", "12 psi"])
def test_any_other_price_is_refused(document, enter, typed):
    field = enter(PriceField(PathSubject(document, "prices"), "new_tire", "price of a new tire"), typed)
    assert "expected a price in USD from 0 to 1000000, such as 129.90" in field.problem and field.text() == typed
    assert document.episode.prices.new_tire is None


def test_another_currency_stands_beside_every_price(document, enter):
    price = enter(PriceField(PathSubject(document, "prices"), "mounting", "price of mounting"), "20")
    currency = enter(CurrencyField(PathSubject(document, "prices"), "currency", "currency of prices"), "eur")
    assert (document.episode.prices.currency, currency.text(), price.accessibleDescription()) == ("EUR", "EUR", "EUR")
    for wrong in ("EU", "EURO", "E1R", ""):
        enter(currency, wrong)
        assert "expected the three letters of a currency, such as USD" in currency.problem
    assert document.episode.prices.currency == "EUR"


def test_sizes_are_a_list_with_commas_each_of_them_readable(document, enter):
    field = SizesField(PathSubject(document, "circumstances"), "sizes_wished", "sizes wished for", most=1000)
    enter(field, " 225/55R17 ,235/60R16  100H, 225/55R17,")
    assert document.episode.circumstances.sizes_wished == ("225/55R17", "235/60R16 100H")
    assert field.text() == "225/55R17, 235/60R16 100H"
    enter(field, "225/55R17, big ones")
    assert "'big ones', expected a tire size" in field.problem and field.text() == "225/55R17, big ones"
    enter(field, ", ".join(f"{width}/55R17" for width in range(105, 315, 10)))
    assert field.problem.startswith("21 sizes were read; expected at most 20")
    enter(field, "225/55R17 " + "9" * 100)
    assert "at most 100 characters" in field.problem
    assert len(document.episode.circumstances.sizes_wished) == 2
    enter(field, "")
    assert document.episode.circumstances.sizes_wished == () and field.problem == ""


def test_what_is_folded_says_in_a_line_what_stands_in_it(document):
    assert {words(document) for words in (costs_words, driving_words, sizes_words)} == {"nothing entered"}
    episode = document.episode
    held = Circumstances(speed=Quantity(55.0, "mph"), rain=Quantity(2.0, "in/h"), sizes_wished=("225/55R17",))
    prices = replace(episode.prices, new_tire=168.0, shaving=35.0)
    document.edit("All", replace(episode, prices=prices, circumstances=held))
    assert costs_words(document) == "new 168.00, shaving 35.00 USD"
    assert driving_words(document) == "55 mph, rain 2.0 in/h"
    assert sizes_words(document) == "225/55R17"
