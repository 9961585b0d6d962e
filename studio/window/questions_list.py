"""The list of viewers' questions: thousands of rows, of which only those in view are ever looked at."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QKeyEvent, QKeySequence, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from studio.model.question import Question
from studio.window.palette import GRID, Appearance
from studio.window.questions_rows import Key, Told, about_words, first_line, key_of, standing_of
from studio.window.questions_signs import paint_standing
from studio.window.quiet_list import choose_index, make_quiet

Index = QModelIndex | QPersistentModelIndex
ROW = Qt.ItemDataRole.UserRole
_SIGN = 16


class QuestionsModel(QAbstractListModel):
    """Rows by their place in the episode; texts are made only for what is drawn."""

    def __init__(self) -> None:
        super().__init__()
        self.questions: Sequence[Question] = ()
        self.known: Mapping[Key, Told] = {}
        self.order: list[int] = []

    def show_order(self, questions: Sequence[Question], known: Mapping[Key, Told], order: list[int]) -> None:
        """Show these; the same questions in the same order are only redrawn, so that the choice stays."""
        if order == self.order:
            self.questions, self.known = questions, known
            if order:
                self.dataChanged.emit(self.index(0), self.index(len(order) - 1))
            return
        self.beginResetModel()
        self.questions, self.known, self.order = questions, known, order
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.order)

    def row(self, number: int) -> tuple[Question, Told | None]:
        """The question in this row and what is known of it."""
        question = self.questions[self.order[number]]
        return question, self.known.get(key_of(question))

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid() or index.row() >= len(self.order) or self.order[index.row()] >= len(self.questions):
            return None
        if role == ROW:
            return self.row(index.row())
        if role == Qt.ItemDataRole.DisplayRole:
            return first_line(self.row(index.row())[0].text)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            question, told = self.row(index.row())
            return f"{about_words(question, told)}: {first_line(question.text)}"
        return None


class QuestionDelegate(QStyledItemDelegate):
    """Paints a row: sign, the comment's beginning, below it how it stands in words."""

    def __init__(self, appearance: Appearance, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._appearance = appearance

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(self._appearance.px(200), 2 * self._high() + 3 * GRID)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        held = index.data(ROW)
        if held is None:
            return
        question, told = held
        field = QRect(option.rect)
        painter.save()
        self._ground(painter, option, field)
        side = self._appearance.px(_SIGN)
        sign = QRectF(field.left() + 2 * GRID, field.top() + GRID + 2, side, side)
        paint_standing(painter, standing_of(question, told), sign, self._appearance.look)
        left = round(sign.right()) + GRID + 4
        wide, high = field.right() - 2 * GRID - left, self._high()
        self._line(painter, QRect(left, field.top() + GRID, wide, high), first_line(question.text), "ink")
        below = QRect(left, field.top() + GRID + high + 3, wide, high)
        self._line(painter, below, about_words(question, told), "quiet")
        painter.restore()

    def _high(self) -> int:
        return QFontMetrics(self._appearance.font()).height()

    def _line(self, painter: QPainter, field: QRect, text: str, color: str) -> None:
        font = self._appearance.font()
        painter.setFont(font)
        painter.setPen(self._appearance.color(color))
        shown = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, field.width())
        painter.drawText(field, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), shown)

    def _ground(self, painter: QPainter, option: QStyleOptionViewItem, field: QRect) -> None:
        state: QStyle.StateFlag = option.state
        look = self._appearance.look
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(field, QColor(look.plate))
            painter.fillRect(QRect(field.left(), field.top(), 4, field.height()), QColor(look.measure))
            if state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(QColor(look.measure), 2))
                painter.drawRect(QRectF(field).adjusted(1, 1, -1, -1))


class QuestionsList(QListView):
    """Arrows choose. ``chosen`` gives the place in the episode of the question at hand (-1: none)."""

    chosen = Signal(int)
    opened = Signal()
    pasted = Signal()

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.questions_model = QuestionsModel()
        self.is_touched = False
        """Whether somebody has chosen a question; until then the first one is at hand."""
        self.setModel(self.questions_model)
        self.setItemDelegate(QuestionDelegate(appearance, self))
        make_quiet(self)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setUniformItemSizes(True)  # or Qt measures every row of thousands
        self.setResizeMode(QListView.ResizeMode.Fixed)
        self.setAccessibleName("Viewers' questions")
        self.selectionModel().currentChanged.connect(self._current_changed)
        appearance.changed.connect(self._appearance_changed)

    def show_order(self, questions: Sequence[Question], known: Mapping[Key, Told], order: list[int]) -> None:
        """Show these; the question at hand stays at hand, else the one that stands in its row now."""
        model, number = self.questions_model, self.currentIndex().row()
        id_ = self.current_id()
        model.show_order(questions, known, order)
        if self.current_id() == id_ and id_ and self.is_touched:
            return
        known_id = id_ if self.is_touched else ""
        wanted = (row for row, place in enumerate(order) if known_id and questions[place].id == known_id)
        at = next(wanted, None)
        row = at if at is not None else min(max(number, 0) if self.is_touched else 0, len(order) - 1)
        choose_index(self, model.index(row) if row >= 0 else QModelIndex())
        if row < 0:
            self.chosen.emit(-1)

    def current_place(self) -> int:
        """The place in the episode of the question at hand; -1 where there is none."""
        row, order = self.currentIndex().row(), self.questions_model.order
        return order[row] if 0 <= row < len(order) else -1

    def current_id(self) -> str:
        """The id of the question at hand; empty where there is none."""
        place, questions = self.current_place(), self.questions_model.questions
        return questions[place].id if 0 <= place < len(questions) else ""

    def chosen_places(self) -> tuple[int, ...]:
        """The places in the episode of the selected rows, in the list's order."""
        rows = sorted(index.row() for index in self.selectedIndexes())
        return tuple(self.questions_model.order[row] for row in rows)

    def choose(self, place: int) -> bool:
        """Make the question at this place of the episode the one at hand; False where it is not listed."""
        if place not in self.questions_model.order:
            return False
        self.is_touched = True
        choose_index(self, self.questions_model.index(self.questions_model.order.index(place)))
        return True

    def step(self, by: int) -> None:
        """Go down or up, as far as the list goes."""
        self.is_touched = True
        row = self.currentIndex().row() + by
        if 0 <= row < len(self.questions_model.order):
            choose_index(self, self.questions_model.index(row))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens, paste takes a comment in."""
        self.is_touched = True
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.pasted.emit()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.is_touched = True
        super().mousePressEvent(event)

    def _current_changed(self, _current: QModelIndex, _before: QModelIndex) -> None:
        self.chosen.emit(self.current_place())

    def _appearance_changed(self) -> None:
        self.scheduleDelayedItemsLayout()
        self.viewport().update()
