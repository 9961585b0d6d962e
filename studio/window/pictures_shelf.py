"""The shelf: every picture of the catalogue as a small one, drawn from this episode's own data."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from studio.window.palette import GRID, Appearance
from studio.window.pictures_order import Drawn
from studio.window.quiet_list import choose_index, make_quiet

ENTRY = Qt.ItemDataRole.UserRole
THUMB = QSize(192, 108)
_WRAP = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignCenter)
Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True)
class Entry:
    """One picture of the catalogue; ``drawn`` once it has been drawn."""

    id: str
    name: str
    drawn: Drawn | None = None

    @property
    def spoken(self) -> str:
        """The entry in words, for assistive technology."""
        if self.drawn is None:
            return self.name
        return f"{self.name}. {self.drawn.missing or (self.drawn.scene.alternative if self.drawn.scene else '')}"


class ShelfModel(QAbstractListModel):
    """The entries in the catalogue's order; each fills in when it is drawn."""

    def __init__(self) -> None:
        super().__init__()
        self.entries: list[Entry] = []

    def show_catalogue(self, names: Mapping[str, str]) -> None:
        """List these pictures, by id and name."""
        self.beginResetModel()
        self.entries = [Entry(id_, name) for id_, name in names.items()]
        self.endResetModel()

    def take(self, id_: str, drawn: Drawn) -> None:
        """Show what was drawn of a picture."""
        row = self.row_of(id_)
        if row >= 0:
            self.entries[row] = Entry(id_, self.entries[row].name, drawn)
            self.dataChanged.emit(self.index(row), self.index(row))

    def row_of(self, id_: str) -> int:
        """The row of a picture; -1 where there is none of this id."""
        return next((row for row, entry in enumerate(self.entries) if entry.id == id_), -1)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.entries)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        entry = self.entries[index.row()]
        if role == ENTRY:
            return entry
        if role == Qt.ItemDataRole.DisplayRole:
            return entry.name
        return entry.spoken if role == Qt.ItemDataRole.AccessibleTextRole else None


class Shelf(QListView):
    """Arrows move; several can be chosen for an export. ``chosen`` gives the id of the picture at hand."""

    chosen = Signal(str)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.shelf_model = ShelfModel()
        self.setModel(self.shelf_model)
        self.setItemDelegate(ShelfDelegate(appearance, self))
        make_quiet(self)
        self.setAccessibleName("Pictures")
        self.setFixedWidth(THUMB.width() + 4 * GRID + self.verticalScrollBar().sizeHint().width())
        self.selectionModel().currentChanged.connect(self._current_changed)
        appearance.changed.connect(self.scheduleDelayedItemsLayout)

    def current_id(self) -> str:
        """The picture at hand; empty where there is none."""
        entry = self.currentIndex().data(ENTRY) if self.currentIndex().isValid() else None
        return entry.id if isinstance(entry, Entry) else ""

    def chosen_ids(self) -> tuple[str, ...]:
        """The pictures that are selected, in the catalogue's order."""
        rows = sorted(index.row() for index in self.selectedIndexes())
        return tuple(self.shelf_model.entries[row].id for row in rows)

    def choose(self, id_: str) -> bool:
        """Make this picture the one at hand; False where there is none of this id."""
        row = self.shelf_model.row_of(id_)
        if row >= 0:
            choose_index(self, self.shelf_model.index(row))
        return row >= 0

    def ids(self) -> Iterable[str]:
        """All pictures, in order."""
        return [entry.id for entry in self.shelf_model.entries]

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def _current_changed(self, _current: QModelIndex, _before: QModelIndex) -> None:
        self.chosen.emit(self.current_id())


class ShelfDelegate(QStyledItemDelegate):
    """Paints a small picture with its name below it."""

    def __init__(self, appearance: Appearance, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._appearance, self._view = appearance, view

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        name = self._name_field(QRect(0, 0, self._view.viewport().width(), 0), index.data(ENTRY))
        return QSize(self._view.viewport().width(), name.bottom() + GRID)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        field, entry = QRect(option.rect), index.data(ENTRY)
        thumb, name = self._thumb_field(field), self._name_field(field, entry)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        if entry.drawn is not None and entry.drawn.image is not None:
            painter.drawImage(thumb, entry.drawn.image)
        else:
            self._paint_missing(painter, thumb, entry)
        self._paint_edge(painter, thumb, option)
        font = self._appearance.font("strong" if option.state & QStyle.StateFlag.State_Selected else "text")
        painter.setFont(font)
        painter.setPen(self._appearance.color("ink"))
        painter.drawText(name, int(Qt.TextFlag.TextWordWrap), entry.name)
        painter.restore()

    def _thumb_field(self, field: QRect) -> QRect:
        return QRect(field.left() + 2 * GRID, field.top() + GRID, THUMB.width(), THUMB.height())

    def _name_field(self, field: QRect, entry: Entry) -> QRect:
        thumb = self._thumb_field(field)
        room = QRect(thumb.left(), thumb.bottom() + 5, thumb.width(), 10_000)
        bold = QFontMetrics(self._appearance.font("strong"))
        return QRect(room.topLeft(), QSize(room.width(), bold.boundingRect(room, int(Qt.TextFlag.TextWordWrap),
                                                                           entry.name).height()))  # fmt: skip

    def _paint_missing(self, painter: QPainter, thumb: QRect, entry: Entry) -> None:
        look = self._appearance.look
        painter.fillRect(thumb, QColor(look.plate))
        if entry.drawn is None:
            return
        painter.setPen(QPen(QColor(look.quiet), 1, Qt.PenStyle.DashLine))
        painter.drawRect(thumb.adjusted(0, 0, -1, -1))
        painter.setFont(self._appearance.font())
        room = thumb.adjusted(GRID, GRID, -GRID, -GRID)
        painter.setClipRect(thumb)
        painter.drawText(room, _WRAP, "nothing to show yet")
        painter.setClipping(False)

    def _paint_edge(self, painter: QPainter, thumb: QRect, option: QStyleOptionViewItem) -> None:
        selected = option.state & QStyle.StateFlag.State_Selected
        focus = option.state & QStyle.StateFlag.State_HasFocus
        width = (3 if focus else 2) if selected else 1
        out = width / 2 if not selected else width / 2 + 1
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self._appearance.color("measure" if selected else "steel"), width))
        painter.drawRect(QRectF(thumb).adjusted(-out, -out, out, out))
