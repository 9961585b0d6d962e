"""How one row of the list of findings is painted: sign, sentence, scale with its limit, the deciding number."""

from dataclasses import dataclass

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from studio.window.findings_rows import Heading, Row
from studio.window.findings_scale import HEIGHT, paint_scale
from studio.window.palette import GRID, Appearance
from studio.window.signs import LEAST_PX, paint_sign

ROW = Qt.ItemDataRole.UserRole
_WRAP = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
_RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
_SIGN, _NUMBER = 26, 104
Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True)
class RowPlaces:
    """Where the parts of a row stand, and how high the row is."""

    sign: QRect
    sentence: QRect
    scale: QRect
    number: QRect
    height: int


class FindingDelegate(QStyledItemDelegate):
    """Paints headings and rows; its lengths grow with the text."""

    def __init__(self, appearance: Appearance, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._appearance, self._view = appearance, view

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        width = self._view.viewport().width()
        row = index.data(ROW)
        if isinstance(row, Heading):
            below = self._calls_height(row)
            return QSize(width, self._heading(width, 0, row).height() + below + 4 * GRID)
        return QSize(width, self.places(QRect(0, 0, width, 0), row).height)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        field, row = QRect(option.rect), index.data(ROW)
        painter.save()
        if isinstance(row, Heading):
            self._paint_heading(painter, field, row)
        else:
            self._ground(painter, option, field)
            self._row(painter, self.places(field, row), row)
        painter.restore()

    def places(self, field: QRect, row: Row) -> RowPlaces:
        """The parts of ``row`` in ``field``, whose height is not looked at."""
        px, gap = self._appearance.px, GRID
        left, top = field.left() + 2 * gap, field.top() + gap + 2
        sign = QRect(left, top, px(_SIGN), px(_SIGN))
        number_width = px(_NUMBER) if row.number else 0
        right = field.right() - 2 * gap - number_width
        number = QRect(right, top, number_width, self._number_height(row))
        start = sign.right() + px(gap) + 4
        wide = max(px(120), right - (2 * gap if number_width else 0) - start)
        text = QFontMetrics(self._appearance.font()).boundingRect(0, 0, wide, 10_000, _WRAP, row.finding.sentence)
        sentence = QRect(start, top, wide, text.height())
        above = max(sentence.bottom(), number.bottom() if row.scale else 0)
        high = px(HEIGHT + 4) if row.scale or row.what else 0
        scale = QRect(start, above + gap - 2, field.right() - 2 * gap - start, high)
        bottom = max(sign.bottom(), scale.bottom() if scale.height() else sentence.bottom(), number.bottom())
        return RowPlaces(sign, sentence, scale, number, bottom - field.top() + gap + 4)

    def _paint_heading(self, painter: QPainter, field: QRect, row: Heading) -> None:
        box = self._heading(field.width(), field.top() + 3 * GRID, row).translated(field.left(), 0)
        self._pen(painter, "ink", self._heading_font())
        painter.drawText(box, _WRAP, row.question)
        if not row.calls:
            return
        high = self._calls_height(row) - 2
        line = QRect(box.left(), box.bottom() + 3, box.width(), high)
        paint_sign(painter, row.gravest, QRectF(line.left(), line.top(), high, high), self._appearance.look)
        self._pen(painter, "quiet", self._appearance.font())
        middle = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(line.adjusted(high + GRID, 0, 0, 0), middle, row.calls)

    def _calls_height(self, row: Heading) -> int:
        return self._appearance.px(LEAST_PX) + 2 if row.calls else 0

    def _row(self, painter: QPainter, places: RowPlaces, row: Row) -> None:
        paint_sign(painter, row.finding.verdict, QRectF(places.sign), self._appearance.look)
        self._pen(painter, "ink", self._appearance.font())
        painter.drawText(places.sentence, _WRAP, row.finding.sentence)
        self._pen(painter, "ink", self._appearance.font("number"))
        painter.drawText(places.number, _RIGHT, row.number)
        self._pen(painter, "quiet", self._appearance.font())
        below = places.number.adjusted(0, QFontMetrics(self._appearance.font("number")).height() + 1, 0, 0)
        painter.drawText(below, _RIGHT, row.other)
        if row.scale is not None:
            self._scale(painter, places.scale, row)
        else:
            self._line(painter, places.scale, row.what)

    def _scale(self, painter: QPainter, field: QRect, row: Row) -> None:
        ruler = QRectF(field)
        ruler.setWidth(min(field.width() * 0.45, self._appearance.px(260)))
        assert row.scale is not None
        paint_scale(painter, row.scale, ruler, self._appearance.look)
        label = field.adjusted(round(ruler.width()) + GRID, 0, 0, 0)
        words = ", ".join(part for part in (row.limit, row.finding.limit_label) if part)
        self._line(painter, label, words)

    def _line(self, painter: QPainter, field: QRect, words: str) -> None:
        """One quiet line, cut where there is no room for all of it; the opened finding has it whole."""
        font = self._appearance.font()
        self._pen(painter, "quiet", font)
        shown = QFontMetrics(font).elidedText(words, Qt.TextElideMode.ElideRight, field.width())
        painter.drawText(field, int(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft), shown)

    def _ground(self, painter: QPainter, option: QStyleOptionViewItem, field: QRect) -> None:
        state: QStyle.StateFlag = option.state
        look = self._appearance.look
        if not state & QStyle.StateFlag.State_Selected:
            return
        painter.fillRect(field, QColor(look.plate))
        painter.fillRect(QRect(field.left(), field.top(), 4, field.height()), QColor(look.measure))
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(QColor(look.measure), 2))
            painter.drawRect(QRectF(field).adjusted(1, 1, -1, -1))

    def _number_height(self, row: Row) -> int:
        high = QFontMetrics(self._appearance.font("number")).height()
        return high + (QFontMetrics(self._appearance.font()).height() + 1 if row.other else 0)

    def _heading_font(self) -> QFont:
        font = self._appearance.font("strong")
        font.setPixelSize(self._appearance.px(15))
        return font

    def _heading(self, width: int, top: int, heading: Heading) -> QRect:
        box = QRect(2 * GRID, top, max(width - 4 * GRID, 80), 10_000)
        high = QFontMetrics(self._heading_font()).boundingRect(box, _WRAP, heading.question).height()
        return QRect(box.left(), box.top(), box.width(), high)

    def _pen(self, painter: QPainter, color: str, font: QFont) -> None:
        painter.setPen(self._appearance.color(color))
        painter.setFont(font)


