"""The rows of a table that were read in doubt, as they stand in the file: shown after an import until put away."""

from collections.abc import Sequence

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from studio.window.labels import name_field, plain_label, push_button
from studio.window.palette import GRID
from studio.window.questions_import import Doubt
from studio.window.questions_rows import first_line
from studio.window.undo_keys import PlainText

_LINES = 9


class DoubtPanel(QWidget):
    """How many rows are in doubt; their lines, why, and their words unfold below, to be read and copied."""

    def __init__(self) -> None:
        super().__init__()
        self._said = plain_label("", "text", wrap=True)
        self.turn_button = push_button("", self._turn)
        self.away = push_button("Put awa&y", self.hide)
        self.rows = PlainText()
        self.rows.setReadOnly(True)
        self.rows.setTabChangesFocus(True)
        name_field(self.rows, "Rows read in doubt")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID // 2)
        column.addWidget(self._said)
        across = QHBoxLayout()
        column.addLayout(across)
        across.setSpacing(GRID)
        across.addWidget(self.turn_button)
        across.addWidget(self.away)
        across.addStretch(1)
        column.addWidget(self.rows)
        self.show_doubts((), ())

    def show_doubts(self, doubts: Sequence[Doubt], told: Sequence[str]) -> None:
        """Show these, folded; ``told`` says how many of each sort there are in all."""
        self.rows.setPlainText("\n\n".join(map(_words, doubts)))
        self._said.setText("\n".join(["Read in doubt:", *(f"{line}." for line in told)]))
        self._unfold(wanted=False)
        self.setVisible(bool(doubts))

    def _turn(self) -> None:
        self._unfold(wanted=self.rows.isHidden())

    def _unfold(self, *, wanted: bool) -> None:
        self.rows.setFixedHeight(_LINES * self.rows.fontMetrics().lineSpacing())
        self.rows.setVisible(wanted)
        self.turn_button.setText("Fold them &up" if wanted else "&Look at them")


def _words(its: Doubt) -> str:
    taken = "" if its.is_taken else " Paste it above if it is a comment."
    return f"Line {its.line:,}: this {its.why}.{taken}\n{first_line(its.text)}"
