"""The check over the whole script: every number of titles, talking points and paid lines, with what the presenter set
aside and why; what is often said wrongly; holes; what the duties still ask for."""

from collections.abc import Iterator, Mapping

import msgspec

from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import Rundown, Segment
from studio.model.source import Source
from studio.reference.tables import Tables
from studio.script.check_text import CONVERSION, Mark, TextCheck, check_numbers, check_text
from studio.script.duties import Duty, duties_of
from studio.script.ground import Ground, prepare
from studio.script.live import Piece, as_written, filled, screen_text
from studio.script.statements import statements_in
from studio.script.timing import paid_lines
from studio.script.verdict import State

__all__ = [
    "TITLE", "Hole", "ScriptCheck", "ScriptMark", "ScriptStatement", "TextCheck", "check_script", "check_text",
]  # fmt: skip
TITLE, TIE = -1, -2
NO_SEGMENTS = "The rundown has no segments: there is nothing to check yet."


class ScriptMark(msgspec.Struct, frozen=True, kw_only=True):
    """A number of the script. ``point`` is the talking point's place in its segment, ``TITLE`` for the title, ``TIE``
    for a paid line; ``start`` and ``end`` are places in the text with its live numbers filled in.

    ``dismissed`` is the presenter's reason for setting the mark aside, empty where it stands.
    """

    text: str
    segment: str
    point: int
    start: int
    end: int
    state: State
    expected: str = ""
    source: str = ""
    why: str = ""
    live: bool = False
    dismissed: str = ""

    @property
    def conversion(self) -> bool:
        """Whether two values are said to be equal that are not."""
        return self.state == "contradicted" and self.source == CONVERSION


class ScriptStatement(msgspec.Struct, frozen=True, kw_only=True):
    """A sentence of the script that states what is often said wrongly, what is right, and whose word that is."""

    id: str
    text: str
    segment: str
    point: int
    start: int
    end: int
    correct: str
    source: Source
    dismissed: str = ""


class Hole(msgspec.Struct, frozen=True, kw_only=True):
    """A live number that cannot be filled, or was never finished: where, what is written there, and why.

    ``start`` and ``end`` are places in the text with its live numbers filled in.
    """

    segment: str
    point: int
    reference: str
    why: str
    start: int = 0
    end: int = 0


class ScriptCheck(msgspec.Struct, frozen=True, kw_only=True):
    """The check of a script. ``note`` says in a sentence why there is nothing to check."""

    marks: tuple[ScriptMark, ...] = ()
    statements: tuple[ScriptStatement, ...] = ()
    holes: tuple[Hole, ...] = ()
    duties: tuple[Duty, ...] = ()
    note: str = ""

    @property
    def standing(self) -> tuple[ScriptMark, ...]:
        """The marks that are wrong or unbacked and not set aside."""
        return tuple(m for m in self.marks if m.state in ("contradicted", "unbacked") and not m.dismissed)

    @property
    def contradicted(self) -> tuple[ScriptMark, ...]:
        """The marks that the computation contradicts and that are not set aside."""
        return tuple(mark for mark in self.standing if mark.state == "contradicted")


def check_script(episode: Episode, findings: Findings, tables: Tables) -> ScriptCheck:
    """The check of the episode's rundown against its findings and the tables; time grows with its length."""
    rundown = episode.rundown
    duties = duties_of(rundown, tables)
    if not rundown.segments:
        return ScriptCheck(duties=duties, note=NO_SEGMENTS)
    ground = prepare(findings, tables, episode.units, episode)
    reasons = {(d.segment, d.text.strip()): d.reason.strip() for d in rundown.dismissed if d.reason.strip()}
    marks: list[ScriptMark] = []
    statements: list[ScriptStatement] = []
    holes: list[Hole] = []
    for segment in rundown.segments:
        for place, pieces, about in _texts(rundown, segment, ground):
            marks += _marks(segment.id, place, pieces, about, ground, reasons)
            statements += _statements(segment.id, place, pieces, tables, reasons)
            holes += _holes(segment.id, place, pieces)
    return ScriptCheck(marks=tuple(marks), statements=tuple(statements), holes=tuple(holes), duties=duties)


def _texts(
    rundown: Rundown, segment: Segment, ground: Ground
) -> Iterator[tuple[int, tuple[Piece, ...], frozenset[str]]]:
    """Title, points and paid lines of a segment with the findings each is about."""
    of_segment = frozenset(id_ for point in segment.points for id_ in point.findings)
    yield TITLE, as_written(segment.title), of_segment
    for place, point in enumerate(segment.points):
        pieces = filled(point.text, ground.findings, ground.units)
        own = frozenset(point.findings) | frozenset(piece.finding for piece in pieces if piece.kind == "number")
        yield place, pieces, own or of_segment
    for line in paid_lines(rundown, segment):
        yield TIE, as_written(line), frozenset()


def _marks(
    segment: str, place: int, pieces: tuple[Piece, ...], about: frozenset[str], ground: Ground,
    reasons: Mapping[tuple[str, str], str],
) -> Iterator[ScriptMark]:  # fmt: skip
    live = _live_spans(pieces)
    at = 0
    for mark in check_numbers(_checked(pieces), ground, about):
        while at < len(live) and live[at][1] <= mark.start:
            at += 1
        piece = live[at][2] if at < len(live) and live[at][0] < mark.end else None
        yield _mark(segment, place, mark, piece, reasons)


def _checked(pieces: tuple[Piece, ...]) -> str:
    """The text as shown; a hole leaves a gap of its length, so that words in its reason are not checked."""
    return "".join("▯" * len(piece.text) if piece.kind == "hole" else piece.text for piece in pieces)


def _live_spans(pieces: tuple[Piece, ...]) -> list[tuple[int, int, Piece]]:
    spans, at = [], 0
    for piece in pieces:
        if piece.kind == "number":
            spans.append((at, at + len(piece.text), piece))
        at += len(piece.text)
    return spans


def _mark(
    segment: str, place: int, mark: Mark, piece: Piece | None, reasons: Mapping[tuple[str, str], str]
) -> ScriptMark:
    """A mark of the script; what a live number shows is computed by itself."""
    state, expected, source, why = mark.state, mark.expected, mark.source, mark.why
    if piece is not None:
        state, expected, source, why = "computed", piece.text, piece.finding, ""
    bad = state in ("contradicted", "unbacked")
    return ScriptMark(
        text=mark.text, segment=segment, point=place, start=mark.start, end=mark.end, state=state, expected=expected,
        source=source, why=why, live=piece is not None,
        dismissed=reasons.get((segment, mark.text.strip()), "") if bad else "",
    )  # fmt: skip


def _statements(
    segment: str, place: int, pieces: tuple[Piece, ...], tables: Tables, reasons: Mapping[tuple[str, str], str]
) -> Iterator[ScriptStatement]:
    for its in statements_in(screen_text(pieces), tables):
        yield ScriptStatement(
            id=its.id, text=its.text, segment=segment, point=place, start=its.start, end=its.end, correct=its.correct,
            source=its.source, dismissed=reasons.get((segment, its.text), ""),
        )  # fmt: skip


def _holes(segment: str, place: int, pieces: tuple[Piece, ...]) -> Iterator[Hole]:
    at = 0
    for piece in pieces:
        end = at + len(piece.text)
        if piece.kind == "hole":
            yield Hole(segment=segment, point=place, reference=piece.source, why=piece.why, start=at, end=end)
        at = end
