"""Below the text: what belongs to the point with the cursor in it, and putting a number or a picture in."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QVBoxLayout, QWidget

from studio.window.document import Document
from studio.window.flow import flow
from studio.window.form_parts import ProblemLine
from studio.window.labels import button_text, field_label, plain_label, push_button
from studio.window.palette import GRID
from studio.window.rundown_fields import PauseField
from studio.window.subject import PathSubject


class PointBar(QWidget):
    """``number_wanted`` asks for a live number, ``picture_wanted`` gives the id of a picture to come on here."""

    number_wanted = Signal()
    picture_wanted = Signal(str)

    def __init__(self, document: Document, names: dict[str, str]) -> None:
        super().__init__()
        self._names = names
        self._subject = PathSubject(document, "rundown.segments[0].points[0]", "")
        self.where = plain_label("", "strong")
        self.pause = PauseField(self._subject, "pause_s", "pause", chars=5, most=20)
        self.pause.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.number = push_button("N&umber…", self.number_wanted.emit)
        self.picture = push_button("Pictu&re…", self._show_menu)
        self.menu = QMenu(self)
        paused = QWidget()
        row = QHBoxLayout(paused)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(GRID)
        row.addWidget(field_label("Pause after it", self.pause))
        row.addWidget(self.pause)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(flow(self.where, paused, self.number, self.picture, across=2 * GRID))
        column.addWidget(ProblemLine(self.pause))

    def show_point(self, segment: int, point: int, count: int, title: str) -> None:
        """Speak of this point."""
        path = f"rundown.segments[{segment}].points[{point}]"
        self.where.setText(f"Point {point + 1} of {count}")
        if path != self._subject.path:
            self._subject.point(path, f"{title} point {point + 1}")
            self.pause.reset()

    def _show_menu(self) -> None:
        if not self.menu.actions():
            for id_, name in self._names.items():
                action = QAction(button_text(name), self.menu)
                action.setData(id_)
                action.triggered.connect(self._chosen)
                self.menu.addAction(action)
        self.menu.popup(self.picture.mapToGlobal(self.picture.rect().bottomLeft()))

    def _chosen(self) -> None:
        action = self.sender()
        if isinstance(action, QAction):
            self.picture_wanted.emit(action.data())
