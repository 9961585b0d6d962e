"""Colours as fields: a patch of the colour beside its name and its hex digits."""

from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QColor, QFocusEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QWidget

from studio.graphics.color import rgba
from studio.graphics.look_check import Pair, Verdicts, cut
from studio.graphics.look_parts import LookFile
from studio.window.labels import field_label, name_field, plain_label
from studio.window.palette import GRID
from studio.window.undo_keys import LineEdit

NAMES: dict[str, str] = {
    "ground": "Ground", "plate": "Plate", "ink": "Ink", "quiet": "Quiet ink", "measure": "Measures", "rubber": "Rubber",
    "rubber_light": "Rubber in light", "rubber_edge": "Rubber's edge", "groove": "Groove", "letter": "Raised letters",
    "steel": "Steel", "steel_light": "Steel in light", "water": "Water", "car": "Car", "shadow": "Shadow",
    "keep": "Keep", "watch": "Watch", "rotate": "Rotate", "replace": "Replace",
}  # fmt: skip
OPTIONAL = ("rubber_edge",)


class Patch(QWidget):
    """A field of colour; ``over`` shows letters in another colour on it."""

    def __init__(self, width: int = 24) -> None:
        super().__init__()
        self._width = width
        self._color, self._over = "", ""

    def show_color(self, color: str, over: str = "") -> None:
        """Show this colour; none where it is empty."""
        self._color, self._over = color, over
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._width, self.fontMetrics().height() + 6)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(self.palette().color(QPalette.ColorRole.Mid))
        if self._color:
            painter.setBrush(QColor(self._color))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)
        if self._over:
            half = QRectF(self.rect()).adjusted(self.width() * 0.3, 5, -self.width() * 0.3, -5)
            painter.fillRect(half, QColor(self._over))
        painter.end()


class HexField(LineEdit):
    """``taken`` gives a colour as soon as one is typed; what is none stays with the reason."""

    taken = Signal(str, str)

    def __init__(self, key: str) -> None:
        super().__init__()
        self.key = key
        self._shown = ""
        self.setMaxLength(7)
        self.setPlaceholderText("none" if key in OPTIONAL else "#RRGGBB")
        self.textEdited.connect(self._typed)

    def show_color(self, color: str) -> None:
        """Show this colour, unless it is being typed."""
        if color != self._shown or not self.hasFocus():
            self._shown = color
            if self.text().upper() != color:
                self.setText(color)
            self._say("")

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        return QSize(self.fontMetrics().horizontalAdvance("#DDDDDD") + 24, hint.height())

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Leaving gives up what is no colour."""
        super().focusOutEvent(event)
        self.setText(self._shown)
        self._say("")

    def _typed(self, text: str) -> None:
        color = text.strip().upper()
        if not color and self.key in OPTIONAL:
            self._take("")
            return
        try:
            if len(color) != 7:
                raise ValueError("too short")
            rgba(color)
        except ValueError:
            self._say(f"{text!r} is not a colour: expected #RRGGBB, such as #1A1D21")
        else:
            self._take(color)

    def _take(self, color: str) -> None:
        self._shown = color
        self._say("")
        self.taken.emit(self.key, color)

    def _say(self, problem: str) -> None:
        self.setProperty("problem", bool(problem))
        self.style().unpolish(self)
        self.style().polish(self)
        self.setAccessibleDescription(problem)


class ColorRows(QWidget):
    """Some colours of a look, one in a row. ``taken`` gives a key and the colour typed for it."""

    taken = Signal(str, str)

    def __init__(self, keys: tuple[str, ...]) -> None:
        super().__init__()
        self.fields: dict[str, HexField] = {}
        self._patches: dict[str, Patch] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(GRID // 2)
        for row, key in enumerate(keys):
            field, patch = HexField(key), Patch()
            field.taken.connect(self.taken)
            self.fields[key], self._patches[key] = field, patch
            grid.addWidget(field_label(NAMES[key], field), row, 0)
            grid.addWidget(patch, row, 1)
            grid.addWidget(field, row, 2)
        grid.setColumnStretch(0, 1)

    def show_look(self, look: LookFile) -> None:
        """Show the colours of this look."""
        for key, field in self.fields.items():
            color = color_of(look, key)
            field.show_color(color)
            self._patches[key].show_color(color)


class Readout(QWidget):
    """One pair of colours: how it looks, its contrast or distance, what it needs, and whether it holds, in words."""

    def __init__(self) -> None:
        super().__init__()
        self.patch, self.words = Patch(36), plain_label(wrap=True)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(GRID)
        across.addWidget(self.patch)
        across.addWidget(self.words, 1)

    def show_pair(self, pair: Pair, look: LookFile) -> None:
        """Show a contrast."""
        self.patch.show_color(color_of(look, pair.other), color_of(look, pair.one))
        self._say(f"{NAMES[pair.one]} on {NAMES[pair.other].lower()}: {cut(pair.ratio)}", f"{pair.least:g}", pair.holds)

    def show_verdicts(self, pair: Verdicts, look: LookFile, seen: str) -> None:
        """Show how far apart two verdicts are, as they are seen worst."""
        self.patch.show_color(color_of(look, pair.one), color_of(look, pair.other))
        words = f"{NAMES[pair.one]} and {NAMES[pair.other].lower()}: {cut(pair.distance)} apart, {seen}"
        self._say(words, "10", pair.holds)

    def _say(self, words: str, needed: str, holds: bool) -> None:
        self.words.setText(f"{'✓' if holds else '✗'} {words} (needs {needed})")
        name_field(self.words, f"{'Holds' if holds else 'Too low'}: {words}, needs {needed}")


def color_of(look: LookFile, key: str) -> str:
    """A colour by its key, of the look or of its verdicts; empty where it has none."""
    return str(getattr(look.verdicts if hasattr(look.verdicts, key) else look, key) or "")
