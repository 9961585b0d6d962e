"""What goes into an answer and what comes out of it: the viewer, one kind's part, the whole answer."""

import datetime as dt
from collections.abc import Mapping
from typing import Literal

import msgspec

from studio.decide.audience import Audience
from studio.model.caution import Caution
from studio.model.episode import Episode
from studio.model.finding import Finding, Step, Verdict
from studio.model.quantity import Quantity, System
from studio.model.source import Source
from studio.questions.facts import Fact, Reading
from studio.questions.kind_words import QuestionKind
from studio.reference.tables import Tables

Number = float | int | tuple[str, ...] | None
Numbers = Mapping[str, Number]
Length = Literal["short", "full"]
Tone = Literal["plain", "warm"]


class Viewer(msgspec.Struct, frozen=True, kw_only=True):
    """A comment with all that its answer depends on. ``episode`` is given only where the comment is about its car."""

    reading: Reading
    on: dt.date
    region: str
    region_how: str
    units: System
    tables: Tables
    episode: Episode | None = None

    @property
    def audience(self) -> Audience:
        """For whom the numbers are written."""
        return Audience(units=self.units, region=self.region)

    def both(self, quantity: Quantity) -> str:
        """A quantity in the viewer's units, the other system in brackets."""
        return self.audience.both(quantity)


class Missing(msgspec.Struct, frozen=True, kw_only=True):
    """A fact that would settle more: its field and one friendly sentence that asks for it."""

    field: str
    ask: str


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """The answer to one kind.

    ``lead`` is the verdict in words with its numbers; ``finding`` is the one that these words are of (None where they
    follow from a table or a formula alone).
    """

    lead: str
    finding: Finding | None = None
    verdict: Verdict | None = None
    numbers: Numbers = {}
    steps: tuple[Step, ...] = ()
    sources: tuple[Source, ...] = ()
    warning: Caution | None = None
    missing: tuple[Missing, ...] = ()
    invalid: tuple[str, ...] = ()
    more: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()


class Answer(msgspec.Struct, frozen=True, kw_only=True):
    """The answer to a comment. ``also`` answers its further kinds; ``findings`` carry the numbers for pictures.

    ``said`` is the verdict in words with its numbers, as the reply begins, and ``finding`` the one that says it (None
    where it follows from a table or a formula alone). ``region_how`` says where the region comes from, ``region_said``
    is that in words, ``left_out`` what of the comment was not read.
    """

    kind: QuestionKind
    read: tuple[Fact, ...]
    missing: tuple[str, ...]
    invalid: tuple[str, ...]
    verdict: Verdict | None
    numbers: Numbers
    steps: tuple[Step, ...]
    reply: str
    sources: tuple[Source, ...]
    warning: Caution | None
    region: str
    region_how: str
    also: tuple["Answer", ...] = ()
    why: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    left_out: str = ""
    findings: tuple[Finding, ...] = ()
    finding: Finding | None = None
    said: str = ""
    region_said: str = ""

    @property
    def working(self) -> tuple[str, ...]:
        """The lines of working, for people."""
        return tuple(step.text for step in self.steps)

    @property
    def caution(self) -> str:
        """The caution's text; empty where none stands with it."""
        return self.warning.text if self.warning else ""

    @property
    def state(self) -> Literal["urgent", "answerable", "needs_fact", "none"]:
        """How a list sorts it: urgent for safety first, then what can be answered now, then what needs a fact."""
        if self.kind == "none":
            return "none"
        if self.kind in ("condition", "repair") or any(it.kind in ("condition", "repair") for it in self.also):
            return "urgent"
        if self.verdict == "replace" and self.kind in ("tread_left", "age", "size_swap"):
            return "urgent"
        return "needs_fact" if self.invalid or self.open else "answerable"

    @property
    def open(self) -> bool:
        """Whether a fact is missing without which there is no number and no verdict."""
        return (
            bool(self.missing) and self.verdict in (None, "unknown") and all(it is None for it in self.numbers.values())
        )
