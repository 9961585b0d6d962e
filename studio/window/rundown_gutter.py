"""Beside a segment's text: at the left each point's number and begin, at the right its pause and its pictures."""

from collections.abc import Sequence
from fractions import Fraction

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QTextBlock
from PySide6.QtWidgets import QHBoxLayout, QWidget

from studio.model.rundown import PictureCue, Point
from studio.window.palette import GRID, Appearance
from studio.window.rundown_editor import PointsEditor
from studio.window.rundown_rows import clock

_LEFT_PX, _RIGHT_PX = 64, 64


class Gutter(QWidget):
    """One side. It is painted, and what it says stands in the line below the text too."""

    def __init__(self, editor: PointsEditor, appearance: Appearance, wide: int) -> None:
        super().__init__()
        self._editor, self._appearance, self._wide = editor, appearance, wide
        editor.verticalScrollBar().valueChanged.connect(self._look)
        editor.document().documentLayout().update.connect(self._look)
        editor.cursorPositionChanged.connect(self._look)
        appearance.changed.connect(self._resized)
        self._resized()

    def sizeHint(self) -> QSize:
        return QSize(self._appearance.px(self._wide), 10)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        line = QFontMetrics(self._appearance.font("text")).height()
        block = self._editor.cursorForPosition(self._editor.viewport().rect().topLeft()).block()
        layout = self._editor.document().documentLayout()
        scrolled = self._editor.verticalScrollBar().value()
        while block.isValid():
            box = layout.blockBoundingRect(block)
            top = box.top() - scrolled
            if top > self.height():
                break
            self._paint_point(painter, block, QRectF(0, top, self.width(), line), QRectF(0, top, self.width(),
                                                                                        box.height()))  # fmt: skip
            block = block.next()
        painter.end()

    def _paint_point(self, painter: QPainter, block: QTextBlock, first: QRectF, whole: QRectF) -> None:
        raise NotImplementedError

    def _look(self, *_: object) -> None:
        self.update()

    def _resized(self) -> None:
        self.setFixedWidth(self._appearance.px(self._wide))
        self.update()


class NumberGutter(Gutter):
    """Number and begin."""

    def __init__(self, editor: PointsEditor, appearance: Appearance) -> None:
        super().__init__(editor, appearance, _LEFT_PX)
        self.starts: Sequence[Fraction] = ()

    def _paint_point(self, painter: QPainter, block: QTextBlock, first: QRectF, whole: QRectF) -> None:
        number, current = block.blockNumber(), block.blockNumber() == self._editor.current_point()
        if current:
            painter.fillRect(QRectF(self.width() - 2, whole.top(), 2, whole.height() - 8),
                             self._appearance.color("measure" if self._editor.hasFocus() else "steel"))  # fmt: skip
        painter.setFont(self._appearance.font("strong" if current else "number"))
        painter.setPen(self._appearance.color("ink" if current else "quiet"))
        painter.drawText(first.adjusted(0, 0, -6, 0), int(Qt.AlignmentFlag.AlignLeft), str(number + 1))
        if number < len(self.starts):
            painter.setFont(self._appearance.font("text"))
            painter.setPen(self._appearance.color("quiet"))
            painter.drawText(first.adjusted(0, 0, -GRID, 0), int(Qt.AlignmentFlag.AlignRight),
                             clock(self.starts[number]))  # fmt: skip


class PauseGutter(Gutter):
    """Pictures that come on, and the pause after the point."""

    def __init__(self, editor: PointsEditor, appearance: Appearance) -> None:
        super().__init__(editor, appearance, _RIGHT_PX)
        self.pictures: Sequence[PictureCue] = ()

    def _paint_point(self, painter: QPainter, block: QTextBlock, first: QRectF, whole: QRectF) -> None:
        number, points = block.blockNumber(), self._editor.points
        point = points[number] if number < len(points) else Point(text="")
        count = sum(cue.with_point == number for cue in self.pictures)
        painter.setPen(self._appearance.color("quiet"))
        painter.setFont(self._appearance.font("text"))
        left = first.left() + GRID
        if count:
            self._frame(painter, QPointF(left, first.top() + 3), first.height() - 6)
            painter.drawText(first.adjusted(GRID + 1.9 * first.height(), 0, 0, 0), int(Qt.AlignmentFlag.AlignLeft),
                             f"× {count}" if count > 1 else "")  # fmt: skip
        if point.pause_s:
            lower = whole.height() - first.height() - 8 if whole.height() > 2 * first.height() else 0
            room = first.translated(0, lower)
            side = int(Qt.AlignmentFlag.AlignRight if count and room == first else Qt.AlignmentFlag.AlignLeft)
            painter.drawText(room.adjusted(GRID, 0, -2, 0), side, f"+ {point.pause_s:g} s")

    def _frame(self, painter: QPainter, at: QPointF, high: float) -> None:
        """A small picture in its frame."""
        frame = QRectF(at.x(), at.y(), high * 16 / 9, high)
        painter.drawRect(frame)
        painter.drawLine(frame.bottomLeft() + QPointF(2, -3), frame.center())
        painter.drawLine(frame.center(), frame.bottomRight() + QPointF(-2, -3))


def beside(editor: PointsEditor, left: QWidget, right: QWidget) -> QWidget:
    """The text between its two gutters."""
    holder = QWidget()
    row = QHBoxLayout(holder)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(0)
    row.addWidget(left)
    row.addWidget(editor, 1)
    row.addWidget(right)
    return holder
