"""What backs each number: counts, the list, and the remark at hand in full with what can be done about it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QScrollArea, QVBoxLayout, QWidget

from studio.window.flow import flow
from studio.window.labels import field_label, plain_label, plain_tooltip, push_button
from studio.window.palette import GRID, Appearance
from studio.window.quiet_list import choose_index
from studio.window.rundown_backing_list import RemarksList
from studio.window.rundown_edit import LONGEST_MARK
from studio.window.rundown_remarks import NEVER_ASIDE, RemarkRow, counts_words
from studio.window.undo_keys import LineEdit


class Backing(QWidget):
    """``jump`` gives a row to be shown in the text, ``finding`` a finding's id, ``live`` a row whose text is to become
    a live number, ``aside`` a row and the reason for which it may stand (empty to take it up again)."""

    jump = Signal(object)
    finding = Signal(str)
    aside = Signal(object, str)
    live = Signal(object)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._rows: tuple[RemarkRow, ...] = ()
        self.list = RemarksList(appearance)
        self.counts = plain_label("", wrap=True)
        self.only_calls = QCheckBox("&Only what asks for work")
        self.with_dismissed = QCheckBox("&Show what was set aside")
        self._full = plain_label("", wrap=True)
        self._why = plain_label("", "quiet", wrap=True)
        self.reason = LineEdit()
        self.reason.setMaxLength(LONGEST_MARK)
        self.reason.setPlaceholderText("such as: a viewer's own number")
        self._label = field_label("Reaso&n why it may stand", self.reason)
        self.go_there = push_button("&Go to the text", self._jump, primary=True)
        self.make_live = push_button("Make it &live", self._live)
        self.open_finding = push_button("Open the fin&ding", self._finding)
        self.set_aside = push_button("Set it &aside", self._set_aside)
        self.again = push_button("Ta&ke it up again", self._again)
        for box in (self.only_calls, self.with_dismissed):
            box.toggled.connect(self._show)
        self.list.chosen.connect(self._show_row)
        self.list.opened.connect(self.jump)
        self.reason.returnPressed.connect(self._set_aside)
        self._lay_out(appearance)
        self._show_row(None)

    def show_rows(self, rows: tuple[RemarkRow, ...], note: str) -> None:
        """Show these remarks; ``note`` stands in their place where there are none."""
        self._rows = rows
        self.counts.setText(counts_words(rows) or note)
        self._show()

    def choose_next_call(self) -> None:
        """Choose the next remark that asks for work and show it in the text, round again from the top."""
        rows = self.list.remarks_model.rows
        start = self.list.currentIndex().row() + 1
        for number in (*range(start, len(rows)), *range(start)):
            if rows[number].calls:
                choose_index(self.list, self.list.remarks_model.index(number))
                self.jump.emit(rows[number])
                return

    def _lay_out(self, appearance: Appearance) -> None:
        below = QWidget()
        inside = QVBoxLayout(below)
        inside.setContentsMargins(GRID, GRID, GRID, GRID)
        inside.setSpacing(GRID)
        for widget in (self._full, self._why, flow(self.go_there, self.make_live, self.open_finding, across=GRID),
                       self._label, self.reason, flow(self.set_aside, self.again, across=GRID)):  # fmt: skip
            inside.addWidget(widget)
        inside.addStretch(1)
        self._detail = QScrollArea()
        self._detail.setWidget(below)
        self._detail.setWidgetResizable(True)
        self._detail.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._detail.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._detail.viewport().setAutoFillBackground(False)
        below.setAutoFillBackground(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, GRID, 0, 0)
        column.setSpacing(GRID)
        column.addWidget(plain_label("What backs each number", "strong"))
        column.addWidget(self.counts)
        column.addWidget(flow(self.only_calls, self.with_dismissed, down=4))
        column.addWidget(self.list, 3)
        column.addWidget(self._detail, 2)

    def _show(self) -> None:
        shown = [row for row in self._rows if self.with_dismissed.isChecked() or not row.dismissed]
        if self.only_calls.isChecked():
            shown = [row for row in shown if row.calls or row.dismissed]
        self.list.show_rows(tuple(shown))

    def _show_row(self, row: RemarkRow | None) -> None:
        self._detail.setVisible(row is not None)
        if row is None:
            return
        self._full.setText(f"{row.word}: {row.said}" if row.kind != "duty" else row.said)
        self._why.setText(". ".join(part for part in (row.right, row.where) if part))
        self.open_finding.setVisible(bool(row.finding))
        self.make_live.setVisible(row.kind in ("contradicted", "computed") and bool(row.finding))
        self.make_live.setEnabled(not getattr(row.remark, "live", False))
        for widget in (self._label, self.reason, self.set_aside):
            widget.setVisible(row.can_be_set_aside)
        self.again.setVisible(bool(row.dismissed))
        self.reason.clear()
        if row.dismissed:
            self._why.setText(f"Set aside: {row.dismissed}. {self._why.text()}")
        long = row.calls and not row.can_be_set_aside and row.kind not in NEVER_ASIDE
        plain_tooltip(self._full, "This sentence is too long to be set aside: shorten it" if long else "")

    def _jump(self) -> None:
        self.jump.emit(self.list.current_row())

    def _live(self) -> None:
        self.live.emit(self.list.current_row())

    def _finding(self) -> None:
        if (row := self.list.current_row()) is not None:
            self.finding.emit(row.finding)

    def _set_aside(self) -> None:
        row, reason = self.list.current_row(), self.reason.text().strip()
        if row is None or not row.can_be_set_aside:
            return
        if reason:
            self.aside.emit(row, reason)
        else:
            self.reason.setFocus()  # without a reason nothing is set aside

    def _again(self) -> None:
        row = self.list.current_row()
        if row is not None and row.dismissed:
            self.aside.emit(row, "")
