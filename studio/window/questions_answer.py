"""The computed answer beside the comment: verdict, numbers in both units, what is missing, working, sources."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from studio.decide.input_words import source_words
from studio.graphics.parts.signs import verdict_word
from studio.model.finding import Figure
from studio.model.quantity import Quantity, System
from studio.questions.answer_values import Answer
from studio.questions.told import figures_of, rest_of, sentence_of
from studio.window.labels import Role, plain_label
from studio.window.palette import GRID, Appearance
from studio.window.questions_rows import KIND_WORDS
from studio.window.signs import SignView
from studio.window.words import upper_first

_MOST_NUMBERS = 4
_SHORT = 120  # characters: a longer sentence is no heading


class AnswerSheet(QScrollArea):
    """Shows one answer whole. Its caution stands outside, where it cannot be scrolled away."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._shown: object = None
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # the arrows scroll it
        self.setAccessibleName("Computed answer")
        self.viewport().setAutoFillBackground(False)

    def show_answer(self, its: Answer | None, units: System, problem: str = "") -> None:
        """Show this answer; nothing without one."""
        now = (its, units, problem)
        if now == self._shown:
            return
        self._shown = now
        inside = QWidget()
        inside.setAutoFillBackground(False)
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, GRID, 0)
        column.setSpacing(GRID + 4)
        for part in self._parts(its, units, problem) if its else ():
            column.addWidget(part)
        column.addStretch(1)
        self.setWidget(inside)
        if its:
            self.setAccessibleDescription(f"{verdict_word(its.verdict)}. {its.said}")

    def texts(self) -> str:
        """All that is told, for finding and for tests."""
        from PySide6.QtWidgets import QLabel

        inside = self.widget()
        return "\n".join(label.text() for label in inside.findChildren(QLabel)) if inside else ""

    def _parts(self, its: Answer, units: System, problem: str) -> Iterable[QWidget]:
        if problem:
            yield plain_label(problem, "problem", wrap=True)
        yield self._head(its)
        if numbers := figures_of(its):
            yield _numbers(numbers, units)
        yield from _section("This cannot be", its.invalid)
        yield from _section("What is missing", its.asks)
        for other in its.also:
            yield from self._also(other, units)
        yield from _section("How it was worked out", its.working)
        yield from _section("Whose rule", tuple(map(source_words, its.sources)))
        yield from _section("Taken from the comment", tuple(part for part in (its.region_said, its.left_out) if part))

    def _head(self, its: Answer) -> QWidget:
        """Sign and word, then the sentence."""
        holder = QWidget()
        sign = SignView(self._appearance, side=28, parent=holder)  # what is shown without a parent is a window
        sign.show_verdict(its.verdict)
        kind = upper_first(KIND_WORDS[its.kind])
        word = f"{kind}: {verdict_word(its.verdict)}" if its.verdict else kind
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID // 2)
        across = QHBoxLayout()
        column.addLayout(across)
        across.setSpacing(GRID)
        across.addWidget(sign)
        across.addWidget(plain_label(word, "quiet"), 1)
        said = sentence_of(its)
        column.addWidget(_selectable(said, "heading" if len(said) <= _SHORT else "strong"))
        if rest := rest_of(its):
            column.addWidget(_selectable(rest))
        return holder

    def _also(self, other: Answer, units: System) -> Iterable[QWidget]:
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, GRID, 0, 0)
        column.setSpacing(GRID // 2)
        column.addWidget(self._head(other))
        if numbers := figures_of(other):
            column.addWidget(_numbers(numbers, units))
        for lines, title in ((other.invalid, "This cannot be"), (other.asks, "What is missing")):
            for part in _section(title, lines):
                column.addWidget(part)
        yield holder


def _numbers(figures: Sequence[Figure], units: System) -> QWidget:
    """The deciding number large with its other unit under it, the next ones smaller beside."""
    holder = QWidget()
    grid = QGridLayout(holder)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(3 * GRID)
    grid.setVerticalSpacing(0)
    for column, figure in enumerate(figures[:_MOST_NUMBERS]):
        mine, other = in_both(figure.quantity, units)
        deciding = column == 0
        grid.addWidget(plain_label(mine, "deciding" if deciding else "number"), 0, column, _LOW)
        grid.addWidget(plain_label(other, "quiet"), 1, column)
        grid.addWidget(plain_label(figure.label, "quiet", wrap=True), 2, column, Qt.AlignmentFlag.AlignTop)
    grid.setColumnStretch(_MOST_NUMBERS, 1)
    return holder


_LOW = Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignLeft


def in_both(quantity: Quantity, units: System) -> tuple[str, str]:
    """The quantity in the presenter's units, and in the other system where that is another."""
    mine = quantity.in_system(units)
    other = quantity.in_system("metric" if units == "us" else "us")
    return mine.text(), "" if other.unit == mine.unit else other.text()


def _section(heading: str, lines: Sequence[str]) -> Iterable[QWidget]:
    if not lines:
        return
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(GRID // 2)
    column.addWidget(plain_label(heading, "strong"))
    for line in lines:
        column.addWidget(_selectable(line))
    yield holder


def _selectable(text: str, role: Role = "text") -> QWidget:
    label = plain_label(text, role, wrap=True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
