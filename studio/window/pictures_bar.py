"""Under the large picture: the build-up to scrub through, the safe areas, the size of a phone."""

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QSlider, QVBoxLayout, QWidget

from studio.window.elided import ElidedLine
from studio.window.flow import flow
from studio.window.labels import field_label
from studio.window.palette import GRID
from studio.window.pictures_check import Check
from studio.window.pictures_view import View


class StageBar(QWidget):
    """``changed`` gives another view."""

    changed = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._view = View()
        self._names: tuple[str, ...] = ()
        self.steps = QSlider(Qt.Orientation.Horizontal)
        self.guides = Check("Safe a&reas")
        self.phone = Check("As large as on a pho&ne")
        self.step_name = ElidedLine()
        self._label = field_label("&Build-up", self.steps)
        self._lay_out()
        self.steps.actionTriggered.connect(self._scrubbed)
        self.guides.clicked.connect(self._toggled)
        self.phone.clicked.connect(self._toggled)

    def show_view(self, view: View, names: tuple[str, ...]) -> None:
        """Show how the picture is looked at; ``names`` are those of its steps."""
        self._view, self._names = view, names
        last = max(0, len(names) - 1)
        self.steps.setRange(0, last)
        self.steps.setValue(last if view.step is None else min(view.step, last))
        self.steps.setEnabled(last > 0)
        self.guides.setChecked(view.guides)
        self.phone.setChecked(view.phone)
        self._say()

    def _scrubbed(self, _action: int) -> None:
        position = self.steps.sliderPosition()
        step = None if position >= len(self._names) - 1 else position
        if step != self._view.step and self._names:
            self.changed.emit(replace(self._view, step=step))

    def _toggled(self) -> None:
        self.changed.emit(replace(self._view, guides=self.guides.isChecked(), phone=self.phone.isChecked()))

    def _say(self) -> None:
        at = self.steps.value()
        words = f"{at + 1} of {len(self._names)}: {self._names[at]}" if self._names else ""
        self.step_name.show_text(words)
        self.steps.setAccessibleDescription(words)

    def _lay_out(self) -> None:
        scrub = QWidget()
        across = QHBoxLayout(scrub)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(GRID)
        across.addWidget(self._label)
        across.addWidget(self.steps, 2)
        across.addWidget(self.step_name, 3)
        scrub.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        column = QVBoxLayout(self)
        column.setContentsMargins(GRID, 0, GRID, GRID)
        column.setSpacing(GRID)
        column.addWidget(scrub)
        column.addWidget(flow(self.guides, self.phone))
