"""Live numbers in a talking point: ``{tread_left.front_left}``, ``{matching.front_axle limit both}``.

Within the braces stand the finding's id, then if wanted which number (value, limit, margin, uncertainty or a figure's
name; the value if none is named) and in which form (short, both, spoken, rounded; short if none is named). What cannot
be filled becomes a hole that everybody sees: a number that is no longer true is never shown. A brace that stands alone
is an unfinished number, and a hole too: it is shown and counted, and the brace itself never leaves the script.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, get_args

import msgspec

from studio.model.finding import Finding, Findings
from studio.model.quantity import Quantity, System
from studio.script.numbers import VALUE, Number, by_id, numbers_of

Form = Literal["short", "both", "spoken", "rounded"]
PieceKind = Literal["text", "number", "hole"]
FORMS: tuple[Form, ...] = get_args(Form)
HOLE = "▯"
LONGEST = 120
UNFINISHED = "unfinished number"
_LIVE = re.compile(rf"\{{([^{{}}\n]{{0,{LONGEST}}})\}}")
_BRACE = re.compile(r"[{}]")
_ID = re.compile(r"[a-z0-9_]+\.[a-z0-9_]+")


class Piece(msgspec.Struct, frozen=True, kw_only=True):
    """A stretch of a talking point: plain text, a live number, or a hole.

    ``text`` is what a screen shows, ``spoken`` what is said; ``start`` and ``end`` are its place in the source text.
    ``why`` says in words what a hole lacks, ``source`` what is written there. ``quantity`` is the live number itself.
    """

    kind: PieceKind
    text: str
    spoken: str
    start: int
    end: int
    finding: str = ""
    number: str = ""
    form: Form = "short"
    why: str = ""
    source: str = ""
    quantity: Quantity | None = None


class Reference(msgspec.Struct, frozen=True, kw_only=True):
    """What stands within the braces, taken apart."""

    finding: str
    number: str = VALUE
    form: Form = "short"

    def written(self) -> str:
        """As it stands in a talking point, no longer than needed."""
        number = "" if self.number == VALUE else f" {self.number}"
        return f"{{{self.finding}{number}{'' if self.form == 'short' else f' {self.form}'}}}"


def filled(point_text: str, findings: Findings | Mapping[str, Finding], units: System) -> tuple[Piece, ...]:
    """``point_text`` taken apart, each live number with what the findings say now, in the ``units`` of the audience.

    Where many texts are filled, ``findings`` may be the mapping that ``by_id`` makes of them.
    """
    known = by_id(findings)
    pieces, at = list[Piece](), 0
    for live in _LIVE.finditer(point_text):
        pieces += _written(point_text, at, live.start())
        pieces.append(_live(live, known, units))
        at = live.end()
    pieces += _written(point_text, at, len(point_text))
    return tuple(pieces)


def as_written(text: str) -> tuple[Piece, ...]:
    """A text in which no number can be live, such as a title: a brace in it is a hole all the same."""
    return tuple(_written(text, 0, len(text)))


def without_braces(text: str) -> str:
    """Such a text as it is shown outside the script: the gap is marked where a brace stands."""
    return screen_text(as_written(text))


def read_reference(inside: str) -> Reference | None:
    """What stands within the braces; None where it is no reference to a finding."""
    words = inside.split()
    if not words or len(words) > 3 or not _ID.fullmatch(words[0]):
        return None
    number, form = VALUE, FORMS[0]
    if len(words) > 1 and words[-1] in FORMS:
        form = next(form for form in FORMS if form == words[-1])
        words.pop()
    if len(words) == 3:
        return None
    if len(words) == 2:
        number = words[1]
    return Reference(finding=words[0], number=number, form=form)


def screen_text(pieces: Sequence[Piece]) -> str:
    """The text as a screen, a cue card or a caption shows it."""
    return "".join(piece.text for piece in pieces)


def spoken_text(pieces: Sequence[Piece]) -> str:
    """The text as it is said: live numbers in words, holes left out, the presenter's own text as written."""
    return "".join(piece.spoken for piece in pieces)


def _written(text: str, start: int, end: int) -> Iterator[Piece]:
    """The presenter's own words; a brace among them stands alone."""
    at = start
    for brace in _BRACE.finditer(text, start, end):
        if at < brace.start():
            yield _plain(text, at, brace.start())
        yield _hole(brace, Reference(finding=""), UNFINISHED)
        at = brace.end()
    if at < end:
        yield _plain(text, at, end)


def _plain(text: str, start: int, end: int) -> Piece:
    return Piece(kind="text", text=text[start:end], spoken=text[start:end], start=start, end=end)


def _live(live: re.Match[str], known: Mapping[str, Finding], units: System) -> Piece:
    reference = read_reference(live[1])
    if reference is None:
        return _hole(live, Reference(finding=""), f"{_cut(live[1])!r} names no finding")
    finding = known.get(reference.finding)
    if finding is None:
        return _hole(live, reference, f"the finding {_cut(reference.finding)} is gone")
    if finding.verdict == "unknown":
        return _hole(live, reference, f"{finding.id} is unknown: {finding.sentence}")
    number = numbers_of(finding).get(reference.number)
    if number is None:
        return _hole(live, reference, f"{finding.id} has no number {_cut(reference.number)!r}")
    text, spoken = in_form(number, reference.form, units)
    return Piece(
        kind="number", text=text, spoken=spoken, start=live.start(), end=live.end(), finding=reference.finding,
        number=reference.number, form=reference.form, quantity=number.quantity,
    )  # fmt: skip


def in_form(number: Number, form: Form, units: System) -> tuple[str, str]:
    """What is shown of ``number`` in this form, and what is said."""
    if form == "short":
        return number.short(units), number.spoken(units)
    if form == "both":
        return number.both(units), number.spoken_both(units)
    said = number.spoken(units) if form == "spoken" else number.rounded(units)
    return said, said


def _hole(live: re.Match[str], reference: Reference, why: str) -> Piece:
    return Piece(
        kind="hole", text=f"{HOLE} {why} {HOLE}{_gap(live)}", spoken="", start=live.start(), end=live.end(),
        finding=reference.finding, number=reference.number, form=reference.form, why=why, source=live[0],
    )  # fmt: skip


def _gap(live: re.Match[str]) -> str:
    """A lone brace stands against the word that follows it; its mark does not."""
    return " " if live[0] == "{" and not live.string[live.end() : live.end() + 1].isspace() else ""


def _cut(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:39]}…"
