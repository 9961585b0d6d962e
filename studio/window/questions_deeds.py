"""What is done with the question at hand: its reply copied, worded, kept; answered, set aside, told, shown."""

import datetime as dt

from msgspec.structs import replace
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from studio.model.question import Question
from studio.questions.told import PICTURE
from studio.window.document import Document
from studio.window.questions_edit import (
    shown_as_picture,
    with_marks_settled,
    with_question,
    with_segment_of,
    with_state,
    without,
)
from studio.window.questions_list import QuestionsList
from studio.window.questions_sheet import QuestionSheet


class Deeds(QObject):
    """Every edit of a question, each one step of undo. ``go`` asks for another place as a place does."""

    said = Signal(str)
    go = Signal(str, str)

    def __init__(self, document: Document, questions: QuestionsList, sheet: QuestionSheet, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._list, self._sheet = document, questions, sheet

    def current(self) -> tuple[int, Question] | None:
        """The question at hand with its place in the episode."""
        place, questions = self._list.current_place(), self._document.episode.questions
        return (place, questions[place]) if 0 <= place < len(questions) else None

    def copy_reply(self) -> None:
        """Put the reply on the clipboard."""
        if text := self._sheet.reply.edit.toPlainText():
            QGuiApplication.clipboard().setText(text)
            self.said.emit("The reply is on the clipboard.")

    def mark_answered(self) -> None:
        """The reply was posted: keep it as it was."""
        if (now := self.current()) is None:
            return
        place, question = now
        reply = question.reply or (self._sheet.reply.edit.toPlainText() if self._sheet.holds(question) else "")
        kept = replace(question, state="answered", reply=reply, answered_on=dt.date.today())
        self._document.edit("Mark the question answered", with_question(self._document.episode, place, kept))

    def set_aside(self) -> None:
        """Take the chosen questions out of the open ones."""
        self._set_state("set_aside", "Set aside")

    def open_again(self) -> None:
        """Make the chosen questions open ones."""
        self._set_state("open", "Open again")

    def _set_state(self, state: str, words: str) -> None:
        places = self._list.chosen_places()
        if places:
            count = f"{len(places)} questions" if len(places) > 1 else "the question"
            after = with_state(self._document.episode, places, state, dt.date.today())
            self._document.edit(f"{words}: {count}", after)

    def remove(self) -> None:
        """Delete the chosen questions."""
        places = self._list.chosen_places()
        if places:
            count = f"{len(places)} questions" if len(places) > 1 else "the question"
            self._document.edit(f"Delete {count}", without(self._document.episode, places))

    def computed_again(self) -> None:
        """Give up the presenter's wording."""
        if (now := self.current()) is not None and now[1].reply:
            after = with_question(self._document.episode, now[0], replace(now[1], reply=""))
            self._document.edit("Take the computed reply", after)

    def use_reply(self, reply: str) -> None:
        """Take an earlier reply over."""
        if (now := self.current()) is not None:
            after = with_question(self._document.episode, now[0], replace(now[1], reply=reply))
            self._document.edit("Use an earlier reply", after)

    def make_segment(self) -> None:
        """Append a segment to the rundown that tells the question and its answer."""
        now, opened = self.current(), self._sheet.opened
        if now is None or opened is None or not self._sheet.holds(now[1]):
            return
        if opened.told.kind == "none":
            self.said.emit("This comment asks nothing that can be computed, so there is no segment to make of it.")
            return
        after, segment = with_segment_of(self._document.episode, now[1], opened.answer)
        after = with_marks_settled(after, segment, self._document.findings, self._document.tables)
        self._document.edit("Make a segment of the question", after)
        self.said.emit("A segment was put at the end of the rundown, with the picture of this answer.")

    def show_picture(self) -> None:
        """Show this question in the picture of an answer."""
        if (now := self.current()) is not None:
            after = shown_as_picture(self._document.episode, now[1])
            self._document.edit("Show the question as a picture", after)
            self.go.emit("pictures", PICTURE)

    def reword(self, text: str, thought: int) -> None:
        """Take in the reply as it is typed; what is typed in one ``thought`` is one step."""
        now, opened = self.current(), self._sheet.opened
        if now is None or opened is None or not self._sheet.holds(now[1]):
            return
        place, question = now
        same = text == opened.wordings[self._sheet.reply.wanted()]
        after = with_question(self._document.episode, place, replace(question, reply="" if same else text))
        self._document.edit("Reword the reply", after, merge=f"{question.id} reply {thought}")

    def answered_or_open(self) -> None:
        """Mark the question answered, or open it again."""
        now = self.current()
        if now is not None and now[1].state == "open":
            self.mark_answered()
        else:
            self.open_again()
