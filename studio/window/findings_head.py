"""The head of an opened finding: verdict, sentence, deciding number with its scale, and what can be done with it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from studio.graphics.parts.signs import verdict_word
from studio.window.findings_rows import Row
from studio.window.findings_scale import ScaleView
from studio.window.labels import plain_label
from studio.window.palette import GRID, Appearance
from studio.window.signs import SignView


class FindingHead(QWidget):
    """Shows one row large. ``show_it``, ``say_it`` and ``copy_it`` are wired by the place."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._sign = SignView(appearance, side=36)
        self._word = plain_label("", "quiet")
        self._sentence = plain_label("", "heading", wrap=True)
        self._number = plain_label("", "deciding")
        self._other = plain_label("", "quiet")
        self._scale = ScaleView(appearance)
        self._what = plain_label("", "quiet", wrap=True)
        self._limit = plain_label("", wrap=True)
        self._distance = plain_label("", "quiet", wrap=True)
        self.show_it = QPushButton("Sho&w it")
        self.say_it = QPushButton("Sa&y it")
        self.copy_it = QPushButton("&Copy sentence")
        self.show_it.setProperty("primary", True)
        self._sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._lay_out()

    def show_row(self, row: Row | None) -> None:
        """Show this row; nothing without one."""
        self.setVisible(row is not None)
        if row is None:
            return
        self._sign.show_verdict(row.finding.verdict)
        _say(self._word, verdict_word(row.finding.verdict).capitalize())
        _say(self._sentence, row.finding.sentence)
        _say(self._number, row.number)
        _say(self._other, row.other)
        _say(self._limit, f"Limit {row.limit}: {row.finding.limit_label}" if row.limit else "")
        beside = (row.distance, row.doubt) if row.scale else ()
        _say(self._distance, ", ".join(part for part in beside if part))
        self._scale.show_scale(row.scale, f"{row.distance}, {row.doubt}")
        _say(self._what, "" if row.scale else ", ".join(part for part in (row.what, row.doubt) if part))

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID)
        verdict = QHBoxLayout()
        column.addLayout(verdict)
        verdict.setSpacing(GRID + 4)
        verdict.addWidget(self._sign)
        verdict.addWidget(self._word, 1)
        column.addWidget(self._sentence)
        numbers = QGridLayout()
        column.addLayout(numbers)
        self._fill_numbers(numbers)
        column.addSpacing(GRID // 2)
        buttons = QHBoxLayout()
        column.addLayout(buttons)
        buttons.setSpacing(GRID)
        for button in (self.show_it, self.say_it, self.copy_it):
            button.setAutoDefault(False)
            buttons.addWidget(button)
        buttons.addStretch(1)

    def _fill_numbers(self, grid: QGridLayout) -> None:
        grid.setHorizontalSpacing(3 * GRID)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self._number, 0, 0)
        grid.addWidget(self._scale, 0, 1)
        grid.addWidget(self._other, 1, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self._what, 2, 0, 1, 2)
        grid.addWidget(self._limit, 1, 1)
        grid.addWidget(self._distance, 3, 1)


def _say(label: QWidget, text: str) -> None:
    label.setText(text)  # type: ignore[attr-defined]
    label.setVisible(bool(text))
