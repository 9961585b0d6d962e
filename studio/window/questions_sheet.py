"""One question opened: the comment with its readings at the left, its answer and the reply at the right."""

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSplitter, QVBoxLayout, QWidget

from studio.model.quantity import System
from studio.model.question import Question
from studio.window.document import Document
from studio.window.findings_caution import CautionPanel
from studio.window.labels import plain_label
from studio.window.palette import GRID, Appearance
from studio.window.questions_answer import AnswerSheet
from studio.window.questions_comment import CommentView
from studio.window.questions_facts import FactsPanel
from studio.window.questions_near import NearPanel
from studio.window.questions_open import Opened
from studio.window.questions_reply import ReplyPanel
from studio.window.questions_rows import about_words, key_of

NARROW = 620
_LEAST_COMMENT, _MOST_COMMENT = 3, 9  # lines


class QuestionSheet(QSplitter):
    """Shows what the reader gives; ``reply`` and ``near`` are wired by the place."""

    def __init__(self, document: Document, appearance: Appearance) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self._appearance, self._document = appearance, document
        self.opened: Opened | None = None
        self.about = plain_label("", "quiet", wrap=True)
        self.comment = CommentView(appearance)
        self.facts = FactsPanel(document)
        self.near = NearPanel()
        self.answer = AnswerSheet(appearance)
        self.reply = ReplyPanel(appearance)
        self._caution: CautionPanel | None = None
        self._right = QVBoxLayout()
        self._lay_out()
        self.facts.at_hand.connect(self.comment.show_at_hand)
        self.comment.wanted.connect(self.facts.focus_fact)

    def show_opened(self, opened: Opened, place: int, question: Question, units: System, tables: Any) -> None:
        """Show this question, as it stands in the document now."""
        self.opened = opened
        self.about.setText(about_words(question, opened.told) + (f" · {question.on}" if question.on else ""))
        self.comment.show_comment(question.text, opened.facts)
        self._fit_comment()
        self.facts.show_facts(place, question, opened.facts)
        self.answer.show_answer(opened.answer, units, opened.problem)
        self._show_caution(opened, tables)
        self.show_reply(question)

    def holds(self, question: Question) -> bool:
        """Whether what is shown was worked out from this question as it stands."""
        its = self.opened
        return its is not None and its.question.id == question.id and key_of(its.question) == key_of(question)

    def show_reply(self, question: Question) -> None:
        """Show the reply as it stands: the presenter's own, else the computed one of tone and length."""
        if self.opened is not None:
            own = bool(question.reply)
            self.reply.show_reply(question.reply or self.opened.wordings[self.reply.wanted()], own=own)
            if not own:
                self.reply.show_marks((), own=False)

    def caution(self) -> str:
        """The caution that is shown."""
        return self._caution.accessibleName() if self._caution else ""

    def _turn(self) -> None:
        """Side by side where there is room, else one above the other."""
        narrow = self.width() < self._appearance.px(NARROW)
        wanted = Qt.Orientation.Vertical if narrow else Qt.Orientation.Horizontal
        if self.orientation() != wanted:
            self.setOrientation(wanted)

    def _show_caution(self, opened: Opened, tables: Any) -> None:
        every = tuple(dict.fromkeys(its.warning for its in (opened.answer, *opened.answer.also) if its.warning))
        text = " ".join(its.text for its in every)
        fresh = CautionPanel(every[0].signal, text, self._appearance) if every else None
        if fresh is not None and self.caution() == fresh.accessibleName():
            fresh.deleteLater()
            return
        if self._caution is not None:
            self._right.removeWidget(self._caution)
            self._caution.hide()
            self._caution.deleteLater()
        self._caution = fresh
        if fresh is not None:
            self._right.insertWidget(1, fresh)
            fresh.show()  # at once: the layout alone would show it with the next event only

    def _fit_comment(self) -> None:
        """As high as the comment is, within reason."""
        document = self.comment.document()
        document.setTextWidth(max(120, self.comment.viewport().width()))
        line = self.comment.fontMetrics().lineSpacing()
        high = min(max(document.size().height(), _LEAST_COMMENT * line), _MOST_COMMENT * line)
        self.comment.setFixedHeight(round(high) + 8)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._turn()
        if self.opened is not None:
            self._fit_comment()

    def _lay_out(self) -> None:
        inside = QWidget()
        left = QVBoxLayout(inside)
        left.setContentsMargins(2 * GRID, 0, 2 * GRID, GRID)
        left.setSpacing(2 * GRID)
        first = QVBoxLayout()
        left.addLayout(first)
        first.setSpacing(GRID // 2)
        first.addWidget(self.about)
        first.addWidget(self.comment)
        left.addWidget(self.facts)
        left.addWidget(self.near)
        left.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setAccessibleName("Comment and what was read")
        scroll.setWidget(inside)
        scroll.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)
        holder = QWidget()
        self._right = QVBoxLayout(holder)
        self._right.setContentsMargins(2 * GRID, 0, 2 * GRID, GRID)
        self._right.setSpacing(GRID + 4)
        self._right.addWidget(self.answer, 6)
        self._right.addWidget(self.reply, 5)
        self.addWidget(scroll)
        self.addWidget(holder)
        self.setChildrenCollapsible(False)
        self.setHandleWidth(GRID)
        self.setStretchFactor(0, 4)
        self.setStretchFactor(1, 5)
        self.setSizes([400, 500])
