"""A finding: the only carrier of a number to the screen, the script, an answer or the brief.

Its texts (sentence, working, caution, what would change it) are for people: no other room learns from reading them.
What a room must know has a name of its own: a step's kind, a caution's id, a figure, a detail.
"""

from collections.abc import Iterable, Iterator
from typing import Literal

import msgspec

from studio.model.caution import Caution
from studio.model.finding_names import FigureName, WordName
from studio.model.quantity import Quantity, UnitName
from studio.model.source import Source

Verdict = Literal["keep", "watch", "rotate", "replace", "inspect", "unknown"]
Act = Literal[
    "drive", "drive_far", "drive_fast", "rotate", "change_axle", "fit", "mix", "inflate", "bleed", "repair", "shave",
]  # fmt: skip
"""What a finding may advise, and what a fact of the same car may forbid."""
SEVERITY: tuple[Verdict, ...] = ("keep", "watch", "rotate", "inspect", "replace")


StepKind = Literal[
    "step", "seen", "lowest", "code", "age", "compared", "tape", "rolling", "wear", "wear_doubt", "gas", "sum",
]  # fmt: skip
"""What a step of working is, for whoever shows some of them: ``seen`` damage, the ``lowest`` reading, the date ``code``
and the ``age`` by it, depths ``compared``, circumferences by ``tape`` and ``rolling``, the ``wear`` and its doubt, a
pressure by the ``gas`` law, another ``sum``; any other ``step``."""


class Step(msgspec.Struct, frozen=True):
    """One line of working. ``sum`` is as much of it as a screen shows: the sum without the words that lead to it."""

    text: str
    kind: StepKind = "step"
    sum: str = ""


def summed(words: str, sum_: str, kind: StepKind = "sum") -> Step:
    """A step that computes: ``words`` say what, ``sum_`` is the sum itself."""
    return Step(text=f"{words}: {sum_}", kind=kind, sum=sum_)


def as_steps(lines: Iterable[str | Step]) -> tuple[Step, ...]:
    """Lines of working as steps; plain text is a step that nobody looks for."""
    return tuple(line if isinstance(line, Step) else Step(text=line) for line in lines)


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """A further number of a finding, for pictures and text: its name, what it is in plain words, its value.

    ``brief`` is what of these words tells it from its neighbours, where a picture needs it alone (``inner``).
    """

    name: str
    label: str
    quantity: Quantity
    brief: str = ""


class Finding(msgspec.Struct, frozen=True, kw_only=True):
    """What the readings say about one subject of one topic.

    ``margin`` is positive on the good side of the limit. ``value``, ``limit``, ``margin`` and ``uncertainty`` (a half
    width) are in ``unit``. ``inputs`` are paths into the episode. ``limit_label`` names the limit and whose it is;
    ``limit_region`` is the id of the region whose law it is. ``steps`` are its working, ``said`` the
    numbers as the sentence gives them, where they are no figures (rounded, say). ``detail`` holds words that a picture
    needs beside the figures, as (name, text) pairs. ``advises`` are the acts it recommends, ``held_by`` the ids of the
    barriers that bind it.
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
    limit_region: str = ""
    margin: float | None = None
    uncertainty: float | None = None
    steps: tuple[Step, ...] = ()
    inputs: tuple[str, ...] = ()
    sources: tuple[Source, ...] = ()
    warning: Caution | None = None
    advises: tuple[Act, ...] = ()
    held_by: tuple[str, ...] = ()
    would_change: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    figures: tuple[Figure, ...] = ()
    said: tuple[Quantity, ...] = ()
    detail: tuple[tuple[str, str], ...] = ()

    @property
    def working(self) -> tuple[str, ...]:
        """The lines of working, for people."""
        return tuple(step.text for step in self.steps)

    @property
    def caution(self) -> str:
        """The caution's text; empty where none stands with it."""
        return self.warning.text if self.warning else ""

    def of_kind(self, *kinds: StepKind) -> tuple[Step, ...]:
        """The steps of these kinds, in their order."""
        return tuple(step for step in self.steps if step.kind in kinds)

    def figure(self, name: FigureName) -> Quantity | None:
        """The figure of that name; None where the finding has none."""
        return self.figure_at(name)

    def figure_at(self, name: str) -> Quantity | None:
        """The figure of a name that was put together, such as ``load_front_left``; None where there is none."""
        return next((figure.quantity for figure in self.figures if figure.name == name), None)

    def word(self, name: WordName) -> str:
        """The detail of that name; empty where the finding has none."""
        return self.word_at(name)

    def word_at(self, name: str) -> str:
        """The detail of a name that was put together, such as ``move.front_left``; empty where there is none."""
        return next((text for key, text in self.detail if key == name), "")


class AskedQuestion(msgspec.Struct, frozen=True, kw_only=True):
    """A viewer's question in their own words, and the finding that answers it."""

    id: str
    text: str
    finding: Finding


class Findings(msgspec.Struct, frozen=True):
    """All findings of an episode, in the order in which a viewer wants to know them.

    ``asked`` are viewers' questions that are to be shown, with what answers each: no findings about the episode's car.
    ``names`` are what the presenter calls the tires on the bench, by subject.
    """

    all: tuple[Finding, ...]
    asked: tuple[AskedQuestion, ...] = ()
    names: tuple[tuple[str, str], ...] = ()

    def name(self, subject: str) -> str:
        """What the presenter calls this subject; empty where it has no name."""
        return next((name for known, name in self.names if known == subject), "")

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
