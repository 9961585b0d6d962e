"""What the list of viewers' questions shows: how each stands, in which order, which of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from studio.model.finding import Verdict
from studio.model.question import CorrectedFact, Question
from studio.questions.kind_words import KINDS, QuestionKind
from studio.questions.sorting import State

Standing = Literal["urgent", "answerable", "needs_fact", "waiting", "none", "answered", "set_aside"]
Order = Literal["urgent", "asked", "newest", "kind"]
Show = Literal["open", "urgent", "answerable", "needs_fact", "none", "answered", "set_aside", "all"]
Key = tuple[str, tuple[CorrectedFact, ...]]

STANDINGS: tuple[Standing, ...] = ("urgent", "answerable", "needs_fact", "waiting", "answered", "none", "set_aside")
STANDING_WORDS: dict[Standing, str] = {
    "urgent": "urgent for safety", "answerable": "answerable now", "needs_fact": "needs a fact",
    "waiting": "not read yet", "answered": "answered", "none": "no question", "set_aside": "set aside",
}  # fmt: skip
KIND_WORDS: dict[QuestionKind, str] = {
    "tread_left": "tread left", "matching": "tires that match", "size_swap": "another size", "spare": "spare",
    "age": "age", "pressure": "pressure", "rotation": "rotation", "life": "distance left",
    "hydroplaning": "water on the road", "repair": "puncture", "condition": "damage", "code": "marking",
    "convert": "conversion", "none": "nothing to compute",
}  # fmt: skip
ORDERS: tuple[tuple[Order, str], ...] = (
    ("urgent", "urgent first"), ("asked", "most asked"), ("newest", "newest"), ("kind", "by kind"),
)  # fmt: skip
SHOWS: tuple[tuple[Show, str], ...] = (
    ("open", "all open"), ("urgent", "urgent for safety"), ("answerable", "answerable now"),
    ("needs_fact", "needs a fact"), ("none", "no question"), ("answered", "answered"), ("set_aside", "set aside"),
    ("all", "everything"),
)  # fmt: skip
_MOST_SHOWN = 300
_OPEN: tuple[Standing, ...] = ("urgent", "answerable", "needs_fact", "waiting", "none")


@dataclass(frozen=True)
class Told:
    """What is known of a question once it was read and answered; ``about`` says that the episode's car is in it."""

    kind: QuestionKind
    also: tuple[QuestionKind, ...]
    state: State
    verdict: Verdict | None = None
    facts: tuple[str, ...] = ()
    about: bool = False


@dataclass(frozen=True)
class Wish:
    """Which questions are wanted, in which order."""

    order: Order = "urgent"
    show: Show = "open"
    kind: QuestionKind | Literal[""] = ""


def key_of(question: Question) -> Key:
    """On what the reading of a question depends."""
    return question.text, question.corrected


def standing_of(question: Question, told: Told | None) -> Standing:
    """How a question stands: what the presenter did with it, else what was read."""
    if question.state != "open":
        return question.state
    return told.state if told else "waiting"


def arranged(questions: Sequence[Question], known: Mapping[Key, Told], wish: Wish) -> list[int]:
    """The indices of the questions wanted, in the order wanted."""
    rows = []
    for index, question in enumerate(questions):
        told = known.get(key_of(question))
        standing = standing_of(question, told)
        if _is_wanted(standing, told, wish):
            rows.append((*_rank(question, standing, told, wish.order), index))
    rows.sort()
    return [row[-1] for row in rows]


def _is_wanted(standing: Standing, told: Told | None, wish: Wish) -> bool:
    shown = standing in _OPEN if wish.show == "open" else wish.show in ("all", standing)
    return shown and (not wish.kind or (told is not None and wish.kind in (told.kind, *told.also)))


def _rank(question: Question, standing: Standing, told: Told | None, order: Order) -> tuple[int, int, int]:
    at, asked = STANDINGS.index(standing), -question.asked
    kind = KINDS.index(told.kind) if told and told.kind in KINDS else len(KINDS)
    if order == "asked":
        return asked, at, kind
    if order == "newest":
        return -(question.on.toordinal() if question.on else 0), at, asked
    return (kind, at, asked) if order == "kind" else (at, asked, kind)


def same_rows(before: Sequence[Question], after: Sequence[Question]) -> bool:
    """Whether a list of both looks alike: nothing but replies is another one."""
    pairs = zip(before, after, strict=False)
    return len(before) == len(after) and all(a is b or _shown(a) == _shown(b) for a, b in pairs)


def _shown(question: Question) -> tuple[object, ...]:
    return question.id, question.text, question.state, question.corrected, question.asked, question.on


def first_line(text: str) -> str:
    """A comment on one line, as much of it as a list needs."""
    return " ".join(text[: 2 * _MOST_SHOWN].split())[:_MOST_SHOWN]


def about_words(question: Question, told: Told | None) -> str:
    """How it stands, what it asks, how often: one quiet line."""
    standing = STANDING_WORDS[standing_of(question, told)].removesuffix(" for safety")
    kinds = ", ".join(KIND_WORDS[kind] for kind in (told.kind, *told.also)) if told and told.kind != "none" else ""
    times = f"asked {question.asked:,} times" if question.asked > 1 else ""
    return " · ".join(part for part in (standing, kinds, times) if part)


def summary(questions: Sequence[Question], known: Mapping[Key, Told]) -> str:
    """One short line: ``12 open, 2 urgent``."""
    opened = urgent = 0
    for question in questions:
        if question.state == "open":
            opened += 1
            told = known.get(key_of(question))
            urgent += told is not None and told.state == "urgent"
    if not opened:
        return "all answered" if questions else "none yet"
    return f"{opened:,} open, {urgent:,} urgent" if urgent else f"{opened:,} open"
