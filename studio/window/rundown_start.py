"""Where a rundown begins: templates filled from this episode's findings, and what each of them leaves out."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QPushButton, QScrollArea, QVBoxLayout, QWidget

from studio.model.finding import Findings
from studio.script.template_texts import TEMPLATES, TemplateText
from studio.script.templates import Planned, plan
from studio.window.flow import flow
from studio.window.labels import name_field, plain_label, push_button
from studio.window.layouts import clear_out
from studio.window.palette import GRID, Appearance

TEACHING = "Here the episode is planned: segments in order, what is said in each, every number live from the readings."
_MOST_LEFT_OUT = 6


class StartSheet(QScrollArea):
    """``template`` gives the id of the one wanted, ``empty`` asks for one empty segment, ``left`` says no thanks."""

    template = Signal(str)
    empty = Signal()
    left = Signal()

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._column = QVBoxLayout()
        self.teaching = plain_label(TEACHING, "heading", wrap=True)
        self.plain = push_button("Begin with one empty se&gment", self.empty.emit)
        self.back = push_button("&Back to the rundown", self.left.emit)
        self.buttons: list[QPushButton] = []
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(4 * GRID, 3 * GRID, 4 * GRID, 3 * GRID)
        column.setSpacing(2 * GRID)
        column.addWidget(self.teaching)
        column.addLayout(self._column)
        column.addWidget(flow(self.plain, self.back, across=GRID))
        column.addStretch(1)
        self._column.setSpacing(2 * GRID)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("Begin a rundown")
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)

    def show_findings(self, findings: Findings, *, empty: bool) -> None:
        """Offer every template as it would come out now."""
        clear_out(self._column)
        self.buttons = []
        self.teaching.setText(TEACHING if empty else "Add the segments of a template after those that are there.")
        self.back.setVisible(not empty)
        planned = [(its, plan(its, findings)) for its in TEMPLATES]
        best = max(planned, key=lambda pair: len(pair[1].segments) - len(pair[1].left_out) / 10)[0]
        for its, made in planned:
            self._column.addWidget(self._card(its, made, primary=its is best))

    def take_focus(self) -> None:
        """The template that this episode fills best."""
        able = [button for button in self.buttons if button.isEnabled()]
        best = next((button for button in able if button.property("primary")), None)
        (best or (able[0] if able else self.plain)).setFocus(Qt.FocusReason.OtherFocusReason)

    def _card(self, its: TemplateText, made: Planned, *, primary: bool) -> QWidget:
        card = QWidget()
        column = QVBoxLayout(card)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        button = push_button(its.name, self._clicked, primary=primary and bool(made.segments))
        count = len(made.segments)
        button.setEnabled(bool(count))
        button.setProperty("template", its.id)
        name_field(button, f"Begin with {its.name}", f"{its.about}; {count} segments")
        self.buttons.append(button)
        column.addWidget(flow(button, plain_label(f"{count} segment{'s' if count != 1 else ''}", "quiet"), across=GRID))
        column.addWidget(plain_label(f"{its.about[:1].upper()}{its.about[1:]}.", wrap=True))
        if made.left_out:
            column.addWidget(plain_label(left_out_words(made), "quiet", wrap=True))
        return card

    def _clicked(self) -> None:
        button = self.sender()
        if isinstance(button, QPushButton):
            self.template.emit(str(button.property("template")))


def left_out_words(made: Planned) -> str:
    """What a template leaves out, in a few lines."""
    lines = list(dict.fromkeys(made.left_out))
    more = [f"and {len(lines) - _MOST_LEFT_OUT} more"] if len(lines) > _MOST_LEFT_OUT else []
    return "\n".join([*lines[:_MOST_LEFT_OUT], *more])
