"""Fields for what is asked for more narrowly than by its kind: a rim width, a price, a ratio, a list of sizes."""

from typing import Any, get_args

import msgspec

from studio.decide.bounds import check_marking
from studio.model.car import Ratio, ShortText
from studio.model.circumstances import Currency, Price, Sizes
from studio.model.entry import read_quantity
from studio.model.quantity import MINUS, UNITS, Kind, Quantity, UnitName, format_number
from studio.window.fields import ValueField
from studio.window.subject import Subject
from studio.window.value_fields import QuantityField, other_unit

BARE_UNITS: dict[str, tuple[UnitName, UnitName]] = {  # bound: what a bare number means (US, metric)
    "rim_width": ("in", "in"), "ground_clearance": ("in", "mm"), "temperature": ("degF", "degC"),
    "altitude": ("ft", "m"), "drainage_length": ("ft", "m"), "speed": ("mph", "km/h"), "water_depth": ("in", "mm"),
    "texture_depth": ("in", "mm"), "rain": ("in/h", "mm/h"), "road_slope": ("%", "%"),
    "yearly_distance": ("mi", "km"), "depth": ("32nds", "mm"),
}  # fmt: skip
_KINDS: dict[str, Kind] = {  # bound: the kind in whose units people give it, where that is not the bound's own
    "water_depth": "length", "texture_depth": "length",
}  # fmt: skip
_MOST_DECIMALS = 3


class BoundedField(QuantityField):
    """A quantity that is asked for in the words of its row in the table of bounds."""

    def __init__(self, subject: Subject, part: str, what: str, bound: str, *, chars: int = 16) -> None:
        row = subject.document.tables.bounds[bound]
        self._bare, self._expected = BARE_UNITS[bound], row.expected
        self.kind = _KINDS.get(bound, row.kind)  # known before the first text is shown
        super().__init__(subject, part, what, self.kind, chars=chars)

    def read(self, text: str) -> Quantity:
        """The quantity that ``text`` states; a bare number is in the unit of the episode's first system."""
        bare = self._bare[self.subject.document.episode.units == "metric"]
        found = read_quantity(text, self.kind, bare, self._expected)
        return found if self.kind in ("depth", "length") else Quantity(found.value, found.unit)

    def words_of(self, value: Any) -> str:
        """As it was typed, with every decimal of it: a length of 7.3 m is not 7 m."""
        if not isinstance(value, Quantity):
            return ""
        if value.unit == "32nds":
            return super().words_of(value)
        return f"{exact_number(value.value)} {UNITS[value.unit].symbol}"

    def aside_of(self, value: Any) -> str:
        """The other unit system; of a film of water and a road's texture inches, not 32nds."""
        if not isinstance(value, Quantity):
            return ""
        return other_unit(Quantity(value.value, value.unit, self.kind if self.kind in ("depth", "length") else None))


def exact_number(value: float) -> str:
    """A number with the decimals that it has, at most three."""
    text = f"{abs(value):.{_MOST_DECIMALS}f}".rstrip("0").rstrip(".")
    return MINUS + text if value < 0 and text != "0" else text


class RatioField(ValueField):
    """A ratio to one."""

    def read(self, text: str) -> float:
        """The ratio that ``text`` states: ``3.73``, ``3.73:1``."""
        limits = get_args(Ratio)[1]
        asked = f"a ratio above {limits.gt} and up to {limits.le}, such as 3.73"
        value = read_quantity(text.removesuffix(":1"), "count", "", asked).value
        if not limits.gt < value <= limits.le:
            raise ValueError(f"{text[:20]!r} was read; expected {asked}")
        return value

    def words_of(self, value: Any) -> str:
        """The number."""
        return "" if value is None else exact_number(value)

    def aside_of(self, value: Any) -> str:
        """What it is a ratio to."""
        return "" if value is None else "to 1"


class PriceField(ValueField):
    """A price in the currency of the episode's prices, which stands lightly beside it."""

    def read(self, text: str) -> float:
        """The price that ``text`` states, with or without the currency's letters."""
        limits, currency = get_args(Price)[1], self._currency
        asked = f"a price in {currency} from {limits.ge} to {limits.le}, such as 129.90"
        value = read_quantity(text.upper().replace(currency, "").strip(), "money", "money", asked).value
        if not limits.ge <= value <= limits.le:
            raise ValueError(f"{text[:20]!r} was read; expected {asked}")
        return value

    @property
    def _currency(self) -> str:
        return self.subject.document.episode.prices.currency

    def words_of(self, value: Any) -> str:
        """The number alone."""
        return "" if value is None else format_number(value, 2).replace(",", "")

    def aside_of(self, value: Any) -> str:
        """The currency."""
        return "" if value is None else self._currency

    def refresh(self) -> None:
        """Show what the episode holds; the currency may be another one now."""
        super().refresh()
        if not self.problem:
            self.set_aside(self.aside_of(self.model_value()))


class CurrencyField(ValueField):
    """Three letters of ISO 4217."""

    optional = False

    def read(self, text: str) -> str:
        """The letters, large."""
        try:
            return msgspec.convert(text.upper(), Currency)
        except msgspec.ValidationError:
            raise ValueError(
                f"{text[:20]!r} was read; expected the three letters of a currency, such as USD or EUR"
            ) from None


class SizesField(ValueField):
    """Markings with commas between them; each must be readable."""

    optional = False

    def read(self, text: str) -> tuple[str, ...]:
        """The markings, each of them once."""
        sizes = tuple(dict.fromkeys(" ".join(part.split()) for part in text.split(",") if part.strip()))
        most, longest = get_args(Sizes)[1].max_length, get_args(ShortText)[1].max_length
        if len(sizes) > most:
            raise ValueError(f"{len(sizes)} sizes were read; expected at most {most}, such as 225/55R17, 235/60R16")
        for size in sizes:
            if len(size) > longest:
                raise ValueError(f"{size[:20]!r}… was read; expected a size of at most {longest} characters, "
                                 "such as 225/55R17")  # fmt: skip
            check_marking(size)
        return sizes

    def words_of(self, value: Any) -> str:
        """The markings with commas between them."""
        return ", ".join(value or ())
