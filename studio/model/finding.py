"""A finding: the only carrier of a number to the screen, the script, an answer or the brief."""

from collections.abc import Iterator
from typing import Literal

import msgspec

from studio.model.quantity import Quantity, UnitName
from studio.model.source import Source

Verdict = Literal["keep", "watch", "rotate", "replace", "inspect", "unknown"]
SEVERITY: tuple[Verdict, ...] = ("keep", "watch", "rotate", "inspect", "replace")


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """A further number of a finding, for pictures and text: its name, what it is in plain words, its value."""

    name: str
    label: str
    quantity: Quantity


class Finding(msgspec.Struct, frozen=True, kw_only=True):
    """What the readings say about one subject of one topic.

    ``margin`` is positive on the good side of the limit. ``value``, ``limit``, ``margin`` and ``uncertainty`` (a half
    width) are in ``unit``. ``inputs`` are paths into the episode. ``limit_label`` names the limit and whose it is.
    ``detail`` holds words a picture needs beside the figures, as (name, text) pairs.
    """

    id: str
    topic: str
    subject: str
    sentence: str
    verdict: Verdict | None = None
    value: float | None = None
    unit: UnitName | None = None
    limit: float | None = None
    limit_label: str = ""
    margin: float | None = None
    uncertainty: float | None = None
    working: tuple[str, ...] = ()
    inputs: tuple[str, ...] = ()
    sources: tuple[Source, ...] = ()
    caution: str = ""
    would_change: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    figures: tuple[Figure, ...] = ()
    detail: tuple[tuple[str, str], ...] = ()

    def figure(self, name: str) -> Quantity | None:
        """The figure of that name; None where the finding has none."""
        return next((figure.quantity for figure in self.figures if figure.name == name), None)

    def word(self, name: str) -> str:
        """The detail of that name; empty where the finding has none."""
        return next((text for key, text in self.detail if key == name), "")


class AskedQuestion(msgspec.Struct, frozen=True, kw_only=True):
    """A viewer's question in their own words, and the finding that answers it."""

    id: str
    text: str
    finding: Finding


class Findings(msgspec.Struct, frozen=True):
    """All findings of an episode, in the order in which a viewer wants to know them.

    ``asked`` are viewers' questions that are to be shown, with what answers each: no findings about the episode's car.
    """

    all: tuple[Finding, ...]
    asked: tuple[AskedQuestion, ...] = ()

    def __iter__(self) -> Iterator[Finding]:
        return iter(self.all)

    def __len__(self) -> int:
        return len(self.all)

    def get(self, id_: str) -> Finding | None:
        """The finding with this id, one that answers a question included."""
        every = (*self.all, *(asked.finding for asked in self.asked))
        return next((finding for finding in every if finding.id == id_), None)

    def of(self, topic: str, subject: str = "") -> tuple[Finding, ...]:
        """The findings of a topic, of one subject if given."""
        return tuple(f for f in self.all if f.topic == topic and subject in ("", f.subject))
