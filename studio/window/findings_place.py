"""The place *Findings*: the questions that the car raises, each with its answer; one of them opened."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QGuiApplication, QKeySequence, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QSplitter, QStackedLayout, QVBoxLayout, QWidget

from studio.decide.input_words import input_words, source_words
from studio.graphics.parts.signs import verdict_word
from studio.model.finding import Finding
from studio.window.actions import tell_why
from studio.window.findings_list import FindingsList
from studio.window.findings_rows import Row, calls_for, calls_words, rows, table
from studio.window.findings_sheet import FindingSheet
from studio.window.labels import plain_label, plain_tooltip, push_button
from studio.window.palette import GRID
from studio.window.place import Place, Workshop
from studio.window.rundown_say import SAY

_NARROW = 760


def questions() -> dict[str, str]:
    """The question of each topic, in the order in which a viewer wants to know them."""
    from studio.decide.registry import TOPICS

    return {topic.id: topic.question for topic in TOPICS}


def _picture_of(finding: Finding) -> str:
    """The id of the picture that shows this finding; empty where none does."""
    from studio.decide.registry import picture_of

    return picture_of(finding)


class FindingsPlace(Place):
    """The list at the left, the opened finding at its right, or below it where the window is narrow."""

    key, title, menu_title = "findings", "Findings", "F&indings"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(workshop, parent)
        self._questions = questions()
        self.list = FindingsList(self.appearance)
        self.sheet = FindingSheet(self.appearance)
        self._split = QSplitter(Qt.Orientation.Horizontal)
        self._stack = QStackedLayout(self)
        self._lay_out()
        actions = self._add_actions()
        self._show_action, self._say_action = actions[1], actions[2]
        self.list.chosen.connect(self._show_chosen)
        self.list.opened.connect(self._open)
        self.sheet.followed.connect(self._follow)
        self.sheet.left.connect(self._back)
        self.sheet.head.show_it.clicked.connect(self.show_picture)
        self.sheet.head.say_it.clicked.connect(self.say_it)
        self.sheet.head.copy_it.clicked.connect(self.copy_sentence)
        self._stale = True
        self.document.changed.connect(self._document_changed)

    def state_line(self) -> str:
        """How many findings call for what, the gravest first: ``6 say replace, 4 more``."""
        found = self.document.findings
        if not any(finding.verdict not in (None, "unknown") for finding in found):
            return "nothing to say yet"
        first, _, _rest = calls_words(found).partition(", ")
        more = sum(count for _, count in calls_for(found)[1:])
        return f"{first}, {more} more" if more else first or "all can stay as they are"

    def show_target(self, target: str) -> None:
        """Choose the finding of this id, or the first one of this topic or worked out from this path."""
        self._freshen()
        found = (its.id for its in self.document.findings if target in (its.id, its.topic, *its.inputs))
        if (first := next(found, None)) is not None:
            self.list.choose(first)

    def find_text(self, text: str) -> bool:
        """Choose the next finding that holds ``text`` anywhere, working, inputs and sources too."""
        self._freshen()
        return self.list.find_text(text, {its.id: self._all_words(its) for its in self.document.findings})

    def take_focus(self) -> None:
        """Arrows move at once."""
        self.list.setFocus()

    def show_picture(self) -> None:
        """Go to the picture that shows the finding at hand."""
        finding = self.list.current_finding()
        if finding is not None and (picture := _picture_of(finding)):
            self.go.emit("pictures", picture)

    def say_it(self) -> None:
        """Take the finding at hand into the rundown as a talking point, and go there."""
        finding = self.list.current_finding()
        if finding is not None and finding.verdict != "unknown":
            self.go.emit("rundown", f"{SAY}{finding.id}")

    def copy(self) -> None:
        """One finding as its sentence, several as a table."""
        chosen = self.list.chosen_rows()
        if len(chosen) > 1:
            QGuiApplication.clipboard().setText(table(chosen, self._questions))
        else:
            self.copy_sentence()

    def copy_sentence(self) -> None:
        """The sentence of the finding at hand, as plain text."""
        if (finding := self.list.current_finding()) is not None:
            QGuiApplication.clipboard().setText(finding.sentence)

    def showEvent(self, event: QShowEvent) -> None:
        self._freshen()
        super().showEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < self.appearance.px(_NARROW)
        wanted = Qt.Orientation.Vertical if narrow else Qt.Orientation.Horizontal
        if self._split.orientation() != wanted:
            self._split.setOrientation(wanted)

    def _lay_out(self) -> None:
        self._split.addWidget(self.list)
        self._split.addWidget(self.sheet)
        self._split.setStretchFactor(0, 1)
        self._split.setStretchFactor(1, 1)
        self._split.setChildrenCollapsible(False)
        self._split.setHandleWidth(GRID)
        self._split.setSizes([1000, 1000])
        self._stack.addWidget(self._split)
        self._stack.addWidget(self._teaching())

    def _teaching(self) -> QWidget:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(4 * GRID, 4 * GRID, 4 * GRID, 4 * GRID)
        column.setSpacing(2 * GRID)
        words = "Here stands what the readings say: can each tire stay on, do they match, how to rotate them."
        column.addWidget(plain_label(words, "heading", wrap=True))
        self.start = push_button("Enter the first ti&re", self._to_the_car, primary=True)
        column.addWidget(self.start, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)
        return page

    def _add_actions(self) -> list[QAction]:
        for text, key, act in (
            ("Open the &finding", "", self._open),
            ("Sho&w it as a picture", "Ctrl+Return", self.show_picture),
            ("Sa&y it in the rundown", "Ctrl+Shift+Return", self.say_it),
            ("Go to the &next that calls for something", "Ctrl+Down", self._next_call),
            ("&Copy the sentence, or the rows chosen", QKeySequence.StandardKey.Copy, self.copy),
        ):
            action = QAction(text, self)
            if key:
                action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            action.triggered.connect(act)
            self.addAction(action)
        return self.actions()

    def _document_changed(self) -> None:
        """A place that is not shown is filled when it is: an edit elsewhere does not wait for it."""
        self._stale = True
        if self.isVisible():
            self._freshen()
        self.state_changed.emit()

    def _freshen(self) -> None:
        if not self._stale:
            return
        self._stale = False
        found = self.document.findings
        self._stack.setCurrentIndex(0 if len(found) else 1)
        self.list.show_rows(rows(found, self._questions, self.document.episode.units))

    def _show_chosen(self, finding: Finding | None) -> None:
        row = self._row_of(finding)
        self.sheet.show_row(row, self.document.episode, self.document.tables if finding else None)
        shown = finding is not None and bool(_picture_of(finding))
        self.sheet.head.show_it.setEnabled(shown)
        self._show_action.setEnabled(shown)
        why = "" if shown else "No picture of the catalogue shows this finding"
        self._show_action.setStatusTip(why)
        plain_tooltip(self.sheet.head.show_it, why)
        known = finding is not None and finding.verdict != "unknown"
        self.sheet.head.say_it.setEnabled(known)
        tell_why(self._say_action, known, "What is not known yet cannot be said")

    def _row_of(self, finding: Finding | None) -> Row | None:
        listed = (row for row in self.list.findings_model.rows if isinstance(row, Row))
        return next((row for row in listed if finding is not None and row.finding.id == finding.id), None)

    def _open(self) -> None:
        if self.list.current_finding() is not None:
            self.sheet.take_focus()

    def _next_call(self) -> None:
        self.list.choose_next_call()

    def _back(self) -> None:
        self.list.setFocus()

    def _follow(self, path: str) -> None:
        self.go.emit("car", path)

    def _to_the_car(self) -> None:
        self.go.emit("car", "")

    def _all_words(self, finding: Finding) -> str:
        inputs = (input_words(self.document.episode, path) for path in finding.inputs)
        sources = (source_words(its) for its in finding.sources)
        parts = (finding.working, finding.would_change, finding.missing, inputs, sources)
        return "\n".join([verdict_word(finding.verdict), finding.caution, *(line for part in parts for line in part)])
