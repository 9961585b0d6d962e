"""What the number check found, as rows for a person: a sign's name, a word, what was said, what is right."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from studio.model.rundown import Rundown
from studio.script.check import TIE, TITLE, Hole, ScriptMark, ScriptStatement
from studio.script.duties import Duty
from studio.script.live import UNFINISHED
from studio.window.rundown_edit import LONGEST_MARK
from studio.window.rundown_review import Remark

Kind = Literal[
    "computed", "cited", "unbacked", "contradicted", "conversion", "statement", "hole", "unfinished", "duty"
]  # fmt: skip
WORDS: dict[Kind, str] = {
    "contradicted": "contradicted", "conversion": "not equal", "hole": "hole",
    "unfinished": UNFINISHED, "statement": "said wrongly",
    "unbacked": "unbacked", "duty": "still owed", "computed": "computed", "cited": "cited",
}  # fmt: skip
CALLS: tuple[Kind, ...] = ("contradicted", "conversion", "hole", "unfinished", "statement", "unbacked", "duty")
NEVER_ASIDE: tuple[Kind, ...] = ("hole", "unfinished", "duty")
_LONGEST = 300
_FINISH = "take the brace out, or type it anew and choose a number"


@dataclass(frozen=True)
class RemarkRow:
    """One remark: ``said`` is what stands in the script, ``right`` what is expected or why it is marked."""

    kind: Kind
    said: str
    right: str
    where: str
    remark: Remark
    dismissed: str = ""

    @property
    def calls(self) -> bool:
        """Whether something is to be done about it."""
        return self.kind in CALLS and not self.dismissed

    @property
    def word(self) -> str:
        """Its state in a word."""
        return f"{WORDS[self.kind]}, set aside" if self.dismissed else WORDS[self.kind]

    @property
    def spoken(self) -> str:
        """The row in words, for assistive technology."""
        return ". ".join(part for part in (self.word, self.said, self.right, self.dismissed, self.where) if part)

    @property
    def can_be_set_aside(self) -> bool:
        """Whether a reason can make it stand; what is owed, and a hole, cannot be argued away."""
        return self.calls and self.kind not in NEVER_ASIDE and len(self.remark_text) <= LONGEST_MARK

    @property
    def remark_text(self) -> str:
        """The text by which it is known in the file."""
        return "" if isinstance(self.remark, Hole | Duty) else self.remark.text.strip()

    @property
    def finding(self) -> str:
        """The finding that backs it, or that it is held against; empty where there is none."""
        if isinstance(self.remark, ScriptMark):
            return self.remark.source if _is_id(self.remark.source) else ""
        return ""


def remark_rows(remarks: Sequence[Remark], rundown: Rundown) -> tuple[RemarkRow, ...]:
    """The remarks as rows, in their order."""
    places = {segment.id: place for place, segment in enumerate(rundown.segments, start=1)}
    return tuple(_row(remark, places) for remark in remarks)


def counts_words(rows: Sequence[RemarkRow]) -> str:
    """How many of each, the gravest first: ``2 contradicted, 1 unbacked, 14 computed``."""
    counted = ((WORDS[kind], sum(row.kind == kind and not row.dismissed for row in rows)) for kind in WORDS)
    words = [f"{count} {word}" for word, count in counted if count]
    aside = sum(bool(row.dismissed) for row in rows)
    return ", ".join([*words, *([f"{aside} set aside"] if aside else [])])


def _row(remark: Remark, places: dict[str, int]) -> RemarkRow:
    if isinstance(remark, Duty):
        return RemarkRow("duty", remark.sentence[:_LONGEST], "", _where(remark.segment, None, places), remark)
    where = _where(remark.segment, remark.point, places)
    if isinstance(remark, Hole):
        if remark.why == UNFINISHED:
            return RemarkRow("unfinished", remark.reference, _FINISH, where, remark)
        return RemarkRow("hole", remark.reference[:_LONGEST], remark.why, where, remark)
    said = " ".join(remark.text.split())[:_LONGEST]
    if isinstance(remark, ScriptStatement):
        source = f"{remark.source.title}, {remark.source.standing}"
        return RemarkRow("statement", said, f"{remark.correct} ({source})", where, remark, remark.dismissed)
    kind: Kind = "conversion" if remark.conversion else remark.state
    return RemarkRow(kind, said, _right(remark), where, remark, remark.dismissed)


def _right(mark: ScriptMark) -> str:
    """What is expected, from where, or why it is marked."""
    if mark.state == "unbacked":
        return mark.why or "nothing computed or cited gives this number"
    if mark.state == "contradicted":
        return mark.why or f"expected {mark.expected}"
    if mark.live:
        return f"live number of {_plain(mark.source)}"
    return f"{mark.expected}, {_plain(mark.source)}".strip(", ")


def _plain(source: str) -> str:
    return source.replace(".", ", ", 1).replace("_", " ") if _is_id(source) else source


def _is_id(source: str) -> bool:
    topic, dot, subject = source.partition(".")
    return bool(dot) and topic.replace("_", "").isalnum() and subject.replace("_", "").isalnum() and source.islower()


def _where(segment: str, point: int | None, places: dict[str, int]) -> str:
    place = f"segment {places[segment]}" if segment in places else "the whole rundown"
    if point is None:
        return place
    return {TITLE: f"{place}, title", TIE: f"{place}, paid line"}.get(point, f"{place}, point {point + 1}")
