"""The place *Findings*: the questions that the car raises, each with its answer; one of them opened."""

from collections import Counter

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QGuiApplication, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QSplitter, QStackedLayout, QVBoxLayout, QWidget

from studio.graphics.parts.signs import verdict_word
from studio.model.finding import SEVERITY, Finding
from studio.window.findings_list import FindingsList
from studio.window.findings_rows import Row, rows, table
from studio.window.findings_sheet import FindingSheet
from studio.window.findings_words import input_words, source_words
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID
from studio.window.place import Place, Workshop

PICTURE_OF: dict[str, str] = {
    "tread_left": "depth_by_wheel", "matching": "axle_match", "rotation": "rotation", "size": "size_code",
    "wear": "depth_compare", "life": "life_left",
}  # fmt: skip
_NARROW = 760
_LINES = {"keep": "to keep", "watch": "to watch", "rotate": "to rotate", "replace": "to replace",
          "inspect": "to inspect", "unknown": "not known yet"}  # fmt: skip


def questions() -> dict[str, str]:
    """The question of each topic, in the order in which a viewer wants to know them."""
    from studio.decide.registry import TOPICS

    return {topic.id: topic.question for topic in TOPICS}


class FindingsPlace(Place):
    """The list at the left, the opened finding at its right, or below it where the window is narrow."""

    key, title, menu_title = "findings", "Findings", "&Findings"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(workshop, parent)
        self._questions = questions()
        self.list = FindingsList(self.appearance)
        self.sheet = FindingSheet(self.appearance)
        self._split = QSplitter(Qt.Orientation.Horizontal)
        self._stack = QStackedLayout(self)
        self._lay_out()
        self._add_actions()
        self.list.chosen.connect(self._show_chosen)
        self.list.opened.connect(self._open)
        self.sheet.followed.connect(self._follow)
        self.sheet.left.connect(self._back)
        self.sheet.head.show_it.clicked.connect(self.show_picture)
        self.sheet.head.copy_it.clicked.connect(self.copy_sentence)
        self.document.changed.connect(self._refresh)
        self._refresh()

    def state_line(self) -> str:
        """How many findings call for what, the gravest first: ``1 to replace, 2 to watch``."""
        counts = Counter(finding.verdict for finding in self.document.findings)
        grave = [f"{counts[verdict]} {_LINES[verdict]}" for verdict in reversed(SEVERITY[1:]) if counts[verdict]]
        if not grave and not counts["keep"]:
            return "nothing to say yet"
        return ", ".join(grave) or "all can stay as they are"

    def show_target(self, target: str) -> None:
        """Choose the finding of this id, or the first one of this topic or worked out from this path."""
        found = (its.id for its in self.document.findings if target in (its.id, its.topic, *its.inputs))
        if (first := next(found, None)) is not None:
            self.list.choose(first)

    def find_text(self, text: str) -> bool:
        """Choose the next finding that holds ``text`` anywhere, working, inputs and sources too."""
        return self.list.find_text(text, {its.id: self._all_words(its) for its in self.document.findings})

    def take_focus(self) -> None:
        """Arrows move at once."""
        self.list.setFocus()

    def show_picture(self) -> None:
        """Go to the picture that shows the finding at hand."""
        finding = self.list.current_finding()
        if finding is not None and finding.topic in PICTURE_OF:
            self.go.emit("pictures", PICTURE_OF[finding.topic])

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
        self.start = push_button("Enter the &first tire", self._to_the_car, primary=True)
        column.addWidget(self.start, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)
        return page

    def _add_actions(self) -> None:
        for text, key, act in (
            ("Open the &finding", "", self._open),
            ("Sho&w it as a picture", "Ctrl+Shift+W", self.show_picture),
            ("&Copy the sentence, or the rows chosen", QKeySequence.StandardKey.Copy, self.copy),
        ):
            action = QAction(text, self)
            if key:
                action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            action.triggered.connect(act)
            self.addAction(action)

    def _refresh(self) -> None:
        found = self.document.findings
        self._stack.setCurrentIndex(0 if len(found) else 1)
        self.list.show_rows(rows(found, self._questions, self.document.episode.units))
        self.state_changed.emit()

    def _show_chosen(self, finding: Finding | None) -> None:
        row = self._row_of(finding)
        self.sheet.show_row(row, self.document.episode, self.document.tables if finding else None)
        self.sheet.head.show_it.setEnabled(finding is not None and finding.topic in PICTURE_OF)

    def _row_of(self, finding: Finding | None) -> Row | None:
        listed = (row for row in self.list.findings_model.rows if isinstance(row, Row))
        return next((row for row in listed if finding is not None and row.finding.id == finding.id), None)

    def _open(self) -> None:
        if self.list.current_finding() is not None:
            self.sheet.take_focus()

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
