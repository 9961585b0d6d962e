"""Which tires a picture shows: checked in a list, no more of them than the picture takes."""

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QListView

from studio.decide.subjects import tires
from studio.model.episode import Episode
from studio.window.pictures_check import CheckDelegate

_MOST_ROWS = 6
Index = QModelIndex | QPersistentModelIndex


class TiresModel(QAbstractListModel):
    """The episode's tires with their check marks; ``chosen`` gives the ids that the user wants checked."""

    chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._tires: tuple[tuple[str, str], ...] = ()
        self._ids: tuple[str, ...] = ()
        self._takes = 0

    def show_choice(self, episode: Episode, ids: tuple[str, ...], takes: int) -> None:
        """Show the episode's tires, those of ``ids`` checked."""
        listed = tuple((tire.specimen.id, tire.subject.title) for tire in tires(episode))
        self._ids, self._takes = ids, takes
        if listed != self._tires:
            self.beginResetModel()
            self._tires = listed
            self.endResetModel()
        elif listed:
            self.dataChanged.emit(self.index(0), self.index(len(listed) - 1), [Qt.ItemDataRole.CheckStateRole])

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self._tires)

    def flags(self, index: Index) -> Qt.ItemFlag:
        Flag = Qt.ItemFlag
        return Flag.ItemIsEnabled | Flag.ItemIsSelectable | Flag.ItemIsUserCheckable

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        id_, words = self._tires[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return words
        if role == Qt.ItemDataRole.CheckStateRole:
            return Qt.CheckState.Checked if id_ in self._ids else Qt.CheckState.Unchecked
        return None

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """The user's check mark; where as many are checked as the picture takes, the oldest gives way."""
        if role != Qt.ItemDataRole.CheckStateRole:
            return False
        id_ = self._tires[index.row()][0]
        others = tuple(its for its in self._ids if its != id_)
        if Qt.CheckState(value) == Qt.CheckState.Checked:
            others = (*others[max(0, len(others) + 1 - self._takes) :], id_)
        self.chosen.emit(others)
        return True


class TireChoice(QListView):
    """The list itself. None checked leaves the choice to the picture."""

    def __init__(self) -> None:
        super().__init__()
        self.tires = TiresModel()
        self.setModel(self.tires)
        self.setItemDelegate(CheckDelegate(self))
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTabKeyNavigation(False)
        self.tires.modelReset.connect(self.updateGeometry)

    def sizeHint(self) -> QSize:
        count = self.tires.rowCount()
        row = self.sizeHintForRow(0) if count else self.fontMetrics().height()
        return QSize(self.fontMetrics().averageCharWidth() * 20, min(max(count, 1), _MOST_ROWS) * row + 6)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()
