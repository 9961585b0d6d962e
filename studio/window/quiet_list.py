"""What every list of the window has alike: several rows may be chosen, none is edited in place, nothing frames it."""

from PySide6.QtCore import Qt
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
