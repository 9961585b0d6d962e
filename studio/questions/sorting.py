"""Comments sorted without computing each: urgent for safety, answerable now, needing a fact, or no question."""

from typing import Literal

import msgspec

from studio.questions.facts import Reading
from studio.questions.kind_words import KINDS, QuestionKind
from studio.questions.kinds import Asked, kinds_of
from studio.questions.reading import read

State = Literal["urgent", "answerable", "needs_fact", "none"]
STATES: tuple[State, ...] = ("urgent", "answerable", "needs_fact", "none")
_NEEDS: dict[QuestionKind, tuple[tuple[str, ...], ...]] = {
    "tread_left": (("depth",),),
    "matching": (("depth", "difference"),),
    "size_swap": (("size",),),
    "spare": (("size",),),
    "age": (("date_code",),),
    "pressure": (("pressure", "pressure_before", "placard_pressure"), ("temperature",)),
    "rotation": (("drivetrain", "tread"),),
    "life": (("depth",), ("distance", "odometer")),
    "hydroplaning": (("pressure",),),
    "code": (("size", "service"),),
    "convert": (),
    "repair": (("zone",),),
    "condition": (),
    "none": (),
}
"""Of each group one field must have been read."""
_TWO = {
    "matching": ("depth", "depth_new"),
    "size_swap": ("size",),
    "spare": ("size",),
    "life": ("depth", "depth_new", "depth_before"),
    "pressure": ("temperature",),
}
"""Of these fields two facts are needed."""


class Sorted(msgspec.Struct, frozen=True, kw_only=True):
    """A comment read and sorted."""

    reading: Reading
    asked: Asked
    state: State


def sort_out(text: str) -> Sorted:
    """Read a comment and say how it is to be sorted."""
    reading = read(text)
    asked = kinds_of(reading)
    return Sorted(reading=reading, asked=asked, state=state_of(asked, reading))


def state_of(asked: Asked, reading: Reading) -> State:
    """How a question is sorted, by what it asks and what was read."""
    if asked.kind == "none":
        return "none"
    if {asked.kind, *asked.also} & {"condition", "repair"} or reading.first("load_high"):
        return "urgent"
    return "answerable" if _has_all(asked.kind, reading) and not reading.impossible else "needs_fact"


def _has_all(kind: QuestionKind, reading: Reading) -> bool:
    if not all(reading.of(*fields) for fields in _NEEDS[kind]):
        return False
    if kind not in _TWO:
        return True
    facts = reading.of(*_TWO[kind])
    several_tires = kind == "matching" and (
        reading.first("difference") is not None or len({place for f in facts for place in f.where}) > 1
    )
    return len({(fact.said, fact.where) for fact in facts}) >= 2 or several_tires


def order(state: State, asked: int, kind: QuestionKind) -> tuple[int, int, int]:
    """The sort key of a list of questions: by state, then the most asked, then by kind."""
    return STATES.index(state), -asked, KINDS.index(kind) if kind in KINDS else len(KINDS)
