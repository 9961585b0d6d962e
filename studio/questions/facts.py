"""What was understood from a comment: facts with the place in the text they came from, and how sure each is."""

import msgspec

from studio.model.quantity import Quantity

MOST_READ = 10_000
MOST_FACTS_SAID = 200
LIKELY = 0.75
"""From here on a fact is taken as said; below, the reply says how it was read."""


class Fact(msgspec.Struct, frozen=True, kw_only=True):
    """One fact from ``text[start:end]`` of a comment.

    ``value`` is a quantity as it was written, or a word. ``where`` names the tires it speaks of: places of the car,
    ``left`` or ``right`` of an axle not named, ``new_one``, ``others``, ``low`` and ``high`` of a range. ``sure`` runs
    from 0 to 1; ``how`` says in words how it was read.
    """

    start: int
    end: int
    text: str
    field: str
    value: Quantity | str
    sure: float
    how: str
    where: tuple[str, ...] = ()

    @property
    def quantity(self) -> Quantity:
        """The value of a fact that is a quantity."""
        assert isinstance(self.value, Quantity), self
        return self.value

    @property
    def word(self) -> str:
        """The value of a fact that is a word."""
        assert isinstance(self.value, str), self
        return self.value

    @property
    def said(self) -> str:
        """The value in words."""
        return self.value.text() if isinstance(self.value, Quantity) else self.value


class Reading(msgspec.Struct, frozen=True, kw_only=True):
    """A comment as read. ``impossible`` are sentences on what cannot be; ``left_out`` says what was not read."""

    text: str
    facts: tuple[Fact, ...] = ()
    impossible: tuple[str, ...] = ()
    left_out: str = ""

    def of(self, *fields: str) -> tuple[Fact, ...]:
        """The facts of these fields, in the order of the text."""
        return tuple(fact for fact in self.facts if fact.field in fields)

    def first(self, *fields: str) -> Fact | None:
        """The first fact of these fields; None where there is none."""
        return next((fact for fact in self.facts if fact.field in fields), None)

    def words(self, field: str) -> tuple[str, ...]:
        """The words of a field, each once."""
        return tuple(dict.fromkeys(fact.word for fact in self.facts if fact.field == field))


class Found(msgspec.Struct):
    """What one step of reading adds: facts and impossibilities."""

    facts: list[Fact] = []
    impossible: list[str] = []


def overlaps(start: int, end: int, facts: list[Fact]) -> bool:
    """Whether the span touches one of the facts' own."""
    return any(start < fact.end and fact.start < end for fact in facts)
