"""The rundown as a whole: target, pace, frame rate of the edit, what to cut, paid ties, takes, prompting."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from studio.decide.wording import day_words
from studio.model.rundown import PaidTie
from studio.script.timing import Timing
from studio.window.fields import TextField
from studio.window.findings_link import Link
from studio.window.flow import flow, low
from studio.window.form_parts import FieldBox, ProblemLine, section
from studio.window.labels import name_field, plain_label
from studio.window.layouts import clear_out
from studio.window.palette import GRID
from studio.window.place import Workshop
from studio.window.prompt_panel import PromptPanel
from studio.window.rows import RowsForm, RowSubject
from studio.window.rundown_edit import clean_line
from studio.window.rundown_fields import RATES, LengthField, PaceField, SegmentChoice
from studio.window.rundown_rows import clock, pace_words
from studio.window.subject import PathSubject
from studio.window.value_fields import CheckField, ChoiceField

_MOST_CUTS = 6


class WholeSheet(QScrollArea):
    """``followed`` gives the path of a talking point that could be cut."""

    followed = Signal(str)

    def __init__(self, workshop: Workshop) -> None:
        super().__init__()
        self._document, self._appearance = workshop.document, workshop.appearance
        self._subject = PathSubject(self._document, "rundown", "")
        self.target = LengthField(self._subject, "target_s", "target length", chars=14, most=20)
        self.pace = PaceField(self._subject, "words_per_minute", "pace", chars=8, most=30)
        self.pace.setPlaceholderText("learnt")
        self.rate = ChoiceField(self._subject, "rate", "frame rate", RATES, chars=20)
        self.heading = plain_label("", "deciding")
        self.pace_line = plain_label("", "quiet", wrap=True)
        self.prompt = PromptPanel()
        self._cuts = QVBoxLayout()
        self._problems = plain_label("", wrap=True)
        ties = PathSubject(self._document, "rundown", "")
        self.ties = RowsForm(ties, "paid_ties", "paid tie", self._tie_row, lambda: PaidTie(what=""))
        takes = PathSubject(self._document, "rundown", "")
        self.takes = RowsForm(takes, "takes", "take", self._take_row, lambda: None)
        self.takes._add.setVisible(False)  # a take comes from a rehearsal alone
        self._lay_out()

    def show_timing(self, timing: Timing | None) -> None:
        """Show the length, whose pace it is, and what could be cut."""
        length = clock(timing.total_s) if timing is not None else "–"
        self.heading.setText(f"{length} spoken")
        over = timing.over_s if timing is not None else None
        apart = "" if over is None else f" {clock(abs(over))} {'over the target' if over > 0 else 'left'}."
        self.pace_line.setText(f"At {pace_words(timing)}.{apart}" if timing is not None else "")
        self._problems.setText("\n".join(its.sentence for its in timing.problems) if timing is not None else "")
        self._problems.setVisible(bool(self._problems.text()))
        self._show_cuts(timing)

    def lead_to(self, path: str) -> None:
        """Focus what shows ``path``."""
        if path.startswith(("rundown.paid_ties", "rundown.takes")):
            form = self.ties if "paid_ties" in path else self.takes
            fields = [w for w in form.findChildren(QWidget) if str(getattr(w, "path", "")).startswith(path)]
            (fields[0] if fields else self.target).setFocus()
            return
        field = {"words_per_minute": self.pace, "rate": self.rate}.get(path.rpartition(".")[2], self.target)
        field.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def take_focus(self) -> None:
        """Begin with the target."""
        self.target.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(2 * GRID, 2 * GRID, 2 * GRID, GRID)
        column.setSpacing(GRID)
        column.addWidget(self.heading)
        column.addWidget(self.pace_line)
        column.addWidget(
            flow(FieldBox("Target length", self.target), FieldBox("Words a minute", self.pace),
                 FieldBox("Frames a second of the edit", self.rate))
        )  # fmt: skip
        column.addWidget(ProblemLine(self.target, self.pace))
        self._cut_section = section("What could go to reach the target")
        layout = self._cut_section.layout()
        assert isinstance(layout, QVBoxLayout)
        layout.addLayout(self._cuts)
        column.addWidget(self._cut_section)
        column.addWidget(section("Prompting and rehearsal", self.prompt))
        note = "What was paid or lent for this episode is said in one line and shown on one card."
        column.addWidget(section("Paid ties", plain_label(note, "quiet", wrap=True), self.ties))
        column.addWidget(section("Takes", self._problems, self.takes))
        column.addStretch(1)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("The whole rundown")
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)

    def _tie_row(self, row: RowSubject) -> Sequence[QWidget]:
        what = TextField(row, "what", "", chars=18, most=200)
        where = SegmentChoice(row, "segment", "segment")
        line = TextField(row, "line", "spoken line", chars=30, most=10_000)
        card = TextField(row, "card", "card", chars=22, most=200)
        for field in (what, line, card):
            field.setCursorPosition(0)
        return (FieldBox("What", what, wide=True), FieldBox("Said in", where), FieldBox("Spoken line", line, wide=True),
                FieldBox("Card on the screen", card, wide=True))  # fmt: skip

    def _take_row(self, row: RowSubject) -> Sequence[QWidget]:
        take = row.value()
        ends = take.times[-1].end_s - take.times[0].start_s if take is not None and take.times else None
        words = f"{day_words(take.on)}, {clock(ends)}, {len(take.times)} segments" if take is not None else ""
        recorded = CheckField(row, "recorded", "recorded", "The recorded one")
        name_field(recorded, f"Take of {words}: the recorded one")
        return plain_label(words), low(recorded)

    def _show_cuts(self, timing: Timing | None) -> None:
        clear_out(self._cuts)
        cuts = timing.cuts[:_MOST_CUTS] if timing is not None else ()
        self._cut_section.setVisible(bool(cuts))
        for cut in cuts:
            place = self._place_of(cut.segment)
            if place is not None and cut.point < len(self._document.episode.rundown.segments[place].points):
                self._cuts.addWidget(self._cut_link(place, cut.point, clock(cut.wins_s)))

    def _place_of(self, id_: str) -> int | None:
        segments = self._document.episode.rundown.segments
        return next((place for place, its in enumerate(segments) if its.id == id_), None)

    def _cut_link(self, place: int, point: int, wins: str) -> QWidget:
        segment = self._document.episode.rundown.segments[place]
        title = clean_line(segment.title)[:40] or f"segment {place + 1}"
        words = f"{title}, point {point + 1}: wins {wins}"
        link = Link(words, f"rundown.segments[{place}].points[{point}]", self._appearance)
        link.clicked.connect(self._follow)
        return link

    def _follow(self) -> None:
        link = self.sender()
        if isinstance(link, Link):
            self.followed.emit(link.target)
