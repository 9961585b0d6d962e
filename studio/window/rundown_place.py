"""The place *Rundown*: the segments in order, the one at hand, and what backs each number of the script."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent, QResizeEvent, QShowEvent, QStatusTipEvent
from PySide6.QtWidgets import QApplication, QSplitter, QStackedLayout, QStackedWidget, QWidget

from studio.graphics.catalogue import catalogue
from studio.model.rundown import Segment
from studio.window.labels import push_button
from studio.window.palette import GRID
from studio.window.place import Place, Workshop
from studio.window.prompt_desk import PromptDesk
from studio.window.rundown_actions import add_actions
from studio.window.rundown_backing import Backing
from studio.window.rundown_commands import RundownCommands
from studio.window.rundown_find import find_in_rundown, target_parts
from studio.window.rundown_list import WHOLE, SegmentsList
from studio.window.rundown_list_pane import ListPane
from studio.window.rundown_remark_desk import RemarkDesk
from studio.window.rundown_remarks import RemarkRow, remark_rows
from studio.window.rundown_review import Review, Reviewer
from studio.window.rundown_rows import segment_rows, total_words
from studio.window.rundown_say import SAY
from studio.window.rundown_sheet import SegmentSheet
from studio.window.rundown_start import StartSheet
from studio.window.rundown_whole import WholeSheet

_NARROW = 940


class RundownPlace(Place):
    """Segments at the left, the one at hand in the middle, the numbers at the right or, in a narrow window, below."""

    key, title, menu_title = "rundown", "Rundown", "&Rundown"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(workshop, parent)
        names = {id_: entry.name for id_, entry in catalogue().items()}
        self.list = SegmentsList(self.appearance)
        self.sheet, self.whole = SegmentSheet(workshop, names), WholeSheet(workshop)
        self.backing, self.start = Backing(self.appearance), StartSheet(self.appearance)
        self.desk = PromptDesk(workshop, names, self)
        self.reviewer = Reviewer(workshop, self)
        self.rows: tuple[RemarkRow, ...] = ()
        self._counted: list[str] = []
        self._adding = False
        self._stale = self._first = True
        self.commands = RundownCommands(self)
        self._lay_out()
        self._remarks = RemarkDesk(self)
        add_actions(self)
        self._wire()

    # What every place answers

    def state_line(self) -> str:
        """Running length, and how many numbers nothing backs or something contradicts."""
        if not self.document.episode.rundown.segments:
            return "nothing planned yet"
        review = self.reviewer.review
        if review is None:
            count = len(self.document.episode.rundown.segments)
            return f"{count} segment{'s' if count != 1 else ''}"
        return ", ".join([total_words(review.timing), *self._counted])

    def show_target(self, target: str) -> None:
        """Show what a path of the rundown leads to; or take in the finding that is to be said."""
        self._freshen()
        if target.startswith(SAY):
            self.commands.say_finding(target.removeprefix(SAY))
            return
        segment, rest = target_parts(target, self.document.episode.rundown)
        self.list.choose(segment)
        if segment == WHOLE:
            self.whole.lead_to(target)
        else:
            self.sheet.lead_to(rest)

    def find_text(self, text: str) -> bool:
        """Show the next point, title, shot, prop or paid line that holds ``text``."""
        self._freshen()
        here = (self.list.current_number(), self.sheet.editor.current_point())
        found = find_in_rundown(self.document.episode, self.document.findings, text, here)
        if found is None:
            return False
        self.list.choose(found.segment)
        self.sheet.go_to_point(found.point, found.start, found.end) if found.segment != WHOLE else None
        if found.segment == WHOLE:
            self.whole.lead_to(found.path)
        elif found.path:
            self.sheet.lead_to(found.path)
        return True

    def take_focus(self) -> None:
        """Arrows move at once; in an empty rundown the best template is at hand."""
        self._freshen()
        if self._stack.currentIndex() == 1:
            self.start.take_focus()
        else:
            self.list.setFocus()

    def commit(self) -> None:
        """Nothing is kept back: texts are taken in as they are typed."""
        self.sheet.asking.close()

    # Qt's own

    def showEvent(self, event: QShowEvent) -> None:
        self._freshen()
        super().showEvent(event)
        self.reviewer.wanted_soon(True)

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.sheet.asking.close()
        self.reviewer.wanted_soon(False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    # Showing

    def _lay_out(self) -> None:
        self.add = push_button("&Add a segment", self.commands.add_segment)
        self.from_template = push_button("From a te&mplate…", self.commands.choose_template)
        self._left = QSplitter(Qt.Orientation.Vertical)
        self._left.addWidget(ListPane(self.appearance, self.list, self.add, self.from_template))
        self._middle = QStackedWidget()
        self._middle.addWidget(self.whole)
        self._middle.addWidget(self.sheet)
        self._split = QSplitter(Qt.Orientation.Horizontal)
        for widget in (self._left, self._middle, self.backing):
            self._split.addWidget(widget)
        for split in (self._left, self._split):
            split.setChildrenCollapsible(False)
            split.setHandleWidth(GRID)
        self._split.setStretchFactor(1, 1)
        self._stack = QStackedLayout(self)
        self._stack.addWidget(self._split)
        self._stack.addWidget(self.start)
        self._arrange()

    def _arrange(self) -> None:
        """Three columns where there is room, else the numbers below the segments."""
        narrow = self.width() < self.appearance.px(_NARROW)
        if narrow and self.backing.parent() is not self._left:
            self._left.addWidget(self.backing)
            self._left.setSizes([1000, 1000])
            self._split.setSizes([420, 580])
        elif not narrow and self.backing.parent() is not self._split:
            self._split.addWidget(self.backing)
        if not narrow and not self._sized:
            self._sized = True
            wide = self.width()
            self._split.setSizes([round(wide * 0.26), round(wide * 0.46), round(wide * 0.28)])

    _sized = False

    def _wire(self) -> None:
        self.list.chosen.connect(self._show_segment)
        self.list.opened.connect(self._into)
        self.list.dropped.connect(self.commands.drop)
        self.sheet.finding.connect(self._to_the_finding)
        self.backing.finding.connect(self._to_the_finding)
        self.whole.followed.connect(self.show_target)
        self.whole.prompt.wanted.connect(self.commands.open_prompt)
        self.start.template.connect(self.commands.begin_with)
        self.start.empty.connect(self.commands.add_segment)
        self.start.left.connect(self.commands.leave_templates)
        self.desk.said.connect(self.say)
        self.reviewer.done.connect(self._reviewed)
        self.reviewer.failed.connect(self.say)
        self.document.changed.connect(self._changed)
        self.document.started.connect(self._started)

    def _started(self) -> None:
        self._adding, self._first = False, True
        self._changed()

    def _changed(self) -> None:
        self._stale = True
        if self.isVisible():
            self._freshen()

    def _freshen(self) -> None:
        """Show the episode as it is now; an edit elsewhere does not wait for it."""
        if not self._stale:
            return
        self._stale = False
        self._show_stack()
        self._show_rows()
        if self._first and self.document.episode.rundown.segments:
            self._first = False
            self.list.choose(0)
        self._show_segment(self.list.current_number())

    def offer_templates(self, wanted: bool) -> None:
        """Show the templates in the place of the segments, or the segments."""
        self._adding = wanted
        self._show_stack()

    def show_edited(self, segment: int) -> None:
        """An edit was made to this segment: have it at hand."""
        self._freshen()
        self.list.choose(segment)

    def _show_stack(self) -> None:
        empty = not self.document.episode.rundown.segments
        if empty or self._adding:
            self.start.show_findings(self.document.findings, empty=empty)
        self._stack.setCurrentIndex(1 if empty or self._adding else 0)

    def _show_rows(self) -> None:
        review, rundown = self.reviewer.review, self.document.episode.rundown
        timing = review.timing if review is not None else None
        self.list.show_rows(segment_rows(rundown, timing, self.rows), total_words(timing))

    def _show_segment(self, number: int) -> None:
        there = 0 <= number < len(self.document.episode.rundown.segments)
        self._middle.setCurrentWidget(self.sheet if there else self.whole)
        if there:
            self.sheet.show_segment(number)
            self._show_marks()

    def _reviewed(self, review: Review) -> None:
        self.rows = remark_rows(review.remarks, review.episode.rundown)
        counted = [(review.count(state), state) for state in ("contradicted", "unbacked")]
        unfinished = sum(row.kind == "unfinished" for row in self.rows)
        counted.append((unfinished, "unfinished number" if unfinished == 1 else "unfinished numbers"))
        self._counted = [f"{count} {state}" for count, state in counted if count]
        note = "" if review.episode.rundown.segments else "Nothing to check yet."
        self.backing.show_rows(self.rows, note or "No numbers in the script yet.")
        self._show_rows()
        self.whole.show_timing(review.timing)
        self._show_marks()
        self.state_changed.emit()

    def _show_marks(self) -> None:
        """Underline and time the segment at hand by the review, if that is of this very text."""
        review, segment = self.reviewer.review, self._segment()
        if review is None or segment is None or segment not in review.episode.rundown.segments:
            return
        time = next((its for its in review.timing.segments if its.segment == segment.id), None)
        self.sheet.show_starts([point.starts_s for point in time.points] if time is not None else ())
        self.sheet.underline([row for row in self.rows if row.remark.segment == segment.id])

    # Wires

    def _segment(self) -> Segment | None:
        number, segments = self.list.current_number(), self.document.episode.rundown.segments
        return segments[number] if 0 <= number < len(segments) else None

    def _into(self) -> None:
        if self._segment() is not None:
            self.sheet.editor.setFocus()
        else:
            self.whole.take_focus()

    def _to_the_finding(self, id_: str) -> None:
        self.go.emit("findings", id_)

    def say(self, words: str) -> None:
        """Say this in the window's foot."""
        QApplication.sendEvent(self.window(), QStatusTipEvent(words))
