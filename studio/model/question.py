"""Viewers' questions as an episode keeps them: the words, never who wrote them."""

import datetime as dt
from typing import Annotated, Literal

import msgspec

from studio.model.car import LongText, Name, ShortText
from studio.model.specimen import Identifier

QuestionState = Literal["open", "answered", "set_aside"]
MOST_QUESTIONS = 100_000
"""So many questions an episode holds."""


class CorrectedFact(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What the presenter set right in what was read: a field's name and its value as typed; empty drops the fact."""

    field: ShortText
    value: Name = ""


class Question(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A viewer's question: its text and never its author.

    ``reply`` is the presenter's own wording (empty: the computed one stands); ``asked`` counts the viewers.
    """

    id: Identifier
    text: LongText
    on: dt.date | None = None
    state: QuestionState = "open"
    corrected: tuple[CorrectedFact, ...] = ()
    reply: LongText = ""
    answered_on: dt.date | None = None
    asked: Annotated[int, msgspec.Meta(ge=1, le=1_000_000)] = 1
