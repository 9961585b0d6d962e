"""The tag of one tire on the plan: its verdict's sign, its depths as bars in true order, its mark and its age.

It is a button: a click, or coming to it by key, opens the tire's sheet.
"""

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from studio.window.labels import Role, name_field
from studio.window.palette import Appearance
from studio.window.signs import paint_sign
from studio.window.tire_state import Bar, TireState

FULL_MM = 9.0  # the bars' height for this depth, unless a tire on hand is deeper
_KEY_FOCUS = (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason, Qt.FocusReason.OtherFocusReason)
_ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)


class TireTag(QAbstractButton):
    """The tag of one tire, or of a place where none stands yet."""

    reached = Signal()
    """It came into focus by key."""
    turned = Signal(int)
    """An arrow key asks for the neighbour in that direction (a Qt key)."""
    entered = Signal()
    """Enter asks to go on into the sheet, or to add a tire here."""
    removed = Signal()
    """Delete asks to remove the tire."""

    def __init__(self, appearance: Appearance, parent: QWidget) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._state = TireState("bench", "")
        self._full_mm, self._selected = FULL_MM, False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    @property
    def state(self) -> TireState:
        """What is shown."""
        return self._state

    def show_state(self, state: TireState, full_mm: float) -> None:
        """Show another state; ``full_mm`` is the depth that fills the bars' height on all tags."""
        self._state, self._full_mm = state, full_mm
        name_field(self, state.spoken)
        self.update()

    def set_selected(self, selected: bool) -> None:
        """Whether this tire's sheet is open."""
        if selected != self._selected:
            self._selected = selected
            self.update()

    @property
    def bars_left_to_right(self) -> tuple[Bar, ...]:
        """The bars as they stand on the screen: the car's outer side outermost."""
        return tuple(reversed(self._state.bars)) if self._state.inner_first else self._state.bars

    # Qt's own

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Coming here by key opens the sheet."""
        super().focusInEvent(event)
        if event.reason() in _KEY_FOCUS:
            self.reached.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows go to the neighbours, Enter and F2 go on, Delete removes."""
        if event.key() in _ARROWS:
            self.turned.emit(event.key())
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_F2):
            self.entered.emit()
        elif event.key() == Qt.Key.Key_Delete and self._state.index is not None:
            self.removed.emit()
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Repaint when the mouse comes and goes."""
        if event.type() in (QEvent.Type.Enter, QEvent.Type.Leave):
            self.update()
        return super().event(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Sign and title, bars, mark, age."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter)
        inside = QRectF(self.rect()).adjusted(6, 4, -6, -4)
        line = self._px(18)
        self._paint_title(painter, QRectF(inside.x(), inside.y(), inside.width(), self._px(22)))
        if self._state.index is None:
            below = inside.adjusted(0, self._px(22), 0, 0)
            self._text(painter, below, "Add this tire", "text", "measure", top=True)
        else:
            foot = QRectF(inside.x(), inside.bottom() - 2 * line, inside.width(), line)
            self._text(painter, foot, self._state.marking or "no marking yet", "text", "ink")
            self._text(painter, foot.translated(0, line), self._age_line(), "quiet", "quiet")
            self._paint_bars(painter, inside.adjusted(0, self._px(24), 0, -2 * line - self._px(2)))
        painter.end()

    def _age_line(self) -> str:
        return f"{self._state.age} old" if self._state.age else "age not known"

    def _px(self, length: float) -> float:
        return length * self._appearance.percent / 100

    def _paint_ground(self, painter: QPainter) -> None:
        look = self._appearance.look
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        if self._selected:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(look.plate))
            painter.drawRoundedRect(box, 4, 4)
        if self.hasFocus() or self.underMouse():
            painter.setPen(QPen(QColor(look.measure if self.hasFocus() else look.steel), 2 if self.hasFocus() else 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(box, 4, 4)

    def _paint_title(self, painter: QPainter, box: QRectF) -> None:
        side = box.height()
        if self._state.verdict:
            paint_sign(painter, self._state.verdict, QRectF(box.x(), box.y(), side, side), self._appearance.look)
            box = box.adjusted(side + 6, 0, 0, 0)
        self._text(painter, box, self._state.title, "strong", "ink")

    def _text(
        self, painter: QPainter, box: QRectF, text: str, role: Role, color: str, *, top: bool = False
    ) -> None:
        font = self._appearance.font(role)
        painter.setFont(font)
        painter.setPen(self._appearance.color(color))
        shown = QFontMetricsF(font).elidedText(text, Qt.TextElideMode.ElideRight, box.width())
        upright = Qt.AlignmentFlag.AlignTop if top else Qt.AlignmentFlag.AlignVCenter
        painter.drawText(box, upright | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextSingleLine, shown)

    def _paint_bars(self, painter: QPainter, box: QRectF) -> None:
        """One bar a groove on a common floor, its number over it, the car's outer and inner side named below."""
        bars = self.bars_left_to_right
        if not bars:
            self._text(painter, box, "no readings yet", "quiet", "quiet", top=True)
            return
        caption, number = self._px(15), self._px(17)
        floor = box.bottom() - caption
        most = floor - box.top() - number
        step = min(self._px(30), box.width() / len(bars))
        for order, bar in enumerate(bars):
            left = box.x() + order * step
            self._paint_bar(painter, bar, QRectF(left, floor - most, step * 0.72, most))
        self._paint_limit(painter, QRectF(box.x(), floor - most, step * (len(bars) - 0.28), most))
        self._paint_captions(painter, QRectF(box.x(), floor, step * (len(bars) - 0.28), caption))

    def _paint_bar(self, painter: QPainter, bar: Bar, box: QRectF) -> None:
        look = self._appearance.look
        new = min(1.0, (self._state.new_mm or 0.0) / self._full_mm) * box.height()
        if new:
            painter.setPen(QPen(QColor(look.steel), 1, Qt.PenStyle.DotLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(box.x(), box.bottom() - new, box.width(), new))
        if bar.depth_mm is None:
            return
        high = min(1.0, bar.depth_mm / self._full_mm) * box.height()
        painter.setPen(QPen(QColor(look.rubber_edge or look.rubber), 1))
        painter.setBrush(QColor(look.rubber_light))
        painter.drawRect(QRectF(box.x(), box.bottom() - high, box.width(), high))
        font = self._appearance.font("number")
        painter.setFont(font)
        painter.setPen(QColor(look.ink))
        wide = max(box.width(), QFontMetricsF(font).horizontalAdvance(bar.text))
        place = QRectF(box.center().x() - wide / 2, box.top() - self._px(17), wide, self._px(17))
        painter.drawText(place, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom, bar.text)

    def _paint_limit(self, painter: QPainter, box: QRectF) -> None:
        if self._state.limit_mm is None:
            return
        y = box.bottom() - min(1.0, self._state.limit_mm / self._full_mm) * box.height()
        painter.setPen(QPen(self._appearance.color("measure"), 2))
        painter.drawLine(QPointF(box.left() - 3, y), QPointF(box.right() + 3, y))

    def _paint_captions(self, painter: QPainter, box: QRectF) -> None:
        font = self._appearance.font("quiet")
        font.setPixelSize(round(self._px(11)))
        painter.setFont(font)
        painter.setPen(self._appearance.color("quiet"))
        first, last = ("inner", "outer") if self._state.inner_first else ("outer", "inner")
        wide = QFontMetricsF(font).horizontalAdvance("outer inner")
        if box.width() >= wide:
            painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, first)
            painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, last)
        else:
            painter.drawText(box.adjusted(0, 0, wide, 0), Qt.AlignmentFlag.AlignVCenter, f"{first} to {last}")
