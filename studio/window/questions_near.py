"""Similar questions that were answered before, each with its reply to use again."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio.questions.similar import Near
from studio.window.elided import ElidedLine
from studio.window.flow import flow
from studio.window.labels import plain_label, plain_tooltip, push_button
from studio.window.layouts import put_in_place
from studio.window.palette import GRID
from studio.window.questions_rows import first_line


class NearPanel(QWidget):
    """``used`` gives the reply that is to be taken over; ``folder_wanted`` asks for a folder of episodes."""

    used = Signal(str)
    folder_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[tuple[Near, str], ...] | None = None
        self._rows = QWidget()
        self._where = plain_label("", "quiet", wrap=True)
        self.folder = push_button("Look through a folder of &episodes…", self._ask)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(GRID // 2)
        self._column.addWidget(plain_label("Asked and answered before", "strong"))
        for widget in (self._rows, self._where, flow(self.folder)):
            self._column.addWidget(widget)
        self.show_near((), "")

    def show_near(self, near: Sequence[tuple[Near, str]], where: str) -> None:
        """Show these with their replies; ``where`` says what was looked through."""
        self._where.setText(where)
        self._where.setVisible(bool(where))
        if tuple(near) == self._shown:
            return
        self._shown = tuple(near)
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID)
        for number, (its, reply) in enumerate(near):
            column.addWidget(self._row(number, its, reply))
        if not near:
            column.addWidget(plain_label("Nothing like it yet.", "quiet"))
        put_in_place(self._column, self._rows, holder)
        self._rows.hide()
        self._rows.deleteLater()
        self._rows = holder
        holder.show()

    def use(self, number: int) -> None:
        """Take the reply of this one over."""
        if self._shown and number < len(self._shown):
            self.used.emit(self._shown[number][1])

    def texts(self) -> list[str]:
        """What is shown of each."""
        return [line.whole for line in self._rows.findChildren(ElidedLine)]

    def _row(self, number: int, its: Near, reply: str) -> QWidget:
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        alike = "the same facts" if its.same_facts else "other facts: check the numbers"
        about = f"{its.kept.where or 'this episode'}, {alike}"
        for text, role in ((first_line(its.kept.text), "text"), (f"→ {first_line(reply)}", "quiet"), (about, "quiet")):
            line = ElidedLine(role)
            column.addWidget(line)
            line.show_text(text)
        plain_tooltip(holder, reply[:1000])
        button = push_button(f"Use this reply ({number + 1})", self._use_clicked)
        button.setProperty("number", number)
        column.addWidget(flow(button))
        return holder

    def _use_clicked(self) -> None:
        button = self.sender()
        number = button.property("number") if button is not None else None
        if isinstance(number, int):
            self.use(number)

    def _ask(self) -> None:
        self.folder_wanted.emit()
