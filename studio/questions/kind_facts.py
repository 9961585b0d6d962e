"""What the facts of a comment say: that it is about tires, that an answer is wanted, one unit in another."""

import itertools
import re

from studio.questions.answer_air import named_unit
from studio.questions.facts import Reading
from studio.questions.kind_words import TIRES


def tells_enough(reading: Reading) -> bool:
    """Whether facts stand in the comment that nobody writes without wanting to know."""
    if reading.first("depth", "date_code", "worn") is not None:
        return True
    if reading.first("made_year", "age_years") and (reading.first("spare") or TIRES.search(reading.text)):
        return True
    measured = reading.of("pressure", "pressure_before", "placard_pressure", "pressure_change", "temperature", "size")
    return len({fact.said for fact in measured}) >= 2


_ELSEWHERE = re.compile(
    r"\b(?:paint|screen|wall|gum|soap|tint|window|phone|skin|finger|tub|wrap|ceiling)\w*\b", re.IGNORECASE
)
_CORNERS = ("front_left", "front_right", "rear_left", "rear_right")
_ON_THE_ROAD = re.compile(r"\b(?:curb|kerb|pot ?hole|dr[io]v\w+|highway|road|car|van|truck|suv)\b", re.IGNORECASE)


def about_tires(reading: Reading) -> bool:
    """Whether any word or fact belongs to tires: a bulge by itself may be in a wall."""
    own = (
        "size",
        "size_without_rim",
        "impossible_size",
        "service",
        "date_code",
        "depth",
        "depth_new",
        "depth_without_unit",
        "spare",
        "pressure",
        "pressure_before",
        "placard_pressure",
        "sidewall_pressure",
        "pressure_change",
        "temperature",
        "season",
        "difference",
        "drivetrain",
        "depth_before",
        "limit",
        "zone",
        "mark",
        "rim",
        "worn",
        "share_left",
    )
    if any(word in _CORNERS for fact in reading.of("place") for word in fact.where):
        return True
    if "bulge" in reading.words("damage") and not _ELSEWHERE.search(reading.text):
        return True
    if reading.first("damage") and reading.first("repair", "zone"):
        return True
    if reading.first("damage") and _ON_THE_ROAD.search(reading.text):
        return True
    if {"flat_spot", "cord", "separation"} & set(reading.words("damage")) or "foam" in reading.words("repair"):
        return True
    return reading.first(*own) is not None or TIRES.search(reading.text) is not None


def other_unit(reading: Reading) -> bool:
    """Whether a unit is named apart from any number into which a quantity of the comment can be turned."""
    return any(
        named_unit(reading.text, fact) is not None and not _NUMBERED.search(reading.text[: fact.start][-1:])
        for fact in reading.of("depth", "depth_new", "pressure", "placard_pressure", "distance", "load")
    )


def set_equal(reading: Reading) -> bool:
    """``8/32 is what, 6mm?``: two quantities of one kind in two units, held equal."""
    facts = reading.of("depth", "depth_new", "depth_without_unit", "pressure", "distance", "load")
    return any(
        one.field == other.field
        and one.quantity.unit != other.quantity.unit
        and _EQUAL.match(reading.text[one.end : other.start])
        for one, other in itertools.pairwise(fact for fact in facts if not isinstance(fact.value, str))
    )


_EQUAL = re.compile(r"\W*(?:(?:is|are|=|equals?|the same as|same as|equal to|what|about|roughly|that's"
    r"|or)\W*){1,4}$", re.IGNORECASE)
_NUMBERED = re.compile(r"[0-9]")
