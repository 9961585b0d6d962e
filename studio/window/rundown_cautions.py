"""The cautions that stand with a segment, at once and whole: nothing closes them."""

from collections.abc import Sequence

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from studio.script.duties import SegmentCaution
from studio.window.labels import plain_label
from studio.window.layouts import clear_out
from studio.window.palette import GRID, Appearance


class Cautions(QWidget):
    """Each with its signal word before it, and by what it came, on one plate with a bar at its side."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._shown: tuple[SegmentCaution, ...] = ()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(GRID + 4, GRID - 2, GRID, GRID - 2)
        self._grid.setHorizontalSpacing(GRID)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(1, 1)
        self.setVisible(False)

    def show_cautions(self, cautions: Sequence[SegmentCaution]) -> None:
        """Show these in place of those before."""
        if tuple(cautions) == self._shown:
            return
        self._shown = tuple(cautions)
        clear_out(self._grid)
        for row, its in enumerate(self._shown):
            signal = plain_label(its.caution.signal, "strong")
            why = "" if its.named else f" It stands here as {its.because}."
            text = plain_label(f"{its.caution.text}{why}", wrap=True)
            self._grid.addWidget(signal, row, 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(text, row, 1)
        self.setAccessibleName(". ".join(f"{its.caution.signal}: {its.caution.text}" for its in self._shown))
        self.setVisible(bool(self._shown))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(QRectF(self.rect()), self._appearance.color("plate"))
        painter.fillRect(QRect(0, 0, 4, self.height()), self._appearance.color("ink"))
        painter.end()
