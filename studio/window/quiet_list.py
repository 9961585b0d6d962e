"""What every list of the window has alike: several rows may be chosen, none is edited in place, nothing frames it."""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView


def make_quiet(view: QListView) -> None:
    """Set a list view up as the window's lists are."""
    view.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    view.setResizeMode(QListView.ResizeMode.Adjust)
    view.setFrameShape(QFrame.Shape.NoFrame)
    view.setTabKeyNavigation(False)
    view.viewport().setAutoFillBackground(False)


def choose_index(view: QAbstractItemView, index: QModelIndex) -> None:
    """Make ``index`` the one at hand and the only one chosen (an invalid one chooses nothing), whatever key is held.

    The view's own way asks the keyboard: with Ctrl down, as after a key that led here, it would choose nothing.
    """
    view.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
