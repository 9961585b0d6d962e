"""The place *Rundown*: the segments in order, the one at hand, and what backs each number of the script."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent, QResizeEvent, QShowEvent, QStatusTipEvent
from PySide6.QtWidgets import QApplication, QSplitter, QStackedLayout, QStackedWidget, QWidget

from studio.graphics.catalogue import catalogue
from studio.model.rundown import Segment
from studio.script.template_texts import TEMPLATES
from studio.script.templates import plan
from studio.window.labels import push_button
from studio.window.palette import GRID
from studio.window.place import Place, Workshop
from studio.window.prompt_desk import PromptDesk
from studio.window.rundown_actions import add_actions
from studio.window.rundown_backing import Backing
from studio.window.rundown_edit import (
    duplicate_segment,
    insert_segments,
    move_segment,
    new_segment,
    remove_segment,
    set_aside,
    take_up_again,
)
from studio.window.rundown_find import find_in_rundown, target_parts
from studio.window.rundown_list import WHOLE, SegmentsList
from studio.window.rundown_list_pane import ListPane
from studio.window.rundown_live import live_for
from studio.window.rundown_remarks import RemarkRow, remark_rows
from studio.window.rundown_review import Review, Reviewer
from studio.window.rundown_rows import segment_rows, total_words
from studio.window.rundown_say import SAY, say
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
        self._adding = False
        self._stale = self._first = True
        self._lay_out()
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
        counted = [(review.count(state), state) for state in ("contradicted", "unbacked")]
        found = [f"{count} {state}" for count, state in counted if count]
        return ", ".join([total_words(review.timing), *found])

    def show_target(self, target: str) -> None:
        """Show what a path of the rundown leads to; or take in the finding that is to be said."""
        self._freshen()
        if target.startswith(SAY):
            self.say_finding(target.removeprefix(SAY))
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

    # What the user does

    def add_segment(self) -> None:
        """Add an empty segment after the one at hand, ready to be named."""
        self._adding = False
        episode = self.document.episode
        at = self.list.current_number() + 1 if self.list.current_number() != WHOLE else len(episode.rundown.segments)
        self._edit("Add a segment", insert_segments(episode, at, (new_segment(episode.rundown),)), at)
        self.sheet.rename()

    def begin_with(self, template: str) -> None:
        """Add the segments of a template at the end."""
        self._adding = False
        episode = self.document.episode
        chosen = next((its for its in TEMPLATES if its.id == template), None)
        if chosen is None:
            return
        at, taken = len(episode.rundown.segments), [segment.id for segment in episode.rundown.segments]
        made = plan(chosen, self.document.findings, taken).segments
        if made:
            self._edit(f"Begin with {chosen.name}", insert_segments(episode, at, made), at)
            self.list.setFocus()

    def choose_template(self) -> None:
        """Offer the templates, though there are segments already."""
        self._adding = True
        self._show_stack()
        self.start.take_focus()

    def leave_templates(self) -> None:
        """Back to the segments."""
        self._adding = False
        self._show_stack()
        self.list.setFocus()

    def rename(self) -> None:
        """Be ready to type another title."""
        if self._segment() is not None:
            self.sheet.rename()

    def duplicate(self) -> None:
        """The segment at hand once more after it."""
        if self._segment() is not None:
            at = self.list.current_number()
            self._edit("Duplicate a segment", duplicate_segment(self.document.episode, at), at + 1)

    def delete(self) -> None:
        """Take the segment at hand out."""
        if self._segment() is not None:
            at = self.list.current_number()
            count = len(self.document.episode.rundown.segments)
            self._edit("Delete a segment", remove_segment(self.document.episode, at), min(at, count - 2))

    def move_up(self) -> None:
        """The segment at hand one place earlier."""
        self._move(self.list.current_number(), self.list.current_number() - 1)

    def move_down(self) -> None:
        """The segment at hand one place later."""
        self._move(self.list.current_number(), self.list.current_number() + 1)

    def say_finding(self, id_: str) -> None:
        """Take a finding in as a talking point at the end of the segment at hand."""
        finding = self.document.findings.get(id_)
        if finding is None:
            return
        after, segment, point = say(self.document.episode, finding, self.list.current_number())
        self._edit("Say a finding", after, segment)
        self.sheet.go_to_point(point)

    def open_prompt(self) -> None:
        """Open the prompting view at the segment at hand."""
        self.whole.prompt.list_screens()
        review = self.reviewer.review if self.reviewer.is_current else None
        timing = review.timing if review is not None else None
        if not self.desk.open(self.whole.prompt.choice(), self.list.current_number(), timing):
            self._say("There is nothing to prompt yet: write a talking point first")

    def put_number_in(self) -> None:
        """Ask for a live number at the cursor."""
        if self._segment() is not None:
            self.sheet.asking.ask()

    def next_form(self) -> None:
        """The number at the cursor in its next form."""
        self.sheet.asking.turn_form(1)

    def form_before(self) -> None:
        """The number at the cursor in the form before."""
        self.sheet.asking.turn_form(-1)

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
        self.add = push_button("&Add a segment", self.add_segment)
        self.from_template = push_button("From a te&mplate…", self.choose_template)
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
        self.list.dropped.connect(self._dropped)
        self.sheet.finding.connect(self._to_the_finding)
        self.backing.finding.connect(self._to_the_finding)
        self.backing.jump.connect(self._jump)
        self.backing.aside.connect(self._aside)
        self.backing.live.connect(self._make_live)
        self.whole.followed.connect(self.show_target)
        self.whole.prompt.wanted.connect(self.open_prompt)
        self.start.template.connect(self.begin_with)
        self.start.empty.connect(self.add_segment)
        self.start.left.connect(self.leave_templates)
        self.desk.said.connect(self._say)
        self.reviewer.done.connect(self._reviewed)
        self.reviewer.failed.connect(self._say)
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

    def _edit(self, text: str, after: object, segment: int) -> None:
        self.document.edit(text, after)  # type: ignore[arg-type]
        self._freshen()
        self.list.choose(segment)

    def _move(self, number: int, to: int) -> None:
        if 0 <= to < len(self.document.episode.rundown.segments) and number >= 0 and to != number:
            self._edit("Move a segment", move_segment(self.document.episode, number, to), to)

    def _dropped(self, number: int, gap: int) -> None:
        self._move(number, gap - (gap > number))

    def _into(self) -> None:
        if self._segment() is not None:
            self.sheet.editor.setFocus()
        else:
            self.whole.take_focus()

    def _to_the_finding(self, id_: str) -> None:
        self.go.emit("findings", id_)

    def _jump(self, row: RemarkRow | None) -> None:
        if row is None:
            return
        ids = [segment.id for segment in self.document.episode.rundown.segments]
        self.list.choose(ids.index(row.remark.segment) if row.remark.segment in ids else WHOLE)
        point = getattr(row.remark, "point", None)
        if row.kind == "duty":
            self._to_what_is_owed(row)
        elif point is not None and point >= -1:
            self.sheet.go_to_point(point, getattr(row.remark, "start", 0), getattr(row.remark, "end", 0))
        else:
            self.list.choose(WHOLE)
            self.whole.lead_to("rundown.paid_ties")

    def _to_what_is_owed(self, row: RemarkRow) -> None:
        if str(getattr(row.remark, "kind", "")).startswith("tie"):
            self.list.choose(WHOLE)
            self.whole.lead_to("rundown.paid_ties")
        else:
            self.sheet.parts.lead_to_work()

    def _aside(self, row: RemarkRow, reason: str) -> None:
        episode, segment, text = self.document.episode, row.remark.segment, row.remark_text
        if reason:
            self.document.edit("Set a mark aside", set_aside(episode, segment, text, reason))
        else:
            self.document.edit("Take a mark up again", take_up_again(episode, segment, text))

    def _make_live(self, row: RemarkRow | None) -> None:
        finding = self.document.findings.get(row.finding) if row is not None else None
        if row is None or finding is None or not (source := live_for(row, finding)):
            return
        self._jump(row)
        point = getattr(row.remark, "point", -1)
        if point >= 0:
            self.sheet.editor.put_in(source)

    def _say(self, words: str) -> None:
        QApplication.sendEvent(self.window(), QStatusTipEvent(words))
