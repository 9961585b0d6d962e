"""What surrounds the car, folded until it is wanted: prices, weather and road and driving, other sizes wished for."""

from PySide6.QtWidgets import QWidget

from studio.decide.wording import plain
from studio.model.circumstances import Circumstances
from studio.model.quantity import Quantity, format_number
from studio.window.document import Document
from studio.window.fields import Field
from studio.window.flow import flow
from studio.window.fold import Fold
from studio.window.form_parts import FieldBox, ProblemLine, caution_note
from studio.window.labels import plain_label
from studio.window.number_fields import BoundedField, CurrencyField, PriceField, SizesField
from studio.window.subject import PathSubject

COSTS, DRIVING, SIZES = "What tires cost here", "Weather, road and driving", "Other sizes wished for"
_NOTHING = "nothing entered"
_AROUND = (
    ("filling_temperature", "filled at {}"), ("filling_altitude", "filled {} up"),
    ("driving_temperature", "driven at {}"), ("driving_altitude", "driven {} up"), ("speed", "{}"),
    ("yearly_distance", "{} a year"), ("water_depth", "{} of water"), ("rain", "rain {}"),
    ("texture_depth", "texture {}"), ("road_slope", "slope {}"), ("drainage_length", "water runs {}"),
)  # fmt: skip


def costs_words(document: Document) -> str:
    """The prices that are entered, on one line."""
    prices = document.episode.prices
    pairs = (("new", prices.new_tire), ("used", prices.used_tire), ("mounting", prices.mounting),
             ("shaving", prices.shaving))  # fmt: skip
    found = [f"{words} {format_number(price, 2)}" for words, price in pairs if price is not None]
    return f"{', '.join(found)} {prices.currency}" if found else _NOTHING


def driving_words(document: Document) -> str:
    """What is entered on weather, road and driving, on one line."""
    around: Circumstances = document.episode.circumstances
    held = ((words, getattr(around, name)) for name, words in _AROUND)
    return ", ".join(words.format(its.text()) for words, its in held if isinstance(its, Quantity)) or _NOTHING


def sizes_words(document: Document) -> str:
    """The sizes that are wished for, on one line."""
    return plain(", ".join(document.episode.circumstances.sizes_wished), 200) or _NOTHING


def costs_fold(document: Document) -> Fold:
    """The presenter's own prices."""
    subject = PathSubject(document, "prices", "")
    currency = CurrencyField(subject, "currency", "currency of prices", chars=5, most=20)
    new = PriceField(subject, "new_tire", "price of a new tire")
    used = PriceField(subject, "used_tire", "price of a used tire")
    used_depth = BoundedField(subject, "used_tire_depth", "depth of the used tire", "depth", chars=14)
    mounting = PriceField(subject, "mounting", "price of mounting")
    shaving = PriceField(subject, "shaving", "price of shaving")
    boxes = (
        FieldBox("Currency, three letters", currency), FieldBox("A new tire", new), FieldBox("A used tire", used),
        FieldBox("Tread on the used tire", used_depth), FieldBox("Mounting and balancing", mounting),
        FieldBox("Shaving to match", shaving),
    )  # fmt: skip
    note = plain_label("Your own prices, each for one tire.", "quiet", wrap=True)
    fields = (currency, new, used, used_depth, mounting, shaving)
    return Fold(document, COSTS, costs_words, note, flow(*boxes), ProblemLine(*fields))


def driving_fold(document: Document) -> Fold:
    """Weather, road and driving for which the episode computes."""
    subject = PathSubject(document, "circumstances", "")

    def field(part: str, what: str, bound: str) -> BoundedField:
        return BoundedField(subject, part, what, bound)

    driving = (
        ("Air where they are filled", field("filling_temperature", "air where tires are filled", "temperature")),
        ("Air where they are driven", field("driving_temperature", "air where tires are driven", "temperature")),
        ("Speed spoken of", field("speed", "speed spoken of", "speed")),
        ("Height above sea, filled", field("filling_altitude", "height where tires are filled", "altitude")),
        ("Height above sea, driven", field("driving_altitude", "height where tires are driven", "altitude")),
        ("Driven in a year", field("yearly_distance", "distance driven in a year", "yearly_distance")),
    )
    water = (
        ("Water on the road", field("water_depth", "water on the road", "water_depth")),
        ("Or rain", field("rain", "rain", "rain")),
        ("Road's texture depth", field("texture_depth", "road's texture depth", "texture_depth")),
        ("Slope across the road", field("road_slope", "slope across the road", "road_slope")),
        ("Water's way to the edge", field("drainage_length", "water's way to the edge", "drainage_length")),
    )
    return Fold(
        document, DRIVING, driving_words, _boxes(driving), _problems(driving),
        plain_label("A depth of water as measured, or a rain from which the film of water is worked out.", "quiet",
                    wrap=True),
        _boxes(water), _problems(water), caution_note(document.tables, "hydroplaning"),
    )  # fmt: skip


def sizes_fold(document: Document) -> Fold:
    """Sizes that the presenter or a viewer would like in place of the placard's."""
    subject = PathSubject(document, "circumstances", "")
    sizes = SizesField(subject, "sizes_wished", "sizes wished for", chars=30, most=1000)
    box = FieldBox("Sizes, with commas between them", sizes, wide=True)
    example = plain_label("Such as 225/55R17, 235/60R16 100H.", "quiet", wrap=True)
    caution = caution_note(document.tables, "size_change")
    return Fold(document, SIZES, sizes_words, flow(box), ProblemLine(sizes), example, caution)


def _boxes(pairs: tuple[tuple[str, BoundedField], ...]) -> QWidget:
    return flow(*(FieldBox(label, field) for label, field in pairs))


def _problems(pairs: tuple[tuple[str, BoundedField], ...]) -> ProblemLine:
    fields: list[Field] = [field for _, field in pairs]
    return ProblemLine(*fields)
