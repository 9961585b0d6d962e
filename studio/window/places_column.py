"""The narrow column that names the places, each with one short line on how things stand there."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QVBoxLayout, QWidget

from studio.window.labels import name_field, plain_tooltip
from studio.window.palette import Appearance
from studio.window.place import Place
from studio.window.places import Slot

WIDTH, MOST_WIDTH, HEIGHT = 192, 264, 56


_WRAPPED = Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap


def column_width(appearance: Appearance) -> int:
    """The column grows with the text, but leaves room for what it leads to."""
    return min(appearance.px(WIDTH), MOST_WIDTH)


class PlaceButton(QAbstractButton):
    """The name of a place over its state; the place that is open has a bar at its left."""

    stepped = Signal(int)

    def __init__(self, title: str, key: str, appearance: Appearance) -> None:
        super().__init__()
        self._title, self._key, self._state = title, key, ""
        self._appearance = appearance
        self.setCheckable(True)
        self.setAutoExclusive(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.show_state("")

    @property
    def state_line(self) -> str:
        """The line under the name."""
        return self._state

    def show_state(self, state: str) -> None:
        """Show this line under the name."""
        self._state = state
        name_field(self, f"{self._title}: {state}" if state else self._title, f"Ctrl+{self._key}")
        plain_tooltip(self, f"{self._title} (Ctrl+{self._key}). {state}")
        self.update()

    def sizeHint(self) -> QSize:
        """The column's width, two lines high, in any text size."""
        lines = 2 if self._appearance.px(WIDTH) <= MOST_WIDTH else 3
        return QSize(column_width(self._appearance), self._appearance.px(HEIGHT) * lines // 2)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows go to the neighbours, Enter opens."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.stepped.emit(1 if event.key() == Qt.Key.Key_Down else -1)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Bar, name, state."""
        look, painter = self._appearance.look, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.isChecked():
            painter.fillRect(self.rect(), QColor(look.plate))
            painter.fillRect(QRectF(0, 0, 4, self.height()), QColor(look.measure))
        if self.hasFocus():
            painter.setPen(QPen(QColor(look.measure), 2))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        inside = QRectF(self.rect()).adjusted(16, self._appearance.px(8), -8, -self._appearance.px(8))
        title = QRectF(inside.x(), inside.y(), inside.width(), self._appearance.px(20))
        painter.setFont(self._appearance.font("strong"))
        painter.setPen(QColor(look.ink))
        painter.drawText(title, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self._title)
        painter.setFont(self._appearance.font("quiet"))
        painter.setPen(QColor(look.quiet))
        painter.drawText(inside.adjusted(0, title.height(), 0, 0), _WRAPPED, self._shown_state(inside.width()))
        painter.end()

    def _shown_state(self, width: float) -> str:
        """The line, cut where it would take more lines than there are."""
        lines = 1 if self._appearance.px(WIDTH) <= MOST_WIDTH else 2
        metrics = QFontMetricsF(self._appearance.font("quiet"))
        return metrics.elidedText(self._state, Qt.TextElideMode.ElideRight, width * (1 if lines == 1 else 1.8))


class PlacesColumn(QWidget):
    """One button a place. ``chosen`` gives the key of the place that is wanted."""

    chosen = Signal(str)

    def __init__(self, slots: Sequence[Slot], appearance: Appearance) -> None:
        super().__init__()
        self._places: list[Place] = []
        self._appearance = appearance
        self.buttons: dict[str, PlaceButton] = {}
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 8, 0, 8)
        layout.setSpacing(4)
        for number, slot in enumerate(slots, start=1):
            button = PlaceButton(slot.title, str(number), appearance)
            button.clicked.connect(self._clicked)
            button.stepped.connect(self._step)
            self.buttons[slot.key] = button
            layout.addWidget(button)
        layout.addStretch(1)
        appearance.changed.connect(self._restyle)
        self._restyle()

    def take_in(self, place: Place) -> None:
        """A place was made: show its line from now on."""
        self._places.append(place)
        place.state_changed.connect(self.refresh)
        self.buttons[place.key].show_state(place.state_line())

    def mark(self, key: str) -> None:
        """Show which place is open."""
        self.buttons[key].setChecked(True)

    def refresh(self) -> None:
        """Ask every place that is there for its line."""
        for place in self._places:
            self.buttons[place.key].show_state(place.state_line())

    def _restyle(self) -> None:
        self.setFixedWidth(column_width(self._appearance))
        for button in self.buttons.values():
            button.updateGeometry()

    def _clicked(self) -> None:
        self.chosen.emit(next(key for key, button in self.buttons.items() if button is self.sender()))

    def _step(self, way: int) -> None:
        every = list(self.buttons.values())
        sender = self.sender()
        index = next(number for number, button in enumerate(every) if button is sender) + way
        if 0 <= index < len(every):
            every[index].setFocus(Qt.FocusReason.TabFocusReason)
