"""The place *Questions*: viewers' comments, what was read from them, the computed answer, the reply to post."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence, QShowEvent
from PySide6.QtWidgets import QApplication, QSplitter, QStackedLayout, QVBoxLayout, QWidget

from studio.model.question import Question
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID
from studio.window.place import Place, Workshop
from studio.window.questions_bar import CommentEntry, QuestionsBar
from studio.window.questions_deeds import Deeds
from studio.window.questions_doubt import DoubtPanel
from studio.window.questions_intake import Intake
from studio.window.questions_list import QuestionsList
from studio.window.questions_open import Opened
from studio.window.questions_reader import QuestionsReader
from studio.window.questions_rows import Key, Told, arranged, same_rows, summary
from studio.window.questions_sheet import QuestionSheet

_AT_ONCE = 60  # questions that are read before the place was ever shown


class QuestionsPlace(Place):
    """The list at the left, the question at hand beside it."""

    key, title, menu_title = "questions", "Questions", "&Questions"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(workshop, parent)
        self.bar, self.list = QuestionsBar(), QuestionsList(self.appearance)
        self.sheet = QuestionSheet(self.document, self.appearance)
        self.reader = QuestionsReader(self.document, workshop.jobs, self)
        self.intake = Intake(workshop, self._known, self)
        self.deeds = Deeds(self.document, self.list, self.sheet, self)
        self.folder: Path | None = None
        self._questions: tuple[Question, ...] | None = None
        self._seen = False
        self._build()
        self._add_actions()
        self._wire()
        self._changed()

    # What every place answers

    def state_line(self) -> str:
        """How many are open, how many of them urgent."""
        return summary(self.document.episode.questions, self.reader.known)

    def show_target(self, target: str) -> None:
        """Choose the question of this id or path, such as ``questions[3].reply``."""
        questions = self.document.episode.questions
        place = next((at for at, its in enumerate(questions) if its.id == target), -1)
        if target.startswith("questions["):
            number = target.removeprefix("questions[").partition("]")[0]
            place = int(number) if number.isdigit() and int(number) < len(questions) else -1
        if place < 0:
            return
        self._refresh()
        if not self.list.choose(place):
            self.bar.show_all()
            self.list.choose(place)
        if target.endswith(".reply"):
            self.sheet.reply.edit.setFocus()

    def find_text(self, text: str) -> bool:
        """Choose the next question that holds ``text`` in its words or its reply."""
        order, questions, wanted = self.list.questions_model.order, self.document.episode.questions, text.casefold()
        start = self.list.currentIndex().row() + 1
        for row in (*range(start, len(order)), *range(start)):
            its = questions[order[row]]
            if wanted in its.text.casefold() or wanted in its.reply.casefold():
                return self.list.choose(order[row])
        hidden = set(range(len(questions))) - set(order)
        at = next((place for place in sorted(hidden) if wanted in questions[place].text.casefold()), -1)
        if at >= 0:
            self.bar.show_all()
        return at >= 0 and self.list.choose(at)

    def take_focus(self) -> None:
        """Arrows move at once; with nothing there, a comment can be pasted at once."""
        empty = not self.document.episode.questions
        (self.start_entry if empty else self.list).setFocus()

    def commit(self) -> None:
        """Take in what is typed and not yet entered."""
        self.sheet.facts.commit()

    def take_comments(self, path: Path) -> None:
        """Bring in a table of comments that was dropped on the window."""
        self.intake.take_comments(path)

    # What is shown

    def look_through(self) -> None:
        """Ask for a folder of episodes whose answered questions are to be found too."""
        folder = self.workshop.dialogs.choose_folder("Episodes with earlier answers", self.folder or Path.home())
        if folder is not None:
            self.folder = folder
            self.reader.look_through(folder)

    def showEvent(self, event: QShowEvent) -> None:
        self._seen = True
        super().showEvent(event)
        self._refresh(anew=True)
        self.reader.resume()

    def _changed(self) -> None:
        stale = self.reader.forget_what_changed()
        if self.document.episode.questions is not self._questions or stale:
            self._refresh(anew=stale, typed=True)
            self.state_changed.emit()
        if self._seen or len(self.document.episode.questions) <= _AT_ONCE:
            self.reader.read_all()

    def _refresh(self, *, anew: bool = False, typed: bool = False) -> None:
        """The list and the question at hand as things stand; ``typed``: perhaps no more than a reply has changed."""
        questions, before = self.document.episode.questions, self._questions
        self._questions = questions
        if typed and before is not None and same_rows(before, questions):
            self.list.questions_model.questions = questions
            self._open_current(anew=anew)
            return
        self._stack.setCurrentIndex(0 if questions else 1)
        focused = QApplication.focusWidget()
        if focused is not None and self.sheet.isAncestorOf(focused):
            self.list.is_touched = True
        order = arranged(questions, self.reader.known, self.bar.wish())
        self.list.show_order(questions, self.reader.known, order)
        self._open_current(anew=anew)

    def _open_current(self, *, anew: bool = False) -> None:
        now = self.deeds.current()
        self._page.setVisible(now is not None)
        self._nothing.setVisible(now is None)
        if now is not None and self.sheet.holds(now[1]) and not anew:
            assert self.sheet.opened is not None
            self._show(self.sheet.opened)
        elif now is not None and self.isVisible():
            self.reader.open(now[1])

    def _show(self, opened: Opened) -> None:
        now = self.deeds.current()
        if now is None or now[1].id != opened.question.id:
            return
        place, question = now
        episode = self.document.episode
        self.sheet.show_opened(opened, place, question, episode.units, self.document.tables)
        where = f"Looked through: this episode and {self.folder.name}" if self.folder else ""
        self.sheet.near.show_near(opened.near, where)
        self._show_buttons(question)
        if question.reply:
            self.reader.check(question.reply, opened)

    def _show_buttons(self, question: Question) -> None:
        answered, computed = self.answered, self.computed
        answered.setText("Open a&gain" if question.state != "open" else "Mark &answered")
        computed.setVisible(bool(question.reply))
        times = f": asked {question.asked:,} times" if question.asked > 1 else ""
        self.segment.setText(f"Make a se&gment{times}")

    def _wished(self) -> None:
        self._refresh()

    def _chosen(self, _place: int) -> None:
        self._open_current(anew=True)

    def _opened(self, opened: Opened) -> None:
        self._show(opened)
        self.list.viewport().update()

    def _read_more(self) -> None:
        self._refresh()
        self.state_changed.emit()

    def _checked(self, reply: str, marks: object) -> None:
        if reply == self.sheet.reply.edit.toPlainText():
            self.sheet.reply.show_marks(marks, own=True)  # type: ignore[arg-type]

    def _wording_wanted(self) -> None:
        if (now := self.deeds.current()) is not None and self.sheet.holds(now[1]):
            self.sheet.show_reply(now[1])
            if now[1].reply:
                self._say("Your own wording stands; tone and length are of the computed one.")

    def _say(self, words: str) -> None:
        self._message.setText(words)
        self._message.setVisible(bool(words))

    def _known(self) -> dict[Key, Told]:
        return dict(self.reader.known)

    def _to_list(self) -> None:
        self.list.setFocus()

    def _to_reply(self) -> None:
        self.sheet.reply.edit.setFocus()

    def _next(self) -> None:
        self.list.step(1)

    # Built once

    def _build(self) -> None:
        self._message = plain_label("", "quiet", wrap=True)
        self._message.setVisible(False)
        self.doubts = DoubtPanel()
        self._nothing = plain_label("No question is listed; choose others above.", "quiet", wrap=True)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(2 * GRID, 2 * GRID, 0, 0)
        column.setSpacing(GRID)
        column.addWidget(self.bar)
        column.addWidget(self._message)
        column.addWidget(self.doubts)
        column.addWidget(self._nothing)
        column.addWidget(self.list, 1)
        self._page = QWidget()
        right = QVBoxLayout(self._page)
        right.setContentsMargins(0, 2 * GRID, 0, 0)
        right.addWidget(self.sheet)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.addWidget(left)
        split.addWidget(self._page)
        split.setChildrenCollapsible(False)
        split.setHandleWidth(GRID)
        split.setStretchFactor(0, 1)
        split.setStretchFactor(1, 3)
        split.setSizes([330, 750])
        self._stack = QStackedLayout(self)
        self._stack.addWidget(split)
        self._stack.addWidget(self._teaching())
        made = self.sheet.reply.add_buttons(
            (("&Copy reply", self.deeds.copy_reply, True), ("Mark &answered", self.deeds.answered_or_open, False),
             ("Set asi&de", self.deeds.set_aside, False), ("Com&puted wording", self.deeds.computed_again, False),
             ("Make a se&gment", self.deeds.make_segment, False), ("Sho&w it", self.deeds.show_picture, False))
        )  # fmt: skip
        self.answered, self.computed, self.segment = made[1], made[3], made[4]

    def _teaching(self) -> QWidget:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(4 * GRID, 4 * GRID, 4 * GRID, 4 * GRID)
        column.setSpacing(2 * GRID)
        words = "Here viewers' comments are read, computed and answered: paste one, or import a table of them."
        column.addWidget(plain_label(words, "heading", wrap=True))
        self.start_entry = CommentEntry()
        self.start_entry.setMaximumWidth(self.appearance.px(560))
        column.addWidget(self.start_entry)
        start = push_button("&Import a table…", self.intake.ask_import)
        column.addWidget(start, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(plain_label("Names, handles, links, phones and plates never reach the file.", "quiet"))
        column.addStretch(1)
        return page

    def _wire(self) -> None:
        self.bar.entry.entered.connect(self.intake.take_comment)
        self.start_entry.entered.connect(self.intake.take_comment)
        self.bar.import_wanted.connect(self.intake.ask_import)
        self.bar.wished.connect(self._wished)
        self.list.chosen.connect(self._chosen)
        self.list.opened.connect(self._to_reply)
        self.list.pasted.connect(self.intake.paste)
        self.reader.read_more.connect(self._read_more)
        self.reader.opened.connect(self._opened)
        self.reader.checked.connect(self._checked)
        self.reader.looked.connect(self._looked)
        self.sheet.reply.edit.reworded.connect(self.deeds.reword)
        self.sheet.reply.worded.connect(self._wording_wanted)
        self.sheet.near.used.connect(self.deeds.use_reply)
        self.sheet.near.folder_wanted.connect(self.look_through)
        self.intake.said.connect(self._say)
        self.intake.arrived.connect(self.show_target)
        self.intake.doubted.connect(self.doubts.show_doubts)
        self.deeds.said.connect(self._say)
        self.deeds.go.connect(self.go)
        self.document.changed.connect(self._changed)
        self.document.started.connect(self._started)

    def _looked(self, words: str) -> None:
        self._say(words)
        self._open_current(anew=True)

    def _started(self) -> None:
        self._say("")
        self.doubts.hide()
        self.list.is_touched = False
        self.reader.resume()

    def _add_actions(self) -> None:
        for text, key, act in (
            ("&Paste a comment", "Ctrl+Shift+V", self.intake.paste),
            ("&Import a table of comments…", "", self.intake.ask_import),
            ("To the &reply", "Ctrl+Return", self._to_reply),
            ("To the &list", "Ctrl+L", self._to_list),
            ("Ne&xt question", "Ctrl+Down", self._next),
            ("&Copy the reply", "Ctrl+Shift+C", self.deeds.copy_reply),
            ("Mark &answered", "Ctrl+D", self.deeds.mark_answered),
            ("Set a&side", "Ctrl+Shift+D", self.deeds.set_aside),
            ("&Open again", "", self.deeds.open_again),
            ("&Delete the chosen questions", "", self.deeds.remove),
            ("Make a se&gment of it", "", self.deeds.make_segment),
            ("Sho&w it as a picture", "", self.deeds.show_picture),
            ("Look through a folder of &episodes…", "", self.look_through),
        ):
            action = QAction(text, self)
            if key:
                action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            action.triggered.connect(act)
            self.addAction(action)
